"""Too early, too late, or right a year ago: the date of the check against the day of tender.

The rules are ordered by facts and not by days alone. A January date with last year's number is a fact of its own: its
year is wrong, its age is not known, and a manager can have it mended; so it is referred by ``date-last-january`` and
not declined as stale. Otherwise nothing grows milder with age. Which checks have a term of their own is settled in
:mod:`checkface.rules.terms`.

A date whose figures can be taken in several orders proves no age: a rule declines only where no order makes the date
good. Where some order does, it refers, unless the custom, month first, settles the order and makes the date good.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import partial

from checkface import instruments
from checkface.dates import CheckDate
from checkface.dates.banking import next_banking_day
from checkface.dates.calendar import january_slip, months_after
from checkface.findings import Effect, Label, Outcome, Remedy
from checkface.kinds import where
from checkface.rules.dates import shown
from checkface.rules.kinds import is_open
from checkface.rules.registry import NOT_APPLICABLE, UNREAD, Answer, Case, Hit, at, rule
from checkface.rules.terms import STALE_MONTHS, Term, of_a_county, of_california, of_the_state, term, warrant
from checkface.tender import Kind

#: Days after which a check is presumed overdue in New York, which keeps the older article 3: N.Y. UCC 3-304(3)(c).
OVERDUE_IN_NEW_YORK = 30
#: Months within which a Treasury check must come to a bank: 31 USC 3328(a)(1)(A).
TREASURY_MONTHS = 12
#: Months of a warrant of the State of California (Gov. Code 17070) and of one of its counties (29802).
CALIFORNIA_MONTHS, CALIFORNIA_COUNTY_MONTHS = 12, 6
_FEDERAL = where(lambda row: row.term == "line")


def _labels(case: Case, *, primary: bool = True) -> tuple[Label, ...]:
    found = case.read.date
    span = found.span if isinstance(found, CheckDate) else None
    return at("date", span, primary=primary), at("counter.on", None, "the day of tender", primary=False)


def _days(number: int) -> str:
    return "1 day" if number == 1 else f"{number} days"


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


def _stale(case: Case, on: date) -> _Asks:
    """What asks whether a day is more than six months ago by the calendar, or more days than the house allows."""
    most = case.policy.dates.stale_days
    return lambda day: on > months_after(day, STALE_MONTHS) or (most is not None and (on - day).days > most)


def _overdue_after(case: Case) -> int:
    """Days after which a check is overdue here."""
    most = case.policy.dates.overdue_days
    return min(most, OVERDUE_IN_NEW_YORK) if most > OVERDUE_IN_NEW_YORK and "NY" in case.laws else most


def _fresh(case: Case, on: date) -> _Asks:
    """What asks whether a day is neither in the future nor stale; last year's number in January proves no age."""
    stale, own = _stale(case, on), term(case) is Term.OWN
    return lambda day: day <= on and (own or not stale(day) or january_slip(day, on) is not None)


def _hit(case: Case, wrong: _Asks, good: _Asks, say: Callable[[date], str] | str) -> Hit | None:
    """The finding if the date is *wrong*; *say* what is wrong with such a day, its date first."""
    told = _told(case, wrong, good)
    if told is None:
        return None
    day, proved = told
    said = say if isinstance(say, str) else say(day)
    if proved:
        return Hit(f"Dated {shown(day)}, {said}.", _labels(case))
    others = " or ".join(shown(other) for other in _days_written(case.read.date) if other != day)
    message = f"The date may be {shown(day)}, {said}, or {others}."
    return Hit(message, _labels(case), Effect.REFER, Remedy.COMPLETE)


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
        lambda day: f"{_days((day - on).days)} ahead",
    )


