"""Whether the ledger still says what was recorded: every entry held against its seal, every row against its entry.

A row that was changed no longer gives the digest its entry carries; an entry that was changed or moved no longer gives
its seal; one that was taken away leaves a number missing, or the signed end of the chain unreached; a row put in has no
entry. Clocks that were set back are told, and alter nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from itertools import groupby
from typing import Any, Final, NamedTuple

import sqlalchemy as sa

from checkface.ledger import chain
from checkface.ledger.chain import CHAIN, Row
from checkface.ledger.keys import Tokens

_ENTRY: Final = "SELECT chain, number, till, what, ref, at, body, seal FROM entry WHERE"
_OF_TILL = sa.text(f"{_ENTRY} till = :till ORDER BY number")
_OF_CHAIN = sa.text(f"{_ENTRY} chain = :chain ORDER BY number")
_AT = sa.text(f"{_ENTRY} chain = :chain AND number = :number")
_GAPS = sa.text("SELECT * FROM gap WHERE chain = :chain ORDER BY first")
_TILL = sa.text("SELECT * FROM till WHERE id = :till")
_ITEMS = sa.text("SELECT * FROM item WHERE till = :till")
_CORRECTIONS = sa.text("SELECT c.* FROM correction AS c JOIN item ON item.id = c.item WHERE item.till = :till")
_LINES = sa.text("SELECT line, serial, amount_cents FROM counted WHERE till = :till ORDER BY line")
_LOOSE = sa.text("SELECT * FROM item WHERE till IS NULL OR till NOT IN (SELECT id FROM till)")
_TILLS = sa.text("SELECT id, store, lane, day FROM till")
_LEDGER = sa.text("SELECT origin, chains, chains_seal, (SELECT count(*) FROM chain) AS found FROM ledger")

_GONE: Final = {
    "item": "the check recorded then was taken away",
    "correction": "the correction recorded then was taken away",
}
_CHANGED: Final = {
    "open": "how the till was opened was changed",
    "item": "the check recorded then was changed",
    "correction": "the correction recorded then was changed",
    "count": "what was counted was changed",
    "close": "how the till was closed was changed",
}


class Break(NamedTuple):
    """Where something is not as it was recorded.

    ``number`` is that of the entry, ``None`` for a row that no entry speaks of; ``at`` its moment where it is known.
    """

    till: str | None
    number: int | None
    at: datetime | None
    said: str


class SetBack(NamedTuple):
    """An entry that was recorded, by the clock, before the one it follows."""

    number: int
    was: datetime
    became: datetime


@dataclass(frozen=True)
class Agreement:
    """What came of holding entries against their seals.

    ``first`` to ``last`` are their numbers, the first ``unsealed`` of the lane were recorded before there were seals,
    and ``seal`` is the last one, short enough to compare on paper. ``breaks`` is empty where all is as it was recorded.
    """

    first: int
    last: int
    unsealed: int
    seal: str
    breaks: tuple[Break, ...]
    set_back: tuple[SetBack, ...]


class Lane(NamedTuple):
    """One chain of the ledger: of a lane, or of checks taken at no till. ``purged`` are signed gaps, first to last."""

    store: str | None
    lane: str | None
    agreement: Agreement
    purged: tuple[tuple[int, int, str], ...]


class Kept(NamedTuple):
    """Where and when a till was opened, to name it by."""

    store: str
    lane: str
    day: str


class Checked(NamedTuple):
    """The whole ledger: its lanes, what is wrong with no lane in particular, and its tills by their ids."""

    lanes: tuple[Lane, ...]
    breaks: tuple[Break, ...]
    tills: Mapping[str, Kept]

    @property
    def all_agrees(self) -> bool:
        """Whether everything is as it was recorded."""
        return not self.breaks and not any(lane.agreement.breaks for lane in self.lanes)


def of_till(connection: sa.Connection, tokens: Tokens, till: str) -> Agreement:
    """Whether the till with that id is as it was recorded."""
    row = connection.execute(_TILL, {"till": till}).mappings().one()
    held = connection.execute(sa.select(CHAIN).where(CHAIN.c.id == row["chain"])).first()
    if held is None:
        missing = Break(till, row["first_entry"], None, "the chain of its lane was taken away")
        return Agreement(0, 0, 0, "", (missing,), ())
    walk = _Walk(connection, tokens, chain.end(held), row["first_entry"] or 1)
    entries = connection.execute(_OF_TILL, {"till": till}).mappings().all()
    for entry in entries:
        walk.step(entry)
    walk.finish(till)
    walk.breaks += _contents(tokens, till, entries, _Rows.of_till(connection, till))
    return walk.found()


def of_ledger(connection: sa.Connection, tokens: Tokens) -> Checked:
    """Whether everything in the ledger is as it was recorded."""
    seen: set[str] = set()
    loose = _Rows.loose(connection)
    chains = connection.execute(sa.select(CHAIN).order_by(CHAIN.c.store, CHAIN.c.lane, CHAIN.c.id)).all()
    lanes = tuple(_lane(connection, tokens, held, loose, seen) for held in chains)
    tills = {row.id: Kept(row.store, row.lane, row.day) for row in connection.execute(_TILLS)}
    breaks = [*loose.left_over(None), *(Break(till, None, None, "the till was put in") for till in tills.keys() - seen)]
    row = connection.execute(_LEDGER).one()
    if row.chains_seal != chain.chains_seal(tokens, row.origin, row.found) or row.chains != row.found:
        breaks.append(Break(None, None, None, f"of {row.chains} lanes {row.found} are there"))
    return Checked(lanes, tuple(breaks), tills)


def of_loose(connection: sa.Connection, tokens: Tokens) -> tuple[Break, ...]:
    """Where checks that were taken at no till are not as they were recorded."""
    loose = _Rows.loose(connection)
    chains = connection.execute(sa.select(CHAIN).where(CHAIN.c.lane.is_(None))).all()
    found = [_lane(connection, tokens, held, loose, set()).agreement.breaks for held in chains]
    return *(broken for breaks in found for broken in breaks), *loose.left_over(None)


def _lane(connection: sa.Connection, tokens: Tokens, held: Any, loose: _Rows, seen: set[str]) -> Lane:
    """One chain with all its tills, which are added to *seen*; checks at no till are taken out of *loose*."""
    walk = _Walk(connection, tokens, chain.end(held), 1)
    some = {"yield_per": 1000}
    rows = connection.execute(_OF_CHAIN, {"chain": held.id}, execution_options=some).mappings()
    for till, group in groupby(rows, lambda entry: str(entry["till"]) if entry["till"] is not None else None):
        entries = list(group)
        for entry in entries:
            walk.step(entry)
        if till is None:
            walk.breaks += _contents(tokens, till, entries, loose, whole=False)
        elif till in seen:
            walk.breaks.append(Break(till, entries[0]["number"], None, "entries of one till stand apart"))
        else:
            walk.breaks += _contents(tokens, till, entries, _Rows.of_till(connection, till))
            seen.add(till)
    walk.finish(None)
    gaps = tuple((row["first"], row["last"], row["purged_before"]) for row in walk.gaps.values())
    return Lane(held.store, held.lane, walk.found(), gaps)


class _Walk:
    """Along a chain, entry by entry: do the numbers follow one another, and each seal the one before?"""

    def __init__(self, connection: sa.Connection, tokens: Tokens, end: chain.Chain, first: int) -> None:
        self.connection, self.tokens, self.end = connection, tokens, end
        gaps = connection.execute(_GAPS, {"chain": end.id}).mappings()
        self.gaps = {row["first"]: row for row in gaps if row["seal"] == chain.gap(tokens, row)}
        self.first = self.expected = first
        self.clock: str | None = None
        self.before = self._before(first)
        self.breaks: list[Break] = []
        self.set_back: list[SetBack] = []
        if self.before is None:
            self.breaks.append(Break(None, first, None, "the entries before it were taken away"))

    def _before(self, number: int) -> bytes | None:
        """The seal that entry *number* follows."""
        if number == 1:
            return chain.start(self.tokens, self.end.id)
        row = self.connection.execute(_AT, {"chain": self.end.id, "number": number - 1}).first()
        if row is not None:
            self.clock = row.at
            return bytes(row.seal)
        return next((gap["seal_after"] for gap in self.gaps.values() if gap["last"] == number - 1), None)

    def step(self, entry: Row) -> None:
        number, till, at = entry["number"], entry["till"], moment(entry["at"])
        if number != self.expected:
            gap = self.gaps.get(self.expected)
            if gap is not None and gap["last"] == number - 1 and gap["seal_before"] == self.before:
                self.before = gap["seal_after"]
            else:
                self.breaks.append(Break(till, self.expected, None, _missing(self.expected, number - 1)))
                self.before = None
        if entry["chain"] != self.end.id or (
            self.before is not None and entry["seal"] != chain.link(self.tokens, self.before, entry)
        ):
            self.breaks.append(Break(till, number, at, "the entry was changed, moved or put in"))
        if entry["at"]:
            was = moment(self.clock)
            if was is not None and at is not None and was.tzinfo == at.tzinfo and at < was:
                self.set_back.append(SetBack(number, was, at))
            self.clock = entry["at"]
        self.before, self.expected = entry["seal"], number + 1

    def finish(self, till: str | None) -> None:
        """Does the chain go on, or end where its signature says?"""
        last = self.expected - 1
        if self.end.entries > last:
            gap = self.gaps.get(self.expected)
            if gap is not None and gap["seal_before"] == self.before:
                self.before, self.expected = gap["seal_after"], gap["last"] + 1
            elif self.connection.execute(_AT, {"chain": self.end.id, "number": self.expected}).first() is None:
                until = self.end.entries if till is None else self.expected
                self.breaks.append(Break(till, self.expected, None, _missing(self.expected, until)))
                return
        last = self.expected - 1
        if self.end.entries > last and till is not None:
            return
        reached = self.end.entries == last and self.before in (None, self.end.seal)
        if not (reached and self.end.is_sound(self.tokens)):
            self.breaks.append(Break(till, last or None, None, "the end of the entries was changed"))

    def found(self) -> Agreement:
        seal = (self.before or b"").hex()[:8].upper()
        breaks = sorted(self.breaks, key=lambda found: (found.number is None, found.number or 0))
        code, last = f"{seal[:4]}-{seal[4:]}", self.expected - 1
        return Agreement(self.first, last, self.end.unsealed, code, tuple(breaks), tuple(self.set_back))


@dataclass
class _Rows:
    """What stands in the other tables of a till; what an entry speaks of is taken out."""

    items: dict[Any, Row]
    corrections: dict[Any, Row] = field(default_factory=dict)
    till: Row | None = None
    lines: tuple[tuple[int, str, int], ...] = ()

    @classmethod
    def loose(cls, connection: sa.Connection) -> _Rows:
        """Checks that were taken at no till."""
        return cls({row["id"]: row for row in connection.execute(_LOOSE).mappings()})

    @classmethod
    def of_till(cls, connection: sa.Connection, till: str) -> _Rows:
        asked = {"till": till}
        items: dict[Any, Row] = {row["id"]: row for row in connection.execute(_ITEMS, asked).mappings()}
        corrections: dict[Any, Row] = {row["id"]: row for row in connection.execute(_CORRECTIONS, asked).mappings()}
        lines = tuple((line.line, line.serial, line.amount_cents) for line in connection.execute(_LINES, asked))
        return cls(items, corrections, connection.execute(_TILL, asked).mappings().first(), lines)

    def left_over(self, till: str | None) -> Iterator[Break]:
        for row in self.items.values():
            yield Break(till, None, moment(row["at"]), "a check was put in")
        for row in self.corrections.values():
            yield Break(till, None, moment(row["at"]), "a correction was put in")


def _contents(
    tokens: Tokens, till: str | None, entries: Sequence[Row], rows: _Rows, *, whole: bool = True
) -> Iterator[Break]:
    """Is every row what its entry says, and does every row have one?"""
    numbers = {entry["what"]: entry["number"] for entry in entries}
    done = _first_done(entries, rows.corrections)
    after: dict[str, tuple[str, Row]] = {}
    for entry in entries:
        what, number, at = entry["what"], entry["number"], moment(entry["at"])
        row: Row | None = rows.till
        lines: Iterable[tuple[int, str, int]] = ()
        if what == "altered":
            yield Break(till, number, at, "what stood before it had been altered when it was recorded")
            continue
        if what == "item":
            row = rows.items.pop(entry["ref"], None)
            if row is not None:
                after[row["id"]] = row["taken_as"], entry
                row = {**row, "taken_as": done.get(row["id"], row["taken_as"])}
        elif what == "correction":
            row = rows.corrections.pop(entry["ref"], None)
            if row is not None and row["item"] in after:
                after[row["item"]] = after[row["item"]][0], entry
        elif what == "count":
            if number != numbers["count"]:
                continue  # a later count took its place
            lines = rows.lines
        if row is None:
            yield Break(till, number, at, _GONE.get(what, "the till was taken away"))
        elif entry["body"] != chain.body(tokens, what, row, lines):
            yield Break(till, number, at, _CHANGED[what])
        elif what == "correction":
            if done.get(row["item"], row["was"]) != row["was"]:
                yield Break(till, number, at, _CHANGED[what])
            done[row["item"]] = row["became"]
    for item, (taken_as, entry) in after.items():
        if done.get(item, taken_as) != taken_as:
            said = "what was done with the check was changed"
            yield Break(till, entry["number"], moment(entry["at"]), said)
    if rows.till is not None:
        for what, column in (("count", "counted_checks"), ("close", "closed_at")):
            if what not in numbers and rows.till[column] is not None:
                yield Break(till, None, None, f"the {what} was put in")
    if whole:
        yield from rows.left_over(till)


def _first_done(entries: Sequence[Row], corrections: Mapping[str, Row]) -> dict[str, str]:
    """What was first done with each check that was put right later."""
    found: dict[str, str] = {}
    for entry in entries:
        if entry["what"] == "correction" and (row := corrections.get(entry["ref"])) is not None:
            found.setdefault(row["item"], row["was"])
    return found


def _missing(first: int, last: int) -> str:
    return "the entry was taken away" if first == last else f"entries {first} to {last} were taken away"


def moment(text: str | None) -> datetime | None:
    """The moment in a column of the ledger; ``None`` where there is none, or somebody wrote something else there."""
    try:
        return datetime.fromisoformat(text) if text else None
    except ValueError:
        return None
