"""Lessons: reproducible, unambiguous, and never with an answer of their own."""

from __future__ import annotations

import os
from collections import Counter
from datetime import date
from typing import Any

import pytest

from checkface import authority, masking, tables
from checkface.assessment import assess, parse
from checkface.findings import Effect
from checkface.policy import Policy
from checkface.training import LessonError, admitted, answers, drills, handout, lesson, lessons, make, papers, questions
from checkface.training.plants import PLANTS
from checkface.training.reply import deciding
from checkface.training.textface import INSIDE, circumstances, question, text_face

SEEDS = range(100 if os.environ.get("CHECKFACE_THOROUGH") else 3)


@pytest.mark.parametrize("name", lessons())
def test_the_same_numbers_give_the_same_lesson(name: str) -> None:
    one, other = (make(lesson(name), seed=7, count=12) for _ in range(2))
    assert one == other
    assert questions(one) == questions(other)
    assert answers(one) == answers(other)
    assert handout(one) == handout(other)


@pytest.mark.parametrize("name", lessons())
def test_another_seed_gives_other_numbers(name: str) -> None:
    one, other = (make(lesson(name), seed=seed, count=12) for seed in (7, 8))
    assert [item.planted for item in one.items] != [item.planted for item in other.items]
    lines = [{item.tender.face.micr.text for item in drill.items} for drill in (one, other)]
    assert not lines[0] & lines[1] - {""}


def test_a_longer_lesson_begins_like_a_shorter_one() -> None:
    assert make(lesson("mixed"), 3, 20).items[:5] == make(lesson("mixed"), 3, 5).items


@pytest.mark.parametrize("name", lessons())
@pytest.mark.parametrize("seed", SEEDS)
def test_no_key_is_ambiguous_unless_it_says_so(name: str, seed: int) -> None:
    for item in make(lesson(name), seed, 30).items:
        causes = set(deciding(item.judged()))
        planted = [PLANTS[fault] for fault in item.planted]
        assert causes <= {plant.rule for plant in planted}.union(*(plant.also for plant in planted))
        if not planted:
            assert item.judged().disposition == "convert"


@pytest.mark.parametrize("seed", [*SEEDS, 3, 11])
def test_what_decides_is_asked_where_something_decides_among_several(seed: int) -> None:
    asked = Counter[bool]()
    for item in make(lesson("mixed"), seed, 60).items:
        found = item.judged()
        several = len([finding for finding in found.findings if str(finding.effect) != "note"]) > 1
        assert ("what decides?" in question(found)) == several, item.number
        asked[several] += 1
    assert min(asked[True], asked[False]) > 3


@pytest.mark.parametrize("seed", [*SEEDS, 5])
def test_no_picture_is_told_of_where_there_is_none(seed: int) -> None:
    seen = 0
    for item in make(lesson("identification"), seed, 40).items:
        told = " ".join(circumstances(item.judged()))
        if "social security card" in told or "library card" in told:
            seen += 1
            assert "the picture" not in told
    assert seen


def test_what_is_keyed_of_a_card_without_a_picture_is_not_told_as_a_picture() -> None:
    item = make(lesson("identification"), 1, 1).items[0]
    wire = item.tender.wire()
    for kind, told in (("passport", True), ("social-security-card", False), ("library-card", False)):
        wire["documents"] = [{"kind": kind, "is_bearer": True}]
        assert ("the picture is of the customer" in " ".join(circumstances(assess(parse(wire))))) is told


def test_an_ambiguous_check_would_be_seen() -> None:
    item = next(item for item in make(lesson("dates"), 1, 30).items if deciding(item.judged()))
    unsigned = item.tender.model_copy(update={"face": item.tender.face.model_copy(update={"signature": "no"})})
    assert drills.is_clear(item)
    assert not drills.is_clear(item._replace(planted=("not-signed",)))
    assert drills.is_clear(item._replace(tender=unsigned, planted=())) is False


@pytest.mark.parametrize("name", lessons())
def test_every_fault_of_a_lesson_comes(name: str) -> None:
    taught = lesson(name)
    seen = {fault for seed in (1, 2) for item in make(taught, seed, 500).items for fault in item.planted}
    assert seen == set(taught.plants)


@pytest.mark.parametrize("name", lessons())
def test_a_lesson_is_whole(name: str) -> None:
    taught = lesson(name)
    assert set(taught.plants) <= set(PLANTS)
    assert set(taught.cite) <= set(authority.catalogue())
    assert len(taught.text) >= 2
    assert all(len(paragraph) > 40 for paragraph in taught.text)
    found = Counter(str(item.judged().disposition) for item in make(taught, 5, 60).items)
    assert len(found) > 1, "a lesson with one answer teaches nothing"


def test_no_lesson_holds_an_answer() -> None:
    for row in tables.load("lessons").data["lesson"]:
        assert set(row) <= {"id", "title", "text", "cite", "plants", "clean", "two", "declared"}


