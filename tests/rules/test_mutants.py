"""What the rules do at their edges: the last value that holds and the first that does not, second grades, second items.

Mutation testing asked for these: each holds a behaviour that a small change of a rule could lose unseen.
"""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from clean_tender import CLEAN, patched
from test_lane_rules import found
from test_records import LICENCE, Past

import checkface as cf
from checkface.findings import Effect, Finding, Outcome, Remedy
from checkface.policy import PolicyError
from checkface.rules.history import AccountPast, Seen
from checkface.rules.registry import parse_explanation


def test_a_comma_in_one_name_is_no_second_payee() -> None:
    assert "several-payees" not in found({"face.payee": "Ada Sample, Jr"})


def test_a_fraction_that_differs_twice_says_both_and_leaves_its_district_to_another_rule() -> None:
    examination = cf.examine(cf.read(cf.parse(patched({"face.fraction": "90-9987/110"}))), cf.Policy())
    assert [finding.message for finding in examination.findings if finding.rule == "fraction-differs"] == [
        "The fraction does not match the bottom line: 0110, not 0710.",
        "The fraction does not match the bottom line: 9987, not 9897.",
    ]


def test_only_new_york_lets_figures_govern() -> None:
    unclear = {"face.words": "twenty ten", "face.figures": "$20.10", "face.fraction": ""}
    for state in ("CA", "OH", "WY", ""):
        message = found(unclear, f'state = "{state}"')["words-unclear"].message
        assert message == "The words may say $2,010.00 or $20.10."


@pytest.mark.parametrize(
    ("patch", "rule", "setting", "effect"),
    [
        # A raised effect holds for both grades, and never betters the stricter of them.
        ({"face.signature": False}, "signature-missing", "decline", Effect.DECLINE),
        ({"face.date": "5/15"}, "date-without-year", "decline", Effect.DECLINE),
        ({"face.date": "11/24"}, "date-without-year", "decline", Effect.DECLINE),
        ({"face.payee": "(null)"}, "payee-blank", "keep", Effect.REFER),
        ({"face.payee": ""}, "payee-blank", "keep", Effect.KEEP),
        # A lowered one, or the book's own, replaces both.
        ({"face.date": "5/15"}, "date-without-year", "keep", Effect.KEEP),
        ({"face.date": "5/15"}, "date-without-year", "refer", Effect.REFER),
        ({"face.date": "11/24"}, "date-without-year", "note", Effect.NOTE),
        ({"face.words": "twenty ten"}, "words-unclear", "refer", Effect.REFER),
    ],
)
def test_what_a_house_sets_against_the_grade_of_a_finding(
    patch: dict[str, Any], rule: str, setting: str, effect: Effect
) -> None:
    assert found(patch, f'[effects]\n{rule} = "{setting}"')[rule].effect is effect


def test_a_kind_has_its_effect_as_floor_unless_a_house_may_convert_it() -> None:
    floors = {entry.id: entry.floor for entry in cf.rules() if entry.family == "kinds" and entry.floor is not None}
    own = {entry.id: entry.effect for entry in cf.rules() if entry.id in floors}
    assert floors == own
    assert {"other-check", "savings-bond", "money-order", "counter-check"} <= floors.keys()
    assert floors.keys().isdisjoint({"business-check", "payroll-check"})


def recorded(past: Past, patch: dict[str, Any] | None = None, **house: Any) -> dict[str, Finding]:
    tender = patched({"documents": LICENCE, **(patch or {})})
    return {finding.rule: finding for finding in cf.assess(tender, cf.Policy(history=house), past).findings}


def test_the_records_name_their_figures() -> None:
    busy = recorded(Past(past=AccountPast(6, 123_456, "9000", ()), accounts=5), amount="1000.07", days=3)
    assert {rule: busy[rule].message for rule in ("velocity-count", "velocity-amount", "id-many-accounts")} == {
        "velocity-count": "7 checks of this account in 3 days, with this one; the house takes 5.",
        "velocity-amount": "$1,279.66 of this account in 3 days, with this check; the house takes $1,000.07.",
        "id-many-accounts": "This document was shown with 5 accounts; the house allows 3.",
    }


@pytest.mark.parametrize(
    ("taken_as", "effect"), [("converted", Effect.DECLINE), ("kept", Effect.DECLINE), ("returned", Effect.NOTE)]
)
def test_only_a_check_handed_back_untaken_may_come_again(taken_as: str, effect: Effect) -> None:
    assert recorded(Past(seen=Seen(date(2026, 11, 17), taken_as)))["item-seen-before"].effect is effect


