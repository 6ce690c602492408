"""The tenders of a file, one at a time: what can be read as a tender, and what had to be skipped and why.

The form is told by how the file begins: an image cash letter, Parquet, a workbook, else JSON Lines by a first brace,
else CSV. A broken row costs no other.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import date
from functools import partial
from itertools import chain
from typing import Any

from checkface import digits
from checkface.assessment import parse
from checkface.audit import columns, forms, letters
from checkface.audit.forms import Form
from checkface.audit.placed import Item, Skipped, guarded, with_day
from checkface.audit.rows import rows
from checkface.audit.source import InputError, Lines, Stream
from checkface.audit.typed import Headings, Tell, TypedRow
from checkface.cashletter import is_letter


def tenders(
    stream: Stream,
    form: Form | None = None,
    *,
    renames: Mapping[str, str] | None = None,
    ignored: Iterable[str] = (),
    on: date | None = None,
    sheet: str | None = None,
    tell: Tell = lambda _: None,
    may_be_empty: bool = False,
) -> Iterator[Item | Skipped]:
    """Every tender of *stream*, in its order.

    ``renames`` maps a column (``face.micr``) to the heading that holds it, ``ignored`` names headings to pass over, and
    ``on`` is the day of tender for those that carry none. ``form`` is what the file's name says it is. ``sheet`` names
    the one to read of a workbook; ``tell`` is told, a sentence at a time, what was taken how. Raises
    :class:`InputError` for a file that cannot be read as a whole, and for one without a single row below its heading
    unless it ``may_be_empty``, as the list of an empty drawer may.
    """
    start = stream.readline(forms.START)
    if is_letter(start):
        if renames or ignored or sheet is not None:
            raise InputError("Expected headings or sheets to choose from, read an image cash letter, which has none.")
        yield from letters.tenders(stream, start, on=on)
        return
    form = forms.told(start, form)
    if sheet is not None and form != "xlsx":
        raise InputError("Expected a workbook to choose a sheet of, read another form of file.")
    if form in ("parquet", "xlsx"):
        found = _from_table(stream, start, form, Headings(renames or {}, tuple(ignored)), on, sheet, tell)
    else:
        found = _from_text(Lines(stream, start), form, renames, ignored, on)
    one = next(found, None)
    if one is not None:
        yield from chain((one,), found)
    elif not may_be_empty:
        raise InputError("Expected rows below the heading, read none.")


def _from_text(
    lines: Lines, form: Form | None, renames: Mapping[str, str] | None, ignored: Iterable[str], on: date | None
) -> Iterator[Item | Skipped]:
    first = _first(lines)
    if form == "jsonl" or (form is None and first.startswith("{")):
        if renames or ignored:
            raise InputError("Expected headings to rename or ignore, read JSON Lines, which has none.")
        if first[-1] in "{[,:":
            wanted = "Expected one JSON object a line"
            raise InputError(f"{wanted}, read one over several lines; checkface examine takes a single check.")
        return _from_json(lines, on)
    if form is None and first.startswith("["):
        raise InputError("Expected one JSON object a line, read an array.")
    return _from_csv(lines, renames, ignored, on)


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
            yield _item(number, partial(str, text), on)


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
            yield _item(row.line, partial(columns.wire, paths, row.cells), on)


def _from_table(
    stream: Stream, start: bytes, form: Form, headings: Headings, on: date | None, sheet: str | None, tell: Tell
) -> Iterator[Item | Skipped]:
    with forms.seekable(stream, start) as table:
        batch = forms.opened(table, form, headings, sheet, tell)
        for row in batch.rows:
            if row.fault:
                yield Skipped(row.line, digits.hide(row.fault, "message"), batch.sheet)
                continue
            yield _item(row.line, partial(_wire, batch.paths, row), on, batch.sheet)


def _wire(paths: Sequence[str | None], row: TypedRow) -> dict[str, Any]:
    wire = columns.wire(paths, row.cells)
    return wire if row.documents is None else {**wire, "documents": row.documents}


def _item(line: int, make: Callable[[], str | dict[str, Any]], on: date | None, sheet: str = "") -> Item | Skipped:
    return guarded(line, lambda: Item(line, with_day(parse(make()), on), sheet), sheet)
