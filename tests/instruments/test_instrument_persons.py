"""Whose name stands at the upper left: a person's is evidence for a personal check, no other is."""

from __future__ import annotations

from typing import Any

import pytest
from clean_tender import patched

import checkface as cf
from checkface.instruments import Kind, LineFacts, infer

#: What nobody looked at, and a house that named itself nowhere, are not the subject here.
ELSEWHERE = {"pillar-not-seen", "payee-house-unknown"}
ORDINARY = LineFacts(series="primary", auxiliary=False, account=True, serial=True, country="US")
ADDRESS = "\n12 Elm St\nSpringfield IL"

#: Nobody's name, whatever the clerk declares or leaves undeclared: wording that speaks for another kind.
BODIES = {
    "government-check": [
        "Social Security Administration", "United States of America", "Secretary of State", "Comptroller of Illinois",
        "Veterans Affairs", "Springfield Fire Dept", "Internal Revenue Service", "IRS", "State of Illinois",
        "City of Springfield", "Springfield Police Department", "Example County Sheriff's Office", "US Army",
        "Springfield School District", "Clerk of the Circuit Court",
    ],
    "postal-money-order": ["USPS", "United States Postal Service"],
    "federal-bank-item": ["Federal Reserve", "Federal Home Loan Bank"],
    "treasury-check": ["T R E A S U R Y", "The Treasury", "Treasury Dept", "U S Treasury"],
    "business-check": [
        "Bell Dental PC", "Bell Dental P.C.", "Specimen Ministries", "Bell Plumbing LLC", "Specimen Lumber Co",
        "Specimen University", "Ann Bell DBA Nook", "First Church", "Golden Wok Restaurant", "Springfield Rotary Club",
    ],
    "cashiers-check": ["Specimen Trust Co", "Specimen Credit Union", "Specimen Savings Bank NA", "Bank of Specimen"],
}  # fmt: skip
#: Names that leave the kind open: kept or asked about, whatever the clerk declares.
OPEN = [
    "Specimen Savings", "Elm Street Escrow", "Travelers Express", "THE LEARNING CENTER", "Blue Ridge Fellowship",
    "Lucky Nails", "Quick Print", "Corner Florist", "Ann's Nook", "Joe\u2019s Garage", "Springfield Auto Body",
    "Friends of Specimen", "The Bell Family", "Elm Street Dental", "Happy Kitchen", "Grace Church",
    "Red Barn Farm", "Specimen Veterans Council", "Example Tax Service", "Window Glass",
    "Bell Estate", "Embassy of Nowhere", "Downtown Books", "Valley Hospice", "Ann Co",
]  # fmt: skip
#: Surnames and given names that are trades, offices, places or things too.
PERSONS = [
    "Ann Baker", "John Cook", "Ann Bishop", "Mary Church", "Ann Banks", "Ann Marshall", "Ann King", "Ann Price",
    "Ann Park", "Ann Traveler", "Jo Law", "Ann Flowers", "Ann Barber", "Tom Steel", "Ann Temple", "Ann Post",
    "Hal Hall", "Ann House", "Ann Stone", "Ann Wood", "Bo Carpenter", "Bo Mason", "Bo Taylor", "Bo Miller", "Bo Butcher",
    "Bo Gardener", "Bo Fisher", "Bo Hunter", "Bo Porter", "Bo Page", "Bo Castle", "Bo Mills", "Bo Parish", "Bo Chase",
    "Bo Power", "Bo Glass", "Bo Pack", "Bo Lodge", "Bo Kitchen", "Bo Coffee", "Bo Orchard", "Bo Abbott", "Bo Judge",
    "Bo Sargent", "Bo Major", "Bo Duke", "Bo Noble", "Bo Sheriff", "Bo Constable", "Bo Clark", "Bo Dean", "Bo Proctor",
    "Bo Sexton", "Bo Deacon", "Bo Pope", "Bo Monk", "Bo Abbey", "Bo Cross", "Bo Bell", "Bo West", "Bo Rivers",
    "Ann Q Bellwether", "Ann & Bo Bellwether", "Ann and Bo Church", "Nat Bellwether", "Dr Ann Bellwether MD",
    "Mr. or Mrs. Bo O'Specimen-Example, Jr.", "Guy Money", "Christian Bell", "Grace Bell", "Faith Hope", "Bill Cash",
]  # fmt: skip


def rules(drawer: str, declared: str) -> set[str]:
    face: dict[str, Any] = {"face.drawer": drawer + ADDRESS, "face.drawee": "(absent)", "documents": "(absent)"}
    assessment = cf.assess(patched(face | {"counter.declared_kind": declared}))
    return {finding.rule for finding in assessment.findings} - ELSEWHERE


@pytest.mark.parametrize(("rule", "drawer"), [(rule, name) for rule, names in BODIES.items() for name in names])
def test_bodies_offices_and_companies_are_never_converted(rule: str, drawer: str) -> None:
    for name in (drawer, drawer.upper()):
        assert rule in rules(name, "(absent)")
        assert {rule, "kind-contradicts-declared"} <= rules(name, "personal")


