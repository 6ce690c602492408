"""A house's own directory of routing numbers, as a CSV text: number, name, state, status, successor.

>>> directory = Directory.parse("number,name,state,status,successor\\n011394776,Specimen Bank,MA,active,\\n12,,,,\\n")
>>> directory.lookup("011394776").name
'Specimen Bank'
>>> directory.bad_rows
(BadRow(line=3, message='Expected nine digits, read 2 digits.'),)
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from typing import NamedTuple

from checkface import tables
from checkface.mistakes import quoted
from checkface.patterns import lazily
from checkface.routing.number import read
from checkface.span import Fault

COLUMNS = ("number", "name", "state", "status", "successor")
STATUSES = ("active", "merged", "retired")

_LINE_END = lazily(r"\r\n|\n|\r")


class Entry(NamedTuple):
    """One institution. ``status`` is ``active``, ``merged`` or ``retired``; ``successor`` nine digits or empty."""

    number: str
    name: str
    state: str
    status: str
    successor: str


class BadRow(NamedTuple):
    """A row that was left out: its line, counted from 1, and why."""

    line: int
    message: str


class Directory(NamedTuple):
    """The rows that could be read, those that could not, and the SHA-256 of the text."""

    entries: Mapping[str, Entry]
    bad_rows: tuple[BadRow, ...]
    digest: str

    @classmethod
    def parse(cls, text: str) -> Directory:
        """Read a CSV text, its cells parted by commas or semicolons, with a heading line naming the columns.

        Only ``number`` is needed; a missing status reads as active. Each bad row is reported with its line and
        the rest goes on.
        """
        import hashlib

        entries: dict[str, Entry] = {}
        bad: list[BadRow] = []
        for line, row in _rows(text.removeprefix("\ufeff")):
            entry = _entry(row) if isinstance(row, dict) else row
            if isinstance(entry, str):
                bad.append(BadRow(line, entry))
            elif entry.number in entries:
                bad.append(BadRow(line, f"Expected each number once, read {entry.number} again."))
            else:
                entries[entry.number] = entry
        return cls(entries, tuple(bad), hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest())

    def lookup(self, number: str) -> Entry | None:
        """The entry of nine digits, in constant time."""
        return self.entries.get(number)


def _rows(text: str) -> Iterator[tuple[int, dict[str, str] | str]]:
    """Line number and cells by column, or what is wrong; each line stands alone, so one open quote costs one row."""
    import csv

    columns: list[str] = []
    separator = ","
    for line, content in enumerate(_LINE_END.split(text), 1):
        if not content.strip():
            continue
        if not columns:
            separator = ";" if content.count(";") > content.count(",") else ","
        try:
            cells = [cell.strip() for cell in next(csv.reader([content], delimiter=separator))]
        except csv.Error as error:
            yield line, f"Expected cells parted by {separator!r}, read: {error}."
            continue
        if not columns:
            columns = [cell.casefold() for cell in cells]
            unknown = [name for name in columns if name not in COLUMNS]
            if unknown or "number" not in columns or len(set(columns)) < len(columns):
                yield line, f"Expected a heading with {', '.join(COLUMNS)}, read {', '.join(columns)[:80]}."
                return
        elif len(cells) != len(columns):
            yield line, f"Expected {len(columns)} cells, read {len(cells)}."
        else:
            yield line, dict(zip(columns, cells, strict=True))


def _entry(row: Mapping[str, str]) -> Entry | str:
    number, name, state, status, successor = (row.get(column, "") for column in COLUMNS)
    for value in filter(None, (number, successor)) if number else (number,):
        if isinstance(fault := read(value), Fault):
            return fault.message
    status = status.casefold() or "active"
    if status not in STATUSES:
        return f"Expected a status of {', '.join(STATUSES)}, read {quoted(status)}."
    if state and state not in _states():
        return f"Expected the two letters of a state, read {quoted(state)}."
    return Entry(number, name, state, status, successor)


@cache
def _states() -> frozenset[str]:
    return frozenset(row["alpha"] for row in tables.load("us_states").rows) - {""}
