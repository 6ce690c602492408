"""How alike the fourteen E-13B characters look.

The shapes are the bitmaps of ``data/e13b_glyphs.csv``: half-module cells, 18 rows of 14, one module being 0.013 in.
Two shapes are laid over each other inside the character cell, one is shifted by up to one module each way, and the
best ratio of common ink to all ink is their similarity.

>>> round(1 - similarity("5", "9"), 2), round(1 - similarity("2", "3"), 2)
(0.19, 0.29)
>>> similarity("5", "9") > similarity("5", "1")
True
>>> bitmap("A")
Traceback (most recent call last):
    ...
KeyError: 'A'
"""

from __future__ import annotations

from functools import cache

from checkface import tables

Bitmap = tuple[int, ...]
WIDTH, HEIGHT = 14, 18
_CELL = (1 << WIDTH) - 1
_SHIFTS = range(-2, 3)


def bitmap(name: str) -> Bitmap:
    """The 18 rows of a character, ``"0"`` to ``"9"`` or ``transit amount on-us dash``; highest bit leftmost.

    Raises KeyError for another name.
    """
    return _bitmaps()[name]


@cache
def _bitmaps() -> dict[str, Bitmap]:
    return {row["character"]: unpack(row["rows"]) for row in tables.load("e13b_glyphs").rows}


def unpack(rows: str) -> Bitmap:
    """Rows written as hexadecimal numbers, ``x*n`` for n equal rows."""
    found: list[int] = []
    for word in rows.split():
        value, _, times = word.partition("*")
        found += [int(value, 16)] * int(times or 1)
    return tuple(found)


@cache
def similarity(one: str, other: str) -> float:
    """1.0 for equal shapes, 0.0 for shapes without common ink; symmetric. The first in table order stands still."""
    order = list(_bitmaps())
    still, moved = sorted((one, other), key=order.index)
    return max(_overlap(bitmap(still), bitmap(moved), across, down) for across in _SHIFTS for down in _SHIFTS)


def _overlap(still: Bitmap, moved: Bitmap, across: int, down: int) -> float:
    common = union = 0
    for row in range(HEIGHT):
        other = moved[row - down] if 0 <= row - down < HEIGHT else 0
        other = (other << across if across > 0 else other >> -across) & _CELL
        common += (still[row] & other).bit_count()
        union += (still[row] | other).bit_count()
    return common / union
