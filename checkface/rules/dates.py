"""The date of the check: is there one, can it be read, what cannot be told from it.

Whether the day itself is too early or too late is asked in :mod:`checkface.rules.age`.
"""

from __future__ import annotations

import datetime
from functools import partial

from checkface.amounts.model import quoted
from checkface.dates import CheckDate
from checkface.findings import Effect, Outcome, Remedy
from checkface.policy import Dates
from checkface.rules.registry import UNREAD, Answer, Case, Hit, at, left_blank, rule
from checkface.span import Fault
from checkface.tender import Face, State


def shown(day: datetime.date) -> str:
    """A day as a clerk writes it: ``11/24/2026``."""
    return f"{day.month:02}/{day.day:02}/{day.year}"


@rule("date-blank", Effect.NOTE, by="ucc-3-113 ucc-3-115", remedy=Remedy.COMPLETE)
def date_blank(face: Face) -> Answer:
    """The date line is blank.

    What it asks: Was the date line looked at and found empty, or with nothing but its printed rules and
        century?
    Why it matters: A check without a date counts as dated on the day it is issued, so it is good; but until
        the line is filled in, anyone may write another day on it.
    Example: The customer has signed and left __/__/20__ as it was printed.
    What to do: Have the customer write today's date, or let the printer do it.
    """
    return left_blank("date", face.date, "The date line is blank.")


@rule("date-unreadable", Effect.REFER, by="ucc-3-302 common-practice", remedy=Remedy.REREAD)
def date_unreadable(face: Face, date_read: CheckDate | Fault | None) -> Answer:
    """Something stands on the date line, and no day can be made of it.

    What it asks: Could a day be read from what is written?
    Why it matters: What nobody can read may be a day to come or one months ago, and no rule about the age of the
        check can be asked.
    Example: 02/30/2026, a smear, or the word VOID on the date line.
    What to do: Read it again with the customer; if the day stays unclear, ask for a new check or call the
        manager.
    """
    if isinstance(date_read, Fault):
        return Hit(f"No day can be made of {quoted(face.date.text)}.", (at("date", date_read.span),))
    match face.date.state:
        case State.ILLEGIBLE:
            return Hit("The date cannot be read.", (at("date"),))
        case State.BLANK:
            return None
        case _:
            return UNREAD if date_read is None else None


def _plain(case: Case) -> Outcome | None:
    """A date with its year, in one order, every word of it right: nothing is left to ask of how it is written."""
    found = case.read.date
    if not isinstance(found, CheckDate) or found.order_unclear or found.repairs:
        return None
    return Outcome.HELD if found.year_written and not found.weekday_contradicts else None


_rule = partial(rule, gate=_plain)


@_rule(
    "date-without-year", Effect.REFER, by="ucc-3-115 common-practice", remedy=Remedy.COMPLETE, floor=Effect.NOTE
)  # fmt: skip
def date_without_year(date: CheckDate, on: datetime.date, house_dates: Dates) -> Answer:
    """A day and a month, but no year.

    What it asks: Is a year written or printed beside the day and the month?
    Why it matters: Without its year the same date can lie in this spring or the next. Where the day fits the
        last weeks this is noted only, as a blank date is; where it fits no recent day a manager decides.
    Example: 11/24 with the year left out, on 24 November.
    What to do: Have the customer add the year.
    """
    if date.year_written:
        return None
    oldest = on - datetime.timedelta(days=house_dates.overdue_days)
    recent = any(oldest <= day <= on for day in date.candidates)
    message = f"No year is written: it may be {' or '.join(map(shown, date.candidates))}."
    return Hit(message, (at("date", date.span),), Effect.NOTE if recent else None)


@_rule("date-weekday-differs", Effect.NOTE, by="common-practice", remedy=Remedy.REREAD)
def date_weekday_differs(date: CheckDate) -> Answer:
    """The weekday or holiday written with the date is not that day's.

    What it asks: Where a weekday or a holiday is written, does the day fall on it?
    Why it matters: One of the two is wrong, and it may be the day or the year.
    Example: Monday, 24 November 2026, which is a Tuesday.
    What to do: Ask which day was meant.
    """
    if not date.weekday_contradicts or date.date is None:
        return None
    message = f"{shown(date.date)} is a {date.date:%A}, and the name of another day is written."
    return Hit(message, (at("date", date.span),))


@_rule("date-repaired", Effect.NOTE, by="common-practice", remedy=Remedy.REREAD)
def date_repaired(date: CheckDate) -> Answer:
    """The name of a month or weekday is misspelled, or a letter stands for a figure; it was taken for what it must be.

    What it asks: Was every word of the date read as it stands?
    Why it matters: The day is what a careful reader would take it for. That it was mended stays on record.
    Example: Novenber 24, 2026.
    What to do: Nothing, if the day is plainly the one meant.
    """
    if not date.repairs:
        return None
    labels = tuple(at("date", mended.span, mended.word, primary=i == 0) for i, mended in enumerate(date.repairs))
    word = date.repairs[0].word
    what = "A letter stands among the figures" if word.isdigit() else "A word of the date is misspelled"
    return Hit(f"{what}; it was taken for {word}.", labels)
