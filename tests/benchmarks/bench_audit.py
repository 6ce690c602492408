"""How many tenders a second an audit of the demo day judges, and what each step of it costs.

Run with ``pytest tests/benchmarks/bench_audit.py --benchmark-enable``; the figures of one run are printed, nothing is
asserted of time. Each step holds those above it; the share is of the whole audit.
"""

from __future__ import annotations

import csv
import io
import time
import timeit
from collections.abc import Callable
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

import checkface as cf
from checkface import audit

DAY = (Path(__file__).parents[2] / "data" / "demo" / "saturday.csv").read_bytes()
POLICY = cf.Policy()
TENDERS = [item.tender for item in audit.tenders(io.BytesIO(DAY)) if isinstance(item, audit.Item)]


def _run() -> audit.Tally:
    tally = audit.Tally()
    for result in audit.run(audit.tenders(io.BytesIO(DAY)), POLICY):
        tally.add(result)
    return tally


def _written(form: str) -> str:
    out = io.StringIO()
    write = audit.writer(out, form, reveal=False)  # type: ignore[arg-type]
    for result in audit.run(audit.tenders(io.BytesIO(DAY)), POLICY):
        write("saturday.csv", result)
    return out.getvalue()


CALLS: dict[str, Callable[[], object]] = {
    "csv.DictReader alone": lambda: list(csv.DictReader(io.StringIO(DAY.decode()))),
    "rows to tenders": lambda: list(audit.tenders(io.BytesIO(DAY))),
    "assess alone": lambda: [cf.assess(tender, POLICY) for tender in TENDERS],
    "audit": _run,
    "audit, answers as CSV": lambda: _written("csv"),
    "audit, answers as JSON Lines": lambda: _written("jsonl"),
}


def test_every_row_is_judged() -> None:
    tally = _run()
    assert tally.skipped == 0
    assert sum(tally.dispositions.values()) == len(TENDERS) == DAY.count(b"\n") - 1


@pytest.mark.parametrize("name", CALLS)
def test_one_day(benchmark: BenchmarkFixture, name: str) -> None:
    benchmark(CALLS[name])


def test_tenders_a_second(capsys: pytest.CaptureFixture[str]) -> None:
    best = {name: min(timeit.repeat(call, timer=time.process_time, number=1, repeat=5)) for name, call in CALLS.items()}
    with capsys.disabled():
        print(f"\n{len(TENDERS)} tenders of saturday.csv")
        for name, seconds in best.items():
            rate, share = len(TENDERS) / seconds, seconds / best["audit"]
            print(f"{name:30}{seconds * 1e6 / len(TENDERS):8.1f} us each {rate:9,.0f} a second {share:6.2f} x audit")
