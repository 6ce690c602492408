"""What a hand does on paper: a signature that is no name, a smear, and the characters that are underlined.

>>> pieces("Forty-five", 0, [(0, 5)])
[('Forty', True), ('-five', False)]
"""

from __future__ import annotations

from typing import Any

from checkface.training import pen
from checkface.training.invented import dice
from checkface.training.layout import Region
from checkface.training.pen import INK, Piece


def scrawl(place: Region, name: str, upright: float = 0) -> str:
    """A hand that writes no name at all: loops that hang on *name*, so that one drawer always signs alike."""
    throw = dice(name)
    x, base = (place.left + 150, place.base) if not upright else (0.0, 0.0)
    steps = [f"M{x:g} {base - 20:g}"]
    loops, capitals = throw.randint(7, 10), {0, throw.randint(3, 6)}
    for stroke in range(loops):
        ahead = 80 + throw.random() * 90
        tall = (210 if stroke in capitals else 75) * (0.7 + throw.random() * 0.6)
        low = 40 * throw.random()
        steps.append(
            f"C{x + ahead * 0.1:g} {base - tall:g} {x + ahead * 1.1:g} {base - tall:g} "
            f"{x + ahead * 0.55:g} {base + low:g}"
        )
        steps.append(f"S{x + ahead * 0.8:g} {base - 60:g} {x + ahead:g} {base - 25:g}")
        x += ahead
    steps.append(f"Q{x + 120:g} {base - 20:g} {x + 240:g} {base - 90:g}")
    style: dict[str, Any] = {"fill": "none", "stroke": "#23306b", "stroke_width": 15, "stroke_linecap": "round"}
    if upright:
        style["transform"] = f"translate({place.left:g} {upright - 200:g}) rotate(-90)"
    return pen.group("scrawl", [pen.path(steps, **style)])


def smear(place: Region, name: str) -> str:
    """What nobody could make out."""
    throw = dice(name)
    steps = []
    for _ in range(26):
        x = place.left + 80 + throw.random() * (place.width - 260)
        y = place.base - throw.random() * place.size
        steps.append(f"M{x:g} {y:g} L{x + 60 + throw.random() * 90:g} {y - 20 + throw.random() * 40:g}")
    return pen.path(steps, fill="none", stroke=INK, stroke_width=22, stroke_opacity="0.5", stroke_linecap="round")


def pieces(words: str, offset: int, ranges: list[tuple[int, int]]) -> list[Piece]:
    """*words*, which start at *offset* of their reading, parted where a range of marked characters starts or ends."""
    found: list[Piece] = []
    for at, character in enumerate(words, offset):
        under = any(start <= at < end for start, end in ranges)
        if found and found[-1][1] == under:
            found[-1] = (found[-1][0] + character, under)
        else:
            found.append((character, under))
    return found
