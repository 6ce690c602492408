"""A check is known when it comes again, by whatever its line has; and where it is not, that is told."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from ledger_world import DAY, MOMENT

import checkface as cf
from checkface.ledger import Ledger, Override, entry_of, till
from checkface.rules.history import Seen

TREASURY = [
    "⑈1234⑈ 5⑆000000518⑆ 123456780⑈ 0405",
    "⑈12345⑈ ⑆000000518⑆ 123456780⑈ 0405",
    "1234 5⑆000000518⑆123456780⑈ 0405",
]
POSTAL = [
    "⑆000000204⑆ 12345678901⑈", "⑆000000204⑆12345678901⑈", "⑆000000204⑆ 12345678901", "T000000204T 12345678901O",
    "t000000204t 12345678901o",
]  # fmt: skip
#: The order of serial and bank's code is open, and both are there.
OPEN_ORDER = ["⑆071098973⑆ 45601122⑈ 1043 22", "⑆071098973⑆ 4560 1122⑈ 1043 22"]


def assessed(ledger: Ledger | None, micr: str, **face: Any) -> cf.Assessment:
    counter = {"on": DAY.isoformat(), "amount": "45.10"}
    return cf.assess({"face": {"micr": micr, **face}, "counter": counter}, history=ledger)


def take(ledger: Ledger, which: str, micr: str, **face: Any) -> Any:
    check = assessed(None, micr, **face)
    told = till.TOLD[check.disposition] or "returned"
    why = Override("sample", "MG") if told != "kept" else None
    return till.take(ledger, which, check, "kept", by="114", at=MOMENT, override=why)


@pytest.fixture
def lane(ledger: Ledger) -> str:
    return till.open(ledger, store="", lane="3", by="114", at=MOMENT).id


@pytest.mark.parametrize("lines", [TREASURY, POSTAL, OPEN_ORDER], ids=["treasury", "postal", "open order"])
def test_a_check_without_account_or_serial_of_its_own_is_taken_once(
    ledger: Ledger, lane: str, lines: list[str]
) -> None:
    first = take(ledger, lane, lines[0])
    assert (first.is_recorded, first.known_again) == (True, True)
    for micr in lines:
        again = take(ledger, lane, micr)
        assert again.taken_before == Seen(DAY, "kept"), micr
        seen = [finding.rule for finding in assessed(ledger, micr).findings if finding.rule == "item-seen-before"]
        assert seen or micr == "1234 5⑆000000518⑆123456780⑈ 0405", micr
    assert len(till.report(ledger, lane).items) == 1


@pytest.mark.parametrize(
    "other",
    ["⑈1234⑈ 5⑆000000518⑆ 123456781⑈ 0405", "⑆000000204⑆ 12345678902⑈", "⑆071098973⑆ 45601122⑈ 1044 22"],
)
def test_its_neighbor_is_another(ledger: Ledger, lane: str, other: str) -> None:
    for lines in (TREASURY, POSTAL, OPEN_ORDER):
        assert take(ledger, lane, lines[0]).is_recorded
    assert take(ledger, lane, other).is_recorded


@pytest.mark.parametrize(
    "face",
    [
        {"micr": "⑆071098973⑆ 45601122⑈"},  # no serial anywhere: each check of the account has this line
        {"micr": "⑈001043⑈ ⑆071098973⑆"},  # no account: each customer of the bank has a check of that serial
        {"micr": "⑆071098973⑆ 4560?122⑈ 1043"},
        {"micr": ""},
        {"micr": "⑆000000204⑆ 1234567?901⑈"},
        {"micr": "⑆000000204⑆"},
    ],
    ids=lambda face: face["micr"],
)
def test_what_cannot_be_known_again_is_taken_and_told(ledger: Ledger, lane: str, face: dict[str, str]) -> None:
    for _ in range(2):
        taken = take(ledger, lane, **face)
        assert (taken.is_recorded, taken.known_again) == (True, False)
    assert not any(item.known_again for item in till.report(ledger, lane).items)


def test_a_treasury_check_counts_as_no_account_of_a_document(ledger: Ledger) -> None:
    check = assessed(None, TREASURY[0])
    entry = entry_of(check, "kept", at=MOMENT, employee="114")
    assert entry.known_by is not None
    for number in range(5):
        known = entry.known_by._replace(serial=str(number))
        assert ledger.record(replace(entry, known_by=known, documents=("S123456789",))).is_recorded
    assert ledger.accounts_of_document("S123456789") == 0
