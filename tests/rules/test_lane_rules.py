"""The line, the bank, the amounts and the date: second grades, and that nothing the parts leave open goes unsaid."""

from __future__ import annotations

from typing import Any

import pytest
from clean_tender import CLEAN, house, patched
from hypothesis import given
from hypothesis import strategies as st

import checkface as cf
from checkface.findings import Effect
from checkface.micr import MicrLine
from checkface.span import Fault

LINE = CLEAN["face"]["micr"]
FAMILIES = {entry.id: entry.family for entry in cf.rules()}


def found(patch: dict[str, Any], policy: str = "") -> dict[str, cf.Finding]:
    examination = cf.examine(cf.read(cf.parse(patched(patch))), house(policy))
    return {finding.rule: finding for finding in examination.findings}


@pytest.mark.parametrize(
    ("patch", "rule", "effect"),
    [
        ({"face.micr": "⑆0710?8973⑆ 45601122⑈ 1043"}, "micr-unread-character", Effect.KEEP),
        ({"face.micr": "⑆071?98?73⑆ 45601122⑈ 1043"}, "micr-unread-character", Effect.REFER),
        ({"face.micr": "?⑆071098973⑆ 45601122⑈ 1043"}, "micr-unread-character", Effect.REFER),
        ({"face.micr": "⑆07109?973⑆ 45601122⑈ 1043"}, "micr-unread-character", Effect.REFER),  # may be Canada's dash
        ({"face.figures": "4510"}, "figures-unclear", Effect.NOTE),
        ({"face.figures": "(null)"}, "figures-unclear", Effect.NOTE),
        ({"face.figures": "€45.10"}, "figures-unclear", Effect.REFER),
        ({"face.figures": "(null)", "face.words": "(null)"}, "figures-unclear", Effect.REFER),
        ({"face.date": "11/24"}, "date-without-year", Effect.NOTE),
        ({"face.date": "5/15"}, "date-without-year", Effect.REFER),
        ({"face.legends": "NOT VALID OVER $____"}, "amount-over-printed-limit", Effect.REFER),
        ({"face.legends": "VOID AFTER ____ DAYS"}, "date-past-printed-limit", Effect.REFER),
    ],
)
def test_two_grades(patch: dict[str, Any], rule: str, effect: Effect) -> None:
    assert found(patch)[rule].effect is effect


