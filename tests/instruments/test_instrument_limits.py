"""Printed limits: of days, of money, up to a day."""

from __future__ import annotations

import os
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from checkface.instruments import Limit, legend_limits, not_before
from checkface.span import Span

MANY = 2000 if os.environ.get("CHECKFACE_THOROUGH") else 200


@pytest.mark.parametrize(
    ("text", "kind", "value", "shown"),
    [
        ("VOID AFTER 90 DAYS", "days", 90, "90 DAYS"),
        ("Void after ninety (90) days", "days", 90, "ninety (90) days"),
        ("VOID AFTER NINETY DAYS", "days", 90, "NINETY DAYS"),
        ("VOID AFTER ONE HUNDRED EIGHTY DAYS", "days", 180, "ONE HUNDRED EIGHTY DAYS"),
        ("VOID AFTER ONE HUNDRED AND EIGHTY DAYS", "days", 180, "ONE HUNDRED AND EIGHTY DAYS"),
        ("90 DAY VOID", "days", 90, "90 DAY"),
        ("VOID 90 DAYS FROM DATE OF ISSUE", "days", 90, "90 DAYS"),
        ("Not valid after 60 days", "days", 60, "60 days"),
        ("NOT GOOD AFTER 30-DAYS", "days", 30, "30-DAYS"),
        ("This check expires 120 days from issue", "days", 120, "120 days"),
        ("Must be cashed within 45 days", "days", 45, "45 days"),
        ("MUST BE PRESENTED WITHIN 2 WEEKS", "days", 14, "2 WEEKS"),
        ("NEGOTIABLE FOR 365 DAYS", "days", 365, "365 DAYS"),
        ("NO VÁLIDO DESPUÉS DE 90 DÍAS", "days", 90, "90 DÍAS"),
        ("NULO DESPUES DE 90 DIAS", "days", 90, "90 DIAS"),
        ("VOID IF NOT CASHED WITHIN SIX MONTHS", "months", 6, "SIX MONTHS"),
        ("VOID AFTER 6 MOS", "months", 6, "6 MOS"),
        ("VOID AFTER ONE YEAR", "months", 12, "ONE YEAR"),
        ("Vence en 6 meses", "months", 6, "6 meses"),
        ("NOT VALID OVER $500.00", "amount", 50000, "$500.00"),
        ("VOID OVER $500", "amount", 50000, "$500"),
        ("NOT GOOD FOR MORE THAN $1,000.00", "amount", 100000, "$1,000.00"),
        ("VOID IF AMOUNT EXCEEDS $ 2,500.00", "amount", 250000, "$ 2,500.00"),
        ("NOT TO EXCEED $1000", "amount", 100000, "$1000"),
        ("MAXIMUM $1,234,567.89", "amount", 123456789, "$1,234,567.89"),
        ("LIMIT $500.00", "amount", 50000, "$500.00"),
        ("Good for amounts up to $500", "amount", 50000, "$500"),
        ("VALID ONLY FOR AMOUNTS UNDER $500.00", "amount", 49999, "$500.00"),
        ("VOID IF $500.00 OR MORE", "amount", 49999, "$500.00"),
        ("NOT VALID FOR MORE THAN FIVE HUNDRED DOLLARS", "amount", 50000, "FIVE HUNDRED DOLLARS"),
        ("VOID OVER TWO THOUSAND FIVE HUNDRED DOLLARS", "amount", 250000, "TWO THOUSAND FIVE HUNDRED DOLLARS"),
        ("VOID OVER 500 DOLLARS", "amount", 50000, "500 DOLLARS"),
        ("EXPIRES 12/31/2026", "date", date(2026, 12, 31), "12/31/2026"),
        ("VOID AFTER 12-31-26", "date", date(2026, 12, 31), "12-31-26"),
        ("VALID THRU JUNE 30, 2027", "date", date(2027, 6, 30), "JUNE 30, 2027"),
        ("Not valid after Dec. 31st 2026", "date", date(2026, 12, 31), "Dec. 31st 2026"),
        ("VOID AFTER 2026-12-31", "date", date(2026, 12, 31), "2026-12-31"),
        ("MUST BE CASHED BEFORE 01/01/2027", "date", date(2026, 12, 31), "01/01/2027"),
        ("VOID AFTER __ DAYS", "days", None, "__ DAYS"),
        ("VOID OVER $____", "amount", None, "$____"),
        ("NOT VALID OVER $", "amount", None, "$"),
        ("VOID AFTER 13/45/2026", "date", None, "13/45/2026"),
    ],
)
def test_one_limit(text: str, kind: str, value: int | date | None, shown: str) -> None:
    (limit,) = legend_limits(text)
    assert (limit.kind, limit.value, limit.span.of(text)) == (kind, value, shown)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "VOID",
        "PLEASE ALLOW 10 DAYS FOR DELIVERY",
        "DATED 11/24/2026",
        "PAY EXACTLY $45.10",
        "VOID IF ALTERED",
        "EST. 1926. OVER 100 YEARS OF SERVICE",
        "FORM 1099 REV 12/2026",
        "VOID - THE BACK HAS A WATERMARK",
    ],
)
def test_no_limit(text: str) -> None:
    assert legend_limits(text) == ()


