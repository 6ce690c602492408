"""One bad item stops nothing, one bad file among several neither, and no fault is passed over in silence."""

from __future__ import annotations

import json
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from clean_tender import CLEAN, patched

from checkface import assessment, audit
from checkface.audit.across import lane
from checkface.cli import main

SECRET = "45601122987654"
#: The second of three, over which every part of the program stumbles in turn.
CHECKS = [patched({"id": name}) for name in ("one", "bad", "two")]


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    lines = [json.dumps(check, ensure_ascii=False) for check in CHECKS]
    Path("day.jsonl").write_text("".join(f"{line}\n" for line in lines), encoding="utf-8")
    Path("day.json").write_text(f"[{','.join(lines)}]", encoding="utf-8")
    records = [audit.record(assessment.parse(check), assessment.assess(check)) for check in CHECKS]
    Path("record.jsonl").write_text("".join(f"{record}\n" for record in records), encoding="utf-8")


def stumbling(real: Callable[..., Any], is_bad: Callable[..., bool]) -> Callable[..., Any]:
    def stumble(*given: Any, **options: Any) -> Any:
        if is_bad(*given):
            raise IndexError(SECRET)
        return real(*given, **options)

    return stumble


def judging_fails(monkeypatch: pytest.MonkeyPatch, place: str) -> None:
    module = sys.modules[place]
    monkeypatch.setattr(module, "assess", stumbling(module.assess, lambda tender, *_: tender.id == "bad"))


def told_once(err: str, line: str) -> None:
    """The fault stands at its line, once, by its type and place; what it said of itself does not."""
    assert err.count("A fault in checkface itself, please report it: IndexError in stumble, line ") == 1
    assert f"{line}: skipped. A fault in checkface itself" in err
    assert SECRET not in err


OUTPUTS = ["out.csv", "out.jsonl", "out.parquet", "out.xlsx"]


