"""The demo day holds the audit to its truth: everything planted is found, and nothing else."""

from __future__ import annotations

import csv
from collections import Counter
from pathlib import Path

import pytest
from invented import Day
from make_day import build, files
from natural import naturally

from checkface import audit
from checkface.cli import main
from checkface.policy import Policy

DEMO = Path(__file__).parents[2] / "data" / "demo"
HOUSE = Policy.parse((DEMO / "house.toml").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def truth() -> dict[str, set[str]]:
    found: dict[str, set[str]] = {}
    with (DEMO / "saturday-truth.csv").open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            found.setdefault(row["id"], set()).add(row["rule"])
    return found


def test_the_audit_finds_exactly_the_truth(truth: dict[str, set[str]]) -> None:
    wrong = []
    with (DEMO / "saturday.csv").open("rb") as file:
        for result in audit.run(audit.tenders(file), HOUSE):
            assert isinstance(result, audit.Assessed), result
            found = {finding.rule for finding in result.assessment.findings}
            wanted = truth.get(result.assessment.id, set())
            if found != wanted:
                wrong.append((result.assessment.id, sorted(found - wanted), sorted(wanted - found)))
    assert wrong == []


def test_the_day_is_as_large_and_as_various_as_promised() -> None:
    day = build()
    planted = [(row["id"], rule) for row, rule, why in day.truth if why == "planted"]
    assert len(day.rows) >= 600
    assert len({tender for tender, _ in planted}) >= 60
    assert len({rule for _, rule in planted}) >= 35
    assert Counter(row["counter.declared_kind"] for row in day.rows)["personal"] >= 300


def test_the_answers_are_those_that_were_planned() -> None:
    plan = {row["id"]: row["answer"].partition(",")[0] for row in build().rows}
    with (DEMO / "saturday.csv").open("rb") as file:
        results = list(audit.run(audit.tenders(file), HOUSE))
    assert {one.assessment.id: one.assessment.disposition for one in results if isinstance(one, audit.Assessed)} == plan


def test_the_committed_files_are_what_the_maker_makes() -> None:
    made = files(build())
    assert sorted([*made, "house.toml", "swapped.json", "tender.json"]) == sorted(path.name for path in DEMO.iterdir())
    for name, content in made.items():
        assert (DEMO / name).read_bytes().decode() == content, name


def test_there_are_many_natural_rows_and_most_convert() -> None:
    day = Day(1)
    naturally(day)
    answers = Counter(row["answer"].partition(",")[0] for row in day.rows)
    assert len(day.rows) >= 150
    assert answers["convert"] > 140
    assert answers["refer"] >= 25
    assert "decline" not in answers


def test_what_the_clerk_was_asked_is_still_told_after_the_answer() -> None:
    with (DEMO / "saturday.csv").open(encoding="utf-8", newline="") as file:
        answered = {row["id"]: row["counter.confirmed"] for row in csv.DictReader(file) if row["counter.confirmed"]}
    assert set(answered.values()) >= {"payee-near-house", "drawer-differs-from-id", "drawer-unclear"}
    with (DEMO / "saturday.csv").open("rb") as file:
        for result in audit.run(audit.tenders(file), HOUSE):
            assert isinstance(result, audit.Assessed)
            if rule := answered.get(result.assessment.id):
                assert result.assessment.disposition == "convert"
                assert [f.effect for f in result.assessment.findings if f.rule == rule] == ["note"]


def test_the_house_file_is_what_init_writes(capsys: pytest.CaptureFixture[str]) -> None:
    words = ["--name", "Quillfeather Grocery", "--name", "Quillfeather", "--state", "IL"]
    assert main(["policy", "init", "--yes", *words]) == 0
    assert capsys.readouterr().out == (DEMO / "house.toml").read_text(encoding="utf-8")
