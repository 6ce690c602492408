"""Rows of a CSV file, in which one broken row costs no other.

Rows follow RFC 4180; the separator is a comma, a semicolon or a tab, whichever makes most sense of the heading. A
quotation mark that is never closed would swallow the rest of the file: when a row does not come out right but the line
below it does on its own, only the first line is given up and reading goes on with the second.
"""

from __future__ import annotations

import csv
from collections.abc import Callable, Iterator
from typing import NamedTuple

from checkface.audit.source import LIMIT, InputError, Lines
from checkface.digits import discreet

SEPARATORS = (",", ";", "\t")
#: Most characters one cell may have.
CELL = 1 << 17

_HUGE = f"Expected at most {CELL:,} characters in a cell, read more."
_FAULTS = {
    "unexpected end of data": "Expected a closing quotation mark, read the end of the file.",
    "expected after": "Expected a separator after the closing quotation mark, read something else.",
    "new-line character": "Expected lines that end in LF or CR LF, read a bare carriage return.",
    "larger than": _HUGE,
}


class Row(NamedTuple):
    """One row: the ``line`` it starts on and its ``cells``, or the ``fault`` for which there are none."""

    line: int
    cells: tuple[str, ...]
    fault: str = ""

    def __repr__(self) -> str:
        return discreet(self)


class _Feed:
    """What the csv module pulls its lines from; ``taken`` holds the lines of the row at hand."""

    def __init__(self, lines: Lines) -> None:
        self._lines = lines
        self.start_row()

    def start_row(self) -> None:
        self.taken: list[tuple[int, str]] = []
        self._size = 0

    def __iter__(self) -> _Feed:
        return self

    def __next__(self) -> str:
        line = self._lines.take()
        if line is None:
            raise StopIteration
        self.taken.append(line)
        self._size += len(line[1])
        if self._size > LIMIT:
            raise csv.Error("row larger than the limit")
        return line[1]


def rows(lines: Lines, known: Callable[[str], bool]) -> Iterator[Row]:
    """The heading, then every row below it; rows without any text are passed over.

    ``known`` says whether a heading is one, which tells the separator. Raises :class:`InputError` for a heading that
    cannot be read and for a cell beyond all measure.
    """
    separator = _separator(lines, known)
    feed = _Feed(lines)
    reader = csv.reader(feed, delimiter=separator, strict=True)
    wanted = 0
    while True:
        feed.start_row()
        cells, fault = _next(reader, wanted)
        if not feed.taken:
            return
        if not fault and not any(cell.strip() for cell in cells):
            continue
        number = feed.taken[0][0]
        if fault:
            below = feed.taken[1:]
            stray = bool(below) and len(_split(below[0][1], separator)) == wanted
            if not wanted or (fault is _HUGE and not stray):
                raise InputError(f"Line {number}: {fault}")
            if stray:
                lines.give_back(below)
        wanted = wanted or len(cells)
        yield Row(number, tuple(cells), fault)


def _next(reader: Iterator[list[str]], wanted: int) -> tuple[list[str], str]:
    """The cells of the next row, or what is wrong with it."""
    try:
        cells = next(reader, [])
    except csv.Error as error:
        return [], next(fault for hint, fault in _FAULTS.items() if hint in str(error))
    if wanted and len(cells) != wanted and any(cells):
        return [], f"Expected {wanted} cells, read {len(cells)}."
    return cells, _HUGE if any(len(cell) > CELL for cell in cells) else ""


def _separator(lines: Lines, known: Callable[[str], bool]) -> str:
    """The separator that makes the most of the first line known headings; a comma when none does."""
    passed = []
    while (line := lines.take()) is not None:
        passed.append(line)
        if line[1].strip():
            break
    lines.give_back(passed)
    heading = passed[-1][1] if passed else ""
    return max(SEPARATORS, key=lambda separator: sum(map(known, _split(heading, separator))))


def _split(line: str, separator: str) -> list[str]:
    """The cells of one line by itself; none if it is not a whole row."""
    try:
        return next(csv.reader([line], delimiter=separator, strict=True), [])
    except csv.Error:
        return []
