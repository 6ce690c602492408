"""From the text of a date to a day, or to the reason why not.

>>> on = date(2026, 11, 24)
>>> read("24th day of November, 2026", on).form
'month-name'
>>> read("11/24", on).candidates
(datetime.date(2026, 11, 24), datetime.date(2027, 11, 24))
>>> read("November 2026", on).message
'Expected a day of the month, read a month and a year only.'
"""

from __future__ import annotations

import re
from datetime import date

from checkface.dates import words
from checkface.dates.calendar import MONTHS, YEARS_APART, day, days_in, full_year, january_slip, nearest
from checkface.dates.orders import Order, Reading, orders
from checkface.dates.pieces import Pieces, split
from checkface.dates.value import CheckDate
from checkface.patterns import lazily
from checkface.span import Fault, Span

LONGEST = 100
"""Characters; nothing longer is looked at."""

_PLAIN = re.compile(r"([0-9]{1,2})([/.-])([0-9]{1,2})\2([0-9]{4}|[0-9]{2})")
_NAMED = lazily(r"([A-Za-z]{3,9})\.? ([0-9]{1,2})(?:st|nd|rd|th)?,? ([0-9]{4})")
_CENTURY_PRINTED = lazily(r"(?<![0-9])(?:19|20)[ \t]?_[_\s]*$")
_FILLER = lazily(r"[\s/.,_-]*")
_DITTO = lazily(r"\s*(?:[\"\u201c\u201d\u3003]|'')[\s\"\u201c\u201d\u3003']*")


def read(text: str, on: date) -> CheckDate | Fault:
    """Read a date as written, on the day of tender *on*.

    Kinds of fault: ``date-blank``, ``date-length``, ``date-void``, ``date-ditto``, ``date-unreadable``,
    ``date-incomplete`` (no day or no month), ``date-year`` (no year that could be meant), ``date-impossible``.
    """
    if (match := _PLAIN.fullmatch(text)) and (plain := _read_plain(match, on)):
        return plain
    if (match := _NAMED.fullmatch(text)) and (named := _read_named(match, on)):
        return named
    if len(text) > LONGEST:
        return Fault("date-length", Span(0, len(text)), "a date", f"{len(text)} characters")
    kept = _CENTURY_PRINTED.sub(lambda found: " " * len(found[0]), text)
    if _FILLER.fullmatch(kept):
        return Fault("date-blank", Span(0, len(text)), "a date", "nothing")
    if _DITTO.fullmatch(text):
        return Fault("date-ditto", Span(0, len(text)), "a date", "ditto marks")
    pieces = split(kept)
    if isinstance(pieces, Fault):
        return pieces
    span = Span(len(text) - len(text.lstrip()), len(text.rstrip()))
    reading = orders(pieces, span)
    return reading if isinstance(reading, Fault) else _settle(reading, pieces, span, on)


def _read_plain(match: re.Match[str], on: date) -> CheckDate | None:
    """The usual case, two or four figures of year behind a slash, dash or point; None if it needs a closer look."""
    month, _, number, digits = match.groups()
    first, second = int(month), int(number)
    short = len(digits) == 2
    year = full_year(digits, on) if short else int(digits)
    try:
        written = date(year, first, second)
    except ValueError:
        return None
    if not -YEARS_APART <= year - on.year <= YEARS_APART:
        return None
    unclear = second <= 12 and first != second
    candidates = (written, date(year, second, first)) if unclear else (written,)
    slip = january_slip(written, on) if first == 1 else None
    return CheckDate(written, candidates, "month-day-year", Span(0, match.end()), unclear, short, slip)


def _read_named(match: re.Match[str], on: date) -> CheckDate | None:
    """A month by its name, a day and four figures of year; None if it needs a closer look."""
    word, year = words.find(match[1]), int(match[3])
    if word is None or word.role != "month" or word.repaired or not -YEARS_APART <= year - on.year <= YEARS_APART:
        return None
    written = day(year, word.value, int(match[2]))
    if written is None:
        return None
    slip = january_slip(written, on)
    return CheckDate(written, (written,), "month-name", Span(0, match.end()), january_slip=slip)


def _settle(reading: Reading, pieces: Pieces, span: Span, on: date) -> CheckDate | Fault:
    """The days that the orders of *reading* give; those that give none are left out while one gives some."""
    faults: list[Fault] = []
    candidates: list[date] = []
    for order in reading.orders:
        days = _days(order, on)
        if isinstance(days, Fault):
            faults.append(days)
        else:
            candidates += (found for found in days if found not in candidates)
    if not candidates:
        return faults[0]
    year = reading.orders[0].year
    settled = year is not None and (len(candidates) == 1 or reading.custom)
    return CheckDate(
        candidates[0] if settled else None,
        tuple(candidates),
        reading.form,
        span,
        order_unclear=len(reading.orders) - len(faults) > 1,
        two_digit_year=year is not None and len(year.digits) == 2,
        january_slip=january_slip(candidates[0], on) if settled else None,
        weekday_contradicts=not any(
            all(weekday == found.weekday() for weekday in pieces.weekdays)
            for found in (candidates[:1] if settled else candidates)
        ),
        repairs=tuple(pieces.repairs),
        year_written=year is not None,
    )


def _days(order: Order, on: date) -> tuple[date, ...] | Fault:
    """The day an order gives, the nearest ones where no year is written, or why there is none."""
    month, number, year = order
    which = int(month.digits)
    if not 1 <= which <= 12:
        return Fault("date-impossible", month.span, "a month from 1 to 12", month.digits)
    name, shown = MONTHS[which - 1], number.digits[:40]
    if year is None:
        return nearest(which, int(number.digits), on) or Fault(
            "date-impossible", number.span, f"a day from 1 to {days_in(2000, which)}", shown, name
        )
    if len(year.digits) not in (2, 4):
        return Fault("date-year", year.span, "a year of two or four digits", f"{len(year.digits)}")
    full = full_year(year.digits, on) if len(year.digits) == 2 else int(year.digits)
    if abs(full - on.year) > YEARS_APART:
        return Fault("date-year", year.span, "a year near the day of tender", year.digits)
    found = day(full, which, int(number.digits))
    if found is None:
        expected = f"a day from 1 to {days_in(full, which)}"
        return Fault("date-impossible", number.span, expected, shown, f"{name} {full}")
    return (found,)
