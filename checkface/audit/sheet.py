"""The rows of one sheet of a workbook as they come: what each cell holds, or why that is nothing usable.

Read here and not by a library, since what matters to an audit is what a library passes over: a formula nobody has
calculated, rows and cells out of their order, and merged ranges. Elements: ISO/IEC 29500-1, 18.3.1.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache
from itertools import chain
from typing import Final, NamedTuple
from xml.parsers import expat
from zipfile import ZipFile

from openpyxl.utils.datetime import MAC_EPOCH, WINDOWS_EPOCH, from_excel, from_ISO8601

from checkface.audit import package
from checkface.audit.book import Book, Form, Gathered
from checkface.audit.source import InputError

#: The last row and the last column that a workbook can have.
LAST, WIDEST = 1 << 20, 1 << 14
#: Most merged ranges that are remembered.
MOST: Final = 10_000
_RANGE: Final = re.compile(r"([A-Z]{1,3})([0-9]{1,7})(?::([A-Z]{1,3})([0-9]{1,7}))?", re.ASCII)
_NUMBER: Final = re.compile(r"-?[0-9]{1,40}((?:\.[0-9]{0,40})?(?:[eE][+-]?[0-9]{1,3})?)", re.ASCII)
_PLAIN: Final = Form()


class Unusable(NamedTuple):
    """A cell that holds nothing usable: a sentence saying why."""

    sentence: str


class Formatted(NamedTuple):
    """A number that is shown as another text than its own: with noughts up to ``digits``, or times a hundred."""

    number: int | float
    digits: int
    percent: bool

    def __str__(self) -> str:
        return f"{self.number * 100:g}%" if self.percent else str(int(self.number)).zfill(self.digits)


class Line(NamedTuple):
    """One row: its number, and what its cells hold by their place from 0; empty cells are left out."""

    number: int
    cells: dict[int, object]


class Merged(NamedTuple):
    """One merged range: its first and last row and column, from 1, and as the workbook writes it."""

    first: int
    last: int
    left: int
    right: int
    name: str


_UNCALCULATED: Final = Unusable("Expected the result of a formula, read none; open the workbook and save it again.")


def has_cells(archive: ZipFile, part: str) -> bool:
    """Whether any cell of the sheet in *part* holds something."""
    found: list[str] = []

    def started(name: str, _: Mapping[str, str]) -> None:
        if name in {"v", "is", "f"}:
            found.append(name)
            raise package.Enough

    package.scan(archive, part, started)
    return bool(found)


def merged(archive: ZipFile, part: str) -> list[Merged]:
    """The merged ranges of the sheet in *part*, by row. They stand behind its rows, so that it is read for them."""
    # Few sheets have any, and looking for the word is quick. Wide characters have a zero byte after each letter.
    words, tail = (b"mergeCell", "mergeCell".encode("utf-16-le")), b""
    for step in package.chunks(archive, part):
        if any(word in tail + step for word in words):
            break
        tail = step[-20:]
    else:
        return []
    found: list[Merged] = []

    def started(name: str, given: Mapping[str, str]) -> None:
        if name == "mergeCell":
            found.append(_merged(given.get("ref", "")))
            if len(found) > MOST:
                raise InputError(f"Expected at most {MOST:,} merged ranges in the sheet, read more.")

    package.scan(archive, part, started)
    return sorted(found)


def _merged(ref: str) -> Merged:
    found = _RANGE.fullmatch(ref.replace("$", ""))
    if found is None:
        raise InputError("Expected a merged range such as B5:B9, read something else.")
    left, first, right, last = found.groups()
    ends, rows = (_column(left), _column(right or left)), (int(first), int(last or first))
    return Merged(min(rows), max(rows), min(ends), max(ends), ref)


class Rows:
    """The rows of the sheet in *part* of *archive*; ``hidden`` counts those so far that are not shown."""

    def __init__(self, archive: ZipFile, part: str, book: Book) -> None:
        self.hidden = 0
        self._steps = package.chunks(archive, part)
        self._book = book
        self._epoch = MAC_EPOCH if book.from_1904 else WINDOWS_EPOCH
        self._done: list[Line] = []
        self._line = Line(0, {})
        self._cell: Mapping[str, str] = {}
        self._place = -1
        self._formula = self._valued = self._in_value = False
        self._value: list[str] = []
        self._inline = Gathered()

    def __iter__(self) -> Iterator[Line]:
        parser = expat.ParserCreate()
        parser.buffer_text = True
        parser.StartElementHandler = self._start
        parser.EndElementHandler = self._end
        parser.CharacterDataHandler = self._characters
        for step in chain(self._steps, (b"",)):
            broken: Exception | None = None
            try:
                parser.Parse(step, not step)
            except package.ERRORS as error:
                broken = error
            # What came before the damage is read.
            yield from self._done
            self._done.clear()
            if broken is not None:
                raise broken

    def _start(self, name: str, given: dict[str, str]) -> None:
        name = name.rpartition(":")[2]
        if name == "c":
            self._cell = given
            self._formula = self._valued = False
            self._value.clear()
        elif name == "v":
            self._in_value = self._valued = True
        elif name == "f":
            self._formula = True
        elif name == "row":
            self._start_row(given)
        else:
            self._inline.start(name)

    def _characters(self, data: str) -> None:
        if self._in_value:
            self._value.append(data)
        else:
            self._inline.characters(data)

    def _end(self, name: str) -> None:
        name = name.rpartition(":")[2]
        if name == "c":
            self._end_cell()
        elif name == "v":
            self._in_value = False
        elif name == "row":
            if self._line.cells:
                self._done.append(self._line)
        else:
            self._inline.end(name)

    def _start_row(self, given: Mapping[str, str]) -> None:
        last = self._line.number
        row = int(given.get("r", last + 1))
        if not last < row <= LAST:
            raise InputError(f"Expected rows of the sheet in order, at most {LAST:,}, read row {row} after {last}.")
        self._line = Line(row, {})
        self._place = -1
        self.hidden += given.get("hidden") in {"1", "true"}

    def _end_cell(self) -> None:
        place = self._place + 1
        if address := self._cell.get("r"):
            found = _RANGE.fullmatch(address)
            if found is None or found[3] or int(found[2]) != self._line.number:
                raise ValueError("a cell of another row")
            place = _column(found[1]) - 1
        if not self._place < place < WIDEST:
            raise ValueError("cells out of order")
        self._place = place
        value = self._held()
        if value is not None:
            self._line.cells[place] = value

    def _held(self) -> object:
        kind, value = self._cell.get("t", "n"), "".join(self._value)
        if kind == "inlineStr":
            return self._inline.text()
        if kind == "str":
            # Text that a formula has made may be empty.
            return value if self._valued else _UNCALCULATED if self._formula else None
        if not value:
            return _UNCALCULATED if self._formula else None
        if kind == "n":
            return self._number(value)
        if kind == "s":
            return self._book.texts[_index(value)]
        if kind == "b":
            return {"1": True, "true": True, "0": False, "false": False}[value]
        if kind == "e":
            return Unusable(f"Expected a value, read the error {value[:10]}.")
        return from_ISO8601(value)  # type: ignore[no-untyped-call]

    def _number(self, name: str) -> object:
        found = _NUMBER.fullmatch(name)
        if found is None:
            raise ValueError("no number")
        number = float(name) if found[1] else int(name)
        style = _index(self._cell.get("s", "0"))
        form = self._book.forms[style] if style < len(self._book.forms) else _PLAIN
        if form.day:
            try:
                return from_excel(number, self._epoch, timedelta=form.length)
            except (OverflowError, ValueError):
                return Unusable("Expected a day, read a number beyond the calendar.")
        if form.percent or (form.digits and number >= 0 and number == int(number)):
            return Formatted(number, form.digits, form.percent)
        return number


def _index(text: str) -> int:
    if not (text.isascii() and text.isdigit()):
        raise ValueError("no index")
    return int(text)


@lru_cache(1 << 10)
def _column(letters: str) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - 64
    return number
