"""Social security and payment card numbers, against python-stdnum (us.ssn, luhn)."""

from __future__ import annotations

import random

from hypothesis import given
from hypothesis import strategies as st
from stdnum import luhn
from stdnum.us import ssn

from checkface.identity import forbidden_number

ISSUED_TO_NOBODY = {"078-05-1120", "457-55-5462", "219-09-9999"}
"""Numbers python-stdnum lists as misused in public: of the form all the same, so still refused here."""


@given(st.integers(0, 999), st.integers(0, 99), st.integers(0, 9999))
def test_grouped_numbers_are_refused_when_python_stdnum_accepts_them(area, group, serial):
    text = f"{area:03}-{group:02}-{serial:04}"
    found = forbidden_number(text)
    if ssn.is_valid(text):
        assert found == ("social-security", "certain")
    elif found is not None:  # only what python-stdnum refuses for its area 9xx or as known to the public
        assert area >= 900 or text in ISSUED_TO_NOBODY


@given(st.integers(0, 999_999_999))
def test_plain_nine_digits_are_possible_when_python_stdnum_accepts_them(number):
    text = f"{number:09}"
    if ssn.is_valid(text):
        assert forbidden_number(text) == ("social-security", "possible")
    else:
        assert forbidden_number(text) is None or ssn.format(text) in ISSUED_TO_NOBODY


def test_luhn():
    rng = random.Random(20)
    for _ in range(3_000):
        digits = "".join(rng.choices("0123456789", k=rng.randint(10, 22)))
        found = forbidden_number(digits)
        card = 13 <= len(digits) <= 19 and luhn.is_valid(digits)
        assert (found == ("payment-card", "certain")) is card


def test_every_wrong_digit_of_a_card_number_frees_it():
    whole = "4111111111111111"  # a public test number
    for at in range(16):
        for digit in "0123456789":
            text = whole[:at] + digit + whole[at + 1 :]
            assert (forbidden_number(text) is None) is (not luhn.is_valid(text))
