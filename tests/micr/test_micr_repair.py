"""Candidates for unread and misread routing numbers, and the shapes of the font."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stdnum.us import rtn

from checkface import micr, tables
from checkface.micr import glyphs

GLYPHS = [*"0123456789", "transit", "amount", "on-us", "dash"]

numbers = st.text("0123456789", min_size=8, max_size=8).map(lambda eight: eight + rtn.calc_check_digit(eight))
PRINTED = [f"{n:02}" for n in (*range(13), *range(21, 33), 80)]


@given(numbers, st.sets(st.integers(0, 8), min_size=1, max_size=2), st.sampled_from("?*"))
def test_the_true_number_is_among_the_candidates(number: str, unread: set[int], mark: str) -> None:
    text = "".join(mark if at in unread else digit for at, digit in enumerate(number))
    found = [candidate.number for candidate in micr.routing_candidates(text)]
    assert (number in found) == (number[:2] in PRINTED and number != "000000000")
    assert all(rtn.is_valid(candidate) and candidate[:2] in PRINTED for candidate in found)
    assert len(found) == len(set(found)) <= 10
    if len(unread) == 1:
        assert len(found) <= 1


@pytest.mark.parametrize("text", ["", "031097765", "???097765", "03109776", "03109776?0", "0310977６?", "?31097 65"])
def test_no_candidates(text: str) -> None:
    assert micr.routing_candidates(text) == ()


def test_candidates_are_ranked_by_what_is_known_then_by_series() -> None:
    government = micr.routing_candidates("??0000518")
    assert government[-1].number == "000000518"
    assert government[0].score > government[-1].score
    known = micr.routing_candidates("??1097765", known={"031097765"})
    assert known[0].number == "031097765"
    assert known[0].reason == "fits the sum; known to the house"
    only = micr.routing_candidates("??1097765", prefixes=["03"])
    assert [candidate.number for candidate in only] == ["031097765"]


@given(numbers, st.integers(0, 8), st.sampled_from("0123456789"))
def test_the_misread_digit_is_among_the_suggestions(number: str, place: int, digit: str) -> None:
    misread = number[:place] + digit + number[place + 1 :]
    found = micr.misread_suggestions(misread)
    if digit == number[place]:
        assert found == ()
        return
    assert (number in [candidate.number for candidate in found]) == (number[:2] in PRINTED and number != "000000000")
    assert len(found) <= 9
    assert all(rtn.is_valid(candidate.number) for candidate in found)
    scores = [candidate.score for candidate in found]
    assert scores == sorted(scores, reverse=True)


def test_suggestions_are_ranked_by_likeness() -> None:
    """A 9 read as 5 is the likeliest misread of the font."""
    found = micr.misread_suggestions("211355601")
    assert found[0].number == "211395601"
    assert found[0].reason == "digit 5 read as 5 may be 9"
    assert micr.misread_suggestions("211355601", known={"211055601"})[0].number != "211355601"


@pytest.mark.parametrize("text", ["", "031097765", "03109776", "03109?765", "０31097764"])
def test_no_suggestions(text: str) -> None:
    assert micr.misread_suggestions(text) == ()


# Published distances (1 - overlap after best alignment), rounded to two places.
DISTANCES = {
    ("5", "9"): 0.21,
    ("2", "3"): 0.31,
    ("5", "8"): 0.35,
    ("4", "transit"): 0.38,
    ("3", "8"): 0.39,
    ("3", "5"): 0.40,
    ("amount", "on-us"): 0.45,
    ("2", "5"): 0.46,
    ("8", "9"): 0.47,
    ("1", "3"): 0.48,
    ("6", "8"): 0.48,
}


@pytest.mark.parametrize(("pair", "distance"), list(DISTANCES.items()))
def test_distances_are_the_published_ones(pair: tuple[str, str], distance: float) -> None:
    assert 1 - micr.similarity(*pair) == pytest.approx(distance, abs=0.035)


def test_no_other_shapes_are_as_close() -> None:
    close = {pair for pair in combinations(GLYPHS, 2) if 1 - micr.similarity(*pair) <= 0.4}
    assert close == {pair for pair, distance in DISTANCES.items() if distance <= 0.4}


def test_similarity_is_symmetric_and_one_for_equals() -> None:
    for one, other in combinations(GLYPHS, 2):
        assert micr.similarity(one, other) == micr.similarity(other, one) < 1
    assert all(micr.similarity(name, name) == 1 for name in GLYPHS)


# Widths in modules (0.013 in), counted from the table of the font, not from the bitmaps.
WIDTHS = [7, 4, 4, 5, 6, 5, 6, 5, 7, 6, 7, 7, 7, 7]


@pytest.mark.parametrize(("name", "width"), list(zip(GLYPHS, WIDTHS, strict=True)))
def test_bitmaps_have_the_published_widths_and_stand_at_the_right(name: str, width: int) -> None:
    rows = micr.bitmap(name)
    assert len(rows) == 18
    ink = 0
    for row in rows:
        ink |= row
    assert ink & 1
    assert abs(ink.bit_length() / 2 - width) <= 0.5
    full = name not in ("on-us", "dash")
    assert full == bool(rows[0] and rows[-1])


@pytest.mark.parametrize("name", ["transit", "amount", "on-us", "dash"])
def test_every_symbol_is_three_parts(name: str) -> None:
    """The commonest trap of segmentation: each symbol is three separate strokes, each digit one piece."""
    assert parts(name) == 3


@pytest.mark.parametrize("name", "0123456789")
def test_every_digit_is_one_piece(name: str) -> None:
    assert parts(name) == 1


def parts(name: str) -> int:
    rows = micr.bitmap(name)
    ink = {(y, x) for y in range(18) for x in range(14) if rows[y] >> x & 1}
    found = 0
    while ink:
        found += 1
        edge = [ink.pop()]
        while edge:
            y, x = edge.pop()
            near = {(y + 1, x), (y - 1, x), (y, x + 1), (y, x - 1)} & ink
            ink -= near
            edge += near
    return found


def test_the_table_names_its_source() -> None:
    table = tables.load("e13b_glyphs")
    assert [row["character"] for row in table.rows] == GLYPHS
    assert all(len(glyphs.unpack(row["rows"])) == 18 for row in table.rows)
