"""What starting costs: the library and the command line as processes, against a bare Python on the same machine.

Run with ``pytest tests/benchmarks/bench_start.py --benchmark-enable``; the ratios of one run are printed, nothing is
asserted of time. The imports of what checkface depends on stand beside it, for they are the floor. Names of the package
are loaded when they are first asked for; so ``import checkface`` stands beside the import of one part and of all.
"""

from __future__ import annotations

import json
import subprocess
import sys
import time
from pathlib import Path

import pytest
from clean_tender import CLEAN
from pytest_benchmark.fixture import BenchmarkFixture

ROUNDS = 12
COMMANDS = {
    "python -c pass": ["-c", "pass"],
    "import pydantic": ["-c", "from pydantic import BaseModel, BeforeValidator, Field, PlainSerializer"],
    "import pydantic, cyclopts": ["-c", "import pydantic, cyclopts; pydantic.BaseModel; cyclopts.App"],
    "import checkface": ["-c", "import checkface"],
    "checkface.micr.read": ["-c", "import checkface; checkface.micr.read"],
    "checkface.assess": ["-c", "import checkface; checkface.assess"],
    "checkface --version": ["-m", "checkface", "--version"],
    "checkface --help": ["-m", "checkface", "--help"],
    "checkface examine tender.json": ["-m", "checkface", "examine", "tender.json"],
    "checkface read micr": ["-m", "checkface", "read", "micr", "T071098973T 45601122O 1043"],
}


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("tender.json").write_text(json.dumps(CLEAN), encoding="utf-8")


def _start(name: str) -> None:
    subprocess.run([sys.executable, *COMMANDS[name]], check=True, capture_output=True)


@pytest.mark.parametrize("name", COMMANDS)
def test_one_start(benchmark: BenchmarkFixture, name: str) -> None:
    benchmark.pedantic(_start, (name,), rounds=ROUNDS, warmup_rounds=1)


def test_ratios(capsys: pytest.CaptureFixture[str]) -> None:
    """Milliseconds of the fastest of several starts, in rounds through all commands."""
    best = dict.fromkeys(COMMANDS, float("inf"))
    for _ in range(ROUNDS):
        for name in COMMANDS:
            started = time.perf_counter()
            _start(name)
            best[name] = min(best[name], time.perf_counter() - started)
    bare = best["python -c pass"]
    with capsys.disabled():
        print()
        for name, seconds in best.items():
            print(f"{name:32}{seconds * 1e3:7.0f} ms {seconds / bare:6.1f} x bare python")