def test_the_window_of_the_records_ends_on_the_day_of_tender_and_holds_that_many_days() -> None:
    past = Past()
    recorded(past, days=1)
    assert past.asked_window == (date(2026, 11, 24), date(2026, 11, 24))


@pytest.mark.parametrize(
    ("gap", "last", "far"),
    [(10, "1033", False), (10, "1032", True), (10, "1040", False), (10, "1053", False), (10, "1054", True)],
)
def test_a_serial_may_lie_the_whole_gap_away_on_either_side(gap: int, last: str, far: bool) -> None:
    past = Past(past=AccountPast(1, 1, last, ()))
    assert ("serial-far-from-last" in recorded(past, serial_gap=gap)) is far


@pytest.mark.parametrize(
    ("drawer", "earlier", "changed"),
    [
        ("Quentin Testwell", ("Ada Sample",), True),
        ("Quentin Testwell", ("Ada Sample", "Quentin  TESTWELL"), False),
        ("Zed & Zed Partners LLC", ("zed & zed  partners llc\n1 Example Lane",), False),
        ("Quentin Testwell", (), False),
    ],
)
def test_a_drawer_is_known_by_any_of_the_names_before(drawer: str, earlier: tuple[str, ...], changed: bool) -> None:
    past = Past(past=AccountPast(1, 1, None, earlier))
    assert ("drawer-changed" in recorded(past, {"face.drawer": drawer})) is changed


def test_the_printed_number_serves_where_the_line_has_no_serial() -> None:
    past = Past(seen=Seen(date(2026, 11, 17), "kept"))
    assert "item-seen-before" in recorded(past, {"face.micr": "⑆071098973⑆ 45601122⑈", "face.serial": "77"})
    assert past.asked == ("071098973", "45601122", "77")


def test_an_account_behind_a_wrong_check_digit_is_not_looked_up() -> None:
    past = Past(listed=True)
    outcomes = cf.assess(patched({"face.micr": "⑆071098974⑆ 45601122⑈ 1043"}), history=past).examination.outcomes
    assert outcomes["account-on-house-list"] is Outcome.UNREAD
    assert past.asked == ()


# Second grades, second items, and the value on either side of a limit.

TREASURY = {"face.micr": "⑆000000518⑆ 45601122⑈ 1043", "face.fraction": "", "counter.declared_kind": ""}
DAYS = "[dates]\noverdue_days = 1\nstale_days = 2"
CARD = "@\n\u001e\rANSI 636035100002DL00410278ZV03190008DLDAQA12345678901\nDCSSAMPLE\nDACADA\nDCGUSA\nDAJIL\n"
HOME = {"face.drawer": "Ada Sample\n12 Example Lane\nSpringfield IL 62701"}
NEAR = CARD + "DBA05012029\nDAG12 EXAMPLE LANE\nDAISPRINGFIELD\nDAK627010000  \r"
FAR = NEAR.replace("62701", "62704")
POSTAL = {
    "face.legends": "UNITED STATES POSTAL MONEY ORDER",
    "face.fraction": "",
    "counter.declared_kind": "postal-money-order",
}


