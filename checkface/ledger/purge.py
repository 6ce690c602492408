"""Forget what is old, and leave in each lane a signed gap that says so.

A till that no longer agrees with its seals is evidence and stays; who wants it gone must decide that elsewhere.
"""

from __future__ import annotations

from collections import defaultdict
from datetime import date
from typing import Any, NamedTuple

import sqlalchemy as sa

from checkface.ledger import agreement, chain
from checkface.ledger.keys import Tokens
from checkface.ledger.store import Ledger

_OLD_TILLS = sa.text("SELECT id FROM till WHERE day < :day AND closed_at IS NOT NULL ORDER BY chain, first_entry")
_LOOSE = sa.text("""
    SELECT e.chain, e.number, e.ref FROM entry AS e JOIN item ON item.id = e.ref
    WHERE e.till IS NULL AND e.what = 'item' AND item.till IS NULL AND item.day < :day""")
_NUMBERS = sa.text("SELECT chain, number FROM entry WHERE till = :till")
_SEAL = sa.text("SELECT seal FROM entry WHERE chain = :chain AND number = :number")
_ENDING = sa.text("SELECT * FROM gap WHERE chain = :chain AND last = :number")
_STARTING = sa.text("SELECT * FROM gap WHERE chain = :chain AND first = :number")
_FORGET_GAP = sa.text("DELETE FROM gap WHERE chain = :chain AND first = :first")
_GAP = sa.text("""
    INSERT INTO gap (chain, first, last, seal_before, seal_after, purged_before, seal)
    VALUES (:chain, :first, :last, :seal_before, :seal_after, :purged_before, :seal)""")
_FORGET_ENTRIES = sa.text("DELETE FROM entry WHERE chain = :chain AND number BETWEEN :first AND :last")
_FORGET_ITEM = sa.text("DELETE FROM item WHERE id = :id")
_FORGET_ITEMS = sa.text("DELETE FROM item WHERE till = :till")
_FORGET_TILL = sa.text("DELETE FROM till WHERE id = :till")
_FORGET_SHOWN = sa.text("DELETE FROM shown WHERE last_day < :day")
_FORGET_UNPAID = sa.text("DELETE FROM unpaid WHERE cleared_on < :day")


class Purged(NamedTuple):
    """How many rows were forgotten; ``altered``: tills that no longer agree and therefore stay."""

    items: int
    tills: int
    documents: int
    unpaid: int
    altered: int = 0


def purge(ledger: Ledger, before: date) -> Purged:
    """Forget what is older than *before*: whole closed tills, checks taken without a till, documents, cleared entries.

    An open till, an account still on the house list, and what does not agree with its seals are never forgotten.
    """
    day = {"day": before.isoformat()}

    def work(connection: sa.Connection) -> Purged:
        numbers: defaultdict[str, list[int]] = defaultdict(list)
        items = tills = altered = 0
        for (till,) in connection.execute(_OLD_TILLS, day).all():
            if agreement.of_till(connection, ledger.tokens, till).breaks:
                altered += 1
                continue
            for name, number in connection.execute(_NUMBERS, {"till": till}):
                numbers[name].append(number)
            items += connection.execute(_FORGET_ITEMS, {"till": till}).rowcount
            tills += connection.execute(_FORGET_TILL, {"till": till}).rowcount
        loose = connection.execute(_LOOSE, day).all()
        if loose and not agreement.of_loose(connection, ledger.tokens):
            for name, number, _ in loose:
                numbers[name].append(number)
            items += connection.execute(_FORGET_ITEM, [{"id": row.ref} for row in loose]).rowcount
        elif loose:
            altered += 1
        for name, gone in numbers.items():
            for first, last in _runs(sorted(gone)):
                _leave_gap(connection, ledger.tokens, name, first, last, day["day"])
        documents = connection.execute(_FORGET_SHOWN, day).rowcount
        return Purged(items, tills, documents, connection.execute(_FORGET_UNPAID, day).rowcount, altered)

    purged = ledger.database.write(work)
    ledger.database.empty_log()
    return purged


def _runs(numbers: list[int]) -> list[tuple[int, int]]:
    """The runs of *numbers*, in order, that follow one another without a gap."""
    found: list[tuple[int, int]] = []
    for number in numbers:
        if found and found[-1][1] == number - 1:
            found[-1] = found[-1][0], number
        else:
            found.append((number, number))
    return found


def _leave_gap(connection: sa.Connection, tokens: Tokens, name: str, first: int, last: int, day: str) -> None:
    """Take the entries out and sign that they were purged, as one gap with those beside it."""
    before = connection.execute(_SEAL, {"chain": name, "number": first - 1}).scalar()
    after = connection.execute(_SEAL, {"chain": name, "number": last}).scalar_one()
    connection.execute(_FORGET_ENTRIES, {"chain": name, "first": first, "last": last})
    row: dict[str, Any] = {"chain": name, "first": first, "last": last, "purged_before": day, "seal_after": after}
    row["seal_before"] = before or chain.start(tokens, name)
    earlier = connection.execute(_ENDING, {"chain": name, "number": first - 1}).mappings().first()
    later = connection.execute(_STARTING, {"chain": name, "number": last + 1}).mappings().first()
    if earlier is not None:
        row |= {"first": earlier["first"], "seal_before": earlier["seal_before"]}
    if later is not None:
        row |= {"last": later["last"], "seal_after": later["seal_after"]}
    for beside in filter(None, (earlier, later)):
        connection.execute(_FORGET_GAP, dict(beside))
    connection.execute(_GAP, row | {"seal": chain.gap(tokens, row)})