@_rule(
    "date-stale", Effect.DECLINE, by="common-practice ucc-4-404", needs="date on", remedy=Remedy.NEW_CHECK,
    floor=Effect.REFER,
)  # fmt: skip
def date_stale(case: Case) -> Answer:
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
    found, on = case.read.date, case.read.counter.on
    days = _days_written(found)
    if on is None or not isinstance(found, CheckDate) or not days:
        return UNREAD
    stale, most = _stale(case, on), case.policy.dates.stale_days
    if not any(map(stale, days)):
        return None

    def say(day: date) -> str:
        if most is None or on > months_after(day, STALE_MONTHS):
            return "more than six months ago"
        return f"{_days((on - day).days)} ago, and this house takes a check for {_days(most)}"

    hit = _hit(case, stale, _fresh(case, on), say)
    if hit is None:
        return None
    of_kind = term(case)
    if found.january_slip is not None or of_kind is Term.OWN:
        return NOT_APPLICABLE
    return hit if of_kind is Term.ACCOUNT else hit._replace(effect=Effect.REFER, remedy=Remedy.MANAGER)


@_rule("date-overdue", Effect.NOTE, by="ucc-3-304 ny-ucc-3-304 ucc-3-302", needs="date on", remedy=Remedy.NEW_CHECK)
def date_overdue(case: Case) -> Answer:
    """The check is overdue, though not yet stale.

    What it asks: Do more than 90 days, or as many as the policy says, lie between the date and today? Where New
        York's law may hold, more than 30?
    Why it matters: Whoever takes an overdue check takes it with every defence the writer has against an
        earlier holder. At a counter, where the writer hands it over himself, this is a reason to look twice
        and no more.
    Example: 08/15/2026 on 24 November 2026, 101 days.
    What to do: Ask how it came to be so old, or ask for a new one.
    """
    found, on = case.read.date, case.read.tender.counter.on
    if on is None or not isinstance(found, CheckDate) or (day := found.date) is None:
        return UNREAD
    age, of_house = (on - day).days, case.policy.dates.overdue_days
    if age <= min(of_house, OVERDUE_IN_NEW_YORK):
        return None
    most = _overdue_after(case)
    if age <= most:
        return None
    where = " in New York" if most < of_house else ""
    own = term(case) is Term.OWN
    if (own and not case.read.kinds.isdisjoint(_FEDERAL)) or (not own and _stale(case, on)(day)):
        return NOT_APPLICABLE
    return Hit(f"Dated {shown(day)}, {_days(age)} ago: overdue after {_days(most)}{where}.", _labels(case))


@_rule("date-order-unclear", Effect.NOTE, by="common-practice", needs="date on")
def date_order_unclear(case: Case) -> Answer:
    """The figures of the date can be read month first or day first, and it matters which.

    What it asks: Does more than one order of the figures give a day, and is one of these days in the future, stale or
        overdue where another is not?
    Why it matters: In the United States the month is written first and the date is taken so; a visitor may
        have meant the other. Where the first figure cannot be a month, it is the day or the year and no custom
        says which. Where both days are good, nothing turns on it and nothing is said.
    Example: 11/12/2026 on 24 November 2026: 12 November here, and 11 December elsewhere, which is still to come.
    What to do: Nothing, unless the customer says that the day comes first; then have the month written out.
    """
    found, on = case.read.date, case.read.counter.on
    if on is None or not isinstance(found, CheckDate) or not found.order_unclear:
        return None
    stale, overdue = _stale(case, on), _overdue_after(case)
    if len({(day > on, stale(day), (on - day).days > overdue) for day in found.candidates}) == 1:
        return None
    taken, *others = found.candidates
    if not found.by_custom:
        message = f"Expected one order of day, month and year, read {' or '.join(map(shown, found.candidates))}."
        return Hit(message, (at("date", found.span),))
    message = f"Expected one order of day and month, read {shown(taken)} taken month first"
    return Hit(message + "".join(f"; day first it is {shown(day)}" for day in others) + ".", (at("date", found.span),))


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
    if term(case) is Term.OWN:
        return NOT_APPLICABLE
    meant = found.january_slip.year
    return Hit(f"Dated {shown(found.date)}, last year's number where {meant} may be meant.", _labels(case))


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
            hits.append(Hit("The printed term has no figure that can be read.", (label,), Effect.REFER, Remedy.MANAGER))
        elif limit.kind != "date" and not days:
            idle = True
        else:
            told = _past_term(case, limit, on)
            last = told and limit.last_day(told[0])
            if told and last:
                message = f"Good until {shown(last)} as printed on the face, and today is {shown(on)}."
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


