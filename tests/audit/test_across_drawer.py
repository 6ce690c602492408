"""The paper in the drawer against the file: what is said, to the letter."""

from __future__ import annotations

from typing import Any

import pytest
from across_items import ITEM, item
from hypothesis import given
from hypothesis import strategies as st

import checkface as cf
from checkface.audit import Item
from checkface.audit.across import Counts, Drawer, Place
from checkface.audit.across.pairing import grade, may_be
from checkface.audit.across.sight import Sight

MISSING, CONVERTED, RETURNED = "kept-check-missing", "converted-check-in-drawer", "returned-check-in-drawer"
AMOUNT, STRANGER, EITHER = "drawer-amount-differs", "drawer-check-unexplained", "drawer-check-ambiguous"
NUMBERS: dict[str, Any] = {"routing": None, "account": None}
LISTED: dict[str, Any] = {**NUMBERS, "serial": None}


def paper(line: int, **changed: Any) -> Sight:
    """A paper with its line only, unless more is given."""
    return ITEM._replace(place=Place("drawer.csv", line), **{"taken": None, "amount": None} | changed)


def held(
    papers: list[Sight], checks: list[Sight], *, skipped: int = 0, rows: int = 0
) -> tuple[list[tuple[str, str]], Counts]:
    """What the drawer shows, as rule and message, in the order of rules and places."""
    drawer, counts = Drawer(), Counts()
    drawer.skipped = skipped
    for one in papers:
        drawer._add(one)
    for _ in range(rows):
        drawer.add_skipped_row()
    for one in checks:
        drawer.add_check(one, counts)
    found = sorted(drawer.findings(counts), key=lambda one: (one.rule, one.places))
    return [(one.rule, one.message) for one in found], counts


def test_a_drawer_that_agrees() -> None:
    checks = [
        item(2),
        item(3, serial="1044"),
        item(4, serial="1045", taken="converted"),
        item(5, serial="9", taken="returned"),
    ]
    found, counts = held([paper(2), paper(3, serial="1044")], checks)
    assert found == []
    assert counts.asked == {MISSING: 2, CONVERTED: 1, RETURNED: 1, STRANGER: 2}
    assert not counts.unread


@pytest.mark.parametrize(
    ("papers", "checks", "expected"),
    [
        (
            [],
            [item(2)],
            [(MISSING, "Kept and not in the drawer: check 1043 ($45.10, account ••••1122). The till is short by it.")],
        ),
        (
            [paper(4)],
            [item(2, taken="converted")],
            [
                (
                    CONVERTED,
                    (
                        "Converted and in the drawer (drawer.csv:4): check 1043 ($45.10, account ••••1122). Deposited, it "
                        "would be paid twice."
                    ),
                )
            ],
        ),
        (
            [paper(4)],
            [item(2, taken="returned")],
            [
                (
                    RETURNED,
                    "Recorded as handed back and in the drawer (drawer.csv:4): check 1043 ($45.10, account ••••1122).",
                )
            ],
        ),
        ([paper(4)], [item(2, taken="returned"), item(3)], []),
        (
            [paper(4, amount=5410)],
            [item(2)],
            [(AMOUNT, "Recorded with $45.10; the paper in the drawer (drawer.csv:4) says $54.10.")],
        ),
        (
            [paper(4), paper(5)],
            [item(2)],
            [
                (
                    STRANGER,
                    (
                        "In the drawer a second time, after drawer.csv:4: check 1043 (account ••••1122). No other check of the "
                        "file explains it."
                    ),
                )
            ],
        ),
        (
            [paper(4, **NUMBERS, serial="77", amount=1200)],
            [],
            [(STRANGER, "In the drawer, and no check of the file explains it: check 77 ($12.00).")],
        ),
        (
            [paper(4, **LISTED)],
            [],
            [(STRANGER, "In the drawer, and no check of the file explains it: a check without number.")],
        ),
        (
            [paper(4, **LISTED, amount=2000)],
            [item(2, amount=2000), item(3, serial="8", amount=2000)],
            [
                (
                    MISSING,
                    (
                        "Kept and not in the drawer: 1 of these 2, which nothing on the papers tells: day.csv:2 0002 and "
                        "day.csv:3 0003. The till is short by it."
                    ),
                )
            ],
        ),
        (
            [paper(4, **LISTED, amount=2000)],
            [item(2, amount=2000), item(3, serial="8", amount=2000, taken="converted")],
            [
                (
                    EITHER,
                    (
                        "In the drawer is 1 of these, and nothing tells which: day.csv:2 0002 (kept), day.csv:3 0003 "
                        "(converted)."
                    ),
                )
            ],
        ),
        (
            [paper(4, **LISTED, amount=2000)],
            [item(2, amount=2000, taken="converted"), item(3, serial="8", amount=2000, taken="converted")],
            [
                (
                    CONVERTED,
                    (
                        "Converted and in the drawer: 1 of these 2, which nothing on the papers tells: day.csv:2 0002 and "
                        "day.csv:3 0003. Deposited, it would be paid twice."
                    ),
                )
            ],
        ),
    ],
)
def test_what_is_said(papers: list[Sight], checks: list[Sight], expected: list[tuple[str, str]]) -> None:
    assert held(papers, checks)[0] == expected
    assert held(papers, checks[::-1])[0] == expected


