"""Where each reading stands on the face. Lengths are thousandths of an inch, from the upper left corner.

The places are those of any American check (common practice): drawer at the upper left, number and fraction at the
upper right, date below them, then the payee, the box of figures, the legal line, the drawee, the memo and the
signature, and the magnetic-ink line in the clear band at the bottom. The arrangement is our own.

>>> face = regions(6000, 2750)
>>> face["figures"].left + face["figures"].width <= 6000
True
"""

from __future__ import annotations

from typing import NamedTuple

from checkface.training.strokes import CLEAR_BAND

#: Height of everything above the clear band on a personal check, for which the places are drawn up.
_PERSONAL = 2750 - CLEAR_BAND
EDGE = 230


class Region(NamedTuple):
    """A place for one reading: its box, the base line of its (first) text line, and the height of its letters."""

    left: float
    top: float
    width: float
    height: float
    base: float
    size: float


def regions(width: float, height: float) -> dict[str, Region]:
    """The place of each reading of the face, by its name."""
    tall = (height - CLEAR_BAND) / _PERSONAL
    wide = width / 6000
    right = width - EDGE

    def box(left: float, top: float, across: float, down: float, base: float, size: float) -> Region:
        return Region(left, top * tall, across, down * tall, base * tall, size * min(tall, 1.25))

    narrow = 1500 * wide
    return {
        "drawer": box(EDGE, 190, 1950 * wide, 480, 320, 122),
        "legends": box(2250 * wide, 190, 1900 * wide, 420, 330, 118),
        "serial": box(right - 800, 170, 800, 170, 310, 150),
        "fraction": box(right - 700, 350, 700, 190, 440, 82),
        "date": box(right - narrow, 590, narrow, 170, 715, 130),
        "payee": box(EDGE + 620, 830, width - 2 * EDGE - 620 - 1330, 190, 980, 150),
        "figures": box(right - 1150, 800, 1150, 220, 965, 150),
        "words": box(EDGE, 1070, width - 2 * EDGE - 620, 190, 1220, 145),
        "drawee": box(EDGE, 1330, 2400 * wide, 310, 1445, 105),
        "terms": box(2750 * wide, 1330, width - EDGE - 2750 * wide, 260, 1430, 82),
        "memo": box(EDGE, 1790, 2300 * wide, 190, 1960, 120),
        "signature": box(width * 0.56, 1660, right - width * 0.56, 320, 1960, 150),
        "countersignature": box(EDGE + 380, 1660, 2050 * wide, 320, 1960, 150),
        "alterations": box(right - 1150, 800, 1150, 220, 965, 150),
        "micr": Region(0, height - CLEAR_BAND, width, CLEAR_BAND, height - 254, 117),
    }


_STAMPS = frozenset(
    {"void", "copy", "certified", "cancelled", "non-negotiable", "paid in full", "specimen", "duplicate"}
    | {"in full settlement", "nsf", "refer to maker", "returned"}
)


def wording_place(words: str) -> str:
    """How one line of wording is printed: a ``stamp``, small-print ``terms``, or a ``title`` among the legends."""
    if words.strip().casefold() in _STAMPS or words.upper().startswith("PROCESSED"):
        return "stamp"
    return "terms" if any(character.isdigit() for character in words) else "title"


def back(width: float, height: float) -> dict[str, Region]:
    """The places of the back: payee's endorsement in the inch and a half of the trailing edge (12 CFR 229.35, ANSI
    X9.100-111), seen from behind at the right; the bank of first deposit beside it."""
    deep = height - CLEAR_BAND
    return {
        "endorsements": Region(width - 1500, 0, 1500, deep, 0, 110),
        "depositary": Region(width - 3500, 150, 1800, deep - 300, 0, 80),
    }
