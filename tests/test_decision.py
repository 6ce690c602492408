"""The lattice, its reasons and what would change it."""

from __future__ import annotations

from itertools import combinations
from typing import Any

import pytest
from clean_tender import house, patched
from hypothesis import given
from hypothesis import strategies as st

import checkface as cf
from checkface.decision import Decision, decide
from checkface.findings import Disposition, Effect, Finding, Remedy, disposition_of
from checkface.rules import PILLARS, Examination

HOUSE = house()


def examination(findings: tuple[Finding, ...] = (), patch: dict[str, Any] | None = None) -> Examination:
    """What the book might say of the clean tender with *patch*, whatever it really says."""
    return Examination(findings, {}, cf.read(cf.parse(patched(patch or {}))), HOUSE)


def finding(effect: Effect, remedy: Remedy = Remedy.REREAD, rule: str = "r") -> Finding:
    return Finding(rule, effect, f"Expected {effect}.", (), ("common-practice",), remedy)


def decision(*findings: Finding) -> Decision:
    return decide(examination(findings), HOUSE)


@pytest.mark.parametrize(
    ("effects", "disposition"),
    [
        ([], "convert"),
        ([Effect.NOTE], "convert"),
        ([Effect.NOTE, Effect.KEEP], "keep"),
        ([Effect.REFER, Effect.KEEP], "refer"),
        ([Effect.DECLINE, Effect.REFER, Effect.NOTE], "decline"),
    ],
)
def test_the_highest_effect_decides(effects: list[Effect], disposition: str) -> None:
    assert disposition_of(effects) == disposition


def test_effects_and_dispositions_are_ordered_by_strictness_not_by_letters() -> None:
    assert sorted(Effect) == list(Effect)
    assert sorted(Disposition) == list(Disposition)
    assert Effect.DECLINE > Effect.KEEP
    assert not Effect.NOTE >= Effect.KEEP


def test_one_more_finding_never_betters() -> None:
    effects = [Effect.NOTE, Effect.KEEP, Effect.REFER, Effect.DECLINE]
    for size in range(4):
        for chosen in combinations(effects, size):
            for more in effects:
                assert disposition_of([*chosen, more]) >= disposition_of(chosen)


#: Each of the twelve pillars, and a reading that leaves it unseen or lets it say no.
UNEARNED: dict[str, dict[str, Any]] = {
    "line": {"face.micr": ""}, "capture": {"counter.micr_by": "keyed"}, "payee": {"face.payee": "(absent)"},
    "drawer": {"face.drawer": ["Ada Sample, Trustee"]}, "drawee": {"face.drawee": ""},
    "identification": {"documents": "(absent)"}, "wording": {"face.legends": "(null)"},
    "amount": {"counter.amount": "(absent)", "face.words": "", "face.figures": ""}, "date": {"face.date": "soon"},
    "signature": {"face.signature": False}, "authorization": {"counter.authorization_signed": False},
    "network": {"counter.network": "(absent)"},
}  # fmt: skip


@pytest.mark.parametrize("pillar", UNEARNED)
def test_nothing_converts_that_is_not_earned_whatever_the_rules_have_found(pillar: str) -> None:
    # No finding at all, as if every rule had been forgotten: the door is closed all the same.
    kept = decide(examination((), UNEARNED[pillar]), HOUSE)
    assert kept.disposition == "keep"
    start = "Keep in the till, do not convert: Not everything it must rest on is in order: "
    what = {one.name: one.what for one in PILLARS}[pillar]
    assert kept.for_house.startswith(start)
    assert what in kept.for_house.removeprefix(start).removesuffix(".").split(", ")
    assert kept.would_change == ()
    assert pillar not in {rest.pillar for rest in kept.rests_on}
    assert decide(examination(), HOUSE).disposition == "convert"
    assert [rest.pillar for rest in decide(examination(), HOUSE).rests_on] == list(UNEARNED)


def test_because_is_strictest_first_and_leaves_notes_out() -> None:
    got = decision(finding(Effect.NOTE), finding(Effect.KEEP), finding(Effect.DECLINE), finding(Effect.KEEP))
    assert [f.effect for f in got.because] == ["decline", "keep", "keep"]


def test_would_change_names_the_smallest_cures_for_each_reachable_disposition() -> None:
    keep, refer, decline = finding(Effect.KEEP), finding(Effect.REFER), finding(Effect.DECLINE)
    changes = decision(keep, refer, decline).would_change
    assert [(c.disposition, c.cures) for c in changes] == [
        ("refer", (decline,)),
        ("keep", (decline, refer)),
        ("convert", (decline, refer, keep)),
    ]


def test_a_cure_that_reaches_further_is_listed_for_the_better_disposition_only() -> None:
    decline = finding(Effect.DECLINE)
    assert [(c.disposition, c.cures) for c in decision(decline).would_change] == [("convert", (decline,))]


def test_what_no_remedy_cures_is_not_curable() -> None:
    got = decision(finding(Effect.KEEP, Remedy.NONE), finding(Effect.DECLINE, Remedy.SIGN))
    assert [(c.disposition, c.curable) for c in got.would_change] == [("keep", True), ("convert", False)]


def test_nothing_would_change_a_conversion() -> None:
    assert decision(finding(Effect.NOTE)).would_change == ()


def test_a_conversion_says_how_much_of_it_rests_on_the_clerk_s_eyes() -> None:
    assert cf.assess(patched({}), HOUSE).decision.for_house.startswith(
        "Convert: all 12 things it rests on are in order, 8 of them by the clerk's eyes."
    )


def test_curing_what_is_listed_really_changes_the_answer() -> None:
    spoilt = cf.assess(patched({"face.signature": False, "counter.network": "down"}))
    assert spoilt.disposition == "decline"
    cures = {f.rule for f in spoilt.decision.would_change[0].cures}
    assert cures == {"signature-missing"}
    assert cf.assess(patched({"counter.network": "down"})).disposition == spoilt.decision.would_change[0].disposition


def test_the_customer_hears_no_reason_and_the_house_hears_all() -> None:
    got = cf.assess(patched({"face.words": "Fifty-four and 10/100"})).decision
    assert got.for_customer == "We cannot take this check as it is. May we ask for another form of payment?"
    assert got.for_house.startswith("Decline and hand back: Words say $54.10, the box $45.10: two digits are swapped.")


@pytest.mark.parametrize("word", ["bad", "forged", "fraud", "fake", "funds", "police", "stolen"])
def test_no_sentence_for_the_customer_accuses(word: str) -> None:
    for patch in ({}, {"counter.network": "down"}, {"face.alterations": True}, {"face.signature": False}):
        assert word not in cf.assess(patched(patch)).decision.for_customer.lower()


@given(st.sets(st.sampled_from(sorted(UNEARNED))))
def test_a_check_converts_if_and_only_if_every_pillar_stands(missing: set[str]) -> None:
    patch = {path: value for pillar in missing for path, value in UNEARNED[pillar].items()}
    assert (cf.assess(patched(patch), HOUSE).disposition == "convert") == (not missing)
