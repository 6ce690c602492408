"""Workbooks as back offices send them: titles, hidden rows, merged cells, formulas, several sheets."""

from __future__ import annotations

import io
from collections.abc import Callable
from datetime import datetime, time, timedelta
from typing import Any

import openpyxl
import pytest
from day_files import as_workbook, saved
from openpyxl.utils.datetime import CALENDAR_MAC_1904

from checkface.audit import InputError, Item, Skipped, place, tenders

ROWS = [["7", "45.10"], ["8", "45.10"], ["9", "45.10"]]


def read(content: bytes, **options: Any) -> list[Item | Skipped]:
    return list(tenders(io.BytesIO(content), **options))


def day(
    change: Callable[[Any], None] | None = None, headings: tuple[str, ...] = ("id", "amount"), **options: Any
) -> list[Any]:
    """What is read of a small day after *change*."""
    return read(as_workbook(headings, ROWS, change), **options)


def ids(found: list[Any]) -> list[str]:
    return [item.tender.id for item in found if isinstance(item, Item)]


def test_rows_have_the_numbers_of_the_sheet() -> None:
    found = day(lambda sheet: sheet.insert_rows(3, 2))
    assert [(place(item), item.tender.id) for item in found] == [
        ("Checks!2", "7"),
        ("Checks!5", "8"),
        ("Checks!6", "9"),
    ]


def test_a_title_above_the_heading() -> None:
    def titled(sheet: Any) -> None:
        sheet.insert_rows(1, 4)
        sheet["A1"] = "Checks of 24 November"
        sheet["A2"], sheet["B2"] = "Store", 7

    told: list[str] = []
    found = day(titled, tell=told.append)
    assert [item.line for item in found] == [6, 7, 8]
    assert told == ["Read the sheet 'Checks', the heading in row 5."]


def test_the_heading_is_looked_for_in_ten_rows_that_hold_anything() -> None:
    def titled(rows: int) -> Callable[[Any], None]:
        def change(sheet: Any) -> None:
            sheet.insert_rows(1, rows + 5)
            for row in range(1, rows + 1):
                sheet.cell(row, 1, "Saturday")

        return change

    assert ids(day(titled(9))) == ["7", "8", "9"]
    with pytest.raises(InputError) as error:
        day(titled(10))
    assert str(error.value) == (
        "Sheet 'Checks': Expected a heading with columns of a tender in the first rows, read 'Saturday'."
    )


def test_what_was_read_in_place_of_a_heading() -> None:
    with pytest.raises(InputError) as error:
        day(headings=("Slip", "Dollars"))
    assert str(error.value) == (
        "Sheet 'Checks': Expected a heading with columns of a tender in the first rows, read 'Slip', 'Dollars'."
    )


def test_an_unknown_heading_among_known_ones() -> None:
    with pytest.raises(InputError) as error:
        day(headings=("id", "amuont"))
    assert str(error.value) == (
        "'Checks', row 1: Expected a column of a tender, read 'amuont'; the nearest known column is 'amount'."
    )


def test_a_heading_twice() -> None:
    with pytest.raises(InputError) as error:
        day(headings=("amount", "counter.amount"))
    assert (
        str(error.value) == "'Checks', row 1: Expected one column for counter.amount, read another: 'counter.amount'."
    )


def test_renamed_and_ignored_headings() -> None:
    found = day(headings=("Slip", "Till note"), renames={"id": "Slip"}, ignored=["Till note"])
    assert ids(found) == ["7", "8", "9"]
    assert found[0].tender.counter.amount is None


def test_a_value_under_no_heading_is_named_where_it_stands() -> None:
    found = day(lambda sheet: sheet.__setitem__("D3", "?"))
    assert found[1] == Skipped(3, "D3: Expected a heading above, read none.", "Checks")
    assert ids(found) == ["7", "9"]


def test_of_many_values_under_no_heading_the_first_are_named() -> None:
    def wide(sheet: Any) -> None:
        for column in range(20, 3, -1):
            sheet.cell(3, column, "?")

    found = day(wide)
    assert found[1].reason.count("Expected a heading above") == 3
    assert found[1].reason.startswith("D3: ")


def test_merged_cells_are_no_values() -> None:
    def merge(sheet: Any) -> None:
        sheet.merge_cells("B3:B4")
        sheet.merge_cells("E2:F2")

    found = day(merge)
    assert ids(found) == ["7"]
    assert found[1:] == [Skipped(row, "Expected a value in each cell, read B3:B4 merged.", "Checks") for row in (3, 4)]
    assert ids(day(merge, headings=("id", "note"), ignored=["note"])) == ["7", "8", "9"]


@pytest.mark.parametrize("step", [7, 1 << 16])
def test_ranges_within_ranges_wherever_the_file_is_cut(step: int, monkeypatch: pytest.MonkeyPatch) -> None:
    def merge(sheet: Any) -> None:
        sheet.merge_cells("B2:B4")
        sheet.merge_cells("B3:C3")

    monkeypatch.setattr("checkface.audit.package._STEP", step)
    assert [item.reason for item in day(merge)] == ["Expected a value in each cell, read B2:B4 merged."] * 3