@pytest.mark.parametrize(
    ("patch", "rule", "message"),
    [
        ({"face.micr": "(absent)"}, "micr-not-read", "The check has not gone through the reader."),
        ({"face.micr": ""}, "micr-not-read", "The reader found no bottom line."),
        ({"face.micr": "⑆0710?8973⑆ 4560?122⑈ 1043"}, "micr-unread-character",
         "The reader missed a character in the routing number and the account number; only 071098973 fits."),
        ({"face.micr": "⑆071098973? 45601122⑈ 1043"}, "micr-unread-character",
         "The reader missed a character in a place between the fields."),
        ({"face.micr": "?⑆07109?973⑆ 4560?122⑈ 1043 ⑇000000451?⑇"}, "micr-unread-character",
         "The reader missed a character in several fields; only 071098973 fits."),
        ({"face.micr": "⑆071098973⑆ 4560112⑉⑈ 1043"}, "micr-malformed",
         "A dash of the account number stands beside no digit."),
        ({"face.micr": "12⑆071098973⑆ 45601122⑈ 1043"}, "micr-malformed",
         "Left of the routing number stands neither an auxiliary field nor one processing code."),
        ({"face.micr": "⑆071098973⑆ 45601122⑈ 1043 ⑇0000004510⑇ 27"}, "micr-malformed",
         "More characters stand behind the amount."),
        ({"face.micr": "⑈⑉⑈ ⑆071098973⑆ 45601122⑈ 1043"}, "micr-auxiliary-on-us",
         "An auxiliary field stands left of the routing number, as on business checks."),
        ({"face.micr": ":012345<0123456: 0001234>"}, "micr-foreign",
         "The line is printed in CMC-7, a font of other countries."),
        ({"counter.micr_by": "corrected"}, "micr-keyed", "The bottom line was corrected by hand."),
        ({"face.micr": {"text": "⑆071098973⑆ 45601122⑈ 1043", "by": "clerk"}}, "micr-keyed",
         "The bottom line is marked as entered by hand."),
        ({"face.micr": "⑆071098973⑆ 45601122⑈ 0000"}, "micr-no-serial",
         "The check number in the bottom line is all zeros."),
        ({"face.micr": "⑆001234567⑆ 45601122⑈ 1043"}, "routing-government",
         "The routing number is the U.S. Government's: it begins with 00."),
        ({"face.fraction": "100-9897/710"}, "fraction-malformed",
         "The fraction begins with 100; only 1 to 99 and 101 are in use."),
        ({"face.fraction": "70-9897/710" + " " * 80}, "fraction-malformed",
         "The fraction is too long: 91 characters."),
        ({"face.fraction": "70-9897/7l0"}, "fraction-malformed", "The fraction has a letter in it."),
        ({"face.fraction": "70-9897/710/70"}, "fraction-malformed",
         "The parts of the fraction are missing or out of order."),
        ({"face.words": "twenty ten"}, "words-unclear", "The words may say $2,010.00 or $20.10."),
        ({"face.words": "1,500 and 00/100", "face.figures": ""}, "words-unclear",
         "The words seem to say $1,500.00, and the box does not confirm it: the amount is in figures."),
        ({"face.figures": "4510"}, "figures-unclear",
         "The box may say $4,510.00 or $45.10; the words say $45.10."),
        ({"counter.amount": "0"}, "amount-zero", "Zero is keyed as the amount."),
        ({"face.words": "", "face.figures": "4510", "counter.amount": "1.00"}, "amount-differs-from-keyed",
         "The box says $4,510.00 or $45.10, but $1.00 is keyed."),
        ({"face.date": "(null)"}, "date-unreadable", "The date cannot be read."),
        ({"face.legends": "EXPIRES 11/23/2026"}, "date-past-printed-limit",
         "Good until 11/23/2026 as printed on the face, and today is 11/24/2026."),
    ],
)  # fmt: skip
def test_other_messages(patch: dict[str, Any], rule: str, message: str) -> None:
    assert found(patch)[rule].message == message


TREASURY = {"face.micr": "⑆000000518⑆ 45601122⑈ 1043", "face.fraction": "", "counter.declared_kind": ""}
LEGEND = "VOID AFTER 90 DAYS"


