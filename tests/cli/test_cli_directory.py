"""Sessions with ``--directory``: the routing numbers a house knows to be in use."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from clean_tender import CLEAN

import checkface as cf
from checkface.cli import main
from checkface.cli.options import with_directory

HEADING = "number,name,state,status,successor\n"
OTHER = "011394776,Specimen Bank,MA,active,\n"
OURS = "071098973,Specimen Savings Bank,IL,active,\n"
NAMED = ["--policy", "house.toml"]
FOUND = "The routing number is not in the house's directory."


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, named: Path) -> None:
    monkeypatch.chdir(tmp_path)
    Path("tender.json").write_text(json.dumps(CLEAN), encoding="utf-8")
    Path("day.jsonl").write_text(json.dumps(CLEAN) + "\n", encoding="utf-8")


def give(rows: str) -> str:
    Path("known.csv").write_text(HEADING + rows, encoding="utf-8")
    return "known.csv"


@pytest.mark.parametrize(
    ("rows", "answer"),
    [
        (OURS, "convert"),
        (OTHER, "refer"),
        (OTHER + OURS, "convert"),
        (OTHER + OURS.replace("active", "merged"), "convert"),
        (OTHER + OURS.replace("active", "retired"), "refer"),
    ],
)
def test_one_check(rows: str, answer: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["examine", "tender.json", "--directory", give(rows), "--format", "json", *NAMED]) == 0
    out, err = capsys.readouterr()
    got = json.loads(out)
    assert (got["disposition"], err) == (answer, "")
    assert ("routing-not-in-directory" in {finding["rule"] for finding in got["findings"]}) is (answer == "refer")


def test_a_day(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["audit", "day.jsonl", "--directory", give(OTHER), *NAMED]) == 0
    out, err = capsys.readouterr()
    assert out == f"day.jsonl:1  0001  refer    routing-not-in-directory  {FOUND}\n"
    assert err.startswith("1 tender: 0 convert, 0 keep, 1 refer, 0 decline.\n")


@pytest.mark.parametrize("command", [["audit", "day.jsonl"], ["examine", "tender.json"]])
def test_rows_that_cannot_be_read_are_named_and_never_silent(
    command: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    broken = give(OURS + "12,,,,\n" + OURS + "011394776,\x1b[2J,XX,active,\n")
    assert main([*command, "--directory", broken]) == 1
    err = capsys.readouterr().err.splitlines()
    assert err[:3] == [
        "known.csv:3: skipped. Expected nine digits, read 2 digits.",
        "known.csv:4: skipped. Expected each number once, read 071098973 again.",
        "known.csv:5: skipped. Expected the two letters of a state, read 'XX'.",
    ]


def test_what_is_judged_again_is_held_against_it_too(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["examine", "tender.json", "--record", "taken.jsonl", *NAMED]) == 0
    capsys.readouterr()
    assert main(["examine", "--replay", "taken.jsonl", "--directory", give(OTHER), *NAMED]) == 0
    assert capsys.readouterr().out == "line 1  0001  convert -> refer  now routing-not-in-directory (refer)\n"
    assert main(["examine", "--replay", "taken.jsonl", "--directory", give(OTHER + "12,,,,\n"), *NAMED]) == 1


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (None, "known.csv: Expected a directory to read, read: No such file or directory."),
        (b"number\n\xff\n", "known.csv: Expected a directory in UTF-8, read other bytes."),
        (b"", "known.csv: Expected routing numbers in use, read none."),
        (b"number,status\n071098973,retired\n", "known.csv: Expected routing numbers in use, read none."),
    ],
)
@pytest.mark.parametrize("command", [["audit", "day.jsonl"], ["examine", "tender.json"]])
def test_a_directory_that_would_ask_nothing_is_refused(
    command: list[str], content: bytes | None, sentence: str, capsys: pytest.CaptureFixture[str]
) -> None:
    if content is not None:
        Path("known.csv").write_bytes(content)
    assert main([*command, "--directory", "known.csv"]) == 2
    assert capsys.readouterr() == ("", f"checkface: {sentence}\n")


def test_a_heading_that_is_none(capsys: pytest.CaptureFixture[str]) -> None:
    Path("known.csv").write_text("Bank;Number of it\nx;071098973\n", encoding="utf-8")
    assert main(["audit", "day.jsonl", "--directory", "known.csv"]) == 2
    assert capsys.readouterr().err == (
        "known.csv:1: skipped. Expected a heading with number, name, state, status, successor, "
        "read bank, number of it.\n"
        "checkface: known.csv: Expected routing numbers in use, read none.\n"
    )


@pytest.mark.parametrize(
    "command", [["audit", "day.jsonl", "--output"], ["examine", "tender.json", "--output"],
                ["examine", "tender.json", "--record"], ["examine", "--replay", "day.jsonl", "--output"]]
)  # fmt: skip
def test_neither_it_nor_the_policy_is_written_over(command: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    Path("known.csv").write_text(HEADING + OURS, encoding="utf-8")
    Path("house.csv").write_text('name = "Quillfeather"\n', encoding="utf-8")
    for place in ("known.csv", "house.csv"):
        before = Path(place).read_bytes()
        assert main([*command, place, "--directory", "known.csv", "--policy", "house.csv"]) == 2
        assert "Expected another file to write than the one that is read." in capsys.readouterr().err
        assert Path(place).read_bytes() == before


def test_the_rest_of_the_policy_stands() -> None:
    text = (
        'state = "IL"\n[routing]\ndirectory = ["111000025"]\n'
        '[routing.layouts.071098973]\nserial = "last 4"\n[limits]\nhouse = "40.00"\n'
        '[effects]\nnetwork-down = "refer"\n[states.IL.dates]\nstale_days = 100\n'
    )
    house = cf.Policy.parse(text)
    digest = house.digest
    assert house.routing.numbers == {"111000025"}
    known, skipped = with_directory(house, Path(give(OURS)))
    assert skipped == 0
    assert known.digest != digest
    assert known.routing.numbers == {"111000025", "071098973"}
    assert known.at("7").routing.numbers == known.routing.numbers
    assert known.at("7").dates.stale_days == 100
    expected = house.model_dump(mode="json") | {
        "routing": house.routing.model_dump(mode="json") | {"directory": ["071098973", "111000025"]}
    }
    assert known.model_dump(mode="json") == expected
