"""Questions answered with yes: counted by lane and employee, and only somebody far from the others is marked."""

from __future__ import annotations

import json
import math
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from clean_tender import NAMED, patched
from hypothesis import example, given
from hypothesis import strategies as st

import checkface as cf
from checkface.audit import Assessed, Tally
from checkface.audit.across import Across
from checkface.audit.confirmed import LEAST, Confirmations, chance
from checkface.cli import main

RULE = "confirmed-unlike-the-others"


def by_counting(yes: int, checks: int, all_yes: int, everything: int) -> float:
    """The same, by whole numbers: of all ways to draw the checks, those with so many yeses or more."""
    ways = sum(
        math.comb(all_yes, number) * math.comb(everything - all_yes, checks - number)
        for number in range(yes, min(checks, all_yes) + 1)
    )
    return ways / math.comb(everything, checks)


@example((0, 0, 0, 1))
@example((5, 5, 5, 5))
@given(
    st.integers(1, 300).flatmap(
        lambda everything: st.tuples(
            st.integers(0, 40), st.integers(0, everything), st.integers(0, everything), st.just(everything)
        )
    )
)
def test_the_chance_is_that_of_counting_all_ways(numbers: tuple[int, int, int, int]) -> None:
    assert chance(*numbers) == pytest.approx(by_counting(*numbers), rel=1e-9, abs=1e-300)


def test_the_chance_of_a_year_of_checks_is_worked_out_at_once_and_never_above_one() -> None:
    assert 0 < chance(300, 2_000, 10_000, 1_000_000) < 1e-100
    assert chance(21, 2_000, 10_000, 1_000_000) == pytest.approx(0.44, abs=0.01)  # 20 are expected


def shares(*people: tuple[str, int, int]) -> Confirmations:
    """People, each with checks and yeses."""
    counted = Confirmations()
    for who, checks, yes in people:
        for number in range(checks):
            counted.add("7", "3", who, confirmed=number < yes)
    return counted


@pytest.mark.parametrize(
    ("people", "marked"),
    [
        ([("101", 40, 8), ("102", 360, 6)], ["101"]),
        ([("101", 40, LEAST - 1), ("102", 3_600, 0)], []),  # too few to be a pattern
        ([("101", 40, LEAST), ("102", 3_600, 0)], ["101"]),
        ([("101", 40, 4), ("102", 360, 6)], []),
        ([("101", 40, 40)], []),  # nobody to be held against
        ([("101", 40, 20), ("102", 40, 20)], []),
        ([("101", 400, 80), ("102", 400, 20), ("103", 400, 20)], ["101"]),
        ([("101", 40, 0), ("102", 40, 0)], []),
    ],
)
def test_who_is_marked(people: list[tuple[str, int, int]], marked: list[str]) -> None:
    assert [one.who for one in shares(*people).employees() if one.stands_out] == marked


def test_the_more_are_compared_the_less_chance_is_given_to_each() -> None:
    """One person of forty checks and seven yeses stands out among two, and not among three hundred alike."""
    two, many = (
        shares(("101", 40, 7), ("102", 400, 8)),
        shares(("101", 40, 7), *((str(200 + number), 40, 1) for number in range(300))),
    )
    assert chance(7, 40, 15, 440) * 2 < 1 / 1000
    assert [one.who for one in two.employees() if one.stands_out] == ["101"]
    assert chance(7, 40, 307, 12_040) < 1 / 1000 < chance(7, 40, 307, 12_040) * 301
    assert [one.who for one in many.employees() if one.stands_out] == []


def tenders() -> Iterator[dict[str, Any]]:
    """Three clerks on two lanes: eight of twenty with a yes, and one of forty each."""
    for number in range(100):
        who = 110 if number < 20 else 111 + number % 2
        yes = number < 8 or number in (20, 21)
        yield patched(
            {
                "id": f"{number:04d}", "counter.employee": str(who), "counter.lane": str(who % 2 + 1),
                "counter.confirmed": ["payee-near-house"] if yes else [], "taken_as": "converted",
                "face.payee": "Quillfeather Foods" if yes else "Quillfeather Grocery",
            }
        )  # fmt: skip


