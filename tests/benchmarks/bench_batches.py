"""What the form of a day's file costs: the demo day as CSV, JSON Lines, Parquet and a workbook, in one run.

Run with ``pytest tests/benchmarks/bench_batches.py --benchmark-enable -s``; rows a second and ratios to CSV are printed,
nothing is asserted of time. Reading gives tenders; an audit judges them too; writing is of the answers.
"""

from __future__ import annotations

import csv
import io
import time
import timeit
from collections.abc import Callable
from functools import partial
from pathlib import Path

import openpyxl
import pytest
from day_files import as_json_lines, as_parquet, as_workbook
from pyarrow import parquet as pq
from pytest_benchmark.fixture import BenchmarkFixture

import checkface as cf
from checkface import audit

DAY = (Path(__file__).parents[2] / "data" / "demo" / "saturday.csv").read_text(encoding="utf-8")
HEADINGS, *ROWS = list(csv.reader(io.StringIO(DAY)))
FORMS = {
    "CSV": DAY.encode(),
    "JSON Lines": as_json_lines(HEADINGS, ROWS),
    "Parquet": as_parquet(HEADINGS, ROWS),
    "workbook": as_workbook(HEADINGS, ROWS),
}
POLICY = cf.Policy()
RESULTS = list(audit.run(audit.tenders(io.BytesIO(FORMS["CSV"])), POLICY))


def _read(content: bytes) -> list[audit.Item | audit.Skipped]:
    return list(audit.tenders(io.BytesIO(content)))


def _audit(content: bytes) -> audit.Tally:
    tally = audit.Tally()
    for result in audit.run(audit.tenders(io.BytesIO(content)), POLICY):
        tally.add(result)
    return tally


def _write(form: str) -> bytes:
    if form in {"csv", "jsonl"}:
        text = io.StringIO()
        write = audit.writer(text, form)
        for result in RESULTS:
            write("day", result)
        return text.getvalue().encode()
    stream = io.BytesIO()
    with audit.table_writer(stream, form) as write:
        for result in RESULTS:
            write("day", result)
    return stream.getvalue()


def _by_openpyxl() -> list[tuple[object, ...]]:
    book = openpyxl.load_workbook(io.BytesIO(FORMS["workbook"]), read_only=True, data_only=True)
    return list(book.worksheets[0].iter_rows(values_only=True))


CALLS: dict[str, Callable[[], object]] = {
    **{f"read {form}": partial(_read, content) for form, content in FORMS.items()},
    "cells of Parquet alone": lambda: pq.read_table(io.BytesIO(FORMS["Parquet"])).to_pylist(),
    "cells by openpyxl alone": _by_openpyxl,
    **{f"audit {form}": partial(_audit, content) for form, content in FORMS.items()},
    **{f"write .{form}": partial(_write, form) for form in ("csv", "jsonl", "parquet", "xlsx")},
}


def test_every_form_holds_the_same_day() -> None:
    tallies = [_audit(content).text(verbose=True) for content in FORMS.values()]
    assert len(set(tallies)) == 1
    assert tallies[0].startswith(f"{len(ROWS)} tenders: ")


@pytest.mark.parametrize("name", CALLS)
def test_one_day(benchmark: BenchmarkFixture, name: str) -> None:
    benchmark(CALLS[name])


def test_rows_a_second(capsys: pytest.CaptureFixture[str]) -> None:
    best = {name: min(timeit.repeat(call, timer=time.process_time, number=1, repeat=5)) for name, call in CALLS.items()}
    units = {
        "read": best["read CSV"],
        "cells": best["read CSV"],
        "audit": best["audit CSV"],
        "write": best["write .csv"],
    }
    with capsys.disabled():
        print(f"\n{len(ROWS)} rows of {len(HEADINGS)} columns")
        for name, seconds in best.items():
            rate, ratio = len(ROWS) / seconds, seconds / units[name.split()[0]]
            print(f"{name:26}{seconds * 1e6 / len(ROWS):8.1f} us each {rate:9,.0f} a second {ratio:6.2f} x CSV")
