"""Nine digits: what is read, what is refused and with which words."""

from __future__ import annotations

import os

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from checkface import routing
from checkface.routing import reference
from checkface.span import Fault, Span

MANY = 2000 if os.environ.get("CHECKFACE_THOROUGH") else 200
OTHER_SCRIPT = "Expected nine digits from 0 to 9, read a digit of another script."
EIGHT = st.text("0123456789", min_size=8, max_size=8)


@pytest.mark.parametrize(
    ("text", "series", "district", "on_paper"),
    [
        ("011394776", "primary", 1, True),
        ("125098418", "primary", 12, True),
        ("211395601", "thrift", 1, True),
        ("322296725", "thrift", 12, True),
        ("611000007", "electronic", 1, False),
        ("721000003", "electronic", 12, False),
        ("000000518", "government", None, True),
        ("800000006", "travelers", None, True),
        ("130000006", "unassigned", None, False),
        ("990000003", "unassigned", None, False),
    ],
)
def test_the_first_two_digits_name_series_and_district(
    text: str, series: str, district: int | None, on_paper: bool
) -> None:
    read = routing.read(text[:8] + routing.check_digit(text[:8]))
    assert not isinstance(read, Fault)
    assert (read.series, read.district, read.on_paper) == (series, district, on_paper)


@pytest.mark.parametrize(
    ("text", "kind", "span", "message"),
    [
        ("", "routing-blank", (0, 0), "Expected nine digits, read nothing."),
        (" \t ", "routing-blank", (0, 3), "Expected nine digits, read nothing."),
        ("7", "routing-length", (0, 1), "Expected nine digits, read 1 digit."),
        (" 01139477", "routing-length", (1, 9), "Expected nine digits, read 8 digits."),
        ("0113947760", "routing-length", (0, 10), "Expected nine digits, read 10 digits."),
        ("1" * 65, "routing-length", (0, 65), "Expected nine digits, read 65 characters."),
        (
            "0110-0001",
            "routing-old-form",
            (0, 9),
            "Expected nine digits, read the old form of four digits, a dash and four digits.",
        ),
        (
            " 0110 – 0001",
            "routing-old-form",
            (1, 12),
            "Expected nine digits, read the old form of four digits, a dash and four digits.",
        ),
        ("0113 94776", "routing-characters", (4, 5), "Expected nine digits from 0 to 9, read a blank among them."),
        ("O11394776", "routing-characters", (0, 1), "Expected nine digits from 0 to 9, read a letter."),
        ("01139477?", "routing-characters", (8, 9), "Expected nine digits from 0 to 9, read another character."),
        (
            "01139477６",
            "routing-characters",
            (8, 9),
            OTHER_SCRIPT,
        ),
        (
            "٠11394776",
            "routing-characters",
            (0, 1),
            OTHER_SCRIPT,
        ),
        ("011394775", "routing-checksum", (0, 9), "Expected the check digit 6 after the first eight digits, read 5."),
        (
            "\n111000026 ",
            "routing-checksum",
            (1, 10),
            "Expected the check digit 5 after the first eight digits, read 6.",
        ),
        ("000000000", "routing-all-zero", (0, 9), "Expected a routing number, read nine zeros."),
    ],
)
def test_each_refusal_says_what_was_read(text: str, kind: str, span: tuple[int, int], message: str) -> None:
    fault = routing.read(text)
    assert isinstance(fault, Fault)
    assert (fault.kind, fault.span, fault.message) == (kind, Span(*span), message)


def test_blanks_around_the_number_do_no_harm() -> None:
    assert routing.read("  011394776\r\n") == routing.read("011394776")


def test_a_number_is_described_whatever_its_sum() -> None:
    good, bad = routing.describe("011394776"), routing.describe("011394775")
    assert (good.checksum, bad.checksum) == (True, False)
    assert good._replace(number="", checksum=False) == bad._replace(number="")
    assert routing.describe("000000000").series == "government"


@pytest.mark.parametrize("text", ["", "01139477", "0113947760", "0113-9477", "٠11394776", "01139477x"])
def test_describing_and_summing_take_digits_only(text: str) -> None:
    with pytest.raises(ValueError, match=r"Expected nine digits\."):
        routing.describe(text)
    with pytest.raises(ValueError, match=r"Expected eight digits\."):
        routing.check_digit(text + "z")


@given(EIGHT)
@settings(max_examples=MANY)
def test_exactly_one_ninth_digit_is_read(eight: str) -> None:
    read = [digit for digit in "0123456789" if not isinstance(routing.read(eight + digit), Fault)]
    assert read == ([] if eight == "0" * 8 else [routing.check_digit(eight)])


@given(EIGHT, st.integers(0, 8), st.integers(1, 9))
@settings(max_examples=MANY)
def test_no_single_changed_digit_passes(eight: str, at: int, by: int) -> None:
    """The weights 3, 7 and 1 are units modulo ten."""
    number = eight + routing.check_digit(eight)
    changed = number[:at] + str((int(number[at]) + by) % 10) + number[at + 1 :]
    assert isinstance(routing.read(changed), Fault)


@given(st.text(max_size=80))
@settings(max_examples=MANY)
def test_any_text_gives_a_number_or_a_fault_within_it(text: str) -> None:
    read = routing.read(text)
    if isinstance(read, Fault):
        assert 0 <= read.span.start <= read.span.end <= len(text)
    else:
        assert text.strip() == read.number


def test_long_junk_is_refused_at_once() -> None:
    for junk in ("1", " ", "1-", "\u0661"):
        assert isinstance(routing.read(junk * 100_000), Fault)


def test_owners_from_memory_are_marked_so() -> None:
    assert routing.describe("011000015").government == routing.Owner(
        "Federal Reserve Bank of Boston", "federal-reserve-bank", True
    )
    assert routing.describe("000000204").government == routing.Owner(
        "U.S. Postal Service money order", "postal-money-order", True
    )
    assert routing.describe("000000518").government == routing.Owner(
        "United States Treasury check", "treasury-check", False
    )
    assert routing.describe("011394776").government is None


def test_every_pair_of_first_digits_stands_in_one_series() -> None:
    series = reference.series()
    assert sorted(series) == [f"{value:02}" for value in range(100)]
    for value in range(100):
        found = series[f"{value:02}"]
        wanted = {0: "primary", 20: "thrift", 60: "electronic"}
        base = next((base for base in wanted if 1 <= value - base <= 12), None)
        if base is None:
            assert found.district is None
            assert found.name == {0: "government", 80: "travelers"}.get(value, "unassigned")
        else:
            assert (found.name, found.district) == (wanted[base], value - base)
        assert found.on_paper == (found.name in {"government", "primary", "thrift", "travelers"})
