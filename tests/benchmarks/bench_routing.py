"""What the readers of numbers, fractions, dates and kinds cost, against one call of python-stdnum in the same run.

Run with ``pytest tests/benchmarks/bench_routing.py --benchmark-enable``; the ratios are printed, nothing is asserted.
"""

from __future__ import annotations

import timeit
from collections.abc import Callable
from datetime import date

import pytest
from pytest_benchmark.fixture import BenchmarkFixture
from stdnum.us import rtn

from checkface import dates, instruments, routing

ON = date(2026, 11, 24)
LINE = instruments.LineFacts(series="primary", auxiliary=False, account=True, serial=True, country="US")
FACE = {
    "drawer": "JORDAN Q EXAMPLE\nALEX EXAMPLE\n12 MAPLE ST\nANYTOWN PA 15001",
    "drawee": "FIRST EXAMPLE BANK\nANYTOWN PA",
    "payee": "Corner Market",
    "words": "Forty-five and 10/100",
    "legends": "Security features included. Details on back.",
}
CALLS: dict[str, Callable[[], object]] = {
    "stdnum.us.rtn.is_valid": lambda: rtn.is_valid("011394776"),
    "routing.read": lambda: routing.read("011394776"),
    "routing.read_fraction": lambda: routing.read_fraction("53-9477/113"),
    "routing.read_fraction, stacked": lambda: routing.read_fraction("53-9477\n----\n113"),
    "dates.read, figures": lambda: dates.read("11/24/2026", ON),
    "dates.read, month name": lambda: dates.read("Nov 24, 2026", ON),
    "dates.read, misspelled": lambda: dates.read("Novmber 24, 2026", ON),
    "instruments.infer, personal": lambda: instruments.infer(LINE, FACE),
    "instruments.infer, cashier's": lambda: instruments.infer(LINE, FACE | {"legends": "CASHIER'S CHECK"}),
    "instruments.legend_limits, none": lambda: instruments.legend_limits(FACE["legends"]),
    "instruments.legend_limits, days": lambda: instruments.legend_limits("VOID AFTER 90 DAYS"),
    "instruments.payees": lambda: instruments.payees("Corner Market"),
}


@pytest.mark.parametrize("name", CALLS)
def test_one_call(benchmark: BenchmarkFixture, name: str) -> None:
    benchmark(CALLS[name])


def test_ratios(capsys: pytest.CaptureFixture[str]) -> None:
    cost = {name: min(timeit.repeat(call, number=2000, repeat=5)) / 2000 for name, call in CALLS.items()}
    one = cost["stdnum.us.rtn.is_valid"]
    with capsys.disabled():
        print()
        for name, seconds in cost.items():
            print(f"{name:34} {seconds * 1e6:7.2f} us  {seconds / one:5.1f} x stdnum.us.rtn.is_valid")
