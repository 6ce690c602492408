"""One connection discipline for both databases: short transactions, run again when that is safe.

SQLite: one file in WAL mode, every commit on disk before it is confirmed (unless told otherwise), a writer takes its
lock at once so that it never has to give up half way. PostgreSQL: read committed, since uniqueness is the index's
business.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path
from typing import Any, Final, TypeVar

import sqlalchemy as sa

from checkface import files
from checkface.ledger.errors import LedgerError, explain, may_run_again

T = TypeVar("T")

#: Seconds to wait before a transaction is run again.
_PAUSES: Final = (0.02, 0.1, 0.5)


class Database:
    """A SQLite file or a PostgreSQL server. ``file`` is the SQLite file, else ``None``.

    ``was_open`` is the mode of a file that others could use until it was opened here, else ``None``.
    """

    def __init__(self, where: str | Path, wait_seconds: float, durable: bool) -> None:
        self.url = _url(where)
        self.file = _file(self.url)
        named = self.url.set(drivername=self.url.get_backend_name(), query={})
        self.place = str(self.file) if self.file else named.render_as_string(hide_password=True)
        self.was_open: int | None = None
        self._reader: sa.Engine
        self._writer: sa.Engine
        if self.file:
            if not self.url.query:
                self.was_open = _private(self.file)
            # A single SELECT of SQLite needs no transaction; see _sqlite for what begins one.
            self._reader = _sqlite(self.url, wait_seconds, durable)
            self._snapshot = self._reader.execution_options(begin="BEGIN")
            self._writer = self._reader.execution_options(begin="BEGIN IMMEDIATE")
        else:
            self._writer = _postgresql(self.url, wait_seconds, durable)
            self._reader = self._writer.execution_options(isolation_level="AUTOCOMMIT")
            self._snapshot = self._writer.execution_options(isolation_level="REPEATABLE READ")

    def __repr__(self) -> str:
        return f"Database({self.place!r})"

    @property
    def is_sqlite(self) -> bool:
        """Whether this is the one-file ledger."""
        return self.file is not None

    def read(self, work: Callable[[sa.Connection], T], *, snapshot: bool = False, again: bool = True) -> T:
        """What *work* reads; with ``snapshot`` all of it as of one moment. Raises :class:`LedgerError`.

        ``again=False`` for work that must not be repeated when the connection breaks, since it has written elsewhere.
        """
        return self._run(self._snapshot if snapshot else self._reader, work, _PAUSES if again else ())

    def write(self, work: Callable[[sa.Connection], T]) -> T:
        """What *work* returns, after all it wrote is safe on disk; else nothing of it is. Raises :class:`LedgerError`.

        *work* may be called again, so it must do the same the second time and carry the ids of what it writes.
        """
        return self._run(self._writer, work, _PAUSES)

    def empty_log(self) -> None:
        """Fold the write-ahead log of SQLite into the file and empty it, so that nothing deleted lingers there."""
        if self.file:
            self.read(lambda connection: connection.exec_driver_sql("PRAGMA wal_checkpoint(TRUNCATE)").all())

    def close(self) -> None:
        """Let go of every connection."""
        self._writer.dispose()

    def _run(self, engine: sa.Engine, work: Callable[[sa.Connection], T], pauses: tuple[float, ...]) -> T:
        for pause in (*pauses, None):
            try:
                with engine.begin() as connection:
                    return work(connection)
            except sa.exc.DBAPIError as error:
                if pause is None or not may_run_again(error):
                    raise explain(error, self.place) from error
                time.sleep(pause)
        raise AssertionError("the last attempt returns or raises")


def _url(where: str | Path) -> sa.URL:
    text = str(where)
    if "://" not in text:
        return sa.URL.create("sqlite", database=str(Path(text).absolute()))
    try:
        url = sa.make_url(text)
    except (sa.exc.ArgumentError, ValueError):
        raise LedgerError("Expected a file or a URL such as postgresql://host/database, read something else.") from None
    match url.get_backend_name():
        case "sqlite" if url.database:
            return url
        case "postgresql":
            return url.set(drivername="postgresql+psycopg")
    raise LedgerError(f"Expected a sqlite or postgresql ledger, read {url.get_backend_name()!r}.")


def _file(url: sa.URL) -> Path | None:
    if url.get_backend_name() != "sqlite":
        return None
    return Path((url.database or "").removeprefix("file:")).absolute()


def _private(file: Path) -> int | None:
    """Make the file here and not by SQLite, so that only its owner can use it; the log files take over its mode."""
    try:
        return files.make_private(file)
    except OSError as error:
        raise LedgerError(f"Ledger {file}: the file cannot be opened or made ({error.strerror}).") from error


def _sqlite(url: sa.URL, wait_seconds: float, durable: bool) -> sa.Engine:
    engine = sa.create_engine(url, hide_parameters=True, connect_args={"timeout": wait_seconds})

    @sa.event.listens_for(engine, "connect")
    def _prepare(connection: Any, _record: Any) -> None:
        connection.isolation_level = None  # transactions are begun below, not by the driver
        flush = f"synchronous = {'FULL' if durable else 'NORMAL'}"
        for pragma in ("journal_mode = WAL", flush, "foreign_keys = ON", "secure_delete = ON"):
            connection.execute(f"PRAGMA {pragma}")

    @sa.event.listens_for(engine, "begin")
    def _begin(connection: sa.Connection) -> None:
        if begin := connection.get_execution_options().get("begin"):
            connection.exec_driver_sql(begin)

    return engine


def _postgresql(url: sa.URL, wait_seconds: float, durable: bool) -> sa.Engine:
    engine = sa.create_engine(
        url, hide_parameters=True, pool_pre_ping=True, connect_args={"connect_timeout": max(2, round(wait_seconds))}
    )

    @sa.event.listens_for(engine, "connect")
    def _prepare(connection: Any, _record: Any) -> None:
        # A lane that stalls must not hold up the others.
        connection.execute(f"SET lock_timeout = {round(wait_seconds * 1000)}")
        connection.execute("SET idle_in_transaction_session_timeout = '60s'")
        connection.execute(f"SET synchronous_commit = {'on' if durable else 'off'}")
        connection.commit()

    return engine
