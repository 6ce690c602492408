"""Which figure is the month, which the day, which the year: all the ways that are in use, the custom first.

The custom in the United States is month first. Where the first figure cannot be a month, the day or a year of two
digits stands first, and no custom says which; a year of four digits in front makes it ISO 8601, year, month, day.
"""

from typing import NamedTuple

from checkface.dates.pieces import Figures, Month, Pieces
from checkface.span import Fault, Span


class Order(NamedTuple):
    """One way to take the figures; ``year`` is None where none is written. ``form`` names it."""

    month: Figures
    day: Figures
    year: Figures | None
    form: str

    @property
    def possible(self) -> bool:
        """Whether the figures are of the right size: some month has such a day."""
        return 1 <= int(self.month.digits) <= 12 and 1 <= int(self.day.digits) <= 31


class Orders(NamedTuple):
    """All ways to take them, the customary one first; ``custom`` is False where none of them is customary.

    Where none is, the likelier may still be ``told`` as the date, with its order unclear.
    """

    orders: list[Order]
    custom: bool = True
    told: bool = True


def orders(pieces: Pieces, span: Span) -> Orders | Fault:
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


def _named(month: Month, numbers: list[Figures], span: Span) -> Orders | Fault:
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
    found = [Order(Figures(str(value), month.span), day, year, form) for value in values]
    first = len(numbers) == 2 and month.span < numbers[0].span
    if month.weekday is not None and first and not numbers[1].is_year and len(numbers[1].digits) < 3:
        bare = _two(numbers[0], numbers[1], span)  # mar 24/11: March 24 of 2011, or Tuesday, 24 November
        found += [order for order in bare.orders if order.possible] if isinstance(bare, Orders) else []
    return Orders(found, len(found) == 1, told=False)


def _three(numbers: list[Figures]) -> Orders | Fault:
    first, second, third = numbers
    year_first = Order(second, third, first, "year-month-day")
    month_first = Order(first, second, third, "month-day-year")
    day_first = Order(second, first, third, "day-month-year")
    if len(first.digits) == 4:
        return Orders([year_first])
    if len(second.digits) > 2 or len(first.digits) > 2:
        odd = second if len(second.digits) > 2 else first
        return Fault("date-unreadable", odd.span, "a month or a day of one or two digits", f"{len(odd.digits)}")
    if int(first.digits) > 31:
        return Orders([year_first])
    if int(first.digits) <= 12 or int(second.digits) > 12:
        swapped = int(second.digits) <= 12 and int(first.digits) != int(second.digits)
        return Orders([month_first, day_first] if swapped else [month_first])
    if len(first.digits) == len(third.digits) == 2 and not third.is_year:
        return Orders([day_first, year_first], custom=False)
    return Orders([day_first])


def _two(first: Figures, second: Figures, span: Span) -> Orders | Fault:
    if len(first.digits) > 2 or len(second.digits) > 2 or second.is_year:
        return Fault("date-incomplete", span, "a month, a day and a year", "two of them")
    month_first, day_first = Order(first, second, None, "month-day"), Order(second, first, None, "day-month")
    if int(first.digits) > 12 >= int(second.digits):
        return Orders([day_first])
    return Orders([month_first, day_first] if int(second.digits) <= 12 else [month_first])


def _compact(number: Figures) -> Orders | Fault:
    """Six or eight figures without a mark between them."""
    size = len(number.digits)
    if size not in (6, 8):
        return Fault("date-unreadable", number.span, "a date of six or eight digits", str(size))

    def part(start: int, length: int) -> Figures:
        at = number.span.start + start
        return Figures(number.digits[start : start + length], Span(at, at + length))

    form = "eight-digits" if size == 8 else "six-digits"
    year = size - 4
    found = [
        Order(part(0, 2), part(2, 2), part(4, year), form),
        Order(part(2, 2), part(0, 2), part(4, year), form),
        Order(part(year, 2), part(year + 2, 2), part(0, year), form),
    ]
    return Orders(found, int(number.digits[:2]) <= 12, told=False)
