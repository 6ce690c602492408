"""What the policy says of the house, as far as instructions use it."""

from __future__ import annotations

import pytest
from handling_help import made, step

from checkface.policy import Policy, PolicyError

TWO_STORES = Policy.parse(
    """
    state = "IL"
    [house]
    telephone = "217-555-0100"
    city = "Springfield"
    [house.stores.7]
    city = "Boston"
    state = "MA"
    location = "Store 0007"
    """
)


def test_a_store_is_filled_up_from_the_house_and_the_policy() -> None:
    assert TWO_STORES.place("7").model_dump() == {
        "telephone": "217-555-0100", "location": "Store 0007", "city": "Boston", "state": "MA",
    }  # fmt: skip
    assert TWO_STORES.place("8").model_dump() == {
        "telephone": "217-555-0100", "location": "", "city": "Springfield", "state": "IL",
    }  # fmt: skip


def test_the_number_is_noted_only_where_state_and_house_both_want_it() -> None:
    identity = TWO_STORES.identity.model_copy(update={"record_number": True})
    wanting = TWO_STORES.model_copy(update={"identity": identity})
    assert "no. ________" in step(made("keep", policy=wanting), "write-notation").text
    assert "no." not in step(made("keep", policy=TWO_STORES), "write-notation").text
    assert "no." not in step(made("keep", {"counter.store": "8"}, policy=wanting), "write-notation").text


def test_the_house_goes_by_the_name_it_takes_checks_under() -> None:
    policy = Policy.parse('[payee]\nnames = ["Quillfeather Grocery", "Quillfeather"]')
    assert "DEPOSIT ONLY - Quillfeather Grocery\n" in step(made("keep", policy=policy), "print-endorsement").text


@pytest.mark.parametrize("text", ['[house]\nstate = "Illinois"', '[house.stores.7]\ntown = "Decatur"'])
def test_a_house_that_is_not_one_is_refused(text: str) -> None:
    with pytest.raises(PolicyError, match="Line 2"):
        Policy.parse(text)
