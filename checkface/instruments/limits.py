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
_MISREAD = str.maketrans("oil", "011")
"""Letters read for figures: "3O DAYS"."""
_UNIT = r"(?P<unit>days?|dias?|d\u00edas?|weeks?|months?|mos?|meses|years?|yrs?)\b"
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")

_CUE = lazily(
    r"\b(?:void|voids|valid|invalid|good|expires?|expiration|negotiable|cashed|cash|presented|present|deposited|honou?red"
    r"|stale|null|nulo|v\u00e1lido|valido|vence|caduca|exceeds?|exceeding|limit|limited|maximum|max|redeem(?:ed)?|excede|under)\b",
    re.IGNORECASE,
)
_QUANTITY = lazily(
    rf"(?P<duration>(?P<count>[0-9][0-9oil]{{0,3}}|[il][0-9][0-9oil]{{0,2}}|{_WORD_NUMBER}|_{{2,20}})\s{{0,9}}(?:\(\s{{0,9}}(?P<again>[0-9]{{1,4}})\s{{0,9}}\)\s{{0,9}})?-?\s{{0,9}}{_UNIT})"
    r"|(?P<numeric>\b[0-9]{1,2}[/.-][0-9]{1,2}[/.-](?:[0-9]{4}|[0-9]{2})\b|\b[0-9]{4}-[0-9]{2}-[0-9]{2}\b)"
    rf"|(?P<named>\b(?:{'|'.join(_MONTHS)})[a-z]{{0,6}}\.?\s+[0-9]{{1,2}}(?:st|nd|rd|th)?,?\s+[0-9]{{4}}\b)"
    r"|(?P<money>\$\s{0,9}(?:(?P<dollars>[0-9]{1,3}(?:,[0-9]{3}){1,3}|[0-9]{1,9})(?:\.(?P<cents>[0-9]{2}))?(?![0-9])|_{1,20}|(?![0-9\s])))"
    rf"|(?P<spoken>(?P<figure>[0-9]{{1,3}}(?:,[0-9]{{3}}){{1,3}}|[0-9]{{1,9}}|{_WORD_NUMBER})\s+(?:(?:and|&)\s+(?:no|[0-9x]{{1,2}})\s?/\s?(?:100|xx)\s+)?(?:dollars|dollar|d\u00f3lares|dolares)\b)",
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
_FIRST_CUE = lazily(
    r"\b(?:before|until|till|hold|post-?\s?dated|posfechado|from|after|for|antes|partir)\b", re.IGNORECASE
)
_FIRST_DAY = lazily(
    r"\b(?:not|no|never|void|invalid|don['\u2019]?t|hold|wait)\b(?:[^0-9\n.]{0,30}|[^0-9\n.]{0,30}\n\s*)"
    r"\b(?:before|until|till|antes\s+del?)\b[^0-9]{0,24}$"
    r"|\bpost\W{0,2}dated\b[^0-9]{0,16}$|\bposfechado\b[^0-9]{0,16}$|\ba\s+partir\s+del?\b[^0-9]{0,16}$"
    r"|(?<!not )(?<!no )(?<!n't )(?<!dont )(?<!void )"
    r"\b(?:valid|good|payable|negotiable|cash|deposit|present)\s+(?:only\s+)?(?:on\s+(?:or|and)\s+after|after|from)\b"
    r"[^0-9]{0,16}$|\bhold\s+(?:(?:this\s+)?check\s+|deposit\s+)?for\s+(?:deposit\s+on\s+)?$",
    re.IGNORECASE,
)
_FIRST_DURATION = lazily(
    r"\bhold\s+(?:(?:this\s+)?check\s+)?(?:for\s+)?(?:at\s+least\s+)?$"
    r"|\b(?:not|don['\u2019]?t)\s+(?:cash|deposit|present|process)\s+(?:it\s+|this\s+check\s+)?(?:for|before|until|till)\s+"
    r"(?:at\s+least\s+)?$|\bnot\s+(?:valid|good|payable)\s+(?:for|before|until|till)\s+(?:at\s+least\s+)?$",
    re.IGNORECASE,
)
_LAST_AFTER_ALL = lazily(r"\b(?:if\s+not|unless)\b", re.IGNORECASE)
_MINIMUM = lazily(
    r"\b(?:not|no|void|invalid|never)\b[^$]{0,24}\b(?:under|less\s+than|below)\b[^$]{0,12}$", re.IGNORECASE
)
"""Words of a smallest amount, which is no limit a large one breaks."""
_MANY = lazily(r"\s{0,4}(?:million|billion|thousand|mil|[mk])\b", re.IGNORECASE)
_FROM_AMOUNT = lazily(
    r"[^\w$]{0,4}(?:(?:if|for|on|when)\s+)?(?:(?:all|any|the)\s+)?(?:(?:checks?|amounts?)\s+)?(?:of\s+)?(?:is\s+)?"
    r"(?:over|above|exceeds|exceeding|in\s+excess\s+of|more\s+than|greater\s+than)\s+",
    re.IGNORECASE,
)
_AHEAD = 60
"""Characters: words of limit stand no further ahead of their quantity."""
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


def not_before(text: str) -> tuple[Limit, ...]:
    """When a legend says that the check begins to be good: a day, or so many days or months after its date.

    Of these limits ``value`` is the first day that is good, and so is :meth:`Limit.last_day`.

    >>> [(first.kind, first.value) for first in not_before("DO NOT CASH UNTIL 12/1/2026 OR AFTER 12/31/2026")]
    [('date', datetime.date(2026, 12, 1))]
    >>> not_before("VOID IF NOT CASHED BEFORE 12/31/2026")
    ()
    """
    if _FIRST_CUE.search(text) is None:
        return ()
    return tuple(_firsts(text))


def behind(text: str, place: int) -> Limit | None:
    """The amount from which on what stands before a *place* is asked: "two signatures required over $500.00".

    >>> behind("TWO SIGNATURES REQUIRED OVER $500.00", 23).value
    50000
    """
    follows = _QUANTITY.search(text, place, place + _AHEAD)
    if follows is None or not (follows["money"] or follows["spoken"]):
        return None
    if _FROM_AMOUNT.fullmatch(text, place, follows.start()) is None:
        return None
    return Limit("amount", _cents(follows), Span(*follows.span()))


def _firsts(text: str) -> Iterator[Limit]:
    for match in _QUANTITY.finditer(text):
        if not _begins(match, text):
            continue
        span = Span(*match.span())
        if not match["duration"]:
            yield Limit("date", _date(match[0]), span)
        elif found := _duration(match):
            yield Limit(*found, span)


def _begins(match: re.Match[str], text: str) -> bool:
    """Whether a quantity of time is one before which the check is not good, by the words ahead of it."""
    ahead = text[max(0, match.start() - _AHEAD) : match.start()]
    if match["duration"]:
        return _FIRST_DURATION.search(ahead) is not None
    if match["numeric"] or match["named"]:
        return _FIRST_DAY.search(ahead) is not None and _LAST_AFTER_ALL.search(ahead) is None
    return False


def _limits(text: str) -> Iterator[Limit]:
    for match in _QUANTITY.finditer(text):
        if _begins(match, text):
            continue
        span = Span(*match.span())
        ahead = text[max(0, span.start - _AHEAD) : span.start]
        if match["duration"]:
            if found := _duration(match):
                yield Limit(*found, span)
            continue
        if match["numeric"] or match["named"]:
            if cue := _BEFORE_DATE.search(ahead):
                day = _date(match[0])
                yield Limit("date", day - timedelta(days=1) if day and cue["before"] else day, span)
            continue
        if _MINIMUM.search(ahead) or _MANY.match(text, span.end):
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
    plain = text.replace(",", "").lower()
    if plain[0].isdigit() or plain[1:2].isdigit():
        return int(plain.translate(_MISREAD))
    total = part = 0
    for word in re.findall(r"[a-z]+", plain):
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
