"""What the web adds to one assessment: requests through the whole application, without a network, against a bare one.

Run with ``pytest tests/benchmarks/bench_web.py --benchmark-enable -s``; the ratios of one run are printed, nothing is
asserted of time. The unit is ``assess`` with its wire form as JSON, which every answer of the API contains.
"""

from __future__ import annotations

import asyncio
import json
import time
import timeit
from collections.abc import Callable
from datetime import date
from typing import Any
from urllib.parse import urlencode

import pytest
from clean_tender import CLEAN
from pytest_benchmark.fixture import BenchmarkFixture

import checkface as cf
from checkface.web import application
from checkface.web.form import of_tender

APP = application(today=lambda: date(2026, 11, 25))
ONE = json.dumps(CLEAN).encode()
MANY = b"\n".join([ONE] * 10)
FORM = urlencode(of_tender(cf.parse(CLEAN))).encode()
LOOP = asyncio.new_event_loop()


#: Requests in one go: threads are made for the first and used again by the others, as in a server.
TIMES = 20


async def _ask(method: str, path: str, body: bytes, kind: str) -> int:
    """The status of one request to the application itself."""
    sent: list[Any] = []
    asked = iter([{"type": "http.request", "body": body, "more_body": False}])

    async def receive() -> Any:
        return next(asked, {"type": "http.disconnect"})

    async def send(message: Any) -> None:
        sent.append(message)

    scope = {
        "type": "http", "method": method, "path": path, "raw_path": path.encode(), "root_path": "", "scheme": "http",
        "query_string": b"", "http_version": "1.1", "asgi": {"version": "3.0", "spec_version": "2.4"},
        "headers": [(b"host", b"localhost"), (b"content-type", kind.encode())],
    }  # fmt: skip
    await APP(scope, receive, send)
    return int(sent[0]["status"])


def _asked(method: str, path: str, body: bytes = b"", kind: str = "application/json") -> set[int]:
    """The statuses of the same request several times over."""

    async def several() -> set[int]:
        return {await _ask(method, path, body, kind) for _ in range(TIMES)}

    return LOOP.run_until_complete(several())


def _bare() -> None:
    for _ in range(TIMES):
        cf.assess(cf.parse(ONE)).model_dump_json()


CALLS: dict[str, Callable[[], object]] = {
    "assess and wire form as JSON": _bare,
    "POST /v1/assess": lambda: _asked("POST", "/v1/assess", ONE),
    "POST /v1/assess/batch, 10 lines": lambda: _asked("POST", "/v1/assess/batch", MANY, "application/jsonl"),
    "GET /healthz": lambda: _asked("GET", "/healthz"),
    "GET /": lambda: _asked("GET", "/"),
    "POST /examine": lambda: _asked("POST", "/examine", FORM, "application/x-www-form-urlencoded"),
    "GET /rules": lambda: _asked("GET", "/rules"),
}


def test_what_is_measured_is_answered() -> None:
    assert [call() for name, call in CALLS.items() if name[0] in "GP"] == [{200}] * 6


@pytest.mark.parametrize("name", CALLS)
def test_one_call(benchmark: BenchmarkFixture, name: str) -> None:
    benchmark(CALLS[name])


def test_ratios(capsys: pytest.CaptureFixture[str]) -> None:
    """Milliseconds a call, and how many bare assessments that is worth."""
    timers = {name: timeit.Timer(call, timer=time.perf_counter) for name, call in CALLS.items()}
    rounds = [{name: timer.timeit(1) / TIMES for name, timer in timers.items()} for _ in range(7)]
    best = {name: min(each[name] for each in rounds) for name in CALLS}
    one = best["assess and wire form as JSON"]
    with capsys.disabled():
        print()
        for name, seconds in best.items():
            print(f"{name:36}{seconds * 1e3:8.2f} ms {seconds / one:6.1f} x assess and wire form as JSON")
