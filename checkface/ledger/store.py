"""The ledger: what passed the counter, remembered without keeping a single account or document number.

>>> import tempfile, pathlib
>>> from datetime import date, datetime
>>> from checkface.findings import Disposition
>>> folder = tempfile.TemporaryDirectory()
>>> ledger = Ledger.open(pathlib.Path(folder.name) / "till.ledger")
>>> check = Entry("011394776", "1234567", "1043", 4510, date(2026, 11, 24), datetime(2026, 11, 24, 9, 30), "kept",
...               Disposition.KEEP)
>>> ledger.record(check).is_recorded
True
>>> ledger.record(check).taken_before
Seen(on=datetime.date(2026, 11, 24), taken_as='kept')
>>> ledger.account_past("011394776", "1234567", date(2026, 11, 18), date(2026, 11, 24)).amount_cents
4510
>>> ledger.close(); folder.cleanup()
"""

from __future__ import annotations

import uuid
from datetime import date, datetime
from pathlib import Path
from types import TracebackType
from typing import Any, Self

import sqlalchemy as sa

from checkface import digits
from checkface.findings import Disposition
from checkface.ledger import chain, schema
from checkface.ledger.database import Database
from checkface.ledger.entries import DONE, Done, Entry, Item, Override, Recorded, Standing, stored
from checkface.ledger.errors import LedgerError
from checkface.ledger.keys import Tokens, kept_serial, last_four, make_key, read_key
from checkface.reading import KnownBy
from checkface.rules.history import AccountPast, Seen

_INSERT = sa.text("""
    INSERT INTO item (id, till, item_token, account_token, account_last4, serial, amount_cents, day, at, employee,
        drawer, disposition, taken_as, override_reason, override_by, confirmed)
    VALUES (:id, :till, :item_token, :account_token, :account_last4, :serial, :amount_cents, :day, :at, :employee,
        :drawer, :disposition, :taken_as, :override_reason, :override_by, :confirmed)
    ON CONFLICT DO NOTHING RETURNING id""")
_SHOW = sa.text("""
    INSERT INTO shown (document_token, account_token, document_last4, last_day)
    VALUES (:document, :account, :last4, :day) ON CONFLICT (document_token, account_token) DO UPDATE
    SET last_day = CASE WHEN excluded.last_day > shown.last_day THEN excluded.last_day ELSE shown.last_day END""")
_STANDS = """
    SELECT item.id, taken_as, item.day, at, employee, till, store, lane, item_token, account_token, serial, amount_cents
    FROM item LEFT JOIN till ON till.id = item.till WHERE """
_SAME = sa.text(f"{_STANDS} item.id = :id")
_TAKEN = sa.text(f"{_STANDS} item_token = :item_token AND taken_as <> 'returned'")
_SEEN = sa.text("""
    SELECT 0 AS later, day, taken_as, at FROM item WHERE item_token = :item AND taken_as <> 'returned' UNION ALL
    SELECT 1 AS later, day, taken_as, at FROM item WHERE item_token = :item AND taken_as = 'returned'
    ORDER BY later, day DESC, at DESC LIMIT 1""")
_LISTED = sa.text("SELECT 1 FROM unpaid WHERE account_token = :account AND cleared_on IS NULL LIMIT 1")
_PAST = sa.text("""
    SELECT count(*), coalesce(sum(amount_cents), 0), (SELECT serial FROM item WHERE account_token = :account
        AND day BETWEEN :since AND :until AND taken_as <> 'returned' AND serial <> ''
        ORDER BY day DESC, at DESC LIMIT 1)
    FROM item WHERE account_token = :account AND day BETWEEN :since AND :until AND taken_as <> 'returned'""")
_DRAWERS = sa.text("""
    SELECT drawer FROM item WHERE account_token = :account AND day BETWEEN :since AND :until
        AND taken_as <> 'returned' AND drawer <> ''
    GROUP BY drawer ORDER BY max(day) DESC, max(at) DESC LIMIT 20""")
_ACCOUNTS = sa.text("SELECT count(*) FROM shown WHERE document_token = :document")
_ITEMS = sa.text("""
    SELECT id, account_last4, serial, amount_cents, day, at, employee, disposition, taken_as, override_reason,
        override_by, confirmed, item_token IS NOT NULL AS known_again
    FROM item WHERE account_token = :account ORDER BY day, at""")

