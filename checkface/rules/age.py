"""Too early, too late, or right a year ago: the date of the check against the day of tender.

The rules are ordered by facts and not by days alone. A January date with last year's number is a fact of its own: its
year is wrong, its age is not known, and a manager can have it mended; so it is referred by ``date-last-january`` and
not declined as stale. Otherwise nothing grows milder with age. Treasury checks and postal money orders have terms of
their own; the common ones are waived only where the line proves such a kind and nothing speaks for another.

A date whose figures can be taken in several orders proves no age: a rule declines only where no order makes the date
good. Where some order does, it refers, unless the custom, month first, settles the order and makes the date good.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import partial

from checkface import instruments
from checkface.dates import CheckDate
from checkface.dates.calendar import january_slip
from checkface.findings import Effect, Label, Outcome, Remedy
from checkface.rules.dates import shown
from checkface.rules.registry import NOT_APPLICABLE, UNREAD, Answer, Case, Hit, at, rule
from checkface.tender import Kind

_OWN_TERM = frozenset({Kind.TREASURY_CHECK, Kind.POSTAL_MONEY_ORDER})
_FEDERAL = _OWN_TERM | {Kind.GOVERNMENT_CHECK, Kind.MONEY_ORDER}


def _has_own_term(case: Case) -> bool:
    """Whether the line itself, its sum in order, shows federal paper, and nothing speaks for any other.

    A word of the clerk alone must not excuse a stale check. The prefix 00 is published; a listed number may rest on
    memory, so it excuses nothing, but it does speak against another kind.
    """
    number, kinds = case.read.routing, case.read.kinds
    if number is None or not number.checksum or number.series != "government":
        return False
    if number.government is not None and number.government.kind not in map(str, kinds):
        return False
    return not kinds.isdisjoint(_OWN_TERM) and kinds <= _FEDERAL


def _labels(case: Case, *, primary: bool = True) -> tuple[Label, ...]:
    found = case.read.date
    span = found.span if isinstance(found, CheckDate) else None
    return at("date", span, primary=primary), at("counter.on", None, "the day of tender", primary=False)


def _days(number: int) -> str:
    return "1 day" if number == 1 else f"{number} days"


def _year_later(day: date) -> date:
    """The same day of the next year by the calendar; the last of February where there is no 29th."""
    try:
        return day.replace(year=day.year + 1)
    except ValueError:
        return day.replace(year=day.year + 1, day=28)


def _days_written(found: object) -> tuple[date, ...]:
    """The days that a date can be; none where there is no date or no year is written."""
    return found.candidates if isinstance(found, CheckDate) and found.year_written else ()


_Asks = Callable[[date], bool]


def _told(case: Case, wrong: _Asks, good: _Asks) -> tuple[date, bool] | None:
    """The first day that the date can be and that is *wrong*, and whether no order makes it a *good* one."""
    found = case.read.date
    days = _days_written(found)
    told = [day for day in days if wrong(day)]
    if not told or not isinstance(found, CheckDate) or (found.by_custom and found.date not in told):
        return None
    return told[0], not any(map(good, days))


def _fresh(case: Case, on: date) -> _Asks:
    """What asks whether a day is neither in the future nor stale; last year's number in January proves no age."""
    most, own = case.policy.dates.stale_days, _has_own_term(case)
    return lambda day: day <= on and (own or (on - day).days <= most or january_slip(day, on) is not None)


def _hit(case: Case, wrong: _Asks, good: _Asks, say: Callable[[date], tuple[str, str]]) -> Hit | None:
    """The finding if the date is *wrong*; *say* gives what was expected and what such a day is."""
    told = _told(case, wrong, good)
    if told is None:
        return None
    day, proved = told
    expected, what = say(day)
    if proved:
        return Hit(f"Expected {expected}, read {what}.", _labels(case))
    days = " or ".join(map(shown, _days_written(case.read.date)))
    return Hit(f"Expected {expected}, read {days}: it may be {what}.", _labels(case), Effect.REFER, Remedy.COMPLETE)


