"""The till of one lane from opening to close.

``open`` a till, ``take`` every assessed check with what was really done, ``count`` the drawer, ``close``; ``report``
at any time. Each is one transaction: it is wholly in the ledger or not at all. The moment and whose initials it is
are arguments.
"""

from __future__ import annotations

import uuid
from collections.abc import Sequence
from datetime import datetime
from typing import Any, Final, NamedTuple

import sqlalchemy as sa

from checkface.digits import SHOWN, hide
from checkface.findings import Disposition
from checkface.ledger import chain
from checkface.ledger.entries import Assessed, Done, Override, Recorded, Standing, entry_of
from checkface.ledger.errors import TillError
from checkface.ledger.keys import kept_serial
from checkface.ledger.matching import Line
from checkface.ledger.report import ITEM, TILL, Report, Till, report, till_of
from checkface.ledger.store import Ledger

__all__ = ["TOLD", "Line", "Total", "close", "correct", "count", "find", "last", "open", "report", "standing", "take"]

#: What the lane is told to do, by disposition; ``None``: a manager decides, and handing back needs no one.
TOLD: Final[dict[Disposition, Done | None]] = {
    Disposition.CONVERT: "converted",
    Disposition.KEEP: "kept",
    Disposition.REFER: None,
    Disposition.DECLINE: "returned",
}

#: More digits than these may be the number of an account, a card or a person, and would stand in the ledger in clear.
_MOST_DIGITS: Final = SHOWN["counter"].most

_THIS = sa.select(TILL).where(TILL.c.id == sa.bindparam("till"))
_OPEN = sa.text("""
    INSERT INTO till (id, store, lane, day, opened_at, opened_by, chain, first_entry)
    VALUES (:id, :store, :lane, :day, :opened_at, :opened_by, :chain, :first_entry) ON CONFLICT DO NOTHING RETURNING id
    """)
_CORRECTION = sa.text("""
    INSERT INTO correction (id, item, at, was, became, reason, employee, second)
    VALUES (:id, :item, :at, :was, :became, :reason, :employee, :second) ON CONFLICT DO NOTHING RETURNING id""")
_CORRECT = sa.text("UPDATE item SET taken_as = :became WHERE id = :item")
_FORGET_COUNT = sa.text("DELETE FROM counted WHERE till = :till")
_COUNT_LINE = sa.text("""
    INSERT INTO counted (till, line, serial, amount_cents) VALUES (:till, :line, :serial, :amount_cents)""")
_COUNT = sa.text("""
    UPDATE till SET counted_checks = :counted_checks, counted_cents = :counted_cents, counted_after = :counted_after
    WHERE id = :id""")
_TAKEN = sa.text("SELECT count(*) FROM item WHERE till = :till")
_CLOSE = sa.text("UPDATE till SET closed_at = :closed_at, closed_by = :closed_by WHERE id = :id")


class Total(NamedTuple):
    """A count without a list: the number of checks in the drawer and their total in cents."""

    checks: int
    cents: int


def open(ledger: Ledger, *, store: str, lane: str, by: str, at: datetime, id: str | None = None) -> Till:
    """Open the till of a lane. Raises :class:`TillError` when it is open already."""
    day, employee = at.date().isoformat(), _initials(by, "who opens the till")
    for number, what in ((store, "the store"), (lane, "the lane")):
        _plain(number, what)
    row = {"id": id or _new(), "store": store, "lane": lane, "day": day, "opened_at": at.isoformat()}
    row |= {"opened_by": employee, "chain": chain.name(ledger.tokens, ledger.origin, store, lane)}

    def work(connection: sa.Connection) -> Till:
        held = chain.hold(connection, ledger.tokens, row["chain"], store, lane)
        numbered = row | {"first_entry": held.entries + 1}
        if connection.execute(_OPEN, numbered).first() is not None:
            opening = chain.Entry("open", row["id"], row["id"], row["opened_at"], numbered)
            chain.add(connection, ledger.tokens, held, opening)
        found = connection.execute(_THIS, {"till": row["id"]}).first()
        if found is None:
            raise TillError(f"Expected lane {lane!r} without an open till, found one; close it first.")
        return till_of(found)

    return ledger.database.write(work)


def find(ledger: Ledger, *, store: str, lane: str) -> Till | None:
    """The open till of a lane, if there is one."""
    query = sa.select(TILL).where(TILL.c.store == store, TILL.c.lane == lane, TILL.c.closed_at.is_(None))
    row = ledger.database.read(lambda connection: connection.execute(query).first())
    return till_of(row) if row else None