def test_of_two_rows_of_headings_the_first_is_the_heading() -> None:
    def again(sheet: Any) -> None:
        sheet["A3"], sheet["B3"] = "id", "amount"

    told: list[str] = []
    assert ids(day(again, tell=told.append)) == ["7", "9"]
    assert told == ["Read the sheet 'Checks', the heading in row 1."]


def test_hidden_rows_are_read_and_told_of() -> None:
    def hide(sheet: Any) -> None:
        sheet.row_dimensions[3].hidden = True
        sheet.column_dimensions["B"].hidden = True

    told: list[str] = []
    assert ids(day(hide, tell=told.append)) == ["7", "8", "9"]
    assert told == ["Read the sheet 'Checks', the heading in row 1.", "1 hidden row read like the others."]


def test_rows_of_blanks_are_passed_over() -> None:
    def blank(sheet: Any) -> None:
        sheet["A3"] = sheet["B3"] = "  "

    found = day(blank)
    assert [item.line for item in found] == [2, 4]


def test_a_formula_without_its_result_is_named_where_it_stands() -> None:
    def formula(sheet: Any) -> None:
        sheet["B3"] = "=B2+1"
        sheet["A4"], sheet["B4"] = "=B9", "=B9"

    found = day(formula)
    sentence = "Expected the result of a formula, read none; open the workbook and save it again."
    assert found[1:] == [
        Skipped(3, f"B3, counter.amount: {sentence}", "Checks"),
        Skipped(4, f"A4, id: {sentence} B4, counter.amount: {sentence}", "Checks"),
    ]


@pytest.mark.parametrize("error", ["#N/A", "#REF!", "#DIV/0!"])
def test_a_cell_of_an_error(error: str) -> None:
    found = day(lambda sheet: sheet.__setitem__("B3", error))
    assert found[1] == Skipped(3, f"B3, counter.amount: Expected a value, read the error {error}.", "Checks")
    assert ids(day(lambda sheet: sheet.__setitem__("B3", error), headings=("id", "n"), ignored=["n"])) == [
        "7",
        "8",
        "9",
    ]


@pytest.mark.parametrize(
    ("path", "value", "sentence"),
    [
        ("amount", 45.105, "counter.amount: Expected dollars and whole cents, read 45.105."),
        ("micr", 71098973, "face.micr: Expected text, read a number, which keeps no leading noughts; keep the column as text."),
        ("fraction", datetime(2026, 1, 2), "face.fraction: Expected text, read a day and time."),
        ("serial", 1.5, "face.serial: Expected text, read a number with a fraction."),
        ("payee", True, "face.payee: Expected text, read a yes or no."),
        ("date", 46350, "face.date: Expected a day, read a bare number; give the column the form of a date."),
        ("date", datetime(2026, 11, 24, 9, 5), "face.date: Expected a day, read one with a time of day, 09:05:00."),
        ("date", time(9, 5), "face.date: Expected a day, read a time of day."),
        ("date", timedelta(days=3), "face.date: Expected a day, read a length of time."),
    ],
)  # fmt: skip
def test_what_is_never_guessed(path: str, value: Any, sentence: str) -> None:
    assert read(as_workbook([path], [[value]])) == [Skipped(2, f"A2, {sentence}", "Checks")]


def test_numbers_formatted_as_noughts_keep_them() -> None:
    def formatted(sheet: Any) -> None:
        for row in (2, 3):
            sheet.cell(row, 1).number_format = "000000"

    content = as_workbook(["serial"], [[1043], [1044.0], [1045]], formatted)
    told: list[str] = []
    found = [item.tender.face.serial.text for item in read(content, tell=told.append) if isinstance(item, Item)]
    assert found == ["001043", "001044", "1045"]
    assert told[1:] == ["A4: face.serial is a number: noughts it may have begun with are lost."]


NUMBER = "Expected text, read a number, which keeps no leading noughts; keep the column as text."
LONG = "Expected text, read a number of more than the 15 digits Excel keeps; keep the column as text."
PERCENT = "Expected a value as it is shown, read a percentage; give the column another format."


@pytest.mark.parametrize(
    ("path", "value", "shown", "sentence"),
    [
        ("micr", 71098973, "000000000", f"face.micr: {NUMBER}"),
        ("fraction", 5, "00", f"face.fraction: {NUMBER}"),
        ("micr", 10**17, "0" * 18, f"face.micr: {NUMBER}"),
        ("date", 7, "00", "face.date: Expected a day, read a bare number; give the column the form of a date."),
        ("documents.number", 10**15, "0" * 18, f"documents.number: {LONG}"),
        ("serial", 10**15, "General", f"face.serial: {LONG}"),
        ("serial", 1e16, "General", f"face.serial: {LONG}"),
        ("payee", -(10**15), "General", f"face.payee: {LONG}"),
        ("amount", 0.2, "0%", f"counter.amount: {PERCENT}"),
        ("amount", 0.2, '"about" 0.00%', f"counter.amount: {PERCENT}"),
        ("serial", 7, "0%", f"face.serial: {PERCENT}"),
        ("amount", -45.1, "0.00", "counter.amount: Expected dollars of 0.00 or more, read a negative number."),
    ],
)
def test_a_number_that_is_shown_otherwise(path: str, value: Any, shown: str, sentence: str) -> None:
    content = as_workbook([path], [[value]], lambda sheet: setattr(sheet["A2"], "number_format", shown))
    assert read(content) == [Skipped(2, f"A2, {sentence}", "Checks")]


