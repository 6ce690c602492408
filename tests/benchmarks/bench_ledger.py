"""Look-up and record against a ledger that grows from ten thousand checks to a million.

Run with ``pytest tests/benchmarks/bench_ledger.py --benchmark-enable``; the last lines give the growth. The ledger of
each size is filled by executemany in one transaction, then looked at and written to as a lane does it: the four
questions of the rules, then one take, each write on disk before it is confirmed. What the disk alone needs to confirm
four kilobytes is measured beside it.
"""

from __future__ import annotations

import os
import random
import statistics
from collections.abc import Iterator
from datetime import date, datetime, timedelta
from itertools import count, islice
from pathlib import Path
from typing import Any

import pytest
import sqlalchemy as sa

from checkface.findings import Disposition
from checkface.ledger import Entry, Ledger, store

BANK = "011394776"
DAY = date(2026, 11, 24)
MOMENT = datetime(2026, 11, 24, 9, 30)
SIZES = (10_000, 100_000, 1_000_000)
MEDIANS: dict[tuple[str, int], float] = {}


def check(number: int) -> Entry:
    """The check with that number: one account in ten checks, a year of days."""
    return Entry(
        BANK, f"{number % 100_003:09d}", str(number), 1000 + number % 9000, DAY - timedelta(number % 365), MOMENT, "kept",
        Disposition.KEEP, drawer="PAT DOE", documents=(f"D{number % 100_003:08d}",),
    )  # fmt: skip


def fill(ledger: Ledger, size: int) -> None:
    rows = (ledger.row(check(number), f"{number:032x}") for number in range(size))

    def work(connection: sa.Connection) -> None:
        while chunk := list(islice(rows, 10_000)):
            connection.execute(sa.text(store._INSERT.text.replace("RETURNING id", "")), chunk)
        for number in range(min(size, 100_003)):
            shown = {
                "document": ledger.tokens.document(check(number).documents[0]),
                "last4": "0000",
                "day": "2026-11-24",
            }
            connection.execute(store._SHOW, shown | {"account": ledger.row(check(number), "")["account_token"]})

    ledger.database.write(work)


@pytest.fixture(scope="module", params=SIZES, ids=lambda size: f"1e{len(str(size)) - 1}")
def filled(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Ledger, int]]:
    size = request.param if request.config.getoption("benchmark_enable") else 100
    folder: Path = tmp_path_factory.mktemp("ledger")
    with Ledger.open(folder / "shop.ledger") as ledger:
        fill(ledger, size)
        with Ledger.open(folder / "shop.ledger", durable=False) as undurable:
            UNDURABLE[:] = [undurable]
            yield ledger, size


def look_up(ledger: Ledger, entry: Entry) -> None:
    ledger.item_seen(entry.routing, entry.account, entry.serial)


def ask_all(ledger: Ledger, entry: Entry) -> None:
    ledger.item_seen(entry.routing, entry.account, entry.serial)
    ledger.is_listed(entry.routing, entry.account)
    ledger.account_past(entry.routing, entry.account, DAY - timedelta(6), DAY)
    ledger.accounts_of_document(entry.documents[0])


def record(ledger: Ledger, entry: Entry) -> None:
    assert ledger.record(entry).is_recorded


def record_unsealed(ledger: Ledger, entry: Entry) -> None:
    """The row alone, as it was before entries were sealed."""
    row = ledger.row(entry, f"{next(NEW):032x}")
    ledger.database.write(lambda connection: connection.execute(store._INSERT, row).first())


def disk_alone(ledger: Ledger, _entry: Entry) -> None:
    assert ledger.database.file is not None
    with ledger.database.file.with_suffix(".flush").open("ab", buffering=0) as file:
        file.write(bytes(4096))
        os.fdatasync(file.fileno())


def look_up_and_record(ledger: Ledger, entry: Entry) -> None:
    look_up(ledger, entry)
    record(ledger, entry)


def ask_all_and_record(ledger: Ledger, entry: Entry) -> None:
    ask_all(ledger, entry)
    record(ledger, entry)


def without_waiting(ledger: Ledger, entry: Entry) -> None:
    """Everything, on a ledger that does not wait for the disk."""
    ask_all_and_record(UNDURABLE[0], entry)


UNDURABLE: list[Ledger] = []
NEW = count(10_000_000)


@pytest.mark.parametrize(
    "step",
    [disk_alone, look_up, ask_all, record_unsealed, record, look_up_and_record, ask_all_and_record, without_waiting],
)
def test_bench_ledger(benchmark: Any, filled: tuple[Ledger, int], step: Any) -> None:
    ledger, size = filled
    chance = random.Random(1)
    known = step in (look_up, ask_all)

    def arguments() -> tuple[tuple[Ledger, Entry], dict[str, Any]]:
        return (ledger, check(chance.randrange(size) if known else next(NEW))), {}

    benchmark.pedantic(step, setup=arguments, rounds=1000, warmup_rounds=20)
    if benchmark.stats:
        MEDIANS[step.__name__, size] = statistics.median(benchmark.stats.stats.data)


def test_bench_growth(capsys: pytest.CaptureFixture[str]) -> None:
    """Prints how the medians grow with the ledger."""
    with capsys.disabled():
        for name in dict.fromkeys(name for name, _ in MEDIANS):
            medians = [MEDIANS[name, size] for size in SIZES if (name, size) in MEDIANS]
            shown = "  ".join(f"{seconds * 1e6:7.0f} us" for seconds in medians)
            if not medians:
                continue
            print(f"\n{name:<22}{shown}   growth x{medians[-1] / medians[0]:.2f}", end="")
