"""A date whose figures can be taken in several orders: no proof of an age, and no excuse for one."""

from __future__ import annotations

from datetime import date

import pytest
from clean_tender import patched
from hypothesis import example, given
from hypothesis import strategies as st

import checkface as cf
from checkface.findings import Effect, Outcome
from checkface.policy import Policy

TREASURY = {"face.micr": "⑆000000518⑆ 45601122⑈ 1043", "counter.declared_kind": "treasury-check"}
AGES = ("date-stale", "date-in-future", "date-last-january", "treasury-past-year", "date-past-printed-limit")


def effects(patch: dict[str, object], policy: Policy | None = None) -> dict[str, tuple[Effect, str]]:
    found = cf.assess(patched(patch), policy or Policy()).findings
    return {finding.rule: (finding.effect, finding.message) for finding in found if finding.rule in AGES}


STALE = "more than six months ago"


@pytest.mark.parametrize(
    ("text", "on", "rule", "effect", "message"),
    [
        (
            "26/11/24", "2026-11-24", "date-stale", Effect.REFER,
            f"The date may be 11/26/2024, {STALE}, or 11/24/2026.",
        ),
        (
            "261124", "2026-11-24", "date-stale", Effect.REFER,
            f"The date may be 11/26/2024, {STALE}, or 11/24/2026.",
        ),
        (
            "24/11/26", "2026-11-24", "date-stale", Effect.REFER,
            f"The date may be 11/26/2024, {STALE}, or 11/24/2026.",
        ),
        (
            "05/11/2026", "2026-11-24", "date-stale", Effect.REFER,
            f"The date may be 05/11/2026, {STALE}, or 11/05/2026.",
        ),
        (
            "12/11/2026", "2026-11-24", "date-in-future", Effect.REFER,
            "The date may be 12/11/2026, 17 days ahead, or 11/12/2026.",
        ),
        (
            "26-11-25", "2026-11-24", "date-in-future", Effect.DECLINE,
            "Dated 11/25/2026, 1 day ahead.",
        ),
        (
            "12/01/2026", "2026-11-24", "date-in-future", Effect.DECLINE,
            "Dated 12/01/2026, 7 days ahead.",
        ),
        (
            "24/11/20", "2026-11-24", "date-stale", Effect.DECLINE,
            f"Dated 11/20/2024, {STALE}.",
        ),
        (
            "01/02/2026", "2026-11-24", "date-stale", Effect.DECLINE,
            f"Dated 01/02/2026, {STALE}.",
        ),
        (
            "12/28/26", "2026-11-24", "date-in-future", Effect.DECLINE,
            "Dated 12/28/2026, 34 days ahead.",
        ),
    ],
)  # fmt: skip
def test_a_rule_declines_only_where_no_order_makes_a_good_date(
    text: str, on: str, rule: str, effect: Effect, message: str
) -> None:
    assert effects({"face.date": text, "counter.on": on})[rule] == (effect, message)


@pytest.mark.parametrize("text", ["11/12/2026", "11/05/2026", "11/1/26", "11052026"])
def test_a_good_day_by_the_custom_stands(text: str) -> None:
    """Day first, these are in December or in the spring; the custom, month first, is not a guess."""
    assert not effects({"face.date": text, "counter.on": "2026-11-24"})


@pytest.mark.parametrize(("text", "effect"), [("25/11/24", Effect.REFER), ("24/11/25", Effect.REFER)])
def test_a_treasury_check_whose_year_is_open_is_referred(text: str, effect: Effect) -> None:
    found = effects({**TREASURY, "face.date": text, "counter.on": "2026-11-24"})
    assert found["treasury-past-year"][0] is effect


def test_a_printed_term_that_only_one_order_has_passed_is_referred() -> None:
    face = {"face.legends": "VOID AFTER 90 DAYS", "counter.on": "2026-11-24"}
    assert effects({**face, "face.date": "26/11/24"})["date-past-printed-limit"][0] is Effect.REFER
    assert effects({**face, "face.date": "24/11/20"})["date-past-printed-limit"][0] is Effect.DECLINE
    assert effects({**face, "face.legends": "VOID AFTER 10/31/2026"})["date-past-printed-limit"][0] is Effect.DECLINE


@example(19, 1, 13, date(2020, 1, 13))
@example(28, 1, 26, date(2027, 2, 1))
@given(st.integers(13, 31), st.integers(1, 12), st.integers(13, 31), st.dates(date(2020, 1, 1), date(2035, 12, 31)))
def test_an_open_order_is_never_milder_than_the_doubt_nor_harsher_than_the_proof(
    first: int, month: int, third: int, on: date
) -> None:
    """Against the two days written out: declined where both are, let be where none is, referred between."""

    def worst(text: str) -> Effect:
        said = effects({"face.date": text, "counter.on": on.isoformat()})
        return max((effect for effect, _ in said.values()), default=Effect.NOTE)

    text = f"{first}/{month}/{third}"
    days = cf.dates.read(text, on)
    if not isinstance(days, cf.dates.CheckDate):
        return
    each = [worst(day.isoformat()) for day in days.candidates]
    if len(set(each)) == 1:
        assert worst(text) == each[0]
    else:
        assert worst(text) is Effect.REFER


def test_a_house_may_still_lower_the_grade_of_an_open_order() -> None:
    policy = Policy.model_validate({"effects": {"date-in-future": "keep"}})
    patch: dict[str, object] = {"face.date": "12/11/2026", "counter.on": "2026-11-24"}
    assert effects(patch, policy)["date-in-future"][0] is Effect.KEEP


def test_a_date_without_a_year_is_left_to_the_rule_that_asks_for_it() -> None:
    outcomes = cf.assess(patched({"face.date": "5/15", "counter.on": "2026-11-24"})).examination.outcomes
    assert outcomes["date-stale"] is outcomes["date-in-future"] is Outcome.UNREAD
    assert outcomes["date-without-year"] is Outcome.FOUND
    open_ = cf.assess(patched({"face.date": "261124", "counter.on": "2026-11-24"})).examination.outcomes
    assert open_["date-without-year"] is Outcome.HELD
    assert open_["date-order-unclear"] is Outcome.FOUND