@pytest.mark.parametrize(
    ("patch", "policy", "rule", "message"),
    [
        ({"face.date": "11/25/2026"}, "", "date-in-future",
         "Dated 11/25/2026, 1 day ahead."),
        ({"face.date": "11/26/2026"}, "", "date-in-future",
         "Dated 11/26/2026, 2 days ahead."),
        ({"face.date": "11/22/2026"}, DAYS, "date-overdue",
         "Dated 11/22/2026, 2 days ago: overdue after 1 day."),
        ({"face.date": "11/21/2026"}, DAYS, "date-stale",
         "Dated 11/21/2026, 3 days ago, and this house takes a check for 2 days."),
        (TREASURY | {"face.date": "02/29/2024", "counter.on": "2025-03-01"}, "", "treasury-past-year",
         "Dated 02/29/2024, more than twelve months ago."),
        (TREASURY | {"face.date": "02/28/2023", "counter.on": "2024-02-29"}, "", "treasury-past-year",
         "Dated 02/28/2023, more than twelve months ago."),
        ({"face.date": "Tusday, Novenber 24, 2026"}, "", "date-repaired",
         "A word of the date is misspelled; it was taken for Tuesday."),
        ({"face.words": "Fourty-eigth and 10/100", "face.figures": "$48.10", "counter.amount": "48.10"}, "",
         "words-repaired", '"Fourty" is misspelled and was taken for "forty".'),
        ({"face.words": "Fourty-eigth and 10/100", "face.figures": ""}, "", "words-unclear",
         'The words seem to say $48.10, and the box does not confirm it: "Fourty" was taken for forty.'),
        ({"face.figures": "12 34", "face.words": ""}, "", "figures-unclear",
         "The box seems to say $12.34: "),
        ({"face.figures": "S4510", "face.words": ""}, "", "figures-unclear",
         "The box may say $4,510.00 or $45.10 or $54,510.00."),
        ({"face.figures": "S4510", "face.words": "", "counter.amount": "1.00"}, "", "amount-differs-from-keyed",
         "The box says $4,510.00 or $45.10 or $54,510.00, but $1.00 is keyed."),
        ({"counter.micr_by": "keyed"}, "", "micr-keyed", "The bottom line was keyed by hand."),
        ({"face.micr": "(null)"}, "", "micr-not-read",
         "The reader could not make out the bottom line."),
        ({"face.micr": "5⑆071098973⑆ 45601122⑈ 1043"}, "", "micr-qualified-return",
         "The line is that of a returned check: processing code 5."),
        ({"face.micr": "⑆12345⑉678⑆ 45601122⑈"}, "", "micr-foreign",
         "The bottom line is that of a Canadian check."),
        ({"face.drawer": "(null)"}, "", "drawer-not-printed",
         "The printed name cannot be read."),
        ({"face.serial": "none"}, "", "serial-not-printed", "No digits stand where the check number should be."),
        ({"face.alterations": "(null)"}, "", "altered", "Nobody can make out whether something on it was changed."),
        ({"face.legends": "PAYROLL MONEY ORDER"}, "", "kind-contradicts-declared",
         "Declared a personal check, but the paper says money order, payroll check."),
        ({"face.legends": "PAYROLL"}, '[kinds]\naccepted = ["money-order"]', "kind-not-accepted",
         "This house does not take: payroll check, personal check."),
        ({"documents": [{"kind": "library-card"}, {"kind": "drivers-license", "barcode": "x", "state": "17"}]},
         '[identity]\naccepted_kinds = ["passport"]', "id-kind-not-accepted",
         "This house does not accept: an unknown kind, driver's license."),
        (HOME | {"documents": [{"barcode": NEAR}, {"barcode": FAR}]}, "", "id-address-differs",
         "The address on the card differs from the check's: the postal codes differ."),
        (HOME | {"documents": [{"barcode": FAR}, {"barcode": NEAR}]}, "", "id-address-differs",
         "The address on the card differs from the check's: the postal codes differ."),
        ({"documents": [LICENCE[0] | {"name": "Ben Example"}, LICENCE[0] | {"name": "Sample A"}]}, "",
         "drawer-differs-from-id", "The names on card and check may differ: "),
        ({"documents": [LICENCE[0] | {"name": "Ada Example"}]}, "", "drawer-differs-from-id",
         "The names on card and check may differ: the given name agrees, the family name "),
        ({"documents": [{"barcode": "x"}, {"barcode": "scratched"}]}, "", "id-barcode-unreadable",
         "The barcode should hold the payload of an identification card, and holds 1 other characters."),
        ({"documents": [{"barcode": CARD + "DBA05012029\nDBB11252008\r"}]}, "", "id-under-age",
         "The holder of the card is under 18."),
        ({"documents": [{"barcode": CARD + "DBA05012029\nDBB11241999\r"}]}, "[identity]\nminimum_age = 28",
         "id-under-age", "The holder of the card is under 28."),
    ],
)  # fmt: skip
def test_a_message_counts_and_names_what_was_read(patch: dict[str, Any], policy: str, rule: str, message: str) -> None:
    read = found(patch, policy)[rule].message
    assert read.startswith(message) if message.endswith(" ") else read == message


