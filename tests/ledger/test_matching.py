"""A list of counted checks against what was recorded."""

from __future__ import annotations

import os

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from checkface.ledger.columns import BadLine
from checkface.ledger.matching import Line, match, read_lines
from checkface.ledger.reconcile import Piece

EXAMPLES = 3000 if os.environ.get("CHECKFACE_THOROUGH") else 150
KEPT = [Piece("k1", "1043", 4510), Piece("k2", "207", 1999), Piece("k3", "88", 12000)]
CONVERTED = [Piece("c1", "311", 3000)]
RETURNED = [Piece("r1", "19", 825)]
ALL = [Line("1043", 4510), Line("207", 1999), Line("88", 12000)]


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        (ALL, []),
        ([Line("", line.amount_cents) for line in ALL], []),
        (ALL[1:], [("kept-missing", "1043", None)]),
        ([*ALL, Line("311", 3000)], [("converted-in-drawer", "311", None)]),
        ([*ALL, Line("", 3000)], [("converted-in-drawer", "311", None)]),
        ([*ALL, Line("19", 825)], [("returned-in-drawer", "19", None)]),
        ([*ALL, Line("207", 1999)], [("counted-twice", "207", None)]),
        ([Line("1043", 5410), *ALL[1:]], [("transposed-digits", "1043", 5410)]),
        ([Line("1043", 45100), *ALL[1:]], [("point-slipped", "1043", 45100)]),
        ([Line("1043", 4600), *ALL[1:]], [("amount-misread", "1043", 4600)]),
        ([Line("1048", 4510), *ALL[1:]], [("serial-differs", "1043", None)]),
        ([*ALL, Line("77", 700)], [("stranger", "77", None)]),
        ([], [("kept-missing", "1043", None), ("kept-missing", "207", None), ("kept-missing", "88", None)]),
        # A converted check in the drawer beats the serial it shares with a missing one.
        (
            [Line("311", 3000), *ALL[1:]],
            [("converted-in-drawer", "311", None), ("kept-missing", "1043", None)],
        ),
    ],
)
def test_what_a_list_shows(lines: list[Line], expected: list[tuple[str, str, int | None]]) -> None:
    slips = match(KEPT, CONVERTED, RETURNED, lines)
    assert [(slip.kind, slip.piece.serial, slip.counted_cents) for slip in slips] == expected
    assert not any(slip.others for slip in slips)


def test_amounts_alone_cannot_tell_two_equal_checks_apart() -> None:
    kept = [Piece("a", "1", 500), Piece("b", "2", 500)]
    (slip,) = match(kept, (), (), [Line("", 500)])
    assert slip.kind == "kept-missing"
    assert {slip.piece.id, *(other.piece.id for other in slip.others)} == {"a", "b"}
    (slip,) = match(kept, [Piece("c", "3", 500)], (), [Line("", 500)] * 3)
    assert [slip.kind, *(other.kind for other in slip.others)] == [
        "converted-in-drawer",
        "counted-twice",
        "counted-twice",
    ]


serial = st.sampled_from(["", "1", "2", "3"])
amount = st.sampled_from([0, 100, 120, 210, 1000])


@settings(max_examples=EXAMPLES, deadline=None)
@given(
    *(st.lists(st.builds(Piece, st.uuids().map(str), serial, amount), max_size=5) for _ in range(3)),
    st.lists(st.builds(Line, serial, amount), max_size=8),
)
def test_the_slips_always_sum_to_the_difference(
    kept: list[Piece], converted: list[Piece], returned: list[Piece], lines: list[Line]
) -> None:
    slips = match(kept, converted, returned, lines)
    assert sum(slip.checks for slip in slips) == len(lines) - len(kept)
    assert sum(slip.cents for slip in slips) == sum(line[1] for line in lines) - sum(piece[2] for piece in kept)


@settings(max_examples=EXAMPLES, deadline=None)
@given(st.lists(st.builds(Piece, st.uuids().map(str), serial, amount), max_size=6), st.randoms(), st.booleans())
def test_a_drawer_listed_in_any_order_agrees(kept: list[Piece], random: object, named: bool) -> None:
    lines = [Line(piece.serial if named else "", piece.amount_cents) for piece in kept]
    random.shuffle(lines)  # type: ignore[attr-defined]
    assert match(kept, (), (), lines) == ()


def test_a_counted_list_in_csv() -> None:
    read = list(read_lines(["Serial,Amount\n", "001043,$45.10\n", ",12\n", "1044,lots\n"]))
    assert read[:2] == [Line("1043", 4510), Line("", 1200)]
    assert read[2] == BadLine(4, "amount: Expected dollars such as 45.10, read something else.")
