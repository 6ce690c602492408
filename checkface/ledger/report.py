"""What happened at one till: everything taken there, what was counted, and why the two differ."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from functools import cached_property
from typing import Any, NamedTuple

import sqlalchemy as sa

from checkface.ledger import agreement, matching
from checkface.ledger.agreement import Agreement
from checkface.ledger.entries import Done, Item, stored
from checkface.ledger.errors import TillError
from checkface.ledger.matching import Line
from checkface.ledger.reconcile import Explanation, Piece, explain
from checkface.ledger.store import Ledger, item_of

TILL = sa.table(
    "till",
    *map(sa.column, ("id", "store", "lane", "day", "opened_at", "opened_by", "counted_checks", "counted_cents")),
    *map(sa.column, ("counted_after", "closed_at", "closed_by", "chain", "first_entry")),
)
ITEM = sa.table(
    "item",
    *map(sa.column, ("id", "till", "account_last4", "serial", "amount_cents", "day", "at", "employee")),
    *map(sa.column, ("disposition", "taken_as", "override_reason", "override_by", "confirmed", "item_token")),
)
_CORRECTIONS = sa.text("""
    SELECT item, c.at, was, became, reason, c.employee, second FROM correction AS c
    JOIN item ON item.id = c.item WHERE item.till = :till ORDER BY c.at, c.id""")
_LINES = sa.text("SELECT serial, amount_cents FROM counted WHERE till = :till ORDER BY line")


class Till(NamedTuple):
    """One till. ``counted`` is the last count: number of checks and cents."""

    id: str
    store: str
    lane: str
    day: date
    opened_at: datetime
    opened_by: str
    counted: tuple[int, int] | None
    closed_at: datetime | None
    closed_by: str | None


class Correction(NamedTuple):
    """A check that was recorded as one thing and turned out to be another."""

    item: str
    at: datetime
    was: Done
    became: Done
    reason: str
    employee: str
    second: str


@dataclass(frozen=True)
class Report:
    """A till with everything taken at it. ``lines``: the counted list, ``None`` where only a total was counted.

    ``agreement`` says whether all this is as it was recorded.
    """

    till: Till
    items: tuple[Item, ...]
    corrections: tuple[Correction, ...]
    lines: tuple[Line, ...] | None
    agreement: Agreement

    def taken_as(self, done: Done) -> tuple[Item, ...]:
        """The checks with which *done* was done, in the order of taking."""
        return tuple(item for item in self.items if item.taken_as == done)

    @property
    def overrides(self) -> tuple[Item, ...]:
        """Checks with which the lane did other than it was told."""
        return tuple(item for item in self.items if item.override)

    @property
    def expected(self) -> tuple[int, int]:
        """Number of checks and cents that should be in the drawer: every kept one."""
        kept = self.taken_as("kept")
        return len(kept), sum(item.amount_cents or 0 for item in kept)

    @property
    def difference(self) -> tuple[int, int] | None:
        """Counted less expected: checks and cents, below zero when short; ``None`` before the count."""
        if self.till.counted is None:
            return None
        return self.till.counted[0] - self.expected[0], self.till.counted[1] - self.expected[1]

    @cached_property
    def explanation(self) -> Explanation | None:
        """What explains the difference; ``None`` before the count."""
        if self.till.counted is None:
            return None
        kept, converted, returned = (_pieces(self.taken_as(done)) for done in ("kept", "converted", "returned"))
        if self.lines is not None:
            return Explanation((matching.match(kept, converted, returned, self.lines),), True)
        return explain(kept, converted, returned, checks=self.till.counted[0], cents=self.till.counted[1])


def report(ledger: Ledger, till: str) -> Report:
    """The till as it stands: what was taken, what was counted. Raises :class:`TillError` for an unknown till."""

    def work(connection: sa.Connection) -> Report:
        row = connection.execute(sa.select(TILL).where(TILL.c.id == till)).first()
        if row is None:
            raise TillError("Expected the id of a till, read another.")
        asked = {"till": till}
        known = ITEM.c.item_token.is_not(None).label("known_again")
        taken = sa.select(ITEM, known).where(ITEM.c.till == till).order_by(ITEM.c.at, ITEM.c.id)
        corrections = connection.execute(_CORRECTIONS, asked)
        lines = connection.execute(_LINES, asked).all()
        return Report(
            till_of(row),
            tuple(map(item_of, connection.execute(taken))),
            tuple(Correction(c.item, stored(datetime.fromisoformat, c.at), *c[2:]) for c in corrections),
            tuple(Line(*line) for line in lines) if lines else None,
            agreement.of_till(connection, ledger.tokens, till),
        )

    return ledger.database.read(work, snapshot=True)


def _pieces(items: Sequence[Item]) -> list[Piece]:
    return [Piece(item.id, item.serial, item.amount_cents or 0, item.account_last4) for item in items]


def till_of(row: Any) -> Till:
    return Till(
        row.id,
        row.store,
        row.lane,
        stored(date.fromisoformat, row.day),
        stored(datetime.fromisoformat, row.opened_at),
        row.opened_by,
        None if row.counted_checks is None else (row.counted_checks, row.counted_cents),
        stored(datetime.fromisoformat, row.closed_at) if row.closed_at else None,
        row.closed_by,
    )
