"""Never-convert wording is found in its usual spellings, whatever else is printed above or below it."""

from __future__ import annotations

from itertools import permutations
from typing import Any

import pytest
from clean_tender import patched

import checkface as cf

HOUSE = cf.Policy.parse('[payee]\nnames = ["Quillfeather Grocery"]')
BARRING = [
    "VOID", "NON-NEGOTIABLE", "MONEY ORDER", "STARTER CHECK", "PAID IN FULL", "SIGNATURE NOT REQUIRED", "CASHIER'S CHECK",
]  # fmt: skip
#: Each begins with words that, on the same line, would turn a barring phrase into a limit or a name.
FOLLOWING = ["NOT VALID OVER $500.00", "AFTER 90 DAYS", "EXPRESS", "UNLESS OVER $500", "DATE 11/24", "CASHING"]
#: What print wraps into: the first word of the line below goes on with the line above.
WRAPPED = {(void, below) for void in ("VOID", "NON-NEGOTIABLE") for below in ("AFTER 90 DAYS", "UNLESS OVER $500")}
SPELLINGS = {
    "travelers-check": ["TRAVELERS CHEQUES", "TRAVELER'S CHECKS", "TRAVELERSCHEQUE", "Travelers Checks"],
    "cashiers-check": ["CASHIER'S CHECKS", "CASHIER S CHECK", "CASHIER-S CHECK", "cashiers checks"],
    "money-order": ["MONEY ORDERS", "Money  Order"],
    "postal-money-order": ["UNITED STATES POSTAL SERVICE", "US Postal Money Order"],
    "treasury-check": ["DEPARTMENT OF THE TREASURY", "United States Treasury"],
    "federal-bank-item": ["FEDERAL RESERVE BANK", "FEDERAL HOME LOAN BANK OF EXAMPLE"],
    "credit-line-draft": ["CASH ADVANCE", "Convenience Check"],
    "savings-bond": ["SAVINGS BOND"],
}


def assessed(**patch: Any) -> cf.Assessment:
    return cf.assess(patched({path.replace("__", "."): value for path, value in patch.items()}), HOUSE)


@pytest.mark.parametrize("barring", BARRING)
@pytest.mark.parametrize("below", FOLLOWING)
def test_a_second_line_never_cancels_the_first(barring: str, below: str) -> None:
    alone = assessed(face__legends=[barring]).disposition
    assert alone > "convert"
    for lines in permutations([barring, below]):
        if lines in WRAPPED:
            continue
        assert assessed(face__legends=list(lines)).disposition >= alone, lines


@pytest.mark.parametrize(("rule", "wording"), [(rule, text) for rule, texts in SPELLINGS.items() for text in texts])
def test_spellings_of_what_is_never_converted(rule: str, wording: str) -> None:
    found = assessed(face__legends=wording)
    assert rule in {finding.rule for finding in found.findings}
    assert found.disposition > "convert"


@pytest.mark.parametrize(
    "lines",
    [["CASHIER'S CHECK", "REMITTER ADA SAMPLE"], ["MONEY ORDER", "PURCHASER: ADA SAMPLE"]],
    ids=lambda lines: lines[0],
)
def test_wording_where_the_drawer_usually_stands(lines: list[str]) -> None:
    assert assessed(face__drawer=lines).disposition > "convert"


@pytest.mark.parametrize("reading", ["payee", "drawee", "words", "date"])
def test_void_written_over_a_line(reading: str) -> None:
    assert assessed(**{f"face__{reading}": "VOID"}).disposition > "convert"


@pytest.mark.parametrize(
    "legends",
    [
        "VOID\nAFTER 180 DAYS", "VOID\r\nIF ALTERED", "NOT NEGOTIABLE\nAFTER 180 DAYS", "VOID\n180 DAYS FROM DATE",
        "DO NOT CASH\nIF WATERMARK IS MISSING", "SECURITY FEATURES:\nVOID,\nMICROPRINT,\nWATERMARK",
        "SECURITY FEATURES: MICROPRINT, WATERMARK,\nVOID", "THE WORD VOID\nWILL APPEAR IF COPIED",
        "VOID\nOVER $5,000", "NOT NEGOTIABLE\nWITHOUT WATERMARK",
    ],
)  # fmt: skip
def test_print_that_goes_on_in_the_next_line_is_a_limit_or_a_note(legends: str) -> None:
    assert assessed(face__legends=legends).disposition == "convert"


@pytest.mark.parametrize(
    "legends",
    [
        "VOID\nMICROPRINTED SIGNATURE LINE", "VOID\nWATERMARK ON BACK", "HOLD TO LIGHT TO VIEW WATERMARK\nVOID",
        "VOID\nVOID AFTER 90 DAYS", "AFTER 90 DAYS\nVOID", "VOID\n\nSECURITY FEATURES ON BACK", "MEMO:\nVOID",
        "NOT NEGOTIABLE\nORIGINAL DOCUMENT", "DO NOT CASH\nAUTHORIZED SIGNATURE", "VOID\n$45.10", "VOID\nOVER THE HILL",
    ],
)  # fmt: skip
def test_a_stamp_beside_print_stays_a_stamp(legends: str) -> None:
    assert assessed(face__legends=legends).disposition > "convert"
