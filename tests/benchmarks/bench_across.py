"""What holding a hundred thousand checks against one another costs, beside judging each of them.

Run with ``pytest tests/benchmarks/bench_across.py --benchmark-enable -s``; the figures of one run are printed, nothing
is asserted of time. The unit is the plain audit of one check of the demo day. ``CHECKFACE_BENCH_CHECKS`` is another
number of checks, such as a million.
"""

from __future__ import annotations

import io
import os
import resource
import time
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path
from random import Random

import pytest

import checkface as cf
from checkface import audit
from checkface.audit.across import Counts, Index, Place, Thresholds, layout, near, runs, same
from checkface.audit.across.sight import Layout, Sight, sight

DAY = (Path(__file__).parents[2] / "data" / "demo" / "saturday.csv").read_bytes()
CHECKS = int(os.environ.get("CHECKFACE_BENCH_CHECKS", 100_000))
BANKS = [f"{number:09d}" for number in Random(0).sample(range(10_000_000, 330_000_000), 300)]


def checks(number: int) -> list[Sight]:
    """A month of a chain: 300 banks, two checks an account, one in a thousand seen twice, one in a thousand misread."""
    random, start = Random(number), date(2026, 11, 1)
    made: list[Sight] = []
    while len(made) < number:
        bank = random.choice(BANKS)
        account = f"{random.randrange(10**8, 10**9)}"
        for _ in range(2):
            day = start + timedelta(random.randrange(30))
            serial, cents = str(random.randrange(101, 9999)), random.randrange(500, 40000)
            place = Place("month.csv", len(made) + 2, f"{len(made):07d}")
            taken = random.choice(("kept", "converted"))
            made.append(
                Sight(place, taken, bank, account, serial, cents, day, day, "", "7", "3", Layout("account", 0, False))
            )
            if random.random() < 0.001:
                made.append(made[-1]._replace(place=Place("month.csv", len(made) + 2, "")))
            if random.random() < 0.001:
                misread = serial[:-1] + str((int(serial[-1]) + 1) % 10)
                made.append(made[-1]._replace(place=Place("month.csv", len(made) + 2, ""), serial=misread))
    return made[:number]


def _seconds(call: Callable[[], object]) -> float:
    start = time.perf_counter()
    call()
    return time.perf_counter() - start


def test_across(capsys: pytest.CaptureFixture[str]) -> None:
    plain = min(_seconds(lambda: list(audit.run(audit.tenders(io.BytesIO(DAY)), cf.Policy()))) for _ in range(3))
    results = [one for one in audit.run(audit.tenders(io.BytesIO(DAY)), cf.Policy()) if isinstance(one, audit.Assessed)]
    unit = plain / len(results)
    kept = min(
        _seconds(lambda: [sight(Place("day.csv", one.line), one.assessment.read) for one in results]) for _ in range(3)
    )
    items = checks(CHECKS)
    counts, limits = Counts(), Thresholds()
    costs = {"judge one check (plain audit)": unit, "keep what is compared": kept / len(results)}
    with Index() as index:

        def fill() -> None:
            for one in items:
                index.add(one)
            index.ask("SELECT 1")

        costs["put it in the index"] = _seconds(fill) / CHECKS
        found: dict[str, int] = {}
        for name, call in {
            "same-item-twice": lambda: list(same.ask(index, counts)),
            "near-duplicate": lambda: list(near.ask(index, counts)),
            "counterfeit-run": lambda: list(
                runs.ask(index, counts, accounts=limits.accounts, sequence=limits.sequence)
            ),
            "layout-unlike-its-bank": lambda: list(layout.ask(index, counts, witnesses=limits.witnesses)),
        }.items():
            costs[name] = _seconds(lambda call=call, name=name: found.__setitem__(name, len(call()))) / CHECKS  # type: ignore[misc]
    with capsys.disabled():
        print(
            f"\n{CHECKS:,} checks; most memory of the process {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024} MB"
        )
        for name, seconds in costs.items():
            print(f"{name:32}{seconds * 1e6:9.2f} us a check {seconds / unit:8.3f} x judging  {found.get(name, '')}")
        across = sum(costs.values()) - unit
        print(f"{'all across checks':32}{across * 1e6:9.2f} us a check {across / unit:8.3f} x judging")