def last(ledger: Ledger, *, store: str, lane: str) -> Till | None:
    """The open till of a lane, else the one closed last, if there ever was one.

    By the order in which they were opened here, whatever the clock said.
    """
    query = sa.select(TILL).where(TILL.c.store == store, TILL.c.lane == lane)
    here = TILL.c.chain != chain.name(ledger.tokens, ledger.origin, store, lane)
    latest = query.order_by(TILL.c.closed_at.is_not(None), here, TILL.c.first_entry.desc()).limit(1)
    row = ledger.database.read(lambda connection: connection.execute(latest).first())
    return till_of(row) if row else None


def take(
    ledger: Ledger,
    till: str,
    assessed: Assessed,
    done: Done,
    *,
    by: str,
    at: datetime,
    amount_cents: int | None = None,
    override: Override | None = None,
    documents: bool = True,
    id: str | None = None,
) -> Recorded:
    """Record an assessed check at the open till with that id, and what was really done with it.

    Doing other than told needs an *override* with a reason and second initials. A check that was taken, here or at any
    lane of the ledger, is not taken again by any override, and what stands is told, whatever was asked for this time;
    only at another till may it still be recorded as handed back. ``id`` makes the call safe to repeat after an error.
    Raises :class:`TillError` for a missing override or amount and a till that is closed.
    """
    employee = _initials(by, "who takes the check")
    entry = entry_of(assessed, done, at=at, employee=employee, amount_cents=amount_cents, documents=documents)
    name = id or _new()

    def work(connection: sa.Connection) -> Recorded:
        held, which = _hold(connection, ledger, till)
        row = ledger.row(entry, name) | {"till": till}
        before = ledger.stands(connection, row)
        if before is not None and (before.id == name or before.till == till or done != "returned"):
            return Recorded(name, row["item_token"] is not None, before)
        if which.closed_at is not None:
            raise TillError("Expected an open till, found it closed.")
        if override is not None or (TOLD[assessed.disposition] or "returned") != done:
            why = _override(override, employee, f"a check {done} where told to {assessed.disposition}")
            row |= {"override_reason": why.reason, "override_by": why.by}
        if done != "returned" and entry.amount_cents is None:
            raise TillError("Expected the amount of a check that is taken, read none.")
        return ledger.insert(connection, held, row, entry)

    return ledger.database.write(work)


def standing(ledger: Ledger, assessed: Assessed, *, at: datetime, id: str | None = None) -> Standing | None:
    """What stands of a check that was taken before, or under that *id*; ``None`` if it may be taken."""
    row = ledger.row(entry_of(assessed, "kept", at=at), id or "")
    return ledger.database.read(lambda connection: ledger.stands(connection, row))


def correct(
    ledger: Ledger, item: str, done: Done, *, reason: str, by: str, second: str, at: datetime, id: str | None = None
) -> None:
    """Put right what was recorded of a check of a till that is still open: it was *done* otherwise.

    The first record stays readable. Raises :class:`TillError`: no such check, till closed, no second initials, or a
    check that was meanwhile taken elsewhere.
    """
    employee = _initials(by, "who corrects")
    why = _override(Override(reason, second), employee, "a correction")
    row = {"id": id or _new(), "item": item, "at": at.isoformat(), "became": done, "employee": employee}
    row |= {"reason": why.reason, "second": why.by}

    def work(connection: sa.Connection) -> None:
        this = sa.select(ITEM).where(ITEM.c.id == item)
        found = connection.execute(this).first()
        if found is None or found.till is None:
            raise TillError("Expected the id of a check taken at a till, read another.")
        held = _hold_open(connection, ledger, found.till)
        found = connection.execute(this).one()  # as it is now that nobody else can put it right
        if done != "returned" and found.amount_cents is None:
            raise TillError("Expected a check recorded with its amount, found one without.")
        corrected = row | {"was": found.taken_as}
        if connection.execute(_CORRECTION, corrected).first() is None:
            return  # this very correction was made before
        try:
            connection.execute(_CORRECT, row)
        except sa.exc.IntegrityError as error:
            raise TillError("Expected a check that nobody else has taken, found it taken elsewhere.") from error
        entry = chain.Entry("correction", row["id"], found.till, row["at"], corrected)
        chain.add(connection, ledger.tokens, held, entry)

    ledger.database.write(work)


