"""What a reader of dates gives back."""

import datetime
from typing import NamedTuple

from checkface.span import Span


class RepairedWord(NamedTuple):
    """A misspelled word and the month or weekday it was taken for; or figures with a letter among them, and the figures
    they were taken for."""

    span: Span
    word: str


class CheckDate(NamedTuple):
    """A date as written.

    ``date`` is None when no year is written; ``candidates`` then holds the nearest days before and after the
    day of tender, nearest first. It is None too where the figures can be taken in several ways and none is
    customary. Otherwise ``candidates`` holds ``date`` and, where the order is unclear, the other reading. A weekday
    or holiday named with it leaves only the days that it fits, if it fits any; ``weekday_contradicts`` if none.
    ``form`` names the way it is written (``"month-day-year"``, ``"month-name"``, ...). A ``january_slip`` is the day
    a year later that fits the day of tender, for last year's number in January.
    """

    date: datetime.date | None
    candidates: tuple[datetime.date, ...]
    form: str
    span: Span
    order_unclear: bool = False
    two_digit_year: bool = False
    january_slip: datetime.date | None = None
    weekday_contradicts: bool = False
    repairs: tuple[RepairedWord, ...] = ()
    year_written: bool = True

    @property
    def by_custom(self) -> bool:
        """Whether the customary order settles an order that is unclear: 26/11/24 is month first in no case."""
        return self.date is not None and self.form not in ("day-month-year", "year-month-day")
