"""Too early, too late, or right a year ago: the date of the check against the day of tender.

The rules are ordered by facts and not by days alone. A January date with last year's number is a fact of its own: its
year is wrong, its age is not known, and a manager can have it mended; so it is referred by ``date-last-january`` and
not declined as stale. Otherwise nothing grows milder with age. Which checks have a term of their own is settled in
:mod:`checkface.rules.terms`.

A date whose figures can be taken in several orders proves no age: a rule declines only where no order makes the date
good. Where some order does, it refers, unless the custom, month first, settles the order and makes the date good.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable
from functools import partial

from checkface import instruments
from checkface.dates import CheckDate
from checkface.dates.banking import next_banking_day
from checkface.dates.calendar import january_slip, months_after
from checkface.findings import Effect, Label, Outcome, Remedy
from checkface.instruments import Inference
from checkface.kinds import where
from checkface.policy import Dates
from checkface.rules.dates import shown
from checkface.rules.kinds import ONLY_PERSONAL, is_open
from checkface.rules.registry import NOT_APPLICABLE, UNREAD, Answer, Case, Hit, at, rule
from checkface.rules.terms import STALE_MONTHS, Term, is_warrant, of_california, says
from checkface.span import Fault
from checkface.tender import Face, Kind

#: Days after which a check is presumed overdue in New York, which keeps the older article 3: N.Y. UCC 3-304(3)(c).
OVERDUE_IN_NEW_YORK = 30
#: Months within which a Treasury check must come to a bank: 31 USC 3328(a)(1)(A).
TREASURY_MONTHS = 12
#: Months of a warrant of the State of California (Gov. Code 17070) and of one of its counties (29802).
CALIFORNIA_MONTHS, CALIFORNIA_COUNTY_MONTHS = 12, 6
_FEDERAL = where(lambda row: row.term == "line")

_Asks = Callable[[datetime.date], bool]
_Read = CheckDate | Fault | None


def _labels(found: _Read, *, primary: bool = True) -> tuple[Label, ...]:
    span = found.span if isinstance(found, CheckDate) else None
    return at("date", span, primary=primary), at("counter.on", None, "the day of tender", primary=False)


def _days(number: int) -> str:
    return "1 day" if number == 1 else f"{number} days"


def _days_written(found: _Read) -> tuple[datetime.date, ...]:
    """The days that a date can be; none where there is no date or no year is written."""
    return found.candidates if isinstance(found, CheckDate) and found.year_written else ()


def _told(found: _Read, wrong: _Asks, good: _Asks) -> tuple[datetime.date, bool] | None:
    """The first day that the date can be and that is *wrong*, and whether no order makes it a *good* one."""
    days = _days_written(found)
    told = [day for day in days if wrong(day)]
    if not told or not isinstance(found, CheckDate) or (found.by_custom and found.date not in told):
        return None
    return told[0], not any(map(good, days))


def _stale(on: datetime.date, most: int | None) -> _Asks:
    """What asks whether a day is more than six months ago by the calendar, or more than the *most* days of a house."""
    return lambda day: on > months_after(day, STALE_MONTHS) or (most is not None and (on - day).days > most)


def _overdue_after(most: int, laws: frozenset[str]) -> int:
    """Days after which a check is overdue here, where the house says *most*."""
    return min(most, OVERDUE_IN_NEW_YORK) if "NY" in laws else most


def _fresh(on: datetime.date, most: int | None, term: Term) -> _Asks:
    """What asks whether a day is neither in the future nor stale; last year's number in January proves no age."""
    stale, own = _stale(on, most), term is Term.OWN
    return lambda day: day <= on and (own or not stale(day) or january_slip(day, on) is not None)


def _hit(found: CheckDate, wrong: _Asks, good: _Asks, say: Callable[[datetime.date], str] | str) -> Hit | None:
    """The finding if the date is *wrong*; *say* what is wrong with such a day, its date first."""
    told = _told(found, wrong, good)
    if told is None:
        return None
    day, proved = told
    said = say if isinstance(say, str) else say(day)
    if proved:
        return Hit(f"Dated {shown(day)}, {said}.", _labels(found))
    others = " or ".join(shown(other) for other in found.candidates if other != day)
    message = f"The date may be {shown(day)}, {said}, or {others}."
    return Hit(message, _labels(found), Effect.REFER, Remedy.COMPLETE)