@pytest.mark.parametrize(
    ("rule", "outcome", "patch"),
    [
        ("micr-layout-ambiguous", "not_applicable", TREASURY),
        ("micr-no-account", "not_applicable", TREASURY),
        ("micr-no-account", "not_applicable", {"face.micr": "2⑆071098973⑆"}),
        ("micr-no-account", "unread", {"face.micr": "⑆071098973⑆ 4560?122⑈ 1043"}),
        ("micr-no-account", "unread", {"face.micr": "⑆071098973⑆ 45601122"}),
        ("micr-no-account", "found", {"face.micr": "⑈1?43⑈ ⑆071098973⑆"}),
        ("micr-no-serial", "not_applicable", TREASURY),
        ("micr-no-serial", "not_applicable", {"face.micr": "2⑆071098973⑆"}),
        ("micr-no-serial", "unread", {"face.micr": "⑆071098973⑆ 45601122⑈ 1?43"}),
        ("micr-no-serial", "unread", {"face.micr": "⑆071098973⑆ 45601122⑈ 0000004510", "face.serial": "(absent)"}),
        ("micr-no-serial", "found", {"face.micr": "⑆071098973⑆"}),
        ("micr-no-serial", "unread", {"face.micr": "⑆071098973⑆ 45601122⑈ 1043 27", "face.serial": "(absent)"}),
        ("micr-layout-ambiguous", "found", {"face.micr": "⑆071098973⑆ 45601122⑈ 1043 27", "face.serial": "(absent)"}),
        ("micr-layout-ambiguous", "found", {"face.micr": "⑆071098973⑆ 45601122⑈ 104 27 99"}),
        ("micr-layout-ambiguous", "held", {"face.micr": "⑆071098973⑆ 45601122⑈", "face.serial": "(absent)"}),
        ("micr-layout-ambiguous", "held", {"face.micr": "⑆07109897⑆ 45601122⑈ 1043"}),
        ("micr-foreign", "found", {"face.micr": "<123456789012345<678901234567>"}),
        ("micr-foreign", "held", {"face.micr": "hello"}),
        ("micr-malformed", "held", {"face.micr": "<123456789012345<678901234567>"}),
        ("micr-notation-undecided", "held", {"face.micr": "hello"}),
        ("micr-too-long-for-paper", "held", {"face.micr": "7 " * 65}),
        ("micr-too-long-for-paper", "found", {"face.micr": "7 " * 66}),
        ("micr-malformed", "held", {"face.micr": "⑆071098973? 45601122⑈ 1043"}),
        ("micr-malformed", "held", {"face.micr": "T071098973T 45601122O 1043U"}),
        ("fraction-differs", "held", {"face.micr": "2⑆071098973⑆"}),
        ("fraction-differs", "not_applicable", {"face.micr": "2⑆011394776⑆"}),
        ("fraction-differs", "found", {"face.micr": "⑆01139?776⑆ 45601122⑈ 1043"}),
        ("fraction-differs", "found", {"face.micr": "⑆0113⑉9477⑆ 45601122⑈ 1043"}),
        ("fraction-differs", "unread", {"face.micr": "⑆01?39?776⑆ 45601122⑈ 1043"}),
        ("fraction-outside-district", "not_applicable", {"face.fraction": "9897/710"}),
        ("fraction-outside-district", "not_applicable", {"face.fraction": "70-9897/001"}),
        ("fraction-malformed", "held", {"face.fraction": "9897/710"}),
        ("routing-not-in-directory", "not_applicable", {}),
        ("words-unclear", "unread", {"face.words": "(absent)"}),
        ("words-unclear", "held", {"face.words": ""}),
        ("words-unclear", "held", {"face.words": "Fourty-five and 10/100"}),
        ("words-unclear", "held", {"face.words": "45.10", "face.figures": "$54.10"}),
        ("words-unclear", "found", {"face.words": "45.10", "face.figures": "(absent)"}),
        ("words-unclear", "held", {"face.words": "Zero dollars and 00/100"}),
        ("words-blank", "unread", {"face.words": "(null)"}),
        ("words-blank", "held", {"face.words": "apples"}),
        ("words-blank", "found", {"face.words": "-----"}),
        ("words-blank", "not_applicable", TREASURY | {"face.words": ""}),
        ("words-repaired", "not_applicable", {"face.words": "Fourty-five and 10/100", "face.figures": "$54.10"}),
        ("figures-unclear", "unread", {"face.figures": "(absent)"}),
        ("figures-unclear", "held", {"face.figures": ""}),
        ("figures-unclear", "held", {"face.figures": "0.00"}),
        ("figures-blank", "unread", {"face.figures": "(absent)"}),
        ("figures-blank", "held", {"face.figures": "apples"}),
        ("figures-blank", "found", {"face.figures": "$"}),
        ("amount-zero", "unread", {"counter.amount": "(absent)", "face.words": "", "face.figures": ""}),
        ("amount-over-house-limit", "held", {}),
        ("cash-back-over-house-limit", "held", {}),
        ("amount-over-printed-limit", "not_applicable", {"face.legends": LEGEND}),
        ("amount-differs-from-keyed", "not_applicable", {"face.words": "", "face.figures": ""}),
        ("amount-differs-from-keyed", "unread", {"face.words": "", "face.figures": "(null)"}),
        (
            "amount-differs-from-keyed",
            "held",
            {"face.words": "twenty ten", "face.figures": "", "counter.amount": "20.10"},
        ),
        ("encoded-amount-differs", "not_applicable", {}),
        ("encoded-amount-differs", "unread", {"face.micr": f"{LINE} ⑇00000?4510⑇"}),
        ("encoded-amount-differs", "unread", {"face.micr": f"{LINE} ⑇4510⑇"}),
        ("date-blank", "unread", {"face.date": "(null)"}),
        ("date-blank", "held", {"face.date": "today"}),
        ("date-blank", "found", {"face.date": "__/__/20__"}),
        ("date-unreadable", "held", {"face.date": ""}),
        ("date-unreadable", "held", {"face.date": "__/__/20__"}),
        ("date-unreadable", "unread", {"counter.on": "(absent)"}),
        ("date-without-year", "unread", {"counter.on": "(absent)"}),
        ("date-in-future", "unread", {"face.date": "11/24"}),
        ("date-stale", "unread", {"face.date": "11/24"}),
        ("date-overdue", "unread", {"face.date": "11/24"}),
        ("date-overdue", "found", {"face.date": "05/28/2026"}),
        ("date-last-january", "unread", {"face.date": "11/24"}),
        ("treasury-past-year", "unread", TREASURY | {"face.date": "11/24"}),
        ("treasury-past-year", "not_applicable", {}),
        ("date-stale", "not_applicable", TREASURY | {"face.date": "01/15/2026"}),
        ("date-stale", "not_applicable", {"face.date": "01/05/2026", "counter.on": "2027-01-07"}),
        ("date-overdue", "not_applicable", {"face.date": "01/15/2026"}),
        ("date-overdue", "not_applicable", TREASURY | {"face.date": "07/15/2026"}),
        ("date-last-january", "not_applicable", TREASURY | {"face.date": "01/05/2026", "counter.on": "2027-01-07"}),
        ("date-past-printed-limit", "not_applicable", {"face.legends": "NOT VALID OVER $500.00"}),
        ("date-past-printed-limit", "unread", {"face.legends": LEGEND, "face.date": "(null)"}),
        ("date-past-printed-limit", "held", {"face.legends": "EXPIRES 11/24/2026", "face.date": "(null)"}),
        ("date-past-printed-limit", "found", {"face.legends": "EXPIRES 11/23/2026", "face.date": "(null)"}),
    ],
)
def test_what_did_not_run_and_what_does_not_apply(rule: str, outcome: str, patch: dict[str, Any]) -> None:
    assert cf.examine(cf.read(cf.parse(patched(patch))), cf.Policy()).outcomes[rule] == outcome


