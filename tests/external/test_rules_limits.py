"""Each network bar and each limit in days, dollars or characters against its citation, value by value.

Every row names where the value is published, the last tender that is still good and the first that is not. The values
are typed here from the citation and shared with no code. The network's rule book is sold: its rows rest on published
summaries of it.
"""

from __future__ import annotations

from typing import Any, NamedTuple

import pytest
from clean_tender import patched

import checkface as cf
from checkface import authority
from checkface.authority import Force
from checkface.findings import Effect, Outcome
from checkface.rules import check_effects

LINE = "⑆071098973⑆ 45601122⑈ 1043"


class Row(NamedTuple):
    """``good`` and ``bad``: dotted paths set on a clean personal check of 24 November 2026 over $45.10."""

    source: str
    says: str
    rule: str
    effect: str
    good: dict[str, Any]
    bad: dict[str, Any]


def line(text: str) -> dict[str, Any]:
    return {"face.micr": text, "face.fraction": "(absent)", "face.serial": "(absent)"}


def dated(text: str, on: str = "2026-11-24", **more: str) -> dict[str, Any]:
    return {"face.date": text, "counter.on": on} | more


def keyed(amount: str) -> dict[str, Any]:
    return {"counter.amount": amount, "counter.purchase": amount, "face.words": "", "face.figures": ""}


def declared(kind: str) -> dict[str, Any]:
    return {"counter.declared_kind": kind}


TREASURY = {
    "face.micr": "⑆000000518⑆ 45601122⑈ 1043", "face.fraction": "(absent)", "face.serial": "(absent)",
    "counter.declared_kind": "treasury-check",
}  # fmt: skip
POSTAL = {"face.micr": "⑆000000204⑆ 19283746551⑈", "face.fraction": "(absent)", "face.serial": "(absent)"}

NETWORK_BARS = [
    Row("Nacha bulletin 2006", "no auxiliary On-Us field", "micr-auxiliary-on-us", "keep",
        line(LINE), line("⑈001043⑈ ⑆071098973⑆ 45601122⑈")),
    Row("Nacha point-of-purchase limit", "$25,000.00 may, a cent more may not", "amount-over-conversion-limit", "keep",
        keyed("25000.00"), keyed("25000.01")),
    Row("Nacha; 12 CFR 229 App. A", "no routing number under 00", "routing-government", "keep",
        line("⑆011394776⑆ 45601122⑈ 1043"), line("⑆000000518⑆ 45601122⑈ 1043")),
    Row("Nacha; Fedwire directory 2018", "no Federal Reserve Bank", "routing-federal-bank", "keep",
        line("⑆011394776⑆ 45601122⑈ 1043"), line("⑆011000015⑆ 45601122⑈ 1043")),
    Row("Nacha; Fedwire directory 2018", "no Federal Home Loan Bank", "routing-federal-bank", "keep",
        line("⑆071098973⑆ 45601122⑈ 1043"), line("⑆071004501⑆ 45601122⑈ 1043")),
    Row("Nacha rule change 2007-03-16", "the line is machine-read, not keyed", "micr-keyed", "keep",
        {"counter.micr_by": "reader"}, {"counter.micr_by": "keyed"}),
    Row("Nacha rule change 2007-03-16, read strictly", "nor corrected by hand", "micr-keyed", "keep",
        {"counter.micr_by": "reader"}, {"counter.micr_by": "corrected"}),
    Row("Nacha summaries", "a serial number in the line", "micr-no-serial", "keep",
        line(LINE), line("⑆071098973⑆ 45601122⑈")),
    Row("Nacha; 12 CFR 229.2(fff); bankers' bulletin 2015-04-13", "no remotely created check", "micr-remotely-created",
        "decline", line(LINE), line("6⑆071098973⑆ 45601122⑈ 1043")),
    Row("Nacha; 12 USC 5002(6)", "United States money", "foreign-currency-check", "keep",
        declared("personal"), declared("foreign-currency-check")),
    Row("Nacha summaries", "the customer's signed authorization", "authorization-not-signed", "keep",
        {"counter.authorization_signed": True}, {"counter.authorization_signed": False}),
    Row("12 CFR 1005.3(b)(2)", "an authorization, not a refusal of it", "legend-not-convertible", "keep",
        {"face.legends": "MAY BE CONVERTED"}, {"face.legends": "NOT FOR ELECTRONIC CONVERSION"}),
    Row("Nacha single use", "nothing negotiated before", "already-returned", "decline",
        {"face.legends": "RETURNED CHECK FEE $25.00"}, {"face.legends": "RETURNED NSF"}),
    *(
        Row("Nacha summaries of ineligible items", f"no {kind}", kind, "keep", declared("personal"), declared(kind))
        for kind in (
            "cashiers-check", "tellers-check", "certified-check", "travelers-check", "money-order",
            "postal-money-order", "treasury-check", "government-check", "federal-bank-item", "credit-line-draft",
            "investment-draft", "remotely-created-check", "substitute-check",
        )
    ),
]  # fmt: skip

