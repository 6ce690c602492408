"""What nobody looked at, and what was looked at and says nothing: no rule has held there, and nothing converts on it."""

from __future__ import annotations

from typing import Any

import pytest
from clean_tender import CLEAN, house, patched

import checkface as cf
from checkface.findings import Effect, Outcome

LINE = CLEAN["face"]["micr"]
#: Every kind of paper, each with a rule of its own; whether one is before us is what wording says first of all.
KINDS_ASKED = sorted(entry.id for entry in cf.rules() if entry.family == "kinds" and not entry.id.startswith("kind-"))


def found(patch: dict[str, Any], policy: str = "") -> dict[str, cf.Finding]:
    examination = cf.examine(cf.read(cf.parse(patched(patch))), house(policy))
    return {finding.rule: finding for finding in examination.findings}


@pytest.mark.parametrize("rule", [*KINDS_ASKED, "conditional-wording", "legend-void", "already-converted"])
@pytest.mark.parametrize("declared", ["personal", "business", "(absent)"])
def test_where_nobody_looked_for_wording_no_rule_on_wording_has_held(rule: str, declared: str) -> None:
    for legends, hoped in ("(absent)", Outcome.UNREAD), ("(null)", Outcome.UNREAD), ("", Outcome.HELD):
        read = cf.read(cf.parse(patched({"face.legends": legends, "counter.declared_kind": declared})))
        outcome = cf.examine(read, cf.Policy()).outcomes[rule]
        assert outcome is (Outcome.FOUND if rule == "business-check" and declared == "business" else hoped)


@pytest.mark.parametrize(
    ("patch", "rule"),
    [
        ({"face.words": "Twenty-fi#e thousand and 01/100", "face.figures": "$25,000.01", "counter.amount": None},
         "amount-over-conversion-limit"),
        ({"face.words": "Forty-f#ve and 10/100", "counter.amount": None, "face.legends": "VOID OVER $20"},
         "amount-over-printed-limit"),
    ],
)  # fmt: skip
def test_an_amount_that_is_not_settled_is_held_against_limits_all_the_same(patch: dict[str, Any], rule: str) -> None:
    read = cf.read(cf.parse(patched(patch)))
    assert read.amount_cents is None
    assert cf.examine(read, cf.Policy()).outcomes[rule] is Outcome.FOUND


@pytest.mark.parametrize("maker", ["keyed", " Clerk ", "corrected"])
def test_a_reading_that_says_it_was_keyed_is_taken_at_its_word(maker: str) -> None:
    hits = found({"face.micr": {"text": LINE, "by": maker}})
    assert hits["micr-keyed"].labels[0].reading == "face.micr"
    assert "micr-keyed" not in found({"face.micr": {"text": LINE, "by": "lane 3 reader"}})


def test_each_uncertain_reading_is_named_and_the_house_sets_how_sure_is_sure() -> None:
    patch = {"face.words": {"text": CLEAN["face"]["words"], "confidence": 0.7}}
    assert "reading-uncertain" not in found(patch)
    hit = found(patch, "[readings]\nleast_confidence = 0.9")["reading-uncertain"]
    assert hit.message == "The reader was 70% sure of the words: at least 90% is asked."


@pytest.mark.parametrize("filler", ["____", "xxxx", "-", "X", " . . . "])
def test_strokes_that_fill_the_payees_line_name_nobody(filler: str) -> None:
    hits = found({"face.payee": filler}, '[payee]\nnames = ["Quillfeather Grocery"]')
    assert set(hits) == {"payee-blank"}
    assert hits["payee-blank"].remedy == "complete"


def test_signs_that_nobody_could_make_out_are_no_blank_line() -> None:
    (hit,) = found({"face.payee": "???"}).values()
    assert (hit.rule, str(hit.effect), hit.message) == ("payee-blank", "refer", "The payee cannot be read.")


@pytest.mark.parametrize("kind", ["drivers-license", "library-card", "", "credit-card"])
@pytest.mark.parametrize(
    ("number", "sort"), [("078-05-1120", "social security"), ("4111 1111 1111 1111", "payment card")]
)
def test_a_number_that_must_not_be_recorded_is_one_whatever_it_was_keyed_for(kind: str, number: str, sort: str) -> None:
    hits = found({"documents": [{"kind": kind, "state": "17", "expires": "2029-05-01", "number": number}]})
    assert hits["id-number-forbidden"].message == f"A {sort} number was given; it must not be written down."


