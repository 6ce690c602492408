"""Every check of an audit, kept small: what can be compared in DuckDB, what must not leave this process in memory.

DuckDB may write what does not fit in memory to a folder of its own, which only this user can read and which is gone at
the end. No account goes there: it is known there by a digest under a key that is made for this one run (BLAKE2b, RFC
7693) and by its length. Routing numbers, check numbers, amounts and days are kept as they are.
"""

from __future__ import annotations

import secrets
from array import array
from collections.abc import Iterable, Sequence
from datetime import date
from hashlib import blake2b
from tempfile import TemporaryDirectory
from types import TracebackType
from typing import Any, Final

from checkface.audit.across.found import Place
from checkface.audit.across.sight import Sight

#: Checks that go to the database together.
BATCH: Final = 8192
#: Column to type; ``n`` is the number of the check in this run.
COLUMNS: Final = {
    "n": "UINTEGER", "routing": "UINTEGER", "account": "UBIGINT", "digits": "UTINYINT", "serial": "VARCHAR",
    "amount": "BIGINT", "day": "INTEGER", "written": "INTEGER", "payee": "UBIGINT", "taken": "VARCHAR",
    "fields": "VARCHAR", "width": "UTINYINT", "padded": "BOOLEAN",
}  # fmt: skip
_INSERT = ", ".join(f"unnest(?::{kind}[])" for kind in COLUMNS.values())
_SETTINGS: Final = {
    "autoinstall_known_extensions": "false", "autoload_known_extensions": "false",
    "allow_community_extensions": "false", "preserve_insertion_order": "false",
}  # fmt: skip


class Index:
    """The checks of one run, to be asked in SQL. Needs the ``audit`` extra: raises ``ImportError`` without it.

    ``memory``: what DuckDB may use before it writes to its folder.
    """

    def __init__(self, memory: str = "1GB") -> None:
        import duckdb

        self._folder = TemporaryDirectory(prefix="checkface-", ignore_cleanup_errors=True)
        self._base = duckdb.connect(config={"temp_directory": self._folder.name, "memory_limit": memory, **_SETTINGS})
        self._base.execute(f"CREATE TABLE item ({', '.join(f'{name} {kind}' for name, kind in COLUMNS.items())})")
        self._key = secrets.token_bytes(32)
        self._waiting: list[tuple[Any, ...]] = []
        self._files: dict[tuple[str, str], int] = {}
        self._file_of, self._line_of = array("L"), array("Q")
        self._ids: list[str] = []
        self._accounts, self._account_ends = bytearray(), array("Q", [0])

    def __enter__(self) -> Index:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._base.close()
        self._folder.cleanup()

    def __len__(self) -> int:
        return len(self._ids)

    def add(self, check: Sight) -> None:
        """One more check."""
        number = len(self._ids)
        place = check.place
        self._file_of.append(self._files.setdefault((place.file, place.sheet), len(self._files)))
        self._line_of.append(place.line)
        self._ids.append(place.id)
        self._accounts += (check.account or "").encode()
        self._account_ends.append(len(self._accounts))
        layout = check.layout
        self._waiting.append(
            (
                number,
                None if check.routing is None else int(check.routing),
                self._digest(check.account),
                None if check.account is None else len(check.account),
                check.serial,
                check.amount,
                _ordinal(check.on),
                _ordinal(check.written),
                self._digest(check.payee or None),
                check.taken,
                layout.order if layout else None,
                layout.width if layout else None,
                layout.padded if layout else None,
            )
        )
        if len(self._waiting) == BATCH:
            self._flush()

    def ask(self, query: str, *values: object) -> list[tuple[Any, ...]]:
        """The rows of *query* on the table ``item``."""
        self._flush()
        return self._base.execute(query, values).fetchall()

    def places(self, numbers: Iterable[int]) -> list[Place]:
        """Where the checks with these *numbers* stand."""
        files = list(self._files)
        at = ((files[self._file_of[n]], self._line_of[n], self._ids[n]) for n in numbers)
        return [Place(file, line, identifier, sheet) for (file, sheet), line, identifier in at]

    def account(self, number: int) -> str:
        """The digits of the account of one check: for comparing, never for print."""
        return self._accounts[self._account_ends[number] : self._account_ends[number + 1]].decode()

    def _flush(self) -> None:
        if self._waiting:
            columns: Sequence[list[Any]] = [list(column) for column in zip(*self._waiting, strict=True)]
            self._base.execute(f"INSERT INTO item SELECT {_INSERT}", columns)
            self._waiting.clear()

    def _digest(self, text: str | None) -> int | None:
        if text is None:
            return None
        return int.from_bytes(blake2b(text.encode(), digest_size=8, key=self._key).digest(), "big")


def _ordinal(day: date | None) -> int | None:
    return None if day is None else day.toordinal()