@pytest.mark.parametrize("drawer", OPEN)
def test_a_name_that_no_person_has_is_no_evidence_for_a_personal_check(drawer: str) -> None:
    for name in (drawer, drawer.upper()):
        assert "kind-undetermined" in rules(name, "(absent)")
        assert rules(name, "personal") & {"drawer-not-a-person", "drawer-unclear"}


@pytest.mark.parametrize("drawer", PERSONS)
def test_people_are_people_whatever_their_names_mean(drawer: str) -> None:
    for name in (drawer, drawer.upper()):
        assert infer(ORDINARY, {"drawer": name + "\n12 Treasury St\nMoney MS"}).kind is Kind.PERSONAL
        assert rules(name, "(absent)") | rules(name, "personal") <= {"drawer-unclear"}  # one look at the most


def of_bank(drawer: str, drawee: str | None) -> set[str]:
    face = {"face.drawer": drawer, "face.drawee": "(null)" if drawee is None else drawee}
    assessment = cf.assess(patched({**face, "documents": "(absent)"}))
    return {finding.rule for finding in assessment.findings} - ELSEWHERE


@pytest.mark.parametrize(
    "drawer", ["EXAMPLE BANK", "FIRST BANK", "Specimen State Bank", "KEYSTONE BANK", "SPECIMEN FCU"]
)
@pytest.mark.parametrize("drawee", ["", None, "(absent)", "Specimen State Bank", "Notional Bank"])
def test_a_bank_as_drawer_is_never_milder_for_a_drawee_that_nobody_read(drawer: str, drawee: str | None) -> None:
    for address in ("", ADDRESS):
        if address and drawer == "KEYSTONE BANK":  # over an address it may be a person's name as well
            continue
        assert "kind-contradicts-declared" in of_bank(drawer + address, drawee)


@pytest.mark.parametrize(
    "drawer", ["TYRA BANK", "JORDAN O'SPECIMEN-BANK", "Ana Banco", "Jo Q Bank", "ALEX SPECIMEN\nTYRA BANK"]
)
@pytest.mark.parametrize("drawee", ["", None, "(absent)", "Specimen State Bank"])
def test_bank_is_a_surname_too(drawer: str, drawee: str | None) -> None:
    assert of_bank(drawer + "\n7 BANK ST\nANYTOWN PA 15001", drawee) <= {"drawer-unclear", "drawee-unclear"}


def test_a_name_that_ends_in_bank_over_an_address_is_a_banks_where_the_drawee_says_so() -> None:
    assert "cashiers-check" in of_bank("KEYSTONE BANK" + ADDRESS, "Keystone Bank")


@pytest.mark.parametrize(
    "below",
    [
        "PHARMACY RD 9\nANYTOWN PA 15001", "PHARMACY LANE\nANYTOWN PA 15001", "UNIVERSITY AVE 1200\nANYTOWN PA 15001",
        "ONE UNIVERSITY PLACE APT 4\nANYTOWN PA 15001", "RESTAURANT ROW\nANYTOWN PA 15001",
        "CHURCH OF CHRIST RD\nANYTOWN PA 15001", "WATER DISTRICT RD\nANYTOWN PA 15001",
        "BANK OF THE OHIO RD\nANYTOWN PA 15001", "12 MAPLE ST\nSTATE COLLEGE, PENNSYLVANIA 16801",
        "12 MAPLE ST\nTOWN OF TONAWANDA, NEW YORK 14150", "12 MAPLE ST\nCOUNTY OF MARIN CA",
        "12 MAPLE ST\nCOUNTY OF MARIN, CALIFORNIA", "PSC 455 BOX 12\nFPO AP 96540",
    ],
)  # fmt: skip
def test_an_address_without_a_number_ahead_is_nobodys_name(below: str) -> None:
    assert of_bank("JORDAN Q SPECIMEN\n" + below, "Specimen State Bank") == set()


@pytest.mark.parametrize(
    "drawer",
    [
        "SPECIMEN FUND\nSTATE OF OHIO", "PAYMENTS\nDEPARTMENT OF REVENUE, OHIO", "FINANCE\nCITY OF SPRINGFIELD IL",
        "JORDAN SPECIMEN\nDISTRICT COURT", "JORDAN SPECIMEN\nUNIVERSITY OF VERMONT", "PHARMACY RD\n12 MAPLE ST",
        "JORDAN SPECIMEN\nSPECIMEN PSC 12", "JORDAN SPECIMEN\nBELL DENTAL PSC",
    ],
)  # fmt: skip
def test_a_body_below_the_first_line_is_no_address(drawer: str) -> None:
    assert "kind-contradicts-declared" in of_bank(drawer + "\n12 MAPLE ST\nANYTOWN PA 15001", "Specimen State Bank")
