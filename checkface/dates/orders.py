"""Which figure is the month, which the day, which the year: all the ways that are in use, the custom first.

The custom in the United States is month first. Where the first figure cannot be a month, the day or a year of two
digits stands first, and no custom says which; a year of four digits in front makes it ISO 8601, year, month, day.
"""

from typing import NamedTuple

from checkface.dates.pieces import Month, Number, Pieces
from checkface.span import Fault, Span


class Order(NamedTuple):
    """One way to take the figures; ``year`` is None where none is written."""

    month: Number
    day: Number
    year: Number | None


class Reading(NamedTuple):
    """All ways to take them, the customary one first; ``custom`` is False where none of them is customary."""

    orders: list[Order]
    form: str
    custom: bool = True


def orders(pieces: Pieces, span: Span) -> Reading | Fault:
    """The ways to read *pieces*, which stand within *span*."""
    numbers, months = pieces.numbers, pieces.months
    if len(months) > 1:
        return Fault("date-unreadable", months[1].span, "one month", "two")
    if len(months) + len(numbers) > 3:
        return Fault("date-unreadable", span, "a month, a day and a year", "more than these")
    if months:
        return _named(months[0], numbers, span)
    if len(numbers) == 3:
        return _three(numbers)
    if len(numbers) == 2:
        return _two(numbers[0], numbers[1], span)
    if len(numbers) == 1:
        return _compact(numbers[0])
    return Fault("date-incomplete", span, "a month, a day and a year", "none of them")


def _named(month: Month, numbers: list[Number], span: Span) -> Reading | Fault:
    values = [month.value]
    if month.roman and month.value == 2:
        values.append(11)  # two strokes: the Roman two, or the figure 11 to a machine's eye
    form = "roman-month" if month.roman else "month-name"
    day, year = (*numbers, None, None)[:2]
    if day is not None and (day.is_year or len(day.digits) > 2):
        day, year = year, day
    if day is None:
        read = "a month and a year only" if year else "a month only"
        return Fault("date-incomplete", span, "a day of the month", read)
    return Reading([Order(Number(str(v), month.span), day, year) for v in values], form, len(values) == 1)


def _three(numbers: list[Number]) -> Reading | Fault:
    first, second, third = numbers
    if len(first.digits) == 4:
        return Reading([Order(second, third, first)], "year-month-day")
    if len(second.digits) > 2 or len(first.digits) > 2:
        odd = second if len(second.digits) > 2 else first
        return Fault("date-unreadable", odd.span, "a month or a day of one or two digits", f"{len(odd.digits)}")
    if int(first.digits) > 31:
        return Reading([Order(second, third, first)], "year-month-day")
    if int(first.digits) <= 12 or int(second.digits) > 12:
        found = [Order(first, second, third)]
        if int(second.digits) <= 12 and int(first.digits) != int(second.digits):
            found.append(Order(second, first, third))
        return Reading(found, "month-day-year")
    found = [Order(second, first, third)]
    if len(first.digits) == len(third.digits) == 2 and not third.is_year:
        found.append(Order(second, third, first))
    return Reading(found, "day-month-year")


def _two(first: Number, second: Number, span: Span) -> Reading | Fault:
    if len(first.digits) > 2 or len(second.digits) > 2 or second.is_year:
        return Fault("date-incomplete", span, "a month, a day and a year", "two of them")
    month_first, day_first = Order(first, second, None), Order(second, first, None)
    if int(first.digits) > 12 >= int(second.digits):
        return Reading([day_first], "day-month")
    return Reading([month_first, day_first] if int(second.digits) <= 12 else [month_first], "month-day")


def _compact(number: Number) -> Reading | Fault:
    """Six or eight figures without a mark between them."""
    size = len(number.digits)
    if size not in (6, 8):
        return Fault("date-unreadable", number.span, "a date of six or eight digits", str(size))

    def part(start: int, length: int) -> Number:
        at = number.span.start + start
        return Number(number.digits[start : start + length], Span(at, at + length))

    year = size - 4
    found = [
        Order(part(0, 2), part(2, 2), part(4, year)),
        Order(part(2, 2), part(0, 2), part(4, year)),
        Order(part(year, 2), part(year + 2, 2), part(0, year)),
    ]
    return Reading(found, "eight-digits" if size == 8 else "six-digits", int(number.digits[:2]) <= 12)
