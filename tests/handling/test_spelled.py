"""An amount in words reads back as itself."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checkface import amounts
from checkface.handling import spelled
from checkface.handling.spelled import LIMIT


@pytest.mark.parametrize(
    ("cents", "words"),
    [
        (0, "Zero and 00/100"),
        (101, "One and 01/100"),
        (1_900, "Nineteen and 00/100"),
        (10_000, "One hundred and 00/100"),
        (121_799, "One thousand two hundred seventeen and 99/100"),
        (100_000_000, "One million and 00/100"),
        (99_999_900_000, "Nine hundred ninety-nine million nine hundred ninety-nine thousand and 00/100"),
    ],
)
def test_amounts_in_words(cents: int, words: str) -> None:
    assert spelled(cents) == words


def test_the_largest_amount() -> None:
    assert spelled(LIMIT - 1).startswith("Nine hundred ninety-nine billion nine hundred ninety-nine million")


@given(st.integers(1, 99_999_999))
def test_the_reader_of_words_reads_it_back(cents: int) -> None:
    read = amounts.read_words(spelled(cents))
    assert isinstance(read, amounts.WordsAmount)
    assert (read.cents, read.verdict) == (cents, "clear")


@pytest.mark.parametrize("cents", [-1, LIMIT])
def test_an_amount_out_of_range_is_refused(cents: int) -> None:
    with pytest.raises(ValueError, match="below a trillion"):
        spelled(cents)