@pytest.mark.parametrize(
    ("patch", "policy", "rule", "hit"),
    [
        ({"face.date": "08/26"}, "", "date-without-year", Effect.NOTE),  # 90 days ago
        ({"face.date": "08/25"}, "", "date-without-year", Effect.REFER),
        ({"face.date": "11/25"}, "", "date-without-year", Effect.REFER),
        ({"face.date": "11/20"}, "", "date-without-year", Effect.NOTE),
        ({"face.date": "11/23/2026"}, DAYS, "date-overdue", None),
        ({"face.date": "11/22/2026"}, DAYS, "date-stale", None),
        ({"face.date": "11/21/2026"}, DAYS, "date-overdue", None),
        (TREASURY | {"face.date": "02/29/2024", "counter.on": "2025-02-27"}, "", "treasury-past-year", None),
        (TREASURY | {"face.date": "02/29/2024", "counter.on": "2025-02-28"}, "", "treasury-past-year", Effect.REFER),
        (TREASURY | {"face.date": "02/28/2023", "counter.on": "2024-02-27"}, "", "treasury-past-year", None),
        # A term of its own belongs to the item whose number is the government's and of that kind.
        (POSTAL | {"face.date": "01/15/2026"}, "", "date-stale", Effect.DECLINE),
        (POSTAL | {"face.date": "07/15/2026"}, "", "date-overdue", Effect.NOTE),
        (POSTAL | {"face.date": "01/15/2026", "face.micr": "⑆000000518⑆ 45601122⑈ 1043"}, "", "date-stale",
         Effect.REFER),
        (POSTAL | {"face.date": "01/15/2026", "face.micr": "⑆000000204⑆ 45601122⑈ 1043"}, "", "date-stale", None),
        ({"face.legends": "VOID AFTER 90 DAYS", "face.date": "08/26/2026"}, "", "date-past-printed-limit", None),
        ({"face.legends": "PAYROLL"}, '[kinds]\nconvertible = ["payroll"]', "payroll-check", None),
        ({"face.legends": "PAYROLL"}, '[kinds]\nconvertible = ["personal", "business"]', "payroll-check", Effect.KEEP),
        ({}, '[kinds]\naccepted = ["personal"]', "kind-not-accepted", None),
        ({"counter.declared_kind": "payroll"}, "", "kind-contradicts-declared", None),
        ({"counter.declared_kind": "payroll", "face.legends": "MONEY ORDER"}, "", "kind-contradicts-declared", None),
        ({"documents": [{"kind": "library-card"}, CLEAN["documents"][0]]}, "", "id-kind-not-accepted", None),
        ({"documents": [{"kind": "library-card"}, CLEAN["documents"][0]]}, "", "id-not-photo", None),
        ({"documents": [CLEAN["documents"][0] | {"expires": "2020-05-01"}, CLEAN["documents"][0]]}, "", "id-expired",
         None),
        ({"documents": [CLEAN["documents"][0] | {"expires": "2026-11-24"}]}, "", "id-expired", None),
        ({"documents": [CLEAN["documents"][0] | {"expires": "2026-11-24"}]},
         "[identity]\nday_of_expiry_good = false", "id-expired", Effect.REFER),
        ({"documents": [{"barcode": CARD + "DBA05012029\nDBB11242008\r"}]}, "", "id-under-age", None),
        ({"documents": []}, "[identity]\nrequired = false", "id-missing", None),
        ({"counter.store": "9"}, '[conversion]\nstores = ["7"]', "conversion-not-accepted-here", Effect.KEEP),
        ({"counter.store": "7"}, '[conversion]\nstores = ["7"]', "conversion-not-accepted-here", None),
        ({}, "[conversion]\noffered = false", "conversion-not-accepted-here", Effect.KEEP),
        ({"counter.store": "7"}, '[conversion]\noffered = false\nstores = ["7"]', "conversion-not-accepted-here",
         Effect.KEEP),
        ({"face.endorsements": "(null)"}, "", "already-endorsed", Effect.REFER),
        ({"face.signature": "(null)"}, "", "signature-missing", Effect.REFER),
        ({"face.figures": "(null)", "face.words": "Fourty-eigth and 10/100"}, "", "figures-unclear", Effect.REFER),
        ({"face.figures": "4510"}, "", "figures-unclear", Effect.NOTE),
        ({"face.micr": "⑆071098973⑆ 45601122⑈ 0001043"}, "", "serial-differs", None),
        ({"counter.amount": "0.01", "face.words": "", "face.figures": ""}, "", "amount-zero", None),
        ({"face.figures": "1.2.3"}, "", "amount-zero", None),
        ({}, '[limits]\nconversion = "0.00"', "amount-over-conversion-limit", Effect.KEEP),
        ({}, '[limits]\nhouse = "0.00"', "amount-over-house-limit", Effect.REFER),
        ({"counter.purchase": "45.09"}, '[limits]\ncash_back = "0.00"', "cash-back-over-house-limit", Effect.REFER),
        ({}, '[limits]\ncash_back = "0.00"', "cash-back-over-house-limit", None),
        ({"face.words": "", "face.figures": "4510", "counter.amount": "4510.00"}, "", "amount-differs-from-keyed",
         None),
        ({"face.words": "twenty ten", "face.figures": "", "counter.amount": "20.10"}, "", "amount-differs-from-keyed",
         None),
        ({"counter.amount": "45.11"}, "", "amount-differs-from-keyed", Effect.REFER),
        ({"face.words": "", "counter.amount": "45.11"}, "", "amount-differs-from-keyed", Effect.DECLINE),
        ({"face.words": "twenty ten", "face.figures": "", "counter.amount": "20.11"}, "", "amount-differs-from-keyed",
         Effect.DECLINE),
    ],
)  # fmt: skip
def test_the_last_value_that_holds_and_the_first_that_does_not(
    patch: dict[str, Any], policy: str, rule: str, hit: Effect | None
) -> None:
    finding = found(patch, policy).get(rule)
    assert (finding and finding.effect) == hit


