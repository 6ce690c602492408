"""The drawn faces are specimens: well-formed, inside their areas, and without a reading."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET

import pytest
from handling_help import HOUSE, made
from hypothesis import given, settings
from hypothesis import strategies as st

from checkface.handling import preview_svg
from checkface.handling.drawing import CLEAR_BAND, HEIGHT, REGIONS, TRAILING, WIDTH

SVG = "{http://www.w3.org/2000/svg}"
BLANKS = {"face.payee": "", "face.date": "", "face.figures": "", "face.words": ""}


def texts(svg: str, side: str) -> list[str]:
    """The texts on one side of the drawing."""
    root = ET.fromstring(svg)
    (group,) = (group for group in root.iter(f"{SVG}g") if group.get("id") == side)
    return [text.text or "" for text in group.iter(f"{SVG}text")]


def test_the_texts_stand_on_their_sides() -> None:
    svg = preview_svg(made("convert", BLANKS))
    assert "VOID - ONE DEBIT MM/DD/YYYY $0.00" in texts(svg, "front")
    assert "Zero and 00/100" in texts(svg, "front")
    assert "USED FOR ONE DEBIT - NO DEPOSIT" in texts(svg, "back")
    assert "VOID - ONE DEBIT MM/DD/YYYY $0.00" not in texts(svg, "back")


@settings(max_examples=60)
@given(st.sampled_from(["convert", "keep", "refer", "decline"]), st.text(max_size=40))
def test_every_drawing_is_well_formed_and_a_specimen_on_both_sides(disposition: str, name: str) -> None:
    policy = HOUSE.model_copy(update={"house": HOUSE.house.model_copy(update={"name": name, "location": name})})
    svg = preview_svg(made(disposition, BLANKS, policy=policy))
    assert texts(svg, "front").count("SPECIMEN") == texts(svg, "back").count("SPECIMEN") == 1


def test_markup_in_a_name_stays_text() -> None:
    policy = HOUSE.model_copy(update={"house": HOUSE.house.model_copy(update={"name": '<script>&"</script>'})})
    svg = preview_svg(made("keep", policy=policy))
    assert "<script>" not in svg
    assert 'DEPOSIT ONLY - <script>&"</script>' in texts(svg, "back")


@pytest.mark.parametrize("disposition", ["convert", "keep"])
def test_nothing_that_was_read_is_drawn(disposition: str) -> None:
    counter = {"amount": "67.89", "on": "2026-07-31", "employee": "E93", "lane": "L77"}
    patch = {**BLANKS, "face.serial": "8867", **{f"counter.{key}": value for key, value in counter.items()}}
    svg = preview_svg(made(disposition, patch))
    assert not re.search("8867|67.89|Sixty|07/31|E93|L77|45601122|071098973|Ada|10:32|217-555-0142", svg)


@pytest.mark.parametrize("where", REGIONS)
def test_no_text_reaches_the_clear_band(where: str) -> None:
    # ANSI X9.100-160: the lowest 5/8 inch belongs to the magnetic-ink line.
    region = REGIONS[where]
    assert CLEAR_BAND == 0.625 * 100
    assert region.left >= 0
    assert region.left + region.width <= WIDTH
    assert region.top + region.height <= HEIGHT - CLEAR_BAND


def test_the_endorsement_keeps_to_the_trailing_edge() -> None:
    # An inch and a half from the trailing edge, which is the right edge of the back once the check is turned over.
    region = REGIONS["back: endorsement area"]
    assert TRAILING == 1.5 * 100
    assert region.left >= WIDTH - TRAILING


def test_no_two_places_on_the_front_overlap() -> None:
    front = [region for where, region in REGIONS.items() if where.startswith("front")]
    for number, one in enumerate(front):
        for other in front[number + 1 :]:
            apart = (
                one.left + one.width <= other.left
                or other.left + other.width <= one.left
                or one.top + one.height <= other.top
                or other.top + other.height <= one.top
            )
            assert apart, (one, other)