@pytest.mark.parametrize(
    ("papers", "checks"),
    [
        ([paper(4, **NUMBERS, amount=4510)], [item(2)]),
        ([paper(4, **NUMBERS)], [item(2)]),
        ([paper(4, **LISTED, amount=4510)], [item(2)]),
        ([paper(4, routing=None)], [item(2)]),
        ([paper(4, serial=None, amount=4510)], [item(2)]),
        ([paper(4, amount=4510)], [item(2, routing=None, account=None)]),
        ([paper(4, amount=4510)], [item(2, routing=None, account=None, serial=None)]),
        # As many papers of one amount as checks: which is which makes no difference.
        ([paper(4, **LISTED, amount=4510), paper(5, **LISTED, amount=4510)], [item(2), item(3, serial="8")]),
        # The number goes before the amount, though the amount alone would fit as well.
        ([paper(4, **NUMBERS, amount=4510), paper(5, **LISTED, amount=4510)], [item(2), item(3, serial="8")]),
        ([paper(4, **LISTED, amount=4510), paper(5, **NUMBERS, amount=4510)], [item(3, serial="8"), item(2)]),
        ([paper(4), paper(5, **LISTED, amount=4510)], [item(2), item(3, serial="8")]),
    ],
)
def test_by_what_there_is(papers: list[Sight], checks: list[Sight]) -> None:
    assert held(papers, checks)[0] == []
    assert held(papers[::-1], checks[::-1])[0] == []


def test_a_paper_is_named_where_it_can_be_no_other() -> None:
    amounts = [paper(4, **LISTED, amount=2000), paper(5, **LISTED, amount=2000)]
    checks = [item(2, amount=2000, taken="converted"), item(3, serial="8", amount=2000, taken="converted")]
    found, _ = held(amounts[:1], checks[:1])
    assert found[0][1].startswith("Converted and in the drawer (drawer.csv:4): check 1043 ")
    found, _ = held(amounts, checks)
    assert [message[:35] for _, message in found] == ["Converted and in the drawer: check "] * 2


def test_one_of_three() -> None:
    checks = [item(line, serial=str(line), amount=2000, taken="converted") for line in (2, 3, 4)]
    ((_, message),) = held([paper(4, **LISTED, amount=2000)], checks)[0]
    assert message.startswith("Converted and in the drawer: 1 of these 3, ")


def test_the_paper_least_known_of_is_the_one_left_over() -> None:
    papers = [paper(4, **LISTED, amount=4510), paper(5, **NUMBERS, amount=4510)]
    assert held(papers, [item(2)])[0] == [
        (STRANGER, "In the drawer, and no check of the file explains it: a check without number ($45.10).")
    ]


def test_a_paper_listed_twice_explains_no_other_check() -> None:
    unread = item(3, routing=None, account=None, serial=None)
    assert [rule for rule, _ in held([paper(4), paper(5)], [item(2), unread])[0]] == [STRANGER, MISSING]


def test_a_contradiction_is_another_check() -> None:
    found, _ = held([paper(4, **NUMBERS, amount=4511)], [item(2), item(3, account="77889900")])
    assert [rule for rule, _ in found] == [STRANGER, MISSING, MISSING]
    found, _ = held([paper(4, routing=None, account="9", amount=4511)], [item(2)])
    assert [rule for rule, _ in found] == [STRANGER, MISSING]


def test_one_number_and_two_amounts_are_perhaps_one_check() -> None:
    listed = paper(4, **NUMBERS, amount=5410)
    found, counts = held([listed], [item(2)])
    assert found == [(AMOUNT, "Check 1043, recorded with $45.10, listed with $54.10 (drawer.csv:4): perhaps the same.")]
    assert counts.asked[MISSING] == 0
    assert counts.unread[MISSING] == {"a paper with their check number and another amount may be theirs": 1}
    other = item(3, account="77889900", taken="converted", amount=100)
    assert [rule for rule, _ in held([listed], [item(2), other])[0]] == [STRANGER, MISSING]
    assert [rule for rule, _ in held([listed, paper(5, **NUMBERS, amount=5411)], [item(2)])[0]] == [
        STRANGER, STRANGER, MISSING,
    ]  # fmt: skip


