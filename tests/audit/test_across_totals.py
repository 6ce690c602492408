"""Declared sums against the items: how they are written, what is said, and which one slip explains a difference."""

from __future__ import annotations

import pytest
from across_items import item
from hypothesis import given
from hypothesis import strategies as st

from checkface.audit import Skipped
from checkface.audit.across import Across, Counts, Declared, declared, together
from checkface.audit.across.sight import Sight
from checkface.audit.across.sums import Sums

DAY = [
    item(2, amount=4510),
    item(3, amount=1999, lane="4"),
    item(4, amount=12000),
    item(5, amount=2750, taken="converted"),
    item(6, amount=800, taken="returned", store="8"),
]
KEPT = 4510 + 1999 + 12000


def said(declarations: list[Declared], items: list[Sight] | None = None) -> list[str]:
    counts, sums = Counts(), Sums(declarations)
    for one in DAY if items is None else items:
        sums.add(one, counts)
    return [finding.message for finding in sums.findings(counts)]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("kept=185.09", Declared("kept", "", "", 18509, None)),
        (" converted = $1,234.50 ", Declared("converted", "", "", 123450, None)),
        ("kept@7=1", Declared("kept", "7", "", 100, None)),
        ("kept@7/3=1.00", Declared("kept", "7", "3", 100, None)),
        ("returned@/3=0", Declared("returned", "", "3", 0, None)),
        ("kept@7/ 3 north =1", Declared("kept", "7", "3 north", 100, None)),
    ],
)
def test_a_declaration(text: str, expected: Declared) -> None:
    assert declared(text) == expected


@pytest.mark.parametrize(
    ("text", "is_count", "sentence"),
    [
        ("kept", False, "Expected kept=1234.50 or the like, read 'kept'"),
        ("12", True, "Expected kept=12 or the like, read '12'"),
        ("taken=1", False, "Expected kept, converted or returned, read 'taken'"),
        ("kept=12.5", False, "Expected dollars such as 1234.50, read '12.5'"),
        ("kept=", False, "Expected dollars such as 1234.50, read ''"),
        ("kept=-1.00", False, "Expected dollars such as 1234.50, read '-1.00'"),
        ("kept=1.00", True, "Expected a number of checks, read '1.00'"),
        ("kept=²", True, "Expected a number of checks, read '²'"),
    ],
)
def test_what_is_no_declaration(text: str, is_count: bool, sentence: str) -> None:
    with pytest.raises(ValueError, match=r".") as caught:
        declared(text, is_count=is_count)
    assert str(caught.value) == sentence


@given(st.text(max_size=60), st.booleans())
def test_a_declaration_never_fails_otherwise(text: str, is_count: bool) -> None:
    try:
        assert isinstance(declared(text, is_count=is_count), Declared)
    except ValueError as error:
        assert str(error).startswith("Expected ")


def test_total_and_count_of_one_scope_go_together() -> None:
    parts = [declared("kept@7=1.00"), declared("kept=2.00"), declared("kept@7=3", is_count=True)]
    assert together(parts) == [Declared("kept", "7", "", 100, 3), Declared("kept", "", "", 200, None)]
    assert together(parts[::-1])[0] == Declared("kept", "7", "", 100, 3)
    with pytest.raises(ValueError, match=r"^Expected one total of kept in store 7, read another$"):
        together([*parts, declared("kept@7=1.00")])
    with pytest.raises(ValueError, match=r"^Expected one count of kept in store 7, read another$"):
        together([*parts, declared("kept@7=1", is_count=True)])


@pytest.mark.parametrize(
    "text", ["kept=185.09", "kept@7=185.09", "kept@7/3=165.10", "kept@7/4=19.99", "kept@/3=165.10", "converted=27.50",
             "returned@8=8.00", "kept@9=0", "converted@8=0.00"],
)  # fmt: skip
def test_what_agrees_is_not_said(text: str) -> None:
    assert said([declared(text)]) == []


def test_counts() -> None:
    assert said([declared("kept=3", is_count=True)]) == []
    assert said([declared("kept@7/3=3", is_count=True)]) == [
        "Kept in store 7, lane 3: declared 3 checks, the file has 2."
    ]
    assert said([declared("converted=2", is_count=True)]) == ["Converted: declared 2 checks, the file has 1."]


FILE = "the 3 checks of the file make $185.09"


