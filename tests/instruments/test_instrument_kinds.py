"""The kind of paper, with its evidence and rivals."""

from __future__ import annotations

import os

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from checkface import instruments
from checkface.instruments import Evidence, Kind, LineFacts, Weight, infer
from checkface.span import Span

MANY = 2000 if os.environ.get("CHECKFACE_THOROUGH") else 200
ORDINARY = LineFacts(series="primary", auxiliary=False, account=True, serial=True, country="US")
OFFICIAL = {"legends": "Official Check", "drawer": "FIRST SPECIMEN BANK"}
PEOPLE = {"drawer": "JORDAN Q SPECIMEN\nALEX SPECIMEN\n12 MAPLE ST\nANYTOWN PA 15001"}


@pytest.mark.parametrize(
    ("facts", "kind"),
    [
        ({"epc": "4"}, Kind.SUBSTITUTE_CHECK),
        ({"epc": "5"}, Kind.SUBSTITUTE_CHECK),
        ({"epc": "6"}, Kind.REMOTELY_CREATED_CHECK),
        ({"epc": "2"}, None),
        ({"epc": "9"}, None),
        ({"series": "travelers"}, Kind.TRAVELERS_CHECK),
        ({"series": "electronic"}, None),
        ({"series": "government"}, None),
        ({"government_kind": "postal-money-order", "government_confirmed": True}, Kind.POSTAL_MONEY_ORDER),
        ({"government_kind": "treasury-check", "government_confirmed": True}, Kind.TREASURY_CHECK),
        ({"government_kind": "savings-bond", "government_confirmed": True}, Kind.SAVINGS_BOND),
        ({"government_kind": "federal-reserve-bank", "government_confirmed": True}, Kind.FEDERAL_BANK_ITEM),
        ({"government_kind": "federal-home-loan-bank", "government_confirmed": True}, Kind.FEDERAL_BANK_ITEM),
        ({"government_kind": "us-treasury", "government_confirmed": True}, Kind.FEDERAL_BANK_ITEM),
        ({"government_kind": "federal-reserve-bank"}, None),
        ({"auxiliary": True}, None),
        ({"country": "CA"}, None),
        ({}, None),
    ],
)
def test_what_the_line_alone_settles(facts: dict[str, object], kind: Kind | None) -> None:
    assert infer(ORDINARY._replace(**facts), {}).kind is kind  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("wording", "kind"),
    [
        (OFFICIAL | {"drawee": "First Specimen Bank\nAnytown"}, "cashiers-check"),
        (OFFICIAL | {"drawee": "Second Notional Bank"}, "tellers-check"),
        (OFFICIAL, None),
        ({"drawer": "FIRST SPECIMEN BANK", "drawee": "FIRST SPECIMEN BANK"}, "cashiers-check"),
        ({"drawer": "SPECIMEN CREDIT UNION", "drawee": "NOTIONAL TRUST COMPANY"}, "tellers-check"),
        ({"drawer": "FIRST SPECIMEN BANK"}, None),
        ({"legends": "CASHIER'S CHECK\nMONEY ORDER"}, None),
        ({"legends": "POSTAL MONEY ORDER\nMONEY ORDER"}, "postal-money-order"),
        ({"legends": "MONEY ORDER", "drawer": "SPECIMEN GROCERY INC"}, "money-order"),
        ({"legends": "PAYROLL", "drawer": "SPECIMEN PLUMBING LLC"}, "payroll"),
        ({"drawer": "SPECIMEN PLUMBING LLC\n12 MAPLE ST"}, "business"),
        ({"drawer": "SPECIMEN & SONS\n12 MAPLE ST"}, "business"),
        ({"drawer": "JORDAN SPECIMEN DBA SPECIMEN LAWN\n12 MAPLE ST"}, "business"),
        ({"drawer": "FIRST BAPTIST CHURCH\n12 MAPLE ST"}, "business"),
        ({"drawer": "CORNER FLORIST\n12 MAPLE ST"}, None),
        ({"drawer": "CITY OF ANYTOWN\n12 MAPLE ST"}, "government-check"),
        ({"drawer": "STATE OF OHIO"}, "government-check"),
        ({"drawer": "TELLER COUNTY TREASURER\n1 MAIN ST"}, "government-check"),
        ({"drawer": "CITY OF REFUGE CHURCH INC\n12 MAPLE ST"}, "business"),
        ({"legends": "GENERAL WARRANT", "drawer": "COUNTY OF SPECIMEN"}, "government-check"),
        ({"legends": "UNITED STATES TREASURY", "drawer": "STATE OF OHIO"}, "treasury-check"),
        ({"drawer": "FEDERAL RESERVE BANK OF CHICAGO"}, "federal-bank-item"),
        ({"legends": "CERTIFIED", "drawer": "SPECIMEN LLC"}, "certified-check"),
        ({"legends": "NO SIGNATURE REQUIRED", "drawer": "JORDAN SPECIMEN\n12 MAPLE ST"}, "remotely-created-check"),
        ({"words": "Forty Canadian dollars", "legends": "MONEY ORDER"}, "foreign-currency-check"),
        ({"figures": "€45,10"}, "foreign-currency-check"),
        ({"figures": "CA$45.10"}, "foreign-currency-check"),
        ({"figures": "C$50.00"}, "foreign-currency-check"),
        ({"figures": "CAD50.00"}, "foreign-currency-check"),
        ({"figures": "50.10 CAD"}, "foreign-currency-check"),
        ({"figures": "50.10CAD"}, "foreign-currency-check"),
        ({"figures": "$45.10 USD"}, None),
        ({"figures": "US$45.10"}, None),
        ({"words": "ciento veinte pesos con 50/100"}, None),
        ({"legends": "LEGAL COPY OF YOUR CHECK. MONEY ORDER", "words": "Forty euros"}, "substitute-check"),
        ({"legends": "HOME EQUITY LINE OF CREDIT", "drawer": "JORDAN SPECIMEN\n12 MAPLE ST"}, "credit-line-draft"),
        ({"legends": "MONEY MARKET FUND"}, "investment-draft"),
        ({"legends": "MONEY MARKET ACCOUNT"}, None),
        ({"legends": "STARTER CHECK"}, "counter-check"),
        ({"drawer": "JORDAN SPECIMEN\n12 MAPLE ST", "payee": "United States Treasury"}, "personal"),
        ({"drawer": "JORDAN SPECIMEN\n12 MAPLE ST", "payee": "Money Order Store"}, "personal"),
        ({}, None),
    ],
)  # fmt: skip
def test_what_the_wording_settles_beside_an_ordinary_line(wording: dict[str, str], kind: str | None) -> None:
    assert infer(ORDINARY, wording).kind == kind


