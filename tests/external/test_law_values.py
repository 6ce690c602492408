"""Terms, endorsements, receipts and thresholds, value by value, against the published text of each law.

The values are typed here from the provisions named beside them and shared with no code. What a provision leaves to
other law, or what is common practice, says so.
"""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from clean_tender import patched
from hypothesis import given
from hypothesis import strategies as st

import checkface as cf
from checkface import authority, tables
from checkface.dates.banking import is_banking_day, next_banking_day
from checkface.findings import Effect, Outcome

NEW_YORK, CALIFORNIA = cf.Policy.parse('state = "NY"'), cf.Policy.parse('state = "CA"')
GOVERNMENT = "⑆000000518⑆ 45601122⑈ 1043"


def effect_of(rule: str, patch: dict[str, Any], policy: cf.Policy | None = None) -> Effect | None:
    found = cf.assess(patched(patch), policy or cf.Policy()).findings
    return max((finding.effect for finding in found if finding.rule == rule), default=None)


def paper(legend: str, kind: str, written: str, **more: Any) -> dict[str, Any]:
    return {"face.legends": legend, "counter.declared_kind": kind, "face.date": written} | more


def treasury(written: str, on: str, **more: Any) -> dict[str, Any]:
    face = {"face.micr": GOVERNMENT, "face.fraction": "(absent)", "face.serial": "(absent)"}
    return face | {"counter.declared_kind": "treasury-check", "face.date": written, "counter.on": on} | more


# UCC 4-404: a bank owes no payment of a check, other than a certified check, to a customer having a checking account,
# which is presented more than six months after its date.


@pytest.mark.parametrize(
    ("written", "last", "first"),
    [
        ("05/24/2026", "2026-11-24", "2026-11-25"),
        ("01/01/2026", "2026-07-01", "2026-07-02"),  # 181 days
        ("03/01/2026", "2026-09-01", "2026-09-02"),  # 184 days
        ("08/31/2026", "2027-02-28", "2027-03-01"),  # February has no 31st
        ("08/31/2027", "2028-02-29", "2028-03-01"),
        ("02/28/2026", "2026-08-28", "2026-08-29"),
    ],
)
def test_six_months_are_counted_by_the_calendar(written: str, last: str, first: str) -> None:
    assert effect_of("date-stale", {"face.date": written, "counter.on": last}) is None
    assert effect_of("date-stale", {"face.date": written, "counter.on": first}) is Effect.DECLINE


@given(st.dates(date(2000, 4, 1), date(2090, 1, 1)))
def test_six_months_are_never_fewer_than_181_days_nor_more_than_184(written: date) -> None:
    """Independent of any arithmetic on months: that is how long six months can be."""

    def stale(days: int) -> bool:
        on = (written + timedelta(days=days)).isoformat()
        return effect_of("date-stale", {"face.date": written.isoformat(), "counter.on": on}) is not None

    assert not stale(178)
    assert stale(185)


def test_a_house_may_take_a_check_for_fewer_days_and_not_for_more() -> None:
    strict, lax = cf.Policy.parse("[dates]\nstale_days = 60"), cf.Policy.parse("[dates]\nstale_days = 365")
    assert effect_of("date-stale", {"face.date": "09/25/2026"}, strict) is None
    assert effect_of("date-stale", {"face.date": "09/24/2026"}, strict) is Effect.DECLINE
    assert effect_of("date-stale", {"face.date": "05/23/2026"}, lax) is Effect.DECLINE


@pytest.mark.parametrize(
    ("legend", "kind"),
    [
        ("CASHIER'S CHECK", "cashiers-check"),  # UCC 3-104(g): the bank's own
        ("OFFICIAL CHECK", "tellers-check"),  # 3-104(h)
        ("MONEY ORDER", "money-order"),
        ("TRAVELERS CHEQUE", "travelers-check"),  # 3-104(i)
        ("CERTIFIED", "certified-check"),  # 4-404 names it; 3-409(d)
    ],
)
def test_what_is_not_owed_on_a_customers_account_is_not_stale(legend: str, kind: str) -> None:
    assert effect_of("date-stale", paper(legend, kind, "01/15/2026")) is None
    assert effect_of("date-stale", paper("", kind, "01/15/2026")) is Effect.DECLINE  # a word of the clerk shows nothing
    assert effect_of("date-stale", paper(legend, "personal", "01/15/2026")) is Effect.DECLINE  # something contradicts
    assert effect_of("date-overdue", paper(legend, kind, "01/15/2026")) is Effect.NOTE  # 3-304(a)(2) names any check


