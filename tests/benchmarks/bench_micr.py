"""How long reading a line takes, beside one call of the check-digit library on the same machine in the same run.

Run with ``pytest tests/benchmarks/bench_micr.py --benchmark-enable``; the last test prints the ratios.
"""

from __future__ import annotations

import timeit

import pytest
from pytest_benchmark.fixture import BenchmarkFixture
from stdnum.us import rtn

from checkface import micr

LINES = {
    "personal": "⑆031097765⑆ 0045601122⑈ 1043",
    "business": "⑈001234⑈ ⑆011193032⑆ 123456789⑈ 27",
    "closed serial": "⑆042097482⑆ 1043⑈ 45601122⑈",
    "dashed account": "⑈001234⑈ ⑆011193032⑆ 123⑉456⑉789⑈",
    "two groups": "⑆071098973⑆ 45601122⑈ 1043 27",
    "unread digit": "⑆1210?3747⑆ 45601122⑈ 1043",
    "detected": "t031097765t 0045601122o 1043",
    "framed": "\x02T031097765T 0045601122O 1043/00\x03\r",
    "brackets": '[031097765[ 0045601122" 1043',
}


@pytest.mark.parametrize("shape", LINES)
def test_read(benchmark: BenchmarkFixture, shape: str) -> None:
    benchmark(micr.read, LINES[shape])


def test_ratios(capsys: pytest.CaptureFixture[str]) -> None:
    """Microseconds a line, and how many calls of ``rtn.is_valid`` that is worth."""

    def cost(work: object, text: str) -> float:
        return min(timeit.repeat(lambda: work(text), number=2000, repeat=5)) / 2000 * 1e6  # type: ignore[operator]

    unit = cost(rtn.is_valid, "031097765")
    with capsys.disabled():
        print(f"\n{'stdnum.us.rtn.is_valid':24}{unit:8.2f} us   1.0")
        for shape, text in LINES.items():
            took = cost(micr.read, text)
            print(f"{shape:24}{took:8.2f} us{took / unit:6.1f}")
