"""The tables of steps, mishaps and notices are whole: every name in them is known, every word in them is neutral."""

from __future__ import annotations

import re
from typing import Any, get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from checkface import authority, tables
from checkface.findings import Disposition, Effect
from checkface.handling.drawing import PLACEHOLDERS, REGIONS
from checkface.handling.plan import CIRCUMSTANCES, Circumstances, When, Who, plan
from checkface.handling.todo import CODES
from checkface.handling.values import FIELDS
from checkface.rules import rules
from checkface.tender import State

LONGER = {"receipt", "missing", "notice", "authorization", "sheet", "slip", "report", "question", "rule"}
STEPS: list[dict[str, Any]] = tables.load("handling").data["step"] + [
    step for mishap in tables.load("recovery").data["mishap"] for step in mishap["step"]
]
NOTICES: dict[str, dict[str, Any]] = tables.load("notices").data["notice"]
REASONS: dict[str, dict[str, Any]] = tables.load("notices").data["reason"]
OFF_PAPER = {
    "front", "receipt", "authorization copy", "slip", "notation slip", "signature pad", "signature sheet", "till",
    "customer", "counter", "reader", "house record",
}  # fmt: skip
ACCUSING = re.compile(
    r"\b(bad|forge\w*|fraud\w*|insufficient|bounc\w*|steal\w*|stole\w*|crim\w*|suspic\w*|police|counterfeit|fake|cheat\w*"
    r"|funds available|no funds|nsf|arrest|detain\w*)\b",
    re.IGNORECASE,
)


@pytest.mark.parametrize("step", STEPS, ids=lambda step: step["does"])
def test_every_name_in_a_step_is_known(step: dict[str, Any]) -> None:
    assert step.keys() <= {"for", "todo", "when", "does", "who", "where", "text", "cite", "why"}
    assert step["who"] in get_args(Who)
    assert re.fullmatch(r"[a-z]+(-[a-z]+)*", step["does"])
    assert step["where"] in OFF_PAPER | REGIONS.keys()
    assert set(step.get("when", ())) <= CIRCUMSTANCES.keys()
    assert set(step.get("for", ())) <= set(Disposition)
    assert set(step.get("todo", ())) <= CODES
    assert set(re.findall(r"{(\w+)}", step.get("text", "") + step["why"])) <= FIELDS.keys() | LONGER
    for identifier in step.get("cite", ["common-practice"]):
        assert authority.get(identifier)
    if step["where"].startswith(("front:", "back:")):
        assert set(re.findall(r"{(\w+)}", step.get("text", ""))) <= PLACEHOLDERS.keys() | {
            "house",
            "payee",
            "here",
            "blank",
        }


@pytest.mark.parametrize("key", NOTICES)
def test_every_notice_names_its_regulation(key: str) -> None:
    notice = NOTICES[key]
    assert notice["regulation"]
    assert all(authority.get(identifier) for identifier in notice["cite"])
    assert set(re.findall(r"{(\w+)}", notice["text"])) <= FIELDS.keys()
    assert "counsel" in tables.load("notices").data["advice"]


def test_every_family_that_can_decline_has_a_reason_of_its_own() -> None:
    listed = [family for reason in REASONS.values() for family in reason["families"]]
    assert len(listed) == len(set(listed))
    assert {rule.family for rule in rules() if rule.effect is Effect.DECLINE} <= set(listed)


def test_no_word_accuses() -> None:
    texts = [step.get("text", "") + " " + step["why"] for step in STEPS]
    texts += [notice["text"] + notice["title"] for notice in NOTICES.values()] + [
        reason["text"] for reason in REASONS.values()
    ]
    texts += [mishap["title"] for mishap in tables.load("recovery").data["mishap"]]
    assert not [found[0] for text in texts for found in ACCUSING.finditer(text)]


def test_every_condition_has_its_sentence_and_no_other_may_be_open() -> None:
    assert {*tables.load("handling").data["condition"]} == {*When}
    assert {*When} - {When.NOT_CURED} <= CIRCUMSTANCES.keys()
    untold = Circumstances(Disposition.KEEP, to_customer=True)
    assert {name for name, holds in CIRCUMSTANCES.items() if holds(untold) is None} <= {*When}


