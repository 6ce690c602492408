"""Each disposition has its path, and circumstances narrow it down."""

from __future__ import annotations

import json

import pytest
from handling_help import AGENCY, HOUSE, does, finding, made, step

from checkface.findings import Remedy
from checkface.handling import Printing
from checkface.policy import Policy

UNTOLD = Printing()
UP, DOWN = Printing(pad="up"), Printing(pad="down")
BLANKS = {"face.payee": "", "face.date": "", "face.figures": "", "face.words": ""}


def test_convert_of_a_signed_and_filled_in_check() -> None:
    instructions = made("convert")
    assert does(instructions) == [
        "say-answer", "send-debit", "print-void", "print-back", "verify-void", "verify-back", "print-receipt",
        "print-copy", "hand-back-check", "store-authorization",
    ]  # fmt: skip
    assert step(instructions, "print-void").text == "VOID - ONE DEBIT 11/24/2026 $45.10"
    assert step(instructions, "print-void").where == "front: across the face"
    assert step(instructions, "print-back").text == (
        "USED FOR ONE DEBIT - NO DEPOSIT\nQuillfeather Grocery Store 0007 11/24/2026"
    )
    assert instructions.to_customer == ("voided check", "receipt", "authorization copy", "notice copy")
    assert instructions.to_till == ()


@pytest.mark.parametrize("patch", [{}, {"face.payee": ""}, BLANKS, dict.fromkeys(BLANKS, "(absent)")])
def test_the_front_of_a_converted_check_is_never_skipped(patch: dict[str, str]) -> None:
    assert "print-void" in does(made("convert", patch))
    assert "skip-front" not in does(made("convert", patch))


def test_an_authorization_not_yet_signed_comes_before_the_debit() -> None:
    instructions = made("convert", {"counter.authorization_signed": "(absent)"})
    assert does(instructions)[:5] == [
        "give-notice", "sign-authorization", "accept-signature", "say-answer", "send-debit",
    ]  # fmt: skip
    assert "one electronic fund transfer of $45.10" in step(instructions, "sign-authorization").text
    assert "one-time electronic fund transfer" in step(instructions, "give-notice").text


def test_with_the_pad_down_the_authorization_is_signed_on_paper_and_goes_in_the_till() -> None:
    instructions = made("convert", {"counter.authorization_signed": "(absent)"}, printing=DOWN)
    assert [(s.does, s.where) for s in instructions.steps if "sign" in s.does] == [("sign-sheet", "signature sheet")]
    assert step(instructions, "store-authorization").where == "till"
    assert instructions.to_till == ("signed sheet",)


def test_a_pad_nobody_told_us_about_leaves_both_ways_with_their_condition() -> None:
    instructions = made("convert", {"counter.authorization_signed": "(absent)"}, printing=UNTOLD)
    assert [(s.does, s.only_if) for s in instructions.steps if s.does.startswith("sign")] == [
        ("sign-authorization", "the signature pad works"),
        ("sign-sheet", "the signature pad is down"),
    ]


def test_the_paper_is_voided_after_the_answer_and_handed_back_after_a_look_at_it() -> None:
    order = does(made("convert"))
    wanted = ["send-debit", "print-void", "verify-void", "hand-back-check"]
    assert sorted(wanted, key=order.index) == wanted


def test_keep_of_a_filled_in_check_prints_nothing_but_the_endorsement() -> None:
    instructions = made("keep", {"counter.authorization_signed": False})
    assert does(instructions) == [
        "say-answer", "skip-front", "check-signature", "print-endorsement", "write-notation", "verify-back",
        "put-in-till", "hand-register-receipt",
    ]  # fmt: skip
    assert step(instructions, "print-endorsement").text == "DEPOSIT ONLY - Quillfeather Grocery\nStore 0007 11/24/2026"
    assert step(instructions, "write-notation").text == (
        "114 / QF  11/24/2026 10:32\nID drivers license IL current\nTel 217-555-0142"
    )
    assert instructions.to_customer == ("register receipt",)
    assert instructions.to_till == ("check",)
    assert instructions.receipt is None


def test_a_kept_check_handed_back_leaves_the_till_short_by_its_amount() -> None:
    last = step(made("keep"), "put-in-till")
    assert (last.where, last.text) == ("till", "check 1043 for $45.10")
    assert last.why == "A kept check that is handed back leaves the till short by $45.10."


def test_only_the_blanks_are_filled() -> None:
    instructions = made("keep", BLANKS)
    printed = [(s.where, s.text, s.only_if) for s in instructions.steps if s.who == "printer" and "front" in s.where]
    assert printed == [
        ("front: payee line", "Quillfeather Grocery", ""),
        ("front: date line", "11/24/2026", ""),
        ("front: amount box", "$45.10", ""),
        ("front: legal line", "Forty-five and 10/100", ""),
    ]
    assert "print-date" not in does(made("keep", {"face.payee": ""}))


def test_a_line_nobody_looked_at_is_filled_only_if_blank() -> None:
    assert step(made("keep", {"face.payee": "(absent)"}), "print-payee").only_if == "the payee line is blank"


def test_nothing_is_printed_over_an_illegible_line() -> None:
    assert does(made("keep", {"face.payee": "(null)"})).count("print-payee") == 0
    assert "skip-front" not in does(made("keep", {"face.payee": "(null)"}))


