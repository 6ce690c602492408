"""Several lanes, one ledger, real processes."""

from __future__ import annotations

import multiprocessing
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from itertools import count as numbers

import ledger_worker
import pytest
import sqlalchemy as sa
from ledger_world import ACCOUNT, BANK, MOMENT, Place, assessed

from checkface.ledger import till
from checkface.ledger.errors import TillError

LANES = multiprocessing.get_context("forkserver")
LANES.set_forkserver_preload(["checkface.ledger.till", "checkface.micr"])
ROUNDS = 40
LATE = sa.text("SELECT (SELECT count(*) FROM item WHERE till = till.id) - counted_after FROM till")


@pytest.mark.parametrize("lanes", [2, 3])
def test_of_lanes_taking_one_check_at_one_instant_exactly_one_takes_it(place: Place, lanes: int) -> None:
    place.open().close()
    pipes, processes = [], []
    for _ in range(lanes):
        near, far = LANES.Pipe()
        process = LANES.Process(target=ledger_worker.race, args=(place, far))
        process.start()
        pipes.append(near)
        processes.append(process)
    for pipe in pipes:
        assert pipe.recv() == "ready"
    taken = []
    for number in range(1, ROUNDS + 1):
        for pipe in pipes:
            pipe.send(str(number))
        taken.append([pipe.recv() for pipe in pipes])
    for pipe, process in zip(pipes, processes, strict=True):
        pipe.send("")
        process.join(20)
        assert process.exitcode == 0
    assert [sum(answers) for answers in taken] == [1] * ROUNDS
    with place.open() as ledger:
        assert len(ledger.items(BANK, ACCOUNT)) == ROUNDS


def test_lanes_that_make_the_ledger_at_one_instant_make_one(place: Place) -> None:
    pairs = [LANES.Pipe() for _ in range(4)]
    processes = [LANES.Process(target=ledger_worker.open_only, args=(place, far)) for _, far in pairs]
    for process in processes:
        process.start()
    for near, _ in pairs:
        assert near.recv() == "ready"
    for near, _ in pairs:
        near.send("go")
    checks = [near.recv() for near, _ in pairs]
    for process in processes:
        process.join(20)
        assert process.exitcode == 0
    assert len(set(checks)) == 1
    with place.open() as ledger:
        assert ledger.tokens.check() == checks[0]


def test_no_check_slips_into_a_till_that_is_being_closed(place: Place) -> None:
    with place.open() as ledger, ThreadPoolExecutor(3) as lanes:
        for round_ in range(5):
            which = till.open(ledger, store="7", lane="3", by="114", at=MOMENT).id

            def take(first: int, which: str = which) -> None:
                with suppress(TillError):
                    for serial in numbers(first, 2):
                        till.take(ledger, which, assessed(str(serial)), "kept", by="114", at=MOMENT)
                        time.sleep(0.05)

            def close(which: str = which) -> None:
                while True:
                    till.count(ledger, which, till.Total(0, 0))
                    with suppress(TillError):
                        till.close(ledger, which, by="115", at=MOMENT)
                        return

            first = (round_ + 1) * 10_000
            for lane in [lanes.submit(close), lanes.submit(take, first), lanes.submit(take, first + 1)]:
                lane.result(60)
        late = ledger.database.read(lambda connection: connection.execute(LATE).scalars().all())
        assert late == [0] * 5
