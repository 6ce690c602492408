"""No line is wider than the printer, and nothing steers it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checkface.handling.layout import cells, checked, pair, printable, wrapped


@given(st.text(max_size=200), st.integers(16, 60))
def test_no_line_is_wider_than_asked(text: str, width: int) -> None:
    assert all(cells(line) <= width for line in wrapped(text, width))
    assert all(line.isprintable() for line in wrapped(text, width))


@given(st.text(max_size=60), st.text(max_size=60), st.integers(16, 60))
def test_no_pair_is_wider_than_asked(label: str, value: str, width: int) -> None:
    assert all(cells(line) <= width for line in pair(label, value, width))


@given(st.text(st.characters(categories=["L", "N", "P"]), max_size=200), st.integers(16, 60))
def test_wrapping_loses_no_letter(text: str, width: int) -> None:
    assert "".join(wrapped(text, width)) == text


@pytest.mark.parametrize(
    ("text", "columns"),
    [("abc", 3), ("Café", 4), ("Cafe\u0301", 4), ("日本", 4), ("", 0)],  # Unicode Standard Annex 11
)
def test_columns_are_counted_as_they_are_seen(text: str, columns: int) -> None:
    assert cells(text) == columns


def test_nothing_steers_the_printer() -> None:
    assert printable("a\x1bE\x00b\u202ec\nd") == "a E b c d"


@pytest.mark.parametrize("width", [15, 201, 0, -1])
def test_a_width_that_fits_no_receipt_is_refused(width: int) -> None:
    with pytest.raises(ValueError, match="Expected a width of 16 to 200 columns"):
        checked(width)
