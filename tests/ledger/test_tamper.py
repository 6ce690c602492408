"""Whoever changes, removes, moves or puts in a row of a ledger, and has no key, is found: the till and the entry."""

from __future__ import annotations

import itertools
import os
from collections.abc import Callable, Iterator
from datetime import timedelta
from typing import Any

import pytest
import sqlalchemy as sa
from ledger_world import DAY, MOMENT, Place, assessed, entry

from checkface.findings import Disposition
from checkface.ledger import Ledger, LedgerError, agreement, till
from checkface.ledger.purge import purge
from checkface.ledger.wording import checked

Row = dict[str, Any]

#: Every table with seals, and what tells its rows apart.
TABLES = {
    "till": ("id",), "counted": ("till", "line"), "item": ("id",), "correction": ("id",), "chain": ("id",),
    "entry": ("chain", "number"),
}  # fmt: skip
#: Another value that the column allows.
OTHER = {
    "converted": "kept", "kept": "returned", "returned": "converted", "keep": "decline", "convert": "keep",
    "decline": "keep", "open": "close", "item": "open", "correction": "item", "count": "item", "close": "count",
}  # fmt: skip


def fill(ledger: Ledger) -> None:
    """Two lanes: a till with everything in it and closed, two that are open; and a check taken at no till."""
    clock = (MOMENT + timedelta(minutes=number) for number in itertools.count())
    for which in ("a", "c"):
        till.open(ledger, store="7", lane="3" if which == "a" else "4", by="114", at=next(clock), id=which)
        for number in range(3):
            check = assessed(f"{ord(which)}{number}", 1000 + number, documents=("S123456789",))
            till.take(ledger, which, check, "kept", by="114", at=next(clock), id=f"{which}-{number}")
    for became in ("returned", "converted"):
        till.correct(
            ledger, "a-1", became, reason="as it was", by="114", second="MG", at=next(clock), id=f"put-{became}"
        )
    till.count(ledger, "a", till.Total(9, 9))
    till.count(ledger, "a", [till.Line("970", 1000), till.Line("972", 1002)], at=next(clock))
    till.close(ledger, "a", by="115", at=next(clock))
    till.open(ledger, store="7", lane="3", by="114", at=next(clock), id="b")
    for number in range(2):
        check = assessed(f"9{number}", 500, Disposition.CONVERT)
        till.take(ledger, "b", check, "converted", by="114", at=next(clock), id=f"b-{number}")
    ledger.record(entry("77"), id="loose")


@pytest.fixture
def full(place: Place) -> Iterator[Ledger]:
    with place.open(durable=False) as ledger:
        fill(ledger)
        assert look(ledger).all_agrees
        yield ledger


def look(ledger: Ledger) -> agreement.Checked:
    return ledger.database.read(lambda c: agreement.of_ledger(c, ledger.tokens), snapshot=True)


def alter(ledger: Ledger, *statements: tuple[str, Row]) -> None:
    """What somebody does who can write to the database and asks no constraint between tables."""

    def work(connection: sa.Connection) -> None:
        if not ledger.database.is_sqlite:
            connection.exec_driver_sql("SET LOCAL session_replication_role = replica")
        for statement, values in statements:
            connection.execute(sa.text(statement), values)

    if ledger.database.is_sqlite:
        with ledger.database._writer.connect() as connection:
            connection.exec_driver_sql("COMMIT")
            connection.exec_driver_sql("PRAGMA foreign_keys = OFF")
            connection.exec_driver_sql("BEGIN")
            try:
                work(connection)
                connection.commit()
            finally:
                connection.rollback()
                connection.exec_driver_sql("COMMIT")
                connection.exec_driver_sql("PRAGMA foreign_keys = ON")
                connection.exec_driver_sql("BEGIN")
    else:
        ledger.database.write(work)


def rows(ledger: Ledger, table: str) -> list[Row]:
    query = sa.text(f"SELECT * FROM {table}")
    return ledger.database.read(lambda c: [dict(row) for row in c.execute(query).mappings()])


def named(table: str) -> str:
    return " AND ".join(f"{column} = :{column}" for column in TABLES[table])


