"""Which field stands where in which record: DSTU X9.37-2003 and ANSI X9.100-187, from their public field tables.

The table is ``data/x9_records.csv``. Most records have 80 bytes; those that hold an image reference key, a signature,
an image or a user's own data are as long as their own length fields say, each standing before what it measures.

>>> [field.name for field in layouts("03")["25"].fields][3:7]
['Payor Bank Routing Number', 'Payor Bank Routing Number Check Digit', 'On-Us', 'Item Amount']
>>> layouts("03")["52"].least
117
"""

from collections.abc import Callable, Mapping
from functools import cache
from typing import Final, NamedTuple

from checkface import tables

#: Levels of the standard in record 01 field 2: X9.37-2003, X9.100-187-2008, X9.100-187-2013 and -2016.
LEVELS: Final[Mapping[str, str]] = {
    "03": "X9.37-2003", "30": "X9.100-187-2008", "35": "X9.100-187-2013/2016",
}  # fmt: skip
#: The level by which a file is read that names none of them.
NEWEST: Final = "35"


class Field(NamedTuple):
    """One field. ``start`` counts from 0 and leaves out what fields of varying length before it add."""

    number: int
    name: str
    start: int
    length: int | None
    """Bytes; None where the field before this one says how many."""
    kind: str
    """N digits, A letters, S signs, B blanks, alone or together; NBSM signs are ``-`` and ``*``, NBSMOS also ``/``."""
    mandatory: bool
    values: tuple[str, ...]
    """What it may hold, where that is a closed set that is acted upon."""


class Size(NamedTuple):
    """How long one record is by its own length fields."""

    total: int | None
    """Bytes of the record; None where a length field is not readable."""
    head: int
    """Bytes of it that are text: all but image data."""


class Layout(NamedTuple):
    """The fields of one record type at one level."""

    type: str
    fields: tuple[Field, ...]
    least: int
    """Bytes without what fields of varying length add."""
    places: Mapping[str, tuple[int, int]]
    """Name to start and end, where no field before it varies; a name that comes twice is its first."""
    varies: bool
    """Whether some field is as long as another says."""

    def size(self, at: Callable[[int, int], str]) -> Size:
        """The length of the record whose characters *at* gives, by start and length."""
        if not self.varies:
            return Size(self.least, self.least)
        place = start = length = 0
        for field in self.fields:
            if field.length is None:
                told = measure(at(start, length))
                if told is None:
                    return Size(None, place)
                if field.name == IMAGE_DATA:
                    return Size(place + told, place)
            start, length = place, field.length if field.length is not None else told or 0
            place += length
        return Size(place, place)


IMAGE_DATA: Final = "Image Data"


def measure(text: str) -> int | None:
    """What a length field says: digits, blanks around them or nothing else meaning none."""
    digits = text.strip(" ")
    if not digits:
        return 0
    return int(digits) if digits.isascii() and digits.isdigit() else None


@cache
def layouts(level: str) -> Mapping[str, Layout]:
    """Every record type at *level*, by its two digits; a level that nobody knows is read as the newest."""
    wanted = level if level in LEVELS else NEWEST
    fields: dict[str, list[Field]] = {}
    for row in tables.load("x9_records").rows:
        if not row["levels"] or wanted in row["levels"].split():
            fields.setdefault(row["record"], []).append(_field(row))
    return {kind: _layout(kind, tuple(found)) for kind, found in fields.items()}


def _field(row: tables.Row) -> Field:
    start = int(row["start"].partition("+")[0]) - 1
    length = int(row["length"]) if row["length"].isdigit() else None
    values = tuple(row["values"].split())
    return Field(int(row["field"]), row["name"], start, length, row["kind"], row["usage"] == "M", values)


def _layout(kind: str, fields: tuple[Field, ...]) -> Layout:
    places: dict[str, tuple[int, int]] = {}
    for field in fields:
        if field.length is None:
            break
        places.setdefault(field.name, (field.start, field.start + field.length))
    varies = any(field.length is None for field in fields)
    return Layout(kind, fields, sum(field.length or 0 for field in fields), places, varies)


class Reason(NamedTuple):
    """Why a check came back. ``unpaid``: the reason speaks of the account, not of the paper or its handling."""

    words: str
    unpaid: bool


@cache
def return_reasons() -> Mapping[str, Reason]:
    """Code of record 31 field 6 to its reason: ANSI X9.100-188."""
    rows = tables.load("return_reasons").rows
    return {row["code"]: Reason(row["reason"], row["unpaid"] == "yes") for row in rows}
