"""A lane is killed at a random point, again and again: nothing is half recorded, nothing confirmed is lost."""

from __future__ import annotations

import multiprocessing
import os
import random
import time
from pathlib import Path

import ledger_worker
import sqlalchemy as sa
from ledger_world import Place

from checkface.ledger import Ledger, till

KILLS = 200 if os.environ.get("CHECKFACE_THOROUGH") else 25
LANES = multiprocessing.get_context("forkserver")
LANES.set_forkserver_preload(["checkface.ledger.till", "checkface.micr"])


def kill_after(place: Place, log: Path, seconds: float, since: str) -> None:
    """Run a lane and kill it that long after it next noted *since*."""
    starts = log.read_text().count(since) if log.exists() else 0
    process = LANES.Process(target=ledger_worker.run_lane, args=(place, log))
    process.start()
    deadline = time.monotonic() + 20
    while not log.exists() or log.read_text().count(since) == starts:
        assert process.is_alive()
        assert time.monotonic() < deadline
        time.sleep(0.001)
    time.sleep(seconds)
    process.kill()
    process.join(20)
    assert process.exitcode == -9


def hold_against(ledger: Ledger, log: Path) -> int:
    """Check the whole ledger against what was confirmed; how many tills are closed."""
    noted = set(log.read_text().splitlines())

    def rows(statement: str) -> list[tuple]:
        return ledger.database.read(lambda c: [tuple(row) for row in c.execute(sa.text(statement))])

    if ledger.database.is_sqlite:
        assert rows("PRAGMA integrity_check") == [("ok",)]
    items = {row[0]: row[1:] for row in rows("SELECT id, amount_cents, taken_as FROM item")}
    confirmed = {line.split()[1] for line in noted if line.startswith("take ")}
    assert confirmed <= items.keys()
    assert len(items.keys() - confirmed) <= 1  # at most the one that was under way
    # Every check was shown with a document of its own: recorded with it or not at all.
    assert rows("SELECT count(*) FROM shown") == [(len(items),)]
    closed = 0
    for name, is_closed in rows("SELECT id, closed_at IS NOT NULL FROM till"):
        report = till.report(ledger, name)
        which = int(name.removeprefix("till-"))
        numbers = [int(item.id.rpartition("-")[2]) for item in report.items]
        assert sorted(numbers) == list(range(len(numbers)))
        kept = [ledger_worker.amount(which, number) for number in numbers if number % 2]
        assert report.expected == (len(kept), sum(kept))
        if report.till.counted is not None:
            assert report.lines is not None
            assert report.till.counted == (len(report.lines), sum(line.amount_cents for line in report.lines))
            assert report.difference == (0, 0)
        assert is_closed or f"close {name}" not in noted
        if is_closed:
            assert len(numbers) == ledger_worker.CHECKS
            closed += 1
    return closed


def test_a_lane_killed_at_any_moment_leaves_whole_records(place: Place, tmp_path: Path) -> None:
    log = tmp_path / "confirmed"
    chance = random.Random(20261124)
    kill_after(place, log, 0, "close ")
    opened = next(line for line in log.read_text().splitlines() if line.startswith("ledger"))
    till_takes = log.stat().st_mtime - float(opened.split()[1])
    for _ in range(KILLS):
        kill_after(place, log, chance.uniform(0, 1.5 * till_takes), "ledger")
        with place.open() as ledger:
            closed = hold_against(ledger, log)
    assert closed > 1  # the lanes got somewhere in between


def test_a_lane_killed_while_the_ledger_is_made_leaves_one_that_opens(place: Place, tmp_path: Path) -> None:
    chance = random.Random(42)
    log = tmp_path / "confirmed"
    for _ in range(5):
        kill_after(place, log, chance.uniform(0, 0.03), "start")
    with place.open() as ledger:
        hold_against(ledger, log)