def _recent(case: Case) -> Outcome | None:
    """One day, of the last weeks, its year as it should be: nothing is left to ask of its age."""
    found, on = case.read.date, case.read.counter.on
    if on is None or not isinstance(found, CheckDate) or not found.year_written or found.january_slip is not None:
        return None
    if len(found.candidates) != 1 or not found.date or found.date > on:
        return None
    limits = case.policy.dates
    least = min(limits.overdue_days, limits.stale_days or OVERDUE_IN_NEW_YORK, OVERDUE_IN_NEW_YORK)
    return Outcome.HELD if (on - found.date).days <= least else None


_rule = partial(rule, gate=_recent)


@_rule(
    "date-in-future", Effect.DECLINE, by="common-practice ucc-3-113 ucc-4-401",
    remedy=Remedy.COMPLETE, floor=Effect.KEEP,
)  # fmt: skip
def date_in_future(date: CheckDate, on: datetime.date, house_dates: Dates, term: Term) -> Answer:
    """The check is dated after the day of tender.

    What it asks: Is the date today or earlier? Where it is so only in one order of the figures and not in the
        customary one, a manager decides.
    Why it matters: A postdated check is not payable before its date, and its writer may be telling you that
        the money is not there yet. Sent as a debit today it takes what was promised for later, and a bank that
        pays it early may have to answer for it.
    Example: 12/01/2026 on 24 November 2026.
    What to do: Hand it back. If the day is a slip of the pen, the customer writes today's date and initials
        it, or writes a new check.
    """
    if not date.year_written:
        return UNREAD
    fresh = _fresh(on, house_dates.stale_days, term)
    return _hit(date, lambda day: day > on, fresh, lambda day: f"{_days((day - on).days)} ahead")


@_rule(
    "date-stale", Effect.DECLINE, by="common-practice ucc-4-404", remedy=Remedy.NEW_CHECK,
    floor=Effect.REFER,
)  # fmt: skip
def date_stale(date: CheckDate, on: datetime.date, house_dates: Dates, term: Term) -> Answer:
    """The check is older than a bank needs to pay.

    What it asks: Is today more than six months after its date by the calendar, or more days than the policy allows?
        Where the order of the figures is open and one of them makes a good date, a manager decides, and where the
        paper may have a term of its own that nothing settles.
    Why it matters: A bank need not pay a check on a customer's account presented more than six months after its date.
        It may pay all the same, and it may not. What a bank, the post office or the Treasury owes itself, certified
        checks and warrants have other terms and are not asked where the paper shows the kind.
    Example: 04/30/2026 on 24 November 2026.
    What to do: Hand it back and ask for a new check. A date in January that carries last year's number is
        another matter: see date-last-january.
    """
    if not date.year_written:
        return UNREAD
    most = house_dates.stale_days

    def say(day: datetime.date) -> str:
        if most is None or on > months_after(day, STALE_MONTHS):
            return "more than six months ago"
        return f"{_days((on - day).days)} ago, and this house takes a check for {_days(most)}"

    hit = _hit(date, _stale(on, most), _fresh(on, most, term), say)
    if hit is None:
        return None
    if date.january_slip is not None or term is Term.OWN:
        return NOT_APPLICABLE
    return hit if term is Term.ACCOUNT else hit._replace(effect=Effect.REFER, remedy=Remedy.MANAGER)


@_rule("date-overdue", Effect.NOTE, by="ucc-3-304 ny-ucc-3-304 ucc-3-302", remedy=Remedy.NEW_CHECK)
def date_overdue(
    date: CheckDate, on: datetime.date, house_dates: Dates, term: Term, kinds: frozenset[Kind], laws: frozenset[str]
) -> Answer:
    """The check is overdue, though not yet stale.

    What it asks: Do more than 90 days, or as many as the policy says, lie between the date and today? Where New
        York's law may hold, more than 30?
    Why it matters: Whoever takes an overdue check takes it with every defense the writer has against an
        earlier holder. At a counter, where the writer hands it over himself, this is a reason to look twice
        and no more.
    Example: 08/15/2026 on 24 November 2026, 101 days.
    What to do: Ask how it came to be so old, or ask for a new one.
    """
    if (day := date.date) is None:
        return UNREAD
    age, most = (on - day).days, _overdue_after(house_dates.overdue_days, laws)
    if age <= most:
        return None
    there = " in New York" if most < house_dates.overdue_days else ""
    own = term is Term.OWN
    if (own and not kinds.isdisjoint(_FEDERAL)) or (not own and _stale(on, house_dates.stale_days)(day)):
        return NOT_APPLICABLE
    return Hit(f"Dated {shown(day)}, {_days(age)} ago: overdue after {_days(most)}{there}.", _labels(date))