LIMITS = [
    # days and months
    Row("UCC 3-113(a)", "not payable before its date", "date-in-future", "decline",
        dated("11/24/2026"), dated("11/25/2026")),
    Row("UCC 3-113(a)", "not payable before the day it states", "date-before-printed", "decline",
        {"face.legends": "NOT VALID BEFORE 11/24/2026"}, {"face.legends": "NOT VALID BEFORE 11/25/2026"}),
    Row("UCC 3-304(a)(2)", "overdue 90 days after its date", "date-overdue", "note",
        dated("08/26/2026"), dated("08/25/2026")),
    Row("UCC 4-404", "need not be paid after six months", "date-stale", "decline",
        dated("05/24/2026"), dated("05/23/2026")),
    Row("31 USC 3328(a)(1)(A)", "twelve months from issue", "treasury-past-year", "decline",
        TREASURY | dated("11/25/2025"), TREASURY | dated("11/23/2025")),
    Row("31 USC 3328(a)(1)(A), from a leap day", "twelve months from issue", "treasury-past-year", "decline",
        TREASURY | dated("02/29/2024", "2025-02-27"), TREASURY | dated("02/29/2024", "2025-03-01")),
    # dollars
    Row("USPS DMM; Postal Bulletin 22249", "a postal money order is for at most $1,000.00",
        "postal-money-order-over-maximum", "decline", POSTAL | keyed("1000.00"), POSTAL | keyed("1000.01")),
    Row("31 CFR 1010.100(ff)(2)", "more than $1,000.00 in currency a day", "cash-back-over-casher-threshold", "note",
        keyed("1100.00") | {"counter.purchase": "100.00"}, keyed("1100.01") | {"counter.purchase": "100.00"}),
    Row("UCC 3-104(a)", "a fixed amount of money", "amount-zero", "decline", keyed("0.01"), keyed("0.00")),
    # the line
    Row("12 CFR 229.31(a)(3)", "2 marks a returned check", "micr-qualified-return", "decline",
        line(LINE), line("2⑆071098973⑆")),
    Row("12 CFR 229.31(a)(3)", "5 marks a returned substitute check", "micr-qualified-return", "decline",
        line("4⑆071098973⑆ 45601122⑈ 1043"), line("5⑆071098973⑆")),
    Row("12 USC 5003; X9.100-160-2 as published", "4 marks a substitute check", "micr-substitute-check", "refer",
        line("1⑆071098973⑆ 45601122⑈ 1043"), line("4⑆071098973⑆ 45601122⑈ 1043")),
    Row("12 CFR 229 App. A para. B", "12 is the last district", "routing-unassigned-prefix", "refer",
        line("⑆121093747⑆ 45601122⑈ 1043"), line("⑆130000006⑆ 45601122⑈ 1043")),
    Row("12 CFR 229 App. A para. B", "32 is the last of the thrifts", "routing-unassigned-prefix", "refer",
        line("⑆321000004⑆ 45601122⑈ 1043"), line("⑆330000000⑆ 45601122⑈ 1043")),
    Row("public articles on the routing number", "61 to 72 are electronic", "routing-electronic-only", "refer",
        line("⑆321000004⑆ 45601122⑈ 1043"), line("⑆612000021⑆ 45601122⑈ 1043")),
    Row("published worked sum, 111000025", "weights 3, 7, 1 sum to 30", "routing-checksum", "refer",
        line("⑆111000025⑆ 45601122⑈ 1043"), line("⑆111000026⑆ 45601122⑈ 1043")),
    Row("ASC X9 TR 100-2013", "an On-Us field of at most 20 characters", "micr-field-too-long", "refer",
        line("⑆071098973⑆ 45601122456011⑈ 1043"), line("⑆071098973⑆ 456011224560112⑈ 1043")),
    Row("ASC X9 TR 100-2013", "at most 65 positions", "micr-too-long-for-paper", "refer",
        line(LINE + " " * 60), line(LINE + LINE + LINE)),
    Row("published picture, fraction 11-3167/1210", "beside 129131673 it disagrees", "fraction-differs", "refer",
        {"face.micr": "⑆121031673⑆ 45601122⑈ 1043", "face.fraction": "11-3167/1210"},
        {"face.micr": "⑆129131673⑆ 45601122⑈ 1043", "face.fraction": "11-3167/1210"}),
    # the amounts
    Row("UCC 3-114", "words and figures must not differ", "amounts-disagree", "decline",
        {"face.words": "Forty-five and 10/100"}, {"face.words": "Fifty-four and 10/100"}),
    Row("UCC 3-115", "blank words are incomplete, not contradictory", "words-blank", "note", {}, {"face.words": ""}),
    Row("UCC 3-113(b)", "no date is no fatal want", "date-blank", "note", {}, {"face.date": ""}),
]  # fmt: skip


