"""The face of an admitted check: what is printed on every one, what is on this one, what was written, and the line.

Nothing here asks where a reading comes from: :mod:`checkface.training.picture` takes every tender through
:mod:`checkface.training.admit` first.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from checkface.tender import Mark, Reading, State, Tender
from checkface.training import pen, strokes
from checkface.training.hand import pieces, scrawl, smear
from checkface.training.layout import EDGE, Region, regions, wording_place
from checkface.training.paper import Sheet, ground, specimen
from checkface.training.pen import HAND, INK, MONO, SANS, SERIF, SOFT

Ranges = Mapping[str, list[tuple[int, int]]]


def face(tender: Tender, sheet: Sheet, marked: Ranges) -> list[str]:
    """The parts of the front of an admitted *tender*; the characters in *marked* are underlined."""
    places = regions(sheet.width, sheet.height)
    parts = [
        *ground(sheet.width, sheet.height),
        *_printed(places, sheet, tender),
        *_names(places, tender, marked),
        *_written(places, tender, marked),
        *_legends(places, tender, marked),
        *_signatures(places, sheet, tender),
        pen.group("e13b", _line(tender.face.micr, sheet), font_size=117),
    ]
    return [*parts, *specimen(sheet.width, sheet.height)]


def _printed(places: Mapping[str, Region], sheet: Sheet, tender: Tender) -> Iterator[str]:
    """What is printed on every check: labels, lines to write on, the box."""
    small: dict[str, Any] = {"font_family": SANS, "fill": SOFT}

    def rule(name: str, below: float = 30) -> str:
        place = places[name]
        return pen.line(
            place.left, place.base + below, place.left + place.width, place.base + below, stroke=INK, stroke_width=9
        )

    payee, figures, words, date = places["payee"], places["figures"], places["words"], places["date"]
    yield rule("payee")
    yield rule("words")
    yield rule("date", 25)
    yield pen.text(date.left - 50, date.base + 15, 66, "DATE", text_anchor="end", **small)
    yield pen.text(EDGE, payee.base - 75, 66, "PAY TO THE", **small)
    yield pen.text(EDGE, payee.base + 20, 66, "ORDER OF", **small)
    yield pen.rect(
        figures.left, figures.top, figures.width, figures.height, fill="#ffffff", stroke=INK, stroke_width=11
    )
    if "$" not in tender.face.figures.text:
        yield pen.text(
            figures.left - 50, figures.base, 150, "$", text_anchor="end", font_family=SERIF, font_weight="bold"
        )
    yield pen.text(words.left + words.width + 50, words.base + 20, 72, "DOLLARS", 560, **small)
    if sheet.two_signatures:
        place = places["countersignature"]
        yield rule("countersignature")
        yield pen.text(place.left, place.base + 110, 60, "Sign again here, at the counter", place.width, **small)
    else:
        memo = places["memo"]
        yield pen.text(EDGE, memo.base + 10, 66, "MEMO", **small)
        yield pen.line(EDGE + 300, memo.base + 30, memo.left + memo.width, memo.base + 30, stroke=INK, stroke_width=9)
    place = places["signature"]
    yield rule("signature")
    if sheet.payer:
        yield pen.text(place.left, place.base + 110, 60, sheet.payer, place.width, **small)
    if sheet.width > 8000:  # a tear line along the top, where the stub was
        yield pen.line(
            60, 28, sheet.width - 60, 28, stroke=SOFT, stroke_width=14, stroke_dasharray="14 34", stroke_linecap="round"
        )


def _names(places: Mapping[str, Region], tender: Tender, marked: Ranges) -> Iterator[str]:
    for name, family in (("drawer", SERIF), ("drawee", SANS)):
        place, offset = places[name], 0
        for number, words in enumerate(getattr(tender.face, name).text.split("\n")[:4]):
            style: dict[str, Any] = {"font_family": family}
            if not number:
                style["font_weight"] = "bold"
            size = place.size if not number else place.size * (0.78 if name == "drawer" else 0.9)
            base = place.base + number * place.size * 1.12
            yield pen.text(place.left, base, size, pieces(words, offset, marked.get(name, [])), place.width, **style)
            offset += len(words) + 1
    serial, fraction = places["serial"], places["fraction"]
    right = serial.left + serial.width
    if tender.face.serial.text:
        shown = pieces(tender.face.serial.text, 0, marked.get("serial", []))
        yield pen.text(
            right,
            serial.base,
            serial.size,
            shown,
            serial.width,
            text_anchor="end",
            font_family=SERIF,
            font_weight="bold",
        )
    yield from _fraction(tender.face.fraction.text, fraction)


def _fraction(text: str, place: Region) -> Iterator[str]:
    above, slash, below = text.partition("/")
    right = place.left + place.width
    style: dict[str, Any] = {"text_anchor": "end", "font_family": SANS}
    if text:
        yield pen.text(right, place.base, place.size, above, place.width, **style)
    if slash:
        across = max(len(above), len(below)) * place.size * 0.58
        yield pen.line(right - across, place.base + 22, right, place.base + 22, stroke=INK, stroke_width=7)
        yield pen.text(right, place.base + 22 + place.size, place.size, below, place.width, **style)


def _written(places: Mapping[str, Region], tender: Tender, marked: Ranges) -> Iterator[str]:
    """What the customer wrote; what could not be made out is a smear."""
    legends = tender.face.legends.text
    typed = bool(legends) and "COUNTER" not in legends.upper() and tender.face.drawer.state is not State.TEXT
    for name in ("date", "payee", "figures", "words"):
        place, reading = places[name], getattr(tender.face, name)
        if reading.state is State.ILLEGIBLE:
            yield smear(place, name)
        elif reading.text:
            shown = pieces(reading.text.replace("\n", " "), 0, marked.get(name, []))
            style: dict[str, Any] = {"font_family": MONO} if typed else {"font_family": HAND, "font_style": "italic"}
            yield pen.text(place.left + 60, place.base, place.size, shown, place.width - 110, **style)
            if name == "words" and not marked.get(name):
                used = min(len(reading.text) * place.size * 0.66 + 140, place.width)
                end = place.left + place.width - 60
                if end - place.left - used > 200:
                    yield pen.line(
                        place.left + used, place.base - 40, end, place.base - 40, stroke=INK, stroke_width=10
                    )
    if tender.face.alterations is not Mark.NO and tender.face.alterations is not Mark.ABSENT:
        place = places["figures"]  # written over in another ink
        left, top = place.left + 90, place.top + 60
        yield pen.path(
            [f"M{left + n * 34:g} {top:g} L{left + 60 + n * 34:g} {top + place.height - 110:g}" for n in range(6)],
            fill="none",
            stroke=INK,
            stroke_width=16,
            stroke_opacity="0.55",
        )


def _legends(places: Mapping[str, Region], tender: Tender, marked: Ranges) -> Iterator[str]:
    """Wording: terms in small print on the right, a stamp where one word stands for the whole paper, else a title."""
    if tender.face.legends.state is State.ILLEGIBLE:
        yield smear(places["legends"], "legends")
    offset, titles, terms = 0, 0, 0
    for words in tender.face.legends.text.split("\n")[:6]:
        shown = pieces(words, offset, marked.get("legends", []))
        offset += len(words) + 1
        if not words.strip():
            continue
        how = wording_place(words)
        if how == "stamp":
            place = places["terms"]
            x, y = place.left + place.width / 2, place.top + 190
            across = min(len(words) * 110 + 200, place.width)
            turn = f"rotate(-4 {x:g} {y:g})"
            yield pen.rect(
                x - across / 2, y - 150, across, 210, fill="none", stroke=INK, stroke_width=18, transform=turn
            )
            yield pen.text(
                x,
                y,
                140,
                shown,
                across - 120,
                text_anchor="middle",
                font_family=SANS,
                font_weight="bold",
                transform=turn,
            )
        elif how == "terms":
            place = places["terms"]
            yield pen.text(
                place.left + place.width,
                place.base + terms * 110,
                place.size,
                shown,
                place.width,
                text_anchor="end",
                font_family=SANS,
            )
            terms += 1
        else:
            place = places["legends"]
            size = place.size if not titles else place.size * 0.8
            yield pen.text(
                place.left + place.width / 2,
                place.base + titles * 135,
                size,
                shown,
                place.width,
                text_anchor="middle",
                font_family=SERIF,
                font_weight="bold",
            )
            titles += 1


def _signatures(places: Mapping[str, Region], sheet: Sheet, tender: Tender) -> Iterator[str]:
    for name, seen in (("signature", tender.face.signature), ("countersignature", tender.face.countersignature)):
        if name == "countersignature" and not sheet.two_signatures:
            continue
        if seen is Mark.YES:
            yield scrawl(places[name], tender.face.drawer.text.split("\n")[0])
        elif seen is Mark.ILLEGIBLE:
            yield smear(places[name], name)


def _line(reading: Reading, sheet: Sheet) -> Iterator[str]:
    bottom = sheet.height - strokes.BASE_LINE
    if reading.state is State.ILLEGIBLE:
        yield smear(Region(500, 0, sheet.width * 0.6, 0, bottom, 117), "micr")
    for place in strokes.placed(reading.text, sheet.width):
        right = strokes.right_edge(place.position, sheet.width)
        yield pen.path(strokes.glyph(place.name, right, bottom), fill="#000000")
