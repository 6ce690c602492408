"""Routing numbers against what others have published or programmed."""

from __future__ import annotations

import random

import pytest
from stdnum.us import rtn

from checkface import routing, tables
from checkface.span import Fault


@pytest.mark.parametrize(
    ("first_eight", "digit", "source"),
    [
        ("11100002", "5", "worked example of the weighted sum (30), public encyclopedias; python-stdnum"),
        ("07640125", "1", "worked example of the check digit, public encyclopedias"),
        ("02120002", "5", "fraction 55-2/212 worked to 021200025, public encyclopedias"),
        ("00000020", "4", "0000-0020, Treasury Financial Manual vol. II part 4 ch. 7000"),
    ],
)
def test_worked_check_digits(first_eight: str, digit: str, source: str) -> None:
    assert source
    assert routing.check_digit(first_eight) == digit
    assert not isinstance(routing.read(first_eight + digit), Fault)


def test_the_worked_sum_by_its_published_weights() -> None:
    """Public encyclopedias: weights 3, 7, 1; 111000025 sums to 30."""
    weights = (3, 7, 1) * 3
    assert sum(w * int(d) for w, d in zip(weights, "111000025", strict=True)) == 30
    assert sum(w * int(d) for w, d in zip(weights, "129131673", strict=True)) == 121


def test_a_published_fraction_becomes_its_number() -> None:
    """Public encyclopedias: fraction 55-2/212 is 021200025."""
    fraction = routing.read_fraction("55-2/212")
    assert isinstance(fraction, routing.Fraction)
    assert fraction.number == "021200025"
    assert routing.agree(fraction, "021200025") == ()


def test_a_published_picture_that_contradicts_itself() -> None:
    """A published picture of a check: fraction 11-3167/1210 beside 129131673, which fails the sum with 121."""
    fault = routing.read("129131673")
    assert isinstance(fault, Fault)
    assert fault.kind == "routing-checksum"
    fraction = routing.read_fraction("11-3167/1210")
    assert isinstance(fraction, routing.Fraction)
    differ = routing.agree(fraction, "129131673")
    assert [(fault.kind, fault.expected, fault.read) for fault in differ] == [
        ("fraction-differs", "the routing symbol 1291 of the routing number", "1210")
    ]


def test_nine_zeros_pass_the_sum_and_are_nothing() -> None:
    """python-stdnum, which judges the sum alone, takes them."""
    assert rtn.is_valid("000000000")
    fault = routing.read("000000000")
    assert isinstance(fault, Fault)
    assert fault.kind == "routing-all-zero"


def test_agreement_with_python_stdnum_on_many_numbers() -> None:
    """python-stdnum, stdnum.us.rtn.validate, is an independent statement of length, characters and sum."""
    draw = random.Random(229)
    numbers = [f"{draw.randrange(1, 10**9):09}" for _ in range(20_000)]
    numbers += [number[:8] + rtn.calc_check_digit(number[:8]) for number in numbers[:5_000]]
    numbers += [number[:length] for number, length in zip(numbers, draw.choices(range(1, 9), k=500), strict=False)]
    read = [not isinstance(routing.read(number), Fault) for number in numbers]
    assert read == [rtn.is_valid(number) for number in numbers]
    assert 5_000 < sum(read) < 9_000


def test_every_federal_number_passes_the_sum() -> None:
    rows = tables.load("government_routing").rows
    assert [row["routing"] for row in rows if not rtn.is_valid(row["routing"])] == []
    assert len({row["routing"] for row in rows}) == len(rows) == 152
    assert all(row["kind"] for row in rows)


def test_the_payment_numbers_of_the_treasury() -> None:
    """Financial Management Service, fms.treas.gov "Why did I get this check or payment?" (2014): 111036183 names vendor
    payments of the Austin center. The two others come from memory of a participant list of December 2025."""
    owners = {number: routing.describe(number).government for number in ("111036183", "051736226", "281050112")}
    assert [owner is not None and (owner.kind, owner.confirmed) for owner in owners.values()] == [
        ("us-treasury", True),
        ("us-treasury", False),
        ("federal-reserve-bank", False),
    ]


def test_every_specimen_number_passes_every_rule_of_form() -> None:
    """Constructed: the sum by python-stdnum, the district by 12 CFR 229 Appendix A paragraph B."""
    federal = {row["routing"] for row in tables.load("government_routing").rows}
    for row in tables.load("specimen_routing").rows:
        number = routing.read(row["routing"])
        fraction = routing.read_fraction(row["fraction"])
        assert isinstance(number, routing.RoutingNumber)
        assert isinstance(fraction, routing.Fraction)
        assert rtn.is_valid(row["routing"])
        assert routing.agree(fraction, row["routing"]) == ()
        assert fraction.number == row["routing"]
        assert row["state"] in fraction.states
        assert str(number.district) == row["district"]
        assert number.on_paper
        assert row["routing"] not in federal
