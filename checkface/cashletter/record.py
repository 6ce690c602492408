"""One record of a cash letter, and what is wrong at one place of it.

A record keeps its characters as they are; fields are asked by the names or numbers of the published tables. Numbers of
accounts never stand in a ``repr`` or in a message.
"""

from collections.abc import Mapping
from typing import NamedTuple

from checkface.cashletter.form import Encoding, encode
from checkface.cashletter.layout import Field, Layout, layouts, measure
from checkface.span import Fault


class Place(NamedTuple):
    """Where bytes stand in the file."""

    offset: int
    length: int


class Record(NamedTuple):
    """One record. ``text`` is all of it but image data, one character a byte in the file's encoding."""

    type: str
    text: str
    level: str
    """The standard's level, by which its fields are found."""
    number: int = 0
    """Which record of the file it is, from 1; 0 for one that was made, not read."""
    offset: int = 0
    """Of its first byte, behind a length."""
    size: int = 0
    """Its bytes in the file, image data with them and a length before it without."""
    image: Place | None = None
    """Record 52: where its image data stand."""
    data: bytes = b""
    """Record 52: the image data, if they were asked for."""
    encoding: Encoding = "cp037"
    """In which ``text`` stands for bytes."""

    def __repr__(self) -> str:
        return f"Record({self.type!r}, number={self.number}, offset={self.offset}, {len(self.text)} characters)"

    @property
    def layout(self) -> Layout | None:
        """Its fields; None for a type the tables do not have."""
        return layouts(self.level).get(self.type)

    def field(self, name: str | int) -> str:
        """The characters of the field with this name or number, as they stand.

        Raises KeyError for a field that records of this type do not have. Image data are in ``data``.
        """
        layout = self.layout
        if layout is None:
            raise KeyError(name)
        if isinstance(name, str) and (place := layout.places.get(name)):
            return self.text[place[0] : place[1]]
        for field, start, end in spread(layout, self.text):
            if name in (field.name, field.number):
                return self.text[start:end]
        raise KeyError(name)

    def binary(self, name: str | int) -> bytes:
        """The bytes of a field, as they stand in the file: a signature, a user's own data."""
        return encode(self.field(name), self.encoding)

    def number_in(self, name: str) -> int | None:
        """The value of a field of digits; None where it holds anything else."""
        digits = self.field(name)
        return int(digits) if digits.isascii() and digits.isdigit() else None

    def fields(self) -> Mapping[str, str]:
        """Every field by name, as it stands; reserved and user fields that share a name once."""
        layout = self.layout
        return {} if layout is None else {f.name: self.text[start:end] for f, start, end in spread(layout, self.text)}

    @property
    def end(self) -> int:
        """The offset behind it."""
        return self.offset + self.size


def spread(layout: Layout, text: str) -> list[tuple[Field, int, int]]:
    """Every field with where it starts and ends in *text*; up to a length that cannot be read."""
    found: list[tuple[Field, int, int]] = []
    start = end = 0
    for field in layout.fields:
        length = field.length
        if length is None:
            length = measure(text[start:end])
            if length is None:
                break
        start, end = end, end + length
        found.append((field, start, end))
    return found


class Flaw(NamedTuple):
    """Something wrong in the file. ``offset`` is of the byte where it shows, ``number`` that of the record."""

    offset: int
    number: int
    type: str
    """Of the record; empty where no record can be named."""
    field: str
    """Name of the field; empty where it is none."""
    fault: Fault

    @property
    def message(self) -> str:
        """One sentence with its place; it quotes no number of an account."""
        place = f"Byte {self.offset:,}"
        if self.number:
            named = ", ".join(part for part in (f"type {self.type}" if self.type else "", self.field) if part)
            place += f", record {self.number:,}" + (f" ({named})" if named else "")
        return f"{place}: {self.fault.message}"