@pytest.mark.parametrize(
    ("patch", "rule", "remedy"),
    [
        ({"face.signature": "(null)"}, "signature-missing", Remedy.REREAD),
        ({"face.payee": "(null)"}, "payee-blank", Remedy.REREAD),
        ({"face.serial": "(null)"}, "serial-not-printed", Remedy.REREAD),
        ({"face.serial": ""}, "serial-not-printed", Remedy.NONE),
        ({"face.endorsements": "(null)"}, "already-endorsed", Remedy.REREAD),
        ({"face.alterations": "(null)"}, "altered", Remedy.REREAD),
        ({"face.legends": "NOT VALID OVER $____"}, "amount-over-printed-limit", Remedy.MANAGER),
        ({"face.legends": "VOID AFTER ____ DAYS"}, "date-past-printed-limit", Remedy.MANAGER),
    ],
)
def test_what_could_not_be_read_is_read_again(patch: dict[str, Any], rule: str, remedy: Remedy) -> None:
    assert found(patch)[rule].remedy is remedy


@pytest.mark.parametrize(
    ("patch", "rule", "outcome"),
    [
        ({"face.micr": "⑆12345⑉678⑆ 45601122⑈"}, "micr-no-serial", Outcome.NOT_APPLICABLE),
        ({"face.micr": "⑆0710?8973⑆"}, "micr-no-account", Outcome.FOUND),
        ({"face.endorsements": ""}, "already-endorsed", Outcome.HELD),
        ({"face.payee": "(absent)"}, "payee-blank", Outcome.NOT_APPLICABLE),
        ({"face.serial": "(absent)"}, "serial-not-printed", Outcome.UNREAD),
        ({"face.drawer": "(absent)"}, "drawer-not-printed", Outcome.UNREAD),
        ({"face.drawer": "", "face.legends": "MONEY ORDER", "counter.declared_kind": "money-order"}, "drawer-not-printed", Outcome.NOT_APPLICABLE),
        ({"face.drawer": "", "counter.declared_kind": "money-order"}, "drawer-not-printed", Outcome.FOUND),
        ({"face.date": ""}, "date-stale", Outcome.NOT_APPLICABLE),
        ({"face.date": "", "counter.on": "(absent)"}, "date-stale", Outcome.NOT_APPLICABLE),
        ({"face.date": "(absent)"}, "date-stale", Outcome.UNREAD),
        ({"face.date": "(absent)"}, "date-unreadable", Outcome.UNREAD),
        ({"face.date": ""}, "date-unreadable", Outcome.HELD),
        ({"face.date": "(null)"}, "date-blank", Outcome.UNREAD),
        ({"face.words": "(null)"}, "words-blank", Outcome.UNREAD),
        ({"face.words": "(absent)"}, "words-blank", Outcome.UNREAD),
        ({"face.words": "(absent)"}, "words-unclear", Outcome.UNREAD),
        ({"face.words": ""}, "words-unclear", Outcome.HELD),
        ({"face.words": "", **TREASURY}, "words-blank", Outcome.NOT_APPLICABLE),
        ({"face.figures": "(null)"}, "figures-blank", Outcome.UNREAD),
        ({"face.figures": "(absent)"}, "figures-blank", Outcome.UNREAD),
        ({"face.figures": "(absent)"}, "figures-unclear", Outcome.UNREAD),
        ({"face.figures": ""}, "figures-unclear", Outcome.HELD),
        ({"face.words": "", "face.figures": ""}, "amount-differs-from-keyed", Outcome.NOT_APPLICABLE),
        ({"face.words": "", "face.figures": "(null)"}, "amount-differs-from-keyed", Outcome.UNREAD),
        ({"face.words": "(absent)", "face.figures": ""}, "amount-differs-from-keyed", Outcome.UNREAD),
        ({"counter.amount": "(absent)", "face.words": "", "face.figures": ""}, "amount-zero", Outcome.UNREAD),
        ({}, "encoded-amount-differs", Outcome.NOT_APPLICABLE),
        ({"face.micr": f"{CLEAN['face']['micr']} ⑇00000?4510⑇"}, "encoded-amount-differs", Outcome.UNREAD),
        ({"documents": [CLEAN["documents"][0] | {"is_bearer": None}]}, "id-not-bearer", Outcome.UNREAD),
        ({"documents": [CLEAN["documents"][0] | {"is_bearer": None}, CLEAN["documents"][0]]}, "id-not-bearer",
         Outcome.HELD),
        ({}, "id-barcode-unreadable", Outcome.NOT_APPLICABLE),
        ({}, "id-address-differs", Outcome.NOT_APPLICABLE),
        (HOME | {"documents": [{"barcode": NEAR}, {"barcode": NEAR}]}, "id-address-differs", Outcome.HELD),
        (HOME | {"documents": [{"barcode": NEAR.replace("12 EXAMPLE LANE", "")}]}, "id-address-differs", Outcome.HELD),
        (HOME | {"documents": [{"barcode": FAR}], "face.drawer": "Specimen Works Inc",
                 "counter.declared_kind": "payroll"}, "id-address-differs", Outcome.NOT_APPLICABLE),
        ({"documents": [LICENCE[0] | {"name": " "}]}, "drawer-differs-from-id", Outcome.UNREAD),
        ({"documents": [{"kind": "library-card", "name": "Ben Example"}]}, "drawer-differs-from-id", Outcome.UNREAD),
        ({}, "id-under-age", Outcome.NOT_APPLICABLE),
        ({"documents": [{"barcode": CARD + "DBA05012029\r"}]}, "id-under-age", Outcome.UNREAD),
        ({"documents": [CLEAN["documents"][0] | {"expires": ""}]}, "id-expired", Outcome.UNREAD),
        ({"documents": [{"kind": "library-card"}]}, "id-expired", Outcome.NOT_APPLICABLE),
    ],
)  # fmt: skip
def test_what_was_not_asked_is_no_pass(patch: dict[str, Any], rule: str, outcome: Outcome) -> None:
    examination = cf.examine(cf.read(cf.parse(patched(patch))), cf.Policy())
    assert examination.outcomes[rule] is outcome
    assert (rule in examination.unread) is (outcome is Outcome.UNREAD)


