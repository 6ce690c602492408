"""The records family on a history that is made up for each question."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

import pytest
from clean_tender import patched

import checkface as cf
from checkface.findings import Outcome
from checkface.rules.history import AccountPast, Seen

NOTHING = AccountPast(0, 0, None, ())


@dataclass
class Past:
    """A history that answers what it is told, and remembers what it was asked."""

    seen: Seen | None = None
    listed: bool = False
    past: AccountPast = NOTHING
    accounts: int = 0
    asked: tuple[Any, ...] = ()

    def item_seen(self, routing: str, account: str, serial: str) -> Seen | None:
        self.asked = (routing, account, serial)
        return self.seen

    def is_listed(self, routing: str, account: str) -> bool:
        return self.listed

    def account_past(self, routing: str, account: str, since: date, until: date) -> AccountPast:
        self.asked_window = (since, until)
        return self.past

    def accounts_of_document(self, document: str) -> int:
        self.asked_document = document
        return self.accounts


LICENCE = [
    {"kind": "drivers-license", "state": "17", "number": "A12345678901", "expires": "2029-05-01", "name": "Ada Sample"}
]
RULES = [entry for entry in cf.rules() if entry.family == "records"]


def outcome(
    rule: str, past: Past | None, patch: dict[str, Any] | None = None, **house: Any
) -> tuple[Outcome, list[str]]:
    found = cf.assess(patched({"documents": LICENCE, **(patch or {})}), cf.Policy(history=house), past)
    return found.examination.outcomes[rule], [f.message for f in found.findings if f.rule == rule]


@pytest.mark.parametrize("rule", [entry.id for entry in RULES])
def test_nothing_known_is_held_and_no_history_is_not_asked(rule: str) -> None:
    assert outcome(rule, Past(), amount="1000.00")[0] is Outcome.HELD
    assert outcome(rule, None)[0] is Outcome.NOT_APPLICABLE


@pytest.mark.parametrize("rule", [entry.id for entry in RULES if "account" in entry.needs])
def test_without_an_account_they_are_unread(rule: str) -> None:
    assert outcome(rule, Past(), {"face.micr": "⑆071098973⑆"}, amount="1000.00")[0] is Outcome.UNREAD


def test_item_seen_before() -> None:
    past = Past(seen=Seen(date(2026, 11, 17), "converted"))
    assert outcome("item-seen-before", past) == (
        Outcome.FOUND,
        ["This check was here before: converted to a debit on 11/17/2026."],
    )
    assert past.asked == ("071098973", "45601122", "1043")


def test_a_check_handed_back_before_is_only_noted() -> None:
    found = cf.assess(patched({}), history=Past(seen=Seen(date(2026, 11, 17), "returned")))
    assert [f.effect for f in found.findings if f.rule == "item-seen-before"] == ["note"]


def test_account_on_house_list() -> None:
    assert outcome("account-on-house-list", Past(listed=True)) == (
        Outcome.FOUND,
        ["The account is on the house's list of unpaid accounts."],
    )


@pytest.mark.parametrize(("before", "found"), [(4, Outcome.HELD), (5, Outcome.FOUND)])
def test_velocity_count_counts_this_one(before: int, found: Outcome) -> None:
    past = Past(past=AccountPast(before, 0, None, ()))
    assert outcome("velocity-count", past)[0] is found
    assert past.asked_window == (date(2026, 11, 18), date(2026, 11, 24))


@pytest.mark.parametrize(("before", "found"), [(95490, Outcome.HELD), (95491, Outcome.FOUND)])
def test_velocity_amount_adds_this_one(before: int, found: Outcome) -> None:
    past = Past(past=AccountPast(1, before, None, ()))
    assert outcome("velocity-amount", past, amount="1000.00")[0] is found


@pytest.mark.parametrize(("last", "found"), [("543", Outcome.HELD), ("542", Outcome.FOUND), ("001543", Outcome.HELD)])
def test_serial_far_from_last(last: str, found: Outcome) -> None:
    assert outcome("serial-far-from-last", Past(past=AccountPast(1, 1, last, ())))[0] is found


@pytest.mark.parametrize(
    ("name", "found"),
    [("ADA SAMPLE", Outcome.HELD), ("Ada M. Sample", Outcome.HELD), ("Quentin Testwell", Outcome.FOUND)],
)
def test_drawer_changed(name: str, found: Outcome) -> None:
    assert outcome("drawer-changed", Past(past=AccountPast(1, 1, None, (name,))))[0] is found


@pytest.mark.parametrize(("accounts", "found"), [(3, Outcome.HELD), (4, Outcome.FOUND)])
def test_id_many_accounts(accounts: int, found: Outcome) -> None:
    assert outcome("id-many-accounts", Past(accounts=accounts))[0] is found


def test_a_forbidden_number_is_never_looked_up() -> None:
    past = Past(accounts=99)
    assert (
        outcome("id-many-accounts", past, {"documents": [{**LICENCE[0], "number": "123-45-6789"}]})[0] is Outcome.UNREAD
    )
    assert not hasattr(past, "asked_document")


def test_a_worse_history_never_betters() -> None:
    clean = cf.assess(patched({}), history=Past())
    for past in (
        Past(seen=Seen(date(2026, 11, 1), "kept")),
        Past(listed=True),
        Past(past=AccountPast(9, 9, "9", ("X Y",))),
    ):
        assert cf.assess(patched({}), history=past).disposition >= clean.disposition
