"""The book about itself: names, authorities, explanations, forces, and ids that are never used for anything else."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import checkface as cf
from checkface import authority
from checkface.findings import Effect
from checkface.reading import NEEDS
from checkface.rules.registry import HEADINGS, parse_explanation, rule

#: Every id the book has ever used, in alphabetical order. An id leaves the book only to ``retired`` below.
EVER = (Path(__file__).parent / "rule-ids.txt").read_text(encoding="utf-8").split()
RETIRED: frozenset[str] = frozenset()
RULES = cf.rules()
by_id = pytest.mark.parametrize("entry", RULES, ids=lambda entry: entry.id)


def test_ids_are_never_reused() -> None:
    assert sorted(EVER) == EVER
    assert {entry.id for entry in RULES} == set(EVER) - RETIRED


@by_id
def test_an_id_is_the_name_of_a_fault(entry: cf.Rule) -> None:
    assert re.fullmatch(r"[a-z]+(-[a-z]+)*", entry.id)
    assert len(entry.id) <= 40


@by_id
def test_authorities_and_needs_exist(entry: cf.Rule) -> None:
    assert entry.authority
    assert all(authority.get(name) for name in entry.authority)
    assert all(need in NEEDS for need in entry.needs)


@by_id
def test_the_explanation_is_complete_and_plain(entry: cf.Rule) -> None:
    assert tuple(entry.explanation) == ("title", *HEADINGS)
    assert all(text.endswith((".", "?", ".)")) for text in entry.explanation.values()), entry.explanation
    assert entry.explanation["What it asks"].count("?") >= 1
    said = " ".join(entry.explanation.values()).lower()
    assert not re.search(r"\b(?:bad check|crook|criminal|deadbeat)\b", said)


@by_id
def test_no_house_can_make_a_law_or_network_rule_milder(entry: cf.Rule) -> None:
    if entry.force in ("law", "network", "standard") and entry.floor is None:
        assert entry.lowest_effect == entry.effect
    assert entry.lowest_effect <= entry.effect


@by_id
def test_a_bar_to_conversion_cannot_be_lowered_away(entry: cf.Rule) -> None:
    # What the network bars stays barred, whatever a policy says.
    if entry.force == "network" and entry.effect >= Effect.KEEP:
        assert entry.lowest_effect >= Effect.KEEP


@by_id
def test_a_rule_that_rests_on_memory_alone_only_makes_stricter(entry: cf.Rule) -> None:
    # Every finding raises or leaves the disposition, so a rule of any basis can only make an answer stricter; what must
    # not happen is that memory alone lets nobody lower a rule.
    if {authority.get(name).basis for name in entry.authority} == {"memory"}:
        assert entry.force in authority.LOWERABLE


def test_every_authority_is_used_or_cited_in_instructions() -> None:
    cited = {name for entry in RULES for name in entry.authority}
    rest = set(authority.catalogue()) - cited
    data = Path(authority.__file__).parent.parent / "data"
    elsewhere = "".join(path.read_text(encoding="utf-8") for path in data.glob("*.toml") if path.stem != "authorities")
    assert {name for name in rest if f'"{name}"' not in elsewhere} == set()


@pytest.mark.parametrize(
    ("arguments", "docstring", "message"),
    [
        (("network-down", Effect.KEEP), "x", "Expected a new rule id, read 'network-down' a second time."),
        (
            ("made-up", Effect.KEEP),
            "A fault.\n\nWhat it asks: Is it?",
            "Rule made-up: expected a title and the headings ",
        ),
    ],
)
def test_registration_refuses(arguments: tuple[str, Effect], docstring: str, message: str) -> None:
    def ask(network: str) -> None:
        return None

    ask.__doc__ = docstring
    with pytest.raises(ValueError, match=re.escape(message)):
        rule(*arguments, by="common-practice")(ask)


def test_explanations_are_parsed_by_heading() -> None:
    text = "A fault.\n\nWhat it asks: One\n two?\nWhy it matters: Three.\nExample: Four.\nWhat to do: Five."
    assert parse_explanation("x", text) == {
        "title": "A fault.",
        "What it asks": "One two?",
        "Why it matters": "Three.",
        "Example": "Four.",
        "What to do": "Five.",
    }
