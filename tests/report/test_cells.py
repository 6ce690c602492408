"""Widths against Unicode's own tables; nothing shown can move a cursor."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checkface.cells import cell, shown, width


@pytest.mark.parametrize(
    ("raw", "text", "cells"),
    [
        ("Forty-five", "Forty-five", 10),
        ("\u2446071098973\u2446", "\u2446071098973\u2446", 11),
        ("a\tb", "a\u2409b", 3),
        ("\x1b[31mred", "\u241b[31mred", 8),
        ("\x7f", "\u2421", 1),
        ("\x9b2J", "\\x9b2J", 6),
        ("\u202e54", "\\u202e54", 8),
        ("\u200b", "\\u200b", 6),
        ("\U000e0001", "\\U000e0001", 10),
        ("\ud800", "\\ud800", 6),
        ("金額", "金額", 4),
        ("１０", "１０", 4),
        ("Jose\u0301", "Jose\u0301", 4),
    ],
)
def test_what_is_shown_and_how_wide(raw: str, text: str, cells: int) -> None:
    assert (shown(raw), width(raw)) == (text, cells)


@given(st.text())
def test_nothing_shown_acts_on_a_terminal(raw: str) -> None:
    assert not any(unicodedata.category(character) in {"Cc", "Cf", "Cs", "Zl", "Zp"} for character in shown(raw))


@given(st.characters())
def test_the_width_of_what_is_shown_is_the_width_given(character: str) -> None:
    text, cells = cell(character)
    assert sum(cell(part)[1] for part in text) == cells
