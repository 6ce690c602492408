"""The part of a reading that a finding points at, with the characters in question underlined.

``^`` underlines what the finding is about (a primary label), ``~`` what it is held against (a secondary one). Columns
count terminal cells, not characters. A reading of several lines shows only the lines pointed at, each with its number;
a line that does not fit is cropped around the span.

>>> for row in excerpt("words", "Forty-fife and 10/100", [Mark(6, 10, "read as five")], 60):
...     print(row.text)
Forty-fife and 10/100
      ^^^^ read as five
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

from checkface.cells import cell, shown, width

#: Lines of one reading that are shown for one label; the rest is counted.
LINES = 4
_MORE = "…"


class Mark(NamedTuple):
    """Half-open range of characters to underline, what to say about it, and whether it is the subject."""

    start: int
    end: int
    words: str = ""
    primary: bool = True


class Row(NamedTuple):
    """One line of an excerpt. ``name`` stands in the margin."""

    name: str
    text: str
    role: Literal["reading", "primary", "secondary"]


class _Piece(NamedTuple):
    """A mark within one line: characters ``start`` to ``end`` of that line; ``words`` on its last line only."""

    start: int
    end: int
    words: str
    primary: bool


def excerpt(name: str, text: str, marks: Sequence[Mark], room: int) -> list[Row]:
    """Rows that show *marks* in *text*, as wide as *room* cells (at least 20).

    A mark beyond the text stands at its end; one that covers nothing is a single caret.
    """
    room = max(room, 20)
    lines = text.split("\n")
    rows: list[Row] = []
    for number, pieces in _by_line(lines, marks).items():
        title = name if len(lines) == 1 else f"{name}, line {number + 1}"
        rows += _line(title, lines[number], pieces, room)
    return rows


def _by_line(lines: Sequence[str], marks: Sequence[Mark]) -> dict[int, list[_Piece]]:
    found: dict[int, list[_Piece]] = {}
    for mark in marks:
        pieces = list(_pieces(lines, mark))
        left_out = len(pieces) - LINES
        if left_out > 0:
            more = f"and {left_out} more line{'s' * (left_out > 1)}"
            pieces = pieces[:LINES]
            mark = mark._replace(words=f"{mark.words} ({more})" if mark.words else more)
        for number, piece in pieces:
            found.setdefault(number, []).append(piece)
        last, piece = pieces[-1]
        found[last][-1] = piece._replace(words=mark.words)
    return dict(sorted(found.items()))


def _pieces(lines: Sequence[str], mark: Mark) -> Iterator[tuple[int, _Piece]]:
    """The mark line by line; a mark that covers no character stands at one place."""
    offset, last, none = 0, len(lines) - 1, True
    for number, line in enumerate(lines):
        start, end = max(mark.start - offset, 0), min(mark.end - offset, len(line))
        if start < end:
            none = False
            yield number, _Piece(start, end, "", mark.primary)
        elif none and mark.start >= mark.end and start <= len(line):
            yield number, _Piece(start, start, "", mark.primary)
            return
        offset += len(line) + 1
    if none:
        yield last, _Piece(len(lines[last]), len(lines[last]), "", mark.primary)


def _line(name: str, line: str, pieces: list[_Piece], room: int) -> Iterator[Row]:
    pieces = sorted(pieces)
    first, last = pieces[0].start, max(piece.end for piece in pieces)
    if width(line) > room and len(pieces) > 1 and width(line[first:last]) > room - 2:
        for piece in pieces:
            yield from _line(name, line, [piece], room)
        return
    left, right = _window(line, first, last, room)
    before = _MORE if left else ""
    after = _MORE if right < len(line) else ""
    yield Row(name, before + shown(line[left:right]) + after, "reading")
    for piece in pieces:
        yield from _underline(line, piece, left, right, len(before), room)


def _window(line: str, first: int, last: int, room: int) -> tuple[int, int]:
    """The range of characters to show: all, or what fits around *first* to *last*, two cells kept for the dots."""
    if width(line) <= room:
        return 0, len(line)
    budget = room - 2
    left = right = first
    used = 0
    while right < last and used + cell(line[right])[1] <= budget:
        used += cell(line[right])[1]
        right += 1
    grown = True
    while grown:
        grown = False
        for place in (left - 1, right):
            if 0 <= place < len(line) and (place < left or right >= last) and used + cell(line[place])[1] <= budget:
                used += cell(line[place])[1]
                left, right = min(left, place), max(right, place + 1)
                grown = True
    return left, right


def _underline(line: str, piece: _Piece, left: int, right: int, dots: int, room: int) -> Iterator[Row]:
    role: Literal["primary", "secondary"] = "primary" if piece.primary else "secondary"
    start = piece.start
    while left < start < len(line) and cell(line[start])[1] == 0:
        start -= 1  # a combining mark is underlined with the letter it stands on
    column = dots + width(line[left:start])
    drawn = ("^" if piece.primary else "~") * max(width(line[start : min(piece.end, right)]), 1)
    text = " " * column + drawn
    if not piece.words:
        yield Row("", text, role)
    elif len(text) + 1 + width(piece.words) <= room:
        yield Row("", f"{text} {shown(piece.words)}", role)
    else:
        yield Row("", text, role)
        for words in textwrap.wrap(shown(piece.words), room, break_on_hyphens=False):
            yield Row("", words, role)
