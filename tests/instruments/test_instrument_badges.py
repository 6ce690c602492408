"""Badges, forms and banks' names that hold words of another kind say nothing against a check declared personal."""

from __future__ import annotations

import pytest
from clean_tender import patched

import checkface as cf

#: What nobody looked at, and a house that named itself nowhere, are not the subject here.
ELSEWHERE = {"pillar-not-seen", "payee-house-unknown"}
BADGES = [
    "UNITED STATES MARINE CORPS VETERAN", "US NAVY", "PROUD VETERAN UNITED STATES ARMY", "STATE UNIVERSITY ALUMNI",
    "SUPPORT YOUR FIRE DEPARTMENT", "NATIONAL PARK SERVICE CENTENNIAL", "FIRST NATIONAL BANK CHECK", "NO ACCOUNT FEES",
    "\u2610 TAX \u2610 MEDICAL \u2610 PAYROLL", "FOOD \u2610 RENT \u2610 CASH ADVANCE \u2610", "[ ] TAX [ ] PAYROLL",
]  # fmt: skip
BANKS = [
    "US Postal Service FCU", "United States Postal Service Federal Credit Union", "Home Equity Bank",
    "Investment Company Bank", "Mutual Fund Bank", "Farmers State Check Bank", "Postal Order Credit Union",
]  # fmt: skip
STRICT = {
    "legends": [
        "\u2610 TAX \u2611 PAYROLL", "PAYROLL", "PAYROLL \u2610", "[x] PAYROLL [ ] TAX", "PAYROLL\n\u2610 TAX \u2610 RENT",
        "VOID \u2610 COPY \u2610", "FIRE DEPARTMENT", "NO ACCOUNT", "BANK CHECK",
    ],
    "drawee": ["Mutual Fund, Bank of Specimen", "United States Postal Service", "Home Equity Line"],
}  # fmt: skip


def rules(name: str, text: str) -> set[str]:
    return {
        finding.rule for finding in cf.assess(patched({f"face.{name}": text, "documents": "(absent)"})).findings
    } - ELSEWHERE


@pytest.mark.parametrize("legends", BADGES)
def test_a_badge_or_a_form_is_no_evidence(legends: str) -> None:
    assert rules("legends", legends) == rules("legends", legends.lower()) == set()


@pytest.mark.parametrize("drawee", BANKS)
def test_a_bank_may_be_called_anything(drawee: str) -> None:
    assert rules("drawee", drawee) == rules("drawee", drawee.upper() + "\nAnytown") == set()


@pytest.mark.parametrize(("name", "text"), [(name, text) for name, texts in STRICT.items() for text in texts])
def test_the_same_words_as_a_statement_still_count(name: str, text: str) -> None:
    assert rules(name, text)
