"""The machine-readable zone of a passport, passport card or immigration card, with its check digits.

Source: ICAO Doc 9303, parts 3 to 6. Three lines of 30 characters (TD1), two of 36 (TD2) or two of 44 (TD3).
A check digit is the sum of the characters' values (digits as they are, A to Z as 10 to 35, the filler ``<``
as 0) weighted 7, 3, 1 in turn, modulo ten. The document codes of United States cards are from memory.

>>> check_digit("D23145890")
'7'
>>> card = read_mrz(
...     "I<UTOD231458907<<<<<<<<<<<<<<<\\n7408122F1204159UTO<<<<<<<<<<<6\\nERIKSSON<<ANNA<MARIA<<<<<<<<<<"
... )
>>> card.kind, card.family, card.given, card.middle, card.expires.on.isoformat(), card.checks
('identity-card', 'ERIKSSON', 'ANNA', 'MARIA', '2012-04-15', ())
>>> read_mrz("I<UTO").kind
'id-mrz-lines'
"""

import re
from datetime import date
from typing import NamedTuple

from checkface.span import Fault, Span

from .card import Birth, Card, Check, Name, Repair, name_part
from .carddates import day
from .expiry import among
from .number import IdNumber

_VALUES = {"<": 0} | {str(digit): digit for digit in range(10)} | {chr(55 + value): value for value in range(10, 36)}
_LINE = re.compile(r"[A-Z0-9<]+")
_STARTS = re.compile(r"[ACIPV][A-Z0-9<][A-Z<]{3}[A-Z0-9<]{9,39}(?:[ \r\n]|$|[A-Z0-9<]{6})")
_TO_DIGITS = str.maketrans("OQDIZSGB", "00012568")
_KINDS = {
    "C1USA": "permanent-resident",
    "C2USA": "permanent-resident",
    "CAUSA": "employment-authorization",
    "IPUSA": "passport-card",
}


class _Layout(NamedTuple):
    """Where the fields stand, as slices of the lines joined together."""

    lines: int
    width: int
    number: int
    birth: int
    expiry: int
    names: slice
    overall: tuple[slice, ...]
    overall_at: int


_TD1 = _Layout(3, 30, 5, 30, 38, slice(60, 90), (slice(5, 30), slice(30, 37), slice(38, 45), slice(48, 59)), 59)
_TD2 = _Layout(2, 36, 36, 49, 57, slice(5, 36), (slice(36, 46), slice(49, 56), slice(57, 71)), 71)
_TD3 = _Layout(2, 44, 44, 57, 65, slice(5, 44), (slice(44, 54), slice(57, 64), slice(65, 87)), 87)


def check_digit(field: str) -> str:
    """The check digit of capitals, digits and fillers."""
    return str(sum(_VALUES[char] * (7, 3, 1)[place % 3] for place, char in enumerate(field)) % 10)


def looks_like_mrz(text: str) -> bool:
    """Whether *text* begins as a machine-readable zone does."""
    return "<" in text[:44] and _STARTS.match(text) is not None


def read_mrz(text: str) -> Card | Fault:
    """Read a machine-readable zone, its lines broken or run together.

    A field whose check digit fails is not used: a wrong expiry is unknown. Letters misread in date fields
    (O for 0) are put right only where the check digit then agrees, and reported.
    """
    if len(text) > 400:
        return Fault("id-too-long", Span(0, len(text)), "at most 400 characters", f"{len(text):,}")
    zone = "".join(text.split())
    layout = next((form for form in (_TD1, _TD2, _TD3) if len(zone) == form.lines * form.width), None)
    if layout is None or not _LINE.fullmatch(zone):
        lines = "three lines of 30, or two of 36 or 44, capitals, digits and fillers"
        return Fault("id-mrz-lines", Span(0, len(text)), lines, f"{len(zone)} characters")
    if zone[0] not in "ACIP":
        read = "another kind of document"
        return Fault("id-unsupported-document", Span(0, 1), "a passport or an identity card", read)
    repairs: list[Repair] = []
    checks: list[Check] = []
    number = _number(zone, layout, checks)
    born = _day_digits(zone, layout.birth, "birth date", repairs, checks)
    until = _day_digits(zone, layout.expiry, "expiry", repairs, checks)
    birth = Birth(*_days(born, "birth date", checks, ("19", "20")))
    # No passport or card runs for decades: an expiry of the years 80 to 99 is of the last century.
    expires = _days(until, "expiry", checks, ("20",) if until < "80" else ("19",))
    covered = "".join(zone[part] for part in layout.overall)
    if not checks and not repairs and check_digit(covered) != zone[layout.overall_at]:
        checks.append(Check("check-digit", "the check digit over all fields does not agree"))
    country = zone[2:5].strip("<")
    kind = "passport" if zone[0] == "P" else _KINDS.get(zone[:5], "identity-card")
    return Card(
        kind=kind,
        issuer=country,
        country=country,
        expires=among(expires, until if expires else ""),
        number=number,
        repairs=tuple(repairs),
        checks=tuple(checks),
        medium="machine-readable-zone",
        issuer_code=country,
        name=_name(zone[layout.names]),
        birth=birth,
    )


def _number(zone: str, layout: _Layout, checks: list[Check]) -> IdNumber | None:
    """Nine characters and a check digit; on TD1 a longer number goes on in the optional field."""
    field, digit = zone[layout.number : layout.number + 9], zone[layout.number + 9]
    if layout is _TD1 and digit == "<":
        rest = zone[15:30].split("<", 1)[0]
        field, digit = field + rest[:-1], rest[-1:]
    if check_digit(field) != digit:
        checks.append(Check("check-digit", "the check digit of the number does not agree"))
        return None
    return IdNumber(field.strip("<")) if field.strip("<") else None


def _day_digits(zone: str, at: int, what: str, repairs: list[Repair], checks: list[Check]) -> str:
    """The six digits of a date, empty if the field is blank or its check digit does not agree."""
    field, digit = zone[at : at + 6], zone[at + 6]
    if not field.strip("<"):
        return ""
    mended, mended_digit = field.translate(_TO_DIGITS), digit.translate(_TO_DIGITS)
    if not mended.isdigit() or check_digit(mended) != mended_digit:
        checks.append(Check("check-digit", f"the check digit of the {what} does not agree"))
        return ""
    if mended + mended_digit != field + digit:
        repairs.append(Repair("letters-for-digits", f"{what}: letters read in place of digits"))
    return mended


def _days(digits: str, what: str, checks: list[Check], centuries: tuple[str, ...]) -> tuple[date, ...]:
    found = [day(century + digits[:2], digits[2:4], digits[4:]) for century in centuries] if digits else []
    days = tuple(known for known in found if known)
    if digits and not days:
        checks.append(Check("dates-inconsistent", f"the {what} is no day of the calendar"))
    return days


def _name(field: str) -> Name:
    """Family, then two fillers, then the given names. A field filled to its end may have been cut."""
    family, _, given = field.rstrip("<").partition("<<")
    first, _, middle = given.partition("<")
    cut = None if field[-1] != "<" else False
    family, first, middle = (name_part(part.replace("<", " ")) for part in (family, first, middle))
    return Name(family, first, middle, "", False if given else cut, cut, cut)