@pytest.mark.parametrize("limit", ["house", "cash_back"])
def test_a_limit_that_the_house_has_unset_is_not_asked(limit: str) -> None:
    rule = {"house": "amount-over-house-limit", "cash_back": "cash-back-over-house-limit"}[limit]
    patch = {"counter.amount": "9,000.00", "counter.purchase": "45.10"}
    assert rule in found(patch)
    examined = cf.examine(cf.read(cf.parse(patched(patch))), house(f'[limits]\n{limit} = ""'))
    assert examined.outcomes[rule] == "not_applicable"


def test_a_rule_speaks_of_its_own_faults_only() -> None:
    line = "⑆071098973⑆ 456011224560112245601122⑈ 1043 27 99 12"
    examination = cf.examine(cf.read(cf.parse(patched({"face.micr": line}))), cf.Policy())
    lengths = [finding.message for finding in examination.findings if finding.rule == "micr-field-too-long"]
    assert lengths == ["The line should have at most 20 characters in the On-Us field, and has 39 characters."]
    long = cf.examine(cf.read(cf.parse(patched({"face.micr": LINE * 3}))), cf.Policy())
    for finding in long.findings:
        if finding.rule == "micr-field-too-long":
            assert "at most 20 characters" in finding.message
        elif finding.rule == "micr-malformed":
            assert "characters in" not in finding.message


def test_labels_name_what_they_stand_under() -> None:
    routing, account = found({"face.micr": "⑆0710?8973⑆ 4560?122⑈ 1043"})["micr-unread-character"].labels
    assert (routing.start, routing.end, routing.words) == (1, 10, "only 071098973 fits")
    assert (account.start, account.end, account.words, account.primary) == (12, 20, "", False)
    account, serial = found({"face.micr": "⑆071098973⑆ 1043⑉45601122⑈", "face.serial": ""})[
        "micr-layout-ambiguous"
    ].labels
    assert (account.words, account.primary) == ("the account number", True)
    assert (serial.words, serial.primary) == ("the serial number", False)
    (figures,) = found({"face.figures": " 4510"})["figures-unclear"].labels
    assert (figures.reading, figures.start, figures.end) == ("face.figures", 1, 5)