def _recent(case: Case) -> Outcome | None:
    """One day, of the last weeks, its year as it should be: nothing is left to ask of its age."""
    found, on = case.read.date, case.read.counter.on
    if on is None or not isinstance(found, CheckDate) or not found.year_written or found.january_slip is not None:
        return None
    if len(found.candidates) != 1 or not found.date or found.date > on:
        return None
    limits = case.policy.dates
    return Outcome.HELD if (on - found.date).days <= min(limits.overdue_days, limits.stale_days) else None


_rule = partial(rule, gate=_recent)


@_rule(
    "date-in-future", Effect.DECLINE, by="common-practice ucc-3-113 ucc-4-401", needs="date on",
    remedy=Remedy.COMPLETE, floor=Effect.KEEP,
)  # fmt: skip
def date_in_future(case: Case) -> Answer:
    """The check is dated after the day of tender.

    What it asks: Is the date today or earlier? Where it is so only in one order of the figures and not in the
        customary one, a manager decides.
    Why it matters: A postdated check is not payable before its date, and its writer may be telling you that
        the money is not there yet. Sent as a debit today it takes what was promised for later; a bank that
        pays it early does so at somebody's risk.
    Example: 12/01/2026 on 24 November 2026.
    What to do: Hand it back. If the day is a slip of the pen, the customer writes today's date and initials
        it, or writes a new check.
    """
    on, days = case.read.counter.on, _days_written(case.read.date)
    if on is None or not days:
        return UNREAD
    if max(days) <= on:
        return None
    return _hit(
        case,
        lambda day: day > on,
        _fresh(case, on),
        lambda day: (f"a date up to {shown(on)}", f"{shown(day)}, {_days((day - on).days)} later"),
    )


@_rule(
    "date-stale", Effect.DECLINE, by="common-practice ucc-4-404", needs="date on", remedy=Remedy.NEW_CHECK,
    floor=Effect.REFER,
)  # fmt: skip
def date_stale(case: Case) -> Answer:
    """The check is older than a bank needs to pay.

    What it asks: Do more days lie between the date and today than the policy allows, 180 unless it says
        otherwise? Where the order of the figures is open and one of them makes a good date, a manager decides.
    Why it matters: A bank owes its customer nothing on an uncertified check presented more than six months
        after its date. It may pay all the same, and it may not. The house does not carry that risk for a
        certified check either; Treasury checks and postal money orders have their own terms and are not
        asked.
    Example: 04/30/2026 on 24 November 2026, 208 days.
    What to do: Hand it back and ask for a new check. A date in January that carries last year's number is
        another matter: see date-last-january.
    """
    found, on, most = case.read.date, case.read.counter.on, case.policy.dates.stale_days
    days = _days_written(found)
    if on is None or not isinstance(found, CheckDate) or not days:
        return UNREAD
    if (on - min(days)).days <= most:
        return None
    hit = _hit(
        case,
        lambda day: (on - day).days > most,
        _fresh(case, on),
        lambda day: (f"a date at most {_days(most)} old", f"{shown(day)}, {_days((on - day).days)} old"),
    )
    if hit is not None and (found.january_slip is not None or _has_own_term(case)):
        return NOT_APPLICABLE
    return hit


@_rule("date-overdue", Effect.NOTE, by="ucc-3-304 ucc-3-302", needs="date on", remedy=Remedy.NEW_CHECK)
def date_overdue(case: Case) -> Answer:
    """The check is overdue, though not yet stale.

    What it asks: Do more than 90 days, or as many as the policy says, lie between the date and today?
    Why it matters: Whoever takes an overdue check takes it with every defence the writer has against an
        earlier holder. At a counter, where the writer hands it over himself, this is a reason to look twice
        and no more.
    Example: 08/15/2026 on 24 November 2026, 101 days.
    What to do: Ask how it came to be so old, or ask for a new one.
    """
    found, on = case.read.date, case.read.tender.counter.on
    if on is None or not isinstance(found, CheckDate) or (day := found.date) is None:
        return UNREAD
    age, limits = (on - day).days, case.policy.dates
    if age <= limits.overdue_days:
        return None
    if age > limits.stale_days or _has_own_term(case):
        return NOT_APPLICABLE
    message = f"Expected a date at most {_days(limits.overdue_days)} old, read {shown(day)}, {_days(age)} old."
    return Hit(message, _labels(case))


