"""Dates against Python's own datetime (proleptic Gregorian calendar)."""

from __future__ import annotations

import random
from datetime import date, datetime, timedelta

import pytest

from checkface import dates
from checkface.span import Fault

ON = date(2026, 11, 24)
FORMATS = [
    "%m/%d/%Y", "%m-%d-%Y", "%m.%d.%Y", "%m/%d/%y", "%Y-%m-%d", "%Y%m%d", "%B %d, %Y", "%b %d %Y", "%d %B %Y", "%d%b%Y",
    "%A, %B %d, %Y", "%a %b %d %Y", "%d-%b-%y",
]  # fmt: skip


@pytest.mark.parametrize("form", FORMATS)
def test_what_strptime_reads_is_read_alike(form: str) -> None:
    """strptime takes a two-digit year from 1969 to 2068 (POSIX), so days from 1990 to 2040 read alike by both."""
    draw = random.Random(form)
    for _ in range(400):
        text = (date(1990, 1, 1) + timedelta(draw.randrange(50 * 365))).strftime(form)
        found = dates.read(text, ON)
        assert isinstance(found, dates.CheckDate)
        assert found.candidates[0] == datetime.strptime(text, form).date()
        assert not found.weekday_contradicts


def test_exactly_the_days_of_the_gregorian_calendar_exist() -> None:
    """Every month and day figure of a leap year, a common year, and the two kinds of century year."""
    for year in (2024, 2026, 2000, 2100):
        for month in range(1, 13):
            for day in range(13, 33):
                found = dates.read(f"{month}/{day}/{year}", date(2050, 1, 1))
                try:
                    wanted = date(year, month, day)
                except ValueError:
                    assert isinstance(found, Fault)
                    assert found.kind == "date-impossible"
                else:
                    assert isinstance(found, dates.CheckDate)
                    assert found.date == wanted
