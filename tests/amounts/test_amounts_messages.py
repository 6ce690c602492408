"""The sentences: exact, since they are what a cashier reads."""

from __future__ import annotations

import pytest

from checkface.amounts import WordsAmount, read_figures, read_words
from checkface.span import Fault

WORDS = {
    "": "Expected an amount in words, read a blank line.",
    "x" * 2_000: "Expected at most 1,000 characters, read 2,000.",
    "see box": 'Expected words of an amount, read "see".',
    "Five dollars and three apples": 'Expected words of an amount after "three", read "apples".',
    "Оne hundred": "Expected letters of the Latin alphabet, read CYRILLIC CAPITAL LETTER O.",
    "One\u200b hundred": "Expected characters that show on paper, read the invisible ZERO WIDTH SPACE.",
    "One hundred ⅓": 'Expected words and a fraction, read VULGAR FRACTION ONE THIRD, "⅓".',
    "minus one hundred": 'Expected an amount above zero, read a negative amount, "minus".',
    "One hundredth": 'Expected a cardinal number, read an ordinal, "hundredth".',
    "One hundred euros": 'Expected an amount in United States dollars, read another currency, "euros".',
    "five K": 'Expected an amount spelled out, read a shorthand, "K".',
    "VOID OVER $500.00": 'Expected an amount, read a limit, "VOID".',
    "One lakh and 00/100": 'Expected hundred, thousand or million, read a scale this line cannot carry, "lakh".',
    "cent vingt dollars": 'Expected an amount in English or Spanish, read French, "vingt".',
    "One hundred and xy/100": 'Expected two digits or a mark for no cents, read "xy".',
    "One hundred and 45/1000": 'Expected 100 under the cents, read "1000".',
    "One hundred and 100/100": 'Expected at most 99 cents over 100, read "100/100".',
    "ten dollars and 123 cents": 'Expected at most 99 cents, read "123 cents".',
    "One hundred and 45/100 cents": 'Expected a fraction of a dollar, read "45/100 cents".',
    "Zero and 00/100": "Expected an amount above zero, read zero.",
    "Thirty twelve": 'Expected the amount to end or go on with a smaller number after "Thirty", read "twelve".',
    "Five thousand two thousand": (
        'Expected the amount to end or go on with a smaller number after "Five thousand two", read "thousand".'
    ),
    "1,23 dollars": 'Expected figures such as 1,234.56, read "1,23".',
    "to hundred for dollars": 'Expected at most one doubtful word after "hundred", read a second one.',
    "No. 497345 DOLLARS": "Expected an amount in words, read a line without a number.",
    "45;10": "Expected words of an amount, read a semicolon.",
}

FIGURES = {
    "": "Expected an amount in figures, read a blank box.",
    "1" * 300: "Expected at most 200 characters, read 300.",
    "C$100.00": 'Expected United States dollars, read "C$".',
    "-12.50": 'Expected an amount above zero, read a negative mark in "-12.50".',
    "1.2K": 'Expected figures spelled out, read "K".',
    "100.00 / 200.00": 'Expected one amount, read "100.00 / 200.00".',
    "12,34.56": 'Expected commas before every third digit and two digits after the point, read "12,34.56".',
    "1,234.567": 'Expected two digits after the point, read "567".',
    "42 25/1000": 'Expected 100 under the cents, read "1000".',
    "42 125/100": 'Expected dollars, a space and at most 99 cents over 100, read "125/100".',
    "45.10/100": 'Expected the cents behind a point or over 100, not both, read "45.10/100".',
    "12?50": 'Expected figures such as 1,234.56, read "?".',
    "0.00": "Expected an amount above zero, read zero.",
    "12\u200b.50": "Expected characters that show on paper, read the invisible ZERO WIDTH SPACE.",
    "9,999,999,999.99": "Expected at most $999,999,999.99, read more.",
}


@pytest.mark.parametrize(("text", "message"), WORDS.items(), ids=lambda text: text[:30] or "blank")
def test_messages_of_the_words(text: str, message: str) -> None:
    fault = read_words(text)
    assert isinstance(fault, Fault)
    assert fault.message == message


@pytest.mark.parametrize(("text", "message"), FIGURES.items(), ids=lambda text: text[:30] or "blank")
def test_messages_of_the_figures(text: str, message: str) -> None:
    fault = read_figures(text)
    assert isinstance(fault, Fault)
    assert fault.message == message


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("fourty and 00/100", '"fourty" was taken for forty'),
        ("One hundred and 45/lOO", '"lOO" was taken for 100'),
        ("One hundred and 4S/100", '"4S" was taken for 45'),
        ("hundred and twenty", "no one stands before hundred"),
        ("Fifty", "a single word may be the start of a longer amount"),
        ("1,500 and 00/100", "the amount is in figures"),
        ("one zero zero", "the number is given digit by digit"),
        ("Ten hundred and 00/100", "hundreds in a round ten"),
        ("One, hundred and 00/100", "a comma stands inside the number"),
        ("two hundred dollars 50/", "nothing stands under the cents"),
        ("One hundred and 00|100", "a bar stands for the slash"),
        ("One hundred and", "nothing follows the joiner"),
        ("One hundred dollars and 45", "the word cents is missing"),
        ("an hundred and 00/100", "the article an stands for one"),
        ("to hundred", '"to" is uncertain'),
        ("one thirty", "a scale word is missing"),
    ],
)
def test_reasons_of_the_words(text: str, reason: str) -> None:
    reading = read_words(text)
    assert isinstance(reading, WordsAmount)
    assert reason in reading.reasons


def test_notes_cast_no_doubt() -> None:
    reading = read_words("fifty\u00adfive and 00/100")
    assert isinstance(reading, WordsAmount)
    assert reading.verdict == "clear"
    assert reading.notes == (
        "a soft hyphen inside a word was passed over",
        '"fifty\u00adfive" was taken apart into fifty five',
    )


def test_a_long_reading_is_shortened_in_the_message() -> None:
    fault = read_words("one " + "q" * 200)
    assert isinstance(fault, Fault)
    assert fault.message == f'Expected words of an amount after "one", read "{"q" * 37}...".'
