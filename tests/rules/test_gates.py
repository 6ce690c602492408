"""A gate asks once what several rules would each find: it says no more and no less than they would."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from clean_tender import patched
from hypothesis import given
from hypothesis import strategies as st

import checkface as cf
from checkface.findings import Outcome
from checkface.rules.registry import Case, Hit, Rule

GATED = [entry for entry in cf.rules() if entry.gate is not None]
PATCHES: list[dict[str, Any]] = [
    fixture[state]
    for path in sorted((Path(__file__).parent / "fixtures").glob("*.toml"))
    for fixture in tomllib.loads(path.read_text(encoding="utf-8")).values()
    for state in ("held", "found", "unread")
    if state in fixture
]
POLICY = cf.Policy()


def agrees(entry: Rule, case: Case) -> bool:
    """Whether the gate of *entry* leaves it to itself, or says what it would have said with all it needs."""
    assert entry.gate is not None
    said = entry.gate(case)
    if said is None or entry.mask & ~case.read.known:
        return True
    answer = entry.ask(case)
    if answer is None:
        return said is Outcome.HELD
    return answer is said if isinstance(answer, Outcome) else isinstance(answer, Hit | tuple) and said is Outcome.FOUND


def test_enough_is_gated() -> None:
    assert len({entry.gate for entry in GATED}) >= 9


@pytest.mark.parametrize("entry", [entry for entry in GATED if entry.family != "records"], ids=lambda entry: entry.id)
def test_no_gate_silences_a_rule(entry: Rule) -> None:
    for patch in PATCHES:
        assert agrees(entry, Case(cf.read(cf.parse(patched(patch))), POLICY, None)), patch


@given(st.lists(st.sampled_from(PATCHES), min_size=2, max_size=4))
def test_no_gate_silences_a_rule_where_several_things_are_wrong(patches: list[dict[str, Any]]) -> None:
    together: dict[str, Any] = {}
    for patch in patches:
        together |= patch
    case = Case(cf.read(cf.parse(patched(together))), POLICY, None)
    assert [entry.id for entry in GATED if entry.family != "records" and not agrees(entry, case)] == []