def put(ledger: Ledger, table: str, row: Row) -> tuple[str, Row]:
    names = ", ".join(row)
    return f"INSERT INTO {table} ({names}) VALUES ({', '.join(f':{name}' for name in row)})", row


def changes(column: str, value: Any) -> Iterator[Any]:
    """Other values to put in place of *value*."""
    if isinstance(value, bytes):
        yield bytes([value[0] ^ 1, *value[1:]])
        yield None
    elif isinstance(value, int):
        yield value + 1
    elif value is None:
        yield from ("x", 5, bytes(32))
    elif value in OTHER:
        yield OTHER[value]
    else:
        yield (value[:-1] + chr(ord(value[-1]) ^ 1)) if value else "x"
        yield "2026-11-23" if len(value) == 10 else None


def found(ledger: Ledger) -> bool:
    """Whether the alteration is told, and by the sheet of a till as well if it is one of its own."""
    try:
        checked_ = look(ledger)
    except LedgerError:
        return True
    tills = {broken.till for lane in checked_.lanes for broken in lane.agreement.breaks if broken.number}
    for which in tills & {"a", "b", "c"}:
        try:
            assert till.report(ledger, which).agreement.breaks or which == "c"
        except LedgerError as error:
            assert "altered" in str(error) or "id of a till" in str(error)
    assert any("ALTERED" in line for line in checked(checked_)) is not checked_.all_agrees
    return not checked_.all_agrees


def test_every_column_of_every_row_changed(full: Ledger) -> None:
    every = [
        (table, row, row | {column: other})
        for table in TABLES
        for row in rows(full, table)
        for column, value in row.items()
        for other in changes(column, value)
    ]
    if not full.database.is_sqlite and not os.environ.get("CHECKFACE_THOROUGH"):
        every = every[::5]  # the seals know nothing of the database they are in
    tried, missed = 0, []
    for table, row, changed in every:
        away = f"DELETE FROM {table} WHERE {named(table)}"
        try:
            alter(full, (away, row), put(full, table, changed))
        except (LedgerError, sa.exc.DBAPIError):
            continue  # the database itself does not let it be
        tried += 1
        if not found(full):
            missed.append((table, row, changed))
        alter(full, (away, changed), put(full, table, row))
    assert look(full).all_agrees
    assert tried > len(every) // 2
    assert not missed


def test_every_row_taken_away(full: Ledger) -> None:
    tried = 0
    for table in TABLES:
        for row in rows(full, table):
            alter(full, (f"DELETE FROM {table} WHERE {named(table)}", row))
            assert found(full), (table, row)
            alter(full, put(full, table, row))
            tried += 1
    assert look(full).all_agrees
    assert tried > 30


def test_every_check_taken_away_with_its_entry_and_the_end_made_to_fit(full: Ledger) -> None:
    chains = {row["id"]: row for row in rows(full, "chain")}
    entries = {(row["chain"], row["number"]): row for row in rows(full, "entry")}
    for (name, number), row in entries.items():
        last = chains[name]
        before = entries.get((name, number - 1))
        end = last
        if last["entries"] == number and before:
            end = last | {"entries": number - 1, "seal": before["seal"]}
        item = {"id": row["ref"]}
        kept = [each for each in rows(full, "item") if each["id"] == row["ref"]]
        shorter = ("UPDATE chain SET entries = :entries, seal = :seal WHERE id = :id", end)
        alter(full, ("DELETE FROM entry WHERE chain = :chain AND number = :number", row),
              ("DELETE FROM item WHERE id = :id", item), shorter)  # fmt: skip
        assert found(full), row
        back = [put(full, "entry", row), *(put(full, "item", each) for each in kept)]
        alter(full, *back, (shorter[0], last))
    assert look(full).all_agrees