@pytest.mark.parametrize(
    "drawer",
    [
        "JORDAN Q SPECIMEN\n12 MAPLE ST\nANYTOWN PA 15001",
        "JORDAN & ALEX SPECIMEN\nPO BOX 12\nANYTOWN, PA 15001",
        "Mr. or Mrs. Jordan O'Specimen-Example, Jr.\n12 Maple St",
        "JORDAN SPECIMEN 12 MAPLE ST ANYTOWN PA 15001",
        "JORDAN SPECIMEN, 12 MAPLE ST",
        "José Muñoz Ñandú\n12 Calle Sol\nPonce PR 00716",
        "Дар'я Зразок\n12 MAPLE ST",
        "JORDAN SPECIMEN\nAnytown CO 80202",
        "JORDAN SPECIMEN\n1 Treasury Lane\nMoney Order, CO 80202",
    ],
)
def test_people_at_an_address_are_personal_by_shape_alone(drawer: str) -> None:
    found = infer(ORDINARY, {"drawer": drawer})
    assert found.kind is Kind.PERSONAL
    assert [(e.kind, e.weight, e.reading) for e in found.evidence] == [(Kind.PERSONAL, Weight.STRONG, "drawer")]
    assert found.rivals == ()


@pytest.mark.parametrize(
    "drawer",
    ["JORDAN SPECIMEN", "SPECIMEN\n12 MAPLE ST", "12 MAPLE ST", "", "12345", "J. SPECIMEN 2ND\n", "??? ???\n12 ELM"],
)
def test_less_than_a_name_and_an_address_is_undetermined(drawer: str) -> None:
    assert infer(ORDINARY, {"drawer": drawer}).kind is None


