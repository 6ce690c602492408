"""The tables of a ledger and how an older ledger becomes a newer one.

Version *n* is what the first *n* entries of :data:`MIGRATIONS` make. An entry is never changed once released; a
new version is a new entry. Days are ISO dates and moments ISO date-times, both as text; amounts are cents.
"""

from __future__ import annotations

from typing import Final

import sqlalchemy as sa

from checkface.ledger import chain
from checkface.ledger.database import Database
from checkface.ledger.errors import LedgerError
from checkface.ledger.keys import Tokens

_FIRST = (
    """CREATE TABLE ledger (
        one INTEGER PRIMARY KEY CHECK (one = 1),
        schema_version INTEGER NOT NULL CHECK (schema_version > 0),
        key_check TEXT NOT NULL CHECK (length(key_check) = 64)
    ){strict}""",
    """CREATE TABLE till (
        id TEXT PRIMARY KEY,
        store TEXT NOT NULL,
        lane TEXT NOT NULL,
        day TEXT NOT NULL CHECK (length(day) = 10),
        opened_at TEXT NOT NULL,
        opened_by TEXT NOT NULL,
        counted_checks INTEGER CHECK (counted_checks >= 0),
        counted_cents {integer} CHECK (counted_cents >= 0),
        counted_after INTEGER,
        closed_at TEXT,
        closed_by TEXT,
        CHECK ((counted_checks IS NULL) = (counted_cents IS NULL)),
        CHECK ((counted_checks IS NULL) = (counted_after IS NULL)),
        CHECK ((closed_at IS NULL) = (closed_by IS NULL)),
        CHECK (closed_at IS NULL OR counted_checks IS NOT NULL)
    ){strict}""",
    # One open till a lane.
    "CREATE UNIQUE INDEX till_open ON till (store, lane) WHERE closed_at IS NULL",
    """CREATE TABLE counted (
        till TEXT NOT NULL REFERENCES till (id) ON DELETE CASCADE,
        line INTEGER NOT NULL,
        serial TEXT NOT NULL,
        amount_cents {integer} NOT NULL CHECK (amount_cents >= 0),
        PRIMARY KEY (till, line)
    ){strict}""",
    """CREATE TABLE item (
        id TEXT PRIMARY KEY,
        till TEXT REFERENCES till (id),
        item_token {bytes} CHECK (length(item_token) = 32),
        account_token {bytes} CHECK (length(account_token) = 32),
        account_last4 TEXT NOT NULL CHECK (length(account_last4) <= 4),
        serial TEXT NOT NULL,
        amount_cents {integer} CHECK (amount_cents >= 0),
        day TEXT NOT NULL CHECK (length(day) = 10),
        at TEXT NOT NULL,
        employee TEXT NOT NULL,
        drawer TEXT NOT NULL,
        disposition TEXT NOT NULL CHECK (disposition IN ('convert', 'keep', 'refer', 'decline')),
        taken_as TEXT NOT NULL CHECK (taken_as IN ('converted', 'kept', 'returned')),
        override_reason TEXT,
        override_by TEXT,
        CHECK (item_token IS NULL OR account_token IS NOT NULL),
        CHECK (taken_as = 'returned' OR amount_cents IS NOT NULL),
        CHECK ((override_reason IS NULL) = (override_by IS NULL))
    ){strict}""",
    # The promise of the whole ledger: one check is taken once, whoever else is taking it at this instant.
    "CREATE UNIQUE INDEX item_taken ON item (item_token) WHERE taken_as <> 'returned'",
    "CREATE INDEX item_returned ON item (item_token) WHERE taken_as = 'returned'",
    "CREATE INDEX item_account ON item (account_token, day)",
    "CREATE INDEX item_till ON item (till)",
    """CREATE TABLE correction (
        id TEXT PRIMARY KEY,
        item TEXT NOT NULL REFERENCES item (id) ON DELETE CASCADE,
        at TEXT NOT NULL,
        was TEXT NOT NULL CHECK (was IN ('converted', 'kept', 'returned')),
        became TEXT NOT NULL CHECK (became IN ('converted', 'kept', 'returned')),
        reason TEXT NOT NULL CHECK (length(reason) > 0),
        employee TEXT NOT NULL,
        second TEXT NOT NULL
    ){strict}""",
    "CREATE INDEX correction_item ON correction (item)",
    """CREATE TABLE shown (
        document_token {bytes} NOT NULL CHECK (length(document_token) = 32),
        account_token {bytes} NOT NULL CHECK (length(account_token) = 32),
        document_last4 TEXT NOT NULL CHECK (length(document_last4) <= 4),
        last_day TEXT NOT NULL CHECK (length(last_day) = 10),
        PRIMARY KEY (document_token, account_token)
    ){strict}""",
    """CREATE TABLE unpaid (
        id TEXT PRIMARY KEY,
        account_token {bytes} NOT NULL CHECK (length(account_token) = 32),
        account_last4 TEXT NOT NULL CHECK (length(account_last4) <= 4),
        listed_on TEXT NOT NULL CHECK (length(listed_on) = 10),
        serial TEXT NOT NULL,
        amount_cents {integer} CHECK (amount_cents >= 0),
        reason TEXT NOT NULL,
        cleared_on TEXT CHECK (length(cleared_on) = 10),
        cleared_by TEXT,
        CHECK ((cleared_on IS NULL) = (cleared_by IS NULL)),
        UNIQUE (account_token, listed_on, serial, reason)
    ){strict}""",
)

