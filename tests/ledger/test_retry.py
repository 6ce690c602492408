"""An entry repeated after a lost answer is one entry, and the clerk is told what stands and where the paper goes."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta

import pytest
import sqlalchemy as sa
from dropping_proxy import DroppingProxy
from ledger_world import ACCOUNT, BANK, DAY, MOMENT, Place, assessed

from checkface.findings import Disposition
from checkface.ledger import Ledger, LedgerError, Override, Recorded, till
from checkface.ledger.wording import stands

CONVERT, KEEP, REFER, DECLINE = Disposition


@pytest.fixture
def lane(ledger: Ledger) -> str:
    return till.open(ledger, store="", lane="3", by="114", at=MOMENT, id="lane-3").id


def take(
    ledger: Ledger, which: str, told: Disposition, done: str, id: str | None = None, at: datetime = MOMENT
) -> Recorded:
    return till.take(ledger, which, assessed(told=told), done, by="114", at=at, id=id)  # type: ignore[arg-type]


def said(recorded: Recorded, which: str, at: datetime = MOMENT) -> str:
    assert recorded.before is not None
    return stands(recorded.before, till=which, at=at)


@pytest.mark.parametrize("id", [None, "mine"])
@pytest.mark.parametrize(
    ("told", "done", "words"),
    [
        (KEEP, "kept", "Already recorded at lane 3, 9:43 pm: kept. Put it in the drawer."),
        (CONVERT, "converted", "Already recorded at lane 3, 9:43 pm: converted. Void it and hand it back."),
    ],
)
@pytest.mark.parametrize(
    ("again", "what"), [(KEEP, "kept"), (DECLINE, "returned"), (CONVERT, "converted"), (REFER, "kept")]
)
def test_whatever_the_second_judgement_what_stands_is_told(
    ledger: Ledger, lane: str, id: str | None, told: Disposition, done: str, words: str, again: Disposition, what: str
) -> None:
    at = MOMENT.replace(hour=21, minute=43)
    first = take(ledger, lane, told, done, id, at)
    assert (first.is_recorded, first.before) == (True, None)
    second = take(ledger, lane, again, what, id, at + timedelta(minutes=1))
    assert said(second, lane, at) == words
    assert second.is_recorded is (id is not None)
    assert len(till.report(ledger, lane).items) == 1
    assert till.report(ledger, lane).expected == ((1, 4510) if done == "kept" else (0, 0))


def test_at_another_lane_the_answer_names_lane_hour_clerk_and_what_to_do(ledger: Ledger, lane: str) -> None:
    other = till.open(ledger, store="", lane="5", by="115", at=MOMENT).id
    take(ledger, lane, KEEP, "kept")
    assert said(take(ledger, other, DECLINE, "kept"), other) == (
        "Not recorded: already recorded at lane 3, 9:30 am, by 114: kept. "
        "It belongs in the drawer of lane 3: do not hand it back, call the manager."
    )
    tomorrow = MOMENT + timedelta(days=1)
    assert said(take(ledger, other, DECLINE, "kept"), other, tomorrow).startswith(
        "Not recorded: already recorded at lane 3, 11/24/2026 9:30 am, by 114: kept."
    )
    assert take(ledger, other, DECLINE, "returned").before is None  # its return at this lane is an entry of its own


def test_a_converted_check_at_another_lane_goes_back(ledger: Ledger, lane: str) -> None:
    other = till.open(ledger, store="2", lane="3", by="115", at=MOMENT).id
    take(ledger, other, CONVERT, "converted")
    assert said(take(ledger, lane, DECLINE, "kept"), lane) == (
        "Not recorded: already recorded at lane 3 of store 2, 9:30 am, by 114: converted. "
        "It was paid by an electronic debit: do not take it, hand it back."
    )


def test_a_return_with_its_id_is_one_return_and_a_check_handed_back_may_come_again(ledger: Ledger, lane: str) -> None:
    for _ in range(2):
        assert take(ledger, lane, DECLINE, "returned", "mine").is_recorded
    assert said(take(ledger, lane, DECLINE, "returned", "mine"), lane).endswith("returned. Hand it back.")
    assert take(ledger, lane, KEEP, "kept", "other").before is None
    assert len(till.report(ledger, lane).items) == 2


def test_the_id_of_another_check_is_refused(ledger: Ledger, lane: str) -> None:
    take(ledger, lane, KEEP, "kept", "mine")
    for other in (assessed("1044"), assessed(cents=4511)):
        with pytest.raises(LedgerError, match="expected a new id"):
            till.take(ledger, lane, other, "kept", by="114", at=MOMENT, id="mine")


def test_a_check_that_stands_needs_no_second_reason_and_no_open_till(ledger: Ledger, lane: str) -> None:
    till.take(ledger, lane, assessed(told=CONVERT), "kept", by="114", at=MOMENT, override=Override("asked", "MG"))
    till.count(ledger, lane, till.Total(1, 4510))
    till.close(ledger, lane, by="114", at=MOMENT)
    assert said(take(ledger, lane, CONVERT, "kept"), lane).startswith("Already recorded at lane 3, 9:30 am: kept.")


@pytest.fixture
def proxied(place: Place) -> Iterator[tuple[DroppingProxy, Ledger, Ledger]]:
    """A ledger behind a proxy that drops what it is told to, and the same ledger without it."""
    url = sa.make_url(place.url)
    assert url.host is not None
    with DroppingProxy(url.host, url.port or 5432) as proxy, place.open() as direct:
        text = url.set(host="127.0.0.1", port=proxy.port).render_as_string(hide_password=False)
        with Ledger.open(text, place.key, wait_seconds=1) as ledger:
            yield proxy, ledger, direct


@pytest.mark.parametrize("place", ["postgresql"], indirect=True)
@pytest.mark.parametrize("commits", [1, 2, 3])
def test_every_step_of_an_evening_whose_commit_is_not_acknowledged_is_done_once(
    proxied: tuple[DroppingProxy, Ledger, Ledger], commits: int
) -> None:
    proxy, ledger, direct = proxied
    proxy.arm(commits)
    which = till.open(ledger, store="", lane="3", by="114", at=MOMENT).id
    proxy.arm(commits)
    item = take(ledger, which, KEEP, "kept")
    assert item.is_recorded
    proxy.arm(commits)
    till.correct(ledger, item.id, "returned", reason="paid cash", by="114", second="MG", at=MOMENT)
    proxy.arm(commits)
    till.count(ledger, which, till.Total(0, 0))
    proxy.arm(commits)
    closed = till.close(ledger, which, by="114", at=MOMENT)
    assert proxy.dropped == 5 * commits
    assert till.report(direct, which) == closed
    assert (len(closed.items), len(closed.corrections), closed.agreement.breaks) == (1, 1, ())


@pytest.mark.parametrize("place", ["postgresql"], indirect=True)
@pytest.mark.parametrize("id", [None, "mine"])
def test_a_lane_cut_off_after_its_commit_repeats_the_entry_and_keeps_the_check(
    proxied: tuple[DroppingProxy, Ledger, Ledger], id: str | None
) -> None:
    proxy, ledger, direct = proxied
    which = till.open(ledger, store="", lane="3", by="114", at=MOMENT).id
    proxy.arm(1, shut=True)
    with pytest.raises(LedgerError) as error:
        take(ledger, which, KEEP, "kept", id)
    assert error.value.retry
    assert "Repeat the entry when it is back: no entry is recorded twice" in str(error.value)
    assert direct.account_past(BANK, ACCOUNT, DAY, DAY).taken == 1  # it was recorded, and nobody knows
    proxy.is_shut = False
    again = take(ledger, which, DECLINE, "returned", id)
    assert said(again, which) == "Already recorded at lane 3, 9:30 am: kept. Put it in the drawer."
    assert till.report(direct, which).expected == (1, 4510)
    assert not till.report(direct, which).agreement.breaks
