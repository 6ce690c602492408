"""A ledger of the first schema opens, keeps all it held, and tells what is older than its seals."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
import sqlalchemy as sa
from ledger_world import ACCOUNT, BANK, DAY, MOMENT, Place, assessed, entry

from checkface.ledger import Ledger, agreement, till
from checkface.ledger.database import Database
from checkface.ledger.keys import Tokens, make_key
from checkface.ledger.schema import _WORDS, MIGRATIONS
from checkface.ledger.wording import checked, seals
from checkface.rules.history import Seen


def first_schema(place: Place) -> None:
    """A ledger as the first schema had it: two tills of one lane, the later one open, and a check taken at none."""
    tokens = Tokens(make_key(place.key))
    database = Database(place.url, 5, True)

    def work(connection: sa.Connection) -> None:
        for statement in MIGRATIONS[0]:
            connection.exec_driver_sql(statement.format_map(_WORDS[database.is_sqlite]))
        add(connection, "ledger", one=1, schema_version=1, key_check=tokens.check())
        till_ = {"store": "7", "lane": "3", "day": DAY.isoformat(), "opened_by": "114"}
        counted = {"counted_checks": 1, "counted_cents": 4510, "counted_after": 2, "closed_by": "115"}
        counted |= {"closed_at": (MOMENT + timedelta(hours=8)).isoformat()}
        add(connection, "till", id="old", opened_at=MOMENT.isoformat(), **till_, **counted)
        add(connection, "till", id="open", opened_at=(MOMENT + timedelta(hours=9)).isoformat(), **till_)
        for which, serial in (("old", "1"), ("old", "2"), ("open", "3"), (None, "4")):
            row = {"id": f"item-{serial}", "till": which, "item_token": tokens.item(BANK, ACCOUNT, serial)}
            row |= {"account_token": tokens.account(BANK, ACCOUNT), "account_last4": "7890", "serial": serial}
            row |= {"amount_cents": 4510, "day": DAY.isoformat(), "at": MOMENT.isoformat(), "employee": "114"}
            done = "returned" if serial == "2" else "kept"
            add(connection, "item", **row, drawer="PAT DOE", disposition="keep", taken_as=done)
        why = {"reason": "paid cash", "employee": "114", "second": "MG", "at": MOMENT.isoformat()}
        add(connection, "correction", id="put", item="item-2", was="kept", became="returned", **why)
        add(connection, "counted", till="old", line=1, serial="1", amount_cents=4510)

    def add(connection: sa.Connection, table: str, **row: Any) -> None:
        names = ", ".join(row)
        connection.execute(sa.text(f"INSERT INTO {table} ({names}) VALUES ({', '.join(f':{n}' for n in row)})"), row)

    try:
        database.write(work)
    finally:
        database.close()


def look(ledger: Ledger) -> agreement.Checked:
    return ledger.database.read(lambda c: agreement.of_ledger(c, ledger.tokens), snapshot=True)


def test_what_was_recorded_before_is_there_and_told_as_older_than_its_seals(place: Place) -> None:
    first_schema(place)
    for _ in range(2):
        with place.open() as ledger:
            assert ledger.item_seen(BANK, ACCOUNT, "4") == Seen(DAY, "kept")
            assert not ledger.record(entry("1")).is_recorded
            old = till.report(ledger, "old")
            assert old.expected == (1, 4510)
            assert (old.agreement.breaks, old.agreement.first, old.agreement.last) == ((), 1, 6)
            assert look(ledger).all_agrees
    with place.open() as ledger:
        open_ = till.last(ledger, store="7", lane="3")
        assert open_ is not None
        assert open_.id == "open"
        assert till.take(ledger, "open", assessed("5"), "kept", by="114", at=MOMENT + timedelta(hours=10)).is_recorded
        report = till.report(ledger, "open")
        assert (report.agreement.unsealed, report.agreement.last) == (8, 9)
        told = "Lane 3 of store 7: Entries up to 8 are older than their seals: a change before that cannot be told."
        assert told in list(checked(look(ledger)))
        till.count(ledger, "open", till.Total(2, 9020))
        till.close(ledger, "open", by="114", at=MOMENT + timedelta(hours=11))
        new = till.open(ledger, store="7", lane="3", by="114", at=MOMENT + timedelta(hours=12)).id
        assert look(ledger).all_agrees
        assert not any("older than" in line for line in seals(till.report(ledger, new).agreement))


@pytest.mark.parametrize(
    "change",
    [
        "UPDATE item SET amount_cents = 1 WHERE id = 'item-1'",
        "UPDATE item SET taken_as = 'kept' WHERE id = 'item-2'",
        "UPDATE correction SET reason = 'none'",
        "DELETE FROM counted",
        "DELETE FROM item WHERE id = 'item-4'",
        "UPDATE chain SET unsealed = 0 WHERE lane = '3'",
    ],
)
def test_a_change_after_the_upgrade_is_found_in_what_is_older_too(place: Place, change: str) -> None:
    first_schema(place)
    with place.open() as ledger:
        ledger.database.write(lambda c: c.execute(sa.text(change)))
        assert not look(ledger).all_agrees
