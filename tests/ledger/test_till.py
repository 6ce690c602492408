"""A till from opening to close."""

from __future__ import annotations

from datetime import timedelta

import pytest
from ledger_world import ACCOUNT, BANK, DAY, MOMENT, Place, assessed

from checkface.findings import Disposition
from checkface.ledger import Ledger, Override, till
from checkface.ledger.errors import TillError
from checkface.ledger.till import Line, Total
from checkface.rules.history import Seen

CONVERT, KEEP, REFER, DECLINE = Disposition


def opened(ledger: Ledger, lane: str = "3") -> str:
    return till.open(ledger, store="7", lane=lane, by="114", at=MOMENT, id=f"till-{lane}").id


def taken(ledger: Ledger, which: str, serial: str, cents: int, told: Disposition = KEEP, done: str = "kept") -> str:
    result = till.take(ledger, which, assessed(serial, cents, told), done, by="114", at=MOMENT)
    assert result.is_recorded
    return result.id


def test_a_day_that_agrees(ledger: Ledger) -> None:
    which = opened(ledger)
    taken(ledger, which, "1043", 4510)
    taken(ledger, which, "1044", 2000, CONVERT, "converted")
    taken(ledger, which, "1045", 900, DECLINE, "returned")
    till.count(ledger, which, Total(1, 4510))
    report = till.close(ledger, which, by="115", at=MOMENT + timedelta(hours=8))
    assert report.expected == (1, 4510)
    assert report.difference == (0, 0)
    assert report.explanation is not None
    assert report.explanation.sets == ((),)
    assert (report.till.closed_by, report.till.day) == ("115", DAY)
    assert [len(report.taken_as(done)) for done in ("kept", "converted", "returned")] == [1, 1, 1]
    assert till.find(ledger, store="7", lane="3") is None


def test_a_short_total_is_explained_by_the_check_that_is_missing(ledger: Ledger) -> None:
    which = opened(ledger)
    for serial, cents in [("1043", 4510), ("1044", 2999), ("1045", 12000)]:
        taken(ledger, which, serial, cents)
    till.count(ledger, which, Total(2, 16510))
    explanation = till.report(ledger, which).explanation
    assert explanation is not None
    assert explanation.is_only
    assert [(slip.kind, slip.piece.serial, slip.piece.account_last4) for slip in explanation.sets[0]] == [
        ("kept-missing", "1044", "7890")
    ]


def test_a_list_shows_the_converted_check_left_in_the_drawer(ledger: Ledger) -> None:
    which = opened(ledger)
    taken(ledger, which, "1043", 4510)
    taken(ledger, which, "1044", 2000, CONVERT, "converted")
    till.count(ledger, which, [Line("1043", 4510), Line("001044", 2000)])
    report = till.close(ledger, which, by="114", at=MOMENT)
    assert report.difference == (1, 2000)
    assert report.explanation is not None
    assert [slip.kind for slip in report.explanation.sets[0]] == ["converted-in-drawer"]


@pytest.mark.parametrize("place", ["sqlite"], indirect=True)
@pytest.mark.parametrize(
    ("told", "done", "needs"),
    [
        (CONVERT, "converted", False), (CONVERT, "kept", True), (CONVERT, "returned", True),
        (KEEP, "converted", True), (KEEP, "kept", False), (KEEP, "returned", True),
        (REFER, "converted", True), (REFER, "kept", True), (REFER, "returned", False),
        (DECLINE, "converted", True), (DECLINE, "kept", True), (DECLINE, "returned", False),
    ],
)  # fmt: skip
def test_doing_other_than_told_needs_a_reason_and_a_second_person(
    ledger: Ledger, told: Disposition, done: str, needs: bool
) -> None:
    which = opened(ledger)

    def take(override: Override | None = None) -> None:
        till.take(ledger, which, assessed(told=told), done, by="114", at=MOMENT, override=override)

    if not needs:
        take()
        assert till.report(ledger, which).overrides == ()
        return
    for override in (None, Override(" ", "MG"), Override("known customer", ""), Override("known customer", "114")):
        with pytest.raises(TillError):
            take(override)
    assert till.report(ledger, which).items == ()
    take(Override("known  customer", "MG"))
    (item,) = till.report(ledger, which).overrides
    assert item.override == Override("known customer", "MG")


def test_no_override_takes_a_check_twice(ledger: Ledger) -> None:
    first, second = opened(ledger, "3"), opened(ledger, "4")
    taken(ledger, first, "1043", 4510)
    again = till.take(
        ledger, second, assessed(told=DECLINE), "kept", by="115", at=MOMENT, override=Override("insists", "MG")
    )
    assert again.taken_before == Seen(DAY, "kept")
    assert till.report(ledger, second).items == ()


