"""Dates as the Unicode CLDR writes them (https://cldr.unicode.org; taken from babel's copy of it): the patterns that
browsers and phones fill in, for English and Spanish of the United States, Mexico and Puerto Rico."""

from __future__ import annotations

from datetime import date

import pytest
from babel import Locale
from babel.dates import format_date, parse_pattern
from hypothesis import given
from hypothesis import strategies as st

from checkface import dates

LOCALES = ("en_US", "es_US", "es_MX", "es_PR")
ON = date(2026, 11, 24)
DAYS = st.dates(date(2021, 1, 1), date(2028, 12, 31))  # from 2029 on 26/02/29 can be no day of February 2026
PATTERNS = sorted(
    {(locale, Locale.parse(locale).date_formats[style].pattern) for locale in LOCALES for style in ("short", "medium", "long", "full")}
    | {
        (locale, parse_pattern(pattern).pattern)
        for locale in LOCALES
        for skeleton, pattern in Locale.parse(locale).datetime_skeletons.items()
        if set(skeleton) <= set("yMEd") and {"M", "d"} <= set(skeleton) and "ddd" not in str(pattern)  # a figure's ordinal end, which babel does not write
    }
)  # fmt: skip


def test_there_are_patterns_of_every_locale() -> None:
    assert {locale for locale, _ in PATTERNS} == set(LOCALES)
    assert len(PATTERNS) > 30


@pytest.mark.parametrize(("locale", "pattern"), PATTERNS)
@given(day=DAYS)
def test_what_cldr_writes_is_read(locale: str, pattern: str, day: date) -> None:
    """The day is among the candidates, and if one day is told for certain, it is that one. A weekday says so alone
    where the year is written; what is open then is a day and a month that can be exchanged and fall on one weekday."""
    text = format_date(day, pattern, locale=locale)
    found = dates.read(text, ON)
    assert isinstance(found, dates.CheckDate), text
    assert found.repairs == ()
    assert not found.weekday_contradicts or "y" not in pattern, text
    if "y" not in pattern:
        assert found.date is None
        assert any((each.month, each.day) == (day.month, day.day) for each in found.candidates), text
        return
    assert day in found.candidates, text
    if not found.order_unclear:
        assert found.date == day
    if "MMM" in pattern:
        assert found.date == day
    if "E" in pattern and found.order_unclear:
        assert day.replace(month=day.day, day=day.month).weekday() == day.weekday()


@pytest.mark.parametrize("locale", LOCALES)
@pytest.mark.parametrize("width", ["wide", "abbreviated"])
def test_the_names_of_months_and_weekdays(locale: str, width: str) -> None:
    names = Locale.parse(locale)
    for month, name in names.months["format"][width].items():
        assert dates.read(f"{name} 25 2026", ON).date == date(2026, month, 25)
        assert dates.read(f"25 {name} 2026", ON).date == date(2026, month, 25)
    for weekday, name in [*names.days["format"][width].items(), *names.days["format"]["short"].items()]:
        found = dates.read(f"{name} 25 nov 2026", ON)
        assert (found.date, found.weekday_contradicts) == (date(2026, 11, 25), weekday != 2)
