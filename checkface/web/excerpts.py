"""A reading cut into pieces, so that the very characters of a finding can be marked on a page.

>>> for piece in pieces("Forty-fife and 10/100", [Mark(6, 10, 1, True)]):
...     print(piece.text, piece.numbers)
Forty- ()
fife (1,)
 and 10/100 ()
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from checkface.cells import cell
from checkface.report.facts import Pointed

#: Unmarked characters that are shown around a mark, and marked ones at each end of a long mark.
AROUND, ENDS = 60, 200
_MORE = "…"


class Mark(NamedTuple):
    """Characters ``start`` to ``end`` bear the note of this ``number``."""

    start: int
    end: int
    number: int
    primary: bool


class Piece(NamedTuple):
    """Characters that bear the same notes. ``ends``: notes whose mark ends here, ``primary``: a finding is about it."""

    text: str
    numbers: tuple[int, ...]
    ends: tuple[int, ...]
    primary: bool


class Note(NamedTuple):
    """What is said of a mark, and where it stands, counted from 1."""

    number: int
    place: str
    words: str
    primary: bool


class Excerpt(NamedTuple):
    """One reading with its notes; ``state`` stands for a reading that has no text."""

    reading: str
    state: str
    pieces: tuple[Piece, ...]
    notes: tuple[Note, ...]

    @property
    def said(self) -> tuple[Note, ...]:
        """The notes that say more than that the whole reading is meant."""
        return tuple(note for note in self.notes if note.place or note.words or not note.primary)


def excerpts(points: Sequence[Pointed], first: int = 1) -> list[Excerpt]:
    """The readings that *points* point at, each once, in their order; the notes are counted from *first*."""
    by_reading: dict[str, list[tuple[int, Pointed]]] = {}
    for number, point in enumerate(points, first):
        by_reading.setdefault(point.reading, []).append((number, point))
    return [_excerpt(reading, together) for reading, together in by_reading.items()]


def _excerpt(reading: str, together: list[tuple[int, Pointed]]) -> Excerpt:
    first = together[0][1]
    marks = [Mark(point.start, point.end, number, point.primary) for number, point in together]
    notes = tuple(Note(number, _place(point), point.words, point.primary) for number, point in together)
    return Excerpt(reading, first.state, tuple(pieces(first.text, marks)), notes)


def _place(point: Pointed) -> str:
    if point.whole or not point.text:
        return ""
    first, last = point.start + 1, max(point.end, point.start + 1)
    return f"character {first}" if first == last else f"characters {first} to {last}"


def pieces(text: str, marks: Sequence[Mark]) -> Iterator[Piece]:
    """*text* in pieces that bear the same marks; long pieces are cut, and nothing in them can act.

    A mark that covers no character stands at the next one, or after the end of the text.
    """
    marks = [mark._replace(end=max(mark.end, mark.start + 1)) for mark in marks]
    last = max([len(text), *(mark.end for mark in marks)])
    edges = sorted({0, last, *(edge for mark in marks for edge in (mark.start, mark.end))})
    for start, end in pairwise(edges):
        here = [mark for mark in marks if mark.start <= start and end <= mark.end]
        if not text:
            return
        covered = text[start:end] or "\u00a0"
        yield Piece(
            shown(_cut(covered, bool(here), start == 0, end == last)),
            tuple(mark.number for mark in here),
            tuple(mark.number for mark in here if mark.end == end),
            any(mark.primary for mark in here),
        )


def _cut(text: str, marked: bool, first: bool, last: bool) -> str:
    """*text* without its middle, or without what is far from any mark."""
    keep = ENDS if marked else AROUND
    left, right = (0 if first and not marked else keep), (0 if last and not marked else keep)
    if len(text) <= 2 * keep:
        return text
    return text[:left] + _MORE + (text[-right:] if right else "")


def shown(text: str) -> str:
    """*text* with its lines, and with nothing else in it that a browser would act upon or leave out."""
    return "".join(character if character == "\n" else cell(character)[0] for character in text)
