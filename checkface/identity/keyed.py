"""A document shown and keyed by the clerk: its kind, number, state and expiry.

States are keyed by the two-digit numeric code of INCITS 38 (48 is Texas) or by letters. Everything that is
wrong with a document is reported at once; only a kind nobody knows leaves nothing to report on.

>>> shown = read_keyed("driver's license", "12345678", "48", "2027-01-01")
>>> shown.kind, shown.issuer, shown.expires.on.isoformat(), shown.masked_number, shown.checks
('drivers-license', 'TX', '2027-01-01', '****5678', ())
>>> [check.kind for check in read_keyed("drivers-license", "4111 1111 1111 1111", "43", "soon").checks]
['state-unknown', 'number-forbidden', 'expiry-unreadable']
>>> read_keyed("library card", "1", "", "").message
"Expected a kind of identification such as drivers-license or passport, read 'library card'."
"""

from dataclasses import dataclass
from datetime import date

from checkface.patterns import lazily
from checkface.span import Fault, Span

from .card import Check, Identification, Repair, name_part
from .carddates import MONTHS, NO_DATA, day, read_date
from .expiry import Expiry, among, within_month
from .kinds import KINDS, LONGEST, Kind, kind_named
from .number import Forbidden, IdNumber, admit, compact, fits_shape, forbidden_number
from .places import Place, find_place

#: Their own numbers have nine digits, as a social security number has: that says nothing there.
_NINE_DIGITS_USUAL = frozenset({"passport", "passport-card", "permanent-resident", "employment-authorization"})
_WITH_MONTH_NAME = lazily(r"([0-9]{1,2})?[ -]?([A-Z]{3})[A-Z]*\.?[ -]?(?:([0-9]{1,2}),? )?([0-9]{4})")
_MONTH_ONLY = lazily(r"([0-9]{1,2})[-/]([0-9]{4})|([0-9]{4})-([0-9]{2})")
_TWO_DIGIT_YEAR = lazily(r"([0-9]{1,2})[-/]([0-9]{1,2})[-/]([0-9]{2})")
_DAY_FIRST = lazily(r"([0-9]{1,2})[-/. ]([0-9]{1,2})[-/. ]([0-9]{4})")


@dataclass(frozen=True, slots=True, kw_only=True)
class Document(Identification):
    """An identification document keyed by a person. ``photo`` is whether its kind shows a picture."""

    photo: bool


def read_keyed(kind: str, number: str = "", state: str = "", expires: str = "") -> Document | Fault:
    """Read what a clerk keyed about a document; an empty text is a field not keyed.

    Check kinds: ``state-unknown``, ``state-missing``, ``number-forbidden``, ``number-doubtful``,
    ``number-shape``, ``number-missing``, ``expiry-unreadable``.
    """
    name = kind_named(kind)
    if name is None:
        read = repr(kind.strip()[:40]) if name_part(kind) else "none of those known"
        expected = "a kind of identification such as drivers-license or passport"
        return Fault("id-kind-unknown", Span(0, len(kind)), expected, read)
    fields = {"kind": kind, "number": number, "state": state, "expires": expires}
    for field, text in fields.items():
        if len(text) > LONGEST:
            expected = f"at most {LONGEST} characters in {field}"
            return Fault("id-too-long", Span(0, len(text)), expected, f"{len(text):,}")
    repairs: list[Repair] = []
    checks: list[Check] = []
    forbidden: list[Forbidden] = []
    place = _place(state, KINDS[name], repairs, checks)
    found = _number(name, number, place.code if place else "", checks, forbidden)
    for field in ("kind", "state", "expires"):
        _refuse(forbidden_number(fields[field]), field, checks, forbidden)
    return Document(
        kind=name,
        photo=KINDS[name].photo,
        issuer=place.code if place else "",
        country=place.country if place else "",
        number=found,
        expires=_expiry(expires, place, repairs, checks),
        repairs=tuple(repairs),
        checks=tuple(checks),
        forbidden=tuple(forbidden),
    )


def _place(text: str, kind: Kind, repairs: list[Repair], checks: list[Check]) -> Place | None:
    word = text.strip()
    place = find_place(word)
    if not word and kind.by_state:
        checks.append(Check("state-missing", "no issuing state was keyed"))
    elif word and place is None and not (word.upper() in {"US", "USA"} and not kind.by_state):
        checks.append(Check("state-unknown", "the issuing state is no state code"))
    elif place and word.isdigit() and len(word) == 1:
        repairs.append(Repair("zeros-lost", "state code keyed with one digit"))
    return place


def _number(kind: str, text: str, state: str, checks: list[Check], forbidden: list[Forbidden]) -> IdNumber | None:
    """The number unless it must not be recorded; only licenses and state cards are held against a shape."""
    if not compact(text):
        checks.append(Check("number-missing", "no number was keyed"))
        return None
    by_state = KINDS[kind].by_state
    admitted, found = admit(text, state if by_state else "")
    if kind == "social-security-card":
        admitted, found = None, Forbidden("social-security", "certain")
    fits = fits_shape(state, compact(text)) if by_state else None
    if admitted is None:
        _refuse(found, "number", checks, forbidden)
    elif fits is False:
        checks.append(Check("number-shape", "the number has no shape that its state uses"))
    elif found and fits is None and kind not in _NINE_DIGITS_USUAL:
        checks.append(Check("number-doubtful", f"the number has the form of a {found.kind} number"))
    return admitted


def _refuse(found: Forbidden | None, field: str, checks: list[Check], forbidden: list[Forbidden]) -> None:
    if found and found.certainty == "certain":
        forbidden.append(found)
        checks.append(Check("number-forbidden", f"a {found.kind} number was keyed as the {field}"))


def _expiry(text: str, place: Place | None, repairs: list[Repair], checks: list[Check]) -> Expiry:
    """A keyed expiry: a day with the year or the month first, with a month's name, or a month alone."""
    word = text.strip().upper()
    if parts := _MONTH_ONLY.fullmatch(word):
        month, year = (parts[1], parts[2]) if parts[1] else (parts[4], parts[3])
        if 1 <= int(month) <= 12 and 1900 <= int(year) <= 2099:
            return within_month(int(year), int(month), word)
    found = read_date(word, year_first=place is not None and place.country == "CAN")
    if found.nature == "never":
        return Expiry("never", raw=word)
    days = found.days or _other_forms(word, repairs)
    if not days and word not in NO_DATA:
        checks.append(Check("expiry-unreadable", "the expiry is no date"))
        return Expiry("unknown")
    return among(days, word)


def _other_forms(word: str, repairs: list[Repair]) -> tuple[date, ...]:
    found = None
    if parts := _WITH_MONTH_NAME.fullmatch(word):
        of_month = parts[1] or parts[3]
        if of_month and not (parts[1] and parts[3]) and parts[2] in MONTHS:
            found = day(parts[4], MONTHS[parts[2]], of_month)
    elif parts := _TWO_DIGIT_YEAR.fullmatch(word):
        found = day(("19" if parts[3] >= "80" else "20") + parts[3], parts[1], parts[2])
        repairs.append(Repair("two-digit-year", "a year of two digits, from 80 on of the last century"))
    elif parts := _DAY_FIRST.fullmatch(word):
        found = day(parts[3], parts[2], parts[1])
        repairs.append(Repair("day-first", "the day stands before the month"))
    return (found,) if found else ()
