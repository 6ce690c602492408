"""Every rule of the book on its own fixtures: one tender where it holds, one where it finds, one where it cannot run."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from clean_tender import NAMED, patched

import checkface as cf
from checkface.findings import Outcome

FIXTURES = {
    identifier: fixture
    for path in sorted((Path(__file__).parent / "fixtures").glob("*.toml"))
    for identifier, fixture in tomllib.loads(path.read_text(encoding="utf-8")).items()
}
CASES = [
    (rule, state) for rule, fixture in FIXTURES.items() for state in ("held", "found", "unread") if state in fixture
]


def run(fixture: dict[str, Any], state: str) -> cf.Assessment:
    policy = cf.Policy.model_validate(NAMED | fixture.get("policy", {}))
    return cf.assess(patched(fixture[state]), policy)


@pytest.mark.parametrize(("rule", "state"), CASES, ids=lambda value: value)
def test_outcome(rule: str, state: str) -> None:
    assert run(FIXTURES[rule], state).examination.outcomes[rule] == Outcome(state)


@pytest.mark.parametrize("rule", [rule for rule, fixture in FIXTURES.items() if "message" in fixture])
def test_message_names_what_was_read(rule: str) -> None:
    found = [f.message for f in run(FIXTURES[rule], "found").findings if f.rule == rule]
    assert found == [FIXTURES[rule]["message"]]


@pytest.mark.parametrize("rule", FIXTURES)
def test_found_has_the_effect_of_the_book_or_the_stated_grade(rule: str) -> None:
    known = {entry.id: entry for entry in cf.rules()}[rule]
    found = [f.effect for f in run(FIXTURES[rule], "found").findings if f.rule == rule]
    assert set(found) == {FIXTURES[rule].get("effect", known.effect)}


def test_every_rule_that_asks_of_a_face_has_fixtures() -> None:
    # The records family is asked through an argument, the history, and has its own tests.
    asked = {entry.id: entry for entry in cf.rules() if entry.family != "records"}
    assert set(FIXTURES) == set(asked)
    assert all({"held", "found"} <= FIXTURES[rule].keys() for rule in asked)
    # A reading without a figure of confidence lacks nothing.
    looking = {rule for rule, entry in asked.items() if set(entry.needs) - {"confidence"}}
    assert all("unread" in FIXTURES[rule] for rule in looking)


LOWERED = [entry.id for entry in cf.rules() if entry.lowest_effect < entry.effect and entry.id in FIXTURES]


@pytest.mark.parametrize("rule", LOWERED)
def test_a_house_that_lowers_an_effect_is_obeyed(rule: str) -> None:
    known = {entry.id: entry for entry in cf.rules()}[rule]
    fixture = FIXTURES[rule]
    given = fixture.get("policy", {})
    changed = given | {"effects": given.get("effects", {}) | {rule: str(known.lowest_effect)}}
    found = [finding.effect for finding in run(fixture | {"policy": changed}, "found").findings if finding.rule == rule]
    assert found
    assert max(found) <= known.lowest_effect
