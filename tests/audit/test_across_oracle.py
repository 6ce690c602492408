"""The answers of DuckDB against plain loops over every pair of checks, and what order, more checks and files may not change."""

from __future__ import annotations

import itertools
import math
import os
from collections import defaultdict
from datetime import date
from typing import Any

from across_items import ITEM, LAYOUT, asked
from hypothesis import given, settings
from hypothesis import strategies as st

from checkface.audit.across import AuditFinding, Place, Thresholds
from checkface.audit.across.runs import CHANCE, LIFT
from checkface.audit.across.sight import Sight

EXAMPLES = settings(max_examples=300 if os.environ.get("CHECKFACE_THOROUGH") else 25, deadline=None)
FEWER = EXAMPLES if os.environ.get("CHECKFACE_THOROUGH") else settings(max_examples=12, deadline=None)
LIMITS = Thresholds(accounts=3, sequence=3, witnesses=3)
DUPLICATES = {"same-item-twice", "same-item-converted-and-kept", "near-duplicate"}


@st.composite
def days(draw: st.DrawFn, least: int = 0, most: int = 14) -> list[Sight]:
    """A small day in which much is alike: few banks, accounts one digit apart, numbers in a row."""
    items = []
    for line in range(2, 2 + draw(st.integers(least, most))):
        account = draw(st.sampled_from([None, "11111", "11112", "11121", "21111", "99999", "9999", "777777"]))
        order = draw(st.sampled_from(["account, check number", "account, check number", "check number, account"]))
        width = draw(st.sampled_from([4, 4, 6]))
        items.append(
            Sight(
                Place("day.csv", line, f"{line:04d}"),
                draw(st.sampled_from(["kept", "kept", "converted", "returned", None])),
                draw(st.sampled_from(["071098973", "071098973", "071098937", "074098750", None])),
                account,
                draw(st.sampled_from(["101", "102", "103", "110", "1101", None])),
                draw(st.sampled_from([2000, 2000, 2001, None])),
                draw(st.sampled_from([date(2026, 11, 24), date(2026, 11, 25), None])),
                draw(st.sampled_from([date(2026, 11, 24), date(2026, 11, 23), None])),
                draw(st.sampled_from(["", "ada", "ben", "cy"])),
                "",
                "",
                draw(st.sampled_from([None, LAYOUT._replace(order=order, width=width, padded=width == 6)])),
            )
        )
    return items


def places(items: list[Sight]) -> tuple[Place, ...]:
    return tuple(sorted(one.place for one in items))


def oracle(items: list[Sight]) -> set[tuple[str, tuple[Place, ...]]]:
    """What must be found, worked out by looking at every check and every pair."""
    return {*same(items), *near(items), *many(items), *in_a_row(items), *unlike(items)}


def same(items: list[Sight]) -> Any:
    taken = [one for one in items if one.taken != "returned"]
    for first in taken:
        key = first[2:5]
        if None in key:
            continue
        alike = [one for one in taken if one[2:5] == key]
        ways = [one.taken for one in alike]
        both = "kept" in ways and "converted" in ways
        if both:
            yield "same-item-converted-and-kept", places([one for one in alike if one.taken])
        if len(alike) - both >= 2:
            yield "same-item-twice", places(alike)


def one_apart(one: str, other: str) -> bool:
    if len(one) != len(other):
        return False
    at = [n for n in range(len(one)) if one[n] != other[n]]
    exchanged = len(at) == 2 and at[1] == at[0] + 1 and one[at[0]] == other[at[1]] and one[at[1]] == other[at[0]]
    return len(at) == 1 or exchanged


def is_near(one: Sight, other: Sight) -> bool:
    if "returned" in (one.taken, other.taken) or None in (*one[2:6], *other[2:6]) or one.amount != other.amount:
        return False
    if None not in (one.written, other.written) and one.written != other.written:
        return False
    fields = [
        (str(one.routing), str(other.routing)),
        (str(one.account), str(other.account)),
        (str(one.serial).zfill(20), str(other.serial).zfill(20)),
    ]
    apart = [pair for pair in fields if pair[0] != pair[1]]
    return len(apart) == 1 and one_apart(*apart[0])


def near(items: list[Sight]) -> Any:
    group = {one.place: {one.place} for one in items}

    def join(one: Sight, other: Sight) -> None:
        together = group[one.place] | group[other.place]
        for place in together:
            group[place] = together

    for one, other in itertools.combinations(items, 2):
        if is_near(one, other):
            join(one, other)
    joined = [one for one in items if len(group[one.place]) > 1]
    # A second record of a check that is near another goes with it.
    for one, other in itertools.product(joined, items):
        if one[2:6] == other[2:6] and one.written == other.written and other.taken != "returned":
            join(one, other)
    for together in group.values():
        if len(together) > 1:
            yield "near-duplicate", tuple(sorted(together))


