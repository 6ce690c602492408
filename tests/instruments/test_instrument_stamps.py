"""Stamps and short wordings that bar or refer a check declared personal, each alone on its line: common practice."""

from __future__ import annotations

import pytest
from clean_tender import patched

import checkface as cf

HOUSE = cf.Policy.parse('[payee]\nnames = ["Quillfeather Grocery"]')
STAMPS = {
    "certified-check": [
        "CERTIFIED 11/24/2026", "CERTIFIED BY EXAMPLE STATE BANK", "CERTIFIED - EXAMPLE STATE BANK", "BANK CERTIFIED",
        "ACCEPTED 11/24/26 EXAMPLE BANK", "GOOD WHEN PROPERLY INDORSED",
    ],
    "legend-void": [
        "CANCELLED 11/23", "CANCELLED BY DRAWER", "CANCELLED - DO NOT USE", "NOT VALID", "INVALID", "DO NOT USE",
        "DO NOT NEGOTIATE", "SPOILED", "VO ID", "PHOTO COPY", "COPY OF CHECK", "NOT A CHECK", "SAMPLE CHECK - NOT VALID",
        "SAMPLE 123",
    ],
    "substitute-check": ["LEGAL COPY", "IRD"],
    "travelers-check": ["TRAVEL CHECK", "COUNTERSIGN HERE"],
    "money-order": ["M.O."],
    "government-check": ["WARRANT 12345", "STATE OF EXAMPLE WARRANT"],
    "investment-draft": ["MONEY MKT FUND", "CASH MGMT ACCOUNT"],
    "credit-line-draft": ["EQUITY ACCESS LINE CHECK", "LOC CHECK"],
    "counter-check": ["TEMP CHECK", "STARTER KIT CHECK"],
    "payroll-check": ["PAYCHK"],
    "business-check": ["COMMISSION CHECK"],
    "foreign-currency-check": ["CAD", "CDN $", "U.K. POUNDS"],
    "already-returned": ["ACCT CLSD", "A/C CLOSED", "UNCOLLECTED"],
    "second-signature-asked": ["TWO SIGNATURES REQD"],
}  # fmt: skip
CONVERTED = ["ACH'D", "E-CHECK PROCESSED", "DEPOSITED VIA MOBILE", "MOBILE DEPOSIT 11/20/26", "DEPOSITED 11/20",
             "FOR MOBILE DEPOSIT ONLY AT EXAMPLE BANK"]  # fmt: skip
PRINT = [
    "NOT VALID\nOVER $500", "INVALID\nIF ALTERED", "CERTIFIED RECYCLED PAPER 30", "MO",
    "YOUR CANCELLED CHECKS ARE YOUR RECEIPTS", "CHECK HERE FOR MOBILE DEPOSIT", "REQ 12", "MONEY MKT CHECKING",
]  # fmt: skip


def found(**face: str) -> tuple[str, set[str]]:
    assessment = cf.assess(patched({f"face.{name}": text for name, text in face.items()}), HOUSE)
    return str(assessment.disposition), {finding.rule for finding in assessment.findings}


@pytest.mark.parametrize(("rule", "text"), [(rule, text) for rule, texts in STAMPS.items() for text in texts])
def test_a_stamp_speaks(rule: str, text: str) -> None:
    for legends in (text, text.lower(), f"DOLLARS\n{text}\nAUTHORIZED SIGNATURE"):
        disposition, rules = found(legends=legends)
        assert rule in rules
        assert disposition != "convert"


@pytest.mark.parametrize("text", CONVERTED)
def test_a_check_that_was_deposited_or_debited_is_not_taken_again(text: str) -> None:
    assert found(legends=text)[0] == "decline"


@pytest.mark.parametrize("payee", ["VOID Quillfeather Grocery", "Quillfeather VOID"])
def test_void_beside_the_payee(payee: str) -> None:
    disposition, rules = found(payee=payee)
    assert (disposition, "legend-void" in rules) == ("decline", True)


@pytest.mark.parametrize("legends", PRINT)
def test_print_that_only_looks_like_a_stamp(legends: str) -> None:
    assert found(legends=legends)[0] == "convert"
