"""The paper under a drawing: its size, its ground, and the word across it that no choice of anybody's can leave out.

The units are thousandths of an inch; ``width`` and ``height`` of the document are inches, so that a print at 100 % is
as large as the paper. Colours are dark on light and never carry a meaning of their own.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from checkface.tender import Kind, Tender
from checkface.training import invented, pen, strokes
from checkface.training.pen import INK, PALE, PAPER, SANS, SOFT


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
    return Sheet(width, height, paper.made.payer, paper.made.two_signatures)


def document(width: float, height: float, name: str, described: str, parts: list[str]) -> str:
    """The whole drawing around its *parts*; it says its *name* and what it shows to those who hear it."""
    size = f'width="{width / 1000:g}in" height="{height / 1000:g}in" viewBox="0 0 {width:g} {height:g}"'
    head = f'<svg xmlns="http://www.w3.org/2000/svg" role="img" {size} xml:space="preserve" fill="{INK}">'
    return "\n".join([head, pen.title(name), pen.title(described, "desc"), *parts, "</svg>"]) + "\n"


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
        fill_opacity="0.09",
        stroke="#6b6f78",
        stroke_width=7,
        stroke_opacity="0.3",  # small type below it stays legible
        transform=f"rotate(-9 {x:g} {deep / 2:g})",
    )
    small = "SPECIMEN FOR TRAINING. NO BANK, NO ACCOUNT, NO VALUE."
    edge = pen.text(
        width / 2, 105, 60, small, width - 400, text_anchor="middle", font_family=SANS, letter_spacing=12, fill=SOFT
    )
    return [pen.group("specimen", [word, edge])]


def ground(width: float, height: float) -> Iterator[str]:
    """The bare paper: its colour, fine waves, its edge."""
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
