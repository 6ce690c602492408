"""The auditor's command on the demo day finds exactly what was planted for the evening, whatever it is asked."""

from __future__ import annotations

import csv
import json
import shlex
from collections import Counter
from pathlib import Path

import pytest
from make_day import build, command

from checkface.audit import across
from checkface.cli import main

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "data" / "demo"
LANE = {"converted-though-barred", "kept-though-convertible", "taken-though-declined", "confirmed-unlike-the-others"}


def rows(name: str) -> list[dict[str, str]]:
    with (DEMO / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def truth() -> Counter[tuple[str, str]]:
    return Counter((row["rule"], row["places"]) for row in rows("saturday-evening-truth.csv"))


def found(words: list[str], folder: Path, monkeypatch: pytest.MonkeyPatch) -> Counter[tuple[str, str]]:
    """What ``checkface`` with these *words*, run at the root, writes of the rules for the auditor."""
    monkeypatch.chdir(ROOT)
    output = folder / "found.jsonl"
    assert main([*words, "--quiet", "--output", str(output)]) == 0
    told = [json.loads(line) for line in output.read_text(encoding="utf-8").splitlines()]
    return Counter(
        (one["rule"], " | ".join(f"{Path(place['file']).name}:{place['line']}" for place in one["places"]))
        for one in (line["across"] for line in told if "across" in line)
    )


def test_the_auditors_command_finds_exactly_the_truth(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    words = shlex.split(command(build()))
    assert words[0] == "checkface"
    assert found(words[1:], tmp_path, monkeypatch) == truth()


def test_the_first_command_finds_only_what_the_lanes_did(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    of_the_lanes = Counter({fact: number for fact, number in truth().items() if fact[0] in LANE})
    assert sum(of_the_lanes.values()) == 14
    assert len({place for _, place in of_the_lanes}) == 13
    assert (
        found(["audit", "data/demo/saturday.csv", "--policy", "data/demo/house.toml"], tmp_path, monkeypatch)
        == of_the_lanes
    )


def test_every_rule_for_the_auditor_is_planted_but_the_one_that_cannot_tell() -> None:
    assert {rule for rule, _ in truth()} == set(across.RULES) - {"drawer-check-ambiguous"}


def test_one_check_explains_the_tape_and_it_lies_in_the_drawer(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(ROOT)
    assert main(shlex.split(command(build()))[1:]) == 0
    out = capsys.readouterr().out
    (tape,) = [line for line in out.splitlines() if "  totals-disagree  " in line]
    (place,) = [where for rule, where in truth() if rule == "totals-disagree"]
    assert "One check explains it: recorded as converted and declared here the $" in tape
    assert tape.endswith(f" of data/demo/{place} {int(place.partition(':')[2]) - 1:04d}.")
    assert any(rule == "converted-check-in-drawer" and f"{place} |" in where for rule, where in truth())


def test_as_many_papers_as_declared_and_yet_not_the_right_ones() -> None:
    kept = [row for row in rows("saturday.csv") if row["taken_as"] == "kept"]
    papers = rows("saturday-drawer.csv")
    assert f"kept={len(papers)}" in build().declared
    assert len(papers) == len(kept) + 1


def test_every_tender_says_what_the_lane_did() -> None:
    ways = Counter(row["taken_as"] for row in rows("saturday.csv"))
    assert set(ways) == {"converted", "kept", "returned"}
    assert min(ways.values()) > 30