@pytest.mark.parametrize("output", OUTPUTS)
def test_a_fault_of_judging_is_that_check_s_own(
    output: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    judging_fails(monkeypatch, "checkface.audit.run")
    assert main(["audit", "day.jsonl", "--output", output]) == 1
    err = capsys.readouterr().err
    told_once(err, "day.jsonl:2")
    assert "\n2 tenders: " in err
    assert "1 row skipped: no answer was given for it." in err
    if output == "out.csv":
        rows = Path(output).read_text().splitlines()[1:]
        assert [row.split(",")[:4] for row in rows][1] == ["day.jsonl", "2", "", "skipped"]
        assert len(rows) == 3


@pytest.mark.parametrize("output", ["out.jsonl", "out.csv"])
def test_a_fault_of_telling_stands_in_place_of_the_answer(
    output: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    of_bad = stumbling(assessment.Assessment.model_dump, lambda seen: seen.read.tender.id == "bad")
    monkeypatch.setattr(assessment.Assessment, "model_dump", of_bad)
    if output == "out.csv":
        own: Any = vars(assessment.Assessment)["id"]
        monkeypatch.setattr(
            assessment.Assessment, "id", property(stumbling(own.fget, lambda seen: seen.read.tender.id == "bad"))
        )
    assert main(["audit", "day.jsonl", "--output", output, "--quiet"]) == 1
    err = capsys.readouterr().err
    told_once(err, "day.jsonl:2")
    assert "2 tenders: " in err
    assert Path(output).read_text().count("IndexError in stumble") == 1
    assert len(Path(output).read_text().splitlines()) == 3 + (output == "out.csv")


def test_a_fault_in_holding_checks_together_is_told_behind_the_answer(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(lane, "held", stumbling(lane.held, lambda place, *_: place.id == "bad"))
    assert main(["audit", "day.jsonl", "--quiet"]) == 1
    err = capsys.readouterr().err
    told_once(err, "day.jsonl:2")
    assert "3 tenders: " in err


def test_a_fault_in_reading_ends_that_file_alone(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    from checkface.audit import source

    def is_bad(number: int, raw: bytes) -> bool:
        return b'"bad"' in raw

    monkeypatch.setattr(source, "_text", stumbling(source._text, is_bad))
    Path("other.jsonl").write_text(json.dumps(CLEAN), encoding="utf-8")
    assert main(["audit", "day.jsonl", "other.jsonl", "--quiet"]) == 1
    err = capsys.readouterr().err
    told_once(err, "day.jsonl")
    assert "2 tenders: " in err
    assert "1 file could not be read to the end." in err


@pytest.mark.parametrize(
    ("words", "place", "line"),
    [
        (["examine", "day.json"], "checkface.cli.examine", "day.json, 2"),
        (["examine", "--replay", "record.jsonl"], "checkface.audit.changes", "record.jsonl:2"),
        (["policy", "compare", "default", "default", "day.jsonl"], "checkface.audit.changes", "day.jsonl:2"),
    ],
)
def test_every_loop_goes_on(
    words: list[str], place: str, line: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["examine", "day.json"])  # what is loaded late is there
    capsys.readouterr()
    judging_fails(monkeypatch, place)
    assert main(words) == 1
    out, err = capsys.readouterr()
    told_once(err, line)
    assert "  two\n" in out if words[-1] == "day.json" else "2 judged" in err


def test_drawing_goes_on(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    from checkface import training

    monkeypatch.setattr(training, "draw", stumbling(training.draw, lambda tender, *_: tender.id == "bad"))
    assert main(["draw", "day.jsonl", "--folder", "drawn"]) == 1
    assert "day.jsonl:2: not drawn. A fault in checkface itself" in capsys.readouterr().err
    assert sorted(path.name for path in Path("drawn").iterdir()) == ["0001.svg", "0003.svg"]


BROKEN: dict[str, bytes] = {
    "half.jsonl": b'{"face": {}}\n\xff\n',
    "binary.csv": b"\x00\x01",
    "empty.csv": b"",
    "torn.parquet": b"PAR1....PAR1",
    "torn.xlsx": b"PK\x03\x04....",
    "other.csv": b"colour,shape\nred,round\n",
}


def test_a_bad_file_among_several_is_named_and_counted(capsys: pytest.CaptureFixture[str]) -> None:
    for name, content in BROKEN.items():
        Path(name).write_bytes(content)
    assert main(["audit", "none.csv", *BROKEN, ".", "day.jsonl", "--output", "out.csv", "--quiet"]) == 1
    err = capsys.readouterr().err
    for name in ("none.csv", *BROKEN, "."):
        assert err.count(f"\n{name}: skipped. ") + err.startswith(f"{name}: skipped. ") == 1
    assert "4 tenders: " in err
    assert "8 files could not be read to the end." in err
    rows = [row.split(",")[:4] for row in Path("out.csv").read_text().splitlines()]
    assert ["none.csv", "", "", "skipped"] in rows
    assert [row[0] for row in rows].count("day.jsonl") == 3


@pytest.mark.parametrize(
    "words", [["half.jsonl"], ["none.csv", "half.jsonl"], ["half.jsonl", "day.jsonl", "--total", "kept=1.00"]]
)
def test_files_that_are_all_needed_or_all_broken_end_the_run(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    Path("half.jsonl").write_bytes(BROKEN["half.jsonl"])
    Path("out.csv").write_text("earlier", encoding="utf-8")
    assert main(["audit", *words, "--output", "out.csv"]) == 2
    assert "checkface: half.jsonl: Line 2: Expected text in UTF-8" in capsys.readouterr().err
    assert Path("out.csv").read_text(encoding="utf-8") == "earlier"


@pytest.fixture(scope="module")
def long_day(tmp_path_factory: pytest.TempPathFactory) -> Path:
    day = tmp_path_factory.mktemp("long") / "day.jsonl"
    down = json.dumps(patched({"counter.network": "down"}))
    day.write_text(f"{down}\n" * 100_000, encoding="utf-8")
    return day


@pytest.mark.parametrize(
    ("output", "with_signal"),
    [*zip(OUTPUTS, (signal.SIGINT, signal.SIGHUP, signal.SIGTERM, signal.SIGINT), strict=True)],
)
def test_an_interrupt_leaves_the_earlier_output_and_says_what_was_done(
    output: str, with_signal: signal.Signals, long_day: Path
) -> None:
    Path(output).write_text("earlier", encoding="utf-8")
    command = [sys.executable, "-m", "checkface", "audit", str(long_day), "--output", output]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as run:
        assert run.stdout is not None
        run.stdout.readline()  # it is under way
        run.send_signal(with_signal)
        _, err = run.communicate()
    assert run.returncode == 130
    lines = err.splitlines()
    assert lines[0] == f"Interrupted in {long_day}. Until then:"
    assert int(lines[1].split()[0]) > 0
    assert lines[-2:] == [f"{output}: not written; the earlier file is as it was.", "checkface: Interrupted."]
    assert Path(output).read_text(encoding="utf-8") == "earlier"
    assert not list(Path().glob(".*.part"))


def test_a_hangup_that_was_set_aside_ends_nothing(long_day: Path) -> None:
    command = f"nohup {sys.executable} -m checkface audit {long_day} --output out.csv"
    with subprocess.Popen(command.split(), stdout=subprocess.PIPE, stderr=subprocess.PIPE) as run:
        assert run.stdout is not None
        run.stdout.readline()
        run.send_signal(signal.SIGHUP)
        run.stdout.readline()
        assert run.poll() is None
        run.kill()


def test_no_output_takes_the_place_of_the_ledger_or_its_key(capsys: pytest.CaptureFixture[str]) -> None:
    lane = ["--lane", "3", "--ledger", "till.ledger"]
    assert main(["till", "open", *lane, "--by", "114"]) == 0
    assert main(["till", "count", *lane, "--checks", "0", "--total", "0.00"]) == 0
    before = [Path(name).read_bytes() for name in ("till.ledger", "till.ledger.key")]
    for words in (
        ["history", "export", "--ledger", "till.ledger"], ["history", "show", "--ledger", "till.ledger"],
        ["till", "report", *lane], ["till", "close", *lane, "--by", "114"],
        ["examine", "day.json", "--ledger", "till.ledger"],
    ):  # fmt: skip
        for name in ("till.ledger", "till.ledger.key"):
            assert main([*words, "--output", name]) == 2
            assert "Expected another file to write than the one that is read." in capsys.readouterr().err
    assert [Path(name).read_bytes() for name in ("till.ledger", "till.ledger.key")] == before


def test_a_record_and_an_output_are_two_files(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["examine", "day.json", "--record", "new", "--output", "./new"]) == 2
    assert not Path("new").exists()
