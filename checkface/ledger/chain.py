"""Every entry of a lane carries a seal: a keyed digest of what it says and of the seal before it.

An entry is an opening, a check, a correction, a count or a close; those of a lane are numbered without a gap, and the
head of the chain signs the last of them. Whoever changes, removes, reorders or inserts rows without the key breaks the
chain at that place (:mod:`checkface.ledger.agreement` says where). HMAC-SHA256 (RFC 2104) over JSON.

Two things need the seal that is printed on the sheet: a whole ledger that was put back to an earlier copy of itself,
and somebody who has the key.
"""

from __future__ import annotations

import secrets
from collections.abc import Iterable, Iterator, Mapping
from typing import Any, Final, Literal, NamedTuple

import sqlalchemy as sa

from checkface.ledger.keys import Tokens

#: One row of a table by its columns.
Row = Mapping[Any, Any]
What = Literal["open", "item", "correction", "count", "close", "altered"]

#: What the seal of each sort of entry vouches for; an item for what was first done with it.
SEALED: Final[dict[str, tuple[str, ...]]] = {
    "open": ("id", "store", "lane", "day", "opened_at", "opened_by", "chain", "first_entry"),
    "item": ("id", "till", "item_token", "account_token", "account_last4", "serial", "amount_cents", "day", "at",
        "employee", "drawer", "disposition", "taken_as", "override_reason", "override_by", "confirmed"),
    "correction": ("id", "item", "at", "was", "became", "reason", "employee", "second"),
    "count": ("id", "counted_checks", "counted_cents", "counted_after"),
    "close": ("id", "closed_at", "closed_by"),
    "altered": (),
}  # fmt: skip

_ITEMS = sa.text("SELECT * FROM item WHERE till = :till ORDER BY at, id")
_CORRECTIONS = sa.text("""
    SELECT correction.* FROM correction JOIN item ON item.id = correction.item WHERE item.till = :till
    ORDER BY correction.at, correction.id""")
_LINES = sa.text("SELECT line, serial, amount_cents FROM counted WHERE till = :till ORDER BY line")
_PLACE = sa.text("UPDATE till SET chain = :chain, first_entry = :first_entry WHERE id = :id")
CHAIN = sa.table("chain", *map(sa.column, ("id", "store", "lane", "unsealed", "entries", "seal", "head")))
_HOLD = sa.select(CHAIN).where(CHAIN.c.id == sa.bindparam("chain")).with_for_update(key_share=True)
_BEGIN = sa.text("""
    INSERT INTO chain (id, store, lane, unsealed, entries, seal, head)
    VALUES (:id, :store, :lane, :unsealed, :entries, :seal, :head) ON CONFLICT DO NOTHING RETURNING id""")
_ENTRY = sa.text("""
    INSERT INTO entry (chain, number, till, what, ref, at, body, seal)
    VALUES (:chain, :number, :till, :what, :ref, :at, :body, :seal)""")
_LAST = sa.text("SELECT number, seal FROM entry WHERE chain = :chain ORDER BY number DESC LIMIT 1")
_HEAD = sa.text("""
    UPDATE chain SET unsealed = :unsealed, entries = :entries, seal = :seal, head = :head WHERE id = :id""")
_ONE_MORE = sa.text("UPDATE ledger SET chains = chains + :more RETURNING origin, chains, chains_seal")
_SIGN_CHAINS = sa.text("UPDATE ledger SET chains_seal = :seal")


class Chain(NamedTuple):
    """The end of one lane's chain: the number of its last entry and that entry's seal, with the signature under them.

    ``unsealed`` entries at its beginning were recorded before there were seals.
    """

    id: str
    store: str | None
    lane: str | None
    unsealed: int
    entries: int
    seal: bytes
    head: bytes = b""

    def signed(self, tokens: Tokens) -> Chain:
        """This end with the signature under it."""
        return self._replace(head=tokens.seal("head", *self[:-1]))

    def is_sound(self, tokens: Tokens) -> bool:
        """Whether the signature is the one that belongs here."""
        return self == self.signed(tokens)


class Entry(NamedTuple):
    """One entry to be sealed. ``row`` holds the columns of :data:`SEALED`, ``lines`` the list of a count."""

    what: What
    ref: str
    till: str | None
    at: str | None
    row: Row
    lines: Iterable[tuple[int, str, int]] = ()


def name(tokens: Tokens, origin: str, store: str | None = None, lane: str | None = None) -> str:
    """The id of the chain of a lane in the ledger of that *origin*; without a lane, of checks taken at no till."""
    return tokens.seal("chain", origin, store, lane).hex()[:32]


def start(tokens: Tokens, chain: str) -> bytes:
    """What the first entry of *chain* follows."""
    return tokens.seal("start", chain)


def body(tokens: Tokens, what: str, row: Row, lines: Iterable[tuple[int, str, int]] = ()) -> bytes:
    """The digest of what an entry says."""
    return tokens.seal(what, [row[column] for column in SEALED[what]], [list(line) for line in lines])


def link(tokens: Tokens, before: bytes, entry: Row) -> bytes:
    """The seal of an *entry*, a row of the table, that follows the seal *before*."""
    parts = (entry[part] for part in ("chain", "number", "till", "what", "ref", "at", "body"))
    return tokens.seal("entry", before, *parts)


