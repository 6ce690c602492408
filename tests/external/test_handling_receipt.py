"""Receipts and notices against what the published provisions ask for, element by element."""

from __future__ import annotations

import datetime
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checkface.decision import Decision
from checkface.findings import Disposition
from checkface.handling import Agency, Instructions, Printing, handle, preview_text, spelled
from checkface.policy import Policy
from checkface.reading import read
from checkface.rules import Examination
from checkface.tender import Tender

POLICY = Policy.parse(
    """
    [house]
    name = "Quillfeather Grocery"
    telephone = "217-555-0100"
    location = "Store 0007"
    city = "Springfield"
    state = "IL"
    return_fee = "25.00"
    """
)
TENDER: dict[str, Any] = {
    # 071098973 is a specimen routing number.
    "face": {"micr": "⑆071098973⑆ 45601122⑈ 1043", "serial": "1043", "payee": "Quillfeather Grocery"},
    "counter": {"on": "2026-11-24", "amount": "45.10", "store": "7", "lane": "3"},
}


def made(disposition: Disposition, agency: Agency | None = None) -> Instructions:
    """Instructions for the tender above under *disposition*."""
    found = read(Tender.model_validate(TENDER))
    decision = Decision(disposition, Examination((), {}, found, POLICY), POLICY.digest)
    printing = Printing(at=datetime.time(10, 32))
    return handle(decision, found, POLICY, printing, agency)


def flat(text: str) -> str:
    """*text* in one line and small letters."""
    return " ".join(text.lower().split())


@pytest.mark.parametrize(
    "element",
    [
        # Published summaries of the network's point-of-purchase receipt requirements, item by item.
        "quillfeather grocery",  # originator's name
        "217-555-0100",  # originator's telephone number
        "11/24/2026",  # date of the transaction
        "$45.10",  # amount
        "check number 1043",  # check serial number
        "store 0007",  # merchant number or location id
        "springfield",  # city of the terminal
        "state il",  # state of the terminal
        # 12 CFR 1005.9(a)(3): the type of the transfer and of the account.
        "one electronic transfer from your account",
    ],
)
def test_the_receipt_has_each_required_item(element: str) -> None:
    printed = preview_text(made(Disposition.CONVERT), 60)
    assert element in flat(printed[printed.index("RECEIPT\n") :])


def test_the_receipt_shows_no_more_than_four_characters_of_the_account() -> None:
    # 12 CFR 1005.9(a)(4): a number or code that identifies the account need not exceed four digits or letters.
    receipt = made(Disposition.CONVERT).receipt
    assert receipt is not None
    assert "1122" in receipt.text
    assert "01122" not in receipt.text


def notice(key: str, disposition: Disposition, agency: Agency | None = None) -> str:
    """The text of the notice called *key*."""
    (found,) = (each for each in made(disposition, agency).notices if each.id == key)
    return flat(found.text)


@pytest.mark.parametrize(
    "element",
    [
        # 12 CFR 1005.3(b)(2)(ii) and the thoughts of model clause A-6(a): either way of payment is authorized ...
        "you authorize us either to use the information on your check for a one-time electronic fund transfer",
        "or to handle the payment as a check",
        # ... and with an electronic transfer funds may leave the same day, and the bank does not return the check.
        "may leave your account as soon as today",
        "your bank will not send you that check",
    ],
)
def test_the_posted_notice_has_each_element(element: str) -> None:
    assert element in notice("posted", Disposition.CONVERT)


def test_the_fee_notice_says_that_it_is_collected_electronically_and_how_much_it_is() -> None:
    # 12 CFR 1005.3(b)(3)(i): the fee, its amount, and that it is collected by an electronic fund transfer.
    text = notice("return-fee", Disposition.CONVERT)
    assert "fee of $25.00" in text
    assert "electronic fund transfer" in text


@pytest.mark.parametrize(
    "element",
    [
        "example reports", "1 example plaza", "800-555-0199",  # 15 USC 1681m(a)(3)(A): name, address, telephone
        "did not make the decision",  # (a)(3)(B)
        "unable to tell you the specific reasons",  # (a)(3)(B)
        "free copy of your report", "within 60 days",  # (a)(4)(A)
        "dispute with the agency whether the report is accurate or complete",  # (a)(4)(B)
    ],
)  # fmt: skip
def test_the_report_notice_has_each_element(element: str) -> None:
    agency = Agency("Example Reports", "1 Example Plaza, Springfield IL", "800-555-0199")
    assert element in notice("report", Disposition.DECLINE, agency)


@given(st.integers(0, 10**11))
def test_amounts_in_words_agree_with_an_independent_speller(cents: int) -> None:
    num2words = pytest.importorskip("num2words").num2words
    dollars = num2words(cents // 100).replace(",", "").replace(" and ", " ")
    assert spelled(cents).lower() == f"{dollars} and {cents % 100:02d}/100"