@pytest.mark.parametrize(
    ("path", "value", "shown", "said"),
    [
        ("serial", 10**15 - 1, "0" * 18, "000999999999999999"),
        ("amount", 45, "00000", 4500),
        ("amount", 45.1, '0.00" 100%"', 4510),
        ("amount", 45.1, "0.00\\%", 4510),
    ],
)
def test_a_number_that_is_shown_as_it_is(path: str, value: Any, shown: str, said: Any) -> None:
    content = as_workbook([path], [[value]], lambda sheet: setattr(sheet["A2"], "number_format", shown))
    (item,) = read(content)
    assert isinstance(item, Item), item
    assert (item.tender.face.serial.text if path == "serial" else item.tender.counter.amount) == said


def test_an_escape_of_the_format_is_the_character() -> None:
    (item,) = read(as_workbook(["payee"], [["a_x000D_b"]]))
    assert isinstance(item, Item)
    assert item.tender.face.payee.text == "a\rb"


def test_days_counted_from_1904() -> None:
    book = openpyxl.Workbook()
    book.epoch = CALENDAR_MAC_1904
    sheet: Any = book.active
    sheet.append(["date"])
    sheet.append([datetime(2026, 11, 24)])
    (item,) = read(saved(book))
    assert isinstance(item, Item)
    assert item.tender.face.date.text == "2026-11-24"


def _sheets(*named: tuple[str, str, str]) -> bytes:
    book = openpyxl.Workbook()
    book.remove(book.worksheets[0])
    for name, state, cell in named:
        sheet = book.create_sheet(name)
        sheet.sheet_state = state
        if cell:
            sheet.append(["id"])
            sheet.append([cell])
    return saved(book)


@pytest.mark.parametrize(
    ("content", "sheet", "read_of"),
    [
        (_sheets(("A", "visible", ""), ("B", "visible", "7")), None, ["7"]),
        (_sheets(("A", "visible", "7"), ("B", "hidden", "8")), None, ["7"]),
        (_sheets(("A", "visible", "7"), ("B", "visible", "8")), " b", ["8"]),
        (_sheets(("A", "visible", "7"), ("B", "veryHidden", "8")), "B", ["8"]),
    ],
    ids=["one is empty", "one is hidden", "named", "named and hidden"],
)
def test_which_sheet(content: bytes, sheet: str | None, read_of: list[str]) -> None:
    assert ids(read(content, sheet=sheet)) == read_of


@pytest.mark.parametrize(
    ("others", "told"),
    [
        ([("B", "hidden", "")], []),
        ([("B", "hidden", "8")], ["Passed over 1 hidden sheet with cells: 'B'; name one with --sheet."]),
        (
            [("B", "veryHidden", "8"), ("C", "hidden", "9")],
            ["Passed over 2 hidden sheets with cells: 'B', 'C'; name one with --sheet."],
        ),
    ],
)
def test_hidden_sheets_that_hold_something_are_told_of(others: list[tuple[str, str, str]], told: list[str]) -> None:
    said: list[str] = []
    read(_sheets(("A", "visible", "7"), *others), tell=said.append)
    assert said == [*told, "Read the sheet 'A', the heading in row 1."]
    said.clear()
    read(_sheets(("A", "visible", "7"), *others), sheet="A", tell=said.append)
    assert said == ["Read the sheet 'A', the heading in row 1."]


@pytest.mark.parametrize(
    ("content", "sheet", "sentence"),
    [
        (_sheets(("A", "visible", "7"), ("B", "visible", "8")), None, "Expected one sheet with cells, read 'A', 'B'; name one with --sheet."),
        (_sheets(("A", "visible", "7"), ("B", "visible", "8")), "C", "Expected the sheet 'C', read 'A', 'B'."),
        (_sheets(("A", "visible", ""), ("B", "hidden", "8")), None, "Expected a sheet with cells that is shown, read hidden ones; name one with --sheet: 'A', 'B'."),
        (_sheets(("A", "visible", "")), None, "Expected rows, read an empty workbook."),
        (_sheets(("A", "visible", "")), "A", "Sheet 'A': Expected a heading with columns of a tender in the first rows, read nothing."),
        (as_workbook(["id"], []), None, "Expected rows below the heading, read none."),
    ],
)  # fmt: skip
def test_no_sheet_is_guessed(content: bytes, sheet: str | None, sentence: str) -> None:
    with pytest.raises(InputError) as error:
        read(content, sheet=sheet)
    assert str(error.value) == sentence


def test_a_sheet_of_what_is_no_workbook() -> None:
    with pytest.raises(InputError, match="Expected a workbook to choose a sheet of, read another form of file"):
        read(b"id\n7\n", sheet="A")
