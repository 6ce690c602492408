"""Dates as identification cards encode them: eight digits, by the country's order, then by plausibility.

The AAMVA DL/ID Card Design Standard writes MMDDCCYY for United States cards and CCYYMMDD for Canadian ones
(since 2005; the 2000 edition wrote CCYYMMDD for all, the 2003 edition MMDDCCYY for all). Cards in the wild
use the other order, separators or fewer digits. Eight digits never fit both orders for the years 1900-2099,
because no month is 19 or 20.

>>> read_date("12102024", year_first=False).days
(datetime.date(2024, 12, 10),)
>>> read_date("20241210", year_first=False).repair
'year-first'
>>> read_date("1112024", year_first=False).days
(datetime.date(2024, 1, 11), datetime.date(2024, 11, 1))
>>> read_date("2028MAR14", year_first=False).days
(datetime.date(2028, 3, 14),)
>>> read_date("NONE", year_first=False)
CardDate(days=(), nature='none', repair='')
>>> read_date("13452024", year_first=False).nature
'unreadable'
"""

import re
from datetime import date
from typing import Literal, NamedTuple

NO_DATA = frozenset({"", "NONE", "UNAVL", "UNAVAIL", "N/A", "MIL", "MILITARY"})
"""Words for "no data" in the standard (NONE, unavl) and on cards of serving members (MIL): all settle nothing."""

_NEVER = frozenset({"INDEF", "INDEFINITE", "NEVER"})
_SEPARATED = re.compile(r"([0-9]{1,4})([-/. ])([0-9]{1,2})\2([0-9]{1,4})")
_MONTHS = ("JAN", "FEB", "MAR", "APR", "MAY", "JUN", "JUL", "AUG", "SEP", "OCT", "NOV", "DEC")
MONTHS = {name: f"{place:02}" for place, name in enumerate(_MONTHS, 1)}
"""The months by their first three letters."""
_NAMED_MONTH = re.compile(rf"([0-9]{{4}})[ -]?({'|'.join(MONTHS)})[ -]?([0-9]{{2}})")
_TRAILED = re.compile(r"([0-9][0-9/. -]*[0-9]) *M")


class CardDate(NamedTuple):
    """A date element: every day it can mean, its nature, and which repair (``""`` for none) it took."""

    days: tuple[date, ...]
    nature: Literal["date", "never", "none", "unreadable"]
    repair: str = ""


def read_date(text: str, year_first: bool) -> CardDate:
    """The date in *text*, in the expected order or the other. Two days remain two; junk is unreadable."""
    if len(text) == 8 and text.isascii() and text.isdigit():
        return _eight(text, year_first)
    word = text.strip(" ").upper()
    if word in NO_DATA:
        return CardDate((), "none")
    if word in _NEVER:
        return CardDate((), "never")
    repair = ""
    if trailed := _TRAILED.fullmatch(word):
        word, repair = trailed[1], "trailing-letter"
    if parts := _NAMED_MONTH.fullmatch(word):  # as cards of the uniformed services print it
        found = day(parts[1], MONTHS[parts[2]], parts[3])
        return CardDate((found,), "date", "month-name") if found else CardDate((), "unreadable")
    if parts := _SEPARATED.fullmatch(word):
        return _separated(parts[1], parts[3], parts[4])
    if word.isascii() and word.isdigit():
        if len(word) == 8:
            eight = _eight(word, year_first)
            return eight._replace(repair=eight.repair or repair)
        if len(word) in (6, 7):
            return _zeros_lost(word)
    return CardDate((), "unreadable")


def day(year: str, month: str, of_month: str) -> date | None:
    """The day with these digits if it exists between 1900 and 2099, else None."""
    if not 1900 <= int(year) <= 2099:
        return None
    try:
        return date(int(year), int(month), int(of_month))
    except ValueError:
        return None


def _eight(digits: str, year_first: bool) -> CardDate:
    year_at_start = day(digits[:4], digits[4:6], digits[6:])
    if year_at_start:
        return CardDate((year_at_start,), "date", "" if year_first else "year-first")
    year_at_end = day(digits[4:], digits[:2], digits[2:4])
    if year_at_end:
        return CardDate((year_at_end,), "date", "month-first" if year_first else "")
    if digits[:4] == "9999" or digits[4:] == "9999":
        return CardDate((), "never")
    return CardDate((), "none" if digits == "00000000" else "unreadable")


def _separated(first: str, second: str, third: str) -> CardDate:
    if len(first) == 4:
        found = day(first, second, third) if len(third) <= 2 else None
    elif len(third) == 4:
        if third == "9999":
            return CardDate((), "never")
        found = day(third, first, second)
    else:
        found = None
    return CardDate((found,), "date", "separators") if found else CardDate((), "unreadable")


def _zeros_lost(digits: str) -> CardDate:
    """Month and day written without their zeros before a four-digit year."""
    head, year = digits[:-4], digits[-4:]
    splits = {day(year, head[:cut], head[cut:]) for cut in range(1, len(head)) if head[cut] != "0" or len(head) == 3}
    days = tuple(sorted(found for found in splits if found))
    return CardDate(days, "date", "zeros-lost") if days else CardDate((), "unreadable")
