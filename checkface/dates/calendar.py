"""Days and years reckoned from the day of tender.

>>> full_year("99", date(2026, 11, 24)), full_year("46", date(2026, 11, 24)), full_year("47", date(2026, 11, 24))
(1999, 2046, 1947)
>>> january_slip(date(2026, 1, 5), date(2027, 1, 7))
datetime.date(2027, 1, 5)
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import MAXYEAR, date

MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip

YEARS_AHEAD = 20
"""A two-digit year lies at most this many years after the day of tender, and less than 80 before it."""

YEARS_APART = 100
"""A written year further than this from the day of tender is no year."""


def day(year: int, month: int, number: int) -> date | None:
    """The date, or None if there is no such day."""
    try:
        return date(year, month, number)
    except (ValueError, OverflowError):
        return None


def days_in(year: int, month: int) -> int:
    """How many days a month has."""
    return 28 if month == 2 and not day(year, 2, 29) else 29 if month == 2 else 30 + (month + month // 8) % 2


def months_after(start: date, months: int) -> date:
    """The same day so many months later; the last of the month where it has no such day, and of the calendar.

    >>> months_after(date(2026, 5, 24), 6), months_after(date(2026, 8, 31), 6), months_after(date(2024, 2, 29), 12)
    (datetime.date(2026, 11, 24), datetime.date(2027, 2, 28), datetime.date(2025, 2, 28))
    """
    year, month = divmod(start.year * 12 + start.month - 1 + months, 12)
    if year > MAXYEAR:
        return date.max
    return date(year, month + 1, min(start.day, days_in(year, month + 1)))


def full_year(digits: str, on: date) -> int:
    """The year of two digits: the one from 79 years before to 20 years after the day of tender."""
    first = on.year + YEARS_AHEAD - 99
    return first + (int(digits) - first) % 100


def full_years(digits: str, split: bool, on: date) -> tuple[int, ...]:
    """The years that two or four digits can mean, nearest first: behind a printed 19 people wrote the 26 of 2026.

    >>> full_years("1926", True, date(2026, 11, 24)), full_years("1999", True, date(2026, 11, 24))
    ((2026, 1926), (1999,))
    """
    if len(digits) == 2:
        return (full_year(digits, on),)
    written = int(digits)
    later = written + 100
    return (later, written) if split and digits[:2] == "19" and later <= on.year + 1 else (written,)


def near_first(days: Iterable[date], on: date) -> tuple[date, ...]:
    """*days*, the nearest to the day of tender first."""
    return tuple(sorted(days, key=lambda found: (abs(found - on), found)))


def january_slip(written: date, on: date) -> date | None:
    """The same day a year later, where a January date still carries last year's number; else None.

    It must fit the day of tender: in January or February, and not before the date so corrected.
    """
    if written.month != 1 or written.year != on.year - 1 or on.month > 2:
        return None
    corrected = written.replace(year=on.year)
    return corrected if corrected <= on else None


def nearest(month: int, number: int, on: date) -> tuple[date, ...]:
    """The last such day up to the day of tender and the first after it, nearest first; empty if there is none.

    >>> nearest(2, 29, date(2026, 11, 24))
    (datetime.date(2028, 2, 29), datetime.date(2024, 2, 29))
    """
    around = [found for year in range(on.year - 8, on.year + 9) if (found := day(year, month, number))]
    before = [found for found in around if found <= on][-1:]
    after = [found for found in around if found > on][:1]
    return near_first(before + after, on)
