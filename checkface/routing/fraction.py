"""The fraction at the upper right of a check: ``PP-YYYY/XXXX``, the routing number in its older dress.

``PP`` is the prefix of a city, state or territory (the American Bankers Association's numerical system of
1911), ``YYYY`` the institution identifier and ``XXXX`` the Federal Reserve routing symbol, both without their
leading zeros. A branch number may stand beside or below. The check digit is not in it.

>>> read_fraction("53-9477/113").first_eight
'01139477'
>>> read_fraction("53 9477/113").prefix  # a blank for the dash, as recognition programs give it
'53'
>>> read_fraction("53-9477").message
'Expected a routing symbol of three or four digits after a slash or a line, read none.'
>>> read_fraction("53-9477/11").message
'Expected a routing symbol of three or four digits, read 2 digits.'
>>> read_fraction("53-9477*113").message
'Expected digits, a dash and a slash, read another character.'
"""

import re
from functools import lru_cache
from typing import NamedTuple

from checkface.patterns import lazily
from checkface.routing import reference
from checkface.routing.number import check_digit
from checkface.routing.reference import Prefix
from checkface.span import Fault, Span

LONGEST = 80
"""Characters; nothing longer is looked at."""

_DASH = r"[ \t]{0,8}[-\u2010-\u2013\u2212][ \t]{0,8}"
_KNOWN_PREFIX = r"0{0,2}[1-9]|0?[1-9][0-9]|101"  # a blank parts these from the institution; another number is no prefix
_PREFIX = rf"(?P<prefix>[0-9]{{1,3}}(?={_DASH})|(?:{_KNOWN_PREFIX})(?=[ \t]))(?:{_DASH}|[ \t]{{1,8}})"
_SLASH = r"[/\u2044\u2215\uff0f]"
_RULE = r"[-_\u00af\u2010-\u2015\u2212\u2500\u2501]{1,40}"
_BAR = rf"\s{{0,40}}(?:{_SLASH}\s{{0,40}}|[\n\r]\s{{0,40}}(?:{_RULE}\s{{0,40}}[\n\r]\s{{0,40}})?)"
_BRANCH = r"\(?(?P<branch>[0-9]{1,4})[ \t]{0,8}\)?"
_BESIDE = rf"[ \t]{{0,8}}[ \t(\u2010-\u2013\u2212-][ \t]{{0,8}}{_BRANCH}"
_INSTITUTION = r"(?P<institution>[0-9]{1,4})"
_OVER = rf"\s*(?:{_PREFIX})?{_INSTITUTION}"
_UNDER = r"(?P<symbol>[0-9]{3,4})"
_DISTRICT = r"(?=(?:0?[1-9]|1[0-2]|2[1-9]|3[0-2])[0-9]{2}\s*$)"

_PLAIN = lazily(rf"(?:(?P<prefix>[0-9]{{1,3}})-)?{_INSTITUTION}/{_UNDER}")
_PRINTED = tuple(
    lazily(pattern)
    for pattern in (
        rf"{_OVER}{_BAR}{_UNDER}\s*",
        rf"{_OVER}{_BAR}{_UNDER}\s{{0,40}}[\s(\u2010-\u2013\u2212-]\s{{0,40}}{_BRANCH}\s*",
        rf"{_OVER}{_BESIDE}{_BAR}{_UNDER}\s*",
        rf"\s*(?P<prefix>[0-9]{{1,3}}){_DASH}{_INSTITUTION}[ \t]{{1,8}}{_UNDER}\s*",  # the bar was lost
        rf"\s*{_PREFIX}{_INSTITUTION}[ \t]{{1,8}}{_DISTRICT}{_UNDER}\s*",  # the dash too: then a district must stand
    )
)
_NO_SYMBOL = lazily(rf"\s*(?:[0-9]{{1,3}}{_DASH})?[0-9]{{1,4}}\s*{_SLASH}?\s*")
_SHORT_SYMBOL = lazily(rf"\s*(?:[0-9]{{1,3}}{_DASH})?[0-9]{{1,4}}{_BAR}([0-9]{{1,2}}|[0-9]{{5,40}})\s*")
_STRAY = lazily(rf"(?!{_SLASH})[^0-9\s()_\u00af\u2010-\u2015\u2212\u2500\u2501-]")


