"""What is known of an identification once it is read: one set of questions for a card and a keyed document.

The full number leaves only through :meth:`Identification.reveal_number`; the birth date never leaves, it only
answers whether its holder is an adult. Neither is shown by ``repr``.

>>> from datetime import date
>>> birth = Birth(date(2006, 2, 28))
>>> birth.is_adult(date(2024, 2, 28)), birth.age_band(date(2024, 2, 28)), birth
(True, '18-20', Birth(known))
>>> Birth().is_adult(date(2024, 2, 28)) is None
True
"""

from dataclasses import dataclass
from datetime import date
from typing import Literal, NamedTuple

from .expiry import UNKNOWN, Expiry
from .number import Forbidden, IdNumber

AgeBand = Literal["under-18", "18-20", "21-and-over", "unknown"]


class Repair(NamedTuple):
    """Something that was not as its standard says, and was read all the same."""

    kind: str
    words: str


class Check(NamedTuple):
    """Something an identification lacks, or that does not agree with itself or with its issuer."""

    kind: str
    words: str


class Name(NamedTuple):
    """A holder's name. ``*_truncated`` is whether the card cut that part short; None where it does not say.

    ``unordered`` is a name whose parts the card does not tell apart; then the other parts are empty.
    """

    family: str = ""
    given: str = ""
    middle: str = ""
    suffix: str = ""
    family_truncated: bool | None = None
    given_truncated: bool | None = None
    middle_truncated: bool | None = None
    unordered: str = ""

    def __repr__(self) -> str:
        """The parts that are known, and no name."""
        return f"Name({', '.join(part for part, known in zip(self._fields, self, strict=True) if known)})"


def name_part(text: str) -> str:
    """*text* if it can be a part of a name: empty for a number that strayed into its place."""
    text = text.strip()
    return "" if sum(map(str.isdigit, text)) > 3 else text


class Address(NamedTuple):
    """The holder's address, its street left out of ``repr``.

    ``state`` is in letters; ``postal`` five or nine digits, or a Canadian code without its blank.
    """

    street: str = ""
    city: str = ""
    state: str = ""
    postal: str = ""

    def __repr__(self) -> str:
        return f"Address(state={self.state!r}, postal={self.postal!r})"


class Birth:
    """A birth date that only answers questions of age.

    Several days are what two digits of a year leave open; on a given day it is the latest of them already
    past.
    """

    __slots__ = ("_days",)

    def __init__(self, *days: date) -> None:
        self._days = days

    def is_adult(self, on: date, age: int = 18) -> bool | None:
        """Whether the holder has reached *age* on the day *on*; None if the birth date is not known."""
        past = [born for born in self._days if born <= on]
        if not past:
            return None
        born = max(past)
        return (on.year - born.year) - ((on.month, on.day) < (born.month, born.day)) >= age

    def age_band(self, on: date) -> AgeBand:
        """The coarsest age that still decides something at a counter."""
        if self.is_adult(on) is None:
            return "unknown"
        return "21-and-over" if self.is_adult(on, 21) else "18-20" if self.is_adult(on) else "under-18"

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Birth) and self._days == other._days

    def __hash__(self) -> int:
        return hash(self._days)

    def __repr__(self) -> str:
        return f"Birth({'known' if self._days else 'unknown'})"


_NO_NAME, _NO_ADDRESS, _NO_BIRTH = Name(), Address(), Birth()


@dataclass(frozen=True, slots=True, kw_only=True)
class Identification:
    """What a card and a keyed document have in common.

    ``kind`` is one of :data:`checkface.identity.KINDS`; ``issuer`` the letters of the state, province or
    country, empty if not known. ``forbidden`` names what was found that must not be recorded; it is already
    dropped.
    """

    kind: str
    issuer: str = ""
    country: str = ""
    expires: Expiry = UNKNOWN
    number: IdNumber | None = None
    repairs: tuple[Repair, ...] = ()
    checks: tuple[Check, ...] = ()
    forbidden: tuple[Forbidden, ...] = ()

    @property
    def masked_number(self) -> str:
        """The number with all but its last characters starred; empty if there is none."""
        return self.number.masked if self.number else ""

    def reveal_number(self) -> str:
        """The whole number, for a caller whom the law lets keep it; empty if there is none."""
        return self.number.reveal() if self.number else ""

    def has(self, kind: str) -> bool:
        """Whether a check of this kind failed."""
        return any(check.kind == kind for check in self.checks)

    def repaired(self, kind: str) -> bool:
        """Whether a repair of this kind was made."""
        return any(repair.kind == kind for repair in self.repairs)


@dataclass(frozen=True, slots=True, kw_only=True)
class Card(Identification):
    """A card read by machine.

    ``medium`` is how; ``issuer_code`` the issuer identification number, on a machine-readable zone the issuing
    country; ``version`` that of the AAMVA standard, None if not given.
    """

    medium: Literal["barcode", "stripe", "machine-readable-zone"]
    issuer_code: str = ""
    version: int | None = None
    name: Name = _NO_NAME
    issued: date | None = None
    birth: Birth = _NO_BIRTH
    address: Address = _NO_ADDRESS
    limited_duration: bool | None = None

    @property
    def family(self) -> str:
        """Family name, as encoded."""
        return self.name.family

    @property
    def given(self) -> str:
        """First given name, as encoded."""
        return self.name.given

    @property
    def middle(self) -> str:
        """Middle names, as encoded."""
        return self.name.middle

    @property
    def suffix(self) -> str:
        """Name suffix, as encoded."""
        return self.name.suffix

    def is_adult(self, on: date, age: int = 18) -> bool | None:
        """Whether the holder has reached *age* on the day *on*; None if not known."""
        return self.birth.is_adult(on, age)

    def age_band(self, on: date) -> AgeBand:
        """The holder's age as a band, never as a number."""
        return self.birth.age_band(on)