#: Sealed entries (:mod:`checkface.ledger.chain`). What stood before is sealed as it is found, and told as such.
_SEALED = (
    """CREATE TABLE chain (
        id TEXT PRIMARY KEY,
        store TEXT,
        lane TEXT,
        unsealed INTEGER NOT NULL CHECK (unsealed >= 0),
        entries INTEGER NOT NULL CHECK (entries >= unsealed),
        seal {bytes} NOT NULL CHECK (length(seal) = 32),
        head {bytes} NOT NULL CHECK (length(head) = 32),
        CHECK ((store IS NULL) = (lane IS NULL))
    ){strict}""",
    """CREATE TABLE entry (
        chain TEXT NOT NULL REFERENCES chain (id),
        number INTEGER NOT NULL CHECK (number > 0),
        till TEXT,
        what TEXT NOT NULL CHECK (what IN ('open', 'item', 'correction', 'count', 'close', 'altered')),
        ref TEXT NOT NULL,
        at TEXT,
        body {bytes} NOT NULL CHECK (length(body) = 32),
        seal {bytes} NOT NULL CHECK (length(seal) = 32),
        PRIMARY KEY (chain, number)
    ){strict}""",
    "CREATE INDEX entry_till ON entry (till, number)",
    """CREATE TABLE gap (
        chain TEXT NOT NULL REFERENCES chain (id),
        first INTEGER NOT NULL CHECK (first > 0),
        last INTEGER NOT NULL CHECK (last >= first),
        seal_before {bytes} NOT NULL CHECK (length(seal_before) = 32),
        seal_after {bytes} NOT NULL CHECK (length(seal_after) = 32),
        purged_before TEXT NOT NULL CHECK (length(purged_before) = 10),
        seal {bytes} NOT NULL CHECK (length(seal) = 32),
        PRIMARY KEY (chain, first)
    ){strict}""",
    # Rules whose question the clerk answered with yes, blanks between them.
    "ALTER TABLE item ADD COLUMN confirmed TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE till ADD COLUMN chain TEXT REFERENCES chain (id)",
    "ALTER TABLE till ADD COLUMN first_entry INTEGER CHECK (first_entry > 0)",
    "CREATE INDEX till_lane ON till (store, lane)",
    "ALTER TABLE ledger ADD COLUMN origin TEXT",
    "ALTER TABLE ledger ADD COLUMN chains INTEGER",
    "ALTER TABLE ledger ADD COLUMN chains_seal {bytes}",
)

MIGRATIONS: tuple[tuple[str, ...], ...] = (_FIRST, _SEALED)

#: The version whose entries are sealed.
_SEALED_SINCE: Final = 2

_ORIGIN = sa.text("SELECT origin FROM ledger")
_WORDS: Final = {
    True: {"strict": " STRICT", "integer": "INTEGER", "bytes": "BLOB"},
    False: {"strict": "", "integer": "BIGINT", "bytes": "BYTEA"},
}
#: Any fixed number: PostgreSQL lets one process at a time past it.
_LOCK = 0x636865636B


def key_check(database: Database) -> str | None:
    """The key check value of the ledger in *database*, ``None`` when it is still empty. Raises :class:`LedgerError`."""
    state = database.read(lambda connection: _state(connection, database.place))
    return state[1] if state else None


def upgrade(database: Database, tokens: Tokens) -> str:
    """Bring *database* to the present version under the key of *tokens*; its origin. Raises :class:`LedgerError`."""
    check = tokens.check()
    state = database.read(lambda connection: _state(connection, database.place))
    if state is None or state[0] < len(MIGRATIONS):
        state = database.write(lambda connection: _migrate(connection, database, tokens))
    if state[1] != check:
        raise LedgerError(f"Ledger {database.place}: expected the key it was made with, read another one.")
    return database.read(lambda connection: str(connection.execute(_ORIGIN).scalar_one()))


def _state(connection: sa.Connection, place: str) -> tuple[int, str] | None:
    tables = set(sa.inspect(connection).get_table_names())
    if not tables:
        return None
    if not {"ledger", "item", "till"} <= tables:
        raise LedgerError(f"Ledger {place}: expected a checkface ledger, found a database of something else.")
    row = connection.execute(sa.text("SELECT schema_version, key_check FROM ledger")).one()
    if row.schema_version > len(MIGRATIONS):
        raise LedgerError(
            f"Ledger {place}: expected schema version {len(MIGRATIONS)} or lower, found {row.schema_version}; "
            "it was written by a newer checkface. Update checkface to use it."
        )
    return row.schema_version, row.key_check


def _migrate(connection: sa.Connection, database: Database, tokens: Tokens) -> tuple[int, str]:
    check = tokens.check()
    if not database.is_sqlite:
        connection.execute(sa.text("SELECT pg_advisory_xact_lock(:lock)"), {"lock": _LOCK})
    version, known = _state(connection, database.place) or (0, check)
    if known != check:
        return version, known  # a wrong key changes nothing
    for statements in MIGRATIONS[version:]:
        for statement in statements:
            connection.exec_driver_sql(statement.format_map(_WORDS[database.is_sqlite]))
    connection.execute(
        sa.text(
            "INSERT INTO ledger (one, schema_version, key_check) VALUES (1, :version, :check) "
            "ON CONFLICT (one) DO UPDATE SET schema_version = excluded.schema_version"
        ),
        {"version": len(MIGRATIONS), "check": check},
    )
    if version < _SEALED_SINCE:
        chain.adopt(connection, tokens)
    return len(MIGRATIONS), check
