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

from checkface.blank import is_blank
from checkface.dates import holidays, words
from checkface.dates.calendar import (
    MONTHS,
    YEARS_APART,
    day,
    days_in,
    full_year,
    full_years,
    january_slip,
    near_first,
    nearest,
)
from checkface.dates.furniture import Way, mended, ways
from checkface.dates.orders import Order, Orders, orders
from checkface.dates.pieces import Pieces, split
from checkface.dates.value import CheckDate, RepairedWord
from checkface.patterns import lazily
from checkface.span import Fault, Span

LONGEST = 100
"""Characters; nothing longer is looked at."""

_PLAIN = re.compile(r"([0-9]{1,2})([/.-])([0-9]{1,2})\2([0-9]{4}|[0-9]{2})")
_NAMED = lazily(r"([A-Za-z]{3,9})\.? ([0-9]{1,2})(?:st|nd|rd|th)?,? ([0-9]{4})")
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
    meant = ways(text)
    if is_blank(meant[0].text):
        return Fault("date-blank", Span(0, len(text)), "a date", "nothing")
    if _DITTO.fullmatch(text):
        return Fault("date-ditto", Span(0, len(text)), "a date", "ditto marks")
    found = _any_of(meant, on)
    if isinstance(found, Fault) and found.kind == "date-unreadable":
        repaired = [better for way in meant for better in mended(way)]
        better = _any_of(repaired, on) if repaired else found
        return found if isinstance(better, Fault) else better
    return found


def _any_of(meant: list[Way], on: date) -> CheckDate | Fault:
    """What one of the ways gives; where several give different days, all of these and none of them for certain."""
    answers = [_read_way(way, on) for way in meant]
    found = [answer for answer in answers if isinstance(answer, CheckDate)]
    if not found:
        return answers[0]
    candidates = tuple(dict.fromkeys(day for each in found for day in each.candidates))
    if len(candidates) == len(found[0].candidates):
        return found[0]
    return found[0]._replace(
        date=None,
        candidates=near_first(candidates, on),
        order_unclear=True,
        january_slip=None,
        weekday_contradicts=all(each.weekday_contradicts for each in found),
    )


def _read_way(way: Way, on: date) -> CheckDate | Fault:
    """What one way gives, its places and repairs those of the text that was written."""
    found = _read_text(way.text, on)
    if isinstance(found, Fault):
        return Fault(found.kind, way.placed(found.span), found.expected, found.read, found.after)
    repairs = tuple(RepairedWord(way.placed(each.span), each.word) for each in (*way.repairs, *found.repairs))
    return found._replace(span=way.placed(found.span), repairs=repairs)


def _read_text(text: str, on: date) -> CheckDate | Fault:
    holiday = holidays.find(text)
    pieces = split(" " * holiday.end + text[holiday.end :] if holiday else text)
    if isinstance(pieces, Fault):
        return pieces
    span = Span(len(text) - len(text.lstrip()), len(text.rstrip()))
    taken = orders(pieces, span)
    if isinstance(taken, Fault):
        return taken
    if holiday:
        pieces.fits.append(holiday.falls_on)
    return _settle(taken, pieces, span, on)


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
    # In order and without their names, which would cost a quarter of the whole reading.
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


def _settle(taken: Orders, pieces: Pieces, span: Span, on: date) -> CheckDate | Fault:
    """The days that the orders of *taken* give.

    Without a custom the order that gives the nearest day is the likeliest. The likeliest that the figures allow must
    give a day: 31/6/26 is no day of 1931 or 2031 because June has 30. Others that give none are left out.
    """
    tried = [order for order in taken.orders if order.possible] or taken.orders[:1]
    given = [(order, _days(order, on)) for order in tried]
    given = [(order, days) for order, days in given if not isinstance(days, Fault) or days.kind != "date-year"] or given
    if not taken.custom and len(given) > 1:
        given.sort(key=lambda each: abs(_about(each[0], on) - on))
    first, days = given[0]
    if isinstance(days, Fault):
        return days
    good = [days for _, days in given if not isinstance(days, Fault)]
    written = list(dict.fromkeys(day for days in good for day in days))
    fitting = [day for day in written if all(fit(day) for fit in pieces.fits)]
    dated = first.year is not None
    candidates = fitting if fitting and dated else written  # without its year a weekday may be that of another year
    settled = dated and (len(candidates) == 1 or ((taken.custom or taken.told) and len(days) == 1))
    return CheckDate(
        candidates[0] if settled else None,
        tuple(candidates),
        first.form,
        span,
        order_unclear=len(candidates) > 1 if dated else len(good) > 1,
        two_digit_year=first.year is not None and len(first.year.digits) == 2,
        january_slip=january_slip(candidates[0], on) if settled else None,
        weekday_contradicts=not fitting,
        repairs=tuple(pieces.repairs),
        year_written=dated,
    )


def _about(order: Order, on: date) -> date:
    """The day of an order, or the last of its month where there is no such day."""
    month, number = int(order.month.digits), int(order.day.digits)
    year = full_years(order.year.digits, order.year.split, on)[0] if order.year else on.year
    return date(year, month, min(number, days_in(year, month)))


def _days(order: Order, on: date) -> tuple[date, ...] | Fault:
    """The day an order gives, the nearest ones where no year is written, or why there is none."""
    month, number, year, _ = order
    which = int(month.digits)
    if not 1 <= which <= 12:
        return Fault("date-impossible", month.span, "a month from 1 to 12", month.digits)
    name = MONTHS[which - 1]
    if year is None:
        return nearest(which, int(number.digits), on) or Fault(
            "date-impossible", number.span, f"a day from 1 to {days_in(2000, which)}", number.digits, name
        )
    if len(year.digits) not in (2, 4):
        return Fault("date-year", year.span, "a year of two or four digits", f"{len(year.digits)}")
    years = full_years(year.digits, year.split, on)
    if abs(years[0] - on.year) > YEARS_APART:
        return Fault("date-year", year.span, "a year near the day of tender", year.digits)
    found = tuple(each for full in years if (each := day(full, which, int(number.digits))))
    if found:
        return found
    expected = f"a day from 1 to {days_in(years[0], which)}"
    return Fault("date-impossible", number.span, expected, number.digits, f"{name} {years[0]}")