@pytest.mark.parametrize("kind", ["personal", "business", "payroll", "counter-check"])
def test_a_customers_check_is_stale_whatever_it_is_called(kind: str) -> None:
    assert effect_of("date-stale", paper("", kind, "05/23/2026")) is Effect.DECLINE


# 31 USC 3328(a)(1)(A): the Treasury need not pay its check unless it is negotiated to a financial institution within 12
# months after the date of issue. A counter is none (31 USC 3328, 12 CFR 229.2(f)): the bank's next day must be in time.


@pytest.mark.parametrize(
    ("written", "on", "effect"),
    [
        ("11/25/2025", "2026-11-24", None),  # Tuesday, deposited on Wednesday, the last day
        ("11/24/2025", "2026-11-24", Effect.REFER),  # the last day itself, deposited a day late
        ("11/23/2025", "2026-11-24", Effect.DECLINE),
        ("11/28/2025", "2026-11-27", Effect.REFER),  # Friday; the next banking day is Monday the 30th
        ("11/30/2025", "2026-11-27", None),
        ("11/26/2025", "2026-11-25", Effect.REFER),  # Wednesday; Thursday is Thanksgiving
        ("02/29/2024", "2025-02-27", None),
        ("02/29/2024", "2025-02-28", Effect.REFER),
        ("02/29/2024", "2025-03-01", Effect.DECLINE),
    ],
)
def test_a_treasury_check_must_be_at_a_bank_within_twelve_months(written: str, on: str, effect: Effect | None) -> None:
    assert effect_of("treasury-past-year", treasury(written, on)) is effect
    assert effect_of("date-stale", treasury(written, on)) is None


#: Closed days of the Federal Reserve Banks as they publish them; a holiday on a Saturday closes nothing.
CLOSED = [
    "2024-01-01", "2024-01-15", "2024-02-19", "2024-05-27", "2024-06-19", "2024-07-04", "2024-09-02", "2024-10-14",
    "2024-11-11", "2024-11-28", "2024-12-25", "2025-01-01", "2025-01-20", "2025-02-17", "2025-05-26", "2025-06-19",
    "2025-07-04", "2025-09-01", "2025-10-13", "2025-11-11", "2025-11-27", "2025-12-25", "2026-01-01", "2026-01-19",
    "2026-02-16", "2026-05-25", "2026-06-19", "2026-09-07", "2026-10-12", "2026-11-11", "2026-11-26", "2026-12-25",
    "2027-01-01", "2027-01-18", "2027-02-15", "2027-05-31", "2027-07-05", "2027-09-06", "2027-10-11", "2027-11-11",
    "2027-11-25",
]  # fmt: skip


def test_banking_days_are_those_the_federal_reserve_banks_publish() -> None:
    """12 CFR 229.2(f), (g); 5 USC 6103(a). The lists of 2024 to 2027, typed from memory of the published schedule."""
    days = [date(2024, 1, 1) + timedelta(days=number) for number in range(4 * 365 + 1)]
    closed = [day.isoformat() for day in days if day.weekday() < 5 and not is_banking_day(day)]
    assert closed == CLOSED
    assert not any(is_banking_day(day) for day in days if day.weekday() >= 5)


@given(st.dates())
def test_the_next_banking_day_is_near_and_open(day: date) -> None:
    ahead = next_banking_day(day)
    assert day < ahead <= day + timedelta(days=5) if day < date(9999, 12, 20) else ahead >= day
    assert is_banking_day(ahead) or ahead == date.max


# Cal. Gov. Code 17070, 17073: a Controller's warrant unpaid for one year is canceled and void; 29802(a): a county's is
# void if not presented within six months after its date. UCC 4-404 speaks of neither.