def gap(tokens: Tokens, row: Row) -> bytes:
    """The signature under a gap, a row of that table: entries that were purged, and not taken away."""
    parts = (row[part] for part in ("chain", "first", "last", "seal_before", "seal_after", "purged_before"))
    return tokens.seal("gap", *parts)


def hold(connection: sa.Connection, tokens: Tokens, chain: str, store: str | None, lane: str | None) -> Chain:
    """The end of the *chain* with that id, locked until the transaction ends; begun if it is new."""
    asked = {"chain": chain}
    found = connection.execute(_HOLD, asked).first()
    if found is None:
        begun = Chain(chain, store, lane, 0, 0, start(tokens, chain)).signed(tokens)
        if connection.execute(_LAST, asked).first() is not None:
            begun = begun._replace(head=bytes(32))  # entries without their chain: it was taken away
        if connection.execute(_BEGIN, begun._asdict()).first() is not None:
            count(connection, tokens, 1)
        found = connection.execute(_HOLD, asked).one()
    return end(found)


def end(row: Any) -> Chain:
    """The end of a chain from its row."""
    return Chain(row.id, row.store, row.lane, row.unsealed, row.entries, row.seal, row.head)


def count(connection: sa.Connection, tokens: Tokens, more: int) -> None:
    """Sign that there are so many chains *more*. A number that was altered before stays unsigned."""
    row = connection.execute(_ONE_MORE, {"more": more}).one()
    if row.chains_seal == chains_seal(tokens, row.origin, row.chains - more):
        connection.execute(_SIGN_CHAINS, {"seal": chains_seal(tokens, row.origin, row.chains)})


def chains_seal(tokens: Tokens, origin: str, chains: int) -> bytes:
    """The signature under the number of chains of a ledger."""
    return tokens.seal("chains", origin, chains)


def add(connection: sa.Connection, tokens: Tokens, chain: Chain, *entries: Entry) -> Chain:
    """Seal *entries* at the end of the chain that is held; its new end."""
    if not chain.is_sound(tokens):
        # Its end was altered. To go on as if nothing were would hide that for ever, so that is an entry, too.
        last = connection.execute(_LAST, {"chain": chain.id}).first()
        if last is not None and last.number >= chain.entries:
            chain = chain._replace(entries=last.number, seal=last.seal)
        entries = (Entry("altered", chain.id, entries[0].till, entries[0].at, {}), *entries)
    rows = []
    for entry in entries:
        row: dict[str, Any] = {"chain": chain.id, "number": chain.entries + 1, "till": entry.till, "what": entry.what}
        row |= {"ref": entry.ref, "at": entry.at, "body": body(tokens, entry.what, entry.row, entry.lines)}
        row["seal"] = link(tokens, chain.seal, row)
        rows.append(row)
        chain = chain._replace(entries=row["number"], seal=row["seal"])
    connection.execute(_ENTRY, rows)
    chain = chain.signed(tokens)
    connection.execute(_HEAD, chain._asdict())
    return chain


def adopt(connection: sa.Connection, tokens: Tokens) -> None:
    """Give a ledger its origin, and seal what an earlier version recorded as it stands now."""
    origin = secrets.token_hex(16)
    signed = {"origin": origin, "seal": chains_seal(tokens, origin, 0)}
    connection.execute(sa.text("UPDATE ledger SET origin = :origin, chains = 0, chains_seal = :seal"), signed)
    tills = sa.text("SELECT * FROM till ORDER BY store, lane, closed_at IS NULL, opened_at")
    held: dict[tuple[str, str] | None, Chain] = {}
    for till in connection.execute(tills).mappings().all():
        lane = till["store"], till["lane"]
        now = held.get(lane) or hold(connection, tokens, name(tokens, origin, *lane), *lane)
        row = {**till, "chain": now.id, "first_entry": now.entries + 1}
        connection.execute(_PLACE, row)
        held[lane] = add(connection, tokens, now, *_found(connection, row))
    lost = sa.text("SELECT * FROM item WHERE till IS NULL ORDER BY at, id")
    rows = connection.execute(lost, execution_options={"yield_per": 1000}).mappings()
    while some := rows.fetchmany(1000):
        now = held.get(None) or hold(connection, tokens, name(tokens, origin), None, None)
        entries = (Entry("item", row["id"], None, row["at"], row) for row in some)
        held[None] = add(connection, tokens, now, *entries)
    for last in held.values():
        connection.execute(_HEAD, last._replace(unsealed=last.entries).signed(tokens)._asdict())


def _found(connection: sa.Connection, till: Row) -> Iterator[Entry]:
    """The entries of a till that was kept without seals."""
    key = till["id"]
    yield Entry("open", key, key, till["opened_at"], till)
    corrections = connection.execute(_CORRECTIONS, {"till": key}).mappings().all()
    first_done = {row["item"]: row["was"] for row in reversed(corrections)}
    for row in connection.execute(_ITEMS, {"till": key}).mappings():
        first = first_done.get(row["id"], row["taken_as"])
        yield Entry("item", row["id"], key, row["at"], {**row, "taken_as": first})
    for row in corrections:
        yield Entry("correction", row["id"], key, row["at"], row)
    if till["counted_checks"] is not None:
        lines = [(line.line, line.serial, line.amount_cents) for line in connection.execute(_LINES, {"till": key})]
        yield Entry("count", key, key, None, till, lines)
    if till["closed_at"] is not None:
        yield Entry("close", key, key, till["closed_at"], till)