def found(across: Across) -> list[tuple[str, list[int]]]:
    policy = cf.Policy.model_validate(NAMED)
    for line, tender in enumerate(tenders(), 2):
        assert across.add("day.csv", Assessed(line, cf.assess(tender, policy))) == []
    return [(one.message, [place.line for place in one.places]) for one in across.finish()]


def test_the_auditor_is_told_who_and_shown_the_checks() -> None:
    across = Across()
    assert found(across) == [
        (
            (
                "Questions answered with yes on 8 of 20 checks taken by store 7, employee 110; by the share of the "
                "others 0.5 would be expected."
            ),
            list(range(2, 10)),
        )
    ]
    assert across.counts.asked[RULE] == 100


def test_a_check_that_nobody_is_named_for_is_counted_as_not_asked() -> None:
    across = Across()
    for line, employee in enumerate(["", "111"], 2):
        tender = patched({"counter.employee": employee, "counter.confirmed": ["payee-near-house"]})
        across.add("day.csv", Assessed(line, cf.assess(tender)))
    assert list(across.finish()) == []
    assert across.counts.asked[RULE] == 1
    assert across.counts.unread[RULE].total() == 1
    assert across.is_asked


def test_without_any_yes_nothing_is_asked() -> None:
    across = Across()
    across.add("day.csv", Assessed(2, cf.assess(patched({"taken_as": "(absent)"}))))
    assert list(across.finish()) == []
    assert RULE not in across.counts.asked
    assert not across.is_asked


def test_the_count_lists_lanes_and_employees() -> None:
    tally = Tally()
    for line, tender in enumerate(tenders(), 2):
        tally.add(Assessed(line, cf.assess(tender)))
    page = tally.text().splitlines()
    first = page.index("    yes  checks  expected  questions answered with yes, by lane")
    assert page[first - 1 :] == [
        "",
        "    yes  checks  expected  questions answered with yes, by lane",
        "      9      60       1.5  store 7, lane 1",
        "      1      40       6.0  store 7, lane 2",
        "",
        "    yes  checks  expected  questions answered with yes, by employee",
        "      8      20       0.5  store 7, employee 110  far more than the others",
        "      1      40       6.0  store 7, employee 111",
        "      1      40       6.0  store 7, employee 112",
    ]


def test_a_long_list_is_cut_unless_all_of_it_is_asked_for_and_a_card_number_is_no_name() -> None:
    counted = shares(*((f"{1000 + number}", 10, 1) for number in range(30)), ("4111 1111 1111 1111", 1, 1))
    short, whole = (list(counted.text(verbose=verbose)) for verbose in (False, True))
    assert short[-1] == "     11  more; --verbose lists them"
    assert len(whole) > 31
    assert not any("4111" in line for line in whole)
    assert any("1111" in line for line in whole)


def test_the_answers_hold_it_as_rows_of_their_own(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("house.toml").write_text('[payee]\nnames = ["Quillfeather Grocery"]\n', encoding="utf-8")
    lines = [json.dumps(tender) for tender in tenders()]
    Path("day.jsonl").write_text("\n".join(lines) + "\n", encoding="utf-8")
    for name in "out.jsonl", "out.csv", "out.xlsx":
        assert main(["audit", "day.jsonl", "--policy", "house.toml", "--output", name, "--quiet"]) == 0
    err = capsys.readouterr().err
    assert "far more than the others" in err
    (told,) = [
        wire["across"]
        for line in Path("out.jsonl").read_text("utf-8").splitlines()
        if "across" in (wire := json.loads(line))
    ]
    assert (told["rule"], told["effect"], len(told["places"])) == (RULE, "note", 8)
    assert f"across,note {RULE}" in Path("out.csv").read_text("utf-8")
    from openpyxl import load_workbook

    rows = [tuple(cell.value for cell in row) for row in load_workbook("out.xlsx")["tally"].iter_rows()]
    assert ("answered with yes (employee)", "store 7, employee 110, unlike the others", 8) in rows
    assert ("answered with yes (lane)", "store 7, lane 1", 9) in rows
