"""Cells of a workbook, held to what openpyxl reads of the same file; it has its own reader and writer."""

from __future__ import annotations

import io
import os
import zipfile
from datetime import date, datetime, time, timedelta
from typing import Any

import openpyxl
from day_files import as_workbook
from hypothesis import given, settings
from hypothesis import strategies as st

from checkface.audit import book, package
from checkface.audit.sheet import Rows

_TEXT = st.text(
    st.characters(codec="utf-8", exclude_categories=["Cs", "Cc"], exclude_characters="\ufffe\uffff_")
    | st.sampled_from("\n\t &<>\"'"),
    min_size=1,
)
_DAYS = st.datetimes(datetime(1905, 1, 1), datetime(2199, 1, 1)).map(lambda day: day.replace(microsecond=0))
_CELLS = st.one_of(
    st.none(), _TEXT, st.booleans(), st.integers(-(10**20), 10**20), st.floats(allow_nan=False, allow_infinity=False), _DAYS,
    _DAYS.map(datetime.date), st.times().map(lambda clock: clock.replace(microsecond=0)),
    st.timedeltas(timedelta(0), timedelta(days=999)).map(lambda span: timedelta(seconds=span // timedelta(seconds=1))),
)  # fmt: skip


def ours(content: bytes) -> dict[tuple[int, int], object]:
    archive = package.opened(io.BytesIO(content))
    contents = book.read(archive)
    lines = Rows(archive, contents.sheets[0].part, contents)
    return {(line.number, place + 1): value for line in lines for place, value in line.cells.items()}


def theirs(content: bytes) -> dict[tuple[int, int], object]:
    sheet: Any = openpyxl.load_workbook(io.BytesIO(content), data_only=True).active
    return {(cell.row, cell.column): cell.value for row in sheet.iter_rows() for cell in row if cell.value is not None}


@settings(deadline=None, max_examples=500 if os.environ.get("CHECKFACE_THOROUGH") else 60)
@given(st.lists(st.lists(_CELLS, max_size=5), max_size=5), st.booleans())
def test_every_cell(rows: list[list[Any]], from_1904: bool) -> None:
    def change(sheet: Any) -> None:
        if from_1904:
            sheet.parent.epoch = openpyxl.utils.datetime.CALENDAR_MAC_1904

    content = as_workbook(["id"], rows, change)
    assert ours(content) == theirs(content)


KIND = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/sharedStrings"
TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.sharedStrings+xml"
#: Where a workbook lists the part of its shared texts.
LISTED = {
    "xl/_rels/workbook.xml.rels": ("</Rel", f'<Relationship Id="rId9" Type="{KIND}" Target="sharedStrings.xml"/></Rel'),
    "[Content_Types].xml": ("</Types>", f'<Override PartName="/xl/sharedStrings.xml" ContentType="{TYPE}"/></Types>'),
}


def test_shared_texts_in_runs_without_their_pronunciation() -> None:
    content = io.BytesIO(as_workbook(["id"], [["x"]]))
    parts = {
        "xl/sharedStrings.xml": "<x:sst xmlns:x='http://schemas.openxmlformats.org/spreadsheetml/2006/main'><x:si><x:t>id</x:t></x:si>"
        "<x:si><x:r><x:t>a</x:t></x:r><x:r><x:t> b_x0041_</x:t></x:r><x:rPh sb='0' eb='1'><x:t>no</x:t></x:rPh></x:si></x:sst>",
        "xl/worksheets/sheet1.xml": "<x:worksheet xmlns:x='http://schemas.openxmlformats.org/spreadsheetml/2006/main'><x:sheetData>"
        "<x:row><x:c t='s'><x:v>0</x:v></x:c><x:c><x:v>7</x:v></x:c></x:row>"
        "<x:row r='5'><x:c r='C5' t='s'><x:v>1</x:v></x:c><x:c t='b'><x:v>1</x:v></x:c></x:row></x:sheetData></x:worksheet>",
    }  # fmt: skip
    changed = io.BytesIO()
    with zipfile.ZipFile(content) as old, zipfile.ZipFile(changed, "w") as new:
        for name in old.namelist():
            if name not in parts:
                new.writestr(name, old.read(name).decode().replace(*LISTED.get(name, ("", ""))))
        for name, part in parts.items():
            new.writestr(name, part)
    assert ours(changed.getvalue()) == {(1, 1): "id", (1, 2): 7, (5, 3): "a bA", (5, 4): True}
    # The other reader keeps escapes, which is why the format's own are not part of the comparison above.
    assert theirs(changed.getvalue()) == {(1, 1): "id", (1, 2): 7, (5, 3): "a b_x0041_", (5, 4): True}


def test_formats_of_conditions_are_not_those_of_cells() -> None:
    def format_it(sheet: Any) -> None:
        sheet["A2"].number_format = "0.0000"  # the first format of this workbook's own, and so number 164

    content = io.BytesIO(as_workbook(["id"], [[7]], format_it))
    changed = io.BytesIO()
    condition = '<dxfs count="1"><dxf><numFmt numFmtId="164" formatCode="yyyy-mm-dd"/></dxf></dxfs></styleSheet>'
    with zipfile.ZipFile(content) as old, zipfile.ZipFile(changed, "w") as new:
        for name in old.namelist():
            part = old.read(name).decode()
            if name == "xl/styles.xml":
                assert 'numFmtId="164"' in part
                part = part.replace("</styleSheet>", condition)
            new.writestr(name, part)
    assert ours(changed.getvalue()) == {(1, 1): "id", (2, 1): 7}


def test_a_day_is_a_day_in_both_calendars() -> None:
    assert ours(as_workbook(["date"], [[date(2026, 11, 24)], [time(9)]])) == {
        (1, 1): "date", (2, 1): datetime(2026, 11, 24), (3, 1): time(9),
    }  # fmt: skip