def many(items: list[Sight]) -> Any:
    for field in ("serial", "amount"):
        known = [one for one in items if one.routing and one.account and getattr(one, field) is not None]
        for bank, value in {(one.routing, getattr(one, field)) for one in known}:
            here = [one for one in known if one.routing == bank]
            run = [one for one in here if getattr(one, field) == value]
            elsewhere = [one for one in known if one.routing != bank]
            alike = [one for one in elsewhere if getattr(one, field) == value]
            size = len({one.account for one in run})
            # Were it as common elsewhere as here, fewer than three would have it: that none has says nothing.
            if not alike and len(run) / len(here) * len(elsewhere) < 3 - 1e-9:
                continue
            expected = len(alike) / len(elsewhere) * len(here)
            values = {getattr(one, field) for one in known}
            below = sum(math.exp(-expected) * expected**n / math.factorial(n) for n in range(size))
            by_chance = (1 - below) * len({one.routing for one in known}) * len(values)
            if size >= LIMITS.accounts and size >= LIFT * expected and by_chance <= CHANCE:
                yield "counterfeit-run", places(run)


def in_a_row(items: list[Sight]) -> Any:
    known = [one for one in items if one.routing and one.account and one.serial]
    for bank, account, day in {(one.routing, one.account, one.on) for one in known if one.on}:
        here = [one for one in known if (one.routing, one.account, one.on) == (bank, account, day)]
        numbers = {int(str(one.serial)) for one in here}
        for start in numbers:
            if start - 1 not in numbers:
                end = next(n for n in itertools.count(start) if n + 1 not in numbers)
                if end - start + 1 >= LIMITS.sequence:
                    yield "counterfeit-run", places([one for one in here if start <= int(str(one.serial)) <= end])


def unlike(items: list[Sight]) -> Any:
    known = [one for one in items if one.routing and one.account and one.layout]
    odd = set()
    for bank in {one.routing for one in known}:
        here = [one for one in known if one.routing == bank]
        features: dict[str, dict[str, set[str]]] = defaultdict(lambda: defaultdict(set))
        padded: dict[str, set[str]] = defaultdict(set)
        for one in here:
            assert one.layout is not None
            account = str(one.account)
            features["order"][one.layout.order].add(account)
            features["account"][str(len(account))].add(account)
            features["serial"][str(one.layout.width)].add(account)
            if one.layout.padded:
                padded[str(one.layout.width)].add(account)
        every = {str(one.account) for one in here}
        for feature, values in features.items():
            for value, agree in values.items():
                if len(agree) < LIMITS.witnesses or len(agree) < len(every) * (0.9 if feature == "order" else 0.95):
                    continue
                if feature == "serial" and len(padded[value]) * 2 < len(agree):
                    continue
                for one in here:
                    assert one.layout is not None
                    own = {
                        "order": one.layout.order,
                        "account": str(len(str(one.account))),
                        "serial": str(one.layout.width),
                    }
                    if own[feature] != value:
                        odd.add(one.place)
    for place in odd:
        yield "layout-unlike-its-bank", (place,)


def found(items: list[Sight]) -> list[AuditFinding]:
    return asked(items, LIMITS)[0]


@EXAMPLES
@given(days())
def test_as_found_by_looking_at_every_pair(items: list[Sight]) -> None:
    findings = [(one.rule, one.places) for one in found(items)]
    # Two runs of one rule may be of the very same checks: one amount, and one number.
    assert set(findings) == oracle(items)
    assert len(findings) == len(set(findings)) or {rule for rule, _ in findings} >= {"counterfeit-run"}


@FEWER
@given(days(), st.randoms())
def test_the_order_of_checks_changes_nothing(items: list[Sight], random: Any) -> None:
    assert found(items) == found(random.sample(items, len(items)))


@FEWER
@given(days(least=1))
def test_one_more_check_takes_no_duplicate_away(items: list[Sight]) -> None:
    before = [one for one in found(items[:-1]) if one.rule in DUPLICATES]
    after = [one for one in found(items) if one.rule in DUPLICATES]
    for one in before:
        assert any(one.rule == other.rule and set(one.places) <= set(other.places) for other in after)


@FEWER
@given(days(), st.integers(0, 14))
def test_two_files_are_as_one(items: list[Sight], cut: int) -> None:
    split = [
        one._replace(place=one.place._replace(file="a.csv" if n < cut else "b.csv")) for n, one in enumerate(items)
    ]
    one, two = found(items), found(split)
    back = sorted((other.rule, tuple(sorted(place.line for place in other.places))) for other in two)
    assert back == sorted((other.rule, tuple(sorted(place.line for place in other.places))) for other in one)


def test_the_oracle_finds_something() -> None:
    items = [ITEM._replace(place=Place("day.csv", line, "")) for line in (2, 3)]
    assert oracle(items) == {("same-item-twice", places(items))}
