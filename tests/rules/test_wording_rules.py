"""What the paper says of returns, of conversion, of a second signature and of days to come, phrase by phrase."""

from __future__ import annotations

import re
import tomllib
from typing import Any

import pytest
from clean_tender import house, patched
from test_lane_rules import found

import checkface as cf
from checkface import tables
from checkface.findings import Effect

ON = "2026-11-24"


@pytest.mark.parametrize(
    ("legends", "effect"),
    [
        ("NOT VALID BEFORE 12/01/2026", "decline"),
        ("DO NOT CASH UNTIL 12/1/2026", "decline"),
        ("NOT VALID BEFORE 11/24/2026", None),
        ("DO NOT CASH UNTIL 11/01/2026", None),
        ("HOLD UNTIL FRIDAY", "refer"),
        ("POST DATED", "refer"),
        ("POST-DATED CHECK", "refer"),
        ("DO NOT CASH UNTIL I CALL", "refer"),
        ("NOT VALID BEFORE 13/45/2026", "refer"),
        ("DO NOT CASH UNTIL 12/1", "refer"),
        ("HOLD 10 DAYS", "decline"),
        ("VOID AFTER 90 DAYS", None),
        ("VOID IF NOT CASHED BEFORE 12/31/2026", None),
        ("", None),
    ],
)
def test_not_before(legends: str, effect: str | None) -> None:
    hit = found({"face.legends": legends}).get("date-before-printed")
    assert (hit and str(hit.effect)) == effect


def test_both_a_day_that_has_come_and_one_that_nobody_can_tell() -> None:
    findings = cf.assess(patched({"face.legends": "NOT VALID BEFORE 11/01/2026\nHOLD UNTIL I CALL"}), house()).findings
    assert [(f.rule, str(f.effect)) for f in findings] == [("date-before-printed", "refer")]


def test_days_of_holding_count_from_the_date_of_the_check() -> None:
    held = {"face.legends": "HOLD 10 DAYS"}
    assert "date-before-printed" not in found(held | {"face.date": "11/14/2026"})
    assert found(held | {"face.date": "11/15/2026"})["date-before-printed"].effect is Effect.DECLINE
    assert found(held | {"face.date": ""})["date-before-printed"].effect is Effect.REFER


STAMPS = {
    "already-returned": [
        "NSF", "N.S.F.", "RETURNED", "RETURN REASON", "RETURN REASON - A", "ACCOUNT CLOSED", "ACCT CLOSED", "STOP PAYMENT",
        "PAYMENT STOPPED", "REFER TO MAKER", "INSUFFICIENT FUNDS", "UNCOLLECTED FUNDS", "RETURNED UNPAID 11/20/2026",
        "UNABLE TO LOCATE ACCOUNT", "DO NOT REDEPOSIT", "RETURNED\nFEE 25", "RETURNED CHECK", "RTM", "UTLA",
    ],
    "already-converted": [
        "PAID ELECTRONICALLY", "USED FOR ONE DEBIT - NO DEPOSIT", "VOID - ONE DEBIT 11/20/2026", "PAID BY ACH",
    ],
    "legend-void": ["PAID", "PAID 11/20/2026", "PAID\nSPECIMEN BANK"],
    "conditional-wording": ["FINAL PAYMENT", "FINAL PMT", "full and final", "FULL & FINAL PAYMENT", "LAST PAYMENT"],
    "legend-not-convertible": [
        "DO NOT CONVERT", "NOT FOR ELECTRONIC CONVERSION", "NO ACH", "NOT ELIGIBLE FOR ELECTRONIC CHECK CONVERSION",
        "PAPER ONLY", "ELECTRONIC CONVERSION NOT ALLOWED", "DO NOT PROCESS ELECTRONICALLY",
    ],
    "second-signature-asked": [
        "TWO SIGNATURES REQUIRED", "2 SIGNATURES REQUIRED", "NOT VALID UNLESS COUNTERSIGNED", "VOID UNLESS COUNTERSIGNED",
        "NOT VALID WITHOUT TWO SIGNATURES", "TWO SIGNATURES REQUIRED OVER $500.00",
    ],
    "amount-over-printed-limit": ["VOID OVER FORTY DOLLARS", "VOID IF OVER TWENTY DOLLARS", "NOT VALID OVER FORTY-FIVE DOLLARS"],
}  # fmt: skip