def test_what_may_be_there_is_not_called_missing() -> None:
    # The list has an amount only, of the check no amount was read: nobody can say.
    found, counts = held([paper(4, **LISTED, amount=4510)], [item(2, amount=None)])
    assert found == []
    assert counts.asked[MISSING] == counts.asked[STRANGER] == 0
    assert counts.unread[MISSING] == {"a paper in the drawer of which too little is known may be theirs": 1}
    assert counts.unread[STRANGER] == {"it may be a check of which too little is known": 1}
    # Only a number on the one, only an amount on the other.
    found, _ = held([paper(4, **NUMBERS, serial="7")], [item(2, routing=None, account=None, serial=None)])
    assert found == []


def test_the_best_of_what_agrees_is_not_certain() -> None:
    converted, kept = item(2, amount=2000, taken="converted"), item(3, serial="8", amount=None)
    assert [rule for rule, _ in held([paper(4, **LISTED, amount=2000)], [converted, kept])[0]] == [EITHER]
    other = item(3, routing="074098750", account="77889900", amount=None)
    assert [rule for rule, _ in held([paper(4, **NUMBERS, amount=2000)], [converted, other])[0]] == [EITHER]


def test_one_illegible_paper_hides_one_check() -> None:
    checks = [item(line, serial=str(line)) for line in range(2, 12)]
    ((rule, message),) = held([paper(4, **LISTED)], checks)[0]
    assert rule == MISSING
    assert message.startswith("Kept and not in the drawer: at least 9 of these 10, ")
    present = [paper(line, serial=str(line)) for line in range(2, 11)]
    assert held([paper(40, **LISTED), *present], checks)[0] == []
    assert [rule for rule, _ in held([paper(40, **LISTED), *present], checks[:-1])[0]] == [STRANGER]


def test_a_check_that_came_again_with_another_amount() -> None:
    back = item(2, taken="returned", amount=2000)
    assert held([paper(4, amount=2500)], [back, item(3, amount=2500)])[0] == []
    assert [rule for rule, _ in held([paper(4, amount=2500)], [back])[0]] == [AMOUNT, RETURNED]


def test_zeros_before_an_account_are_no_other_account() -> None:
    assert held([paper(4, account="0045601122")], [item(2)])[0] == []


@pytest.mark.parametrize("serial", ["4111111111111111", "1234567890123", "45601122"])
def test_a_long_number_in_the_place_of_the_check_number_is_masked(serial: str) -> None:
    found, _ = held([], [item(2, serial=serial)])
    assert serial not in found[0][1]
    assert f"check {'•' * (len(serial) - 4)}{serial[-4:]} (" in found[0][1]


def test_a_row_of_the_drawer_that_was_skipped_may_be_any_kept_check() -> None:
    checks = [item(line, serial=str(line)) for line in range(2, 6)]
    present = [paper(line, serial=str(line)) for line in range(2, 6)]
    assert held(present[1:], checks, skipped=1)[0] == []
    assert held(present[1:], checks, skipped=1)[1].unread[MISSING] == {"a row of the drawer was skipped": 1}
    assert held(present[1:], checks, skipped=1)[1].asked[MISSING] == 3
    ((rule, message),) = held(present[2:], checks, skipped=1)[0]
    assert (rule, message.partition(",")[0]) == (MISSING, "Kept and not in the drawer: at least 1 of these 2")
    assert held(present, checks, skipped=3)[0] == []


def test_a_row_of_the_file_that_was_skipped_may_be_any_paper() -> None:
    strange = [paper(line, serial=str(line)) for line in range(2, 5)]
    found, counts = held(strange[:1], [], rows=1)
    assert found == []
    assert counts.unread[STRANGER] == {"a row of the file was skipped": 1}
    assert held(strange, [], rows=2)[0] == [
        (STRANGER, ("In the drawer, and no check of the file explains at least 1 of these 3; 2 rows of the file were "
        "skipped: drawer.csv:2, drawer.csv:3 and drawer.csv:4.")),
    ]  # fmt: skip


def test_a_row_of_the_file_that_was_skipped_may_be_the_paper_of_an_amount() -> None:
    converted = [item(2, amount=2000, taken="converted")]
    found, counts = held([paper(4, **LISTED, amount=2000)], converted, rows=1)
    assert found == []
    assert counts.asked[CONVERTED] == 0
    assert counts.unread[CONVERTED] == {"a row of the file was skipped": 1}
    for changed in ({"amount": 2000}, {}):
        assert [rule for rule, _ in held([paper(4, **NUMBERS, **changed)], converted, rows=1)[0]] == [CONVERTED]


