"""Reading CSV that people made: each line by itself, so that a stray quote spoils no line but its own."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from pydantic import TypeAdapter, ValidationError

from checkface.digits import discreet
from checkface.ledger.errors import LedgerError
from checkface.tender import Cents

_DOLLARS: TypeAdapter[int | None] = TypeAdapter(Cents)


class BadLine(NamedTuple):
    """A line that was left out, counted from 1, and why; the sentence quotes no account."""

    line: int
    message: str


class Cells(NamedTuple):
    """One line's cells by heading, trimmed; headings in lower case with ``_`` for blanks."""

    line: int
    values: dict[str, str]

    def __repr__(self) -> str:
        return discreet(self)


def read(lines: Iterable[str], required: tuple[str, ...]) -> Iterator[Cells | BadLine]:
    """The lines below the headings. Raises :class:`LedgerError` when a required heading is missing."""
    headings: list[str] | None = None
    for number, line in enumerate(lines, 1):
        if not line.strip():
            continue
        try:
            cells = next(csv.reader([line.rstrip("\r\n")], strict=True))
        except csv.Error:
            yield BadLine(number, "Expected cells separated by commas, read a quote that is never closed or a NUL.")
            continue
        if headings is None:
            headings = ["_".join(cell.lower().split()) for cell in (cells[0].lstrip("\ufeff"), *cells[1:])]
            if missing := [name for name in required if name not in headings]:
                wanted, lacking = ", ".join(required), ", ".join(missing)
                raise LedgerError(f"Expected a first line with the headings {wanted}, read it without {lacking}.")
        elif len(cells) > len(headings):
            yield BadLine(number, f"Expected {len(headings)} cells, read {len(cells)}.")
        else:
            yield Cells(number, dict(zip(headings, map(str.strip, cells), strict=False)))


def cents(text: str) -> int | None:
    """The cents of an amount in dollars as a program writes it: ``45.10``, ``$1,234.00``, ``12``; else ``None``."""
    try:
        return _DOLLARS.validate_python(text)
    except ValidationError:
        return None
