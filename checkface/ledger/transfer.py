"""Take a ledger along and bring it back.

An export is JSON Lines: a head that names the schema version and the key check, then one line a row, tokens in
hexadecimal. It holds no number that the ledger does not hold, and is of use only under the same key. It carries the
seals of the entries, and after an import the whole ledger is held against its seals.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from datetime import date, datetime
from itertools import islice
from typing import Any, Final, NamedTuple, TextIO

import sqlalchemy as sa

from checkface.ledger import agreement, chain
from checkface.ledger.columns import BadLine
from checkface.ledger.errors import LedgerError
from checkface.ledger.schema import MIGRATIONS
from checkface.ledger.store import Ledger
from checkface.ledger.unpaid import Imported

#: Every table with its columns, those that tell rows apart first; parents before what refers to them.
TABLES: Final[dict[str, tuple[int, tuple[str, ...]]]] = {
    "chain": (1, ("id", "store", "lane", "unsealed", "entries", "seal", "head")),
    "till": (1, ("id", "store", "lane", "day", "opened_at", "opened_by", "counted_checks", "counted_cents",
        "counted_after", "closed_at", "closed_by", "chain", "first_entry")),
    "counted": (2, ("till", "line", "serial", "amount_cents")),
    "item": (1, ("id", "till", "item_token", "account_token", "account_last4", "serial", "amount_cents", "day", "at",
        "employee", "drawer", "disposition", "taken_as", "override_reason", "override_by", "confirmed")),
    "correction": (1, ("id", "item", "at", "was", "became", "reason", "employee", "second")),
    "entry": (2, ("chain", "number", "till", "what", "ref", "at", "body", "seal")),
    "gap": (2, ("chain", "first", "last", "seal_before", "seal_after", "purged_before", "seal")),
    "shown": (2, ("document_token", "account_token", "document_last4", "last_day")),
    "unpaid": (1, ("id", "account_token", "account_last4", "listed_on", "serial", "amount_cents", "reason",
        "cleared_on", "cleared_by")),
}  # fmt: skip
_CHUNK = 1000
_BYTES = frozenset(
    {"item_token", "account_token", "document_token", "body", "seal", "head", "seal_before", "seal_after"}
)
_LENGTHS = sa.text("SELECT id, entries FROM chain")
#: What a longer chain brings of rows that are here in an earlier state.
_FURTHER: Final = {
    "chain": "UPDATE chain SET entries = :entries, seal = :seal, head = :head WHERE id = :id",
    "till": "UPDATE till SET counted_checks = :counted_checks, counted_cents = :counted_cents,"
    " counted_after = :counted_after, closed_at = :closed_at, closed_by = :closed_by WHERE id = :id",
    "item": "UPDATE item SET taken_as = :taken_as WHERE id = :id",
}


def export(ledger: Ledger, file: TextIO) -> int:
    """Write the whole ledger, as of one moment, to *file*; how many rows that were. Raises :class:`LedgerError`."""
    head = {"checkface_ledger": 1, "schema_version": len(MIGRATIONS), "key_check": ledger.tokens.check()}

    def work(connection: sa.Connection) -> int:
        file.write(json.dumps(head) + "\n")
        rows = 0
        for name, (_, columns) in TABLES.items():
            table = sa.table(name, *map(sa.column, columns))
            for row in connection.execution_options(yield_per=_CHUNK).execute(sa.select(table)):
                values = {c: v.hex() if isinstance(v, bytes) else v for c, v in row._mapping.items()}
                file.write(json.dumps({"table": name, "row": values}, ensure_ascii=False) + "\n")
                rows += 1
        return rows

    return ledger.database.read(work, snapshot=True, again=False)


def import_(ledger: Ledger, lines: Iterable[str]) -> Imported:
    """Add the rows of an export; rows that are there already stay as they are, bad lines are reported and left out.

    A lane that went on since it was last imported goes on here, too. Then every entry is held against its seal. All
    in one transaction. Raises :class:`LedgerError` for something that is no export, an export of another schema
    version, or one made under another key.
    """
    given = iter(lines)
    _check_head(ledger, next(given, ""))
    rows = list(_rows(given))
    bad = [row for row in rows if isinstance(row, BadLine)]
    good = [row for row in rows if not isinstance(row, BadLine)]

    def work(connection: sa.Connection) -> Imported:
        added, refused = 0, list(bad)
        here = {row.id: row.entries for row in connection.execute(_LENGTHS)}
        further = {
            row.values["id"]
            for row in good
            if row.table == "chain" and here.get(row.values["id"], row.values["entries"]) < row.values["entries"]
        }
        for name in TABLES:
            if name == "counted" and further:
                _forget_counts(connection, good, further)
            waiting = iter([row for row in good if row.table == name])
            while chunk := list(islice(waiting, _CHUNK)):
                count, more = _insert(connection, name, chunk)
                added += count
                refused += more
        _go_further(connection, good, further)
        chain.count(connection, ledger.tokens, len(connection.execute(_LENGTHS).all()) - len(here))
        checked = agreement.of_ledger(connection, ledger.tokens)
        return Imported(added, len(rows) - added - len(refused), tuple(sorted(refused)), checked)

    return ledger.database.write(work)


class _Row(NamedTuple):
    line: int
    table: str
    values: dict[str, Any]


def _check_head(ledger: Ledger, line: str) -> None:
    try:
        head = json.loads(line)
        version, check = head["schema_version"], head["key_check"]
    except (ValueError, KeyError, TypeError):
        raise LedgerError("Expected a ledger export with its head on the first line, read something else.") from None
    if version != len(MIGRATIONS):
        raise LedgerError(f"Expected an export of schema version {len(MIGRATIONS)}, read version {version!r:.20}.")
    if check != ledger.tokens.check():
        raise LedgerError("Expected an export made under this ledger's key, read one made under another.")


def _rows(lines: Iterable[str]) -> Iterator[_Row | BadLine]:
    for number, line in enumerate(lines, 2):
        if not line.strip():
            continue
        try:
            record = json.loads(line)
            table, values = record["table"], record["row"]
            columns = TABLES[table][1]
            if set(values) != set(columns):
                raise ValueError("columns")
            yield _Row(number, table, {column: _value(column, values[column]) for column in columns})
        except (ValueError, KeyError, TypeError, AttributeError):
            yield BadLine(number, "Expected one row of a ledger as JSON, read something else.")


def _value(column: str, value: Any) -> str | int | bytes | None:
    if value is None:
        return None
    if isinstance(value, bool) or not isinstance(value, str | int):
        raise TypeError(column)
    if column in _BYTES:
        return bytes.fromhex(str(value))
    if column in {"day", "last_day", "listed_on", "cleared_on"}:
        date.fromisoformat(str(value))
    elif column in {"at", "opened_at", "closed_at"}:
        datetime.fromisoformat(str(value))
    return value


def _forget_counts(connection: sa.Connection, rows: list[_Row], chains: set[Any]) -> None:
    """A later count takes the place of the one that is here."""
    for row in rows:
        if row.table == "till" and row.values["chain"] in chains:
            connection.execute(sa.text("DELETE FROM counted WHERE till = :id"), row.values)


def _go_further(connection: sa.Connection, rows: list[_Row], chains: set[Any]) -> None:
    """Bring what is here of *chains* to the state that goes with their later end."""
    tills = {row.values["id"] for row in rows if row.table == "till" and row.values["chain"] in chains}
    for row in rows:
        values = row.values
        mine = {"chain": values.get("id") in chains, "till": values.get("id") in tills}
        if mine.get(row.table, row.table == "item" and values["till"] in tills):
            connection.execute(sa.text(_FURTHER[row.table]), values)


def _insert(connection: sa.Connection, name: str, rows: list[_Row]) -> tuple[int, list[BadLine]]:
    """How many of *rows* were new, and the ones the ledger refuses. All at once, or one by one if that fails."""
    keys, columns = TABLES[name]
    names, marks = ", ".join(columns), ", ".join(f":{column}" for column in columns)
    same = " AND ".join(f"{column} = :{column}" for column in columns[:keys])
    insert = sa.text(f"INSERT INTO {name} ({names}) VALUES ({marks}) ON CONFLICT DO NOTHING")  # noqa: S608
    there = sa.text(f"SELECT 1 FROM {name} WHERE {same}")  # noqa: S608
    together = connection.begin_nested()
    try:
        if connection.execute(insert, [row.values for row in rows]).rowcount == len(rows):
            together.commit()
            return len(rows), []
    except (sa.exc.IntegrityError, sa.exc.DataError, sa.exc.ProgrammingError):
        pass  # some row is refused; find out which
    together.rollback()
    added, refused = 0, []
    for row in rows:
        try:
            with connection.begin_nested():
                if connection.execute(insert, row.values).rowcount:
                    added += 1
                elif connection.execute(there, row.values).first() is None:
                    refused.append(
                        BadLine(row.line, "Expected a check or till new to this ledger, found another of it.")
                    )
        except (sa.exc.IntegrityError, sa.exc.DataError, sa.exc.ProgrammingError):
            refused.append(BadLine(row.line, f"Expected a row that fits the table {name}, read one that does not."))
    return added, refused
