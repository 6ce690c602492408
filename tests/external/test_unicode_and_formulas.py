"""Digits, what steers a line of text, and what starts a formula, held to what is published of them.

Unicode Character Database, as Python's ``unicodedata`` has it: Numeric_Type Decimal and Digit, Bidi_Class, categories.
OWASP, CSV Injection: cells that begin with an equals sign, plus, minus, at sign, tab, carriage return or line feed, and
the full-width forms of the four signs (list kept from memory of the page).
"""

from __future__ import annotations

import json
import sys
import unicodedata

import pytest

from checkface import digits
from checkface.cells import dumps, inert, shown

EVERY = [chr(code) for code in range(sys.maxunicode + 1)]
DIGITS = [c for c in EVERY if unicodedata.digit(c, None) is not None]
BIDI = [
    c for c in EVERY if unicodedata.bidirectional(c) in {"LRE", "RLE", "PDF", "LRO", "RLO", "LRI", "RLI", "FSI", "PDI"}
]
MARKS = ["\u200e", "\u200f", "\u061c"]  # the three marks of direction; their class is that of a letter
OWASP = ["=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠"]
BLANKS = [c for c in EVERY if unicodedata.category(c) in {"Zs", "Zl", "Zp"}] + ["\u200b", "\u2060", "\ufeff", "\u00ad"]


def test_every_digit_of_unicode_is_one_to_the_mask() -> None:
    assert len(DIGITS) > 700
    for c in DIGITS:
        assert digits.hide(c * 10) == digits.MASK * 6 + c * 4, hex(ord(c))
        assert digits.hide_own(c * 10, digits.own(str(unicodedata.digit(c)) * 10 + "1")) == c * 10
    letters = "".join(c * 10 for c in EVERY if c.isalnum() and unicodedata.digit(c, None) is None)
    assert digits.hide(letters) == letters


def test_nothing_that_turns_or_hides_text_reaches_a_terminal() -> None:
    steering = [c for c in EVERY if unicodedata.category(c) in {"Cc", "Cf"}]
    assert set(BIDI) | set(MARKS) <= set(steering)
    for c in steering:
        assert c not in shown(f"a{c}b"), hex(ord(c))
        said = dumps({"a": f"a{c}b"})
        assert c not in said
        assert json.loads(said) == {"a": f"a{c}b"}


@pytest.mark.parametrize("start", OWASP)
def test_no_cell_starts_a_formula(start: str) -> None:
    for before in ["", *BLANKS, " \u00a0", "\t", "\u3000" * 40]:
        text = f"{before}{start}SUM(A1)"
        for cell in (inert(text), inert(shown(text))):
            # What a spreadsheet sees first, blanks and unseen characters aside.
            first = cell.strip("".join(BLANKS) + " \t\r\n")[:1]
            assert unicodedata.normalize("NFKC", first) not in {"=", "+", "-", "@"}, (before, start)
            assert cell[:1] not in {"\t", "\r", "\n"}
        assert json.loads(dumps(text)) == text


@pytest.mark.parametrize("cut", [";", "|"])
def test_no_formula_starts_where_a_spreadsheet_may_cut_the_line(cut: str) -> None:
    assert inert(f"a{cut}=1+1") == f"a{cut}'=1+1"
    assert inert(f"a{cut} \u00a0＝1") == f"a{cut}' \u00a0＝1"
    assert inert("45.10") == "45.10"
    assert inert("keep x | refer y") == "keep x | refer y"