class Fraction(NamedTuple):
    """The parts of a fraction, as digits.

    ``prefix`` is as the table lists it (no leading zero), ``institution`` and ``symbol`` are filled to four
    digits, ``branch`` is as printed. ``place`` is None for a missing or unknown prefix. ``spans`` has
    ``institution``, ``symbol`` and, where printed, ``prefix`` and ``branch``.
    """

    prefix: str | None
    institution: str
    symbol: str
    branch: str | None
    place: Prefix | None
    spans: dict[str, Span]

    @property
    def first_eight(self) -> str:
        """The first eight digits of the routing number."""
        return self.symbol + self.institution

    @property
    def number(self) -> str:
        """The nine digits the fraction stands for, the check digit being computed."""
        return self.first_eight + check_digit(self.first_eight)

    @property
    def states(self) -> tuple[str, ...]:
        """States of the prefix; empty where it is missing or unknown."""
        return self.place.states if self.place else ()

    @property
    def district(self) -> int | None:
        """Federal Reserve district of the routing symbol."""
        return reference.series()[self.symbol[:2]].district


@lru_cache(maxsize=4096)  # a counter sees the same banks all day
def read_fraction(text: str) -> Fraction | Fault:
    """Read a fraction in one line or stacked in two, with its branch number beside or below.

    The bar may be a slash (any of U+002F, U+2044, U+2215, U+FF0F), a line break, a drawn rule between two lines,
    or a blank where the prefix is there. A blank may stand for the dash behind a prefix of the table. Kinds of fault:
    ``fraction-blank``, ``fraction-length``, ``fraction-characters``, ``fraction-symbol``, ``fraction-form``.
    """
    if match := _PLAIN.fullmatch(text):
        return _fraction(match)
    if len(text) > LONGEST:
        return Fault("fraction-length", Span(0, len(text)), "a fraction", f"{len(text)} characters")
    for pattern in _PRINTED:
        if match := pattern.fullmatch(text):
            return _fraction(match)
    return _refuse(text)


def _fraction(match: re.Match[str]) -> Fraction:
    parts = {part: value for part, value in match.groupdict().items() if value is not None}
    spans = {part: Span(*match.span(part)) for part in parts}
    prefix = parts.get("prefix")
    place = None
    if prefix is not None:
        prefix = prefix.lstrip("0") or "0"
        place = reference.prefixes().get(prefix)
    symbol, institution = parts["symbol"].zfill(4), parts["institution"].zfill(4)
    return Fraction(prefix, institution, symbol, parts.get("branch"), place, spans)


def _refuse(text: str) -> Fault:
    """Say why *text* is not a fraction."""
    whole = Span(0, len(text))
    if not text.strip():
        return Fault("fraction-blank", whole, "a fraction", "nothing")
    if _NO_SYMBOL.fullmatch(text):
        end = Span(len(text.rstrip()), len(text))
        wanted = "a routing symbol of three or four digits"
        return Fault("fraction-symbol", end, wanted, "none", "a slash or a line")
    if short := _SHORT_SYMBOL.fullmatch(text):
        wanted = "a routing symbol of three or four digits"
        length = len(short[1])
        return Fault("fraction-symbol", Span(*short.span(1)), wanted, f"{length} digit" + "s" * (length > 1))
    if stray := _STRAY.search(text):
        return Fault("fraction-characters", Span(*stray.span()), "digits, a dash and a slash", _name(stray[0]))
    wanted = "a prefix, a dash, an institution, a slash and a routing symbol"
    return Fault("fraction-form", whole, wanted, "them in another order or number")


def _name(character: str) -> str:
    if character.isdecimal():
        return "a digit of another script"
    return "a letter" if character.isalpha() else "another character"