@rule("treasury-past-year", Effect.DECLINE, by="31-usc-3328 12-cfr-229-2-g", needs="date on")
def treasury_past_year(case: Case) -> Answer:
    """A Treasury check that cannot come to a bank within twelve months of its issue.

    What it asks: Where anything says that the Treasury drew the check, is today at most twelve months, by the
        calendar, after its date? Is the next banking day, when it is deposited? If only that one is too late, or the
        line leaves open whether it is the Treasury's at all, a manager decides.
    Why it matters: The Treasury need not pay a check that was not negotiated to a bank within twelve months of its
        issue; whoever takes it has an argument with an agency in place of money.
    Example: Dated 11/20/2025, tendered on 24 November 2026.
    What to do: Hand it back. The payee can have it replaced by the agency that issued it.
    """
    if Kind.TREASURY_CHECK not in case.read.kinds or _excluded(case, Kind.TREASURY_CHECK):
        return NOT_APPLICABLE
    on = case.read.tender.counter.on
    if on is None or not _days_written(case.read.date):
        return UNREAD
    deposit = next_banking_day(on)

    def last(day: date) -> date:
        return months_after(day, TREASURY_MONTHS)

    hit = _hit(case, lambda day: on > last(day), lambda day: day <= on <= last(day), "more than twelve months ago")
    if hit is None:
        late = _told(case, lambda day: day <= on and deposit > last(day), lambda _: False)
        return late and _too_late(case, late[0], last(late[0]), deposit)
    return hit._replace(effect=Effect.REFER) if is_open(case, Kind.TREASURY_CHECK) else hit


def _too_late(case: Case, day: date, last: date, deposit: date) -> Hit:
    message = f"Dated {shown(day)}, due at a bank by {shown(last)}, and the next banking day is {shown(deposit)}."
    return Hit(message, _labels(case), Effect.REFER, Remedy.MANAGER)


def _excluded(case: Case, kind: Kind) -> bool:
    """Whether the clerk declared another of the kinds that one and the same mark leaves open."""
    declared = case.read.counter.declared_kind
    return declared in _FEDERAL and declared is not kind and is_open(case, kind)


@rule("warrant-past-term", Effect.DECLINE, by="cal-gov-17070 cal-gov-29802", needs="date on")
def warrant_past_term(case: Case) -> Answer:
    """A Californian warrant that is void by its age.

    What it asks: Is a warrant of the State of California more than one year old, or one of a county more than six
        months? Where the wording does not say whose it is, a manager decides between the two.
    Why it matters: The State Controller cancels a warrant that is unpaid for a year, and a county's warrant is void
        six months after its date unless an ordinance says otherwise. Other states have terms of their own, which are
        not known here: there a manager decides after six months.
    Example: COUNTY WARRANT, dated 05/20/2026, tendered in California on 24 November 2026.
    What to do: Hand it back. The payee can have it replaced by the office that drew it.
    """
    kinds = case.read.kinds
    if Kind.GOVERNMENT_CHECK not in kinds or not warrant(case) or not of_california(case):
        return NOT_APPLICABLE
    on = case.read.counter.on
    if on is None or not _days_written(case.read.date):
        return UNREAD
    county = of_a_county(case)
    least = CALIFORNIA_COUNTY_MONTHS if county or not of_the_state(case) else CALIFORNIA_MONTHS

    def past(day: date) -> bool:
        return on > months_after(day, least)

    ago = "six months" if least == CALIFORNIA_COUNTY_MONTHS else "one year"
    hit = _hit(case, past, lambda day: day <= on and not past(day), f"more than {ago} ago")
    settled = county or all(on > months_after(day, CALIFORNIA_MONTHS) for day in _days_written(case.read.date))
    return hit if hit is None or settled else hit._replace(effect=Effect.REFER, remedy=Remedy.MANAGER)