@pytest.mark.parametrize(
    "facts",
    [
        {"auxiliary": True},
        {"auxiliary": None},
        {"account": False},
        {"account": None},
        {"country": None},
        {"country": "other"},
        {"series": None},
        {"series": "electronic"},
        {"series": "unassigned"},
        {"epc": "1"},
        {"epc": "2"},
        {"government_kind": "federal-reserve-bank"},
    ],
)
def test_people_on_a_line_that_is_not_ordinary_are_undetermined(facts: dict[str, object]) -> None:
    found = infer(ORDINARY._replace(**facts), PEOPLE)  # type: ignore[arg-type]
    assert found.kind is None
    assert infer(None, PEOPLE).kind is None


def test_a_blank_code_is_an_ordinary_line() -> None:
    assert infer(ORDINARY._replace(epc=" "), PEOPLE).kind is Kind.PERSONAL


def test_the_evidence_says_what_and_where() -> None:
    found = infer(ORDINARY._replace(auxiliary=True, epc="6"), PEOPLE | {"legends": "Official  bank\ncheck"})
    assert found.kind is None
    code, field = (
        "the code 6 of a remotely created check",
        "an auxiliary field, which only paper of business size holds",
    )
    official = Weight.DECISIVE, "legends", Span(0, 20), "the wording Official bank check"
    assert found.evidence == (
        Evidence(Kind.REMOTELY_CREATED_CHECK, Weight.DECISIVE, "micr.epc", None, code),
        Evidence(Kind.BUSINESS, Weight.HINT, "micr.auxiliary", None, field),
        Evidence(Kind.CASHIERS_CHECK, *official),
        Evidence(Kind.TELLERS_CHECK, *official),
    )
    assert found.rivals == (Kind.REMOTELY_CREATED_CHECK, Kind.CASHIERS_CHECK, Kind.TELLERS_CHECK, Kind.BUSINESS)


def test_rivals_stay_named_beside_the_kind() -> None:
    found = infer(None, {"legends": "CASHIER'S CHECK", "drawer": "SPECIMEN LLC"})
    assert (found.kind, found.rivals) == (Kind.CASHIERS_CHECK, (Kind.BUSINESS,))
    assert [e.kind for e in found.against(Kind.CASHIERS_CHECK)] == [Kind.BUSINESS]
    assert found.against(Kind.BUSINESS) == (found.evidence[0],)


def test_wording_that_is_no_kind_is_given_with_its_place() -> None:
    wording = {"legends": "ORIGINAL DOCUMENT\n** VOID **", "endorsements": "Paid in full"}
    found = infer(None, wording)
    assert [(x.family, x.id, x.reading, x.span.of(wording[x.reading])) for x in found.legends] == [
        ("void", "void", "legends", "VOID"),
        ("conditional", "full-satisfaction", "endorsements", "Paid in full"),
    ]
    assert {legend.source for legend in found.legends} == {
        "UCC 3-311",
        "common practice: a limit or a security note is no void",
    }


