"""What the other processes do in the tests of racing and killing lanes."""

from __future__ import annotations

import os
import time
from itertools import count
from multiprocessing.connection import Connection
from pathlib import Path

from ledger_world import MOMENT, Place, assessed, entry

from checkface.ledger import till

CHECKS = 4


def amount(which: int, number: int) -> int:
    """The amount of one check: no two within a till are alike."""
    return 1000 + 37 * which + 101 * number


def race(place: Place, pipe: Connection) -> None:
    """Open the ledger, then take each check named at the instant of its name; answer whether it was taken."""
    with place.open() as ledger:
        pipe.send("ready")
        while serial := pipe.recv():
            pipe.send(ledger.record(entry(serial)).is_recorded)


def open_only(place: Place, pipe: Connection) -> None:
    """Open a ledger that may not be there yet, at the instant of being told."""
    pipe.send("ready")
    pipe.recv()
    with place.open() as ledger:
        pipe.send(ledger.tokens.check())


def run_lane(place: Place, log: Path) -> None:
    """Till after till: open, take, count, close; each step noted in *log* once it is confirmed. Until it is killed."""
    notes = os.open(log, os.O_WRONLY | os.O_APPEND | os.O_CREAT)

    def note(text: str) -> None:
        os.write(notes, f"{text}\n".encode())

    note("start")
    # The death of a process asks nothing of the disk: what was handed to the system stays.
    with place.open(durable=False) as ledger:
        note(f"ledger {time.time()}")
        past = [line.split()[1] for line in log.read_text().splitlines() if line.startswith("close ")]
        for which in count(len(past)):
            name = f"till-{which}"
            opened = till.open(ledger, store="7", lane="3", by="114", at=MOMENT, id=name)
            note(f"open {name}")
            lines = []
            for number in range(CHECKS):
                serial, cents = f"{which}{number:02d}", amount(which, number)
                done = "kept" if number % 2 else "converted"
                check = assessed(serial, cents, told_for(done), documents=(f"S{serial}-00{number}",))
                assert till.take(ledger, name, check, done, by="114", at=MOMENT, id=f"{name}-{number}").is_recorded
                note(f"take {name}-{number}")
                if done == "kept":
                    lines.append(till.Line(serial, cents))
            if opened.closed_at is None:
                till.count(ledger, name, lines)
                note(f"count {name}")
            till.close(ledger, name, by="114", at=MOMENT)
            note(f"close {name}")


def told_for(done: str):  # type: ignore[no-untyped-def]
    """The disposition that tells the lane to do *done*."""
    return next(told for told, what in till.TOLD.items() if what == done)
