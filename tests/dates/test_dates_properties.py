"""What holds for every date and every text."""

from __future__ import annotations

import os
from datetime import date, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from checkface import dates
from checkface.dates.calendar import MONTHS, days_in, full_year
from checkface.span import Fault

MANY = 3000 if os.environ.get("CHECKFACE_THOROUGH") else 200
DAYS = st.dates(date(1990, 1, 1), date(2080, 12, 31))
NEAR = st.integers(-18 * 365, 18 * 365)
ROMAN = ("I", "II", "III", "IV", "V", "VI", "VII", "VIII", "IX", "X", "XI", "XII")
SPANISH = (
    "enero", "febrero", "marzo", "abril", "mayo", "junio", "julio", "agosto", "septiembre", "octubre", "noviembre",
    "diciembre",
)  # fmt: skip
WAYS = {
    "figures": lambda d: f"{d.month}/{d.day}/{d.year}",
    "filled": lambda d: f"{d.month:02}-{d.day:02}-{d.year % 100:02}",
    "iso": lambda d: d.isoformat(),
    "eight": lambda d: f"{d.month:02}{d.day:02}{d.year}",
    "name": lambda d: f"{MONTHS[d.month - 1]} {d.day}, {d.year}",
    "short": lambda d: f"{d.day} {MONTHS[d.month - 1][:3].upper()} '{d.year % 100:02}",
    "ordinal": lambda d: f"the {d.day}th day of {MONTHS[d.month - 1]}, {d.year}",
    "spanish": lambda d: f"{d.day} de {SPANISH[d.month - 1]} de {d.year}",
    "century": lambda d: f"{MONTHS[d.month - 1][:3]}. {d.day} {d.year // 100}__{d.year % 100:02}",
    "weekday": lambda d: f"{d:%A}, {MONTHS[d.month - 1]} {d.day}, {d.year}",
}  # fmt: skip


@given(DAYS, NEAR, st.sampled_from(sorted(WAYS)))
@settings(max_examples=MANY)
def test_a_written_day_is_read_back(on: date, apart: int, way: str) -> None:
    day = on + timedelta(apart)
    found = dates.read(WAYS[way](day), on)
    assert isinstance(found, dates.CheckDate)
    assert found.date == day
    assert found.candidates[0] == day
    assert not found.weekday_contradicts
    assert found.two_digit_year == (way in ("filled", "short"))


@given(DAYS, NEAR, st.sampled_from(["figures", "filled", "name"]), st.integers(1, 31))
@settings(max_examples=MANY)
def test_the_quick_way_reads_as_the_thorough_one(on: date, apart: int, way: str, number: int) -> None:
    """A leading blank takes the same text past the short cuts; days that do not exist are among them."""
    text = WAYS[way](on + timedelta(apart)).replace("28", str(number))
    quick, thorough = dates.read(text, on), dates.read(" " + text, on)
    assert type(quick) is type(thorough)
    if isinstance(quick, dates.CheckDate) and isinstance(thorough, dates.CheckDate):
        assert quick._replace(span=thorough.span) == thorough
    elif isinstance(quick, Fault) and isinstance(thorough, Fault):
        assert (quick.kind, quick.message) == (thorough.kind, thorough.message)


@given(DAYS)
@settings(max_examples=MANY)
def test_a_roman_month_is_read_back_or_left_open(day: date) -> None:
    found = dates.read(f"{ROMAN[day.month - 1]}-{day.day}-{day.year}", day)
    assert isinstance(found, dates.CheckDate)
    assert day in found.candidates
    assert found.date == (None if day.month == 2 else day)


@given(DAYS, DAYS)
@settings(max_examples=MANY)
def test_the_other_order_is_always_named(day: date, on: date) -> None:
    found = dates.read(f"{day.month}/{day.day}/{day.year}", on)
    if isinstance(found, Fault):
        assert found.kind == "date-year"
        assert abs(day.year - on.year) > 100
        return
    swapped = day.day <= 12 and day.day != day.month
    assert found.order_unclear == swapped
    assert len(found.candidates) == 1 + swapped


@given(st.integers(0, 99), DAYS)
@settings(max_examples=MANY)
def test_two_digits_of_year_lie_about_the_day_of_tender(digits: int, on: date) -> None:
    year = full_year(f"{digits:02}", on)
    assert year % 100 == digits
    assert on.year - 79 <= year <= on.year + 20


@given(st.integers(0, 99), DAYS, st.integers(0, 3000))
@settings(max_examples=MANY)
def test_a_later_tender_never_reads_an_earlier_year(digits: int, on: date, later: int) -> None:
    assert full_year(f"{digits:02}", on + timedelta(later)) >= full_year(f"{digits:02}", on)


@given(DAYS, DAYS)
@settings(max_examples=MANY)
def test_a_january_slip_is_a_year_later_and_not_in_the_future(day: date, on: date) -> None:
    near = day.replace(year=on.year - 1, day=min(day.day, 28))
    found = dates.read(near.isoformat(), on)
    assert isinstance(found, dates.CheckDate)
    if found.january_slip is not None:
        assert found.january_slip == near.replace(year=on.year)
        assert found.january_slip <= on
        assert near.month == 1
        assert on.month <= 2


@given(st.integers(1900, 2200), st.integers(1, 12))
def test_days_of_a_month(year: int, month: int) -> None:
    following = date(year + month // 12, month % 12 + 1, 1)
    assert days_in(year, month) == (following - date(year, month, 1)).days


PIECES = ["Nov", "11", "24", "2026", "'26", "de", "th", "/", " ", "-", "XI", "Tue", "20", "__", '"', "N0v", "first"]
JUNK = st.one_of(
    st.text(max_size=120),
    st.text("0123456789/-. ", max_size=30),
    st.lists(st.sampled_from(PIECES), max_size=8).map(" ".join),
)


@given(JUNK, st.dates())
@settings(max_examples=2 * MANY)
def test_any_text_on_any_day_gives_a_date_or_a_fault_within_it(text: str, on: date) -> None:
    found = dates.read(text, on)
    assert 0 <= found.span.start <= found.span.end <= len(text)
    if isinstance(found, dates.CheckDate):
        assert found.candidates
        assert len(set(found.candidates)) == len(found.candidates)
        assert found.date in (None, found.candidates[0])
        assert all(abs(day.year - on.year) <= 100 for day in found.candidates)
    else:
        assert found.message.startswith("Expected ")
        assert found.kind.startswith("date-")


def test_long_junk_is_refused_at_once() -> None:
    for junk in ("1", "/", "_", "Nov ", "'", '"', "20__"):
        assert isinstance(dates.read(junk * 30_000, date(2026, 11, 24)), Fault)
