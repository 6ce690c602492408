"""Every drawing is read back: well-formed, SPECIMEN across it, inside its paper, and the line legible from its ink."""

from __future__ import annotations

import re
from datetime import date
from typing import Any

import pytest
import svg_reading
from clean_tender import patched
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from svg_reading import SVG, tree
from test_training_admit import faces

from checkface import micr
from checkface.assessment import assess, parse
from checkface.tender import Kind, Tender
from checkface.training import NotASpecimenError, Side, admitted, drills, invented, papers, specimens, strokes
from checkface.training import draw as draw_under

HOUSE = drills.training_house()


def draw(tender: Tender, **how: Any) -> str:
    """The drawing under the policy of the training house."""
    return draw_under(tender, HOUSE, **how)


DAY = date(2026, 11, 24)
SIDES: tuple[Side, ...] = ("front", "both")


def made(kind: str, seed: int = 3, **face: Any) -> Tender:
    wire = specimens.clean(kind, invented.dice(seed), DAY)
    return parse({**wire, "face": {**wire["face"], **face}})


def words(drawn: str) -> str:
    return " ".join("".join(element.itertext()) for element in tree(drawn).iter(f"{SVG}text"))


@pytest.mark.parametrize("kind", papers())
@pytest.mark.parametrize("side", ["front", "back", "both"])
def test_every_paper_on_every_side(kind: str, side: Any) -> None:
    root = tree(draw(made(kind), side=side, marked=True))
    width, height = map(float, root.attrib["viewBox"].split()[2:])
    assert (root.attrib["width"], root.attrib["height"]) == (f"{width / 1000:g}in", f"{height / 1000:g}in")
    assert [name for name, x, y in svg_reading.coordinates(root) if not (0 <= x <= width and 0 <= y <= height)] == []
    across = [element for element in root.iter(f"{SVG}text") if "".join(element.itertext()) == "SPECIMEN"]
    assert len(across) == (2 if side == "both" else 1)
    assert all(float(element.attrib["textLength"]) > 0.8 * width for element in across)


def test_paper_is_of_its_real_size() -> None:
    sizes = {kind: (paper.width, paper.height) for kind, paper in papers().items()}
    assert sizes["personal"] == (6000, 2750)
    assert sizes["business"][0] == 8500
    assert sizes["postal-money-order"] == (6000, 3250)  # Treasury Financial Manual volume II part 4 chapter 7000
    assert 'width="6in" height="2.75in" viewBox="0 0 6000 2750"' in draw(made("personal"))


@pytest.mark.parametrize("kind", papers())
def test_the_line_is_legible_from_its_ink(kind: str) -> None:
    tender = made(kind)
    printed = svg_reading.line(tree(draw(tender)))
    assert printed == tender.face.micr.text
    read, wanted = micr.read(printed), micr.read(tender.face.micr.text)
    assert isinstance(read, micr.MicrLine)
    assert isinstance(wanted, micr.MicrLine)
    assert (read.routing, read.account, read.serial, read.auxiliary) == (
        wanted.routing, wanted.account, wanted.serial, wanted.auxiliary,
    )  # fmt: skip


symbols = st.sampled_from(["⑈", "⑉", " ", "?"])
on_us = st.lists(st.one_of(st.text("0123456789", min_size=1, max_size=6), symbols), max_size=5).map("".join)


@settings(deadline=None, max_examples=300)
@given(st.sampled_from(invented.banks()), on_us, st.sampled_from(["", "4", "⑈004321⑈ "]), st.booleans())
def test_any_line_is_legible_from_its_ink(bank: invented.Bank, right: str, left: str, amount: bool) -> None:
    line = f"{left}⑆{bank.routing}⑆ {right[:19]}⑈" + (" ⑇0000004510⑇" if amount else "")
    try:
        tender = admitted(parse({"face": {"micr": line}}))
    except NotASpecimenError:
        return
    root = tree(draw(tender))
    printed = svg_reading.line(root)
    assert printed.split() == tender.face.micr.text.split()
    positions = dict(svg_reading.characters(root))
    count = sum(not character.isspace() for character in tender.face.micr.text)
    assert len(positions) == count
    # ASC X9 TR 100-2013: transit symbols on 43 and 33; amount symbols on 12 and 1 where there is room for them.
    if len(right) <= 17:  # the On-Us field has positions 32 to 14
        assert (positions[43], positions[33]) == ("⑆", "⑆")
        assert not amount or (positions[12], positions[1]) == ("⑇", "⑇")