def test_everything_that_may_be_to_do_has_a_step() -> None:
    shown = {code for step in STEPS for code in step.get("todo", ())}
    # The line's two readings are the reader's step, the amount is keyed, a document is three steps, and for "none" there is none.
    assert shown ^ CODES == {"micr", "micr_by", "amount", "documents", "show-id", "none"}


SENTENCE = re.compile(r"[^.?!]+[.?!]")


@pytest.mark.parametrize("step", STEPS, ids=lambda step: step["does"])
def test_a_step_is_said_in_short_sentences(step: dict[str, Any]) -> None:
    assert step["why"].rstrip().endswith((".", "?"))
    for sentence in SENTENCE.findall(step["why"] + (step.get("text", "") if step["who"] == "customer" else "")):
        assert len(sentence.split()) <= 20, sentence
    assert not re.search(r"\b(Expected|whilst|cheque|shall|hereby)\b", step["why"])


STATES = st.sampled_from(State)
MAYBE = st.sampled_from([None, True, False])
ALL = st.builds(
    Circumstances,
    disposition=st.sampled_from(Disposition),
    signed=MAYBE,
    pad=st.sampled_from([None, "up", "down"]),
    **dict.fromkeys(("payee", "date", "figures", "words"), STATES),
    **dict.fromkeys(("payee_known", "date_known", "amount_known", "to_customer", "countersign"), st.booleans()),
    own=MAYBE,
    purchased=st.booleans(),
    todo=st.frozensets(st.sampled_from(sorted(CODES))),
    judge_again=st.booleans(),
    report=st.booleans(),
)


@settings(max_examples=300)
@given(ALL)
def test_whatever_the_circumstances_a_check_is_collected_once(case: Circumstances) -> None:
    steps = plan(case)
    order = [step.does for step in steps]
    assert [step.order for step in steps] == list(range(1, len(steps) + 1))
    into_till = [step for step in steps if step.where == "till" and "check" in step.text]
    match case.disposition:
        case Disposition.CONVERT:
            assert not into_till
            assert order.index("send-debit") < order.index("print-void") < order.index("verify-void")
            assert order.index("verify-void") < order.index("hand-back-check")
            assert not steps[order.index("print-void")].when
        case Disposition.KEEP:
            assert len(into_till) == 1
            assert not {"print-void", "hand-back-check", "send-debit"} & set(order)
        case _:
            assert not into_till
            assert not [step for step in steps if step.who == "printer" and step.where.startswith(("front", "back"))]
            assert "send-debit" not in order


@settings(max_examples=300)
@given(ALL)
def test_no_line_is_both_printed_and_left_to_the_customer_without_a_condition(case: Circumstances) -> None:
    order = [(step.does, step.when) for step in plan(case)]
    printed = {name for name, when in order if name.startswith("print-") and not {*when} - {When.NOT_CURED}}
    for line, state in (("payee", case.payee), ("date", case.date), ("figures", case.figures), ("words", case.words)):
        assert (f"print-{line}" not in printed) or state is State.BLANK


@settings(max_examples=300)
@given(ALL)
def test_the_steps_before_the_answer_come_first_and_the_rest_is_for_what_they_did_not_cure(case: Circumstances) -> None:
    steps = plan(case)
    stages = [step.stage for step in steps]
    assert stages == sorted(stages, key=["before", "after"].index)
    judged = (
        [step.does for step in steps].index("judge-again")
        if case.judge_again and case.disposition > "convert"
        else None
    )
    for number, step in enumerate(steps):
        assert (When.NOT_CURED in step.when) is (judged is not None and number > judged)


@settings(max_examples=300)
@given(ALL)
def test_nothing_is_printed_on_a_face_that_somebody_else_issued(case: Circumstances) -> None:
    for step in plan(case._replace(own=False)):
        if step.where.startswith("front") and step.who in ("printer", "clerk") and step.does != "print-void":
            assert not step.does.startswith(("print-", "write-"))
