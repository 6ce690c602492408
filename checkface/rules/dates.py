"""The date of the check: is there one, can it be read, what cannot be told from it.

Whether the day itself is too early or too late is asked in :mod:`checkface.rules.age`.
"""

from __future__ import annotations

from datetime import date, timedelta
from functools import partial

from checkface.dates import CheckDate
from checkface.findings import Effect, Outcome, Remedy
from checkface.rules.registry import UNREAD, Answer, Case, Hit, at, left_blank, rule
from checkface.span import Fault
from checkface.tender import Face, State


def shown(day: date) -> str:
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
def date_unreadable(case: Case) -> Answer:
    """Something stands on the date line, and no day can be made of it.

    What it asks: Could a day be read from what is written?
    Why it matters: A line nobody can read may hide a check that is postdated or months old, and every rule
        about age stands idle. Unreadable is worse than blank, because the drawer did write something.
    Example: 02/30/2026, a smear, or the word VOID on the date line.
    What to do: Read it again with the customer; if the day stays unclear, ask for a new check or call the
        manager.
    """
    found = case.read.date
    if isinstance(found, CheckDate):
        return None
    if isinstance(found, Fault):
        return Hit(found.message, (at("date", found.span),))
    state = case.read.face.date.state
    if state is State.ILLEGIBLE:
        return Hit("Expected a date, could not read it.", (at("date"),))
    return None if state is State.BLANK else UNREAD


def _plain(case: Case) -> Outcome | None:
    """A date with its year, in one order, every word of it right: nothing is left to ask of how it is written."""
    found = case.read.date
    if not isinstance(found, CheckDate) or found.order_unclear or found.repairs:
        return None
    return Outcome.HELD if found.year_written and not found.weekday_contradicts else None


_rule = partial(rule, gate=_plain)


@_rule(
    "date-without-year", Effect.REFER, by="ucc-3-115 common-practice", needs="date on", remedy=Remedy.COMPLETE,
    floor=Effect.NOTE,
)  # fmt: skip
def date_without_year(case: Case) -> Answer:
    """A day and a month, but no year.

    What it asks: Is a year written or printed beside the day and the month?
    Why it matters: Without its year the same date can lie in this spring or the next. Where the day fits the
        last weeks this is noted only, as a blank date is; where it fits no recent day a manager decides.
    Example: 11/24 with the year left out, on 24 November.
    What to do: Have the customer add the year.
    """
    found = case.read.date
    if not isinstance(found, CheckDate) or found.year_written:
        return None
    on = case.read.counter.on
    oldest = on and on - timedelta(days=case.policy.dates.overdue_days)
    recent = on is not None and any(oldest <= day <= on for day in found.candidates if oldest)
    could_be = " or ".join(shown(day) for day in found.candidates)
    message = f"Expected a year, read a day and a month: {could_be}."
    return Hit(message, (at("date", found.span),), Effect.NOTE if recent else None)


@_rule("date-weekday-differs", Effect.NOTE, by="common-practice", needs="date", remedy=Remedy.REREAD)
def date_weekday_differs(case: Case) -> Answer:
    """The weekday or holiday written with the date is not that day's.

    What it asks: Where a weekday or a holiday is written, does the day fall on it?
    Why it matters: One of the two is wrong, and it may be the day or the year.
    Example: Monday, 24 November 2026, which is a Tuesday.
    What to do: Ask which day was meant.
    """
    found = case.read.date
    if not isinstance(found, CheckDate) or not found.weekday_contradicts or found.date is None:
        return None
    message = f"Expected {found.date:%A} with {shown(found.date)}, read the name of another day."
    return Hit(message, (at("date", found.span),))


@_rule("date-repaired", Effect.NOTE, by="common-practice", needs="date", remedy=Remedy.REREAD)
def date_repaired(case: Case) -> Answer:
    """The name of a month or weekday is misspelled, or a letter stands for a figure; it was taken for what it must be.

    What it asks: Was every word of the date read as it stands?
    Why it matters: The day is what a careful reader would take it for. That it was mended stays on record.
    Example: Novenber 24, 2026.
    What to do: Nothing, if the day is plainly the one meant.
    """
    found = case.read.date
    if not isinstance(found, CheckDate) or not found.repairs:
        return None
    labels = tuple(at("date", mended.span, mended.word, primary=i == 0) for i, mended in enumerate(found.repairs))
    word = found.repairs[0].word
    if word.isdigit():
        return Hit(f"Expected figures, read a letter among them, taken for {word}.", labels)
    return Hit(f"Expected the name of a month or a weekday, read a misspelled {word}.", labels)