@_rule(
    "date-last-january", Effect.REFER, by="common-practice ucc-4-404 ucc-3-407", needs="date on",
    remedy=Remedy.COMPLETE, floor=Effect.KEEP,
)  # fmt: skip
def date_last_january(case: Case) -> Answer:
    """A January date with last year's number: right, a year ago.

    What it asks: In January or February, does a January date carry the number of the year before, and would
        this year's number make it a day just past?
    Why it matters: The year is the commonest slip of the pen there is. As written the check is a year old and
        a bank need not pay it; as meant it is a few days old. Nobody but the writer may mend it: a change of
        date in another hand is an alteration.
    Example: 01/05/2026 on 7 January 2027.
    What to do: Ask the writer to correct the year and initial it, or to write a new check. If the writer says
        that the year is right, decline it as stale.
    """
    found = case.read.date
    if not isinstance(found, CheckDate) or found.date is None:
        return UNREAD
    if found.january_slip is None:
        return None
    if _has_own_term(case):
        return NOT_APPLICABLE
    return Hit(f"Expected {shown(found.january_slip)}, read last year's number.", _labels(case))


@rule("date-past-printed-limit", Effect.DECLINE, by="common-practice", needs="legends on", remedy=Remedy.NEW_CHECK)
def date_past_printed_limit(case: Case) -> Answer:
    """The term printed on the face is over.

    What it asks: Where the face says that it is void after so many days, or after a day it names, is that day
        still to come?
    Why it matters: The drawer told everyone how long the check is good. After that the bank may refuse it and
        the drawer may have paid otherwise. A term whose figure cannot be read calls for a manager.
    Example: VOID AFTER 90 DAYS on a check of 08/15/2026, tendered on 24 November 2026.
    What to do: Hand it back and ask for a new one.
    """
    on, days = case.read.tender.counter.on, _days_written(case.read.date)
    limits = [limit for limit in instruments.legend_limits(case.read.face.legends.text) if limit.kind != "amount"]
    if not limits or on is None:
        return NOT_APPLICABLE
    hits = []
    idle = False
    for limit in limits:
        label = at("legends", limit.span, "the printed term")
        if limit.value is None:
            hits.append(
                Hit("Expected a printed term in figures, read one without.", (label,), Effect.REFER, Remedy.MANAGER)
            )
        elif limit.kind != "date" and not days:
            idle = True
        else:
            told = _past_term(case, limit, on)
            last = told and limit.last_day(told[0])
            if told and last:
                message = f"Expected a tender up to {shown(last)} as printed on the face, read {shown(on)}."
                effect = None if told[1] else Effect.REFER
                hits.append(Hit(message, (label, *_labels(case, primary=False)), effect))
    return tuple(hits) or (UNREAD if idle else None)


def _past_term(case: Case, limit: instruments.Limit, on: date) -> tuple[date, bool] | None:
    """A day of the check from which the printed term is over, and whether no order of the date saves it."""

    def past(day: date) -> bool:
        last = limit.last_day(day)
        return last is not None and on > last

    if limit.kind == "date":
        return (on, True) if past(on) else None
    return _told(case, past, lambda day: day <= on and not past(day))


@rule("treasury-past-year", Effect.DECLINE, by="31-usc-3328", needs="date on")
def treasury_past_year(case: Case) -> Answer:
    """A Treasury check more than twelve months after its issue.

    What it asks: Where anything says that the Treasury drew the check, is today at most twelve months, by the
        calendar, after its date?
    Why it matters: The Treasury is not required to pay its check once a year has passed; whoever takes it has
        an argument with an agency in place of money.
    Example: Dated 11/20/2025, tendered on 24 November 2026.
    What to do: Hand it back. The payee can have it replaced by the agency that issued it.
    """
    if Kind.TREASURY_CHECK not in case.read.kinds:
        return NOT_APPLICABLE
    on = case.read.tender.counter.on
    if on is None or not _days_written(case.read.date):
        return UNREAD
    today = on.timetuple()[:3]
    return _hit(
        case,
        lambda day: today > (day.year + 1, day.month, day.day),
        lambda day: day <= on and today <= (day.year + 1, day.month, day.day),
        lambda day: (f"a Treasury check up to {shown(_year_later(day))}", shown(day)),
    )
