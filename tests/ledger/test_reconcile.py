"""Explanations of a drawer that is short or over, held against trying every set of slips."""

from __future__ import annotations

import os
from itertools import combinations

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from checkface.ledger.reconcile import Piece, Slip, explain, slides, slips_of_adding, transpositions

EXAMPLES = 1500 if os.environ.get("CHECKFACE_THOROUGH") else 150
KEPT = [Piece("k1", "1043", 4510), Piece("k2", "207", 1999), Piece("k3", "88", 12000), Piece("k4", "5001", 7325)]
CONVERTED = [Piece("c1", "311", 3000), Piece("c2", "312", 6050)]
RETURNED = [Piece("r1", "19", 825)]
CHECKS, CENTS = len(KEPT), sum(piece.amount_cents for piece in KEPT)


@pytest.mark.parametrize(
    ("checks", "cents", "expected"),
    [
        (-1, -4510, [("kept-missing", "1043")]),
        (-2, -19325, [("kept-missing", "5001"), ("kept-missing", "88")]),
        (1, 3000, [("converted-in-drawer", "311")]),
        (1, 825, [("returned-in-drawer", "19")]),
        (1, 7325, [("counted-twice", "5001")]),
        (0, -12000, [("amount-left-out", "88")]),
        (0, 12000, [("amount-added-twice", "88")]),
        (0, 900, [("transposed-digits", "1043")]),  # 45.10 as 54.10
        (0, 40590, [("point-slipped", "1043")]),  # 45.10 as 451.00
        (0, 1540, [("converted-in-drawer", "312"), ("kept-missing", "1043")]),  # the wrong one of two handed back
    ],
)
def test_one_explanation_and_no_other(checks: int, cents: int, expected: list[tuple[str, str]]) -> None:
    found = explain(KEPT, CONVERTED, RETURNED, checks=CHECKS + checks, cents=CENTS + cents)
    assert found.is_only
    assert sorted((slip.kind, slip.piece.serial) for slip in found.sets[0]) == expected


def test_a_drawer_that_agrees_has_nothing_to_explain() -> None:
    assert explain(KEPT, CONVERTED, RETURNED, checks=CHECKS, cents=CENTS).sets == ((),)


def test_two_checks_of_one_amount_leave_two_explanations() -> None:
    kept = [*KEPT, Piece("k5", "1044", 4510)]
    found = explain(kept, (), (), checks=len(kept) - 1, cents=CENTS)
    assert sorted(slips[0].piece.serial for slips in found.sets) == ["1043", "1044"]
    assert found.is_complete
    assert not found.is_only


def test_what_nothing_fits_is_said_to_fit_nothing() -> None:
    found = explain(KEPT, (), (), checks=CHECKS - 1, cents=CENTS - 1)
    assert (found.sets, found.is_complete, found.is_only) == ((), True, False)


def test_a_search_that_is_stopped_never_claims_to_be_the_only_answer() -> None:
    kept = [Piece(str(i), str(i), 1000 + 7 * i) for i in range(200)]
    total = sum(piece.amount_cents for piece in kept)
    missing = sum(piece.amount_cents for piece in kept[50:55])
    found = explain(kept, (), (), checks=195, cents=total - missing, steps=2000)
    assert not found.is_complete
    assert not found.is_only
    found = explain(kept, (), (), checks=195, cents=total - 5001, steps=2000)
    assert found.sets == ()


def test_many_explanations_are_cut_off_and_said_to_be() -> None:
    kept = [Piece(str(i), str(i), 100) for i in range(40)]
    found = explain(kept, (), (), checks=39, cents=3900, most_sets=5)
    assert (len(found.sets), found.is_complete) == (5, False)


@given(st.integers(0, 10**9))
def test_slips_of_adding_differ_by_a_multiple_of_nine(cents: int) -> None:
    for wrong in transpositions(cents) | slides(cents):
        assert wrong != cents
        assert (wrong - cents) % 9 == 0


@pytest.mark.parametrize(
    ("cents", "wrong"),
    [(4510, {5410, 4150, 4501}), (505, {55, 550}), (1000, {100}), (5, {50}), (0, set()), (1111, set())],
)
def test_transpositions_are_the_exchanges_of_neighbours(cents: int, wrong: set[int]) -> None:
    assert transpositions(cents) == wrong


small = st.integers(1, 40).map(lambda tens: tens * 5)


def pieces(letter: str, most: int) -> st.SearchStrategy[list[Piece]]:
    return st.lists(small, max_size=most).map(
        lambda amounts: [Piece(f"{letter}{i}", str(i), cents) for i, cents in enumerate(amounts)]
    )


def every_shortest_set(
    kept: list[Piece], converted: list[Piece], returned: list[Piece], target: tuple[int, int], most: int
) -> set[frozenset[Slip]]:
    """By trying all of them."""
    presence = [Slip("kept-missing", p, -1, -p.amount_cents) for p in kept]
    presence += [Slip("counted-twice", p, 1, p.amount_cents) for p in kept]
    presence += [Slip("converted-in-drawer", p, 1, p.amount_cents) for p in converted]
    presence += [Slip("returned-in-drawer", p, 1, p.amount_cents) for p in returned]
    for size in range(most + 1):
        pool = presence + ([slip for p in kept for slip in slips_of_adding(p)] if size == 1 else [])
        fitting = {
            frozenset(slips)
            for slips in combinations(pool, size)
            if (sum(s.checks for s in slips), sum(s.cents for s in slips)) == target
        }
        if fitting:
            return fitting
    return set()


@settings(max_examples=EXAMPLES, deadline=None)
@given(pieces("k", 6), pieces("c", 3), pieces("r", 2), st.integers(-4, 4), st.integers(-80, 80).map(lambda n: n * 5))
@example([Piece("k0", "0", 5), Piece("k1", "1", 10)], [Piece("c0", "0", 5)], [], -1, -10)
@example([], [], [], 3, 15)
def test_every_shortest_explanation_is_found_and_nothing_else(
    kept: list[Piece], converted: list[Piece], returned: list[Piece], checks: int, cents: int
) -> None:
    counted = (len(kept) + checks, sum(piece.amount_cents for piece in kept) + cents)
    found = explain(
        kept, converted, returned, checks=counted[0], cents=counted[1], most_slips=4, most_sets=10**6, steps=10**9
    )
    assert found.is_complete
    assert len(found.sets) == len({frozenset(slips) for slips in found.sets})
    assert {frozenset(slips) for slips in found.sets} == every_shortest_set(
        kept, converted, returned, (checks, cents), 4
    )


@settings(max_examples=EXAMPLES, deadline=None)
@given(st.data())
def test_a_planted_difference_is_among_the_explanations_or_a_shorter_one_is(data: st.DataObject) -> None:
    kept = data.draw(pieces("k", 30))
    gone = data.draw(st.sets(st.sampled_from(kept), max_size=3)) if kept else set()
    total = sum(p.amount_cents for p in kept) - sum(p.amount_cents for p in gone)
    found = explain(kept, (), (), checks=len(kept) - len(gone), cents=total, most_sets=10**6)
    assert found.is_complete
    planted = {piece.id for piece in gone}
    assert any({slip.piece.id for slip in slips} == planted for slips in found.sets)
