"""The whole way round: a check is assessed, taken, and the next assessment knows of it."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

import pytest
from clean_tender import house

import checkface as cf
from checkface.ledger import Ledger, Override, till, unpaid

HOUSE = house()
MOMENT = datetime(2026, 11, 24, 10, 0)
WHY = Override("customer insists", "MG")


def found(assessment: cf.Assessment) -> set[str]:
    return {finding.rule for finding in assessment.findings}


@pytest.fixture
def lane(ledger: Ledger) -> str:
    return till.open(ledger, store="7", lane="3", by="114", at=MOMENT).id


def test_a_check_taken_is_seen_when_it_comes_again(ledger: Ledger, lane: str, clean: dict[str, Any]) -> None:
    first = cf.assess(clean, HOUSE, history=ledger)
    assert "item-seen-before" not in found(first)
    assert first.disposition is cf.Disposition.CONVERT
    assert till.take(ledger, lane, first, "converted", by="114", at=MOMENT).is_recorded
    for _ in range(2):
        again = cf.assess(clean, HOUSE, history=ledger)
        assert "item-seen-before" in found(again)
        assert again.disposition is cf.Disposition.DECLINE
        assert not till.take(ledger, lane, again, "kept", by="114", at=MOMENT, override=WHY).is_recorded
        assert not till.take(ledger, lane, again, "returned", by="114", at=MOMENT).is_recorded


def test_a_listed_account_is_declined_until_it_is_cleared(ledger: Ledger, clean: dict[str, Any]) -> None:
    line = cf.read(cf.parse(clean)).line
    assert line is not None
    assert line.routing is not None
    assert line.account is not None
    unpaid.add(ledger, unpaid.Return(line.routing, line.account, MOMENT.date(), reason="R01"))
    assert "account-on-house-list" in found(cf.assess(clean, HOUSE, history=ledger))
    unpaid.clear(ledger, line.routing, line.account, on=MOMENT.date(), by="MG")
    assert "account-on-house-list" not in found(cf.assess(clean, HOUSE, history=ledger))


def test_many_checks_in_a_week_a_new_name_and_a_far_serial(ledger: Ledger, lane: str, clean: dict[str, Any]) -> None:
    for serial in range(2001, 2006):
        clean["face"]["micr"] = f"⑆071098973⑆ 45601122⑈ {serial}"
        clean["face"]["serial"] = str(serial)
        check = cf.assess(clean, HOUSE, history=ledger)
        assert not found(check) & {"velocity-count", "serial-far-from-last", "drawer-changed"}
        assert till.take(ledger, lane, check, "converted", by="114", at=MOMENT).is_recorded
    clean["face"] |= {"micr": "⑆071098973⑆ 45601122⑈ 9001", "serial": "9001", "drawer": ["Bruno Otherman"]}
    last = cf.assess(clean, HOUSE, history=ledger)
    assert found(last) >= {"velocity-count", "serial-far-from-last", "drawer-changed"}
    clean["counter"]["on"] = (MOMENT + timedelta(days=10)).date().isoformat()
    assert not found(cf.assess(clean, HOUSE, history=ledger)) & {"velocity-count", "drawer-changed"}


def test_one_document_with_many_accounts(ledger: Ledger, lane: str, clean: dict[str, Any]) -> None:
    clean["documents"][0]["number"] = "S530-4407-9921"
    for account in ("45601122", "45601123", "45601124", "45601125"):
        clean["face"]["micr"] = f"⑆071098973⑆ {account}⑈ 1043"
        check = cf.assess(clean, HOUSE, history=ledger)
        assert "id-many-accounts" not in found(check)
        till.take(ledger, lane, check, "kept", by="114", at=MOMENT, override=WHY)
    assert "id-many-accounts" in found(cf.assess(clean, HOUSE, history=ledger))