def test_several_limits_in_their_order() -> None:
    text = "VOID AFTER 90 DAYS\nNOT VALID OVER $500.00 OR AFTER 12/31/2026"
    assert [(limit.kind, limit.value) for limit in legend_limits(text)] == [
        ("days", 90),
        ("amount", 50000),
        ("date", date(2026, 12, 31)),
    ]


@pytest.mark.parametrize(
    ("kind", "value", "written", "last"),
    [
        ("days", 90, date(2026, 11, 24), date(2027, 2, 22)),
        ("months", 6, date(2026, 8, 31), date(2027, 2, 28)),
        ("months", 6, date(2027, 8, 31), date(2028, 2, 29)),
        ("months", 1, date(2026, 12, 15), date(2027, 1, 15)),
        ("months", 12, date(2024, 2, 29), date(2025, 2, 28)),
        ("date", date(2026, 12, 31), date(2026, 11, 24), date(2026, 12, 31)),
        ("amount", 50000, date(2026, 11, 24), None),
        ("days", None, date(2026, 11, 24), None),
        ("days", 9999, date(9999, 1, 1), date.max),
        ("months", 9999, date(9999, 1, 1), date.max),
    ],
)
def test_the_last_day(kind: str, value: int | date | None, written: date, last: date | None) -> None:
    assert Limit(kind, value, Span(0, 0)).last_day(written) == last


@given(st.integers(1, 9999))
@settings(max_examples=MANY)
def test_days_in_figures_are_read_back(days: int) -> None:
    assert [(x.kind, x.value) for x in legend_limits(f"VOID AFTER {days} DAYS")] == [("days", days)]


@given(st.integers(1, 99_999_999))
@settings(max_examples=MANY)
def test_amounts_are_read_back(cents: int) -> None:
    text = f"NOT VALID OVER ${cents // 100:,}.{cents % 100:02}"
    assert [(x.kind, x.value) for x in legend_limits(text)] == [("amount", cents)]


@given(
    st.dates(date(2000, 1, 1), date(2099, 12, 31)), st.sampled_from(["%m/%d/%Y", "%m-%d-%y", "%Y-%m-%d", "%B %d, %Y"])
)
@settings(max_examples=MANY)
def test_days_of_expiry_are_read_back(day: date, form: str) -> None:
    assert [(x.kind, x.value) for x in legend_limits(f"EXPIRES {day.strftime(form)}")] == [("date", day)]


PIECES = [
    "VOID",
    "AFTER",
    "90",
    "DAYS",
    "$",
    "500",
    "OVER",
    "12/31/2026",
    "SIX",
    "MONTHS",
    "JUNE",
    "0/0/00",
    "_",
    "99999",
]


@given(st.one_of(st.text(max_size=100), st.lists(st.sampled_from(PIECES), max_size=12).map(" ".join)), st.dates())
@settings(max_examples=2 * MANY)
def test_any_legend_gives_limits_within_it(text: str, written: date) -> None:
    for limit in legend_limits(text):
        assert 0 <= limit.span.start < limit.span.end <= len(text)
        assert limit.kind in ("days", "months", "amount", "date")
        limit.last_day(written)


