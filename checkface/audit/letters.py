"""The items of an image cash letter as tenders, and its returns as the house list takes them.

What a bank sent says little of the paper: the magnetic-ink line, the amount and when it was presented. Nobody looked at
anything else, so rules that need more say that they could not run.

- The amount is what a bank keyed or encoded after the check was taken. It stands for the amount it was taken for, not
  for digits seen on the paper: the tender's line has none.
- The line counts as ``corrected`` where any bank repaired it, by whatever means, as untouched where the item's own
  record says so, and else nobody knows.
- The check counts as ``kept``: it was collected as a check, and one that is converted travels as an electronic entry
  and is in no cash letter. Nothing is said of what the lane did with a return: it was collected once, in another
  letter, and is neither in the drawer nor in the totals of this day.
- A day is the one given, else the business date of the bundle or the cash letter.

A credit (a deposit slip) is no check and gives no tender.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from functools import partial
from typing import TYPE_CHECKING, Any, NamedTuple

from checkface import cashletter, micr
from checkface.assessment import parse
from checkface.audit.placed import Item, Skipped, guarded
from checkface.cashletter import Flaw
from checkface.cashletter.item import day
from checkface.span import Fault

if TYPE_CHECKING:
    from checkface.audit.source import Stream


def tenders(stream: Stream, start: bytes = b"", *, on: date | None = None) -> Iterator[Item | Skipped]:
    """Every check and return of the cash letter *stream*, of which *start* was taken, and each flaw of it.

    ``line`` is the number of the record; the reason names the byte.
    """
    for entry in cashletter.items(cashletter.read(_Rest(stream, start))):
        if isinstance(entry, Flaw):
            yield Skipped(entry.number, entry.message, flaw=True)
        elif isinstance(entry, cashletter.Item) and entry.kind != "credit":
            yield tender(entry, on)


def tender(item: cashletter.Item, on: date | None = None) -> Item | Skipped:
    """*item* as a tender; *on* is the day, else its business date."""
    return guarded(item.number, lambda: Item(item.number, parse(wire(item, on))))


def wire(item: cashletter.Item, on: date | None = None) -> dict[str, Any]:
    """The tender on the wire that *item* stands for; *on* is the day, else its business date."""
    counter: dict[str, Any] = {}
    if told := on or item.business_date:
        counter["on"] = told.isoformat()
    if item.cents is not None:
        counter["amount"] = f"{item.cents // 100}.{item.cents % 100:02}"
    if item.repaired is not None:
        counter["micr_by"] = "corrected" if item.repaired else "reader"
    line = micr_line(item)
    # Fields that make no line are a line that could not be made out; what is wrong in them was reported.
    text = None if isinstance(line, Fault) else line.raw
    blank = not (item.routing + item.on_us + item.auxiliary).strip()
    told_of: dict[str, Any] = {"id": item.sequence, "face": {"micr": "" if blank else text}, "counter": counter}
    return told_of if item.kind == "return" else {**told_of, "taken_as": "kept"}


def micr_line(item: cashletter.Item) -> micr.MicrLine | Fault:
    """The line that the fields of *item* make, without the amount."""
    return micr.from_fields(item.auxiliary, item.epc, item.routing, item.on_us)


class Returned(NamedTuple):
    """One check that came back, with what the house list takes (``ledger.unpaid.Return``). ``line`` is its record."""

    line: int
    routing: str
    account: str
    on: date
    """Business date of the bundle in which it came back."""
    serial: str
    amount_cents: int | None
    reason: str
    """The code of the standard and its words."""

    def __repr__(self) -> str:
        return f"Returned(line={self.line}, on={self.on}, reason={self.reason!r})"


#: The next business day after a long weekend: a letter made after the hour at which a day ends carries that date.
_NEXT = timedelta(days=5)


def returns(stream: Stream) -> Iterator[Returned | Skipped]:
    """Every return of a cash letter that can be listed; what cannot, and each flaw, as a row skipped.

    An account is listed only where the reason speaks of it (a check presented twice, or without an endorsement, says
    nothing against whoever wrote it) and where the line leaves no doubt about its number: a serial that runs into the
    account would put another customer on the list. Its day must be known, and not further behind the day on which the
    file was made than the next business day can be: the list would say of the account what nobody knows.
    """
    reader = cashletter.read(_Rest(stream, b""))
    for entry in cashletter.items(reader):
        if isinstance(entry, Flaw):
            yield Skipped(entry.number, entry.message)
        elif isinstance(entry, cashletter.Item) and entry.kind == "return":
            made = day(reader.header.field("File Creation Date")) if reader.header else None
            yield guarded(entry.number, partial(_returned, entry, made))


def _returned(item: cashletter.Item, made: date | None) -> Returned | Skipped:
    line, reason = micr_line(item), item.returned_for
    place = f"Byte {item.offset:,}, record {item.number:,} (type 31)"
    if isinstance(line, Fault):
        return Skipped(item.number, f"{place}: {line.message}")
    if reason is None or not reason.unpaid:
        read = f"{item.return_reason!r}{f', {reason.words}' if reason else ''}"
        return Skipped(item.number, f"{place}: Expected a return reason that speaks of the account, read {read}.")
    doubtful = any(doubt.field == "account" for doubt in line.ambiguities)
    if line.drawee_routing is None or not line.checksum or line.account is None or doubtful:
        what = "a routing number that passes its sum and an account without doubt"
        return Skipped(item.number, f"{place}: Expected {what}, read a line that leaves one open.")
    came = item.business_date
    if came is None or (made and came > made + _NEXT):
        what = f"a business date up to {_NEXT.days} days behind the making of the file{f', {made}' if made else ''}"
        return Skipped(item.number, f"{place}: Expected {what}, read {came or 'none'}.")
    told, bank, serial = f"{item.return_reason} {reason.words}", line.drawee_routing, line.serial or ""
    return Returned(item.number, bank, line.account, came, serial, item.cents, told)


class _Rest:
    """*stream* with *start* before it again."""

    def __init__(self, stream: Stream, start: bytes) -> None:
        self._start = start
        self._read = getattr(stream, "read", stream.readline)

    def read(self, size: int = -1, /) -> bytes:
        if self._start:
            given, self._start = self._start, b""
            return given
        taken: bytes = self._read(size)
        return taken
