"""The tenders of a file, one at a time: what can be read as a tender, and what had to be skipped and why.

CSV and JSON Lines are told apart by the first character that is not blank. A broken row costs no other.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from itertools import chain
from typing import Any, Literal, NamedTuple

from checkface import masking
from checkface.assessment import TenderError, parse
from checkface.audit import columns
from checkface.audit.rows import rows
from checkface.audit.source import InputError, Lines, Stream
from checkface.tender import Tender


class Item(NamedTuple):
    """One tender and the line of the file it starts on."""

    line: int
    tender: Tender


class Skipped(NamedTuple):
    """One row that is no tender: its line and one sentence saying why. It quotes no account or document number."""

    line: int
    reason: str


def tenders(
    stream: Stream,
    form: Literal["csv", "jsonl"] | None = None,
    *,
    renames: Mapping[str, str] | None = None,
    ignored: Iterable[str] = (),
    on: date | None = None,
) -> Iterator[Item | Skipped]:
    """Every tender of *stream*, in its order.

    ``renames`` maps a column (``face.micr``) to the heading that holds it, ``ignored`` names headings to pass over, and
    ``on`` is the day of tender for those that carry none. Raises :class:`InputError` for a file that cannot be read as
    a whole, one without a single row included.
    """
    lines = Lines(stream)
    first = _first(lines)
    if form == "jsonl" or (form is None and first.startswith("{")):
        if renames or ignored:
            raise InputError("Expected headings to rename or ignore, read JSON Lines, which has none.")
        if first[-1] in "{[,:":
            wanted = "Expected one JSON object a line"
            raise InputError(f"{wanted}, read one over several lines; checkface examine takes a single check.")
        found = _from_json(lines, on)
    elif form is None and first.startswith("["):
        raise InputError("Expected one JSON object a line, read an array.")
    else:
        found = _from_csv(lines, renames, ignored, on)
    one = next(found, None)
    if one is None:
        raise InputError("Expected rows below the heading, read none.")
    yield from chain((one,), found)


def _first(lines: Lines) -> str:
    """The text of the first line that has any; the lines stay to be taken."""
    passed: list[tuple[int, str]] = []
    while (line := lines.take()) is not None:
        passed.append(line)
        if text := line[1].strip():
            lines.give_back(passed)
            return text
    raise InputError("Expected tenders, read an empty file.")


def _from_json(lines: Lines, on: date | None) -> Iterator[Item | Skipped]:
    while (line := lines.take()) is not None:
        number, text = line
        if text.strip():
            yield _item(number, text, on)


def _from_csv(
    lines: Lines, renames: Mapping[str, str] | None, ignored: Iterable[str], on: date | None
) -> Iterator[Item | Skipped]:
    known = columns.is_known
    if renames or ignored:
        headings = {*(renames or {}).values(), *ignored}
        known = lambda heading: heading.strip() in headings or columns.is_known(heading)  # noqa: E731
    table = rows(lines, known)
    heading = next(table, None)
    if heading is None:
        raise InputError("Expected a heading, read blank cells.")
    paths = columns.resolve(heading.cells, renames, ignored)
    for row in table:
        if row.fault:
            yield Skipped(row.line, row.fault)
        else:
            yield _item(row.line, columns.wire(paths, row.cells), on)


def _item(line: int, given: str | dict[str, Any], on: date | None) -> Item | Skipped:
    try:
        return Item(line, with_day(parse(given), on))
    except TenderError as error:
        return Skipped(line, masking.prose(str(error)))


def with_day(tender: Tender, on: date | None) -> Tender:
    """*tender* with *on* as its day if it carries none."""
    if on is None or tender.counter.on is not None:
        return tender
    counter = tender.counter.model_copy(update={"on": on})
    return tender.model_copy(update={"counter": counter})