@_rule("date-order-unclear", Effect.NOTE, by="common-practice")
def date_order_unclear(date: CheckDate, on: datetime.date, house_dates: Dates, laws: frozenset[str]) -> Answer:
    """The figures of the date can be read month first or day first, and it matters which.

    What it asks: Does more than one order of the figures give a day, and is one of these days in the future, stale or
        overdue where another is not?
    Why it matters: In the United States the month is written first and the date is taken so; a visitor may
        have meant the other. Where the first figure cannot be a month, it is the day or the year and no custom
        says which. Where both days are good, it makes no difference and nothing is said.
    Example: 11/12/2026 on 24 November 2026: 12 November here, and 11 December elsewhere, which is still to come.
    What to do: Nothing, unless the customer says that the day comes first; then have the month written out.
    """
    if not date.order_unclear:
        return None
    stale, overdue = _stale(on, house_dates.stale_days), _overdue_after(house_dates.overdue_days, laws)
    if len({(day > on, stale(day), (on - day).days > overdue) for day in date.candidates}) == 1:
        return None
    days = [shown(day) for day in date.candidates]
    message = (
        f"Month first it is {'; day first it is '.join(days)}." if date.by_custom else f"It may be {' or '.join(days)}."
    )
    return Hit(message, (at("date", date.span),))


@_rule(
    "date-last-january", Effect.REFER, by="common-practice ucc-4-404 ucc-3-407",
    remedy=Remedy.COMPLETE, floor=Effect.KEEP,
)  # fmt: skip
def date_last_january(date: CheckDate, term: Term) -> Answer:
    """A January date with last year's number: right, a year ago.

    What it asks: In January or February, does a January date carry the number of the year before, and would
        this year's number make it a day just past?
    Why it matters: In January people often write the number of last year. As written the check is a year old and
        a bank need not pay it; as meant it is a few days old. Nobody but the writer may mend it: a change of
        date in another hand is an alteration.
    Example: 01/05/2026 on 7 January 2027.
    What to do: Ask the writer to correct the year and initial it, or to write a new check. If the writer says
        that the year is right, decline it as stale.
    """
    if date.date is None:
        return UNREAD
    if date.january_slip is None:
        return None
    if term is Term.OWN:
        return NOT_APPLICABLE
    return Hit(f"Dated {shown(date.date)}: the year may be meant to be {date.january_slip.year}.", _labels(date))


@rule("date-past-printed-limit", Effect.DECLINE, by="common-practice", remedy=Remedy.NEW_CHECK)
def date_past_printed_limit(legends: str, on: datetime.date, date_read: CheckDate | Fault | None) -> Answer:
    """The term printed on the face is over.

    What it asks: Where the face says that it is void after so many days, or after a day it names, is that day
        still to come?
    Why it matters: The drawer told everyone how long the check is good. After that the bank may refuse it and
        the drawer may have paid otherwise. A term whose figure cannot be read calls for a manager.
    Example: VOID AFTER 90 DAYS on a check of 08/15/2026, tendered on 24 November 2026.
    What to do: Hand it back and ask for a new one.
    """
    limits = [limit for limit in instruments.legend_limits(legends) if limit.kind != "amount"]
    if not limits:
        return NOT_APPLICABLE
    hits = []
    idle = False
    for limit in limits:
        label = at("legends", limit.span, "the printed term")
        if limit.value is None:
            hits.append(Hit("The printed term cannot be read.", (label,), Effect.REFER, Remedy.MANAGER))
        elif limit.kind != "date" and not _days_written(date_read):
            idle = True
        else:
            told = _past_term(date_read, limit, on)
            last = told and limit.last_day(told[0])
            if told and last:
                message = f"Good until {shown(last)} as printed on the face, and today is {shown(on)}."
                effect = None if told[1] else Effect.REFER
                hits.append(Hit(message, (label, *_labels(date_read, primary=False)), effect))
    return tuple(hits) or (UNREAD if idle else None)


