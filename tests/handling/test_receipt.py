"""A receipt has what it must have, and never a full account or identification number."""

from __future__ import annotations

import json

import pytest
from handling_help import HOUSE, LANE, does, made, step
from hypothesis import given, settings
from hypothesis import strategies as st

from checkface import micr
from checkface.findings import Disposition
from checkface.handling import preview_svg, preview_text, recover
from checkface.handling.receipt import ending
from checkface.handling.recovery import fitting
from checkface.policy import Policy


def test_the_receipt_of_the_clean_tender() -> None:
    receipt = made("convert").receipt
    assert receipt is not None
    assert receipt.text.splitlines() == [
        "Paid to: Quillfeather Grocery",
        "Telephone: 217-555-0100",
        "Location: Store 0007",
        "City: Springfield",
        "State: IL",
        "Date: 11/24/2026",
        "Time: 10:32",
        "Lane: 3",
        "Amount: $45.10",
        "Check number: 1043",
        "Kind: one electronic transfer from your account",
        "Account ending: 1122",
    ]
    assert receipt.missing == ()
    assert "complete-receipt" not in does(made("convert"))


def test_a_missing_item_is_a_line_to_write_on_and_a_step_to_do_it() -> None:
    instructions = made("convert", {"counter.on": "(absent)"}, policy=Policy())
    receipt = instructions.receipt
    assert receipt is not None
    assert [item.name for item in receipt.missing] == ["house", "telephone", "location", "city", "state", "date"]
    assert "Telephone: ________" in receipt.text
    assert step(instructions, "complete-receipt").text.splitlines() == [item.label for item in receipt.missing]


def test_the_serial_comes_from_the_line_when_the_corner_was_not_read() -> None:
    receipt = made("convert", {"face.serial": "(absent)"}).receipt
    assert receipt is not None
    assert "Check number: 1043" in receipt.text


@pytest.mark.parametrize("serial", ["45601122", "No. 45601122", "45 601-122", "0045601122"])
@pytest.mark.parametrize("disposition", ["convert", "keep", "decline"])
def test_an_account_given_for_the_serial_stands_in_no_text(disposition: str, serial: str) -> None:
    instructions = made(disposition, {"face.serial": serial, "counter.authorization_signed": "(absent)"})
    everything = json.dumps(instructions.wire()) + repr(instructions.recovery) + repr(instructions.notices)
    assert "45601122" not in everything


def test_more_digits_than_a_serial_has_are_not_printed_as_one() -> None:
    receipt = made("convert", {"face.serial": "1234567890123456"}).receipt
    assert receipt is not None
    assert "Check number: ________" in receipt.text


def test_only_a_converted_check_has_a_receipt_of_its_own() -> None:
    assert [made(other).receipt for other in ("keep", "refer", "decline")] == [None, None, None]


@given(st.text("0123456789", min_size=1, max_size=20))
def test_no_more_than_four_characters_and_no_more_than_half_of_an_account(account: str) -> None:
    line = micr.read(f"⑆071098973⑆ {account}⑈ 1043")
    shown = ending(line)
    assert len(shown) <= 4
    assert len(shown) <= len(account) // 2
    assert account.endswith(shown)


DIGITS = st.text("0123456789", min_size=6, max_size=12).filter(lambda digits: len(set(digits)) > 3)


@settings(max_examples=60)
@given(DIGITS, DIGITS, st.sampled_from(Disposition), st.sampled_from(["", "MA", "DC", "TX"]))
def test_no_full_number_leaves_by_any_text(account: str, number: str, disposition: Disposition, state: str) -> None:
    patch = {
        "face.micr": f"⑆071098973⑆ {account}⑈ 1043",
        "documents": [{"kind": "drivers-license", "number": number, "state": "17", "expires": "2029-05-01"}],
    }
    policy = HOUSE.model_copy(
        update={"state": state, "identity": HOUSE.identity.model_copy(update={"record_number": True})}
    )
    instructions = made(disposition, patch, policy=policy, printing=LANE)
    everything = [
        json.dumps(instructions.wire()),
        preview_text(instructions),
        preview_svg(instructions),
        repr(instructions.notices),
        *(repr(recover(instructions, mishap)) for mishap in fitting(disposition)),
    ]
    for text in everything:
        assert account not in text
        assert number not in text
