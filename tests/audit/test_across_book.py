"""The rules for the auditor about themselves: names, authorities, forces, explanations, and that they say what they do."""

from __future__ import annotations

import re

import pytest

import checkface as cf
from checkface import authority, report
from checkface.audit import across
from checkface.audit.across import AuditRule
from checkface.audit.across.book import rule
from checkface.findings import Effect
from checkface.rules.registry import HEADINGS

RULES = across.rules()
by_id = pytest.mark.parametrize("entry", RULES, ids=lambda entry: entry.id)
#: Every id there has ever been; one is never used for anything else.
EVER = {
    "converted-though-barred", "kept-though-convertible", "taken-though-declined", "kept-check-missing",
    "converted-check-in-drawer", "returned-check-in-drawer", "drawer-amount-differs", "drawer-check-unexplained",
    "drawer-check-ambiguous", "same-item-twice", "same-item-converted-and-kept", "near-duplicate", "counterfeit-run",
    "layout-unlike-its-bank", "totals-disagree", "confirmed-unlike-the-others",
}  # fmt: skip


def test_ids() -> None:
    assert {entry.id for entry in RULES} == EVER
    assert not EVER & {entry.id for entry in cf.rules()}


@by_id
def test_a_rule_is_complete_and_plain(entry: AuditRule) -> None:
    assert tuple(entry.explanation) == ("title", *HEADINGS)
    assert all(text.endswith((".", "?")) for text in entry.explanation.values())
    assert entry.explanation["What it asks"].endswith("?")
    assert all(entry.needs)
    said = " ".join(entry.explanation.values()).lower()
    assert not re.search(r"\b(?:bad check|crook|criminal|deadbeat)\b", said)


@by_id
def test_effects_and_forces(entry: AuditRule) -> None:
    notes = {"kept-though-convertible", "layout-unlike-its-bank", "confirmed-unlike-the-others"}
    assert entry.effect is (Effect.NOTE if entry.id in notes else Effect.REFER)
    assert entry.lowest_effect is entry.effect
    assert all(map(authority.get, entry.authority))
    # Only what is printed of the network's rules is called the network's: that a check is converted once.
    network = {"converted-check-in-drawer", "same-item-converted-and-kept"}
    assert (entry.force == "network") == (entry.id in network)
    assert entry.force in {"network", "house", "practice"}


@by_id
def test_it_is_explained_like_a_rule_for_the_counter(entry: AuditRule) -> None:
    page = report.explain(entry)
    assert page.startswith(f"{entry.id}  {entry.effect}\n")
    assert "It changes the answer for no check." in page
    assert "A house may" not in page
    wire = report.entry(entry)
    assert wire["family"] == "audit"
    assert set(wire) == set(report.entry(cf.rules()[0]))


def test_they_are_a_family_of_their_own_in_the_handout() -> None:
    page = report.handout((*cf.rules(), *RULES), "d")
    assert f"{len(cf.rules())} rules for a check at the counter" in page
    assert f"Another {len(RULES)} are for the audit of a day or a month, and change no answer." in page
    assert "for the audit of a day" not in report.handout(cf.rules(), "d")


def test_a_name_is_given_once() -> None:
    with pytest.raises(ValueError, match="a second time"):
        rule("same-item-twice", Effect.REFER, by="common-practice", needs="x")(lambda: None)
