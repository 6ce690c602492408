"""The command line as a process: how it starts, what it imports, and how it ends."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from clean_tender import CLEAN, patched

COMMAND = [sys.executable, "-m", "checkface"]


@pytest.fixture
def tender(tmp_path: Path) -> Path:
    path = tmp_path / "tender.json"
    path.write_text(json.dumps(patched({"counter.network": "down"}), ensure_ascii=False), encoding="utf-8")
    return path


def test_it_runs(tender: Path, named: Path) -> None:
    words = ["examine", str(tender), "--policy", str(named)]
    done = subprocess.run([*COMMAND, *words], capture_output=True, encoding="utf-8", check=False)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("KEEP  0001\n")
    assert "\x1b" not in done.stdout


def test_a_stream_without_the_symbols_of_the_line_ends_no_run(tender: Path) -> None:
    tender.write_text(json.dumps(patched({"face.micr": "⑈1⑈ ⑆071098973⑆ 45601122⑈"})), encoding="utf-8")
    done = subprocess.run(
        [*COMMAND, "examine", str(tender)],
        capture_output=True,
        encoding="ascii",
        check=False,
        env=os.environ | {"PYTHONIOENCODING": "ascii"},
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert "\\u2446071098973\\u2446" in done.stdout


def test_examine_imports_only_what_it_needs(tender: Path) -> None:
    script = (
        "import sys; from checkface.cli import main; main(['examine', sys.argv[1]]);"
        "print(*sorted({name.partition('.')[0] for name in sys.modules}), file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", script, str(tender)], capture_output=True, text=True, check=True)
    loaded = set(done.stderr.split())
    assert {"checkface", "pydantic", "cyclopts", "stdnum"} <= loaded
    assert not loaded & {"pyarrow", "duckdb", "sqlalchemy", "psycopg", "fastapi", "PIL", "zxingcpp", "rich", "asyncio"}


@pytest.mark.parametrize(
    ("closed", "words", "code", "told"),
    [
        (">&-", "examine tender.json", 2, "checkface: Expected somewhere to write to, read a closed stdout.\n"),
        (">&-", "rules", 2, "checkface: Expected somewhere to write to, read a closed stdout.\n"),
        ("<&-", "examine", 2, "checkface: stdin: Expected a tender as JSON, read nothing.\n"),
        ("2>&-", "examine tender.json", 0, ""),
        ("2>&-", "audit tender.csv", 1, ""),
    ],
)
def test_a_stream_that_was_closed_is_no_fault(tender: Path, closed: str, words: str, code: int, told: str) -> None:
    tender.with_suffix(".csv").write_text("id,face.micr\n1\n", encoding="utf-8")
    line = f"{sys.executable} -m checkface {words} {closed}"
    done = subprocess.run(["sh", "-c", line], cwd=tender.parent, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (code, told)


def test_a_reader_that_has_gone_away_is_no_noise(tmp_path: Path) -> None:
    day = tmp_path / "day.jsonl"
    line = json.dumps(patched({"counter.network": "down"}))
    day.write_text(f"{line}\n" * 3000, encoding="utf-8")
    with subprocess.Popen([*COMMAND, "audit", str(day)], stdout=subprocess.PIPE, stderr=subprocess.PIPE) as run:
        assert run.stdout is not None
        assert run.stderr is not None
        run.stdout.readline()
        run.stdout.close()
        noise = run.stderr.read()
        assert run.wait() == 2
    assert noise == b""


def test_an_interrupt_ends_with_130(tmp_path: Path) -> None:
    day = tmp_path / "day.jsonl"
    found = json.dumps(patched({"counter.network": "down"}))
    day.write_text(f"{found}\n" * 300 + f"{json.dumps(CLEAN)}\n" * 100_000, encoding="utf-8")
    with subprocess.Popen([*COMMAND, "audit", str(day)], stdout=subprocess.PIPE, stderr=subprocess.PIPE) as run:
        assert run.stdout is not None
        run.stdout.readline()  # it is under way
        run.send_signal(signal.SIGINT)
        _, told = run.communicate()
    assert run.returncode == 130
    assert told.startswith(b"Interrupted in ")
    assert told.endswith(b"\ncheckface: Interrupted.\n")


@pytest.mark.parametrize("setting", [{}, {"NO_COLOR": "1"}, {"TERM": "dumb"}], ids=["colours", "NO_COLOR", "dumb"])
def test_colours_are_for_terminals_that_want_them(setting: dict[str, str], tender: Path, named: Path) -> None:
    pty = pytest.importorskip("pty")
    master, slave = pty.openpty()
    environment = {key: value for key, value in os.environ.items() if key not in {"NO_COLOR", "TERM"}}
    words = ["examine", str(tender), "--policy", str(named)]
    run = subprocess.Popen(
        [*COMMAND, *words], stdout=slave, stderr=slave, env=environment | {"TERM": "xterm"} | setting
    )
    os.close(slave)
    shown = b""
    while True:
        try:
            piece = os.read(master, 4096)
        except OSError:
            break
        if not piece:
            break
        shown += piece
    os.close(master)
    assert run.wait() == 0
    assert b"KEEP" in shown
    assert (b"\x1b[1;33mKEEP\x1b[0m" in shown) is (setting == {})
