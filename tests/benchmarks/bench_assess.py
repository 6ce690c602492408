"""What a whole check costs from tender to instructions, and each verb of it, against one call of python-stdnum.

Run with ``pytest tests/benchmarks/bench_assess.py --benchmark-enable``; the ratios of one run are printed, nothing is
asserted of time. The tender is a personal check with every reading of the face taken and no document; it is built
beforehand, as a till has it. The goal for ``assess`` is 15 calls of ``stdnum.us.rtn.is_valid``. Some readers remember
what they read last, so the checks of the demo day, each another, stand beside the one that comes again and again.
"""

from __future__ import annotations

import itertools
import json
import time
import timeit
from collections.abc import Callable
from pathlib import Path

import pytest
from clean_tender import CLEAN, patched
from pytest_benchmark.fixture import BenchmarkFixture
from stdnum.us import rtn

import checkface as cf
from checkface import audit

POLICY = cf.Policy()
WIRE = patched({"documents": "(absent)"})
TENDERS = {
    "personal check": cf.parse(WIRE),
    "the same, with a licence": cf.parse(CLEAN),
    "the same, unsigned": cf.parse(patched({"documents": "(absent)", "face.signature": False})),
    "the same, blank": cf.parse({"face": dict.fromkeys(WIRE["face"], ""), "counter": WIRE["counter"]}),
}
with (Path(__file__).parents[2] / "data" / "demo" / "saturday.csv").open("rb") as stream:
    DAY = [item.tender for item in audit.tenders(stream) if isinstance(item, audit.Item)]
IN_TURN = itertools.cycle(DAY)
BARE_IN_TURN = itertools.cycle([tender.model_copy(update={"documents": None}) for tender in DAY])
PERSONAL = TENDERS["personal check"]
JSON = json.dumps(WIRE)
READ = cf.read(PERSONAL)
EXAMINED = cf.examine(READ, POLICY)
DECIDED = cf.decide(EXAMINED, POLICY)
ASSESSED = cf.assess(PERSONAL, POLICY)

WHOLE: dict[str, Callable[[], object]] = {
    "stdnum.us.rtn.is_valid": lambda: rtn.is_valid("071098973"),
    **{f"assess, {name}": lambda tender=tender: cf.assess(tender, POLICY) for name, tender in TENDERS.items()},
    "assess, demo day without documents": lambda: cf.assess(next(BARE_IN_TURN), POLICY),
    "assess, demo day": lambda: cf.assess(next(IN_TURN), POLICY),
}
PARTS: dict[str, Callable[[], object]] = {
    "read": lambda: cf.read(PERSONAL),
    "examine": lambda: cf.examine(READ, POLICY),
    "decide": lambda: cf.decide(EXAMINED, POLICY),
    "handle": lambda: cf.handle(DECIDED, READ, POLICY),
}
WIRES: dict[str, Callable[[], object]] = {
    "parse, from a mapping": lambda: cf.parse(WIRE),
    "parse, from JSON": lambda: cf.parse(JSON),
    "assess and wire form": lambda: cf.assess(PERSONAL, POLICY).model_dump(),
    "wire form": lambda: ASSESSED.model_dump(),
    "wire form as JSON": lambda: ASSESSED.model_dump_json(),
}
CALLS = WHOLE | PARTS | WIRES


def test_what_is_measured_is_a_whole_check() -> None:
    answers = [str(cf.assess(tender, POLICY).disposition) for tender in TENDERS.values()]
    assert answers == ["convert", "convert", "decline", "decline"]


@pytest.mark.parametrize("name", CALLS)
def test_one_call(benchmark: BenchmarkFixture, name: str) -> None:
    benchmark(CALLS[name])


def test_ratios(capsys: pytest.CaptureFixture[str]) -> None:
    """Microseconds a call, and how many calls of ``rtn.is_valid`` that is worth."""
    timers = {name: timeit.Timer(call, timer=time.process_time) for name, call in CALLS.items()}
    # Rounds go through all calls, so that a machine that slows down for a while slows all of them.
    times = len(DAY)
    rounds = [{name: timer.timeit(times) / times for name, timer in timers.items()} for _ in range(9)]
    best = {name: min(each[name] for each in rounds) for name in CALLS}
    one = best["stdnum.us.rtn.is_valid"]
    with capsys.disabled():
        print()
        for name, seconds in best.items():
            print(f"{name:36}{seconds * 1e6:8.2f} us {seconds / one:6.1f} x stdnum.us.rtn.is_valid")
