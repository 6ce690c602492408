"""One clear sentence for everything that can go wrong with a ledger.

No message quotes a statement, a parameter or a password; whoever reads it learns what happened, whether anything was
recorded, and what to do.
"""

from __future__ import annotations

import sqlite3
from typing import Final

import sqlalchemy as sa

from checkface.rules.history import HistoryError


class LedgerError(HistoryError):
    """The ledger could not be used. ``retry``: nothing is wrong with the entry, and the same call is safe to repeat."""

    def __init__(self, message: str, *, retry: bool = False) -> None:
        super().__init__(message)
        self.retry = retry


class TillError(LedgerError):
    """Something was asked of a till that it cannot do. Nothing was recorded."""


#: SQLSTATEs after which PostgreSQL itself asks for the transaction to be run again.
_RUN_AGAIN: Final = frozenset({"40001", "40P01"})

_FULL = ("the disk is full; nothing was recorded. Make room, then repeat the entry", True)
_READ_ONLY = ("it is read-only; nothing was recorded. Allow writing to the file and its folder", False)
_DENIED = ("access is denied; nothing was recorded. Check the permissions", False)
_LOCKED = ("another program holds it locked; nothing was recorded. Repeat the entry", True)
_DAMAGED = ("the file is damaged; nothing was recorded. Restore a copy or import an export", False)
_GONE = ("the server cannot be reached. Repeat the entry when it is back: no entry is recorded twice", True)

_REFUSED = (
    "the server refused the connection; check the database, the user and the password, or wait until it has started",
    True,
)

_SQLITE: Final = {
    sqlite3.SQLITE_FULL: _FULL,
    sqlite3.SQLITE_READONLY: _READ_ONLY,
    sqlite3.SQLITE_PERM: _DENIED,
    sqlite3.SQLITE_AUTH: _DENIED,
    sqlite3.SQLITE_BUSY: _LOCKED,
    sqlite3.SQLITE_LOCKED: _LOCKED,
    sqlite3.SQLITE_CORRUPT: _DAMAGED,
    sqlite3.SQLITE_NOTADB: ("the file is not a database; it was left untouched", False),
    sqlite3.SQLITE_CANTOPEN: ("the file cannot be opened; check that the folder exists and may be written", False),
    sqlite3.SQLITE_IOERR: ("the disk reported an error; nothing was recorded", True),
}
_POSTGRESQL: Final = {
    "53100": _FULL,
    "25006": _READ_ONLY,
    "42501": _DENIED,
    "55P03": _LOCKED,
    "40001": ("other lanes kept writing the same entry; nothing was recorded. Repeat the entry", True),
    "40P01": ("other lanes kept writing the same entry; nothing was recorded. Repeat the entry", True),
}


def may_run_again(error: sa.exc.DBAPIError) -> bool:
    """Whether the transaction can be run again at once: a serialization failure, or a connection that broke.

    Every write of the ledger carries its own id, so one that did reach the server is recognised the second time.
    """
    return error.connection_invalidated or _sqlstate(error) in _RUN_AGAIN


def explain(error: sa.exc.DBAPIError, place: str) -> LedgerError:
    """The sentence for *error*; *place* names the ledger without its password."""
    code = getattr(error.orig, "sqlite_errorcode", None)
    if code is not None:
        # The low byte is the primary code; the rest only says where inside SQLite it arose.
        known = _SQLITE.get(code & 0xFF)
    else:
        state = _sqlstate(error)
        if state is None and isinstance(error, sa.exc.OperationalError) and "FATAL" in str(error.orig):
            known = _REFUSED  # the server did answer; the driver passes its reason on as words only
        elif error.connection_invalidated or (state is None and isinstance(error, sa.exc.OperationalError)):
            known = _GONE
        else:
            known = _POSTGRESQL.get(state or "")
    refused = f"the database refused the entry ({type(error.orig).__name__}); nothing was recorded"
    words, retry = known or (refused, False)
    return LedgerError(f"Ledger {place}: {words}.", retry=retry)


def _sqlstate(error: sa.exc.DBAPIError) -> str | None:
    state = getattr(error.orig, "sqlstate", None)
    return state if isinstance(state, str) else None