def test_the_customer_fills_in_what_the_house_does_not_know() -> None:
    instructions = made("keep", {"face.payee": ""}, policy=Policy())
    assert step(instructions, "fill-in").who == "customer"
    assert "print-payee" not in does(instructions)
    without_amount = {"face.figures": "(absent)", "face.words": "(absent)", "counter.amount": "(absent)"}
    assert step(made("keep", without_amount), "fill-in").only_if == "a line is blank"


def test_a_signature_sheet_goes_in_the_till_with_the_kept_check() -> None:
    instructions = made("keep", printing=DOWN)
    assert step(instructions, "sign-sheet").text.startswith("Check number 1043 for $45.10, 11/24/2026")
    assert step(instructions, "file-sheet").where == "till"
    assert instructions.to_till == ("check", "signed sheet")
    assert not {"sign-sheet", "file-sheet"} & set(does(made("keep", printing=UP)))


def test_a_signed_authorization_of_a_kept_check_is_not_used() -> None:
    assert "cancel-authorization" in does(made("keep"))
    assert "cancel-authorization" not in does(made("keep", {"counter.authorization_signed": "(absent)"}))


@pytest.mark.parametrize(
    ("kind", "wanted"),
    [("payroll", "write-endorsement"), ("treasury-check", "write-endorsement"), ("travelers-check", "countersign")],
)
def test_some_kinds_want_a_second_signature(kind: str, wanted: str) -> None:
    patch = {
        "counter.declared_kind": kind,
        "face.micr": "(absent)",
        "face.drawer": "(absent)",
        "face.drawee": "(absent)",
    }
    assert wanted in does(made("keep", patch))
    assert wanted not in does(made("keep"))


def test_refer_prints_nothing_and_shows_the_findings_to_the_manager_alone() -> None:
    instructions = made("refer")
    assert does(instructions) == ["hold-check", "say-answer", "call-manager", "read-findings", "decide"]
    assert not [s for s in instructions.steps if s.who == "printer"]
    assert [s.who for s in instructions.steps if "Found: refer." in s.text] == ["manager", "manager"]
    assert instructions.to_customer == instructions.to_till == ()


def test_refer_offers_the_cures_before_the_manager_comes() -> None:
    findings = (finding("refer", "id-missing", Remedy.SHOW_ID), finding("refer", "network-down", Remedy.REREAD))
    order = does(made("refer", findings=findings))
    wanted = ["show-identification", "read-again", "judge-again", "hold-check", "call-manager"]
    assert sorted(wanted, key=order.index) == wanted


def test_no_cure_is_offered_when_something_else_stands_in_the_way() -> None:
    findings = (finding("decline", remedy=Remedy.SIGN), finding("decline", "network-down"))
    assert "sign-check" not in does(made("decline", findings=findings))
    assert "sign-check" in does(made("decline", findings=findings[:1]))


def test_the_manager_sees_what_is_open() -> None:
    findings = (finding("keep"), finding("refer", remedy=Remedy.MANAGER))
    assert step(made("refer", findings=findings), "decide").text == (
        "To keep it, cure this: Found: refer.\nCannot be converted here: Found: refer. Found: keep."
    )


def test_decline_hands_the_check_back_with_a_slip() -> None:
    instructions = made("decline")
    assert does(instructions) == [
        "say-answer", "hand-back-check", "print-decline-slip", "ask-other-payment", "record-reason",
    ]  # fmt: skip
    slip = step(instructions, "print-decline-slip").text
    assert "217-555-0100" in slip
    assert "reason code house" in slip
    assert "Found" not in slip
    assert instructions.to_customer == ("check", "decline slip")
    assert instructions.to_till == ()


def test_the_agency_is_named_only_when_a_report_was_used() -> None:
    with_report = made("decline", agency=AGENCY)
    text = step(with_report, "give-report-notice").text
    assert all(part in text for part in AGENCY)
    assert with_report.to_customer == ("check", "decline slip", "report notice")
    assert "give-report-notice" not in does(made("decline"))
    assert "Example Reports" not in str(made("keep", agency=AGENCY).wire())


def test_the_wire_form_is_json_with_every_key() -> None:
    wire = made("convert").wire()
    assert json.loads(json.dumps(wire)) == wire
    assert {tuple(entry) for entry in wire} == {
        ("order", "stage", "who", "does", "where", "text", "why", "cite", "when", "only_if")
    }
    assert [entry["order"] for entry in wire] == list(range(1, len(wire) + 1))


def test_what_is_filled_in_is_not_looked_at_again() -> None:
    policy = Policy.parse('[house]\nname = "{serial} {nothing}"')
    assert "{serial} {nothing}" in step(made("convert", policy=policy), "print-back").text


def test_no_reading_steers_the_printer() -> None:
    notation = step(made("keep", {"counter.employee": "1\x1bm\u202e4"}), "write-notation").text
    assert notation.startswith("1 m 4 / QF")


def test_a_store_has_its_own_place() -> None:
    policy = Policy.parse('state = "IL"\n[house]\nname = "Q"\ncity = "Springfield"\n[house.stores.7]\ncity = "Decatur"')
    assert "City: Decatur\nState: IL" in step(made("convert", policy=policy), "print-receipt").text
    assert policy.place("8").city == "Springfield"
    assert HOUSE.place("").state == "IL"