#: What two rows with one id must share to be the same entry, however the second was judged.
_OF_THE_CHECK = ("item_token", "account_token", "serial", "amount_cents")


class Ledger:
    """One ledger, open; threads may share it. It is the :class:`~checkface.rules.history.History` that rules ask."""

    def __init__(self, database: Database, tokens: Tokens, origin: str) -> None:
        self.database = database
        self.tokens = tokens
        self.origin = origin

    @classmethod
    def open(
        cls,
        where: str | Path,
        key: str | Path | bytes | None = None,
        *,
        wait_seconds: float = 5.0,
        durable: bool = True,
    ) -> Self:
        """The ledger at *where*: a file (SQLite), or a URL such as ``postgresql://host/database``. Made if it is new.

        ``key`` is the key itself or the path of its file, which is made together with a new ledger; the default for a
        file ``till.ledger`` is ``till.ledger.key`` beside it. A server needs one named, the same for every lane.
        ``durable=False`` does not wait for the disk: a power cut, though no crash of a program, may then take the last
        entries with it. Raises :class:`LedgerError`: wrong or missing key, a newer schema, something that is not a
        ledger, no access.
        """
        database = Database(where, wait_seconds, durable)
        try:
            tokens = Tokens(key if isinstance(key, bytes) else _key(database, key))
            origin = schema.upgrade(database, tokens)
        except BaseException:
            database.close()
            raise
        return cls(database, tokens, origin)

    def close(self) -> None:
        """Let go of the database."""
        self.database.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self.close()

    def __repr__(self) -> str:
        return f"Ledger({self.database.place!r})"

    def record(self, entry: Entry, *, id: str | None = None) -> Recorded:
        """Write *entry* down, whole or not at all; a check that was taken before is not taken a second time.

        ``id`` makes the call safe to repeat: a second entry with the same id is the first one. Raises
        :class:`LedgerError`.
        """
        row = self.row(entry, id or uuid.uuid4().hex)
        place = chain.name(self.tokens, self.origin)

        def work(connection: sa.Connection) -> Recorded:
            held = chain.hold(connection, self.tokens, place, None, None)
            return self.insert(connection, held, row, entry)

        return self.database.write(work)

    def row(self, entry: Entry, id: str) -> dict[str, Any]:
        """The columns of *entry*: tokens in place of numbers."""
        known = entry.known_by or KnownBy(entry.routing, entry.account, entry.serial)
        item = self.tokens.item(*known)
        account = self.tokens.account(entry.routing, entry.account)
        own = digits.own(entry.account, *entry.documents)

        def kept(text: str, limit: str) -> str:
            return digits.hide(digits.hide_own(text, own), limit)

        return {
            "id": id,
            "till": None,
            "item_token": item,
            # A check whose line shows no account is one of its own, so that the table has a token wherever it has one.
            "account_token": account or (item and self.tokens.account(known.routing, known.account)),
            "account_last4": last_four(entry.account) if account else "",
            "serial": kept_serial(entry.serial, own),
            "amount_cents": entry.amount_cents,
            "day": entry.day.isoformat(),
            "at": entry.at.isoformat(),
            "employee": kept(entry.employee, "counter"),
            "drawer": kept(entry.drawer, "reason"),
            "disposition": str(entry.disposition),
            "taken_as": entry.done,
            "override_reason": kept(entry.override.reason, "reason") if entry.override else None,
            "override_by": kept(entry.override.by, "counter") if entry.override else None,
            "confirmed": " ".join(entry.confirmed),
        }

    def insert(self, connection: sa.Connection, held: chain.Chain, row: dict[str, Any], entry: Entry) -> Recorded:
        """:meth:`record` within a transaction of the caller's that holds the chain of the lane."""
        known_again = row["item_token"] is not None
        # The unique indexes decide; what stands there already is only asked for after they have refused.
        if connection.execute(_INSERT, row).first() is None:
            before = self.stands(connection, row)
            if before is None:
                raise LedgerError(f"Ledger {self.database.place}: the check was put right meanwhile. Repeat the entry.")
            return Recorded(row["id"], known_again, before)
        chain.add(connection, self.tokens, held, chain.Entry("item", row["id"], row["till"], row["at"], row))
        account = self.tokens.account(entry.routing, entry.account)
        if account is not None:
            for document in entry.documents:
                if token := self.tokens.document(document):
                    shown = {"document": token, "account": account, "last4": last_four(document), "day": row["day"]}
                    connection.execute(_SHOW, shown)
        return Recorded(row["id"], known_again)

    def stands(self, connection: sa.Connection, row: dict[str, Any]) -> Standing | None:
        """The entry that stands under the id of *row*, else the one by which its check was taken, if there is either.

        Raises :class:`LedgerError` if another check stands under the id.
        """
        found = connection.execute(_SAME, row).first()
        if found is not None and any(found._mapping[column] != row[column] for column in _OF_THE_CHECK):
            raise LedgerError(f"Ledger {self.database.place}: expected a new id, read that of another entry.")
        if found is None and row["item_token"] is not None:
            found = connection.execute(_TAKEN, row).first()
        if found is None:
            return None
        day, at = stored(date.fromisoformat, found.day), stored(datetime.fromisoformat, found.at)
        return Standing(found.id, done_of(found), day, at, found.employee, found.till, found.store, found.lane)

    # The four questions of the rules.

    def item_seen(self, routing: str, account: str, serial: str) -> Seen | None:
        """When the check was taken; if it never was, when it was last handed back.

        A check that was taken and later refused stays one that was taken.
        """
        if (item := self.tokens.item(routing, account, serial)) is None:
            return None
        row = self.database.read(lambda connection: connection.execute(_SEEN, {"item": item}).first())
        return Seen(stored(date.fromisoformat, row.day), row.taken_as) if row else None

    def is_listed(self, routing: str, account: str) -> bool:
        """Whether the account is on the house list of unpaid accounts."""
        asked = {"account": self.tokens.account(routing, account)}
        return self.database.read(lambda connection: connection.execute(_LISTED, asked).first()) is not None

    def account_past(self, routing: str, account: str, since: date, until: date) -> AccountPast:
        """What was taken on the account from *since* to *until*, both included; names of drawers latest first."""
        asked = {
            "account": self.tokens.account(routing, account),
            "since": since.isoformat(),
            "until": until.isoformat(),
        }

        def ask(connection: sa.Connection) -> AccountPast:
            count, cents, serial = connection.execute(_PAST, asked).one()
            drawers = tuple(connection.execute(_DRAWERS, asked).scalars()) if count else ()
            return AccountPast(count, int(cents), serial, drawers)

        return self.database.read(ask)

    def accounts_of_document(self, document: str) -> int:
        """How many different accounts the identification document has been shown with."""
        asked = {"document": self.tokens.document(document)}
        return int(self.database.read(lambda connection: connection.execute(_ACCOUNTS, asked).scalar_one()))

    def items(self, routing: str, account: str) -> tuple[Item, ...]:
        """Every recorded check of the account, oldest first, masked."""
        asked = {"account": self.tokens.account(routing, account)}
        return self.database.read(lambda connection: tuple(map(item_of, connection.execute(_ITEMS, asked))))


def item_of(row: Any) -> Item:
    """The recorded check in a row of the table ``item``."""
    return Item(
        row.id,
        row.account_last4,
        row.serial,
        row.amount_cents,
        stored(date.fromisoformat, row.day),
        stored(datetime.fromisoformat, row.at),
        row.employee,
        Disposition(row.disposition),
        done_of(row),
        Override(row.override_reason, row.override_by) if row.override_by is not None else None,
        tuple(row.confirmed.split()),
        bool(row.known_again),
    )


def done_of(row: Any) -> Done:
    """What a row of the table ``item`` says was done."""
    return next(done for done in DONE if done == row.taken_as)


def _key(database: Database, given: str | Path | None) -> bytes:
    if given is None and database.file is None:
        raise LedgerError(f"Ledger {database.place}: expected a key file, the same for every lane of the server.")
    path = Path(given) if given is not None else Path(f"{database.file}.key")
    key = read_key(path)
    if key is not None:
        return key
    if schema.key_check(database) is not None:
        raise LedgerError(f"Ledger {database.place}: expected its key file {path}, found none; nothing was changed.")
    return make_key(path)