def test_rows_that_changed_places(full: Ledger) -> None:
    for table, columns in (("entry", ("number",)), ("entry", ("ref", "body")), ("item", ("id",)), ("item", ("till",)),
                           ("correction", ("id",)), ("correction", ("at",)), ("counted", ("line",))):  # fmt: skip
        for one, other in itertools.pairwise(rows(full, table)):
            swapped = [
                one | {column: other[column] for column in columns},
                other | {column: one[column] for column in columns},
            ]
            if swapped == [one, other] or one.get("chain") != other.get("chain"):
                continue
            away = [(f"DELETE FROM {table} WHERE {named(table)}", row) for row in (one, other)]
            alter(full, *away, *(put(full, table, row) for row in swapped))
            assert found(full), (table, columns, one, other)
            away = [(f"DELETE FROM {table} WHERE {named(table)}", row) for row in swapped]
            alter(full, *away, *(put(full, table, row) for row in (one, other)))
    assert look(full).all_agrees


def test_rows_put_in(full: Ledger) -> None:
    new: dict[str, Callable[[Row], Row]] = {
        "till": lambda row: {"id": f"new-{row['id']}", "lane": "9"},
        "counted": lambda row: {"line": row["line"] + 50},
        "item": lambda row: {"id": f"new-{row['id']}", "item_token": None},
        "correction": lambda row: {"id": f"new-{row['id']}"},
        "chain": lambda row: {"id": f"new-{row['id']}"},
        "entry": lambda row: {"number": row["number"] + 50},
    }
    for table, change in new.items():
        for row in rows(full, table):
            one_more = row | change(row)
            alter(full, put(full, table, one_more))
            assert found(full), (table, one_more)
            alter(full, (f"DELETE FROM {table} WHERE {named(table)}", one_more))
    assert look(full).all_agrees


def forget(ledger: Ledger, which: str) -> list[tuple[str, Row]]:
    asked = {"till": which}
    return [(f"DELETE FROM {table} WHERE {column} = :till", asked)
            for table, column in (("counted", "till"), ("item", "till"), ("entry", "till"), ("till", "id"))]  # fmt: skip


def test_a_whole_till_taken_away(full: Ledger) -> None:
    alter(full, *forget(full, "a"))
    assert till.report(full, "b").agreement.breaks[0].said == "the entries before it were taken away"
    assert any("entries 1 to 9 were taken away" in line for line in checked(look(full)))


def test_a_whole_lane_taken_away(full: Ledger) -> None:
    alter(full, *forget(full, "c"), ("DELETE FROM chain WHERE lane = '4'", {}))
    assert look(full).breaks[-1].said == "of 3 lanes 2 are there"
    till.open(full, store="7", lane="5", by="114", at=MOMENT)
    assert not look(full).all_agrees  # one more lane does not make up for it


@pytest.mark.parametrize("end", ["with the end made to fit", "with the chain taken away", "alone"])
def test_what_was_taken_away_is_not_covered_by_what_comes_later(full: Ledger, end: str) -> None:
    entries = [row for row in rows(full, "entry") if row["till"] == "b"]
    last, before = entries[-1], entries[-2]
    more: list[tuple[str, Row]] = []
    if end == "with the end made to fit":
        fitting = {"id": last["chain"], "entries": before["number"], "seal": before["seal"]}
        more = [("UPDATE chain SET entries = :entries, seal = :seal WHERE id = :id", fitting)]
    elif end == "with the chain taken away":
        more = [("DELETE FROM chain WHERE id = :chain", last)]
    gone = [("DELETE FROM entry WHERE chain = :chain AND number = :number", last),
            ("DELETE FROM item WHERE id = :ref", last)]  # fmt: skip
    alter(full, *gone, *more)
    assert found(full)
    assert till.take(full, "b", assessed("4711"), "kept", by="114", at=MOMENT + timedelta(hours=2)).is_recorded
    assert found(full)
    assert till.report(full, "b").agreement.breaks
    assert not till.report(full, "a").agreement.breaks


