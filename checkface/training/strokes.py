"""The magnetic-ink line in the shapes and at the places of E-13B (ISO 1004-1, ANSI X9.100-160; see :mod:`.paper`).

Lengths are thousandths of an inch, from the upper left corner. Eight characters to the inch: position 1 ends 5/16 in
from the right edge, position 33 and 43 hold the transit symbols. The characters are 0.117 in high and stand in the
middle of the print band, 3/16 to 7/16 in above the bottom; the lowest 5/8 in stays clear of anything else.

>>> [(place, name) for place, name, _ in placed("\u2446071098973\u2446 45\u2448", 6000)][:3]
[(43, 'transit'), (42, '0'), (41, '7')]
>>> right_edge(1, 6000), right_edge(43, 6000)
(5687.5, 437.5)
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from checkface import micr
from checkface.micr.glyphs import HEIGHT, WIDTH, Bitmap, bitmap
from checkface.micr.paper import POSITIONS

#: Half a module, the pitch of the characters, the clear band and where the line stands in it.
HALF, PITCH, CLEAR_BAND = 6.5, 125.0, 625.0
MARGIN, BASE_LINE = 312.5, 312.5 - HEIGHT * HALF / 2
_SYMBOLS = {"\u2446": "transit", "\u2447": "amount", "\u2448": "on-us", "\u2449": "dash", "?": "unread"}


class Place(NamedTuple):
    """One printed character: its position from the right edge, its name, and its offset in the reading."""

    position: int
    name: str
    at: int


def placed(line: str, width: float) -> list[Place]:
    """Where each character of a line in Unicode stands on paper *width* wide; blanks take their place unprinted."""
    left = line.find("\u2446")
    closing = line.find("\u2446", left + 1)
    start = (
        (closing + 33 if closing > 0 else left + 43)
        if left >= 0
        else min(len(line), micr.highest_position(width / 1000))
    )
    found = [
        Place(start - at, _SYMBOLS.get(character, character), at)
        for at, character in enumerate(line)
        if not character.isspace()
    ]
    found = _amount_at_its_place(found, line)
    shift = max(0, 1 - min((place.position for place in found), default=1))  # a long field pushes the line leftwards
    return [place._replace(position=place.position + shift) for place in found]


def _amount_at_its_place(found: list[Place], line: str) -> list[Place]:
    """The amount, where there is one, ends at position 1, wherever the reading has its blanks."""
    first = line.find("\u2447")
    end = len(line.rstrip())
    if first < 0 or end - first != 12 or line[end - 1] != "\u2447":
        return found
    if min((place.position for place in found if place.at < first), default=POSITIONS) <= end - first + 1:
        return found  # no room is left for it and the blank before it
    return [place._replace(position=end - place.at) if place.at >= first else place for place in found]


def needed_width(line: str) -> float:
    """The narrowest paper for the line: 1/4 in stays free at its left, less one place for a processing code."""
    highest = max((place.position for place in placed(line, 6000)), default=1)
    return MARGIN + (min(highest, POSITIONS) - 1) * PITCH + 250


def right_edge(position: int, width: float) -> float:
    """Where the character at *position* ends."""
    return width - MARGIN - (position - 1) * PITCH


def glyph(name: str, right: float, bottom: float) -> Iterator[str]:
    """The steps of one character that ends at *right* and stands on *bottom*: one rectangle for each run of ink."""
    left, top = right - WIDTH * HALF, bottom - HEIGHT * HALF
    for column, row, across, down in runs(_shape(name)):
        x, y = left + column * HALF, top + row * HALF
        yield f"M{x:g} {y:g} H{x + across * HALF:g} V{y + down * HALF:g} H{x:g} Z"


def _shape(name: str) -> Bitmap:
    if name == "unread":  # a blot where a character should be
        return tuple((0x3FFF if row % 4 < 2 else 0x1B6D) if 1 < row < 16 else 0 for row in range(HEIGHT))
    return bitmap(name)


def runs(shape: Bitmap) -> Iterator[tuple[int, int, int, int]]:
    """Rectangles that together are the ink of a bitmap: column, row, columns and rows of each."""
    row = 0
    while row < HEIGHT:
        down = 1
        while row + down < HEIGHT and shape[row + down] == shape[row]:
            down += 1
        bits = f"{shape[row]:0{WIDTH}b}"
        column = 0
        while column < WIDTH:
            if bits[column] == "1":
                across = len(bits[column:]) - len(bits[column:].lstrip("1"))
                yield column, row, across, down
                column += across
            else:
                column += 1
        row += down
