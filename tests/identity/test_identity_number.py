"""Licence number shapes, places, and numbers that must not be recorded."""

from __future__ import annotations

import random
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from identity_payloads import sample_of

from checkface import tables
from checkface.identity import find_place, fits_shape, forbidden_number, issuer_of

SHAPES = [row for row in tables.load("license_shapes").rows if row["pattern"]]


def from_words(words: str) -> str:
    """A second derivation of a shape, from its description in words such as ``3 Alpha + 6 Numeric; 9 Numeric``."""
    alternatives = []
    for form in re.split(r";|, or ", words):
        pattern = ""
        for part in form.split("+"):
            count, _, what = part.strip().partition(" ")
            low, _, high = count.partition("-")
            if what:
                pattern += f"{'[A-Z]' if what.startswith('Alpha') else '[0-9]'}{{{low},{high or low}}}"
            else:  # a fixed letter, quoted or not
                pattern += count.strip("'")
        alternatives.append(f"(?:{pattern})")
    return "|".join(alternatives)


@pytest.mark.parametrize("row", [row for row in SHAPES if row["state"] != "WA"], ids=lambda row: row["state"])
def test_pattern_and_words_accept_the_same_numbers(row):
    rng = random.Random(row["state"])
    words = from_words(row["forms"])
    for _ in range(60):
        assert re.fullmatch(words, sample_of(row["pattern"], rng)), row["forms"]
        assert fits_shape(row["state"], sample_of(words, rng)), words
        other = sample_of("[A-Z0-9]{1,20}", rng)
        assert fits_shape(row["state"], other) == bool(re.fullmatch(words, other))


def test_washington_numbers_are_twelve_long_and_start_with_letters():
    for number, right in {
        "SAMPLMJ123P7": True,
        "WDLABC123456": True,
        "LI***MJ123P7": True,
        "1AMPLMJ123P7": False,
        "SAMPL": False,
    }.items():
        assert fits_shape("WA", number) is right


@pytest.mark.parametrize("state", ["AS", "MP", "VI", "NU", "", "nowhere"])
def test_without_a_published_shape_nothing_is_said(state):
    assert fits_shape(state, "123") is None


def test_every_state_has_a_row():
    states = {row["alpha"] for row in tables.load("us_states").rows if row["kind"] in {"state", "district"}}
    assert states <= {row["state"] for row in SHAPES}


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("48", "TX"),
        ("22", "LA"),
        ("TX", "TX"),
        ("tx ", "TX"),
        ("Texas", "TX"),
        ("1", "AL"),
        ("01", "AL"),
        ("11", "DC"),
        ("72", "PR"),
        ("QC", "QC"),
        ("quebec", "QC"),
        ("COA", "COA"),
        ("03", None),
        ("07", None),
        ("14", None),
        ("43", None),
        ("52", None),
        ("74", None),
        ("UM", None),
        ("99", None),
        ("", None),
        ("00", None),
        ("XX", None),
        ("TEX", None),
        ("४८", None),
        ("x" * 500, None),
    ],
)  # INCITS 38-2009; 03, 07, 14, 43 and 52 are reserved in FIPS 5-1
def test_places(text, code):
    found = find_place(text)
    assert (found.code if found else None) == code


def test_issuers():
    assert issuer_of("636000").code == "VA"
    assert issuer_of("604428").country == "CAN"
    assert issuer_of("636027").code == ""
    assert issuer_of("990876").confirmed is False
    assert issuer_of("636015").confirmed is True
    assert issuer_of("000000") is None


CARD = "4111111111111111"  # a public test number with a right Luhn check digit


@pytest.mark.parametrize(
    ("text", "state", "answer"),
    [
        (CARD, "", ("payment-card", "certain")),
        (CARD, "TX", ("payment-card", "certain")),
        (CARD, "NY", ("payment-card", "possible")),  # New York also has sixteen digits
        ("4111 1111 1111 1111", "NY", ("payment-card", "certain")),
        ("4111-1111-1111-1111", "", ("payment-card", "certain")),
        ("3782 822463 10005", "", ("payment-card", "certain")),
        ("４１１１１１１１１１１１１１１１", "", ("payment-card", "certain")),
        (f"card {CARD} exp", "", ("payment-card", "certain")),
        ("4111111111111112", "", None),
        ("123-45-6789", "", ("social-security", "certain")),
        ("123 45 6789", "CT", ("social-security", "certain")),
        ("SSN 123-45-6789", "", ("social-security", "certain")),
        ("123456789", "", ("social-security", "possible")),
        ("123456789", "CT", ("social-security", "possible")),
        ("123456789", "TX", ("social-security", "certain")),
        ("000-45-6789", "", None),
        ("666-45-6789", "", None),
        ("123-00-6789", "", None),
        ("123-45-0000", "", None),
        ("912345678", "CT", None),
        ("912-70-1234", "", ("social-security", "certain")),  # a taxpayer number is printed in the same groups
        ("K12345678", "KS", None),
        ("12345678", "TX", None),
        ("1234-56-7890", "IN", None),
        ("", "", None),
    ],
)
def test_forbidden_numbers(text, state, answer):
    assert forbidden_number(text, state) == answer


@given(st.text(max_size=60), st.sampled_from(["", "CT", "TX", "NY", "WA"]))
def test_any_text_is_judged(text, state):
    found = forbidden_number(text, state)
    assert found is None or found.certainty in {"certain", "possible"}


def test_no_license_number_of_its_own_state_is_certainly_forbidden():
    rng = random.Random(1)
    for row in SHAPES:
        for _ in range(50):
            found = forbidden_number(sample_of(row["pattern"], rng), row["state"])
            assert found is None or found.certainty == "possible"
