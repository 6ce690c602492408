"""The rules that hold checks against one another: where each holds, what exactly it says, and where it cannot be asked."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from across_items import ITEM, LAYOUT, asked, item, said, seen
from clean_tender import patched

import checkface as cf
from checkface.audit.across import Across, Index, Thresholds
from checkface.audit.across.near import neighbours
from checkface.audit.across.sight import Layout, Sight, sight

SAME = "same-item-twice"
BOTH = "same-item-converted-and-kept"
NEAR = "near-duplicate"
RUN = "counterfeit-run"
UNLIKE = "layout-unlike-its-bank"


def test_the_same_item_twice() -> None:
    assert said([item(2), item(9)], SAME) == [
        (
            "The same routing number, account and check number twice, with the same amount of $45.10: "
            "day.csv:2 0002 and day.csv:9 0009."
        )
    ]


def test_the_same_item_with_different_amounts() -> None:
    items = [item(line, amount=cents) for line, cents in enumerate((4510, 5410, None, 5410), 2)]
    (message,) = said(items, SAME)
    assert message.startswith(
        "The same routing number, account and check number 4 times, with different amounts: $45.10, $54.10: day.csv:2 "
    )
    (many,) = said([item(line, amount=line) for line in range(2, 20)], SAME)
    assert "18 times, with different amounts: $0.02, $0.03, $0.04, $0.05, ...: day.csv:2 0002, " in many
    assert many.endswith("day.csv:7 0007 and 12 more.")


def test_all_places_stay_in_the_finding() -> None:
    (finding,) = [one for one in asked([item(line) for line in range(2, 20)])[0] if one.rule == SAME]
    assert [place.line for place in finding.places] == list(range(2, 20))


@pytest.mark.parametrize(
    "changed",
    [
        {"serial": "2044"},
        {"account": "45601199"},
        {"routing": "074098750"},
        {"serial": None},
        {"account": None},
        {"routing": None},
        {"taken": "returned"},
    ],
)
def test_what_is_not_the_same_item(changed: dict[str, Any]) -> None:
    assert said([item(2), item(3, **changed)], SAME) == []
    as_often = 0 if None in changed.values() or "taken" in changed else 1
    assert len(said([item(2, **changed), item(3, **changed)], SAME)) == as_often


def test_a_check_handed_back_may_come_again_but_not_be_taken_twice() -> None:
    back = item(2, taken="returned")
    assert said([back, item(3)], SAME) == []
    assert said([back, item(3, taken="returned")], SAME) == []
    assert len(said([back, item(3), item(4)], SAME)) == 1


@pytest.mark.parametrize(
    ("ways", "rules"),
    [
        (("converted", "kept"), [BOTH]),
        (("converted", "converted"), [SAME]),
        (("kept", "kept"), [SAME]),
        (("kept", None), [SAME]),
        ((None, None), [SAME]),
        (("converted", "kept", "kept"), [BOTH, SAME]),
        (("converted", "kept", None), [BOTH, SAME]),
        (("converted", "kept", "returned"), [BOTH]),
        (("converted", "returned"), []),
    ],
)
def test_converted_and_kept(ways: tuple[str | None, ...], rules: list[str]) -> None:
    items = [item(line, taken=way) for line, way in enumerate(ways, 2)]
    assert [found.rule for found in asked(items)[0]] == rules
    if rules == [BOTH]:
        assert said(items, BOTH) == [
            "One check converted and kept, to be paid twice: converted at day.csv:2 0002, kept at day.csv:3 0003."
        ]


HEAD = "Only "
TAIL = "perhaps one paper captured twice (day.csv:2 0002 and day.csv:3 0003)."


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"serial": "1048"}, "digit 4 of the check number differs, 1043 and 1048, both for $45.10: "),
        ({"serial": "1034"}, "the order of digits 3 and 4 of the check number differs, 1034 and 1043, both for $45.10: "),
        ({"serial": "143"}, "the order of digits 1 and 2 of the check number differs, 143 and 1043, both for $45.10: "),
        ({"serial": "104"}, None),
        ({"serial": "43"}, "digit 1 of the check number differs, 43 and 1043, both for $45.10: "),
        ({"account": "45601132"}, "digit 7 of the account number differs, ••••1122 and ••••1132, both for $45.10: "),
        ({"account": "54601122"}, "the order of digits 1 and 2 of the account number differs, ••••1122 and ••••1122, both for $45.10: "),
        ({"account": "4560112"}, None),
        ({"routing": "071098937"}, "the order of digits 8 and 9 of the routing number differs, 071098937 and 071098973, both for $45.10: "),
        ({"routing": "071098978"}, "digit 9 of the routing number differs, 071098973 and 071098978, both for $45.10: "),
        ({"serial": "1048", "account": "45601132"}, None),
        ({"serial": "1058"}, None),
        ({"serial": "1048", "amount": 4511}, None),
        ({"serial": "1048", "amount": None}, None),
        ({"serial": "1048", "written": date(2026, 11, 23)}, None),
        ({"serial": "1048", "written": None}, "digit 4 of the check number differs, 1043 and 1048, both for $45.10: "),
        ({"serial": "1048", "taken": "returned"}, None),
    ],
)  # fmt: skip
def test_one_digit_apart(changed: dict[str, Any], words: str | None) -> None:
    expected = [] if words is None else [f"{HEAD}{words}{TAIL}"]
    assert said([item(2), item(3, **changed)], NEAR) == expected
    mirrored = [item(2, **changed), item(3)]
    assert said(mirrored, NEAR) == expected


def test_a_long_number_in_the_place_of_a_check_number_is_masked() -> None:
    (message,) = said([item(2, serial="4111111111111111"), item(3, serial="4111111111111112")], NEAR)
    assert "41111" not in message
    (message,) = said([*accounts(5, serial="4111111111111111"), *elsewhere(3)], RUN)
    assert "41111" not in message
    (message,) = said([item(line, serial=str(4111111111111111 + line), amount=line) for line in range(2, 7)], RUN)
    assert "41111" not in message


def test_two_checks_in_a_row_may_be_two_checks() -> None:
    (message,) = said([item(2), item(3, serial="1044")], NEAR)
    assert "captured twice, or two checks in a row (" in message


def test_many_alike_are_one_finding() -> None:
    items = [item(2), item(3, serial="1048"), item(4, serial="1048"), item(5, serial="1148")]
    assert said(items, NEAR) == [
        (
            "4 checks for $45.10, each one digit from another: perhaps one paper captured again and "
            "again, or a run of copies (day.csv:2 0002, day.csv:3 0003, day.csv:4 0004 and day.csv:5 0005)."
        )
    ]


def test_records_of_a_check_near_another_go_with_it() -> None:
    pair = [item(2), item(3, serial="1048")]
    assert len(asked([*pair, item(4)])[0][0].places) == 3
    for other in (item(4, taken="returned"), item(4, written=date(2026, 11, 23)), item(4, amount=9)):
        (finding,) = [one for one in asked([*pair, other])[0] if one.rule == NEAR]
        assert [place.line for place in finding.places] == [2, 3]


def test_neighbours_of_a_long_run() -> None:
    texts = [f"{number:04d}" for number in range(1000)]
    pairs = list(neighbours(texts))
    assert len(pairs) == len({frozenset(pair) for pair in pairs})
    one_digit = 1000 * 27 // 2  # three digits vary, nine other values each
    assert sum(sum(a != b for a, b in zip(*pair, strict=True)) == 1 for pair in pairs) == one_digit


def accounts(number: int, **changed: Any) -> list[Sight]:
    """Items of so many accounts that have nothing else in common than what is given."""
    return [
        item(line, **{"account": str(34500000 + line * 7919), "serial": str(2000 + 37 * line), "amount": 3000 + 317 * line} | changed)
        for line in range(2, 2 + number)
    ]  # fmt: skip


def elsewhere(number: int) -> list[Sight]:
    """So many checks of another bank, of one account and alike in nothing."""
    return [
        item(line, routing="074098750", account="7", serial=str(line * 31), amount=line * 1013)
        for line in range(100, 100 + number)
    ]


def test_one_amount_over_many_accounts() -> None:
    assert said([*accounts(4, amount=48733), *elsewhere(9)], RUN) == []
    assert said([*accounts(5, amount=48733), *elsewhere(3)], RUN) == [
        (
            "The amount $487.33 on the checks of 5 accounts of routing number 071098973 (5 or more are named): "
            "day.csv:2 0002, day.csv:3 0003, day.csv:4 0004, day.csv:5 0005 and day.csv:6 0006."
        )
    ]


def test_one_check_number_over_many_accounts() -> None:
    assert said([*accounts(3, serial="1001"), *elsewhere(3)], RUN, Thresholds(accounts=3)) == [
        (
            "Check number 1001 on the checks of 3 accounts of routing number 071098973 (3 or more are named): "
            "day.csv:2 0002, day.csv:3 0003 and day.csv:4 0004."
        )
    ]


@pytest.mark.parametrize("others", [0, 1, 2])
def test_with_nothing_to_compare_it_with_a_round_amount_is_no_run(others: int) -> None:
    items = [*accounts(6, amount=2000), *elsewhere(others)]
    findings, counts = asked(items)
    assert [one for one in findings if one.rule == RUN] == []
    assert counts.unread[RUN] == {"too few checks of other banks are in the file to compare with": 6}
    assert counts.asked[RUN] == -6  # taken back of what was counted as each check came
    # Half of the checks here have it: of the other banks' it takes six for three.
    half = [*accounts(12, amount=2000)[:6], *accounts(12)[6:]]
    assert said([*half, *elsewhere(5)], RUN) == []
    assert len(said([*half, *elsewhere(6)], RUN)) == 1


def test_one_account_again_and_again_is_no_run_of_accounts() -> None:
    assert said([item(line, serial=str(2 * line)) for line in range(2, 12)], RUN) == []


def test_what_is_as_common_at_other_banks_is_no_run() -> None:
    here = accounts(5, amount=2000)
    elsewhere = [item(line, routing="074098750", account=str(line * 7919), serial=str(line * 31), amount=2000) for line in range(50, 56)]  # fmt: skip
    assert said([*here, *elsewhere], RUN) == []
    others = [item(line, routing="113094123", account=str(line * 7919), serial=str(line * 31), amount=line) for line in range(100, 200)]  # fmt: skip
    assert len(said([*here, *elsewhere, *others], RUN)) == 2


def test_chance_meetings_of_a_large_file_are_no_run() -> None:
    """Five of 500 where one would be usual: as likely as one in 273, and there are a thousand numbers at two banks."""

    def month(alike: int) -> list[Sight]:
        banks = ("071098973", "074098750")
        return [
            item(line, routing=banks[line % 2], account=str(10_000_000 + line * 7919), amount=line,
                 serial="7" if (line < 2 * alike and line % 2 == 0) or line == 1 else str(1000 + line))
            for line in range(1000)
        ]  # fmt: skip

    assert said(month(5), RUN) == []
    (message,) = said(month(9), RUN)
    assert message.startswith("Check number 7 on the checks of 9 accounts of routing number 071098973 (5 or more are ")


@pytest.mark.parametrize(("elsewhere", "runs"), [(4, 1), (5, 0)])
def test_four_times_what_is_usual(elsewhere: int, runs: int) -> None:
    """Of 16 checks elsewhere 4 make 4 of 16 here expected: 16 accounts are four times as many, with 5 they are not."""
    here = accounts(16, amount=2000)
    there = [item(line, routing="074098750", account=str(line * 7919), serial=str(line * 31), amount=2000 if line < 50 + elsewhere else line) for line in range(50, 66)]  # fmt: skip
    found = [one for one in asked([*here, *there], Thresholds(accounts=16))[0] if one.rule == RUN]
    assert len(found) == runs


def test_one_account_without_a_gap() -> None:
    items = [item(line, serial=str(line + 998), amount=line * 100, payee=f"payee{line}") for line in range(2, 7)]
    assert said(items[:4], RUN) == []
    assert said(items, RUN) == [
        (
            "Checks 1000 to 1004, 5 without a gap, of account ••••1122 of routing number 071098973 to 5 payees on 2026-11-24 "
            "(5 or more are named): day.csv:2 0002, day.csv:3 0003, day.csv:4 0004, day.csv:5 0005 and day.csv:6 0006."
        )
    ]
    (finding,) = [
        one
        for one in asked([*items, items[0]._replace(place=item(9).place, on=date(2026, 11, 25))])[0]
        if one.rule == RUN
    ]
    assert [place.line for place in finding.places] == [2, 3, 4, 5, 6]
    gap = [*items[:2], *items[3:]]
    assert said(gap, RUN) == []
    days = [one._replace(on=date(2026, 11, 20 + n)) for n, one in enumerate(items)]
    assert said(days, RUN) == []
    findings, counts = asked([one._replace(on=None) for one in items])
    assert [one for one in findings if one.rule == RUN] == []
    assert counts.unread[RUN] == {"they carry no day (counter.on), and numbers without a gap may be of several": 5}
    assert "payees" not in said([one._replace(payee="quill") for one in items], RUN)[0]


def test_a_layout_unlike_its_bank() -> None:
    items = accounts(19)
    odd = item(50, account="123456789", serial="9001", amount=99)
    assert said([*items[:18], odd], UNLIKE) == []
    assert said([*items, odd], UNLIKE) == [
        "At routing number 071098973, 19 of 20 accounts have 8 digits in the account number; this check has 9."
    ]
    swapped = item(
        50, account="12345678", serial="9001", amount=99, layout=LAYOUT._replace(order="check number, account")
    )
    assert said([*items[:9], swapped], UNLIKE) == []
    assert said([*items[:10], swapped], UNLIKE) == [
        (
            "At routing number 071098973, 10 of 11 accounts have the order account, check number; this check has check "
            "number, account."
        )
    ]


def test_many_checks_of_one_account_are_one_witness() -> None:
    items = [item(line, serial=str(line * 11)) for line in range(2, 30)]
    odd = item(50, account="123456789", serial="9001")
    findings, counts = asked([*items, odd])
    assert [found for found in findings if found.rule == UNLIKE] == []
    assert counts.asked[UNLIKE] == 0
    assert sum(counts.unread[UNLIKE].values()) == 29


def test_a_check_number_filled_up_with_zeros() -> None:
    padded = LAYOUT._replace(width=6, padded=True)
    items = accounts(19, layout=padded)
    short = item(50, account="12345678", serial="901", layout=LAYOUT._replace(width=3))
    assert said([*items, short], UNLIKE) == [
        "At routing number 071098973, 19 of 20 accounts have 6 digits in the check number; this check has 3."
    ]
    few = [one._replace(layout=padded._replace(padded=n < 10)) for n, one in enumerate(items)]
    assert len(said([*few, short], UNLIKE)) == 1
    few = [one._replace(layout=padded._replace(padded=n < 9)) for n, one in enumerate(items)]
    assert said([*few, short], UNLIKE) == []
    growing = [one._replace(layout=LAYOUT._replace(width=4)) for one in items]
    assert said([*growing, short], UNLIKE) == []


def test_paper_of_business_size_is_laid_out_in_its_own_way() -> None:
    def layout_of(line: str) -> Layout | None:
        read = cf.read(cf.parse(patched({"face.micr": line, "face.serial": "(absent)"})))
        return sight(ITEM.place, read).layout

    assert layout_of("⑆071098973⑆ 45601122⑈ 1043") == Layout("account, check number", 4, False)
    assert layout_of("⑈001043⑈ ⑆071098973⑆ 45601122⑈") is None


def test_two_layouts_of_one_bank_are_no_fault() -> None:
    old = [one._replace(account=f"{one.account}9") for one in accounts(2)]
    assert said([*(one._replace(place=ITEM.place) for one in old), *accounts(17)[2:]], UNLIKE) == []


def test_no_account_goes_to_the_database() -> None:
    rows = []
    for _ in range(2):
        with Index() as index:
            index.add(item(2))
            assert index.account(0) == "45601122"
            rows += index.ask("SELECT * FROM item")
    assert all(one[1:4] == (71098973, one[2], 8) for one in rows)
    assert "45601122" not in str(rows)
    assert "quill" not in str(rows)
    assert rows[0][2] != rows[1][2]  # the key is another in each run


def test_what_cannot_be_asked_is_counted() -> None:
    with Index() as index:
        across = Across(index=index)
        across.add("day.csv", seen(2, face__micr="(null)", face__serial="(absent)"))
        across.add("day.csv", seen(3, counter__amount="(absent)", face__figures="(absent)", face__words="(absent)"))
        across.add("day.csv", seen(4, taken_as="kept"))
        assert list(across.finish()) != []
    assert across.counts.text().splitlines() == [
        "  asked  found  effect   rule for the auditor",
        "      1      1  note     kept-though-convertible",
        "      1      0  refer    taken-though-declined",
        "      0      0  note     layout-unlike-its-bank",
        "      1      0  refer    near-duplicate",
        "      2      0  refer    counterfeit-run",
        "      2      1  refer    same-item-twice",
        "      1      0  refer    same-item-converted-and-kept",
        (
            "converted-though-barred, kept-though-convertible and taken-though-declined could not be asked of 2 items because "
            "nothing says what the lane did (taken_as)."
        ),
        "layout-unlike-its-bank could not be asked of 1 item because the On-Us field was not read or the check is of business size.",
        (
            "layout-unlike-its-bank could not be asked of 2 items because too few other accounts of their bank are in the "
            "file, or they do not agree."
        ),
        (
            "near-duplicate, same-item-twice and same-item-converted-and-kept could not be asked of 1 item because routing "
            "number, account or check number was not read."
        ),
        "near-duplicate could not be asked of 1 item because no amount was read.",
        (
            "counterfeit-run could not be asked of 1 item because routing number or account was not read, or neither check "
            "number nor amount."
        ),
        "same-item-converted-and-kept could not be asked of 1 item because nothing says what the lane did (taken_as).",
    ]