def test_every_mistake_in_the_effects_of_a_policy_is_named() -> None:
    policy = cf.Policy.model_validate(
        {"effects": {"network-dwn": "keep", "network-down": "note", "zzzzz": "keep", "words-unclear": "note"}}
    )
    with pytest.raises(PolicyError) as raised:
        cf.examine(cf.read(cf.parse(patched({}))), policy)
    assert str(raised.value).splitlines() == [
        "effects.network-dwn: Expected the id of a rule, read an unknown one; the nearest rule is 'network-down'.",
        "effects.network-down: Expected keep or stricter (practice: common-practice), read note.",
        "effects.zzzzz: Expected the id of a rule, read an unknown one.",
        "effects.words-unclear: Expected refer or stricter (law: ucc-3-114, ucc-3-302, common-practice), read note.",
    ]


@pytest.mark.parametrize(
    "docstring",
    [
        "A fault.\n\nWhat it asks: One?\nWhy it matters: Two.\nExample:\nWhat to do: Four.",
        "A fault.\n\nWhy it matters: Two.\nWhat it asks: One?\nExample: Three.\nWhat to do: Four.",
        "What it asks: One?\nWhy it matters: Two.\nExample: Three.\nWhat to do: Four.",
    ],
)
def test_an_explanation_wants_every_heading_filled_and_in_order(docstring: str) -> None:
    with pytest.raises(ValueError, match="expected a title and the headings"):
        parse_explanation("made-up", docstring)