def test_nine_digits_may_be_a_social_security_number_where_no_passport_has_them() -> None:
    for kind, doubted in ("military-id", True), ("tribal-id", True), ("passport", False), ("permanent-resident", False):
        hits = found({"documents": [{"kind": kind, "expires": "2029-05-01", "number": "078051120"}]})
        assert ("id-number-shape" in hits) is doubted


#: Everything conversion rests on, the reading that shows it, and what its absence is called. Said a second time.
LOOKS = {
    "line": ("face.micr", "the magnetic-ink line"),
    "capture": ("counter.micr_by", "how the line was captured"),
    "payee": ("face.payee", "the payee"),
    "drawer": ("face.drawer", "the printed name"),
    "drawee": ("face.drawee", "the name of the bank"),
    "identification": ("documents", "the identification"),
    "wording": ("face.legends", "what else is printed or stamped"),
    "date": ("face.date", "the date"),
    "signature": ("face.signature", "the signature"),
    "authorization": ("counter.authorization_signed", "the signed authorization"),
    "network": ("counter.network", "the network"),
}
LEFT_TO_THE_CLERK = {"payee", "drawer", "drawee", "identification", "wording", "date", "authorization"}


@pytest.mark.parametrize("pillar", LOOKS)
@pytest.mark.parametrize("required", [[], ["on"]])
def test_nothing_converts_without_a_look_that_conversion_rests_on(required: list[str], pillar: str) -> None:
    policy = house(f"[readings]\nrequired = {required}")
    path, what = LOOKS[pillar]
    assert cf.assess(CLEAN, policy).disposition == "convert"
    answer = cf.assess(patched({path: "(absent)"}), policy)
    (hit,) = [finding for finding in answer.findings if finding.rule == "pillar-not-seen"]
    assert hit.message == f"Nobody looked at {what}."
    assert hit.effect is (Effect.REFER if pillar == "identification" else Effect.KEEP)
    # Without a line a manager decides in any case: nobody knows whose check it is.
    assert answer.disposition == ("refer" if pillar == "line" else str(hit.effect))
    assert pillar not in {rest.pillar for rest in answer.decision.rests_on}


@pytest.mark.parametrize("pillar", LOOKS)
def test_what_a_house_may_leave_to_the_clerks_eyes(pillar: str) -> None:
    text = f'[readings]\nrequired = []\n[unseen]\n{pillar} = "clerk"'
    if pillar not in LEFT_TO_THE_CLERK:
        with pytest.raises(cf.PolicyError):
            cf.Policy.parse(text)
        return
    path, _ = LOOKS[pillar]
    answer = cf.assess(patched({path: "(absent)"}), house(text))
    assert answer.disposition == "convert"
    assert (pillar, "clerk", path) in [tuple(rest) for rest in answer.decision.rests_on]


@pytest.mark.parametrize(
    ("document", "what"),
    [
        ({"is_bearer": None}, "whether the photo is the customer"),
        ({"name": ""}, "the name on the identification"),
    ],
)
def test_a_document_that_nobody_looked_at_closely_identifies_nobody(document: dict[str, Any], what: str) -> None:
    hits = found({"documents": [CLEAN["documents"][0] | document]})
    assert hits["pillar-not-seen"].message == f"Nobody looked at {what}."
    assert hits["pillar-not-seen"].effect is Effect.REFER


@pytest.mark.parametrize(
    ("kind", "drawer", "rules"),
    [
        ("payroll", "Specimen Works Inc\n1 Mill Road\nSpringfield IL", {"payroll-check"}),
        ("treasury-check", "(absent)", {"treasury-check"}),
        ("personal", CLEAN["face"]["drawer"], {"payee-not-house", "third-party-check"}),
        # A word of the clerk against the paper excuses nothing.
        ("payroll", CLEAN["face"]["drawer"], {"payee-not-house", "third-party-check", "payroll-check"}),
    ],
)
def test_a_check_made_out_to_the_customer_is_no_other_partys(kind: str, drawer: str, rules: set[str]) -> None:
    patch = {"face.payee": "Ada Sample", "counter.declared_kind": kind, "face.drawer": drawer}
    hits = found(patch, '[payee]\nnames = ["Quillfeather Grocery"]')
    assert set(hits) & (rules | {"payee-not-house"}) == rules