@pytest.mark.parametrize(
    ("legend", "drawer", "written", "policy", "warrant", "stale"),
    [
        ("STATE WARRANT", "State of California", "11/24/2025", "", None, None),
        ("STATE WARRANT", "State of California", "11/23/2025", "", Effect.DECLINE, None),
        ("COUNTY WARRANT", "County of Example, California", "05/24/2026", "", None, None),
        ("COUNTY WARRANT", "County of Example, California", "05/23/2026", "", Effect.DECLINE, None),
        ("COUNTY WARRANT", "County of Example", "05/23/2026", "CA", Effect.DECLINE, None),
        ("CITY WARRANT", "City of Example", "05/23/2026", "CA", Effect.REFER, None),  # whose term holds is not said
        ("CITY WARRANT", "City of Example", "11/23/2025", "CA", Effect.DECLINE, None),
        ("COUNTY WARRANT", "County of Example", "05/23/2026", "OH", None, Effect.REFER),  # a term not known here
        ("COUNTY WARRANT", "County of Example", "05/24/2026", "OH", None, None),
        ("COUNTY CHECK", "County of Example", "05/23/2026", "CA", None, Effect.DECLINE),  # a check on its bank
    ],
)
def test_a_warrant_has_the_term_of_its_state(
    legend: str, drawer: str, written: str, policy: str, warrant: Effect | None, stale: Effect | None
) -> None:
    house = cf.Policy.parse(f'state = "{policy}"')
    patch = paper(legend, "government-check", written, **{"face.drawer": drawer})
    assert effect_of("warrant-past-term", patch, house) is warrant
    assert effect_of("date-stale", patch, house) is stale


# N.Y. UCC 3-304(3)(c): thirty days after issue a check is presumed overdue; uniform 3-304(a)(2): 90 days after its date.


@pytest.mark.parametrize(
    ("written", "house", "fraction", "effect"),
    [
        ("10/25/2026", NEW_YORK, "70-9897/710", None),  # 30 days
        ("10/24/2026", NEW_YORK, "70-9897/710", Effect.NOTE),
        ("10/24/2026", cf.Policy(), "1-9897/710", Effect.NOTE),  # the fraction's prefix 1 is New York City
        ("10/24/2026", cf.Policy(), "70-9897/710", None),
        ("10/24/2026", CALIFORNIA, "(absent)", None),
        ("08/26/2026", cf.Policy(), "70-9897/710", None),  # 90 days
        ("08/25/2026", cf.Policy(), "70-9897/710", Effect.NOTE),
    ],
)
def test_a_check_is_overdue_sooner_in_new_york(
    written: str, house: cf.Policy, fraction: str, effect: Effect | None
) -> None:
    assert effect_of("date-overdue", {"face.date": written, "face.fraction": fraction}, house) is effect


# N.Y. UCC 3-116: in the alternative any may negotiate; otherwise all must. Uniform 3-110(d): ambiguous is alternative.


@pytest.mark.parametrize(
    ("payee", "elsewhere", "new_york"),
    [
        ("Ann Sample and Bo Example", "all of them must", "all of them must"),
        ("Ann Sample or Bo Example", "any one of them may", "any one of them may"),
        ("Ann Sample / Bo Example", "any one of them may", "all of them must"),
        ("Ann Sample and/or Bo Example", "any one of them may", "all of them must"),
    ],
)
def test_unclear_joining_asks_for_all_in_new_york(payee: str, elsewhere: str, new_york: str) -> None:
    for who, house in ((elsewhere, cf.Policy()), (new_york, NEW_YORK)):
        found = {f.rule: f.message for f in cf.assess(patched({"face.payee": payee}), house).findings}
        assert found["several-payees"] == f"Made out to 2 payees: {who} endorse."


# 31 CFR 1010.100(ff)(2): more than $1,000 for any person on any day; (ii)(C) not for the verified maker who buys goods.


@pytest.mark.parametrize(
    ("kind", "purchase", "said"),
    [
        ("personal", "100.00", "only the check's verified maker is excepted"),
        ("personal", "0.00", "the exception for its maker does not apply"),
        ("payroll", "100.00", "the exception for its maker does not apply"),
        ("government-check", "100.00", "the exception for its maker does not apply"),
    ],
)
def test_the_exception_is_the_verified_makers_who_buys(kind: str, purchase: str, said: str) -> None:
    face = {"face.words": "", "face.figures": "", "counter.declared_kind": kind, "counter.purchase": purchase}
    good, bad = (
        {"counter.amount": amount}
        for amount in (("1100.00", "1100.01") if purchase != "0.00" else ("1000.00", "1000.01"))
    )
    rule = "cash-back-over-casher-threshold"
    assert effect_of(rule, face | good) is None
    message = next(f.message for f in cf.assess(patched(face | bad)).findings if f.rule == rule)
    assert message == f"$1,000.01 above the purchase, more than $1,000.00: {said}."


# Regulation E asks for the notice; the network asks for the signature, and a receipt always.


