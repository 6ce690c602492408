"""``checkface lesson``: on paper, at the terminal, and marked."""

from __future__ import annotations

import io
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from checkface.cli import main
from checkface.training import lesson, lessons, make


def test_all_lessons_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["lesson"]) == 0
    listed = capsys.readouterr().out
    assert [line.split()[0] for line in listed.splitlines()[: len(lessons())]] == list(lessons())


def test_the_checks_and_apart_from_them_the_key(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["lesson", "dates", "--seed", "7", "--count", "4"]) == 0
    checks = capsys.readouterr().out
    assert checks.count("Convert, keep, refer or decline - and why?") == 4
    assert "date-stale" not in checks
    assert main(["lesson", "dates", "--seed", "7", "--count", "4", "--answers"]) == 0
    key = capsys.readouterr().out
    dispositions = [str(item.judged().disposition).upper() for item in make(lesson("dates"), 7, 4).items]
    numbered = [line.split() for line in key.splitlines() if line[:1].isdigit()]
    assert numbered == [[f"{number}.", answer] for number, answer in enumerate(dispositions, 1)]


def test_the_same_seed_the_same_bytes(tmp_path: Path) -> None:
    pages = []
    for name in ("one.html", "two.html"):
        assert main(["lesson", "mixed", "--seed", "3", "--count", "6", "--html", str(tmp_path / name)]) == 0
        pages.append((tmp_path / name).read_bytes())
    assert pages[0] == pages[1]
    assert pages[0].count(b"<svg") >= 6


def piped(monkeypatch: pytest.MonkeyPatch, text: str) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO(text))


def test_a_quiz_through_a_pipe(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    right = [str(item.judged().disposition) for item in make(lesson("amounts"), 5, 3).items]
    piped(monkeypatch, "\n".join(right) + "\n")
    assert main(["lesson", "amounts", "--seed", "5", "--count", "3", "--quiz"]) == 0
    out = capsys.readouterr().out
    assert f"answer> {right[0]}\n" in out
    assert out.endswith("Right: 3 of 3 answered.\n")


def test_a_quiz_that_is_cut_short(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    piped(monkeypatch, "keep\n")
    assert main(["lesson", "places", "--quiz"]) == 0
    assert "of 1 answered." in capsys.readouterr().out


def test_a_quiz_that_is_interrupted() -> None:
    command = [
        sys.executable,
        "-c",
        "from checkface.cli import main; raise SystemExit(main())",
        "lesson",
        "places",
        "--quiz",
    ]
    environment = {**os.environ, "PYTHONUNBUFFERED": "1"}
    with subprocess.Popen(
        command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=environment, text=True
    ) as process:
        assert process.stdout is not None
        while process.stdout.read(1) != ">":  # of the prompt
            pass
        time.sleep(0.2)
        process.send_signal(signal.SIGINT)
        assert process.stderr is not None
        assert process.stderr.read() == "checkface: Interrupted.\n"
        assert process.wait(timeout=20) == 130


def test_answers_are_marked(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    sheet = tmp_path / "ada.csv"
    items = make(lesson("kinds"), 2, 5).items
    rows = "".join(f"{item.number},{item.judged().disposition}\n" for item in items[:4])
    sheet.write_text(f"number,answer\n{rows}", encoding="utf-8")
    assert main(["lesson", "kinds", "--seed", "2", "--count", "5", "--grade", str(sheet)]) == 0
    out = capsys.readouterr().out
    assert out.startswith("Right: 4 of 5.\nNot answered: 1.\n")
    assert "right answer" in out


def test_a_policy_decides_the_answers(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    house = tmp_path / "house.toml"
    house.write_text("[conversion]\noffered = false\n", encoding="utf-8")
    assert main(["lesson", "places", "--count", "20", "--answers", "--policy", str(house)]) == 0
    assert "CONVERT" not in capsys.readouterr().out


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["datse"], "Expected the name of a lesson, read 'datse'; the nearest is dates."),
        (["dates", "--count", "0"], "Expected 1 to 500 checks, read 0."),
        (["dates", "--quiz", "--answers"], "Expected one of --answers, --html, --quiz and --grade, read several."),
        (["--quiz"], f"Expected a lesson, one of {', '.join(lessons())}, read none."),
        (["dates", "--html", "a", "--output", "b"], "Expected --html or --output, read both."),
        (["dates", "--grade", "none.csv"], "none.csv: Expected a file to read, read: No such file or directory."),
        (["dates", "--seed", "x"], "Expected another value after --seed, read something else. See checkface lesson --help."),
    ],
)  # fmt: skip
def test_one_sentence(words: list[str], sentence: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["lesson", *words]) == 2
    assert capsys.readouterr() == ("", f"checkface: {sentence}\n")


def test_a_file_of_answers_that_is_none(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    sheet = tmp_path / "ada.csv"
    sheet.write_text("number,answer\n1,possibly\n", encoding="utf-8")
    assert main(["lesson", "dates", "--grade", str(sheet)]) == 2
    wanted = f"checkface: {sheet}: Line 2: Expected convert, keep, refer or decline, read something else.\n"
    assert capsys.readouterr() == ("", wanted)
    sheet.write_bytes(b"\xff\xfe\x00")
    assert main(["lesson", "dates", "--grade", str(sheet)]) == 2
    assert capsys.readouterr().err == f"checkface: {sheet}: Expected answers in UTF-8, read other bytes.\n"