def count(ledger: Ledger, till: str, counted: Sequence[Line] | Total, *, at: datetime | None = None) -> Total:
    """Write down what was counted in the drawer: a list of checks, or only their number and total; give the total.

    A second count replaces the first. ``at`` is the moment of the count, where it is known. Raises :class:`TillError`
    for a closed till or a number below zero.
    """
    lines = [] if isinstance(counted, Total) else counted
    total = counted if isinstance(counted, Total) else Total(len(lines), sum(line.amount_cents for line in lines))
    if min(*total, *(line.amount_cents for line in lines)) < 0:
        raise TillError("Expected counts and amounts of zero or more, read one below zero.")
    rows: list[dict[str, Any]] = [
        {"till": till, "line": number, "serial": kept_serial(line.serial), "amount_cents": line.amount_cents}
        for number, line in enumerate(lines, 1)
    ]

    def work(connection: sa.Connection) -> None:
        held = _hold_open(connection, ledger, till)
        connection.execute(_FORGET_COUNT, {"till": till})
        if rows:
            connection.execute(_COUNT_LINE, rows)
        after = connection.execute(_TAKEN, {"till": till}).scalar_one()
        row = {"id": till, "counted_checks": total.checks, "counted_cents": total.cents, "counted_after": after}
        connection.execute(_COUNT, row)
        listed = [(row["line"], row["serial"], row["amount_cents"]) for row in rows]
        entry = chain.Entry("count", till, till, at.isoformat() if at else None, row, listed)
        chain.add(connection, ledger.tokens, held, entry)

    ledger.database.write(work)
    return total


def close(ledger: Ledger, till: str, *, by: str, at: datetime) -> Report:
    """Close a counted till, whether or not it agrees; the report says why it does not.

    Raises :class:`TillError` before the count, when checks were taken after it, and for a till that is closed.
    """
    closing = {"id": till, "closed_at": at.isoformat(), "closed_by": _initials(by, "who closes the till")}

    def work(connection: sa.Connection) -> None:
        held, row = _hold(connection, ledger, till)
        if (row.closed_at, row.closed_by) == (closing["closed_at"], closing["closed_by"]):
            return  # this very close was made before
        if row.closed_at is not None:
            raise TillError("Expected an open till, found it closed.")
        if row.counted_checks is None:
            raise TillError("Expected the drawer to be counted before the till is closed.")
        since = connection.execute(_TAKEN, {"till": till}).scalar_one() - row.counted_after
        if since:
            raise TillError(f"Expected a count after the last check, found {since} taken since; count again.")
        connection.execute(_CLOSE, closing)
        entry = chain.Entry("close", till, till, closing["closed_at"], closing)
        chain.add(connection, ledger.tokens, held, entry)

    ledger.database.write(work)
    return report(ledger, till)


def _hold(connection: sa.Connection, ledger: Ledger, till: str) -> tuple[chain.Chain, Any]:
    """The end of the till's chain, which only one transaction at a time can hold, and the till as it is then."""
    asked = {"till": till}
    row = connection.execute(_THIS, asked).first()
    if row is None:
        raise TillError("Expected the id of a till, read another.")
    name = row.chain or chain.name(ledger.tokens, ledger.origin, row.store, row.lane)
    held = chain.hold(connection, ledger.tokens, name, row.store, row.lane)
    return held, connection.execute(_THIS, asked).one()


def _hold_open(connection: sa.Connection, ledger: Ledger, till: str) -> chain.Chain:
    held, row = _hold(connection, ledger, till)
    if row.closed_at is not None:
        raise TillError("Expected an open till, found it closed.")
    return held


def _new() -> str:
    return uuid.uuid4().hex


def _initials(text: str, whose: str) -> str:
    initials = _plain(text, whose)
    if not 1 <= len(initials) <= 20:
        raise TillError(f"Expected 1 to 20 characters for {whose}, read {len(initials)}.")
    return initials


def _plain(text: str, what: str) -> str:
    """*text* with single blanks. Raises :class:`TillError` for more digits than initials, a lane or a store have."""
    digits = sum(map(str.isdigit, text))
    if digits > _MOST_DIGITS:
        raise TillError(f"Expected at most {_MOST_DIGITS} digits for {what}, read {digits}.")
    return " ".join(text.split())


def _override(override: Override | None, employee: str, what: str) -> Override:
    if override is None or not override.reason.strip():
        raise TillError(f"Expected a reason and second initials for {what}, read none.")
    second = _initials(override.by, "the second person")
    if second.casefold() == employee.casefold():
        raise TillError(f"Expected the initials of a second person for {what}, read the clerk's own.")
    return Override(hide(" ".join(override.reason.split()), "reason")[:200], second)
