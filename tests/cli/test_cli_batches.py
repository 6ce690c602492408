"""Sessions with ``checkface audit`` on Parquet and workbooks, and answers written as both."""

from __future__ import annotations

import io
import subprocess
import sys
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import duckdb
import openpyxl
import pytest
from clean_tender import CLEAN
from day_files import as_csv, as_parquet, as_workbook

from checkface.audit import answers
from checkface.cli import main

HEADINGS = ["id", "micr", "network", "amount", "date", "signature", "on"]
ROWS = [
    ["7", CLEAN["face"]["micr"], "up", "45.10", "11/24/2026", "yes", "2026-11-24"],
    ["=1+1", CLEAN["face"]["micr"], "down", "1200.00", "11/24/2026", "", "2026-11-24"],
    ["9", CLEAN["face"]["micr"], "up", "45.1", "11/24/2026", "yes", "2026-11-24"],
]


@pytest.fixture
def day(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("day.csv").write_bytes(as_csv(HEADINGS, ROWS))
    Path("day.parquet").write_bytes(as_parquet(HEADINGS, ROWS))
    Path("day.xlsx").write_bytes(as_workbook(HEADINGS, ROWS, lambda sheet: sheet.insert_rows(1, 2)))
    return tmp_path


def test_a_session_with_parquet(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["audit", "day.parquet"]) == 1
    out, err = capsys.readouterr()
    assert "day.parquet:2  =1+1  decline  signature-missing  Not signed.\n" in out
    assert err.startswith(
        'day.parquet:3: skipped. counter.amount: Expected dollars as text, such as "45.10", read something else\n2 tenders:'
    )


def test_a_session_with_a_workbook(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["audit", "day.xlsx"]) == 1
    out, err = capsys.readouterr()
    assert "day.xlsx:Checks!5  =1+1  decline  signature-missing  Not signed.\n" in out
    assert err.startswith(
        "day.xlsx: Read the sheet 'Checks', the heading in row 3.\n"
        'day.xlsx:Checks!6: skipped. counter.amount: Expected dollars as text, such as "45.10", read something else\n'
    )


def test_every_form_gives_the_same_count(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    counts = []
    for name in ("day.csv", "day.parquet", "day.xlsx"):
        main(["audit", name, "--quiet", "--verbose"])
        counts.append([line for line in capsys.readouterr().err.splitlines() if not line.startswith("day.")])
    assert counts[0] == counts[1] == counts[2]
    assert counts[0][0].startswith("2 tenders:")


@pytest.mark.parametrize("name", ["day.parquet", "day.xlsx", "day.csv"])
def test_a_pipe(name: str, day: Path) -> None:
    command = [sys.executable, "-m", "checkface", "audit", "-", "--quiet"]
    # A real pipe, which cannot be read back and forth.
    with subprocess.Popen(command, stdin=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        _, err = process.communicate(Path(name).read_bytes())
    assert process.returncode == 1
    assert b"2 tenders: " in err


def test_sheet(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    book = openpyxl.load_workbook("day.xlsx")
    book.copy_worksheet(book["Checks"]).title = "Other"
    book.save("two.xlsx")
    assert main(["audit", "two.xlsx"]) == 2
    assert capsys.readouterr().err == (
        "checkface: two.xlsx: Expected one sheet with cells, read 'Checks', 'Other'; name one with --sheet.\n"
    )
    assert main(["audit", "two.xlsx", "--sheet", "other"]) == 1
    assert "two.xlsx:Other!6: skipped." in capsys.readouterr().err
    assert main(["audit", "day.csv", "--sheet", "other"]) == 2


def test_other_headings_and_a_day(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    rows = [["x", "11/24/2024", "?"]]
    for name, content in (
        ("a.parquet", as_parquet(["Slip", "date", "n"], rows)),
        ("a.xlsx", as_workbook(["Slip", "date", "n"], rows)),
    ):
        Path(name).write_bytes(content)
        assert main(["audit", name, "--columns", "id=Slip", "--ignore", "n", "--on", "2026-11-24"]) == 0
        assert "  x  decline  date-stale" in capsys.readouterr().out


def test_a_policy_is_compared_on_a_workbook(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["policy", "compare", "default", "default", "day.xlsx"]) == 1
    assert "2 judged under both, 0 answered differently." in capsys.readouterr().err


@pytest.mark.parametrize("missing", ["pyarrow", "openpyxl"])
@pytest.mark.parametrize(
    "words", [["day.parquet"], ["day.xlsx"], ["day.csv", "--output", "a.xlsx"], ["day.csv", "--output", "a.parquet"]]
)
def test_without_the_extra(
    missing: str, words: list[str], day: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setitem(sys.modules, missing, None)
    assert main(["audit", *words]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.removeprefix("checkface: ").removeprefix(f"{words[0]}: ") == (
        "Expected the audit extra to be installed: pip install 'checkface[audit]'.\n"
    )
    assert not Path("a.xlsx").exists()


def test_text_needs_no_extra() -> None:
    code = (
        "import sys, checkface.audit as a, io; list(a.tenders(io.BytesIO(b'id\\n7\\n')));"
        "sys.exit(bool({'pyarrow', 'openpyxl', 'duckdb'} & sys.modules.keys()))"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_answers_as_parquet(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["audit", "day.xlsx", "--output", "out.parquet"]) == 1
    with duckdb.connect() as base:
        found = base.sql("SELECT file, line, sheet, id, disposition, \"on\", date, amount, purchase FROM 'out.parquet'")
        assert list(map(str, found.types)) == [
            "VARCHAR", "BIGINT", "VARCHAR", "VARCHAR", "VARCHAR", "DATE", "DATE", "DECIMAL(18,2)", "DECIMAL(18,2)",
        ]  # fmt: skip
        rows = found.fetchall()
    today = date(2026, 11, 24)
    assert rows[1] == ("day.xlsx", 5, "Checks", "=1+1", "decline", today, today, Decimal("1200.00"), None)
    assert rows[2] == ("day.xlsx", 6, "Checks", "", "skipped", None, None, None, None)


def test_a_day_that_could_be_two_is_left_open(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("a.csv").write_bytes(as_csv(["id", "date", "on"], [["7", "11/12/2026", "2026-11-24"]]))
    assert main(["audit", "a.csv", "--output", "out.parquet"]) == 0
    assert "date-order-unclear" in capsys.readouterr().out
    with duckdb.connect() as base:
        assert base.sql("SELECT \"on\", date FROM 'out.parquet'").fetchall() == [(date(2026, 11, 24), None)]


def test_answers_as_a_workbook(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["audit", "day.parquet", "--output", "out.xlsx"]) == 1
    book = openpyxl.load_workbook("out.xlsx")
    assert book.sheetnames == ["answers", "tally"]
    sheet = book["answers"]
    assert sheet.freeze_panes == "A2"
    assert sheet.auto_filter.ref == "A1:L4"
    rows = [[cell.value for cell in row] for row in sheet.iter_rows()]
    assert rows[0] == [
        "file",
        "line",
        "id",
        "disposition",
        "rules",
        "unread",
        "reason",
        "sheet",
        "on",
        "date",
        "amount",
        "purchase",
    ]
    row: dict[str, Any] = dict(zip(map(str, rows[0]), sheet[3], strict=True))
    assert (row["id"].value, row["id"].data_type) == ("'=1+1", "s")
    assert (row["line"].value, row["amount"].value, row["amount"].number_format) == (2, 1200, "#,##0.00")
    assert (row["on"].value.date(), row["on"].number_format) == (date(2026, 11, 24), "yyyy-mm-dd")
    assert rows[3][:4] == ["day.parquet", 3, None, "skipped"]
    tally = [[cell.value for cell in row] for row in book["tally"].iter_rows()]
    assert tally[0] == ["what", "which", "tenders"]
    for entry in (
        ["answer", "decline", 1],
        ["skipped", "no answer was given", 1],
        ["found (decline)", "signature-missing", 1],
    ):
        assert entry in tally
    assert any(entry[0] == "could not run" for entry in tally)


def test_the_answers_of_a_workbook_are_those_of_csv(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for name in ("out.csv", "out.xlsx"):
        main(["audit", "day.parquet", "--output", name])
    sheet: Any = openpyxl.load_workbook("out.xlsx")["answers"]
    rows = [["" if cell.value is None else str(cell.value) for cell in row[:7]] for row in sheet.iter_rows()]
    assert as_csv(rows[0], rows[1:]).replace(b"\r", b"") == Path("out.csv").read_bytes()


@pytest.mark.parametrize(
    "text", ["=1+1", "+1", "-1", "@x", "\t=1", "#N/A", "\x00\x1b", "\ud800", "\uffff", "_x003D_1", "x" * 40_000]
)
def test_nothing_in_a_workbook_is_a_formula_or_breaks_it(text: str, day: Path) -> None:
    from checkface.audit import Skipped, table_writer

    stream = io.BytesIO()
    with table_writer(stream, "xlsx") as write:
        write(text, Skipped(2, text))
    stream.seek(0)
    sheet: Any = openpyxl.load_workbook(stream)["answers"]
    for cell in (sheet["A2"], sheet["G2"]):
        assert cell.data_type == "s"
        assert not str(cell.value).startswith(("=", "+", "-", "@"))
        assert len(cell.value) <= 32_767
    escaped = {"_x003D_1": "_x005F_x003D_1", "\x00\x1b": "␀␛"}
    if text in escaped:
        assert sheet["A2"].value == escaped[text]


def test_more_answers_than_a_sheet_has_rows(monkeypatch: pytest.MonkeyPatch) -> None:
    from checkface.audit import Skipped, table_writer

    monkeypatch.setattr(answers, "ROWS", 3)
    stream = io.BytesIO()
    with table_writer(stream, "xlsx") as write:
        for line in range(5):
            write("day.csv", Skipped(line, "x"))
    book = openpyxl.load_workbook(stream)
    assert book.sheetnames == ["answers", "answers 2", "answers 3", "tally"]
    assert [sheet.max_row for sheet in book.worksheets[:3]] == [3, 3, 2]
    assert [sheet.auto_filter.ref for sheet in book.worksheets[:3]] == ["A1:L3", "A1:L3", "A1:L2"]


def test_groups_of_parquet_lose_no_row(monkeypatch: pytest.MonkeyPatch) -> None:
    from checkface.audit import Skipped, table_writer

    monkeypatch.setattr(answers, "GROUP", 2)
    stream = io.BytesIO()
    with table_writer(stream, "parquet") as write:
        for line in range(1, 6):
            write("day.csv", Skipped(line, "x"))
    from pyarrow import parquet

    assert parquet.read_table(io.BytesIO(stream.getvalue()))["line"].to_pylist() == [1, 2, 3, 4, 5]


@pytest.mark.parametrize("name", ["out.parquet", "out.xlsx"])
def test_half_a_file_of_answers_is_none_and_the_earlier_one_stays(name: str, day: Path) -> None:
    Path(name).write_bytes(b"earlier")
    Path("broken.csv").write_bytes(as_csv(HEADINGS, ROWS) + b"\xff")
    command = [sys.executable, "-m", "checkface", "audit", "broken.csv", "--quiet", "--output", name]
    done = subprocess.run(command, capture_output=True, check=False)
    assert done.returncode == 2
    assert done.stderr.splitlines()[-1].startswith(b"checkface: broken.csv: Line 5: ")
    assert b"ignored" not in done.stderr
    assert Path(name).read_bytes() == b"earlier"
    assert not list(Path().glob(".*.part"))


@pytest.mark.parametrize("name", ["out.parquet", "out.xlsx"])
def test_no_account_number_in_full(name: str, day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    rows = [[*ROWS[0][:2], "up", "45601122", *ROWS[0][4:]], [*ROWS[0][:2], "45601122", *ROWS[0][3:]], ROWS[0]]
    Path("day.parquet").write_bytes(as_parquet(HEADINGS, rows))
    main(["audit", "day.parquet", "--output", name])
    cells: list[Any]
    if name == "out.xlsx":
        cells = [
            cell for sheet in openpyxl.load_workbook(name) for row in sheet.iter_rows(values_only=True) for cell in row
        ]
    else:
        with duckdb.connect() as base:
            cells = [
                cell
                for row in base.sql("FROM 'out.parquet'").fetchall()
                for cell in row
                if not isinstance(cell, Decimal)
            ]
    assert not any("45601122" in str(cell) for cell in cells if isinstance(cell, str))
    assert "45601122" not in "".join(capsys.readouterr())


@pytest.mark.parametrize("name", ["day.parquet", "day.xlsx"])
def test_the_file_itself_is_not_overwritten(name: str, day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = Path(name).read_bytes()
    assert main(["audit", name, "--output", f"./{name}"]) == 2
    assert capsys.readouterr().err == f"checkface: {name}: Expected another file to write than the one that is read.\n"
    assert Path(name).read_bytes() == before


def test_nothing_in_a_workbook_acts_on_the_terminal(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("a.parquet").write_bytes(as_parquet(["id", "network"], [["\x1b[2J", "down"], ["x", "\x1b[2J"]]))
    main(["audit", "a.parquet"])
    assert "\x1b" not in "".join(capsys.readouterr())
