"""The plan begins before the answer: what nobody looked at or keyed, what can be put right, and then judge again."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from clean_tender import house, patched
from handling_help import LANE, does, finding, made, step

import checkface as cf
from checkface.findings import Remedy
from checkface.handling import Instructions, When
from checkface.policy import Policy, PolicyError

HOUSE = house()
#: What is missing when the customer has put a check on the counter and nothing else has happened.
NOTHING = {"face": {}}


def plan(tender: dict[str, Any], text: str = "") -> Instructions:
    """The instructions of a real answer, with the pad up."""
    return replace(cf.assess(tender, house(text)).instructions, printing=LANE)


def before(instructions: Instructions) -> list[str]:
    """What is done before the answer, in order."""
    return [step.does for step in instructions.steps if step.stage == "before"]


def test_the_plan_of_a_check_nobody_has_touched() -> None:
    assert before(plan(NOTHING)) == [
        "use-reader", "choose-kind", "look-at-payee", "look-at-printed-name", "look-at-bank", "look-at-wording",
        "look-at-date", "look-at-signature", "look-at-network", "look-at-calendar", "show-identification",
        "look-at-identification", "scan-identification", "key-amount", "give-notice", "sign-authorization",
        "accept-signature", "judge-again",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("path", "wanted"),
    [
        ("face.micr", "use-reader"),
        ("counter.micr_by", "use-reader"),
        ("counter.declared_kind", "choose-kind"),
        ("face.payee", "look-at-payee"),
        ("face.drawer", "look-at-printed-name"),
        ("face.drawee", "look-at-bank"),
        ("face.legends", "look-at-wording"),
        ("face.date", "look-at-date"),
        ("face.signature", "look-at-signature"),
        ("counter.network", "look-at-network"),
        ("counter.on", "look-at-calendar"),
        ("documents", "show-identification"),
        ("documents", "look-at-identification"),
        ("documents", "scan-identification"),
        ("counter.amount", "key-amount"),
        ("counter.authorization_signed", "sign-authorization"),
    ],
)
def test_each_step_is_there_until_its_fact_is(path: str, wanted: str) -> None:
    assert wanted in before(plan(patched({path: "(absent)"})))
    assert before(plan(patched({}))) == []


@pytest.mark.parametrize(
    ("document", "wanted"),
    [
        ({}, ["show-identification", "look-at-identification", "scan-identification"]),
        ({"kind": "drivers-license"}, ["look-at-identification", "scan-identification"]),
        ({"kind": "drivers-license", "state": "17", "name": "Ada Sample", "is_bearer": True},
         ["look-at-identification"]),
        ({"kind": "drivers-license", "expires": "2029-05-01", "name": "Ada Sample", "is_bearer": True},
         ["scan-identification"]),
        ({"kind": "drivers-license", "state": "17", "expires": "2029-05-01", "name": "Ada Sample"},
         ["look-at-identification"]),
    ],
)  # fmt: skip
def test_what_is_still_to_do_about_a_document(document: dict[str, Any], wanted: list[str]) -> None:
    named = before(plan(patched({"documents": [document]})))
    assert [name for name in named if "identification" in name] == wanted


def test_a_house_that_notes_the_number_has_it_keyed() -> None:
    assert before(plan(patched({}), "[identity]\nrecord_number = true")) == ["scan-identification"]


def test_a_house_that_asks_for_no_identification_has_no_step_for_it() -> None:
    named = before(plan(patched({"documents": "(absent)"}), "[identity]\nrequired = false"))
    assert not [name for name in named if "identification" in name]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "Put the check in the reader."),
        ('[counter]\nface = "up"', "Put the check in the reader, face up."),
        ('[counter]\nface = "down"\nedge = "right"', "Put the check in the reader, face down, right edge first."),
    ],
)
def test_the_check_goes_in_the_reader_as_the_policy_says(text: str, words: str) -> None:
    assert step(plan(NOTHING, text), "use-reader").text == words


def test_a_reader_that_is_none_is_refused() -> None:
    with pytest.raises(PolicyError, match="Line 2, counter"):
        Policy.parse('[counter]\nface = "sideways"')


@pytest.mark.parametrize(
    ("pillar", "wanted"),
    [
        ("payee", "look-at-payee"), ("drawer", "look-at-printed-name"), ("drawee", "look-at-bank"),
        ("wording", "look-at-wording"), ("date", "look-at-date"),
    ],
)  # fmt: skip
def test_what_the_policy_leaves_to_the_clerk_is_a_step_and_the_answer_says_so(pillar: str, wanted: str) -> None:
    reading = {"wording": "legends"}.get(pillar, pillar)
    required = '[readings]\nrequired = ["micr", "micr_by", "network", "amount", "signature", "on"]\n'
    patch = {f"face.{reading}": "(absent)"}
    text = f'{required}[unseen]\n{pillar} = "clerk"'
    assessment = cf.assess(patched(patch), house(text))
    assert assessment.disposition == "convert"
    assert before(assessment.instructions) == [wanted]
    assert (pillar, "clerk", f"face.{reading}") in assessment.decision.rests_on


def test_a_signature_on_the_pad_is_read_before_it_is_accepted() -> None:
    instructions = plan(patched({"counter.authorization_signed": "(absent)"}))
    assert before(instructions) == ["give-notice", "sign-authorization", "accept-signature", "judge-again"]
    assert "one-time electronic fund transfer" in step(instructions, "give-notice").text
    assert instructions.disposition == "keep"


@pytest.mark.parametrize("patch", [{"face.signature": False}, {"counter.declared_kind": "business"}])
def test_nobody_signs_for_a_debit_while_something_else_stands_in_its_way(patch: dict[str, Any]) -> None:
    assert "sign-authorization" not in does(plan(patched({"counter.authorization_signed": "(absent)", **patch})))


def test_a_check_that_cannot_be_taken_asks_for_nothing_more() -> None:
    patch = {"face.micr": "⑆071098973⑆ 45601122⑈ 1043⑇", "face.date": "11/24/2025", "documents": "(absent)"}
    instructions = made("decline", patch)
    assert before(instructions) == []
    assert does(instructions)[0] == "say-answer"


@pytest.mark.parametrize(
    ("remedy", "wanted"),
    [
        (Remedy.REREAD, ["read-again"]), (Remedy.REKEY, ["key-again"]), (Remedy.COMPLETE, ["fill-in"]),
        (Remedy.SIGN, ["sign-check"]), (Remedy.NEW_CHECK, ["write-new-check"]),
        (Remedy.SHOW_ID, ["show-identification", "look-at-identification", "scan-identification"]),
    ],
)  # fmt: skip
@pytest.mark.parametrize("disposition", ["refer", "decline"])
def test_a_cure_comes_first_and_the_answer_is_for_what_it_did_not_cure(
    disposition: str, remedy: Remedy, wanted: list[str]
) -> None:
    instructions = made(disposition, findings=(finding(disposition, remedy=remedy, rule="altered"),))
    assert before(instructions) == [*wanted, "judge-again"]
    after = [step for step in instructions.steps if step.stage == "after"]
    assert after
    assert {step.when for step in after} == {(When.NOT_CURED,)}
    assert {step.only_if for step in after} == {"the answer stays the same"}


def test_what_only_a_manager_settles_is_not_judged_again() -> None:
    assert "judge-again" not in does(made("refer", findings=(finding("refer", remedy=Remedy.MANAGER),)))
    declined = made("decline", findings=(finding("decline", remedy=Remedy.MANAGER),))
    assert does(declined)[:2] == ["call-manager", "say-answer"]


def test_a_check_that_may_be_kept_is_not_written_once_more() -> None:
    assert "write-new-check" not in does(made("keep", findings=(finding("keep", remedy=Remedy.NEW_CHECK),)))


def test_nothing_else_is_put_right_on_a_check_that_is_written_anew() -> None:
    findings = (
        finding("decline", "signature-missing", Remedy.SIGN),
        finding("decline", "date-stale", Remedy.NEW_CHECK),
    )
    assert before(made("decline", {"face.drawee": "(absent)"}, findings=findings)) == ["write-new-check", "judge-again"]


def test_all_that_the_lane_can_put_right_is_put_right_in_one_go() -> None:
    findings = (
        finding("decline", "signature-missing", Remedy.SIGN),
        finding("refer", "date-without-year", Remedy.COMPLETE),
        finding("keep", "micr-keyed", Remedy.NONE),
    )
    assert before(made("decline", findings=findings)) == ["fill-in", "sign-check", "judge-again"]


def test_a_question_is_put_to_the_clerk_in_its_own_words() -> None:
    tender = patched({"face.payee": "Quillfeather Market", "face.drawee": ["Fairhaven Trustees"]})
    assessment = cf.assess(tender, HOUSE)
    asked = [(f.rule, f.question) for f in assessment.findings if f.remedy is Remedy.CONFIRM]
    steps = [step for step in assessment.instructions.steps if step.does == "answer-question"]
    assert len(asked) == 2
    assert [step.text for step in steps] == [question for _, question in asked]
    assert all(rule in step.why for (rule, _), step in zip(asked, steps, strict=True))
    assert before(assessment.instructions) == ["answer-question", "answer-question", "judge-again"]
    assert [step.order for step in assessment.instructions.steps] == list(
        range(1, len(assessment.instructions.steps) + 1)
    )
    tender["counter"]["confirmed"] = [rule for rule, _ in asked]
    again = cf.assess(tender, HOUSE)
    assert again.disposition == "convert"
    assert before(again.instructions) == []


def test_a_slip_of_the_keys_is_corrected() -> None:
    assessment = cf.assess(patched({"counter.amount": "54.10"}), HOUSE)
    assert assessment.disposition == "refer"
    assert before(assessment.instructions) == ["key-again", "judge-again"]
    assert cf.assess(patched({}), HOUSE).disposition == "convert"


def test_conditions_leave_as_codes_and_as_a_sentence() -> None:
    instructions = replace(plan(patched({"face.signature": False})), printing=replace(LANE, pad=None))
    wire = instructions.wire()
    assert {code for entry in wire for code in entry["when"]} == {"not-cured"}
    kept = replace(plan(patched({"counter.network": "down"})), printing=replace(LANE, pad=None)).wire()
    sheet = next(entry for entry in kept if entry["does"] == "sign-sheet")
    assert (sheet["when"], sheet["only_if"]) == (["pad-down"], "the signature pad is down")


ISSUED = {
    "treasury-check", "government-check", "payroll", "cashiers-check", "tellers-check", "money-order",
    "postal-money-order", "travelers-check",
}  # fmt: skip


@pytest.mark.parametrize("kind", sorted(ISSUED))
def test_nothing_is_printed_on_a_face_that_somebody_else_issued(kind: str) -> None:
    blanks = dict.fromkeys(("face.payee", "face.date", "face.figures", "face.words"), "")
    patch = {"counter.declared_kind": kind, "face.micr": "(absent)", "face.drawer": "(absent)", **blanks}
    instructions = made("keep", patch)
    on_face = [
        s for s in instructions.steps if s.where.startswith("front") and s.who in ("printer", "clerk") and s.text
    ]
    assert on_face == []
    slip = step(instructions, "write-slip")
    assert (slip.where, slip.text.splitlines()[0]) == ("notation slip", "114 / QF  11/24/2026 10:32")
    assert instructions.to_till == ("check", "notation slip")
    cited = step(instructions, "skip-front").cite
    assert ("31-cfr-240" in cited) is (kind == "treasury-check")
    # Its purchaser fills in a money order; what an issuer left open is not the customer's to fill.
    assert ("fill-in" in does(instructions)) is (kind in {"money-order", "postal-money-order", "travelers-check"})


def test_where_nothing_says_what_it_is_the_front_is_printed_only_on_the_customer_s_own_check() -> None:
    patch = {"counter.declared_kind": "(absent)", "face.micr": "(absent)", "face.drawer": "(absent)", "face.payee": ""}
    instructions = made("keep", patch | {"face.drawee": "(absent)"})
    assert step(instructions, "print-payee").when == (When.OWN_CHECK,)
    assert step(instructions, "write-slip").when == (When.ISSUED,)


@pytest.mark.parametrize(
    ("path", "furniture", "wanted"),
    [
        ("face.payee", "--------", "print-payee"),
        ("face.date", "__/__/20__", "print-date"),
        ("face.figures", "$_____", "print-figures"),
        ("face.words", "____________ dollars", "print-words"),
    ],
)
def test_what_only_the_form_prints_is_a_blank_that_is_filled(path: str, furniture: str, wanted: str) -> None:
    drawn, left, filled = (
        does(plan(patched({"counter.network": "down", **patch}))) for patch in ({path: furniture}, {path: ""}, {})
    )
    assert drawn == left
    assert wanted in drawn
    assert wanted not in filled


def test_a_converted_check_gives_the_customer_a_copy_of_the_authorization() -> None:
    instructions = plan(patched({}))
    copy = step(instructions, "print-copy")
    assert (copy.who, copy.where) == ("printer", "authorization copy")
    assert "one electronic fund transfer of $45.10" in copy.text
    assert "authorization copy" in instructions.to_customer
    assert does(instructions).index("print-copy") < does(instructions).index("hand-back-check")
