"""One row a tender as Parquet or as a workbook: the columns of the CSV answers, then what has a type of its own.

Days are days and amounts are dollars with two decimals, so that a sheet can add them up. ``on`` is the day of tender,
``date`` the day on the face where it can be only one; ``amount`` is what the check is for, as keyed, else as its face
settles it. Masked as everywhere, and nothing in a workbook is a formula.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from datetime import date
from decimal import Decimal
from functools import cache
from typing import Any, BinaryIO, Final, cast

from checkface import masking
from checkface.audit.forms import HELD, require
from checkface.audit.placed import Skipped
from checkface.audit.results import HEADINGS, Row, Write, cells, line_of, writing
from checkface.audit.run import Assessed
from checkface.audit.tally import Tally
from checkface.cells import inert, shown
from checkface.dates import CheckDate
from checkface.findings import Disposition

#: The columns that CSV does not have.
TYPED: Final = ("sheet", "on", "date", "amount", "purchase")
TALLIED: Final = ("what", "which", "tenders")
#: Rows of a group in Parquet; rows and characters that a sheet and its cells can have.
GROUP, ROWS, CELL = 1 << 14, 1 << 20, 32_767
_WIDTHS: Final = (16, 7, 12, 12, 44, 24, 80, 12, 12, 12, 12, 12)
#: Height of a line of text in points, and the most lines of one row.
_LINE, _MOST = 15, 20
#: Columns of numbers, whose headings stand above them at the right; columns whose text goes on below.
_AT_RIGHT, _WRAPPED = frozenset({"line", "amount", "purchase", "tenders"}), frozenset({"rules", "reason"})
#: What XML 1.0 cannot hold.
_NO_XML: Final = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
#: Text that a workbook would take for an escape.
_ESCAPE: Final = re.compile("_(?=x[0-9A-Fa-f]{4}_)")


@contextmanager
def table_writer(stream: BinaryIO, form: str) -> Iterator[Write]:
    """A context that gives what writes results, as ``"parquet"`` or ``"xlsx"``.

    *stream* gets a whole file when the context ends, and nothing when it ends in an error: half a file could be taken
    for all of it. Raises :class:`InputError` where the ``audit`` extra is missing.
    """
    import shutil
    from tempfile import SpooledTemporaryFile

    require()
    with SpooledTemporaryFile(HELD) as whole:
        with (_parquet if form == "parquet" else _workbook)(cast(BinaryIO, whole)) as write:
            yield write
        whole.seek(0)
        shutil.copyfileobj(whole, stream)


def _row(file: str, result: Row) -> list[Any]:
    name, _, *rest = cells(file, result)
    row = [name, line_of(result), *rest, shown(result.sheet) or None]
    if not isinstance(result, Assessed):
        return [*row, None, None, None, None]
    read = result.assessment.read
    day = read.date.date if isinstance(read.date, CheckDate) and len(read.date.candidates) == 1 else None
    own, sums = masking.own_numbers(read), (read.amount_cents, read.counter.purchase)
    return [*row, read.counter.on, day, *(_dollars(masking.amount(cents, own)) for cents in sums)]


def _dollars(cents: int | None) -> Decimal | None:
    return None if cents is None else Decimal(cents).scaleb(-2)


@contextmanager
def _parquet(stream: BinaryIO) -> Iterator[Write]:
    import pyarrow as pa
    from pyarrow import parquet as pq

    money = pa.decimal128(18, 2)
    kinds = {"line": pa.int64(), "on": pa.date32(), "date": pa.date32(), "amount": money, "purchase": money}
    schema = pa.schema([(name, kinds.get(name, pa.string())) for name in HEADINGS + TYPED])
    rows: list[list[Any]] = []
    table = pq.ParquetWriter(stream, schema, compression="zstd")

    def flush() -> None:
        if rows:
            columns = [
                pa.array(column, kind) for column, kind in zip(zip(*rows, strict=True), schema.types, strict=True)
            ]
            table.write_table(pa.Table.from_arrays(columns, schema=schema))
            rows.clear()

    def put(_: Row, row: list[Any]) -> None:
        rows.append(row)
        if len(rows) == GROUP:
            flush()

    try:
        yield writing(_row, put)
        flush()
    finally:
        table.close()


@contextmanager
def _workbook(stream: BinaryIO) -> Iterator[Write]:
    from openpyxl import Workbook

    book = Workbook(write_only=True)
    tally = Tally()
    sheets: list[Any] = []
    count = ROWS

    def put(result: Row, row: list[Any]) -> None:
        nonlocal count
        if count == ROWS:
            sheets.append(
                _sheet(book, f"answers {len(sheets) + 1}" if sheets else "answers", HEADINGS + TYPED, _WIDTHS)
            )
            count = 1
        if isinstance(result, Assessed | Skipped):
            tally.add(result)
        count += 1
        if (lines := _lines(row)) > 1:
            sheets[-1].row_dimensions[count].height = _LINE * lines
        sheets[-1].append(_cells(sheets[-1], HEADINGS + TYPED, row))

    try:
        yield writing(_row, put)
        last = chr(ord("A") + len(HEADINGS + TYPED) - 1)
        for sheet in sheets:
            sheet.auto_filter.ref = f"A1:{last}{count if sheet is sheets[-1] else ROWS}"
        counted = _sheet(book, "tally", TALLIED, (18, 40, 10))
        for entry in _counts(tally):
            counted.append(_cells(counted, TALLIED, entry))
        book.save(stream)
    except BaseException:
        for sheet in sheets:
            sheet.close()
        raise


def _lines(row: list[Any]) -> int:
    """How many lines *row* takes. Not every spreadsheet works that out on opening."""
    placed = zip(HEADINGS + TYPED, _WIDTHS, row, strict=True)
    return min(_MOST, max(-(-len(text) // width) for heading, width, text in placed if heading in _WRAPPED))


def _counts(tally: Tally) -> Iterator[tuple[Any, ...]]:
    for answer in Disposition:
        yield "answer", str(answer), tally.dispositions[answer]
    yield "skipped", "no answer was given", tally.skipped
    if tally.files:
        yield "skipped", "files that could not be read to the end", tally.files
    if tally.flaws:
        yield "flaw", "of the cash letter", tally.flaws
    for effect, rule in sorted(tally.rules, key=lambda key: (-key[0].rank, -tally.rules[key], key[1])):
        yield f"found ({effect})", rule, tally.rules[effect, rule]
    for one in (*tally.confirmations.lanes(), *tally.confirmations.employees()):
        yield (
            f"answered with yes ({one.called})",
            f"{one.name}{', unlike the others' if one.stands_out else ''}",
            one.yes,
        )
    for rule in sorted(tally.unread, key=lambda rule: (-tally.unread[rule], rule)):
        yield "could not run", rule, tally.unread[rule]


def _sheet(book: Any, name: str, headings: tuple[str, ...], widths: tuple[int, ...]) -> Any:
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.styles import Alignment, Font
    from openpyxl.utils import get_column_letter

    sheet = book.create_sheet(name)
    sheet.freeze_panes = "A2"
    for place, width in enumerate(widths, 1):
        sheet.column_dimensions[get_column_letter(place)].width = width
    row = []
    for heading in headings:
        cell = WriteOnlyCell(sheet, heading)
        cell.font = Font(bold=True)
        cell.alignment = Alignment(horizontal="right" if heading in _AT_RIGHT else "left", indent=int(heading == "id"))
        row.append(cell)
    sheet.append(row)
    return sheet


def _cells(sheet: Any, headings: Iterable[str], values: Iterable[Any]) -> list[Any]:
    from openpyxl.cell import WriteOnlyCell

    row = []
    for heading, value in zip(headings, values, strict=True):
        cell = WriteOnlyCell(sheet, _for_xml(value) if isinstance(value, str) else value)
        cell.alignment = _alignment(heading)
        if isinstance(value, str):
            # Text stays text: the library would take what begins with "=" for a formula and "#N/A" for an error.
            cell.data_type = "s"
        elif isinstance(value, date):
            cell.number_format = "yyyy-mm-dd"
        elif isinstance(value, Decimal):
            cell.number_format = "#,##0.00"
        row.append(cell if value != "" else None)
    return row


@cache
def _alignment(heading: str) -> Any:
    from openpyxl.styles import Alignment

    if heading == "id":
        return Alignment(vertical="top", horizontal="left", indent=1)
    return Alignment(vertical="top", wrap_text=heading in _WRAPPED)


def _for_xml(text: str) -> str:
    safe = _ESCAPE.sub("_x005F_", _NO_XML.sub("\ufffd", inert(text)))
    return safe if len(safe) <= CELL else f"{safe[: CELL - 1]}…"