@pytest.mark.parametrize(
    ("cents", "checks", "why"),
    [
        (KEPT - 1999, None, "One check explains it: the declaration lacks the $19.99 of day.csv:3 0003."),
        (KEPT - 1999, 2, "One check explains it: the declaration lacks the $19.99 of day.csv:3 0003."),
        (
            KEPT - 1999,
            3,
            "One check explains it: the declaration counts but does not add the $19.99 of day.csv:3 0003.",
        ),
        (
            KEPT + 2750,
            4,
            "One check explains it: recorded as converted and declared here the $27.50 of day.csv:5 0005.",
        ),
        (KEPT + 4510, 4, "One check explains it: declared twice the $45.10 of day.csv:2 0002."),
        (
            KEPT + 900,
            3,
            (
                "Any one of these explains it: $54.10 declared for the $45.10 of day.csv:2 0002; or $129.00 declared for "
                "the $120.00 of day.csv:4 0004."
            ),
        ),
        (KEPT - 900, 3, "One check explains it: $10.99 declared for the $19.99 of day.csv:3 0003."),
        (
            KEPT + 1999,
            3,
            "One check explains it: the declaration counts once but adds twice the $19.99 of day.csv:3 0003.",
        ),
        (KEPT + 4510 * 9, None, "One check explains it: $451.00 declared for the $45.10 of day.csv:2 0002."),
        (KEPT + 4510 * 9, 4, "None of the usual slips of one check explains it."),
        (KEPT + 1, 4, "None of the usual slips of one check explains it."),
        (KEPT - 7, None, "One check explains it: $19.92 declared for the $19.99 of day.csv:3 0003."),
        (0, 0, "None of the usual slips of one check explains it."),
    ],
)
def test_one_slip(cents: int, checks: int | None, why: str) -> None:
    (message,) = said([Declared("kept", "", "", cents, checks)])
    off = cents - KEPT
    amount = f"${abs(off) // 100:,}.{abs(off) % 100:02d} {'more' if off > 0 else 'less'} declared"
    number = "" if checks in {None, 3} else f"; declared {checks} check{'s' * (checks != 1)}, the file has 3"
    total = f"${cents // 100:,}.{cents % 100:02d}"
    assert message == f"Kept: declared {total}, {FILE}: {amount}{number}. {why}"


def test_several_slips_are_all_named() -> None:
    items = [*DAY, item(9, amount=1999)]
    (message,) = said([Declared("kept", "", "", KEPT, None)], items)
    assert message.endswith(
        "$19.99 less declared. Any one of these explains it: the declaration lacks the $19.99 of day.csv:3 0003 and day.csv:9 0009."
    )


def test_what_the_sum_cannot_know_is_said_and_counted() -> None:
    items = [*DAY, item(9, amount=None), item(10, taken=None), item(11, taken=None, lane="4")]
    counts, sums = Counts(), Sums([Declared("kept", "7", "3", 1, 3)])
    for one in items:
        sums.add(one, counts)
    (finding,) = sums.findings(counts)
    assert finding.message.endswith(
        "None of the usual slips of one check explains it. Not in the sum: 1 of them without an amount, of 1 more nothing says what was done with them."
    )
    assert counts.asked["totals-disagree"] == 5
    assert counts.unread["totals-disagree"] == {
        "no amount was read": 1, "nothing says what the lane did (taken_as)": 2,
    }  # fmt: skip


def test_a_skipped_row_is_said_and_nothing_is_claimed_to_explain_the_rest() -> None:
    across = Across(totals=[declared("kept=19.99")])
    assert across.add("day.csv", Skipped(2, "Expected dollars.")) == []
    (finding,) = across.finish()
    assert finding.message == (
        "Kept: declared $19.99, the 0 checks of the file make $0.00: $19.99 more declared. Not in the sum: 1 row skipped."
    )


def test_a_slip_that_fits_many_checks_is_counted() -> None:
    items = [item(line, amount=line * 1000) for line in range(2, 12)]
    (message,) = said([declared("kept=650.05")], items)
    assert message.endswith("Any one of these explains it: one digit misread of any of 10 checks.")


def test_what_is_not_in_the_sum_makes_every_explanation_a_guess() -> None:
    (message,) = said([declared("kept=165.10")], [*DAY, item(9, amount=None)])
    assert (
        "One check may explain it: the declaration lacks the $19.99 of day.csv:3 0003. Not in the sum: 1 of " in message
    )


def test_a_store_that_is_in_no_row_is_said() -> None:
    assert said([declared("kept@9=1.00")])[0].endswith("No check of the file is of store 9.")
    assert said([declared("kept@8/3=1.00")])[0].endswith("one check explains it.")
    assert "of store 7, lane 9." in said([declared("kept@7/9=1.00")])[0]


def test_a_number_filled_up_with_zeros_is_the_same_store() -> None:
    assert said([declared("kept@07/003=165.10")]) == []
    assert said([declared("kept@7=2.00")], [item(2, store="007", amount=200)]) == []
    assert len(said([declared("kept@A7=2.00")], [item(2, store="A07", amount=200)])) == 1
    with pytest.raises(ValueError, match="Expected one total of kept in store 7, read another"):
        together([declared("kept@07=1.00"), declared("kept@7=1.00")])


def test_a_card_number_in_the_place_of_a_store_is_masked() -> None:
    (message,) = said([declared("kept@4111111111111111=1.00")])
    assert "411111" not in message


def test_sums_are_exact_where_floats_are_not() -> None:
    items = [item(line, amount=10) for line in range(2, 12)]
    assert said([declared("kept=1.00")], items) == []
    (message,) = said([declared("kept=999999999.99")], items)
    assert "$999,999,998.99 more declared" in message
