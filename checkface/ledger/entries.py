"""What is written down of one check, and what comes back."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import TYPE_CHECKING, Literal, NamedTuple, Protocol, TypeVar, get_args

from checkface.digits import discreet, hide
from checkface.findings import Disposition
from checkface.ledger.errors import LedgerError
from checkface.reading import KnownBy, known_by
from checkface.rules.history import Seen
from checkface.tender import State

if TYPE_CHECKING:
    from checkface.reading import ReadTender

T = TypeVar("T")

#: What was done with the paper: an electronic debit and handed back, kept in the till, or handed back untaken.
Done = Literal["converted", "kept", "returned"]
DONE: tuple[Done, ...] = get_args(Done)


class Override(NamedTuple):
    """Why the lane did other than it was told, and whose initials stand beside the clerk's."""

    reason: str
    by: str

    def __repr__(self) -> str:
        return discreet(self)


class Assessed(Protocol):
    """The part of an :class:`~checkface.assessment.Assessment` that is written down."""

    @property
    def read(self) -> ReadTender: ...

    @property
    def disposition(self) -> Disposition: ...


@dataclass(frozen=True, slots=True)
class Entry:
    """One check with what was done. Numbers are as read and never show in ``repr``; only their tokens are stored.

    ``routing``, ``account`` and ``serial`` may be empty where they were not read. ``known_by`` are the numbers by
    which the check is known again, where these three are not: the digits of its line. Without either it is recorded
    and cannot be known again. ``at`` is the moment of the take, ``day`` the day of tender, ``documents`` the numbers
    shown, ``confirmed`` the rules whose question the clerk answered with yes.
    """

    routing: str = field(repr=False)
    account: str = field(repr=False)
    serial: str = field(repr=False)
    amount_cents: int | None
    day: date
    at: datetime
    done: Done
    disposition: Disposition
    employee: str = field(default="", repr=False)
    drawer: str = field(default="", repr=False)
    documents: tuple[str, ...] = field(default=(), repr=False)
    override: Override | None = None
    confirmed: tuple[str, ...] = ()
    known_by: KnownBy | None = field(default=None, repr=False)


class Standing(NamedTuple):
    """What stands in the ledger of a check: as what it was recorded, when, by whom and at which till, if at any."""

    id: str
    done: Done
    day: date
    at: datetime
    employee: str
    till: str | None
    store: str | None
    lane: str | None


class Recorded(NamedTuple):
    """What became of an entry. ``before``: what stood there already, so that this time nothing was recorded.

    ``known_again``: whether the ledger will know the check when it comes once more.
    """

    id: str
    known_again: bool
    before: Standing | None = None

    @property
    def is_recorded(self) -> bool:
        """Whether the entry stands in the ledger, from this call or from an earlier one with its id."""
        return self.before is None or self.before.id == self.id

    @property
    def taken_before(self) -> Seen | None:
        """The earlier take of the same check, if that kept this one out."""
        return None if self.is_recorded or self.before is None else Seen(self.before.day, self.before.done)


class Item(NamedTuple):
    """One recorded check, masked: only the last four of the account are known.

    ``known_again``: whether the ledger would know it if it came once more.
    """

    id: str
    account_last4: str
    serial: str
    amount_cents: int | None
    day: date
    at: datetime
    employee: str
    disposition: Disposition
    taken_as: Done
    override: Override | None
    confirmed: tuple[str, ...]
    known_again: bool


def entry_of(
    assessed: Assessed,
    done: Done,
    *,
    at: datetime,
    employee: str = "",
    amount_cents: int | None = None,
    override: Override | None = None,
    documents: bool = True,
) -> Entry:
    """The entry for an assessed check. ``amount_cents`` replaces the amount the tender was read for.

    ``documents=False`` leaves identification numbers out altogether, where the law of the state asks for that.
    """
    read, line = assessed.read, assessed.read.line
    return Entry(
        routing=(line.routing if line else None) or "",
        account=(line.account if line else None) or "",
        # As the rules ask for it: the serial in the line, else the one printed in the corner.
        serial=(line.serial if line else None) or read.serial or "",
        amount_cents=read.amount_cents if amount_cents is None else amount_cents,
        day=read.counter.on or at.date(),
        at=at,
        done=done,
        disposition=assessed.disposition,
        employee=employee or read.counter.employee,
        drawer=name_of(read.face.drawer.text) if read.face.drawer.state is State.TEXT else "",
        documents=read.document_numbers if documents else (),
        override=override,
        confirmed=read.counter.confirmed,
        known_by=known_by(read),
    )


def stored(read: Callable[[str], T], text: str) -> T:
    """The day or moment in a column. Raises :class:`LedgerError` where somebody wrote something else there."""
    try:
        return read(text)
    except ValueError:
        raise LedgerError(
            "Expected a day or a moment in the ledger, found something else: it was altered. See: checkface till check."
        ) from None


def name_of(drawer: str) -> str:
    """The first line of the printed block of the drawer, the name, with any long number in it masked."""
    lines = (" ".join(line.split()) for line in drawer.splitlines())
    return hide(next(filter(None, lines), ""), "reason")[:80]