@pytest.mark.parametrize("row", NETWORK_BARS + LIMITS, ids=lambda row: f"{row.rule}: {row.says}")
def test_the_last_good_value_and_the_first_bad_one(row: Row) -> None:
    good = cf.examine(cf.read(cf.parse(patched(row.good))), cf.Policy())
    bad = cf.examine(cf.read(cf.parse(patched(row.bad))), cf.Policy())
    assert good.outcomes[row.rule] is not Outcome.FOUND
    assert bad.outcomes[row.rule] is Outcome.FOUND
    assert {finding.effect for finding in bad.findings if finding.rule == row.rule} == {Effect(row.effect)}


@pytest.mark.parametrize("row", NETWORK_BARS, ids=lambda row: f"{row.rule}: {row.says}")
def test_what_the_network_bars_is_never_converted_and_no_house_changes_that(row: Row) -> None:
    assert cf.assess(patched(row.bad)).disposition > cf.Disposition.CONVERT
    assert check_effects({row.rule: Effect.NOTE})
    known = next(entry for entry in cf.rules() if entry.id == row.rule)
    assert known.lowest_effect >= Effect.KEEP
    assert {authority.get(name).force for name in known.authority} & {Force.NETWORK, Force.LAW}


def test_a_house_may_lower_the_network_limit_and_not_raise_it() -> None:
    assert cf.Policy.parse('[limits]\nconversion = "500.00"').limits.conversion == 50_000
    assert cf.Policy().limits.conversion == 25_000 * 100
    with pytest.raises(cf.PolicyError):
        cf.Policy.parse('[limits]\nconversion = "25000.01"')


@pytest.mark.parametrize(
    ("paper", "written", "rules"),
    [
        (TREASURY, "01/15/2026", set()),  # 31 USC 3328: payable for a year, so 313 days are not stale
        (POSTAL, "01/15/2016", set()),  # published postal guidance: a postal money order never lapses
        ({}, "01/15/2026", {"date-stale"}),
        (TREASURY | declared("business"), "01/15/2026", {"date-stale"}),
        (declared("treasury-check"), "01/15/2026", {"date-stale"}),  # a word of the clerk proves nothing
        (TREASURY, "01/15/2025", {"treasury-past-year"}),
        ({"face.micr": "⑆000000519⑆ 45601122⑈ 1043"}, "01/15/2026", {"date-stale"}),  # its sum fails
    ],
)
def test_federal_paper_has_its_own_term_where_the_line_proves_it(
    paper: dict[str, Any], written: str, rules: set[str]
) -> None:
    undeclared = {"counter.declared_kind": ""} if paper in (TREASURY, POSTAL) else {}
    tender = patched(paper | undeclared | {"face.date": written})
    found = cf.examine(cf.read(cf.parse(tender)), cf.Policy())
    aged = {"date-stale", "date-overdue", "date-last-january", "treasury-past-year"}
    assert {finding.rule for finding in found.findings} & aged == rules
