"""A ledger taken along, brought back, and made to forget."""

from __future__ import annotations

import io
import json
from datetime import timedelta
from pathlib import Path

import pytest
from ledger_world import ACCOUNT, BANK, DAY, MOMENT, Place, assessed, entry

from checkface.ledger import Ledger, LedgerError, till, unpaid
from checkface.ledger.purge import Purged, purge
from checkface.ledger.transfer import TABLES, Imported, export, import_

KEY = bytes(range(32))


def fill(ledger: Ledger) -> str:
    """One till with something in every table."""
    which = till.open(ledger, store="7", lane="3", by="114", at=MOMENT).id
    item = till.take(ledger, which, assessed(documents=("S123456789",)), "kept", by="114", at=MOMENT).id
    till.take(ledger, which, assessed("1044"), "kept", by="114", at=MOMENT)
    till.correct(ledger, item, "returned", reason="paid cash", by="114", second="MG", at=MOMENT)
    till.count(ledger, which, [till.Line("1044", 4510)])
    till.close(ledger, which, by="114", at=MOMENT)
    unpaid.add(ledger, unpaid.Return(BANK, "555555", DAY, "1", 100, "R01"))
    return which


def exported(ledger: Ledger) -> list[str]:
    out = io.StringIO()
    rows = export(ledger, out)
    lines = out.getvalue().splitlines(keepends=True)
    assert rows == len(lines) - 1
    return lines


def added(imported: Imported) -> tuple[int, int, int]:
    """How many rows came in, were known, and were left out; what came in must agree with its seals."""
    assert imported.checked is not None
    assert imported.checked.all_agrees
    return imported.added, imported.known, len(imported.bad)


def test_an_export_comes_back_whole_into_either_database(place: Place, tmp_path: Path) -> None:
    with place.open() as ledger:
        which = fill(ledger)
        lines = exported(ledger)
        assert {json.loads(line)["table"] for line in lines[1:]} == set(TABLES) - {"gap"}
        with Ledger.open(tmp_path / "copy.ledger", place.key) as copy:
            assert added(import_(copy, lines)) == (len(lines) - 1, 0, 0)
            assert till.report(copy, which) == till.report(ledger, which)
            assert sorted(exported(copy)) == sorted(lines)
            assert added(import_(copy, lines)) == (0, len(lines) - 1, 0)
            copied = exported(copy)
        assert added(import_(ledger, copied)) == (0, len(lines) - 1, 0)


def test_a_check_taken_in_both_ledgers_is_reported_and_the_rest_comes_in(place: Place, tmp_path: Path) -> None:
    with Ledger.open(tmp_path / "a.ledger", place.key) as other:
        other.record(entry("1"), id="a")
        other.record(entry("2"), id="b")
        other.record(entry("3", done="returned"), id="c")
        lines = exported(other)
    with place.open() as ledger:
        ledger.record(entry("1"), id="mine")
        imported = import_(ledger, lines)
        assert imported[:2] == (2 + 1 + 3, 0)  # two checks, and the chain with its three entries
        assert imported.checked is not None
        assert [broken.said for lane in imported.checked.lanes for broken in lane.agreement.breaks] == [
            "the check recorded then was taken away"
        ]
        assert ["found another of it" in bad.message for bad in imported.bad] == [True]
        assert ledger.account_past(BANK, ACCOUNT, DAY, DAY).taken == 2


def edited(lines: list[str], table: str, change: dict[str, object]) -> list[str]:
    """*lines* with the first row of *table* changed."""
    place = next(n for n, line in enumerate(lines) if f'"table": "{table}"' in line)
    record = json.loads(lines[place])
    record["row"] |= change
    return [*lines[:place], json.dumps(record), *lines[place + 1 :]]


@pytest.mark.parametrize(
    ("table", "change"),
    [
        ("item", {"amount_cents": 4511}), ("item", {"taken_as": "converted"}), ("item", {"employee": "115"}),
        ("till", {"counted_cents": 1}), ("till", {"closed_by": "116"}), ("correction", {"reason": "none"}),
        ("counted", {"amount_cents": 1}), ("entry", {"at": "2026-11-24T09:31:00"}), ("entry", {"seal": "00" * 32}),
        ("chain", {"entries": 5}),
    ],
)  # fmt: skip
def test_an_export_that_was_changed_is_known_when_it_is_imported(
    ledger: Ledger, place: Place, tmp_path: Path, table: str, change: dict[str, object]
) -> None:
    fill(ledger)
    lines = exported(ledger)
    with Ledger.open(tmp_path / "copy.ledger", place.key) as copy:
        checked = import_(copy, edited(lines, table, change)).checked
        assert checked is not None
        assert not checked.all_agrees


@pytest.mark.parametrize("place", ["sqlite"], indirect=True)
def test_a_line_left_out_or_put_in_is_known_when_it_is_imported(ledger: Ledger, place: Place, tmp_path: Path) -> None:
    fill(ledger)
    lines = exported(ledger)
    sealed = [
        n for n, line in enumerate(lines) if '"table"' in line and not any(t in line for t in ("shown", "unpaid"))
    ]
    for number in sealed:
        with Ledger.open(tmp_path / f"{number}.ledger", place.key) as copy:
            imported = import_(copy, [*lines[:number], *lines[number + 1 :]])
            assert imported.checked is not None
            if '"table": "chain"' in lines[number]:  # nothing of the lane comes in, each line is told
                assert len(imported.bad) >= len(sealed) - 1
            else:
                assert not imported.checked.all_agrees, lines[number]
    item = json.loads(next(line for line in lines if '"table": "item"' in line))
    item["row"] |= {"id": "new", "item_token": None}
    with Ledger.open(tmp_path / "more.ledger", place.key) as copy:
        checked = import_(copy, [*lines, json.dumps(item)]).checked
        assert checked is not None
        assert not checked.all_agrees