def test_the_signature_is_the_networks_demand_and_the_notice_the_regulations() -> None:
    """12 CFR 1005.3(b)(2): notice, and the consumer goes ahead; published summaries of the network: signed."""
    rule = next(entry for entry in cf.rules() if entry.id == "authorization-not-signed")
    assert (rule.authority[0], rule.force) == ("nacha-authorization", authority.Force.NETWORK)
    notices = tables.load("notices").data["notice"]
    assert notices["posted"]["regulation"].startswith("12 CFR 1005.3(b)(2)")
    assert notices["authorization"]["cite"][0] == "nacha-authorization"
    assert "no signature" in authority.get("12-cfr-1005-3-b").title


def test_the_account_on_a_receipt_need_not_exceed_four_characters() -> None:
    """12 CFR 1005.9(a)(4); 1005.9(e): none is asked for at $15 or less, where the network's receipt is printed still."""
    title = authority.get("12-cfr-1005-9-a").title
    assert "need not exceed four" in title
    assert "$15 or less" in title
    amount = {"counter.amount": "14.99", "counter.purchase": "14.99", "face.words": "", "face.figures": ""}
    house = cf.Policy.parse('[payee]\nnames = ["Quillfeather Grocery"]')
    assert "print-receipt" in {step.does for step in cf.assess(patched(amount), house).instructions.steps}


def test_returns_are_cited_by_the_section_of_2018() -> None:
    """12 CFR 229.31 is the paying bank's return since July 2018; 229.30 is electronic checks."""
    texts = {
        path.name: path.read_text(encoding="utf-8") for path in (Path(__file__).parents[2] / "data").glob("*.toml")
    }
    assert authority.get("12-cfr-229-31").citation.startswith("12 CFR 229.31")
    assert "authorities.toml" in texts
    assert not [name for name, text in texts.items() if "229.30" in text]


def test_new_yorks_laws_on_identification_are_about_social_security_numbers() -> None:
    """N.Y. Gen. Bus. Law 399-ddd: social security numbers; no card number is spoken of."""
    row = tables.load("id_retention").data["states"]["NY"]
    assert row["words"].startswith("Social security numbers only")
    assert "number" not in row


# A number known from memory proves nothing against what the clerk declares.


@pytest.mark.parametrize("number", ["000000518", "000000505", "000001193", "000008002"])
@pytest.mark.parametrize("kind", ["postal-money-order", "treasury-check", "money-order", "government-check"])
@pytest.mark.parametrize(
    ("written", "amount"), [("11/24/2026", "45.10"), ("03/02/2026", "45.10"), ("11/24/2026", "950.00")]
)
def test_a_remembered_number_declines_no_declared_kind(number: str, kind: str, written: str, amount: str) -> None:
    """Only the prefix 00 (12 CFR 229 App. A) and 000000204 (Treasury Financial Manual) are published."""
    patch = treasury(written, "2026-11-24", **{
        "face.micr": f"⑆{number}⑆ 19283746551⑈", "counter.declared_kind": kind, "counter.amount": amount,
        "counter.purchase": amount, "face.words": "", "face.figures": "",
    })  # fmt: skip
    assert {finding.rule for finding in cf.assess(patched(patch)).findings if finding.effect is Effect.DECLINE} == set()


@pytest.mark.parametrize(
    ("kind", "amount", "effect"),
    [
        ("postal-money-order", "1000.01", Effect.DECLINE),
        ("treasury-check", "1950.00", None),  # the line leaves both open, and the clerk says which
        ("(absent)", "1950.00", Effect.REFER),
    ],
)
def test_an_open_line_is_held_to_the_postal_maximum_only_where_it_may_be_one(
    kind: str, amount: str, effect: Effect | None
) -> None:
    patch = treasury("11/24/2026", "2026-11-24", **{
        "counter.declared_kind": kind, "counter.amount": amount, "counter.purchase": amount, "face.words": "", "face.figures": "",
    })  # fmt: skip
    assert effect_of("postal-money-order-over-maximum", patch) is effect


def test_a_postal_money_order_never_lapses() -> None:
    """Published postal guidance."""
    patch = treasury("01/15/2016", "2026-11-24", **{
        "face.micr": "⑆000000204⑆ 19283746551⑈", "counter.declared_kind": "postal-money-order",
    })  # fmt: skip
    outcomes = cf.assess(patched(patch)).examination.outcomes
    aged = ("date-stale", "date-overdue", "treasury-past-year")
    assert {outcomes[rule] for rule in aged} <= {Outcome.NOT_APPLICABLE, Outcome.HELD}
