"""Fraction against the nine digits."""

from __future__ import annotations

import pytest

from checkface import routing
from checkface.span import Span


def differences(text: str, number: str) -> list[tuple[str, Span, str]]:
    fraction = routing.read_fraction(text)
    assert isinstance(fraction, routing.Fraction)
    return [(fault.kind, fault.span, fault.message) for fault in routing.agree(fraction, number)]


def test_what_agrees_gives_nothing() -> None:
    assert differences("53-9477/113", "011394776") == []
    assert differences("9477/113", "011394776") == []
    assert differences("53-9477/0113 02", "011394779") == []  # the check digit is not in the fraction


def test_the_part_that_differs_is_pointed_at() -> None:
    assert differences("53-9477/114", "011394776") == [
        ("fraction-differs", Span(8, 11), "Expected the routing symbol 0113 of the routing number, read 0114.")
    ]
    assert differences("53-9476/113", "011394776") == [
        ("fraction-differs", Span(3, 7), "Expected the institution identifier 9477 of the routing number, read 9476.")
    ]


def test_a_prefix_of_another_district_is_found() -> None:
    assert differences("90-9477/113", "011394776") == [
        (
            "fraction-outside-district",
            Span(0, 2),
            "Expected a prefix of Federal Reserve district 1, read 90 (California, district 12).",
        )
    ]
    assert differences("55-9477/113", "011394776")[0][2] == (
        "Expected a prefix of Federal Reserve district 1, read 55 (New Jersey, district 2 or 3)."
    )


def test_an_unknown_prefix_is_found() -> None:
    assert differences("100-9477/113", "011394776") == [
        ("fraction-prefix-unknown", Span(0, 3), "Expected a prefix from 1 to 99 or 101, read 100.")
    ]


def test_all_that_differs_is_found_at_once() -> None:
    assert [kind for kind, _, _ in differences("90-1/1211", "011394776")] == [
        "fraction-differs",
        "fraction-differs",
        "fraction-outside-district",
    ]


def test_a_number_without_a_district_says_nothing_of_the_prefix() -> None:
    assert differences("15-51/000", "000000518") == []
    assert differences("90-51/000", "000000518") == []


def test_thrift_and_electronic_numbers_have_the_district_of_their_series() -> None:
    assert differences("53-9560/2113", "211395601") == []
    assert [kind for kind, _, _ in differences("90-9560/2113", "211395601")] == ["fraction-outside-district"]


def test_only_nine_digits_can_be_compared() -> None:
    fraction = routing.read_fraction("53-9477/113")
    assert isinstance(fraction, routing.Fraction)
    for number in ("", "01139477", "01139477?", "٠11394776"):
        with pytest.raises(ValueError, match=r"Expected nine digits\."):
            routing.agree(fraction, number)
