"""The nine digits between the transit symbols.

Published: 12 CFR 229 Appendix A; ASC X9 TR 100-2013. The sum comes from python-stdnum. A number that passes
the sum is well formed, no more: only a directory can say that it is in use.

>>> describe("612000021").series
'electronic'
>>> read("011394777").message
'Expected the check digit 6 after the first eight digits, read 7.'
>>> read("01139477").message
'Expected nine digits, read 8 digits.'
>>> read("0113S4776").message
'Expected nine digits from 0 to 9, read a letter.'
>>> read("000000000").message
'Expected a routing number, read nine zeros.'
>>> read("0110-0001").message
'Expected nine digits, read the old form of four digits, a dash and four digits.'
"""

from functools import lru_cache
from typing import NamedTuple

from checkface.patterns import lazily
from checkface.routing import reference
from checkface.routing.reference import Owner
from checkface.span import Fault, Span

LONGEST = 64
"""Characters; nothing longer is looked at."""

_OLD_FORM = lazily(r"\s*[0-9]{4}\s*[-\u2010-\u2015\u2212\u2449]\s*[0-9]{4}\s*")
_NOT_A_DIGIT = lazily(r"[^0-9]")


class RoutingNumber(NamedTuple):
    """Nine digits and what the tables say of them.

    ``series`` is ``government``, ``primary``, ``thrift``, ``electronic``, ``travelers`` or ``unassigned``;
    ``district`` the Federal Reserve district 1 to 12; ``government`` the federal owner where the number is a federal
    one.
    """

    number: str
    checksum: bool
    series: str
    district: int | None
    on_paper: bool
    government: Owner | None


def _check_digit(first_eight: str) -> str:
    # imported at the first call: python-stdnum brings ssl and urllib, a fifth of the time to start
    from stdnum.us.rtn import calc_check_digit

    return calc_check_digit(first_eight)


def check_digit(first_eight: str) -> str:
    """The ninth digit that belongs to eight digits. Raises :class:`ValueError` for anything else.

    >>> check_digit("07640125")
    '1'
    """
    if len(first_eight) != 8 or not (first_eight.isascii() and first_eight.isdigit()):
        raise ValueError("Expected eight digits.")
    return _check_digit(first_eight)


@lru_cache(maxsize=4096)  # a counter sees the same banks all day
def describe(number: str) -> RoutingNumber:
    """What the tables say of nine digits, whether or not the sum holds.

    Raises :class:`ValueError` for anything but nine digits: text goes to :func:`read`.
    """
    if len(number) != 9 or not (number.isascii() and number.isdigit()):
        raise ValueError("Expected nine digits.")
    name, district, on_paper = reference.series()[number[:2]]
    return RoutingNumber(
        number,
        _check_digit(number[:8]) == number[8],
        name,
        district,
        on_paper,
        reference.owners().get(number),
    )


def read(text: str) -> RoutingNumber | Fault:
    """Read nine digits, with blanks around them or not; any other text, or a failing sum, is a fault.

    Kinds of fault: ``routing-blank``, ``routing-length``, ``routing-characters``, ``routing-old-form``,
    ``routing-all-zero`` (passes the sum, and is nobody's), ``routing-checksum``.
    """
    number = text.strip() if len(text) <= LONGEST else text
    if len(number) != 9 or not (number.isascii() and number.isdigit()):
        return _refuse(text)
    found = describe(number)
    if found.checksum and number != "000000000":
        return found
    start = text.index(number)
    whole = Span(start, start + 9)
    if found.checksum:
        return Fault("routing-all-zero", whole, "a routing number", "nine zeros")
    wanted = f"the check digit {_check_digit(number[:8])}"
    return Fault("routing-checksum", whole, wanted, number[8], "the first eight digits")


def _refuse(text: str) -> Fault:
    """Say why *text* is not nine digits."""
    if len(text) > LONGEST:
        return Fault("routing-length", Span(0, len(text)), "nine digits", f"{len(text)} characters")
    stripped = text.strip()
    if not stripped:
        return Fault("routing-blank", Span(0, len(text)), "nine digits", "nothing")
    start = text.index(stripped)
    whole = Span(start, start + len(stripped))
    if _OLD_FORM.fullmatch(text):
        read = "the old form of four digits, a dash and four digits"
        return Fault("routing-old-form", whole, "nine digits", read)
    stray = _NOT_A_DIGIT.search(stripped)
    if stray is None:
        digits = "1 digit" if len(stripped) == 1 else f"{len(stripped)} digits"
        return Fault("routing-length", whole, "nine digits", digits)
    at = start + stray.start()
    return Fault("routing-characters", Span(at, at + 1), "nine digits from 0 to 9", _name(stray[0]))


def _name(character: str) -> str:
    if character.isspace():
        return "a blank among them"
    if character.isdecimal():
        return "a digit of another script"
    if character.isalpha():
        return "a letter"
    return "another character"
