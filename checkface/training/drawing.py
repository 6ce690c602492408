"""A face, or its back, as one SVG document: real sizes, E-13B at its places, SPECIMEN across it.

:func:`front` and :func:`back` take a tender through :mod:`checkface.training.admit`, the one door, and cannot leave the
word SPECIMEN out. The units of the drawing are thousandths of an inch; ``width`` and ``height`` are inches, so that a
print at 100 % is as large as the paper. Colours are dark on light and never carry a meaning of their own.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from checkface.tender import Kind, Mark, Reading, State, Tender
from checkface.training import invented, pen, strokes
from checkface.training.hand import pieces, scrawl, smear
from checkface.training.layout import EDGE, Region, back, regions, wording_place
from checkface.training.pen import HAND, INK, MONO, PALE, PAPER, SANS, SERIF, SOFT

Ranges = Mapping[str, list[tuple[int, int]]]


class Sheet(NamedTuple):
    """The paper to draw on: thousandths of an inch, and what is printed below the signature."""

    width: float
    height: float
    payer: str
    two_signatures: bool


def sheet_for(tender: Tender, kinds: frozenset[Kind]) -> Sheet:
    """The paper of a tender: that of its kind, and as long as its magnetic-ink line needs."""
    known = [invented.papers()[kind] for kind in sorted(kinds) if kind in invented.papers()]
    special = [paper for paper in known if paper.kind not in (Kind.PERSONAL, Kind.BUSINESS)]
    paper = (special or known or [invented.papers()[Kind.PERSONAL]])[0]
    width, height = paper.width, paper.height
    if strokes.needed_width(tender.face.micr.text) > width:
        long = invented.papers()[Kind.BUSINESS]
        width, height = long.width, long.height
    if strokes.needed_width(tender.face.micr.text) > width:
        width = 8750
    return Sheet(width, height, paper.payer, paper.two_signatures)


def document(width: float, height: float, name: str, described: str, parts: list[str]) -> str:
    """The whole drawing around its *parts*; it says its *name* and what it shows to those who hear it."""
    size = f'width="{width / 1000:g}in" height="{height / 1000:g}in" viewBox="0 0 {width:g} {height:g}"'
    head = f'<svg xmlns="http://www.w3.org/2000/svg" role="img" {size} xml:space="preserve" fill="{INK}">'
    return "\n".join([head, pen.title(name), pen.title(described, "desc"), *parts, "</svg>"]) + "\n"


def face(tender: Tender, sheet: Sheet, marked: Ranges) -> list[str]:
    """The parts of the front of an admitted *tender*; the characters in *marked* are underlined."""
    places = regions(sheet.width, sheet.height)
    parts = [
        *_paper(sheet.width, sheet.height),
        *_printed(places, sheet, tender),
        *_names(places, tender, marked),
        *_written(places, tender, marked),
        *_legends(places, tender, marked),
        *_signatures(places, sheet, tender),
        pen.group("e13b", _line(tender.face.micr, sheet), font_size=117),
    ]
    return [*parts, *specimen(sheet.width, sheet.height)]


def reverse(tender: Tender, sheet: Sheet) -> list[str]:
    """The parts of the back of an admitted *tender*."""
    places, width, height = back(sheet.width, sheet.height), sheet.width, sheet.height
    area, bank = places["endorsements"], places["depositary"]
    deep = area.height
    edge = area.left
    parts = [
        *_paper(width, height),
        pen.line(edge, 0, edge, deep, stroke=SOFT, stroke_width=10),
        *(
            pen.line(edge + 380 + step * 260, 150, edge + 380 + step * 260, deep - 150, stroke=PALE, stroke_width=8)
            for step in range(3)
        ),
        _turned(edge + 170, deep - 150, 88, "Endorse within this inch and a half", SERIF, deep - 300),
        _turned(
            edge - 60,
            deep - 150,
            66,
            "Nothing is written, stamped or signed on this side of the line",
            SANS,
            deep - 300,
        ),
        pen.rect(
            bank.left,
            bank.top,
            bank.width,
            bank.height,
            fill="none",
            stroke=PALE,
            stroke_width=8,
            stroke_dasharray="60 40",
        ),
        pen.text(
            bank.left + bank.width / 2,
            bank.top + 130,
            72,
            "bank of first deposit",
            bank.width,
            text_anchor="middle",
            fill=SOFT,
            font_family=SANS,
        ),
    ]
    lines = tender.face.endorsements.text.splitlines()[:3]
    for number, words in enumerate(lines):
        parts.append(_turned(edge + 350 + number * 260, deep - 170, 105, words, HAND, deep - 340))
    if lines:
        parts.append(scrawl(Region(edge + 900, 0, 300, 0, 0, 0), "endorsement", upright=deep))
    return [*parts, *specimen(width, height)]


def specimen(width: float, height: float) -> list[str]:
    """The word SPECIMEN across the paper: always the last stroke, on every side, by nobody's choice."""
    deep = height - strokes.CLEAR_BAND
    x, y, size = width / 2, deep / 2 + 260, min(deep * 0.5, width / 6.4)
    word = pen.text(
        x,
        y,
        size,
        "SPECIMEN",
        text_anchor="middle",
        font_family=SANS,
        font_weight="bold",
        textLength=f"{width * 0.82:g}",
        lengthAdjust="spacingAndGlyphs",
        fill="#000000",
        fill_opacity="0.07",
        stroke="#6b6f78",
        stroke_width=9,
        stroke_opacity="0.75",
        transform=f"rotate(-9 {x:g} {deep / 2:g})",
    )
    small = "SPECIMEN FOR TRAINING. NO BANK, NO ACCOUNT, NO VALUE."
    edge = pen.text(
        width / 2, 105, 60, small, width - 400, text_anchor="middle", font_family=SANS, letter_spacing=12, fill=SOFT
    )
    return [pen.group("specimen", [word, edge])]


def _paper(width: float, height: float) -> Iterator[str]:
    yield pen.rect(0, 0, width, height, fill=PAPER)
    deep = height - strokes.CLEAR_BAND
    waves = []
    step = width / 12
    for number in range(1, int(deep // 95)):
        base = number * 95
        turns = [f"M0 {base:g}"]
        for turn in range(12):
            rise = 34 if (turn + number) % 2 else -34
            turns.append(f"Q{(turn + 0.5) * step:g} {base + rise:g} {(turn + 1) * step:g} {base:g}")
        waves.append(" ".join(turns))
    yield pen.path(waves, fill="none", stroke="#e4e1d6", stroke_width=7)
    yield pen.rect(10, 10, width - 20, height - 20, rx=70, fill="none", stroke=PALE, stroke_width=10)


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
            size = place.size if not number else place.size * 0.78
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


def _turned(x: float, y: float, size: float, words: str, family: str, room: float) -> str:
    """A text that runs up along an edge."""
    turn = f"translate({x:g} {y:g}) rotate(-90)"
    return pen.text(0, 0, size, words, room, transform=turn, font_family=family)


def _line(reading: Reading, sheet: Sheet) -> Iterator[str]:
    bottom = sheet.height - strokes.BASE_LINE
    if reading.state is State.ILLEGIBLE:
        yield smear(Region(500, 0, sheet.width * 0.6, 0, bottom, 117), "micr")
    for place in strokes.placed(reading.text, sheet.width):
        right = strokes.right_edge(place.position, sheet.width)
        yield pen.path(strokes.glyph(place.name, right, bottom), fill="#000000")
