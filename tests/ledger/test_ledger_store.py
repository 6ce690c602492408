"""The ledger remembers what passed, takes a check once, and answers what rules ask."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest
from clean_tender import house, patched
from ledger_world import ACCOUNT, BANK, DAY, MOMENT, Place, entry

import checkface as cf
from checkface.findings import Disposition
from checkface.ledger import Ledger, LedgerError, entry_of
from checkface.rules.history import AccountPast, History, Seen


def test_it_is_the_history_that_rules_ask(ledger: Ledger) -> None:
    history: History = ledger
    assert history.item_seen(BANK, ACCOUNT, "1043") is None
    assert not history.is_listed(BANK, ACCOUNT)
    assert history.account_past(BANK, ACCOUNT, DAY, DAY) == AccountPast(0, 0, None, ())
    assert history.accounts_of_document("D1234567") == 0


def test_a_check_is_taken_once_however_it_is_taken(ledger: Ledger) -> None:
    assert ledger.record(entry(done="converted")).is_recorded
    again = ledger.record(entry(done="kept", day=DAY + timedelta(1)))
    assert (again.is_recorded, again.taken_before) == (False, Seen(DAY, "converted"))
    assert ledger.item_seen(BANK, ACCOUNT, "1043") == Seen(DAY, "converted")
    assert len(ledger.items(BANK, ACCOUNT)) == 1


def test_a_check_handed_back_may_come_again(ledger: Ledger) -> None:
    for days in (2, 0):
        assert ledger.record(entry(done="returned", day=DAY - timedelta(days))).is_recorded
    assert ledger.item_seen(BANK, ACCOUNT, "1043") == Seen(DAY, "returned")
    assert ledger.record(entry(done="kept")).is_recorded
    # Refused later, it stays a check that was taken: its third coming must not pass for a mere return.
    assert ledger.record(entry(done="returned", day=DAY + timedelta(3))).is_recorded
    assert ledger.item_seen(BANK, ACCOUNT, "1043") == Seen(DAY, "kept")


@pytest.mark.parametrize(
    ("change", "same"),
    [
        ({"serial": "0001043"}, True),
        ({"account": "1234-567 890"}, True),
        ({"account": "01234567890"}, False),
        ({"routing": "041094664"}, False),
        ({"serial": "10430"}, False),
    ],
)
def test_what_makes_it_the_same_check(ledger: Ledger, change: dict[str, str], same: bool) -> None:
    ledger.record(entry())
    assert ledger.record(entry(**change)).is_recorded is not same


@pytest.mark.parametrize("missing", ["routing", "account", "serial"])
def test_a_check_with_a_number_unread_is_recorded_but_never_taken_for_another(ledger: Ledger, missing: str) -> None:
    for _ in range(2):
        assert ledger.record(entry(**{missing: ""})).is_recorded


def test_an_entry_repeated_with_its_id_is_the_same_entry(ledger: Ledger) -> None:
    first = ledger.record(entry(), id="a")
    again = ledger.record(entry(done="returned", disposition=Disposition.DECLINE), id="a")
    assert (first.is_recorded, first.before) == (True, None)
    assert again.is_recorded
    assert again.before is not None
    assert (again.before.id, again.before.done, again.before.at) == ("a", "kept", MOMENT)
    assert ledger.account_past(BANK, ACCOUNT, DAY, DAY).taken == 1
    with pytest.raises(LedgerError, match="expected a new id, read that of another entry"):
        ledger.record(entry(serial="1044"), id="a")


def test_the_past_of_an_account_counts_what_was_taken_within_the_days(ledger: Ledger) -> None:
    for day, serial, cents, done, drawer in [
        (0, "1040", 1000, "kept", "PAT DOE\n1 MAIN ST"),
        (3, "1041", 2000, "converted", "PAT DOE"),
        (4, "1042", 4000, "returned", "SAM ROE"),
        (5, "", 8000, "kept", "LEE POE"),
        (9, "1050", 16000, "kept", "NEW NAME"),
    ]:
        moment = MOMENT + timedelta(day)
        assert ledger.record(entry(serial, cents, done, day=moment.date(), at=moment, drawer=drawer)).is_recorded
    past = ledger.account_past(BANK, ACCOUNT, DAY, DAY + timedelta(5))
    assert past[:3] == (3, 11000, "1041")
    assert past.drawers[0] == "LEE POE"
    assert "SAM ROE" not in past.drawers
    assert ledger.account_past(BANK, ACCOUNT, DAY + timedelta(1), DAY + timedelta(3)).taken == 1
    assert ledger.account_past(BANK, "999", DAY, DAY + timedelta(9)).taken == 0


def test_a_document_is_known_by_the_accounts_it_was_shown_with(ledger: Ledger) -> None:
    for number, account in enumerate(["111111", "222222", "222222", "333333"]):
        ledger.record(entry(str(number), account=account, documents=("D123-4567",)))
    assert ledger.accounts_of_document("D1234567") == 3
    assert ledger.accounts_of_document("D9999999") == 0


def test_what_is_recorded_is_there_for_the_next_process(place: Place) -> None:
    with place.open() as first:
        first.record(entry())
    with place.open() as second:
        assert second.item_seen(BANK, ACCOUNT, "1043") == Seen(DAY, "kept")


def test_what_the_clerk_confirmed_is_recorded_with_who_did(ledger: Ledger) -> None:
    wire = patched({"face.payee": "Quillfeather Foods", "counter.confirmed": ["payee-near-house"]})
    assessed = cf.assess(wire, house())
    entry = entry_of(assessed, "converted", at=datetime(2026, 11, 24, 10, 5), employee="AB")
    assert ledger.record(entry).is_recorded
    (item,) = ledger.items(entry.routing, entry.account)
    assert (item.confirmed, item.employee) == (("payee-near-house",), "AB")