def test_a_label_stands_under_the_very_characters() -> None:
    patches = {
        "routing-checksum": ({"face.micr": "⑆071098974⑆ 45601122⑈ 1043"}, "4"),
        "micr-auxiliary-on-us": ({"face.micr": "⑈001043⑈ ⑆071098973⑆ 45601122⑈"}, "001043"),
        "routing-unassigned-prefix": ({"face.micr": "⑆450000004⑆ 45601122⑈ 1043"}, "45"),
        "micr-amount-encoded": ({"face.micr": f"{LINE} ⑇0000004510⑇"}, "0000004510"),
        "fraction-differs": ({"face.fraction": "70-9987/710"}, "9987"),
        "amounts-disagree": ({"face.figures": "$54.10"}, "54.10"),
        "date-stale": ({"face.date": " 2/13/2026"}, "2/13/2026"),
        "amount-over-printed-limit": ({"face.legends": "NOT VALID OVER $10.00"}, "$10.00"),
    }
    for rule, (patch, characters) in patches.items():
        primary, *others = found(patch)[rule].labels
        text = patched(patch)["face"][primary.reading.removeprefix("face.")]
        assert text[primary.start : primary.end] == characters, rule
        assert primary.primary
        assert not any(label.primary for label in others)


def test_words_that_settle_the_figures_leave_no_larger_amount_behind() -> None:
    policy = '[limits]\nhouse = "500.00"\ncash_back = "20.00"'
    assert found({"face.figures": "4510"}, policy).keys() == {"figures-unclear"}
    assert "amount-over-house-limit" in found({"face.figures": "4510", "face.words": ""}, policy)
    assert "amount-over-house-limit" in found({"face.figures": "4510", "face.words": "(absent)"}, policy)


@pytest.mark.parametrize("path", ["counter.amount", "face.figures", "face.words"])
def test_an_amount_over_the_limit_cannot_be_hidden_by_writing_less_elsewhere(path: str) -> None:
    value = "Twenty-five thousand and 01/100" if path == "face.words" else "25,000.01"
    assert "amount-over-conversion-limit" in found({path: value})
    assert "amount-over-conversion-limit" not in found({"counter.amount": "25000.00"})
    line = f"{LINE} ⑇0002500001⑇"
    assert "amount-over-conversion-limit" in found({"face.micr": line})


def test_new_york_follows_clear_figures_where_the_words_are_ambiguous() -> None:
    """N.Y. UCC 3-118(c). A manager decides all the same; the message says which amount the law would take."""
    ends = " In New York the box then counts: $20.10."
    unclear = {"face.words": "twenty ten", "face.figures": "$20.10"}
    there = {"face.micr": "⑆021393453⑆ 45601122⑈ 1043", "face.fraction": "50-9345/213"}
    assert found(unclear | there)["words-unclear"].message.endswith(ends)
    assert found(unclear | {"face.fraction": ""}, 'state = "NY"')["words-unclear"].message.endswith(ends)
    assert "New York" not in found(unclear, 'state = "NY"')["words-unclear"].message  # an Illinois bank
    assert "New York" not in found(unclear | there | {"face.figures": "2010"})["words-unclear"].message
    assert found(unclear | there)["words-unclear"].effect is Effect.REFER


def test_a_house_s_own_lower_limit_bars_conversion() -> None:
    policy = '[limits]\nconversion = "45.09"'
    message = found({}, policy)["amount-over-conversion-limit"].message
    assert message == "$45.10, and at most $45.09 may be converted. Keep it."
    assert not found({}, '[limits]\nconversion = "45.10"')


