"""Identification numbers: masked by default, compared with their state's shape, and never a payment card.

What may be written on a check is narrow: no card number and no social security number (Cal. Civ. Code 1725,
Mass. G.L. c. 93 s. 105, R.I. Gen. Laws 6-13-15). The shapes of license numbers are public tables; a number
outside its state's shape is more often a slip than a forgery.

>>> IdNumber("T64-23-5789")
IdNumber('*****5789')
>>> fits_shape("VA", "T64235789")
True
>>> forbidden_number("4111 1111 1111 1111")
Forbidden(kind='payment-card', certainty='certain')
>>> forbidden_number("123-45-6789")
Forbidden(kind='social-security', certainty='certain')
>>> forbidden_number("123456789", "CT")    # nine digits is also how Connecticut numbers its licenses
Forbidden(kind='social-security', certainty='possible')
>>> forbidden_number("T64235789") is None
True
>>> forbidden_number("A1234-56789-01237", "ON", own=True), forbidden_number("A1234-56789-01237", own=True)
(Forbidden(kind='payment-card', certainty='possible'), Forbidden(kind='payment-card', certainty='certain'))
"""

import re
import unicodedata
from functools import cache
from typing import Literal, NamedTuple

from checkface import tables
from checkface.patterns import lazily

_CARD = lazily(r"(?<![0-9])[0-9](?:[ .-]?[0-9]){12,18}(?![0-9])")
_CARD_GROUPS = lazily(r"[0-9]{4}([ .-])[0-9]{4}\1[0-9]{4}\1[0-9]{1,7}|[0-9]{4}([ .-])[0-9]{6}\2[0-9]{4,5}")
_SSN_GROUPS = lazily(r"(?<![0-9])(?!000|666)[0-9]{3}([ .-])(?!00)[0-9]{2}\1(?!0000)[0-9]{4}(?![0-9])")
_SSN_PLAIN = lazily(r"(?<![0-9A-Z])(?!000|666|9)[0-9]{3}(?!00)[0-9]{2}(?!0000)[0-9]{4}(?![0-9A-Z])")
_NOT_IN_NUMBER = lazily(r"[^A-Z0-9*]+")


class IdNumber:
    """An identification number that shows at most its last four characters, never more than half."""

    __slots__ = ("_text",)

    def __init__(self, text: str) -> None:
        self._text = text

    @property
    def compact(self) -> str:
        """Letters, digits and asterisks, without the blanks and hyphens that cards print between them."""
        return compact(self._text)

    @property
    def masked(self) -> str:
        """The last characters behind asterisks: ``"*****5789"``."""
        text = self.compact
        shown = min(4, len(text) // 2)
        return "*" * (len(text) - shown) + text[len(text) - shown :]

    def reveal(self) -> str:
        """The whole number as it was read. Only for a caller that may keep it."""
        return self._text

    def __eq__(self, other: object) -> bool:
        return isinstance(other, IdNumber) and self.compact == other.compact

    def __hash__(self) -> int:
        return hash(self.compact)

    def __repr__(self) -> str:
        return f"IdNumber({self.masked!r})"


class Forbidden(NamedTuple):
    """A number that must not be recorded, and whether it is certain or only possible that it is one."""

    kind: Literal["payment-card", "social-security"]
    certainty: Literal["certain", "possible"]


def compact(text: str) -> str:
    """*text* in capitals without separators."""
    return _NOT_IN_NUMBER.sub("", text.upper())


def fits_shape(state: str, number: str) -> bool | None:
    """Whether *number*, compact, has a shape of *state* (letters); None where no shape is published."""
    shape = _shapes().get(state)
    return None if shape is None else shape.fullmatch(number) is not None


def luhn_holds(digits: str) -> bool:
    """Whether *digits* end in their Luhn check digit, as payment cards do."""
    # imported at the first call: python-stdnum brings ssl and urllib, a fifth of the time to start
    from stdnum import luhn

    return luhn.is_valid(digits)


def forbidden_number(text: str, state: str = "", *, own: bool = False) -> Forbidden | None:
    """What *text* must not be recorded for, or None.

    A payment card is 13 to 19 digits with a right Luhn check digit; a social security number is three, two
    and four digits, never 000 or 666, nor a zero group or serial. Grouped as those are printed it is
    certain. Plain digits that a license of *state* could also have are only possible, and so are nine plain
    digits of no state. *own* says that *text* stands where a card of *state* gives its own number: then that is so
    where nobody publishes the state's shapes, too. One Ontario number in ten ends in its Luhn check digit.
    """
    text = text.upper() if text.isascii() else unicodedata.normalize("NFKC", text).upper()
    usual = fits_shape(state, compact(text))
    allowed = own and bool(state) and usual is not False
    for run in _CARD.finditer(text):
        if luhn_holds(compact(run[0])):
            certain = not (usual or allowed) or _CARD_GROUPS.fullmatch(run[0]) is not None
            return Forbidden("payment-card", "certain" if certain else "possible")
    if _SSN_GROUPS.search(text):
        return Forbidden("social-security", "certain")
    if _SSN_PLAIN.search(text):
        return Forbidden("social-security", "certain" if usual is False else "possible")
    return None


def admit(text: str, state: str = "", *, own: bool = False) -> tuple[IdNumber | None, Forbidden | None]:
    """The number in *text*, unless it certainly must not be recorded; and what it is or could be, if so."""
    found = forbidden_number(text, state, own=own)
    return (None if found and found.certainty == "certain" else IdNumber(text.strip())), found


@cache
def _shapes() -> dict[str, re.Pattern[str]]:
    return {row["state"]: lazily(row["pattern"]) for row in tables.load("license_shapes").rows if row["pattern"]}
