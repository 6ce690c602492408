"""Amounts of column check protectors, which print a name beside each digit: ``1 THOUS 2 HUN 3 TEN 4 DOLLARS``."""

from __future__ import annotations

from collections.abc import Sequence

from checkface.amounts.token_kinds import COLUMN, UNIT, ZERO
from checkface.amounts.tokens import Token
from checkface.amounts.word_lists import LABELS


def dollars(tokens: Sequence[Token]) -> int | None:
    """Whole dollars of digits with their column names, before or behind; None unless columns only descend."""
    if not tokens:
        return None
    named_first = tokens[0].text in LABELS
    total, last = 0, 10_000
    place = 0
    while place < len(tokens):
        pair = tokens[place : place + 2]
        if len(pair) == 1:
            pair = [pair[0], Token(COLUMN, 0, 0, 0, "units")] if not named_first else []
        if len(pair) != 2:
            return None
        name, digit = pair if named_first else (pair[1], pair[0])
        column = LABELS.get(name.text)
        if column is None or column >= last or digit.kind not in (UNIT, ZERO):
            return None
        total, last = total + column * digit.value, column
        place += 2
    return total
