"""The back of a check: where the payee endorses, where the bank of first deposit does, and what is there already."""

from __future__ import annotations

from checkface.tender import Tender
from checkface.training import pen
from checkface.training.hand import scrawl
from checkface.training.layout import Region, back
from checkface.training.paper import Sheet, ground, specimen
from checkface.training.pen import HAND, PALE, SANS, SERIF, SOFT


def reverse(tender: Tender, sheet: Sheet) -> list[str]:
    """The parts of the back of an admitted *tender*."""
    places, width, height = back(sheet.width, sheet.height), sheet.width, sheet.height
    area, bank = places["endorsements"], places["depositary"]
    deep = area.height
    edge = area.left
    parts = [
        *ground(width, height),
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


def _turned(x: float, y: float, size: float, words: str, family: str, room: float) -> str:
    """A text that runs up along an edge."""
    turn = f"translate({x:g} {y:g}) rotate(-90)"
    return pen.text(0, 0, size, words, room, transform=turn, font_family=family)
