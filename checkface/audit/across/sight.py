"""What an audit across checks keeps of one check: few and plain values, from whatever was read."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from checkface import digits, masking
from checkface.amounts import money
from checkface.audit.across.found import Place
from checkface.digits import discreet
from checkface.micr import MicrLine
from checkface.reading import ReadTender
from checkface.span import Fault

#: Why a check cannot be asked.
UNKNOWN = "nothing says what the lane did (taken_as)"
AMOUNTLESS = "no amount was read"


class Layout(NamedTuple):
    """How the On-Us field is laid out. ``width``: characters of the check number, ``padded`` if they start with 0."""

    order: str
    width: int
    padded: bool


class Sight(NamedTuple):
    """One check as it was seen once. Numbers are digits, ``serial`` without leading zeros; amounts are cents."""

    place: Place
    taken: str | None
    routing: str | None
    account: str | None
    serial: str | None
    amount: int | None
    on: date | None
    written: date | None
    payee: str
    store: str
    lane: str
    layout: Layout | None

    def __repr__(self) -> str:
        return discreet(self)

    @property
    def name(self) -> str:
        """The check by what is known of it, masked: ``check 1043 ($45.10, account ••••1122)``."""
        account = f"account {masking.number(self.account)}" if self.account else ""
        about = ", ".join(filter(None, (money(self.amount) if self.amount is not None else "", account)))
        head = f"check {self.number}" if self.serial else "a check without number"
        return f"{head} ({about})" if about else head

    @property
    def number(self) -> str:
        """The check number, masked where it is the account or longer than check numbers are, as a card's is."""
        serial = self.serial or ""
        is_account = self.account is not None and serial == (self.account.lstrip("0") or "0")
        return masking.number(serial) if is_account else digits.hide(serial, "serial")


def sight(place: Place, read: ReadTender) -> Sight:
    """What is kept of *read*. A routing digit that was not read is filled in where only one digit fits."""
    line, counter = read.line, read.counter
    serial = (line.serial if line else None) or read.serial or ""
    return Sight(
        place,
        read.tender.taken_as,
        (line.routing or line.routing_repaired) if line else None,
        line.account if line else None,
        "".join(c for c in serial if c in "0123456789").lstrip("0") or None,
        read.amount_cents,
        counter.on,
        None if read.date is None or isinstance(read.date, Fault) else read.date.date,
        "".join(filter(str.isalnum, read.face.payee.text.casefold())),
        counter.store,
        counter.lane,
        _layout(line) if line else None,
    )


#: Fields of a line as a layout names them.
_CALLED = {"account": "account", "serial": "check number", "transaction_code": "transaction code"}


def _layout(line: MicrLine) -> Layout | None:
    """The layout of a line whose On-Us field was read without a doubt about its characters.

    Paper of business size is not asked: there the auxiliary field has the number, and the rest is laid out accordingly.
    """
    if line.unread or line.faults or not line.account or line.auxiliary is not None:
        return None
    fields = [(start, end, field) for field, start, end in line.places if field in _CALLED]
    serial = next((line.raw[start:end] for start, end, field in fields if field == "serial"), "")
    order = ", ".join(_CALLED[field] for _, _, field in sorted(fields))
    return Layout(order, len(serial), serial.startswith("0"))