def test_the_line_stands_where_the_standard_has_it() -> None:
    root = tree(draw(made("personal")))
    inks = [
        point
        for group in root.iter(f"{SVG}g")
        if group.get("class") == "e13b"
        for glyph in group.iter(f"{SVG}path")
        for point in svg_reading._steps(glyph.attrib["d"])
    ]
    lowest, highest = 2750 - min(y for _, y in inks), 2750 - max(y for _, y in inks)
    assert 187.5 < highest < lowest < 437.5  # print band: 3/16 to 7/16 in above the bottom
    assert lowest - highest == pytest.approx(117)  # height of a character, 0.117 in
    assert min(x for x, _ in inks) > 250  # 1/4 in stays free at the left


def test_the_clear_band_holds_nothing_but_the_line() -> None:
    root = tree(draw(made("personal")))
    for group in root.iter(f"{SVG}g"):
        if group.get("class") == "e13b":
            group.clear()
    low = [(name, y) for name, _, y in svg_reading.coordinates(root) if y > 2750 - 625]
    assert {name for name, _ in low} == {"rect"}  # the paper itself and its edge


@settings(max_examples=150, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(faces, st.booleans(), st.sampled_from(["front", "both"]))
def test_whatever_is_drawn(readings: dict[str, Any], marked: bool, side: Any) -> None:
    tender = parse({"face": readings, "counter": {"on": "2026-11-24"}})
    try:
        drawn = draw(tender, side=side, marked=marked)
    except NotASpecimenError:
        return
    root = tree(drawn)
    width, height = map(float, root.attrib["viewBox"].split()[2:])
    assert all(0 <= x <= width and 0 <= y <= height for _, x, y in svg_reading.coordinates(root))
    assert "SPECIMEN" in words(drawn)
    assert drawn == draw(tender, side=side, marked=marked)
    shown = admitted(tender).face.micr.text
    assert svg_reading.line(root).split() == shown.split()


@pytest.mark.parametrize("text", ["<script>alert(1)</script>", "]]>&amp;", '"/><text>', "\x00\x1b[31m", "‮evil"])
def test_text_is_text(text: str) -> None:
    drawn = draw(parse(patched({"face.legends": text, "face.words": text, "face.figures": text})), marked=True)
    tags = {element.tag.removeprefix(SVG) for element in tree(drawn).iter()}
    assert tags <= {"svg", "title", "desc", "g", "rect", "line", "path", "text", "tspan", "circle"}
    assert not re.search(r"[\x00-\x08\x0b-\x1f\u202e]", drawn)


def test_nothing_is_asked_from_outside() -> None:
    drawn = draw(made("business"), side="both", marked=True)
    assert re.findall(r"https?://[^\"]+", drawn) == ["http://www.w3.org/2000/svg"]
    assert not re.search(r"href|url\(|@import|<style|<script|\son\w+=", drawn)


def test_it_says_what_it_shows() -> None:
    root = tree(draw(made("personal", words="Ten and 00/100"), marked=True))
    assert root.attrib["role"] == "img"
    assert [child.tag for child in root[:2]] == [f"{SVG}title", f"{SVG}desc"]
    assert "Answer: decline" in "".join(root[1].itertext())
    assert root[1].text is not None
    assert "words: Ten and 00/100" in root[1].text


def _marks(root: Any) -> list[tuple[str, float, float]]:
    return [
        ("".join(group.find(f"{SVG}text").itertext()), float(circle.attrib["cx"]), float(circle.attrib["cy"]))
        for group in root.iter(f"{SVG}g")
        if group.get("class") == "callout"
        for circle in group.iter(f"{SVG}circle")
    ]


def test_a_number_stands_at_the_very_reading() -> None:
    tender = made("personal", date="12/24/2026")
    root = tree(draw(tender, marked=True))
    [(number, x, y)] = _marks(root)
    assert number == "1"
    assert 3500 < x < 5000
    assert 450 < y < 750
    assert "date-in-future" in words(draw(tender, marked=True))


def test_on_the_line_a_frame_holds_the_very_characters() -> None:
    tender = made("personal")
    line = tender.face.micr.text
    assert line.count("⑈") == 1
    spoilt = parse({"face": {**tender.wire()["face"], "serial": "9999"}, "counter": tender.wire()["counter"]})
    root = tree(draw(spoilt, marked=True))
    frames = [
        (float(rect.attrib["x"]), float(rect.attrib["x"]) + float(rect.attrib["width"]))
        for rect in root.iter(f"{SVG}rect")
        if "stroke-dasharray" in rect.attrib and float(rect.attrib["y"]) > 2750 - 625
    ]
    shown = admitted(spoilt)
    serial = assess(shown).read.line
    assert serial is not None
    span = serial.spans["serial"]
    places = [place for place in strokes.placed(shown.face.micr.text, 6000) if span.start <= place.at < span.end]
    first = strokes.right_edge(places[0].position, 6000) - 91
    last = strokes.right_edge(places[-1].position, 6000)
    [(left, right)] = frames
    assert first - 60 < left < first
    assert last < right < last + 60


def test_the_characters_in_question_are_underlined() -> None:
    root = tree(draw(made("personal", words="Fourty and 10/100", figures="$40.10"), marked=True))
    under = [
        "".join(piece.itertext()) for piece in root.iter(f"{SVG}tspan") if piece.get("text-decoration") == "underline"
    ]
    assert "Fourty" in under


def test_an_unmarked_face_gives_nothing_away() -> None:
    plain = draw(made("personal", date="12/24/2026"))
    assert "decline" not in plain.lower()
    assert _marks(tree(plain)) == []


def test_a_second_signature_only_where_paper_asks_for_one() -> None:
    def scrawls(drawn: str) -> int:
        return sum(group.get("class") == "scrawl" for group in tree(drawn).iter(f"{SVG}g"))

    wire = specimens.clean("travelers-check", invented.dice(1), DAY)
    signed = parse(wire)
    once = parse({**wire, "face": {**wire["face"], "countersignature": False}})
    assert (scrawls(draw(signed)), scrawls(draw(once))) == (2, 1)
    assert "Sign again here, at the counter" in words(draw(signed))


@pytest.mark.parametrize("kind", [kind for kind in papers() if kind != "personal"])
def test_every_kind_tells_itself(kind: str) -> None:
    for seed in range(5):
        found = assess(made(kind, seed))
        assert found.read.kind.kind == Kind(kind) or kind in {"business", "payroll", "federal-bank-item"}
        assert Kind(kind) in found.read.kinds


def test_same_dice_same_bytes() -> None:
    for kind in papers():
        assert draw(made(kind, 9), side="both", marked=True) == draw(made(kind, 9), side="both", marked=True)
        assert draw(made(kind, 9)) != draw(made(kind, 10))


def test_too_long_a_line_is_not_drawn() -> None:
    with pytest.raises(NotASpecimenError, match="at most 65 characters"):
        draw(parse({"face": {"micr": "⑆071098973⑆ " + "4" * 70 + "⑈"}}))


def test_a_stamp_is_marked_where_it_stands() -> None:
    [(_, x, y)] = _marks(tree(draw(made("personal", legends="VOID"), marked=True)))
    assert 2600 < x < 3000
    assert 1250 < y < 1400
    numbers = {number: top for number, _, top in _marks(tree(draw(made("money-order"), marked=True)))}
    assert numbers["1"] < 300


def test_what_stands_on_the_back_is_marked_there() -> None:
    tender = made("personal", endorsements="For deposit only")
    front, both = (tree(draw(tender, side=side, marked=True)) for side in SIDES)
    assert _marks(front) == []
    [(number, x, _)] = _marks(both)
    assert number == "1"
    assert x > 4500
    assert "(on the back)" in words(draw(tender, marked=True))
