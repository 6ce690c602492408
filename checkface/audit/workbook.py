"""A day's file as an Excel workbook (.xlsx): one sheet of it, its heading near the top, read row by row.

Cells say what they hold, not how they are shown, but for numbers formatted as so many noughts, which are digits: those
noughts are kept. Formulas count by the result that was saved with them. Hidden rows and columns are read like others,
hidden sheets only by name, and what was hidden is told.
Rows have the numbers they have in the sheet. Format: ISO/IEC 29500-1; encrypted and older workbooks are refused.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Mapping, Sequence
from itertools import chain, islice
from typing import BinaryIO, Final
from zipfile import ZipFile

from openpyxl.utils import get_column_letter

from checkface.audit import book, package
from checkface.audit.columns import quoted
from checkface.audit.sheet import Formatted, Line, Merged, Rows, Unusable, has_cells, merged
from checkface.audit.source import InputError
from checkface.audit.typed import EXACT, LABELS, MONEY, NEVER_NUMBERS, Batch, CellError, Headings, Tell, TypedRow, text

#: In how many rows from the top, of those that hold anything, the heading is looked for.
TOP: Final = 10
#: Most cells without a heading that are named for one row.
_NAMED: Final = 3
_DAMAGED: Final = "Expected a workbook, read a damaged one"


def read(stream: BinaryIO, headings: Headings, sheet: str | None, tell: Tell) -> Batch:
    """The rows of one sheet of *stream*, a seekable file.

    *sheet* names it; without a name it is the only one shown that holds anything. Raises :class:`InputError` for a
    file that cannot be read as a whole.
    """
    archive = package.opened(stream)
    try:
        contents = book.read(archive)
        chosen = _chosen(archive, contents.sheets, sheet, tell)
        ranges = merged(archive, chosen.part)
    except InputError:
        raise
    except package.ERRORS:
        raise InputError(f"{_DAMAGED}.") from None
    rows = Rows(archive, chosen.part, contents)
    lines = _guarded(rows)
    top = list(islice(lines, TOP))
    row, names = _heading(top, headings, chosen.name)
    try:
        paths = dict(zip(names, headings.resolve(list(names.values())), strict=True))
    except InputError as error:
        raise InputError(f"{quoted(chosen.name)}, row {row}: {error}") from None
    tell(f"Read the sheet {quoted(chosen.name)}, the heading in row {row}.")
    below = chain((line for line in top if line.number > row), lines)
    return Batch(tuple(filter(None, paths.values())), _rows(below, paths, ranges, rows, tell), chosen.name)


def _chosen(archive: ZipFile, sheets: Sequence[book.Sheet], wanted: str | None, tell: Tell) -> book.Sheet:
    names = ", ".join(quoted(each.name) for each in sheets[:20])
    if wanted is not None:
        for each in sheets:
            if each.name.strip().casefold() == wanted.strip().casefold():
                return each
        raise InputError(f"Expected the sheet {quoted(wanted)}, read {names}.")
    filled = [each for each in sheets if each.shown and has_cells(archive, each.part)]
    if len(filled) == 1:
        hidden = [quoted(each.name) for each in sheets if not each.shown and has_cells(archive, each.part)]
        if hidden:
            what = f"hidden sheet{'s' * (len(hidden) > 1)} with cells: {', '.join(hidden[:20])}"
            tell(f"Passed over {len(hidden)} {what}; name one with --sheet.")
        return filled[0]
    if filled:
        some = ", ".join(quoted(each.name) for each in filled[:20])
        raise InputError(f"Expected one sheet with cells, read {some}; name one with --sheet.")
    if any(has_cells(archive, each.part) for each in sheets):
        raise InputError(
            f"Expected a sheet with cells that is shown, read hidden ones; name one with --sheet: {names}."
        )
    raise InputError("Expected rows, read an empty workbook.")


def _guarded(rows: Rows) -> Iterator[Line]:
    number = 0
    try:
        for line in rows:
            number = line.number
            yield line
    except InputError:
        raise
    except package.ERRORS:
        raise InputError(f"After row {number}: {_DAMAGED}." if number else f"{_DAMAGED}.") from None


def _heading(top: Sequence[Line], headings: Headings, sheet: str) -> tuple[int, dict[int, str]]:
    """The row of *top* with the most cells that are headings, and those that are not blank by their place."""
    best: tuple[int, dict[int, str]] = (0, {})
    most = 0
    for number, cells in top:
        names = {place: str(cell).strip() for place, cell in cells.items() if not isinstance(cell, Unusable)}
        known = sum(map(headings.known, names.values()))
        if known > most:
            best, most = (number, {place: name for place, name in names.items() if name}), known
    if not most:
        some = ", ".join(quoted(str(cell)) for cell in top[0].cells.values()) if top else "nothing"
        wanted = "Expected a heading with columns of a tender in the first rows"
        raise InputError(f"Sheet {quoted(sheet)}: {wanted}, read {some[:200]}.")
    return best


def _rows(
    lines: Iterator[Line], paths: Mapping[int, str | None], ranges: Sequence[Merged], rows: Rows, tell: Tell
) -> Iterator[TypedRow]:
    used = {place: path for place, path in paths.items() if path is not None}
    waiting = deque(each for each in ranges if any(each.left <= place + 1 <= each.right for place in used))
    until, name = 0, ""
    told: set[str] = set()
    for number, cells in lines:
        while waiting and waiting[0].first <= number:
            each = waiting.popleft()
            until, name = max((until, name), (each.last, each.name))
        if number <= until:
            yield TypedRow(number, fault=f"Expected a value in each cell, read {name} merged.")
            continue
        faults = [
            f"{_address(place, number)}: Expected a heading above, read none."
            for place in sorted(cells.keys() - paths.keys())[:_NAMED]
        ]
        found = []
        for place, path in used.items():
            value = cells.get(place)
            try:
                found.append(_said(path, value))
            except CellError as error:
                faults.append(f"{_address(place, number)}, {path}: {error}")
                continue
            if path in LABELS and path not in told and isinstance(value, (int, float)):
                told.add(path)
                tell(f"{_address(place, number)}: {path} is a number: noughts it may have begun with are lost.")
        if faults or any(map(str.strip, found)):
            yield TypedRow(number, () if faults else tuple(found), " ".join(faults))
    if rows.hidden:
        tell(f"{rows.hidden} hidden row{'s' * (rows.hidden != 1)} read like the others.")


def _said(path: str, value: object) -> str:
    if isinstance(value, Unusable):
        raise CellError(value.sentence)
    shown = value if isinstance(value, Formatted) else None
    if shown is not None:
        value = shown.number
        if shown.percent:
            raise CellError("Expected a value as it is shown, read a percentage; give the column another format.")
    if isinstance(value, (int, float)) and abs(value) >= EXACT and path not in NEVER_NUMBERS | MONEY:
        raise CellError("Expected text, read a number of more than the 15 digits Excel keeps; keep the column as text.")
    said = text(path, value)
    return said.zfill(shown.digits) if shown is not None and path not in MONEY else said


def _address(place: int, number: int) -> str:
    return f"{get_column_letter(place + 1)}{number}"