def test_what_is_remembered_of_a_federal_number_never_settles_the_kind() -> None:
    """A number known from memory may put other kinds in doubt; alone it makes nothing more acceptable."""
    series = ORDINARY._replace(series="government")
    without = infer(series, {})
    remembered = infer(series._replace(government_kind="postal-money-order"), {})
    assert without.kind is remembered.kind is None
    assert set(without.rivals) == set(remembered.rivals) == {Kind.TREASURY_CHECK, Kind.POSTAL_MONEY_ORDER}
    assert infer(ORDINARY, PEOPLE).kind is Kind.PERSONAL
    assert infer(ORDINARY._replace(government_kind="federal-reserve-bank"), PEOPLE).kind is None


FACTS = st.builds(
    LineFacts,
    st.sampled_from([None, "government", "primary", "thrift", "electronic", "travelers", "unassigned"]),
    st.sampled_from([None, "treasury-check", "postal-money-order", "savings-bond", "federal-reserve-bank"]),
    st.booleans(),
    st.sampled_from([None, " ", *"0123456789"]),
    st.sampled_from([None, True, False]),
    st.sampled_from([None, True, False]),
    st.sampled_from([None, True, False]),
    st.sampled_from([None, "US", "CA", "other"]),
)  # fmt: skip
LEGENDS = [
    "",
    "CASHIER'S CHECK",
    "MONEY ORDER",
    "OFFICIAL CHECK",
    "PAYROLL",
    "CERTIFIED",
    "VOID AFTER 90 DAYS",
    "EURO",
    "x",
]
DRAWERS = [
    "",
    "JORDAN SPECIMEN\n12 MAPLE ST",
    "SPECIMEN LLC",
    "CITY OF ANYTOWN",
    "FIRST SPECIMEN BANK",
    "MARY CHURCH\n1 ELM",
]


@given(FACTS, st.sampled_from(LEGENDS), st.sampled_from(DRAWERS))
@settings(max_examples=2 * MANY)
def test_an_inference_holds_together(facts: LineFacts, legends: str, drawer: str) -> None:
    found = infer(facts, {"legends": legends, "drawer": drawer})
    kinds = {evidence.kind for evidence in found.evidence}
    assert set(found.rivals) == kinds - {found.kind}
    if found.kind is not None:
        mine = {e.weight for e in found.evidence if e.kind is found.kind}
        theirs = {e.weight for e in found.against(found.kind)}
        assert mine & {Weight.DECISIVE, Weight.STRONG}
        assert Weight.DECISIVE in mine or Weight.DECISIVE not in theirs
    if found.kind is Kind.PERSONAL:
        assert kinds == {Kind.PERSONAL}
        assert facts.auxiliary is False


@given(FACTS, st.sampled_from(LEGENDS[1:]), st.sampled_from(DRAWERS))
@settings(max_examples=MANY)
def test_more_wording_never_makes_a_check_personal(facts: LineFacts, legends: str, drawer: str) -> None:
    if infer(facts, {"drawer": drawer}).kind is not Kind.PERSONAL:
        assert infer(facts, {"drawer": drawer, "legends": legends}).kind is not Kind.PERSONAL


@given(st.dictionaries(st.sampled_from(["legends", "drawer", "drawee", "payee"]), st.text(max_size=80)))
@settings(max_examples=MANY)
def test_any_wording_gives_an_inference(wording: dict[str, str]) -> None:
    found = infer(None, wording)
    for evidence in found.evidence:
        assert evidence.span is not None
        assert 0 <= evidence.span.start < evidence.span.end <= len(wording[evidence.reading])


@pytest.mark.parametrize(
    ("serial", "holds"),
    [
        ("88382013445", True),
        ("56152240784", True),
        ("74051489623", False),
        ("66606631178", False),
        ("883-8201344 5", True),
        ("8838201344", None),
        ("883820134455", None),
        ("8838201344x", None),
        ("٨8382013445", None),
        ("", None),
        ("8" * 50_000, None),
    ],
)
def test_the_textbooks_rule_of_postal_serials(serial: str, holds: bool | None) -> None:
    """Published examples of mathematics textbooks: two fit, two do not."""
    assert instruments.postal_serial_ok(serial) is holds
