"""How fast cash letters are read: megabytes and items a second, beside copying the same stream in chunks.

Run with ``pytest tests/benchmarks/bench_cashletter.py --benchmark-enable -s``; the last test prints the ratios.
"""

from __future__ import annotations

import io
import time
from collections.abc import Callable

import pytest
from plain_letter import Check, file, whole
from pytest_benchmark.fixture import BenchmarkFixture

from checkface.cashletter import items, read

BARE = file(whole([[Check(4510, endorsers=["071098973"]) for _ in range(100)] for _ in range(100)]))
PICTURES = file(whole([[Check(4510, images=[bytes(30_000), bytes(10_000)]) for _ in range(50)] for _ in range(20)]))


def through(content: bytes) -> int:
    return sum(1 for _ in items(read(io.BytesIO(content))))


def records(content: bytes) -> int:
    return sum(1 for _ in read(io.BytesIO(content)))


def copied(content: bytes) -> int:
    stream = io.BytesIO(content)
    return sum(len(chunk) for chunk in iter(lambda: stream.read(1 << 16), b""))


@pytest.mark.parametrize("content", [BARE, PICTURES], ids=["without images", "with images"])
def test_items(benchmark: BenchmarkFixture, content: bytes) -> None:
    benchmark(through, content)


def test_ratios(capsys: pytest.CaptureFixture[str]) -> None:
    def cost(work: Callable[[bytes], int], content: bytes) -> float:
        took = []
        for _ in range(3):
            started = time.perf_counter()
            work(content)
            took.append(time.perf_counter() - started)
        return min(took)

    with capsys.disabled():
        for name, content, count in (("10,000 without images", BARE, 10_000), ("1,000 with images", PICTURES, 1_000)):
            unit = cost(copied, content)
            for work in (records, through):
                took = cost(work, content)
                speed = f"{len(content) / took / 1e6:8.1f} MB/s {count / took:10,.0f} items/s"
                print(f"\n{name:24}{work.__name__:10}{speed}{took / unit:9.0f} times a copy", end="")
        print()