def test_many_of_one_amount_are_no_more_work_than_many_of_many() -> None:
    """Ten thousand papers of one amount, against checks of as many numbers: in steps, not in pairs."""
    checks = [item(line, serial=str(line), amount=2000) for line in range(2, 3002)]
    papers = [paper(line, **LISTED, amount=2000) for line in range(2, 3001)]
    ((rule, message),) = held(papers, checks)[0]
    assert (rule, message.partition(",")[0]) == (MISSING, "Kept and not in the drawer: 1 of these 3000")
    # Lines only on the one side, amounts only on the other: any may be any.
    amounts = [item(line, routing=None, account=None, serial=None, amount=line) for line in range(2, 3002)]
    ((rule, message),) = held([paper(line, serial=str(line)) for line in range(2, 3001)], amounts)[0]
    assert (rule, message.partition(",")[0]) == (MISSING, "Kept and not in the drawer: at least 1 of these 3000")


def test_what_cannot_be_asked_is_counted() -> None:
    numberless = item(2, serial=None, amount=None)
    found, counts = held([], [numberless, item(3, taken=None)])
    assert found == []
    assert counts.unread[MISSING] == {
        "neither their check number nor their amount was read": 1,
        "nothing says what the lane did (taken_as)": 1,
    }
    assert counts.unread[CONVERTED] == {"nothing says what the lane did (taken_as)": 1}
    found, counts = held(
        [paper(4, **LISTED, amount=2000)], [item(2, amount=2000), item(3, amount=2000, serial="8", taken="converted")]
    )
    assert counts.unread[MISSING] == counts.unread[CONVERTED] == {"a paper in the drawer may be one of several": 1}
    assert counts.asked[MISSING] == counts.asked[CONVERTED] == 0


def test_a_check_of_which_nothing_is_known_explains_its_paper() -> None:
    assert held([paper(4)], [item(2, taken=None)])[0] == []


def test_papers_are_read_like_checks() -> None:
    drawer, counts = Drawer(), Counts()
    drawer.add_paper("drawer.csv", Item(2, cf.parse({"face": {"micr": "T071098973T 45601122O 1043"}})))
    drawer.add_paper("drawer.csv", Item(3, cf.parse({"face": {"serial": "0207"}, "counter": {"amount": "12.00"}})))
    drawer.add_check(item(2), counts)
    drawer.add_check(item(3, serial="207", amount=1200), counts)
    assert list(drawer.findings(counts)) == []
    assert counts.asked[MISSING] == 2


_FIELDS = st.fixed_dictionaries(
    {
        "routing": st.sampled_from([None, "071098973", "074098750"]),
        "account": st.sampled_from([None, "11112222", "33334444"]),
        "serial": st.sampled_from([None, "1", "2"]),
        "amount": st.sampled_from([None, 100, 200]),
    }
)


@given(_FIELDS, _FIELDS)
def test_grades(one: dict[str, Any], other: dict[str, Any]) -> None:
    paper, check = ITEM._replace(**one), ITEM._replace(**other)
    step = grade(paper, check)
    assert step == grade(check, paper)
    agree = {name for name in one if one[name] is not None and one[name] == other[name]}
    unlike = {name for name in one if None not in (one[name], other[name]) and one[name] != other[name]}
    assert may_be(paper, check) == (not unlike)
    if {"routing", "account", "serial"} <= agree:
        assert step == 1
    elif unlike or not agree & {"serial", "amount"}:
        assert step is None
    else:
        assert step is not None
        assert step > 1


@given(st.lists(_FIELDS, max_size=5), st.lists(st.tuples(_FIELDS, st.sampled_from(["kept", "converted", "returned", None])), max_size=5), st.randoms())  # fmt: skip
def test_the_order_of_checks_changes_nothing(papers: list[dict[str, Any]], checks: list[tuple[dict[str, Any], str | None]], random: Any) -> None:  # fmt: skip
    listed = [paper(line, **fields) for line, fields in enumerate(papers, 2)]
    items = [item(line, taken=way, **fields) for line, (fields, way) in enumerate(checks, 2)]
    first, counts = held(listed, items)
    shuffled = random.sample(items, len(items))
    second, again = held(listed, shuffled)
    assert first == second
    assert (counts.asked, counts.unread) == (again.asked, again.unread)
    for rule in (MISSING, CONVERTED, RETURNED):
        assert counts.asked[rule] >= 0
    kept = sum(one.taken == "kept" for one in items)
    unknown = sum(one.taken is None for one in items)
    assert counts.asked[MISSING] + sum(counts.unread[MISSING].values()) == kept + unknown
