"""Limits printed on the face: so many days, so much money, up to a day.

A house must honour them (common practice): "VOID AFTER 90 DAYS", "NOT VALID OVER $500.00", "EXPIRES 12/31/2026".

>>> [(limit.kind, limit.value) for limit in legend_limits("Void after 90 days or over $1,000.00")]
[('days', 90), ('amount', 100000)]
>>> legend_limits("VOID")
()
>>> legend_limits("NOT GOOD FOR AMOUNTS OVER $____")[0].value is None
True
"""

import re
from collections.abc import Iterator
from datetime import date, timedelta
from typing import NamedTuple

from checkface.patterns import lazily
from checkface.span import Span

_SMALL = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
_TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_NUMBERS = {word: value for value, word in enumerate(_SMALL)} | {word: 20 + 10 * i for i, word in enumerate(_TENS)}
_SCALES = {"hundred": 100, "thousand": 1000}
_WORD_NUMBER = (
    rf"(?:{'|'.join((*_NUMBERS, *_SCALES))})(?:[\s-]+(?:and\s+)?(?:{'|'.join((*_NUMBERS, *_SCALES))})){{0,6}}"
)
_UNIT = r"(?P<unit>days?|dias?|d\u00edas?|weeks?|months?|mos?|meses|years?|yrs?)\b"
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")

_CUE = lazily(
    r"\b(?:void|voids|valid|invalid|good|expires?|expiration|negotiable|cashed|cash|presented|present|deposited|honou?red"
    r"|stale|null|nulo|v\u00e1lido|valido|vence|caduca|exceed|exceeding|limit|limited|maximum|max|redeem(?:ed)?)\b",
    re.IGNORECASE,
)
_QUANTITY = lazily(
    rf"(?P<duration>(?P<count>[0-9]{{1,4}}|{_WORD_NUMBER}|_{{2,20}})\s{{0,9}}(?:\(\s{{0,9}}(?P<again>[0-9]{{1,4}})\s{{0,9}}\)\s{{0,9}})?-?\s{{0,9}}{_UNIT})"
    r"|(?P<numeric>\b[0-9]{1,2}[/.-][0-9]{1,2}[/.-](?:[0-9]{4}|[0-9]{2})\b|\b[0-9]{4}-[0-9]{2}-[0-9]{2}\b)"
    rf"|(?P<named>\b(?:{'|'.join(_MONTHS)})[a-z]{{0,6}}\.?\s+[0-9]{{1,2}}(?:st|nd|rd|th)?,?\s+[0-9]{{4}}\b)"
    r"|(?P<money>\$\s{0,9}(?:(?P<dollars>[0-9]{1,3}(?:,[0-9]{3}){1,3}|[0-9]{1,9})(?:\.(?P<cents>[0-9]{2}))?(?![0-9])|_{1,20}|(?![0-9\s])))"
    rf"|(?P<spoken>(?P<figure>[0-9]{{1,3}}(?:,[0-9]{{3}}){{1,3}}|[0-9]{{1,9}}|{_WORD_NUMBER})\s+(?:dollars|dollar|d\u00f3lares|dolares)\b)",
    re.IGNORECASE,
)
_BEFORE_AMOUNT = lazily(
    r"\b(?:(?P<below>under|less\s+than|below)|(?:over|exceeds?|exceeding|more\s+than|greater\s+than|above|excess\s+of"
    r"|up\s+to|maximum|max|limit|limited\s+to|mayor\s+de|excede))\b[^$]{0,40}$",
    re.IGNORECASE,
)
_BEFORE_DATE = lazily(
    r"\b(?:(?P<before>before)|(?:after|expires?|expiration|through|thru|until|till|by|on|past|despu\u00e9s|vence))\b[^0-9]{0,24}$",
    re.IGNORECASE,
)
_OR_MORE = lazily(r"\s{0,9}(?:or|and)\s+(?:more|over|above)\b", re.IGNORECASE)


class Limit(NamedTuple):
    """One printed limit. ``kind`` is ``days``, ``months``, ``amount`` (in cents, the highest still good) or ``date``
    (the last day still good); ``value`` is None where the limit is there and its figure cannot be read."""

    kind: str
    value: int | date | None
    span: Span

    def last_day(self, written: date) -> date | None:
        """The last day on which a check of that date is good; None for an amount or an unread figure.

        >>> Limit("months", 6, Span(0, 0)).last_day(date(2026, 8, 31))
        datetime.date(2027, 2, 28)
        """
        if isinstance(self.value, date):
            return self.value
        if self.value is None or self.kind == "amount":
            return None
        try:
            if self.kind == "days":
                return written + timedelta(days=self.value)
            from calendar import monthrange

            year, month = divmod(written.year * 12 + written.month - 1 + self.value, 12)
            return date(year, month + 1, min(written.day, monthrange(year, month + 1)[1]))
        except (ValueError, OverflowError):
            return date.max


def legend_limits(text: str) -> tuple[Limit, ...]:
    """The limits a legend sets, in their order. A quantity without words of limit about it is none."""
    if _CUE.search(text) is None:
        return ()
    return tuple(_limits(text))


def _limits(text: str) -> Iterator[Limit]:
    for match in _QUANTITY.finditer(text):
        span = Span(*match.span())
        ahead = text[max(0, span.start - 60) : span.start]
        if match["duration"]:
            if found := _duration(match):
                yield Limit(*found, span)
            continue
        if match["numeric"] or match["named"]:
            if cue := _BEFORE_DATE.search(ahead):
                day = _date(match[0])
                yield Limit("date", day - timedelta(days=1) if day and cue["before"] else day, span)
            continue
        cue, or_more = _BEFORE_AMOUNT.search(ahead), _OR_MORE.match(text, span.end)
        if cue or or_more:
            cents = _cents(match)
            below = or_more or (cue and cue["below"])
            yield Limit("amount", cents - 1 if cents and below else cents, span)


def _duration(match: re.Match[str]) -> tuple[str, int | None]:
    unit = match["unit"].lower()
    count = _count(match["again"] or match["count"])
    if unit[0] in "dw":
        return "days", count and count * (7 if unit[0] == "w" else 1)
    return "months", count and count * (12 if unit[0] == "y" else 1)


def _cents(match: re.Match[str]) -> int | None:
    if match["spoken"]:
        dollars = _count(match["figure"])
        return None if dollars is None else dollars * 100
    if match["dollars"] is None:
        return None
    return int(match["dollars"].replace(",", "")) * 100 + int(match["cents"] or 0)


def _count(text: str) -> int | None:
    """The value of a whole number in figures or words."""
    plain = text.replace(",", "")
    if plain.isdigit():
        return int(plain)
    total = part = 0
    for word in re.findall(r"[a-z]+", plain.lower()):
        if word in _NUMBERS:
            part += _NUMBERS[word]
        elif word == "hundred":
            part = max(part, 1) * 100
        elif word == "thousand":
            total, part = total + max(part, 1) * 1000, 0
    return total + part or None


def _date(text: str) -> date | None:
    """Month first or ISO, or with the name of the month; a printed year of two figures is one of this century."""
    figures = [int(figure) for figure in re.findall(r"[0-9]+", text)]
    if text[0].isalpha():
        figures.insert(0, _MONTHS.index(text[:3].lower()) + 1)
    elif len(re.split("[^0-9]", text)[0]) == 4:
        figures = [figures[1], figures[2], figures[0]]
    month, day, year = figures
    try:
        return date(year + 2000 if year < 100 else year, month, day)
    except ValueError:
        return None
