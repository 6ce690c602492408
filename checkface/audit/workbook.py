"""A day's file as an Excel workbook (.xlsx): one sheet of it, its heading near the top, read row by row.

Cells say what they hold, not how they are shown, but for numbers formatted as so many noughts, which are digits: those
noughts are kept. Formulas count by the result that was saved with them. Hidden rows and columns are read like others.
Rows have the numbers they have in the sheet. Format: ISO/IEC 29500-1; encrypted and older workbooks are refused.
"""

from __future__ import annotations

import re
import warnings
from collections import deque
from collections.abc import Iterator, Mapping, Sequence
from itertools import chain, islice
from typing import Any, BinaryIO, Final
from zipfile import ZipFile

import openpyxl
from openpyxl.cell.read_only import EMPTY_CELL
from openpyxl.utils import get_column_letter
from openpyxl.utils.escape import unescape

from checkface.audit import package
from checkface.audit.columns import quoted
from checkface.audit.source import InputError
from checkface.audit.survey import Survey, has_cells, survey
from checkface.audit.typed import LABELS, Batch, CellError, Headings, Tell, TypedRow, text

#: In how many rows from the top, of those that hold anything, the heading is looked for.
TOP: Final = 10
_CHUNK: Final = 256
_NOUGHTS: Final = re.compile("00+")
_DAMAGED: Final = "Expected a workbook, read a damaged one"

_Line = tuple[int, Sequence[Any]]


def read(stream: BinaryIO, headings: Headings, sheet: str | None, tell: Tell) -> Batch:
    """The rows of one sheet of *stream*, a seekable file.

    *sheet* names it; without a name it is the only one shown that holds anything. Raises :class:`InputError` for a
    file that cannot be read as a whole.
    """
    archive = package.opened(stream)
    try:
        chosen = _chosen(archive, sheet)
        surveyed = survey(archive, chosen.part)
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            book = openpyxl.load_workbook(stream, read_only=True, data_only=True, keep_links=False)
        table = book[chosen.name]
        table.reset_dimensions()
    except InputError:
        raise
    except Exception:  # whatever the library stumbles over in a file that is broken on purpose
        raise InputError(f"{_DAMAGED}.") from None
    lines = _lines(table, surveyed)
    top = list(islice(lines, TOP))
    row, names = _heading(top, headings, chosen.name)
    by_place = {place: name for place, name in enumerate(names) if name}
    try:
        paths = dict(zip(by_place, headings.resolve(list(by_place.values())), strict=True))
    except InputError as error:
        raise InputError(f"{quoted(chosen.name)}, row {row}: {error}") from None
    hidden = surveyed.hidden
    rows = f"; {hidden} hidden row{'s' * (hidden != 1)} read like the others" if hidden else ""
    tell(f"Read the sheet {quoted(chosen.name)}, the heading in row {row}{rows}.")
    below = chain((line for line in top if line[0] > row), lines)
    return Batch(tuple(filter(None, paths.values())), _rows(below, paths, surveyed, tell), chosen.name)


def _chosen(archive: ZipFile, wanted: str | None) -> package.Sheet:
    sheets = [each for each in package.sheets(archive) if each.part in archive.namelist()]
    names = ", ".join(quoted(each.name) for each in sheets[:20])
    if wanted is not None:
        for each in sheets:
            if each.name.strip().casefold() == wanted.strip().casefold():
                return each
        raise InputError(f"Expected the sheet {quoted(wanted)}, read {names}.")
    filled = [each for each in sheets if each.shown and has_cells(archive, each.part)]
    if len(filled) == 1:
        return filled[0]
    if filled:
        some = ", ".join(quoted(each.name) for each in filled[:20])
        raise InputError(f"Expected one sheet with cells, read {some}; name one with --sheet.")
    if any(has_cells(archive, each.part) for each in sheets):
        raise InputError(
            f"Expected a sheet with cells that is shown, read hidden ones; name one with --sheet: {names}."
        )
    raise InputError("Expected rows, read an empty workbook.")


def _lines(table: Any, surveyed: Survey) -> Iterator[_Line]:
    """The rows of *table* that hold anything, with their numbers."""
    rows = table.iter_rows()
    number = 0
    while True:
        try:
            # The library warns of what it leaves out and of days that are none; the cells say so themselves.
            with warnings.catch_warnings():
                warnings.simplefilter("ignore")
                chunk = list(islice(rows, _CHUNK))
        except Exception:  # see above
            raise InputError(f"After row {number}: {_DAMAGED}.") from None
        if not chunk:
            return
        for cells in chunk:
            number += 1
            if any(cell.value is not None for cell in cells) or number in surveyed.uncalculated_rows:
                yield number, cells


def _heading(top: list[_Line], headings: Headings, sheet: str) -> tuple[int, list[str]]:
    """The row of *top* with the most cells that are headings, and its cells."""
    best: tuple[int, list[str]] = (0, [])
    most = 0
    for number, cells in top:
        names = ["" if cell.value is None else str(cell.value).strip() for cell in cells]
        known = sum(map(headings.known, filter(None, names)))
        if known > most:
            best, most = (number, names), known
    if not most:
        some = ", ".join(quoted(str(cell.value)) for cell in top[0][1] if cell.value is not None) if top else "nothing"
        raise InputError(
            f"Sheet {quoted(sheet)}: Expected a heading with columns of a tender in the first rows, read {some[:200]}."
        )
    return best


def _rows(lines: Iterator[_Line], paths: Mapping[int, str | None], surveyed: Survey, tell: Tell) -> Iterator[TypedRow]:
    used = {place: path for place, path in paths.items() if path is not None}
    merged = deque(each for each in surveyed.merged if any(each.left <= place + 1 <= each.right for place in used))
    until, name = 0, ""
    told: set[str] = set()
    for number, cells in lines:
        while merged and merged[0].first <= number:
            each = merged.popleft()
            until, name = max((until, name), (each.last, each.name))
        if number <= until:
            yield TypedRow(number, fault=f"Expected a value in each cell, read {name} merged.")
            continue
        faults = [
            f"{_address(place, number)}: Expected a heading above, read none."
            for place, cell in enumerate(cells)
            if cell.value is not None and place not in paths
        ]
        found = []
        for place, path in used.items():
            cell = cells[place] if place < len(cells) else EMPTY_CELL
            try:
                if _address(place, number) in surveyed.uncalculated:
                    raise CellError("Expected the result of a formula, read none; open the workbook and save it again.")
                value = _value(cell)
                found.append(text(path, value))
            except CellError as error:
                faults.append(f"{_address(place, number)}, {path}: {error}")
                continue
            if path in LABELS and path not in told and isinstance(value, (int, float)):
                told.add(path)
                tell(f"{_address(place, number)}: {path} is a number: noughts it may have begun with are lost.")
        if faults or any(map(str.strip, found)):
            yield TypedRow(number, () if faults else tuple(found), " ".join(faults))


def _value(cell: Any) -> object:
    value = cell.value
    if cell.data_type == "e":
        raise CellError(f"Expected a value, read the error {str(value)[:10]}.")
    if isinstance(value, str):
        return unescape(value)
    if isinstance(value, (int, float)) and _NOUGHTS.fullmatch(cell.number_format) and value == int(value) >= 0:
        return str(int(value)).zfill(len(cell.number_format))
    return value


def _address(place: int, number: int) -> str:
    return f"{get_column_letter(place + 1)}{number}"