def test_a_lane_that_went_on_goes_on_where_it_was_imported(ledger: Ledger, place: Place, tmp_path: Path) -> None:
    which = till.open(ledger, store="7", lane="3", by="114", at=MOMENT).id
    item = till.take(ledger, which, assessed(), "kept", by="114", at=MOMENT).id
    till.count(ledger, which, [till.Line("1043", 4510)])
    with Ledger.open(tmp_path / "office.ledger", place.key) as office:
        added(import_(office, exported(ledger)))
        assert till.report(office, which) == till.report(ledger, which)
        till.correct(ledger, item, "returned", reason="paid cash", by="114", second="MG", at=MOMENT)
        till.take(ledger, which, assessed("1044"), "kept", by="114", at=MOMENT)
        till.count(ledger, which, [till.Line("1044", 4510)])
        till.close(ledger, which, by="114", at=MOMENT)
        earlier = exported(office)
        added(import_(office, exported(ledger)))
        assert till.report(office, which) == till.report(ledger, which)
        added(import_(office, earlier))  # an earlier export changes nothing any more
        assert till.report(office, which) == till.report(ledger, which)
        # The office's own lane of that name has a chain of its own.
        own = till.open(office, store="7", lane="3", by="MG", at=MOMENT).id
        last = till.last(office, store="7", lane="3")
        assert last is not None
        assert last.id == own
        assert till.report(office, own).agreement.first == 1


@pytest.mark.parametrize(
    "change",
    [
        {"taken_as": "lost"}, {"amount_cents": "many"}, {"amount_cents": -5}, {"item_token": "xyz"}, {"till": "nothing"},
        {"item_token": "00"}, {"account_last4": "1234567890"}, {"day": None}, {"at": ["x"]}, {"more": 1},
        {"day": "2026-02-30"}, {"at": "noon"}, {"serial": True},
    ],
)  # fmt: skip
def test_a_bad_row_is_reported_and_the_rest_comes_in(place: Place, tmp_path: Path, change: dict[str, object]) -> None:
    with Ledger.open(tmp_path / "a.ledger", place.key) as other:
        for serial in "123":
            other.record(entry(serial), id=serial)
        head, *lines = exported(other)
    rows = [line for line in lines if '"table": "item"' in line]
    spoiled = json.loads(rows[1])
    spoiled["row"] |= change
    with place.open() as ledger:
        imported = import_(ledger, [head, rows[0], json.dumps(spoiled), "\n", "{", rows[2]])
        assert imported[:2] == (2, 0)
        assert [bad.line for bad in imported.bad] == [3, 5]
        assert ledger.account_past(BANK, ACCOUNT, DAY, DAY).taken == 2


@pytest.mark.parametrize("place", ["sqlite"], indirect=True)
@pytest.mark.parametrize(
    ("head", "said"),
    [
        ("", "with its head on the first line"),
        ("[]", "with its head on the first line"),
        ('{"schema_version": 99, "key_check": ""}', "read version 99"),
        ('{"schema_version": 2, "key_check": "00"}', "under this ledger's key"),
    ],
)
def test_what_is_no_export_of_this_ledger_is_refused(ledger: Ledger, head: str, said: str) -> None:
    with pytest.raises(LedgerError, match=said):
        import_(ledger, [head])


def test_old_tills_are_forgotten_whole_and_open_ones_never(ledger: Ledger) -> None:
    old = fill(ledger)
    early = MOMENT - timedelta(400)
    waiting = till.open(ledger, store="7", lane="4", by="114", at=early).id
    till.take(ledger, waiting, assessed("2000"), "kept", by="114", at=early)
    ledger.record(entry("3000", day=early.date(), at=early))
    ledger.record(entry("3001"))
    unpaid.add(ledger, unpaid.Return(BANK, "666666", early.date(), "1", 100, "R01"))
    unpaid.clear(ledger, BANK, "666666", on=early.date(), by="MG")
    assert purge(ledger, DAY) == Purged(items=1, tills=0, documents=0, unpaid=1)
    assert purge(ledger, DAY + timedelta(1)) == Purged(items=3, tills=1, documents=1, unpaid=0)
    with pytest.raises(LedgerError):
        till.report(ledger, old)
    assert till.report(ledger, waiting).expected == (1, 4510)
    assert ledger.is_listed(BANK, "555555")
    assert ledger.accounts_of_document("S123456789") == 0
    assert ledger.item_seen(BANK, ACCOUNT, "3000") is None
    assert ledger.item_seen(BANK, ACCOUNT, "2000") is not None


def test_what_is_forgotten_is_gone_from_the_file(tmp_path: Path) -> None:
    file = tmp_path / "shop.ledger"
    with Ledger.open(file, KEY) as ledger:
        for serial in range(300):
            ledger.record(entry(str(serial), drawer="PATRICIA FORGETTABLE", day=DAY - timedelta(400)))
        ledger.record(entry("1000"))
        ledger.database.empty_log()
        assert b"FORGETTABLE" in file.read_bytes()
        purge(ledger, DAY)
        assert all(b"FORGETTABLE" not in path.read_bytes() for path in tmp_path.iterdir())