def test_the_answer_hangs_on_the_policy() -> None:
    strict = Policy.parse('[effects]\ndate-overdue = "decline"\n')
    overdue = [item for item in make(lesson("dates"), 2, 60).items if item.planted == ("getting-old",)]
    assert {str(item.judged().disposition) for item in overdue} == {"convert"}
    again = [item for item in make(lesson("dates"), 2, 60, strict).items if item.planted == ("getting-old",)]
    assert {str(item.judged().disposition) for item in again} == {"decline"}


def test_another_day_is_another_day() -> None:
    item = make(lesson("places"), 1, 1, on=date(2027, 3, 9)).items[0]
    assert item.tender.counter.on == date(2027, 3, 9)
    assert "2027" in questions(make(lesson("places"), 1, 1, on=date(2027, 3, 9)))


def test_a_house_of_its_own_takes_the_checks() -> None:
    policy = Policy.parse('[payee]\nnames = ["Marrowby Foods"]')
    drill = make(lesson("places"), 4, 20, policy)
    paid = {item.tender.face.payee.text for item in drill.items if "made-out" not in str(item.planted)}
    assert paid <= {"Marrowby Foods", ""}


def test_every_check_of_a_lesson_may_be_drawn() -> None:
    for item in make(lesson("mixed"), 11, 120).items:
        face = item.tender.face
        assert admitted(item.tender, item.policy).face == face


@pytest.mark.parametrize(
    ("name", "count", "sentence"),
    [
        ("date", 5, "Expected the name of a lesson, read 'date'; the nearest is dates."),
        ("qqq", 5, f"Expected the name of a lesson, read 'qqq', one of {', '.join(lessons())}."),
    ],
)
def test_an_unknown_lesson(name: str, count: int, sentence: str) -> None:
    with pytest.raises(LessonError) as caught:
        make(lesson(name), 1, count)
    assert str(caught.value) == sentence


@pytest.mark.parametrize("count", [0, -1, 501])
def test_a_count_that_is_none(count: int) -> None:
    with pytest.raises(LessonError, match=f"Expected 1 to 500 checks, read {count}"):
        make(lesson("dates"), 1, count)


def test_a_policy_that_hides_every_fault() -> None:
    quiet = Policy.parse("[identity]\nrequired = false\naccepted_kinds = []\n")
    with pytest.raises(LessonError, match="a policy under which the faults of network show"):
        make(lesson("network")._replace(plants=("expired",), clean=0, two=0), 1, 5, quiet)


def test_the_text_face_is_a_box() -> None:
    for item in make(lesson("mixed"), 6, 150).items:
        lines = text_face(item.judged()).splitlines()
        box = [line for line in lines if line.startswith(("+", "|"))]
        assert {len(line) for line in box} == {INSIDE + 4}
        assert "SPECIMEN" in box[0]


def test_no_account_is_written_out_unless_asked() -> None:
    drill = make(lesson("mixed"), 12, 60)
    accounts = [
        line.account
        for item in drill.items
        if (line := item.judged().read.line) and line.account and line.account.strip("0") and len(line.account) > 4
    ]
    assert len(accounts) > 30
    for text in (questions(drill), answers(drill)):
        assert not [account for account in accounts if account in text]
        assert masking.MASK in text
    revealed = questions(drill, reveal=True)
    assert all(account in revealed for account in accounts)


def test_the_number_of_a_card_is_never_written_out() -> None:
    taught = lesson("identification")._replace(plants=("card-number-written-down",), clean=0)
    drill = make(taught, 1, 3)
    for text in (questions(drill), answers(drill), handout(drill)):
        assert "4111" not in text
    assert [str(item.judged().disposition) for item in drill.items] == ["decline"] * 3


def test_questions_do_not_give_the_answer_away() -> None:
    drill = make(lesson("mixed"), 13, 60)
    text = questions(drill)
    for item in drill.items:
        for rule in deciding(item.judged()):
            assert rule not in text.replace("authorization", ""), rule


def test_the_key_says_what_becomes_of_the_paper() -> None:
    drill = make(lesson("mixed"), 14, 40)
    for item in drill.items:
        told = answers(drill._replace(items=(item,)))
        wanted = {
            "convert": "to the customer the voided check",
            "keep": "in the till the check",
            "refer": "hold the check and call the manager",
            "decline": "to the customer the check and the decline slip",
        }[str(item.judged().disposition)]
        assert wanted in " ".join(told.split())


def test_the_answers_are_those_of_assess() -> None:
    for item in make(lesson("mixed"), 15, 80).items:
        fresh = assess(item.tender, item.policy)
        assert item.judged().disposition == fresh.disposition
        top = max((finding.effect for finding in fresh.findings), default=Effect.NOTE)
        assert top == Effect.NOTE or str(top) == str(fresh.disposition)


def test_every_paper_has_its_lesson() -> None:
    taught = {fault for name in lessons() for fault in lesson(name).plants if name != "mixed"}
    assert {f"paper-{kind}" for kind in papers() if kind != "personal"} <= taught


def test_a_handout_asks_for_nothing_from_outside() -> None:
    page: Any = handout(make(lesson("mixed"), 1, 4))
    assert "default-src 'none'; style-src 'unsafe-inline'" in page.replace("&#x27;", "'")
    assert "<script" not in page
    assert page.count("<svg") >= 4
    assert page.index('class="key"') > page.rindex("<fieldset")