def test_long_legends_take_no_time() -> None:
    for junk in (
        "VOID AFTER ",
        "NOT ",
        "NOT BEFORE 1/1/26 ",
        "HOLD 1 DAY ",
        "1",
        "one ",
        "$",
        "VOID 1,000",
        "12/",
        "_",
    ):
        legend_limits(junk * 20_000)
        not_before(junk * 20_000)


@pytest.mark.parametrize(
    ("text", "kind", "value", "shown"),
    [
        ("NOT VALID BEFORE 12/01/2026", "date", date(2026, 12, 1), "12/01/2026"),
        ("NOT VALID\nBEFORE 12/01/2026", "date", date(2026, 12, 1), "12/01/2026"),
        ("DO NOT CASH UNTIL 12/1/2026", "date", date(2026, 12, 1), "12/1/2026"),
        ("Don't deposit till Dec. 1, 2026", "date", date(2026, 12, 1), "Dec. 1, 2026"),
        ("HOLD UNTIL 2026-12-01", "date", date(2026, 12, 1), "2026-12-01"),
        ("VOID BEFORE 12/01/2026", "date", date(2026, 12, 1), "12/01/2026"),
        ("VOID UNTIL 12/01/2026", "date", date(2026, 12, 1), "12/01/2026"),
        ("POST-DATED 12/01/2026", "date", date(2026, 12, 1), "12/01/2026"),
        ("POSTDATED 12/01/2026", "date", date(2026, 12, 1), "12/01/2026"),
        ("VALID AFTER 12/01/2026", "date", date(2026, 12, 1), "12/01/2026"),
        ("Payable on or after 12/01/2026", "date", date(2026, 12, 1), "12/01/2026"),
        ("NOT GOOD UNTIL 13/45/2026", "date", None, "13/45/2026"),
        ("HOLD 10 DAYS", "days", 10, "10 DAYS"),
        ("HOLD CHECK FOR TWO WEEKS", "days", 14, "TWO WEEKS"),
        ("DO NOT CASH FOR 10 DAYS", "days", 10, "10 DAYS"),
        ("DO NOT DEPOSIT FOR 1 MONTH", "months", 1, "1 MONTH"),
        ("NOT VALID FOR __ DAYS", "days", None, "__ DAYS"),
    ],
)
def test_when_a_check_begins_to_be_good(text: str, kind: str, value: int | date | None, shown: str) -> None:
    (first,) = not_before(text)
    assert (first.kind, first.value, first.span.of(text)) == (kind, value, shown)
    assert legend_limits(text) == ()


@pytest.mark.parametrize(
    "text",
    [
        "NOT VALID AFTER 12/01/2026",
        "DO NOT CASH AFTER 12/01/2026",
        "VOID AFTER 12/31/2026",
        "GOOD UNTIL 12/31/2026",
        "MUST BE CASHED BEFORE 12/31/2026",
        "VOID IF NOT CASHED BEFORE 12/31/2026",
        "NOT VALID UNLESS PRESENTED BEFORE 12/31/2026",
        "DO NOT FOLD\nCASH BEFORE 12/31/2026",
        "GOOD FOR 90 DAYS",
        "NOT VALID FOR MORE THAN 90 DAYS",
    ],
)
def test_a_last_day_is_no_first_day(text: str) -> None:
    assert not_before(text) == ()
    assert len(legend_limits(text)) == 1


def test_a_first_and_a_last_day_side_by_side() -> None:
    text = "VOID BEFORE 12/01/2026 AND AFTER 12/31/2026"
    assert [first.value for first in not_before(text)] == [date(2026, 12, 1)]
    assert [last.value for last in legend_limits(text)] == [date(2026, 12, 31)]


@given(st.one_of(st.text(max_size=100), st.lists(st.sampled_from(["NOT", "BEFORE", "HOLD", *PIECES])).map(" ".join)))
@settings(max_examples=MANY)
def test_any_legend_gives_first_days_within_it(text: str) -> None:
    taken = {first.span for first in not_before(text)}
    assert taken.isdisjoint(limit.span for limit in legend_limits(text))
    assert all(0 <= span.start < span.end <= len(text) for span in taken)