def _past_term(found: _Read, limit: instruments.Limit, on: datetime.date) -> tuple[datetime.date, bool] | None:
    """A day of the check from which the printed term is over, and whether no order of the date saves it."""

    def past(day: datetime.date) -> bool:
        last = limit.last_day(day)
        return last is not None and on > last

    if limit.kind == "date":
        return (on, True) if past(on) else None
    return _told(found, past, lambda day: day <= on and not past(day))


def _personal(case: Case) -> Outcome | None:
    """Where the one kind in evidence is personal, no other kind's term applies."""
    return NOT_APPLICABLE if case.read.kinds == ONLY_PERSONAL else None


_of_others = partial(rule, gate=_personal)


@_of_others("treasury-past-year", Effect.DECLINE, by="31-usc-3328 12-cfr-229-2-g")
def treasury_past_year(
    date: CheckDate, on: datetime.date, kinds: frozenset[Kind], inference: Inference, declared: Kind | None
) -> Answer:
    """A Treasury check that cannot come to a bank within twelve months of its issue.

    What it asks: Where anything says that the Treasury drew the check, is today at most twelve months, by the
        calendar, after its date? Is the next banking day, when it is deposited? If only that one is too late, or the
        line leaves open whether it is the Treasury's at all, a manager decides.
    Why it matters: The Treasury need not pay a check that was not negotiated to a bank within twelve months of its
        issue; whoever takes it may not be paid.
    Example: Dated 11/20/2025, tendered on 24 November 2026.
    What to do: Hand it back. The payee can have it replaced by the agency that issued it.
    """
    if Kind.TREASURY_CHECK not in kinds:
        return NOT_APPLICABLE
    may_be = is_open(Kind.TREASURY_CHECK, inference, declared)
    if may_be and declared in _FEDERAL:
        return NOT_APPLICABLE  # the clerk declared the other kind that the same mark leaves open
    if not date.year_written:
        return UNREAD

    def last(day: datetime.date) -> datetime.date:
        return months_after(day, TREASURY_MONTHS)

    hit = _hit(date, lambda day: on > last(day), lambda day: day <= on <= last(day), "more than twelve months ago")
    if hit is not None:
        return hit._replace(effect=Effect.REFER) if may_be else hit
    deposit = next_banking_day(on)
    late = _told(date, lambda day: day <= on and deposit > last(day), lambda _: False)
    if late is None:
        return None
    written, due = shown(late[0]), shown(last(late[0]))
    message = f"Dated {written}, due at a bank by {due}, and the next banking day is {shown(deposit)}."
    return Hit(message, _labels(date), Effect.REFER, Remedy.MANAGER)


@_of_others("warrant-past-term", Effect.DECLINE, by="cal-gov-17070 cal-gov-29802")
def warrant_past_term(
    date: CheckDate, on: datetime.date, kinds: frozenset[Kind], inference: Inference, face: Face, laws: frozenset[str]
) -> Answer:
    """A Californian warrant that is void by its age.

    What it asks: Is a warrant of the State of California more than one year old, or one of a county more than six
        months? Where the wording does not say whose it is, a manager decides between the two.
    Why it matters: The State Controller cancels a warrant that is unpaid for a year, and a county's warrant is void
        six months after its date unless an ordinance says otherwise. Other states have terms of their own, which are
        not known here: there a manager decides after six months.
    Example: COUNTY WARRANT, dated 05/20/2026, tendered in California on 24 November 2026.
    What to do: Hand it back. The payee can have it replaced by the office that drew it.
    """
    if Kind.GOVERNMENT_CHECK not in kinds or not is_warrant(inference) or not of_california(face, laws):
        return NOT_APPLICABLE
    if not date.year_written:
        return UNREAD
    county = says(face, "county")
    least = CALIFORNIA_COUNTY_MONTHS if county or not says(face, "state") else CALIFORNIA_MONTHS

    def past(day: datetime.date) -> bool:
        return on > months_after(day, least)

    ago = "six months" if least == CALIFORNIA_COUNTY_MONTHS else "one year"
    hit = _hit(date, past, lambda day: day <= on and not past(day), f"more than {ago} ago")
    settled = county or all(on > months_after(day, CALIFORNIA_MONTHS) for day in date.candidates)
    return hit if hit is None or settled else hit._replace(effect=Effect.REFER, remedy=Remedy.MANAGER)
