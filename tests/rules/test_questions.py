"""A question the clerk answers with one look: unanswered a manager decides, answered it is a note that stays."""

from __future__ import annotations

from typing import Any

import pytest
from clean_tender import CLEAN, house, patched

import checkface as cf
from checkface.assessment import TenderError

#: One tender for each question there is.
ASKED: dict[str, dict[str, Any]] = {
    "payee-near-house": {"face.payee": "Quillfeather Foods"},
    "drawer-unclear": {"face.drawer": ["Lodge", "12 Example Lane", "Springfield IL"]},
    "drawee-unclear": {"face.drawee": ["Specimen Financial"]},
    "wording-not-understood": {"face.legends": "GOOD ONLY AT THE FALL FAIR"},
    "drawer-differs-from-id": {"documents": [CLEAN["documents"][0] | {"name": "Ada Example"}]},
}
QUESTIONS = {entry.id for entry in cf.rules() if entry.asks_clerk}
BARRED = [entry.id for entry in cf.rules() if not entry.asks_clerk]


def judged(patch: dict[str, Any], confirmed: list[str], policy: str = "") -> cf.Assessment:
    return cf.assess(patched(patch | {"counter.confirmed": confirmed}), house(policy))


def test_every_question_is_asked_here() -> None:
    assert {*ASKED, "payee-house-unknown"} == QUESTIONS


@pytest.mark.parametrize("rule", ASKED)
def test_unanswered_it_is_for_a_manager_and_answered_it_is_a_note_that_stays(rule: str) -> None:
    others = [other for other in ASKED if other != rule]
    open_ = judged(ASKED[rule], others)
    (asked,) = [finding for finding in open_.findings if finding.rule == rule]
    assert (str(asked.effect), str(asked.remedy), asked.question[-1]) == ("refer", "confirm", "?")
    assert open_.disposition == "refer"
    # Only the question itself is settled by its answer; a name that is none stays another name.
    settled = judged(ASKED[rule], [rule, "drawer-differs-from-id"])
    (noted,) = [finding for finding in settled.findings if finding.rule == rule]
    assert (str(noted.effect), noted.question, noted.message) == ("note", asked.question, asked.message)


@pytest.mark.parametrize(
    "rule", ["payee-near-house", "drawee-unclear", "wording-not-understood", "drawer-differs-from-id"]
)
def test_a_confirmed_check_converts_and_says_on_what_it_rests(rule: str) -> None:
    answer = judged(ASKED[rule], [rule])
    assert answer.disposition == "convert"
    by = {rest.pillar: rest.by for rest in answer.decision.rests_on}
    pillar = {"payee-near-house": "payee", "drawee-unclear": "drawee", "wording-not-understood": "wording"}.get(
        rule, "identification"
    )
    assert by[pillar] == "confirmed"
    assert len(by) == 12


def test_a_question_is_on_the_wire() -> None:
    wire = judged(ASKED["payee-near-house"], []).model_dump()
    (finding,) = wire["findings"]
    assert (finding["question"], finding["remedy"]) == ("Is it made out to us?", "confirm")
    assert wire["would_change"] == [
        {"disposition": "convert", "cure": [{"rule": "payee-near-house", "remedy": "confirm"}], "curable": True}
    ]


@pytest.mark.parametrize("rule", BARRED)
def test_what_has_no_question_cannot_be_confirmed(rule: str) -> None:
    with pytest.raises(TenderError, match=rf"counter\.confirmed: .*'{rule}': it has no question"):
        judged({}, [rule])


def test_an_unknown_id_is_named_with_the_nearest() -> None:
    with pytest.raises(TenderError, match="read 'payee-near-hous'; the nearest rule is 'payee-near-house'"):
        judged({}, ["payee-near-hous"])


@pytest.mark.parametrize(
    "patch",
    [
        {"face.payee": "Ben Example"},
        {"face.drawer": ["Ada Sample, Trustee"]},
        {"face.drawee": ["Specimen Insurance Company"]},
        {"face.legends": "MONEY ORDER"},
        {"documents": [CLEAN["documents"][0] | {"name": "Ben Example"}]},
        {"counter.network": "down"},
    ],
)
def test_no_answer_opens_what_is_barred(patch: dict[str, Any]) -> None:
    assert judged(patch, sorted(QUESTIONS)).disposition == judged(patch, []).disposition != "convert"


def test_a_house_that_raises_a_question_to_a_bar_is_obeyed() -> None:
    policy = '[effects]\n"payee-near-house" = "decline"'
    assert judged(ASKED["payee-near-house"], ["payee-near-house"], policy).disposition == "decline"


def test_ids_may_come_in_one_text_as_a_file_holds_them() -> None:
    tender = cf.parse(patched({"counter.confirmed": "payee-near-house, drawee-unclear"}))
    assert tender.counter.confirmed == ("payee-near-house", "drawee-unclear")