def test_an_amount_is_needed_for_what_is_taken(ledger: Ledger) -> None:
    which = opened(ledger)
    with pytest.raises(TillError, match="amount"):
        till.take(ledger, which, assessed(cents=None), "kept", by="114", at=MOMENT)
    assert till.take(ledger, which, assessed(cents=None), "kept", by="114", at=MOMENT, amount_cents=500).is_recorded
    assert till.take(ledger, which, assessed("2", None, DECLINE), "returned", by="114", at=MOMENT).is_recorded


def test_one_open_till_a_lane(ledger: Ledger) -> None:
    which = opened(ledger)
    found = till.find(ledger, store="7", lane="3")
    assert found is not None
    assert found.id == which
    assert opened(ledger) == which  # the same opening, repeated
    with pytest.raises(TillError, match="close it first"):
        till.open(ledger, store="7", lane="3", by="114", at=MOMENT)
    till.count(ledger, which, Total(0, 0))
    till.close(ledger, which, by="114", at=MOMENT)
    later = till.open(ledger, store="7", lane="3", by="114", at=MOMENT).id
    assert later != which
    for expected, hour in ((later, 1), (later, 2)):
        last = till.last(ledger, store="7", lane="3")
        assert last is not None
        assert last.id == expected
        if last.closed_at is None:
            till.count(ledger, later, Total(0, 0))
            till.close(ledger, later, by="114", at=MOMENT + timedelta(hours=hour))
    assert till.last(ledger, store="7", lane="99") is None


def test_what_a_till_refuses(ledger: Ledger) -> None:
    which = opened(ledger)
    with pytest.raises(TillError, match="counted before"):
        till.close(ledger, which, by="114", at=MOMENT)
    till.count(ledger, which, Total(0, 0))
    taken(ledger, which, "1043", 4510)
    with pytest.raises(TillError, match="1 taken since; count again"):
        till.close(ledger, which, by="114", at=MOMENT)
    with pytest.raises(TillError, match="below zero"):
        till.count(ledger, which, [Line("1", -1)])
    till.count(ledger, which, [Line("1043", 4510)])
    closed = till.close(ledger, which, by="114", at=MOMENT)
    assert till.close(ledger, which, by="114", at=MOMENT) == closed  # the same close, repeated
    with pytest.raises(TillError, match="found it closed"):
        till.close(ledger, which, by="115", at=MOMENT)
    with pytest.raises(TillError, match="found it closed"):
        till.count(ledger, which, Total(0, 0))
    with pytest.raises(TillError, match="found it closed"):
        taken(ledger, which, "1044", 1)
    with pytest.raises(TillError, match="id of a till"):
        till.report(ledger, "nothing")
    with pytest.raises(TillError, match="characters"):
        till.open(ledger, store="7", lane="9", by="", at=MOMENT)


def test_a_second_count_replaces_the_first(ledger: Ledger) -> None:
    which = opened(ledger)
    till.count(ledger, which, [Line("1", 100), Line("2", 200)])
    assert till.report(ledger, which).lines == (Line("1", 100), Line("2", 200))
    till.count(ledger, which, Total(2, 400))
    report = till.report(ledger, which)
    assert (report.lines, report.till.counted) == (None, (2, 400))


def test_a_correction_moves_the_check_and_keeps_the_first_record(ledger: Ledger) -> None:
    which = opened(ledger)
    item = taken(ledger, which, "1043", 4510)
    for _ in range(2):
        till.correct(ledger, item, "returned", reason="paid cash", by="114", second="MG", at=MOMENT, id="c1")
    report = till.report(ledger, which)
    assert report.expected == (0, 0)
    assert [(c.was, c.became, c.reason, c.second) for c in report.corrections] == [
        ("kept", "returned", "paid cash", "MG")
    ]
    assert ledger.item_seen(BANK, ACCOUNT, "1043") == Seen(DAY, "returned")
    other = opened(ledger, "4")
    taken(ledger, other, "1043", 4510)
    with pytest.raises(TillError, match="taken elsewhere"):
        till.correct(ledger, item, "kept", reason="was kept", by="114", second="MG", at=MOMENT)
    assert len(till.report(ledger, which).corrections) == 1
    with pytest.raises(TillError, match="second person"):
        till.correct(ledger, item, "kept", reason="was kept", by="114", second="114", at=MOMENT)
    with pytest.raises(TillError, match="id of a check"):
        till.correct(ledger, "nothing", "kept", reason="x", by="114", second="MG", at=MOMENT)


def test_documents_are_kept_only_where_they_may_be(ledger: Ledger) -> None:
    which = opened(ledger)
    shown = ("S123-456-789",)
    till.take(ledger, which, assessed("1", documents=shown), "kept", by="114", at=MOMENT)
    till.take(
        ledger, which, assessed("2", account="22222222", documents=shown), "kept", by="1", at=MOMENT, documents=False
    )
    assert ledger.accounts_of_document("S123456789") == 1


def test_the_till_is_there_after_a_restart(place: Place) -> None:
    with place.open() as ledger:
        which = opened(ledger)
        taken(ledger, which, "1043", 4510)
    with place.open() as ledger:
        assert till.report(ledger, which).expected == (1, 4510)
