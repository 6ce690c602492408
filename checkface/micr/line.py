"""What a MICR line says: the fields, where they stand, and everything that could not be settled.

The fields and their places are those of ASC X9 TR 100-2013.

>>> from checkface.micr import read
>>> line = read("⑆071098973⑆ 45601122⑈ 1043 27")
>>> line.routing, line.account, line.serial, line.settled
('071098973', '45601122', None, False)
>>> line.ambiguities[0]
Ambiguity(field='serial', reason='the order of the groups is not settled by the line alone', 2 candidates)
>>> [fault.message for fault in read("⑆07109897⑆ 45601122⑈ 1043").faults]
['Expected nine digits between the transit symbols, read eight digits.']
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import Literal, NamedTuple

from checkface.digits import hide, hide_own, own
from checkface.span import Fault, Span

Country = Literal["US", "CA", "other"]
Places = tuple[tuple[str, int, int], ...]
FAULTS: Mapping[str, str] = {
    # instead of a line
    "micr-blank": "nothing was captured",
    "micr-too-long": "longer than any line, even with runs of blanks",
    "micr-transit-missing": "no routing number between two transit symbols",
    "micr-notation-undecided": "several notations fit, with different fields",
    "micr-cmc7": "the other magnetic font, of other countries",
    "micr-field-character": "a record field holds a character it cannot",
    "micr-swipes-differ": "two swipes of one check contradict each other",
    # inside a line
    "micr-transit-length": "not nine digits between the transit symbols",
    "micr-transit-content": "something other than digits between the transit symbols",
    "micr-transit-twice": "more than two transit symbols",
    "micr-transit-unread": "one transit symbol was not read; its partner and the sum place it",
    "micr-auxiliary-malformed": "left of the transit field neither an auxiliary field nor one EPC digit",
    "micr-field-too-long": "more characters than the field, or the line, can hold",
    "micr-amount-length": "not ten digits between the amount symbols",
    "micr-amount-symbols": "amount symbols lost or too many",
    "micr-amount-misplaced": "an amount symbol left of the On-Us field",
    "micr-left-over": "characters right of the amount",
    "micr-on-us-missing": "no On-Us symbol after the transit field",
    "micr-on-us-unclosed": "no On-Us symbol right of the account",
    "micr-on-us-symbols": "too many On-Us symbols",
    "micr-account-malformed": "a dash of the account stands beside no digit",
    "micr-character": "characters the font does not have, such as letters or full-width digits",
    "micr-layout-unlike": "not laid out as the house knows this bank's checks",
}
"""Every kind of fault this room gives, with its meaning."""

RETURNED = frozenset("25")
"""External Processing Codes of qualified returned items, 12 CFR 229.31(a)(3)."""


def moved(fault: Fault, by: int) -> Fault:
    """*fault* in a text in which its place begins *by* characters later."""
    return replace(fault, span=Span(fault.span.start + by, fault.span.end + by))


class Ambiguity(NamedTuple):
    """A field the line alone does not settle.

    ``field`` is its name on :class:`MicrLine`, ``reason`` says why, ``candidates`` are the values that remain,
    likeliest first (digits; empty where they cannot be listed).
    """

    field: str
    reason: str
    candidates: tuple[str, ...] = ()

    def __repr__(self) -> str:
        """The field and the reason; candidates of an account never stand in a log."""
        return f"Ambiguity(field={self.field!r}, reason={self.reason!r}, {len(self.candidates)} candidates)"


class MicrLine(NamedTuple):
    """One magnetic-ink line, read.

    All numbers are strings of ASCII digits with their leading zeros; ``amount_cents`` is an int. A field is
    None when it is absent, touched by an unread character, or not settled: ``unread``, ``ambiguities`` and
    ``faults`` tell which. Layout of the fields: ASC X9 TR 100-2013.
    """

    raw: str
    """The reading, untouched."""
    notation: str
    """Name of the notation it is written in, one of :data:`checkface.micr.NOTATIONS`; ``"reader"`` for that of the
    house's own table, ``"inferred"`` for brackets and quotes whose meaning the line itself shows."""
    country: Country
    """``"other"`` only where the form of the line is foreign; a damaged line stays ``"US"`` with a fault."""
    routing: str | None
    """Nine digits, also when their checksum fails."""
    checksum: bool | None
    """Whether the routing number passes its sum; None without a routing number."""
    auxiliary: str | None
    """Content of the Auxiliary On-Us field as printed, without its symbols."""
    epc: str | None
    """External Processing Code, one digit."""
    account: str | None
    """Digits of the account number."""
    account_text: str | None
    """The account number as printed: the characters of ``raw``, dashes and blanks included."""
    serial: str | None
    """Serial (check) number."""
    transaction_code: str | None
    """Bank's own code right of the account."""
    amount_cents: int | None
    """Encoded amount in cents; blank until the bank of first deposit encodes it."""
    unread: bool
    """Some character of the line was not read, or is not an E-13B character."""
    ambiguities: tuple[Ambiguity, ...]
    """What the line alone does not settle."""
    faults: tuple[Fault, ...]
    """What is wrong inside the line."""
    notes: tuple[str, ...]
    """Evidence used beyond the line's own order."""
    routing_repaired: str | None
    """The one number that fits, where exactly one routing digit is unread."""
    routing_old_form: str | None
    """``"dddd-dddd"``: the old routing form without a check digit."""
    positions: bool
    """The capture keeps the positions: the routing number stands on positions 42 to 34 from the right."""
    places: Places
    """``(field, start, end)`` offsets into ``raw``; :attr:`spans` is the comfortable form."""

    def __repr__(self) -> str:
        """What may stand in a log: the account masked to its last four, the raw reading left out."""
        account = self.account and (
            "*" * (len(self.account) - 4) + self.account[-4:] if len(self.account) > 4 else "****"
        )
        serial = self.serial and hide(hide_own(self.serial, own(self.account)), "serial")
        doubted = tuple(doubt.field for doubt in self.ambiguities)
        faults = tuple(fault.kind for fault in self.faults)
        return (
            f"MicrLine(notation={self.notation!r}, country={self.country!r}, routing={self.routing!r}, "
            f"epc={self.epc!r}, account={account!r}, serial={serial!r}, unread={self.unread!r}, "
            f"open={doubted!r}, faults={faults!r})"
        )

    @property
    def spans(self) -> Mapping[str, Span]:
        """Field name to its span in ``raw``: routing, auxiliary, epc, account, serial, transaction_code, amount."""
        return {field: Span(start, end) for field, start, end in self.places}

    @property
    def returned(self) -> bool:
        """A qualified returned item (EPC 2 or 5): the routing field holds the depositary bank's number."""
        return self.epc in RETURNED

    @property
    def drawee_routing(self) -> str | None:
        """Routing number of the bank the check is drawn on; None where the field names another bank."""
        return None if self.returned else self.routing

    @property
    def is_long(self) -> bool:
        """More than one EPC digit stands left of the transit field: paper longer than 6 inches, so business-size."""
        left = ((fault.kind, fault.span.end - fault.span.start) for fault in self.faults)
        return any(field == "auxiliary" for field, _, _ in self.places) or any(
            kind == "micr-auxiliary-malformed" and size > 1 for kind, size in left
        )

    def moved(self, raw: str, by: int, *notes: str) -> "MicrLine":
        """The same line as part of *raw*, in which it begins *by* characters later."""
        return self._replace(
            raw=raw,
            faults=tuple(moved(fault, by) for fault in self.faults),
            notes=(*notes, *self.notes),
            places=tuple((field, start + by, end + by) for field, start, end in self.places),
        )

    @property
    def settled(self) -> bool:
        """Nothing unread, ambiguous or wrong in the line, and the routing sum holds."""
        return bool(self.checksum) and not (self.unread or self.ambiguities or self.faults)