def test_the_till_and_the_entry_are_named_and_the_others_agree(full: Ledger) -> None:
    alter(full, ("UPDATE item SET amount_cents = 9999 WHERE id = 'a-1'", {}))
    (broken,) = till.report(full, "a").agreement.breaks
    assert (broken.till, broken.number, broken.at) == ("a", 3, MOMENT + timedelta(minutes=2))
    assert not till.report(full, "b").agreement.breaks
    lines = list(checked(look(full)))
    assert lines[-1] == (
        "Lane 3 of store 7, till of 11/24/2026: ALTERED from entry 3 on (11/24/2026 9:32 am): "
        "the check recorded then was changed."
    )
    assert sum("ALTERED" in line for line in lines) == 1
    seal = till.report(full, "c").agreement.seal
    assert [line for line in lines if line.startswith("Lane 4")] == [
        f"Lane 4 of store 7: Entries 1 to 4 are as they were recorded; the last seal is {seal}."
    ]


def test_a_day_that_is_none_is_told_in_a_sentence(full: Ledger) -> None:
    alter(full, ("UPDATE item SET day = 'some day -' WHERE id = 'a-1'", {}))
    with pytest.raises(LedgerError, match="it was altered"):
        till.report(full, "a")
    assert not look(full).all_agrees


def test_a_clock_set_back_is_told_and_is_no_alteration(ledger: Ledger) -> None:
    which = till.open(ledger, store="7", lane="3", by="114", at=MOMENT).id
    till.take(ledger, which, assessed("1"), "kept", by="114", at=MOMENT - timedelta(hours=1))
    told = till.report(ledger, which).agreement
    assert (told.breaks, [back.number for back in told.set_back]) == ((), [2])
    assert look(ledger).all_agrees
    assert list(checked(look(ledger)))[1] == (
        "Lane 3 of store 7: The clock was set back before entry 2: from 11/24/2026 9:30 am to 11/24/2026 8:30 am."
    )


def test_the_till_closed_last_is_known_by_its_entries_whatever_the_clock_said(ledger: Ledger) -> None:
    for which, hours in (("first", 5), ("second", 0), ("third", 2)):
        at = MOMENT + timedelta(hours=hours)
        till.open(ledger, store="7", lane="3", by="114", at=at, id=which)
        till.count(ledger, which, till.Total(0, 0))
        till.close(ledger, which, by="114", at=at)
        last = till.last(ledger, store="7", lane="3")
        assert last is not None
        assert last.id == which


def test_a_purge_leaves_a_signed_gap(full: Ledger) -> None:
    seal = till.report(full, "b").agreement.seal
    assert purge(full, DAY + timedelta(1))[:2] == (4, 1)
    assert look(full).all_agrees
    assert "Lane 3 of store 7: entries 1 to 9 were purged, as older than 11/25/2026." in list(checked(look(full)))
    assert till.report(full, "b").agreement.seal == seal
    gaps = rows(full, "gap")
    (gap,) = [row for row in gaps if row["last"] == 9]
    for column, value in gap.items():
        other = next(iter(changes(column, value)))
        key = f"DELETE FROM gap WHERE chain = '{gap['chain']}'"
        alter(full, (key, {}), put(full, "gap", gap | {column: other}))
        assert not look(full).all_agrees, column
        assert till.report(full, "b").agreement.breaks, column
        alter(full, ("DELETE FROM gap", {}), *(put(full, "gap", row) for row in gaps))
        assert look(full).all_agrees, column
    till.count(full, "b", till.Total(0, 0))
    till.close(full, "b", by="114", at=MOMENT + timedelta(hours=1))
    assert purge(full, DAY + timedelta(1)).tills == 1
    assert look(full).all_agrees
    assert [(row["first"], row["last"]) for row in rows(full, "gap") if row["chain"] == gap["chain"]] == [(1, 14)]
    later = till.open(full, store="7", lane="3", by="114", at=MOMENT + timedelta(days=2)).id
    assert not till.report(full, later).agreement.breaks
    assert look(full).all_agrees


def test_a_purge_keeps_what_was_altered(full: Ledger) -> None:
    alter(full, ("UPDATE item SET amount_cents = 9999 WHERE id IN ('a-1', 'loose')", {}))
    purged = purge(full, DAY + timedelta(1))
    assert (purged.items, purged.tills, purged.altered) == (0, 0, 2)
    assert not look(full).all_agrees
