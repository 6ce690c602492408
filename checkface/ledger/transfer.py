"""Take a ledger along, bring it back, and forget what is old.

An export is JSON Lines: a head that names the schema version and the key check, then one line a row, tokens in
hexadecimal. It holds no number that the ledger does not hold, and is of use only under the same key.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from datetime import date, datetime
from itertools import islice
from typing import Any, Final, NamedTuple, TextIO

import sqlalchemy as sa

from checkface.ledger.columns import BadLine
from checkface.ledger.errors import LedgerError
from checkface.ledger.schema import MIGRATIONS
from checkface.ledger.store import Ledger
from checkface.ledger.unpaid import Imported

#: Every table with its columns, those that tell rows apart first; parents before what refers to them.
TABLES: Final[dict[str, tuple[int, tuple[str, ...]]]] = {
    "till": (1, ("id", "store", "lane", "day", "opened_at", "opened_by", "counted_checks", "counted_cents",
        "counted_after", "closed_at", "closed_by")),
    "counted": (2, ("till", "line", "serial", "amount_cents")),
    "item": (1, ("id", "till", "item_token", "account_token", "account_last4", "serial", "amount_cents", "day", "at",
        "employee", "drawer", "disposition", "taken_as", "override_reason", "override_by")),
    "correction": (1, ("id", "item", "at", "was", "became", "reason", "employee", "second")),
    "shown": (2, ("document_token", "account_token", "document_last4", "last_day")),
    "unpaid": (1, ("id", "account_token", "account_last4", "listed_on", "serial", "amount_cents", "reason",
        "cleared_on", "cleared_by")),
}  # fmt: skip
_CHUNK = 1000


class Purged(NamedTuple):
    """How many rows were forgotten."""

    items: int
    tills: int
    documents: int
    unpaid: int


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

    All in one transaction. Raises :class:`LedgerError` for something that is no export, an export of another schema
    version, or one made under another key.
    """
    given = iter(lines)
    _check_head(ledger, next(given, ""))
    rows = list(_rows(given))
    bad = [row for row in rows if isinstance(row, BadLine)]
    good = [row for row in rows if not isinstance(row, BadLine)]

    def work(connection: sa.Connection) -> Imported:
        added, refused = 0, list(bad)
        for name in TABLES:
            waiting = iter([row for row in good if row.table == name])
            while chunk := list(islice(waiting, _CHUNK)):
                count, more = _insert(connection, name, chunk)
                added += count
                refused += more
        return Imported(added, len(rows) - added - len(refused), tuple(sorted(refused)))

    return ledger.database.write(work)


def purge(ledger: Ledger, before: date) -> Purged:
    """Forget what is older than *before*: whole closed tills, checks taken without a till, documents, cleared entries.

    An open till, and an account still on the house list, are never forgotten.
    """
    day = {"day": before.isoformat()}
    old_tills = "SELECT id FROM till WHERE day < :day AND closed_at IS NOT NULL"

    def work(connection: sa.Connection) -> Purged:
        def forget(statement: str) -> int:
            return connection.execute(sa.text(f"DELETE FROM {statement}"), day).rowcount  # noqa: S608

        return Purged(
            items=forget(f"item WHERE (till IS NULL AND day < :day) OR till IN ({old_tills})"),
            tills=forget(f"till WHERE id IN ({old_tills})"),
            documents=forget("shown WHERE last_day < :day"),
            unpaid=forget("unpaid WHERE cleared_on < :day"),
        )

    purged = ledger.database.write(work)
    ledger.database.empty_log()
    return purged


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
    if column.endswith("_token"):
        return bytes.fromhex(str(value))
    if column in {"day", "last_day", "listed_on", "cleared_on"}:
        date.fromisoformat(str(value))
    elif column in {"at", "opened_at", "closed_at"}:
        datetime.fromisoformat(str(value))
    return value


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
