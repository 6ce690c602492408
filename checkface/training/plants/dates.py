"""What can be wrong with the date."""

from __future__ import annotations

from datetime import date, timedelta

from checkface.training.plants.work import Work, plants

_MISSPELLED = (
    "Januery",
    "Febuary",
    "Marhc",
    "Apirl",
    "Mai",
    "Jnue",
    "Jluy",
    "Augsut",
    "Septmber",
    "Octber",
    "Novenber",
    "Decmber",
)


@plants("date-blank")
def date_left_blank(work: Work) -> None:
    """The date line is empty."""
    work.dated("")


@plants("date-unreadable")
def date_smeared(work: Work) -> None:
    """The date cannot be made out."""
    work.face["date"] = None


@plants("date-unreadable")
def day_that_is_none(work: Work) -> None:
    """A day that no month has."""
    work.dated(f"{work.dice.choice(('02/30', '04/31', '06/31', '11/31'))}/{work.on.year}")


@plants("date-in-future")
def dated_ahead(work: Work) -> None:
    """Dated after the day of tender."""
    work.dated(f"{work.on + timedelta(days=work.dice.randint(3, 20)):%b %d, %Y}")


@plants("date-stale")
def too_old(work: Work) -> None:
    """More than half a year old."""
    work.dated(f"{work.on - timedelta(days=work.dice.randint(185, 320)):%b %d, %Y}")


@plants("date-overdue")
def getting_old(work: Work) -> None:
    """More than ninety days old and not yet stale."""
    work.dated(f"{work.on - timedelta(days=work.dice.randint(91, 170)):%b %d, %Y}")


@plants("date-last-january")
def last_years_number(work: Work) -> None:
    """A January date with the year that has just ended."""
    day = work.dice.randint(4, 9)
    work.dated(f"January {day}, {work.on.year}", on=date(work.on.year + 1, 1, day + 1))


@plants("date-past-printed-limit")
def past_its_printed_term(work: Work) -> None:
    """The face says for how long it is good."""
    work.dated(f"{work.on - timedelta(days=work.dice.randint(22, 29)):%b %d, %Y}")
    work.face["legends"] = ["VOID AFTER 20 DAYS"]


@plants("date-without-year")
def no_year(work: Work) -> None:
    """A day and a month."""
    work.dated(f"{work.on - timedelta(days=work.dice.randint(1, 20)):%b %d}")


@plants("date-order-unclear")
def day_or_month_first(work: Work) -> None:
    """Figures that fit either way."""
    day = date(work.on.year, work.dice.randint(9, 11), 12)
    work.dated(f"{day:%m/%d/%Y}", on=day + timedelta(days=2))


@plants("date-weekday-differs")
def wrong_weekday(work: Work) -> None:
    """The weekday is not that day's."""
    work.dated(f"{work.on - timedelta(days=1):%A}, {work.on:%B %d, %Y}")


@plants("date-repaired")
def month_misspelled(work: Work) -> None:
    """The month is misspelled, and can only be one month."""
    work.dated(f"{_MISSPELLED[work.on.month - 1]} {work.on.day}, {work.on.year}")


@plants("treasury-past-year", "treasury-check routing-government", kind="treasury-check")
def treasury_check_too_old(work: Work) -> None:
    """More than a year after its issue."""
    work.dated(f"{work.on - timedelta(days=work.dice.randint(370, 420)):%b %d, %Y}")
