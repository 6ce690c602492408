"""Amounts as the Unicode CLDR writes them (https://cldr.unicode.org; taken from babel's copy of it) for English and
Spanish of the United States, Mexico and Puerto Rico: figures with the dollar's sign, its code or its name."""

from __future__ import annotations

from decimal import Decimal

import pytest
from babel.numbers import format_currency, format_decimal
from hypothesis import given
from hypothesis import strategies as st

from checkface.amounts import FiguresAmount, read_figures

LOCALES = ("en_US", "es_US", "es_MX", "es_PR", "es")
CENTS = st.integers(1, 9_999_999_99)


def read(text: str) -> FiguresAmount:
    reading = read_figures(text)
    assert isinstance(reading, FiguresAmount), text
    return reading


@pytest.mark.parametrize("style", ["standard", "accounting", "name"])
@pytest.mark.parametrize("locale", LOCALES)
@given(cents=CENTS)
def test_an_amount_of_dollars(locale: str, style: str, cents: int) -> None:
    """Spain's Spanish writes 1234,56 without a mark for the thousands: two readings, and this the first of them."""
    text = format_currency(Decimal(cents) / 100, "USD", locale=locale, format_type=style)
    reading = read(text)
    assert reading.candidates[0].cents == cents
    assert locale == "es" or reading.cents == cents
    assert reading.cents in (None, cents)


@pytest.mark.parametrize("locale", ["en_US", "es_US", "es_MX", "es_PR"])
@given(cents=CENTS)
def test_a_plain_number_with_two_decimals(locale: str, cents: int) -> None:
    text = format_decimal(Decimal(cents) / 100, "#,##0.00", locale=locale)
    reading = read(text)
    assert reading.cents == cents
    assert reading.verdict == "clear" or "888" in text


@pytest.mark.parametrize("locale", LOCALES)
@given(cents=CENTS)
def test_a_credit_is_never_a_clear_amount(locale: str, cents: int) -> None:
    """CLDR sets the minus or the brackets of accounts around the number; others set the minus behind it."""
    amount = Decimal(cents) / 100
    for text in (
        format_currency(-amount, "USD", locale=locale),
        format_currency(-amount, "USD", locale=locale, format_type="accounting"),
        format_currency(amount, "USD", locale=locale, format="#,##0.00 CR"),
        format_decimal(amount, "#,##0.00-", locale=locale),
    ):
        reading = read_figures(text)
        assert not isinstance(reading, FiguresAmount) or reading.verdict != "clear", text
