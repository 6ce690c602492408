"""Days of checks as plain cells, and writers of each form of file for them that share nothing with the readers."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import duckdb
import openpyxl
import pyarrow as pa
from pyarrow import parquet as pq

Rows = Sequence[Sequence[Any]]
_LINES = {"face.drawer", "face.drawee", "face.legends", "face.endorsements"}


def as_csv(headings: Sequence[str], rows: Rows) -> bytes:
    stream = io.StringIO()
    csv.writer(stream).writerows([headings, *rows])
    return stream.getvalue().encode()


def as_json_lines(headings: Sequence[str], rows: Rows) -> bytes:
    return "".join(f"{json.dumps(_tender(dict(zip(headings, row, strict=True))))}\n" for row in rows).encode()


def _tender(cells: Mapping[str, str]) -> dict[str, Any]:
    tender: dict[str, Any] = {"face": {}, "counter": {}}
    document: dict[str, str] = {}
    for path, cell in cells.items():
        if cell.strip().lower() == "(not looked at)":
            continue
        branch, _, name = path.rpartition(".")
        if branch == "face" and cell.strip().lower() == "(illegible)":
            tender["face"][name] = None
        elif branch == "face":
            tender["face"][name] = cell.split(" | ") if path in _LINES else cell
        elif branch == "documents":
            document[name] = cell.strip()
        elif branch:
            tender[branch][name] = cell.strip()
        else:
            tender[name] = cell.strip()
    if document:
        tender["documents"] = [document] if any(document.values()) else []
    return tender


def as_parquet(headings: Sequence[str], rows: Rows, **options: Any) -> bytes:
    columns = [pa.array([row[place] for row in rows]) for place in range(len(headings))]
    return table_as_parquet(pa.table(columns, names=list(headings)), **options)


def table_as_parquet(table: Any, **options: Any) -> bytes:
    stream = io.BytesIO()
    pq.write_table(table, stream, **options)
    return stream.getvalue()


def as_parquet_by_duckdb(headings: Sequence[str], rows: Rows) -> bytes:
    with TemporaryDirectory() as folder, duckdb.connect() as base:
        path = Path(folder) / "day.parquet"
        names = ", ".join(f'"{heading}" VARCHAR' for heading in headings)
        base.execute(f"CREATE TABLE day ({names})")
        base.executemany(f"INSERT INTO day VALUES ({', '.join('?' * len(headings))})", [list(row) for row in rows])
        base.execute(f"COPY day TO '{path}' (FORMAT parquet)")
        return path.read_bytes()


def as_workbook(headings: Sequence[str], rows: Rows, change: Callable[[Any], None] | None = None) -> bytes:
    """A workbook of one sheet, Checks; *change* is given the sheet before it is saved."""
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "Checks"
    for line, row in enumerate([headings, *rows], 1):
        for place, value in enumerate(row, 1):
            cell: Any = sheet.cell(line, place, value if value != "" else None)
            if isinstance(value, str) and value:
                cell.data_type = "s"
    if change is not None:
        change(sheet)
    return saved(book)


def saved(book: openpyxl.Workbook) -> bytes:
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()
