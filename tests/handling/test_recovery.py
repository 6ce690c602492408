"""Every mishap has a way out, and no way out lets a check be collected twice."""

from __future__ import annotations

from typing import Any

import pytest
from handling_help import made

from checkface.findings import Disposition
from checkface.handling import recover
from checkface.handling.recovery import fitting, mishaps

ALL = [(disposition, mishap) for disposition in Disposition for mishap in fitting(disposition)]


def way(disposition: str, mishap: str, patch: dict[str, Any] | None = None) -> list[str]:
    """What is done about *mishap*."""
    return [step.does for step in recover(made(disposition, patch), mishap).steps]


def test_a_void_that_did_not_print_is_made_by_hand_by_two_people() -> None:
    order = way("convert", "void-not-printed")
    assert order == [
        "hold-check", "write-void", "write-initials", "write-second-initials", "verify-void", "hand-back-check",
        "record-mishap",
    ]  # fmt: skip
    recovery = recover(made("convert"), "void-not-printed")
    assert recovery.steps[1].text == "VOID - ONE DEBIT 11/24/2026 $45.10"
    assert recovery.steps[3].who == "manager"
    assert recovery.steps[6].text == "void by hand, check 1043, $45.10, 11/24/2026 10:32, lane 3"


def test_without_an_answer_nothing_is_sent_again_and_nothing_handed_back() -> None:
    assert way("convert", "debit-not-answered") == ["hold-check", "call-manager", "settle-debit"]


def test_a_missing_back_is_written_by_hand_as_the_disposition_wants_it() -> None:
    assert recover(made("keep"), "back-not-printed").steps[0].text.startswith("DEPOSIT ONLY - Quillfeather")
    assert recover(made("convert"), "back-not-printed").steps[0].text.startswith("USED FOR ONE DEBIT")
    assert way("keep", "back-not-printed") == ["write-endorsement", "write-initials"]


def test_a_kept_check_handed_back_says_by_how_much_the_till_is_short() -> None:
    steps = recover(made("keep"), "kept-check-handed-back").steps
    assert "Without the check the till is short by $45.10." in [step.why for step in steps]


@pytest.mark.parametrize(("disposition", "mishap"), ALL)
def test_every_way_out_is_numbered_and_complete(disposition: Disposition, mishap: str) -> None:
    steps = recover(made(disposition), mishap).steps
    assert [step.order for step in steps] == list(range(1, len(steps) + 1))
    assert not [step for step in steps if "{" in step.text + step.why]
    assert not {"send-debit", "put-in-till"} & {step.does for step in steps}


@pytest.mark.parametrize("disposition", Disposition)
def test_the_instructions_carry_their_recoveries(disposition: Disposition) -> None:
    instructions = made(disposition)
    assert tuple(recovery.mishap for recovery in instructions.recovery) == fitting(disposition)


def test_every_mishap_can_happen() -> None:
    assert {mishap for _, mishap in ALL} == set(mishaps())


@pytest.mark.parametrize(
    ("disposition", "mishap", "hint"),
    [
        ("convert", "void-not-printd", "'void-not-printed'"),
        ("keep", "receipt-not-printed", "which befalls one to convert."),
        ("keep", "", "one of"),
    ],
)
def test_a_mishap_that_cannot_happen_here_is_refused(disposition: str, mishap: str, hint: str) -> None:
    with pytest.raises(ValueError, match="Expected a mishap of a check to") as caught:
        recover(made(disposition), mishap)
    assert hint in str(caught.value)