@pytest.mark.parametrize(("rule", "text"), [(rule, text) for rule, texts in STAMPS.items() for text in texts])
def test_each_stamp_is_found_alone_and_amid_other_print(rule: str, text: str) -> None:
    for legends in (text, f"MEMBER FDIC\n{text}\nDOLLARS", text.lower()):
        assert rule in found({"face.legends": legends}), legends


@pytest.mark.parametrize("text", ["VOID OVER FIFTY DOLLARS", "VOID OVER FORTY-SIX DOLLARS"])
def test_a_limit_in_words_that_the_amount_keeps_is_none_broken(text: str) -> None:
    assert "amount-over-printed-limit" not in found({"face.legends": text})


def printed() -> list[tuple[str, str]]:
    """What the steps of handling print on a check, as far as it is more than what a customer may write, and where."""
    steps = tomllib.loads((tables.folder() / "handling.toml").read_text("utf-8"))["step"]
    texts = [
        (s["where"], s.get("text", "")) for s in steps if s["who"] == "printer" or s["does"] == "write-endorsement"
    ]
    return [
        (where, text)
        for where, text in texts
        if where.startswith(("front", "back")) and re.search("[A-Za-z]", re.sub("{.*?}", "", text))
    ]


def test_something_is_printed_on_both_sides() -> None:
    assert {where.partition(":")[0] for where, _ in printed()} == {"front", "back"}


@pytest.mark.parametrize(("where", "text"), printed())
def test_what_we_print_on_a_check_ourselves_is_known_when_it_comes_back(where: str, text: str) -> None:
    said = text.format(house="Quillfeather Grocery", here="7 / 3", date="11/20/2026", amount="$45.10")
    reading = "face.legends" if where.startswith("front") else "face.endorsements"
    for shown in (said, said.lower()):
        findings = found({reading: shown})
        assert {"already-converted", "already-endorsed"} & findings.keys()
        assert max(finding.effect for finding in findings.values()) is Effect.DECLINE
    if "DEBIT" in text:
        assert "already-converted" in found({"face.legends": said})
        assert "already-converted" in found({"face.endorsements": said})


FEDERAL = [("000000518", "treasury-check"), ("000008002", "postal-money-order"), ("000000505", "treasury-check")]


@pytest.mark.parametrize(("routing", "kind"), FEDERAL)
def test_a_federal_number_that_leaves_two_kinds_open_says_so(routing: str, kind: str) -> None:
    patch: dict[str, Any] = {"face.micr": f"⑆{routing}⑆ 45601122⑈ 1043", "counter.declared_kind": "(absent)"}
    open_kinds = found(patch)
    assert open_kinds["treasury-check"].message == ("Perhaps a Treasury check: keep it.")
    assert open_kinds["postal-money-order"].message == ("Perhaps a postal money order: keep it.")
    settled = found(patch | {"counter.declared_kind": kind})
    assert not settled[kind].message.startswith("Perhaps")
    assert settled[kind].effect is open_kinds[kind].effect is Effect.KEEP


def test_an_official_check_may_be_either_until_something_says_which() -> None:
    either = found({"face.legends": "OFFICIAL CHECK", "counter.declared_kind": "(absent)", "face.drawer": "(absent)"})
    assert either["cashiers-check"].message == "Perhaps a cashier's check: keep it."
    assert found({"face.legends": "CASHIER'S CHECK"})["cashiers-check"].message == ("Cashier's check: keep it.")
