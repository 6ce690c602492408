"""The house list of accounts with unpaid checks: added by hand or from a file of returns, cleared when paid.

A file of returns is CSV in UTF-8 with the headings ``routing`` and ``account``, and where known ``serial``,
``amount`` (dollars), ``returned_on`` (a date) and ``reason``; other columns are passed over. A line that cannot be
used is reported and the rest goes on. Importing a file twice changes nothing, and lists no account again that was
cleared since.
"""

from __future__ import annotations

import uuid
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date
from typing import Any, Final, NamedTuple

import sqlalchemy as sa

from checkface import dates, routing
from checkface.digits import hide, own
from checkface.ledger import columns
from checkface.ledger.agreement import Checked
from checkface.ledger.columns import BadLine
from checkface.ledger.entries import stored
from checkface.ledger.errors import LedgerError
from checkface.ledger.keys import kept_serial, last_four, plain
from checkface.ledger.store import Ledger
from checkface.span import Fault

#: Headings of a file of returns; the first two are required.
COLUMNS: Final = ("routing", "account", "serial", "amount", "returned_on", "reason")
_MOST_REASON = 80

_ADD = sa.text("""
    INSERT INTO unpaid (id, account_token, account_last4, listed_on, serial, amount_cents, reason)
    VALUES (:id, :account_token, :account_last4, :listed_on, :serial, :amount_cents, :reason)
    ON CONFLICT (account_token, listed_on, serial, reason) DO UPDATE SET cleared_on = NULL, cleared_by = NULL""")
_IMPORT = sa.text("""
    INSERT INTO unpaid (id, account_token, account_last4, listed_on, serial, amount_cents, reason)
    VALUES (:id, :account_token, :account_last4, :listed_on, :serial, :amount_cents, :reason)
    ON CONFLICT DO NOTHING RETURNING id""")
_CLEAR = sa.text("""
    UPDATE unpaid SET cleared_on = :on, cleared_by = :by WHERE account_token = :account AND cleared_on IS NULL""")
_SHOW = sa.text("""
    SELECT account_last4, listed_on, serial, amount_cents, reason, cleared_on, cleared_by FROM unpaid
    WHERE :all = 1 OR cleared_on IS NULL ORDER BY listed_on, account_last4, id""")


@dataclass(frozen=True, slots=True)
class Return:
    """One check that came back unpaid. The account never shows in ``repr``."""

    routing: str
    account: str = field(repr=False)
    on: date
    serial: str = ""
    amount_cents: int | None = None
    reason: str = ""


class Listed(NamedTuple):
    """One entry of the house list, masked."""

    account_last4: str
    listed_on: date
    serial: str
    amount_cents: int | None
    reason: str
    cleared_on: date | None
    cleared_by: str | None


class Imported(NamedTuple):
    """What became of a file: entries ``added``, entries the ledger ``knew`` already, and lines left out.

    ``checked``: after an export was imported, whether all that is here now agrees with its seals.
    """

    added: int
    known: int
    bad: tuple[BadLine, ...]
    checked: Checked | None = None


def add(ledger: Ledger, unpaid: Return) -> None:
    """Put the account of *unpaid* on the house list. Raises :class:`LedgerError` when a number is missing."""
    row = _row(ledger, unpaid)
    ledger.database.write(lambda connection: connection.execute(_ADD, row))


def clear(ledger: Ledger, routing: str, account: str, *, on: date, by: str) -> int:
    """Take the account off the house list; how many entries that cleared. They remain as history until purged."""
    asked = {"account": ledger.tokens.account(routing, account), "on": on.isoformat(), "by": hide(by, "counter")}
    return ledger.database.write(lambda connection: connection.execute(_CLEAR, asked).rowcount)


def show(ledger: Ledger, *, cleared: bool = False) -> tuple[Listed, ...]:
    """The house list, oldest first; with *cleared* the entries cleared since as well."""
    rows = ledger.database.read(lambda connection: connection.execute(_SHOW, {"all": int(cleared)}).all())
    return tuple(
        Listed(
            row.account_last4,
            stored(date.fromisoformat, row.listed_on),
            row.serial,
            row.amount_cents,
            row.reason,
            stored(date.fromisoformat, row.cleared_on) if row.cleared_on else None,
            row.cleared_by,
        )
        for row in rows
    )


def import_returns(ledger: Ledger, lines: Iterable[str], *, on: date) -> Imported:
    """List the accounts of a CSV file of returns. *on* is today, the date of lines without one.

    All usable lines are listed in one transaction. Raises :class:`LedgerError` for a file without the required
    headings.
    """
    return list_returns(ledger, read_returns(lines, on=on))


def list_returns(ledger: Ledger, returns: Iterable[Return | BadLine]) -> Imported:
    """List the accounts of returns from whatever source; what could not be read is passed on."""
    rows: list[dict[str, Any]] = []
    bad: list[BadLine] = []
    for entry in returns:
        if isinstance(entry, BadLine):
            bad.append(entry)
        else:
            rows.append(_row(ledger, entry))

    def work(connection: sa.Connection) -> int:
        return sum(connection.execute(_IMPORT, row).first() is not None for row in rows)

    added = ledger.database.write(work)
    return Imported(added, len(rows) - added, tuple(bad))


def read_returns(lines: Iterable[str], *, on: date) -> Iterator[Return | BadLine]:
    """The returns in the lines of a CSV file."""
    for cells in columns.read(lines, COLUMNS[:2]):
        yield cells if isinstance(cells, BadLine) else _read_return(cells.line, cells.values, on)


def _read_return(number: int, cells: dict[str, str], on: date) -> Return | BadLine:
    bank = routing.read(cells.get("routing", ""))
    if isinstance(bank, Fault):
        return BadLine(number, f"routing: {bank.message}")
    account = cells.get("account", "")
    if wrong := _wrong(account):
        return BadLine(number, f"account: {wrong}")
    amount = cells.get("amount", "")
    cents = columns.cents(amount)
    if amount and cents is None:
        return BadLine(number, "amount: Expected dollars such as 45.10, read something else.")
    returned = on
    if cells.get("returned_on"):
        day = dates.read(cells["returned_on"], on)
        if isinstance(day, Fault) or day.date is None:
            return BadLine(number, "returned_on: Expected a date such as 2026-11-24, read something else.")
        returned = day.date
    return Return(bank.number, account, returned, cells.get("serial", ""), cents, cells.get("reason", ""))


def _wrong(account: str) -> str | None:
    number = plain(account)
    if 1 <= len(number) <= 19 and any(map(str.isdigit, number)):
        return None
    return f"Expected an account of 1 to 19 digits, read {len(number)} characters."


def _row(ledger: Ledger, unpaid: Return) -> dict[str, Any]:
    token = ledger.tokens.account(unpaid.routing, unpaid.account)
    if wrong := _wrong(unpaid.account):
        raise LedgerError(wrong)
    if token is None:
        raise LedgerError("Expected the routing number of the account, read none.")
    return {
        "id": uuid.uuid4().hex,
        "account_token": token,
        "account_last4": last_four(unpaid.account),
        "listed_on": unpaid.on.isoformat(),
        "serial": kept_serial(unpaid.serial, own(unpaid.account)),
        "amount_cents": unpaid.amount_cents,
        "reason": hide(" ".join(unpaid.reason.split()), "reason")[:_MOST_REASON],
    }
