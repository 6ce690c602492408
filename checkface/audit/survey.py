"""What must be known of a sheet before its rows are read, and what a library that reads rows does not say.

A merged cell looks like empty ones beside it, a formula nobody has calculated looks empty itself, and rows out of
their order are lost. One pass over the sheet, as it comes, finds them. Elements: ISO/IEC 29500-1, 18.3.1.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final, NamedTuple
from xml.parsers import expat
from zipfile import ZipFile

from checkface.audit import package
from checkface.audit.source import InputError

#: The last row a workbook can have.
LAST: Final = 1 << 20
#: Most merged ranges, and most formulas without a result, that are remembered.
MOST: Final = 10_000
_RANGE: Final = re.compile(r"\$?([A-Z]{1,3})\$?([0-9]{1,7})(?::\$?([A-Z]{1,3})\$?([0-9]{1,7}))?", re.ASCII)


class Merged(NamedTuple):
    """One merged range: its first and last row and column, from 1, and as the workbook writes it."""

    first: int
    last: int
    left: int
    right: int
    name: str


class Survey(NamedTuple):
    """Of one sheet: merged ranges by row, how many rows are hidden, cells whose formula has no result, their rows."""

    merged: list[Merged]
    hidden: int
    uncalculated: frozenset[str]
    uncalculated_rows: frozenset[int]


def has_cells(archive: ZipFile, part: str) -> bool:
    """Whether any cell of the sheet in *part* holds something."""
    found: list[str] = []

    def started(name: str, _: Mapping[str, str]) -> None:
        if name in {"v", "is", "f"}:
            found.append(name)
            raise package.Enough

    package.scan(archive, part, started)
    return bool(found)


def survey(archive: ZipFile, part: str) -> Survey:
    """Read the sheet in *part* once. Raises :class:`InputError` for what no spreadsheet would write."""
    seen = _Seen()
    parser = expat.ParserCreate()
    parser.StartElementHandler = seen.start
    parser.EndElementHandler = seen.end
    parser.CharacterDataHandler = seen.characters
    parser.buffer_text = True
    package.feed(archive, part, parser)
    return Survey(sorted(seen.merged), seen.hidden, frozenset(seen.uncalculated), frozenset(seen.rows))


class _Seen:
    def __init__(self) -> None:
        self.merged: list[Merged] = []
        self.hidden = self._row = 0
        self.uncalculated: list[str] = []
        self.rows: set[int] = set()
        self._cell: Mapping[str, str] = {}
        self._formula = self._in_value = self._result = False

    def start(self, name: str, given: Mapping[str, str]) -> None:
        match name.rpartition(":")[2]:
            case "c":
                self._cell, self._formula, self._result = given, False, False
            case "f":
                self._formula = True
            case "v":
                # Text that a formula has made may be empty; any other result has characters.
                self._in_value, self._result = True, self._cell.get("t") == "str"
            case "row":
                self._start_row(given)
            case "mergeCell":
                self.merged.append(_merged(given.get("ref", "")))
                if len(self.merged) > MOST:
                    raise InputError(f"Expected at most {MOST:,} merged ranges in the sheet, read more.")

    def characters(self, _: str) -> None:
        if self._in_value:
            self._result = True

    def end(self, name: str) -> None:
        match name.rpartition(":")[2]:
            case "v":
                self._in_value = False
            case "c" if self._formula and not self._result:
                self.uncalculated.append(self._cell.get("r", ""))
                self.rows.add(self._row)
                if len(self.uncalculated) > MOST:
                    raise InputError(
                        f"Expected the results of formulas, read more than {MOST:,} without; "
                        "open the workbook in a spreadsheet and save it again."
                    )

    def _start_row(self, given: Mapping[str, str]) -> None:
        row = int(given.get("r", self._row + 1))
        if not self._row < row <= LAST:
            raise InputError(
                f"Expected the rows of the sheet in order, at most {LAST:,}, read row {row} after {self._row}."
            )
        self._row = row
        self.hidden += given.get("hidden") in {"1", "true"}


def _merged(ref: str) -> Merged:
    found = _RANGE.fullmatch(ref)
    if found is None:
        raise InputError("Expected a merged range such as B5:B9, read something else.")
    left, first, right, last = found.groups()
    ends = _column(left), _column(right or left)
    rows = int(first), int(last or first)
    return Merged(min(rows), max(rows), min(ends), max(ends), ref)


def _column(letters: str) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - 64
    return number
