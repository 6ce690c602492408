"""The days on which a bank takes deposits: the Federal Reserve Banks' holidays by rule.

12 CFR 229.2(f), (g) and 5 USC 6103(a): Saturdays, Sundays and eleven holidays are no banking days. A holiday on a
Sunday closes the Monday after it; one on a Saturday closes nothing (the Federal Reserve Banks' published schedule).
A single bank may close on further days.

>>> next_banking_day(date(2026, 11, 25)), next_banking_day(date(2027, 7, 2))
(datetime.date(2026, 11, 27), datetime.date(2027, 7, 6))
>>> is_banking_day(date(2026, 6, 19)), is_banking_day(date(2026, 7, 3))
(False, True)
"""

from __future__ import annotations

from datetime import date, timedelta
from functools import lru_cache

_FIXED = ((1, 1), (6, 19), (7, 4), (11, 11), (12, 25))
_MONDAYS = ((1, 15), (2, 15), (9, 1), (10, 8))
"""Month and earliest day of a holiday on a Monday: the third of two months, the first of September, the second of
October."""
_JUNETEENTH_SINCE = 2022
"""Pub. L. 117-17 made it a holiday on June 17, 2021; the Federal Reserve Banks have closed for it since 2022."""


def is_banking_day(day: date) -> bool:
    """Whether the Federal Reserve Banks are open on *day*; holidays are those of today's law."""
    return day.weekday() < 5 and day not in _holidays(day.year)


def next_banking_day(day: date) -> date:
    """The first banking day after *day*, when what a counter takes on *day* comes to the bank."""
    ahead = (date.fromordinal(number) for number in range(day.toordinal() + 1, date.max.toordinal() + 1))
    return next(filter(is_banking_day, ahead), date.max)


@lru_cache(maxsize=64)
def _holidays(year: int) -> frozenset[date]:
    """Days in *year* on which banks are closed although they fall on Monday to Friday."""
    found = {_on_or_after(date(year, month, first), 0) for month, first in _MONDAYS}
    found.add(_on_or_after(date(year, 5, 25), 0))  # the last Monday of May
    found.add(_on_or_after(date(year, 11, 22), 3))  # the fourth Thursday of November
    for month, number in _FIXED:
        day = date(year, month, number)
        if (month, number) != (6, 19) or year >= _JUNETEENTH_SINCE:
            found.add(day + timedelta(days=1) if day.weekday() == 6 else day)
    return frozenset(found)


def _on_or_after(day: date, weekday: int) -> date:
    return day + timedelta(days=(weekday - day.weekday()) % 7)
