"""The common phrases, looked up instead of parsed.

Plain English amounts form a language small enough for tables: below a hundred, behind a hundred, and cents. A
line made only of these is read here, several times faster than by the grammar and with the same result in every
field (a property the tests hold); any other line is left to :func:`checkface.amounts.words.read_carefully`.
"""

from __future__ import annotations

from checkface.amounts.model import Candidate, WordsAmount
from checkface.amounts.token_kinds import TEEN, TEN, TENS, UNIT
from checkface.amounts.vocabulary import ENGLISH_NUMBERS
from checkface.span import Span

_BELOW = {word: value for word, (kind, value) in ENGLISH_NUMBERS.items() if kind in UNIT + TEN + TEEN + TENS}
_UNITS = {word: value for word, value in _BELOW.items() if value < 10}
_BELOW |= {
    f"{ten} {unit}": _BELOW[ten] + _UNITS[unit]
    for ten, (kind, _) in ENGLISH_NUMBERS.items()
    if kind == TENS
    for unit in _UNITS
}
_BEHIND = {"": 0} | {f" {word}": value for word, value in _BELOW.items()}
_BEHIND |= {f" and{word}": value for word, value in _BEHIND.items() if word}
_HUNDREDS = {word: value * 100 for word, value in _BELOW.items() if value < 10}
_ROUND = {word: value * 100 for word, value in _BELOW.items() if value > 10 and value % 10}
_CENTS = {f"{value:02d}/100": value for value in range(100)} | {"no/100": 0, "xx/100": 0}
_CENTS |= {f"{mark} dollars": value for mark, value in _CENTS.items()}
_WRITTEN = {f"{word} cents": value for word, value in _BELOW.items() if value > 1} | {"one cent": 1, "no cents": 0}


def _hundreds(words: str) -> int | None:
    """1 to 999, as spelled with single spaces."""
    hundred, found, rest = words.partition(" hundred")
    if not found:
        return _BELOW.get(words)
    high, low = _HUNDREDS.get(hundred), _BEHIND.get(rest)
    return None if high is None or low is None else high + low


def _behind(words: str) -> int | None:
    """What follows a scale word: nothing, or a smaller number behind a space, comma or "and"."""
    if not words:
        return 0
    if words[0] == ",":
        words = words[1:]
    if words[:5] == " and ":
        return _hundreds(words[5:])
    return _hundreds(words[1:]) if words[:1] == " " else None


def _dollars(words: str) -> int | None:
    """Whole dollars, 1 to 999,999,999, hyphens already made spaces."""
    million = 0
    head, found, rest = words.partition(" million")
    if found:
        above = _hundreds(head)
        if above is None:
            return None
        million = above * 1_000_000
        if " thousand" not in rest:
            below = _behind(rest)
            return None if below is None else million + below
        head, _, rest = rest.partition(" thousand")
        thousand = _behind(head)
    else:
        head, found, rest = words.partition(" thousand")
        if not found:
            value = _hundreds(words)
            return _round_hundreds(words) if value is None else value
        thousand = _hundreds(head)
    below = _behind(rest)
    return million + thousand * 1_000 + below if thousand and below is not None else None


def _round_hundreds(words: str) -> int | None:
    """Eleven hundred to ninety-nine hundred ninety-nine."""
    hundred, found, rest = words.partition(" hundred")
    high, low = _ROUND.get(hundred), _BEHIND.get(rest)
    return None if not found or high is None or low is None else high + low


def read_quickly(text: str) -> WordsAmount | None:
    """The amount of a plain phrase, or None when the line needs the grammar."""
    if not text.isascii():
        return None
    lower = text.lower()
    head, found, tail = lower.rpartition(" and ")
    cents = _CENTS.get(tail) if found else None
    if cents is None:
        cents = _WRITTEN.get(tail.replace("-", " ")) if head[-8:] == " dollars" else None
        if cents is None:
            return _without_cents(lower)
    size = len(head)
    if head[-8:] == " dollars":
        size -= 8
        head = head[:size]
    dollars = _dollars(head.replace("-", " "))
    if not dollars:
        return None
    total = dollars * 100 + cents
    start, end = len(text) - len(tail), len(text)
    if tail[-8:] == " dollars":
        end -= 8
    return _clear(total, {"dollars": Span(0, size), "cents": Span(start, end)})


def _without_cents(lower: str) -> WordsAmount | None:
    named = lower[-8:] == " dollars"
    if named:
        lower = lower[:-8]
    words = lower.replace("-", " ")
    dollars = _dollars(words) if named or " " in words else None
    return _clear(dollars * 100, {"dollars": Span(0, len(lower))}) if dollars else None


def _clear(total: int, spans: dict[str, Span]) -> WordsAmount:
    # In order and without their names, which would cost a quarter of the whole reading.
    return WordsAmount(total, (Candidate(total, "as written"),), (), "clear", "en", (), (), False, spans)