def test_a_january_slip_is_referred_and_every_other_year_old_check_declined() -> None:
    slip = found({"face.date": "01/05/2026", "counter.on": "2027-01-07"})
    assert "date-stale" not in slip
    assert slip["date-last-january"].effect is Effect.REFER
    for written in ("01/13/2026", "12/30/2025", "01/05/2025"):
        assert found({"face.date": written, "counter.on": "2027-01-07"})["date-stale"].effect is Effect.DECLINE
    # Day first it is the first of August, 159 days old: the order is no proof.
    open_ = found({"face.date": "01/08/2026", "counter.on": "2027-01-07"})
    assert open_["date-stale"].effect is Effect.REFER
    term = found({"face.date": "01/05/2026", "counter.on": "2027-01-07", "face.legends": "VOID AFTER 90 DAYS"})
    assert term["date-past-printed-limit"].effect is Effect.DECLINE


# Whatever a part could not make out or settle, some rule of its family says so: no fault falls through.
SYMBOLS = st.sampled_from("⑆⑈⑇⑉? 0123456789x")
edits = st.lists(st.tuples(st.integers(0, 26), st.sampled_from(["put", "drop", "set"]), SYMBOLS), max_size=4)


def edited(text: str, changes: list[tuple[int, str, str]]) -> str:
    for place, how, mark in changes:
        text = text[:place] + (mark if how != "drop" else "") + text[place + (how != "put") :]
    return text


def worst(patch: dict[str, Any], *families: str) -> Effect:
    return max((f.effect for f in found(patch).values() if FAMILIES[f.rule] in families), default=Effect.NOTE)


@given(st.sampled_from([LINE, "⑈001043⑈ ⑆071098973⑆ 45601122⑈", f"{LINE} ⑇0000004510⑇"]), edits)
def test_nothing_open_in_the_line_goes_unsaid(line: str, changes: list[tuple[int, str, str]]) -> None:
    patch = {"face.micr": edited(line, changes), "face.fraction": "(absent)"}
    read = cf.read(cf.parse(patched(patch))).micr
    effect = worst(patch, "micr_line", "micr_marks", "routing")
    if not isinstance(read, MicrLine) or read.faults:
        lowest = Effect.KEEP if isinstance(read, MicrLine) and read.unread else Effect.REFER
        assert effect >= lowest
    elif not read.settled or read.auxiliary is not None or read.amount_cents is not None or not read.serial:
        assert effect >= Effect.KEEP


@given(st.text(st.sampled_from("$0123456789.,/ -*SOl€xK"), max_size=12), st.booleans())
def test_nothing_open_in_the_figures_goes_unsaid(text: str, with_words: bool) -> None:
    patch = {"face.figures": text} | ({} if with_words else {"face.words": "(absent)"})
    figures = cf.read(cf.parse(patched(patch))).figures
    if isinstance(figures, Fault) or (figures is not None and figures.verdict != "clear"):
        assert found(patch).keys() & {"figures-unclear", "figures-blank", "amount-zero"}
    if isinstance(figures, Fault) and figures.kind != "figures-blank":
        assert worst(patch, "amounts", "limits") >= Effect.REFER


@given(
    st.lists(
        st.sampled_from(
            [
                "forty",
                "fourty",
                "five",
                "and",
                "10/100",
                "ten",
                "twenty",
                "no",
                "zero",
                "void",
                "apples",
                "45",
                "dollars",
            ]
        ),
        max_size=6,
    )
)
def test_nothing_open_in_the_words_goes_unsaid(pieces: list[str]) -> None:
    patch = {"face.words": " ".join(pieces)}
    read = cf.read(cf.parse(patched(patch)))
    if isinstance(read.words, Fault) and read.words.kind != "words-blank":
        assert worst(patch, "amounts", "limits") >= Effect.REFER
    elif read.comparison is not None and read.comparison.outcome not in ("agree", "incomplete"):
        assert worst(patch, "amounts") >= Effect.REFER


@given(st.text(st.sampled_from("0123456789/-. Nov'ember,_"), max_size=12))
def test_nothing_open_in_the_date_goes_unsaid(text: str) -> None:
    patch = {"face.date": text}
    date = cf.read(cf.parse(patched(patch))).date
    said = found(patch).keys() & {entry for entry, family in FAMILIES.items() if family in ("dates", "age")}
    if not isinstance(date, cf.dates.CheckDate) or date.date is None or date.order_unclear or date.repairs:
        assert said
