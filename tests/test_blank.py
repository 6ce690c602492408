"""Form furniture alone is blank; one written digit or letter more is not."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checkface.blank import is_blank

RULES = st.text("_-–— .…/*|[]=~□☐│", max_size=30)
LINES = st.sampled_from(
    ["__/__/20__", "__-__-19____", "__ . __ . 20 __", "Date ______ 20__", "DATE: __/__/____", "_______, 20__", "Fecha ____",
     "$_____", "$ ______.__", "____ DOLLARS", "_____ ___/100 DOLLARS", "[ ][ ]/[ ][ ]/[ ][ ][ ][ ]", "|_|_|_|", "MM/DD/YYYY", ""]
)  # fmt: skip
FURNITURE = st.tuples(RULES, LINES).map("  ".join)
WRITTEN = st.characters(categories=["L", "N"])


@given(FURNITURE)
def test_what_a_form_prints_is_blank(text: str) -> None:
    assert is_blank(text)


@given(FURNITURE, WRITTEN, st.data())
def test_one_written_character_anywhere_is_not_blank(text: str, written: str, data: st.DataObject) -> None:
    place = data.draw(st.integers(0, len(text)))
    assert not is_blank(text[:place] + written + text[place:])


@given(RULES, st.from_regex(r"[0-9]{1,4}([.,/ -][0-9]{1,4}){0,2}", fullmatch=True), RULES)
def test_figures_between_rules_are_not_blank(before: str, figures: str, after: str) -> None:
    assert is_blank(before + figures + after) is False or figures in ("19", "20")


@pytest.mark.parametrize(
    "text",
    ["$20__", "____20__", "20__", "$ ___, 20__", "-0-", "--/100", "xx/100", "N/A", "X", "void", "50 ___/100", "1/__/20__",
     "__/__/20__ 20__", "__/__/2020__", "and", "zero", "¢", '"', "\u200b", "½", "²", "٣"],
)  # fmt: skip
def test_what_a_hand_may_have_written_is_not_blank(text: str) -> None:
    assert not is_blank(text)
