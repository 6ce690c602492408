"""Every fault triggers the rule it names and nothing unrelated; every rule that can be shown is shown by some fault."""

from __future__ import annotations

import os
from typing import Any

import pytest

from checkface.assessment import assess, parse
from checkface.findings import Effect
from checkface.rules import rules
from checkface.training import admitted, drills, invented, specimens
from checkface.training.plants import PLANTS, UNSHOWN, Work

SEEDS = range(200 if os.environ.get("CHECKFACE_THOROUGH") else 12)
HOUSE = drills.training_house()


def planted(name: str, seed: int) -> tuple[set[str], Any]:
    plant = PLANTS[name]
    dice = invented.dice(f"{name} {seed}")
    wire = specimens.clean(plant.kind, dice, drills.training_day())
    plant.do(Work(wire, dice))
    documents = wire.pop("documents")
    tender = parse({**admitted(parse(wire), HOUSE).wire(), "documents": documents})
    found = assess(tender, HOUSE)
    return {finding.rule for finding in found.findings}, found


@pytest.mark.parametrize("name", PLANTS)
def test_a_fault_triggers_its_rule_and_nothing_unrelated(name: str) -> None:
    plant = PLANTS[name]
    for seed in SEEDS:
        found, _ = planted(name, seed)
        assert plant.rule in found, seed
        assert found <= {plant.rule} | plant.also, seed


@pytest.mark.parametrize("name", sorted(set(invented.papers()) - {"personal"}))
def test_sound_paper_of_another_kind_is_kept_or_for_a_manager(name: str) -> None:
    _, found = planted(f"paper-{name}", 1)
    expected = {"counter-check": "refer", "foreign-currency-check": "decline"}.get(name, "keep")
    assert found.disposition == expected


@pytest.mark.parametrize("seed", range(30))
def test_a_clean_personal_check_is_converted_without_a_word(seed: int) -> None:
    wire = specimens.clean("personal", invented.dice(seed), drills.training_day())
    found = assess(admitted(parse(wire), HOUSE), HOUSE)
    assert found.disposition == "convert"
    assert found.findings == ()


def test_every_rule_is_shown_by_some_fault_or_cannot_be_shown() -> None:
    shown = {plant.rule for plant in PLANTS.values()}
    book = {rule.id for rule in rules()}
    assert book - shown - set(UNSHOWN) == set()
    assert shown & set(UNSHOWN) == set()
    assert set(UNSHOWN) <= book
    assert all(reason.endswith(tuple("abcdefghijklmnopqrstuvwxyz")) for reason in UNSHOWN.values())


def test_what_comes_along_is_a_rule_too() -> None:
    book = {rule.id for rule in rules()}
    assert {rule for plant in PLANTS.values() for rule in plant.also} <= book


def test_faults_of_every_effect_are_planted() -> None:
    effects = {rule.id: rule.effect for rule in rules()}
    planted_effects = {effects[plant.rule] for plant in PLANTS.values()}
    assert planted_effects == set(Effect)
