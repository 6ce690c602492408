"""Characters that are not what they look like, struck words, and the ends of the range."""

from __future__ import annotations

import pytest
from amount_phrases import spell

from checkface.amounts import WordsAmount, read_words
from checkface.span import Fault


def value(text: str) -> int | None:
    reading = read_words(text)
    assert isinstance(reading, WordsAmount), reading
    return reading.cents


@pytest.mark.parametrize(
    "mark", ["\u200b", "\u200d", "\u2060", "\ufeff", "\u202e", "\x00", "\ufe0f", "\u3164", "\u034f", "\ud800"]
)
def test_invisible_characters_are_reported_wherever_they_stand(mark: str) -> None:
    for text in (f"One{mark} hundred and 00/100", f"One hun{mark}dred and 00/100", f"One hundred and 0{mark}0/100"):
        fault = read_words(text)
        assert isinstance(fault, Fault)
        assert fault.kind == "words-hidden-character"
        assert fault.span.of(text) == mark


@pytest.mark.parametrize("letter", ["О", "о", "ο", "е", "ı", "İ", "\u212a", "ſ", "ｏ"])
def test_letters_of_other_alphabets_are_reported(letter: str) -> None:
    fault = read_words(f"{letter}ne hundred and 00/100")
    assert isinstance(fault, Fault)
    assert fault.kind == "words-foreign-letter"
    assert fault.span == (0, 1)


def test_spaces_of_every_width_are_spaces() -> None:
    for space in "\u00a0\u2003\u2009\u202f\u3000":
        assert value(f"One{space}hundred{space}and 00/100") == 10_000


def test_struck_words() -> None:
    struck = "".join(f"{letter}\u0336" for letter in "DOLLARS")
    assert value(f"Sixty dollars and 25 cents {struck}") == 6_025
    gone = "".join(f"{letter}\u0336" for letter in "sixty")
    assert read_words(f"{gone} fifty dollars").kind == "words-struck"  # type: ignore[union-attr]
    half = "DOL" + "".join(f"{letter}\u0336" for letter in "LARS")
    assert read_words(f"Sixty and 25/100 {half}").kind == "words-struck"  # type: ignore[union-attr]


def test_largest_and_smallest() -> None:
    assert value("One cent") == 1
    assert value(f"{spell(999_999_999)} and 99/100") == 99_999_999_999
    assert read_words("1,000,000,000 dollars and 00 cents").kind == "words-over-range"  # type: ignore[union-attr]


@pytest.mark.parametrize(
    "text",
    [
        "Forty-five and 10/100 /",
        "Forty-five and 10/100 dollars /////",
        "Forty-five & 10/100 \\",
        "Forty-five and 10/100 xx",
        "Forty-five dollars and ten cents x",
        "Forty-five & xx10/100",
        "Forty-five & XX10/xx dollars",
        "Forty-five and 10/one hundred",
        "Forty-five and 10/one-hundredths dollars",
        "Forty-five and 10/hundred",
        "Forty-five \N{HORIZONTAL ELLIPSIS} 10/100",
        "Forty-five \N{BULLET} \N{BULLET} 10/100",
    ],
)
def test_marks_that_fill_the_line_cast_no_doubt(text: str) -> None:
    reading = read_words(text)
    assert isinstance(reading, WordsAmount), reading
    assert (reading.cents, reading.verdict) == (4_510, "clear")


@pytest.mark.parametrize(
    ("text", "cents", "reason"),
    [
        ("Forty-five dollars and 10/100 cents", 4_510, "cents stands behind a fraction of a dollar"),
        ("Forty-five dollars & 10/100 cts", 4_510, "cts stands behind a fraction of a dollar"),
        ("Forty-five dollars and 1/100 cents", 4_501, "the cents are not two digits"),
        ("Forty-five / 10/100", 4_510, "a slash parts dollars and cents"),
        ("Forty-five dollars/10/100", 4_510, "a slash parts dollars and cents"),
        ("Forty-five & x10/100", 4_510, "a cross stands before the cents"),
        ("Forty-five and ten/one hundred", 4_510, "the cents over 100 are no plain figures"),
        ("Forty\N{HORIZONTAL ELLIPSIS}five and 10/100", 4_510, "a filler stands inside the number"),
    ],
)
def test_one_value_in_a_form_that_a_person_should_confirm(text: str, cents: int, reason: str) -> None:
    reading = read_words(text)
    assert isinstance(reading, WordsAmount), reading
    assert (reading.cents, reading.verdict, len(reading.candidates)) == (cents, "review", 1)
    assert reason in reading.reasons


def test_no_part_of_a_cent_is_left_behind_the_dollars() -> None:
    reading = read_words("Forty-five dollars and no/100 cents")
    assert isinstance(reading, WordsAmount)
    assert (reading.cents, reading.verdict) == (4_500, "clear")


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("Forty-five and 10/100 cents", "words-fraction-of-cents"),
        ("Zero dollars and 10/100 cents", "words-fraction-of-cents"),
        ("Forty-five and /10/100", "words-unknown-word"),
        ("Forty-five and 10/hundredweight", "words-unknown-word"),
        ("Forty-five and xx1/100", "words-unknown-word"),
        ("Forty-five and /", "words-unknown-word"),
        ("Forty-five dollars /", "words-unknown-word"),
        ("Forty-five xx and 10/100", "words-unknown-word"),
        ("Forty-five and xx10", "words-unknown-word"),
        ("Forty-five and 110/one hundred", "words-cents-over-99"),
        ("Forty-five and 10/one hundred twenty", "words-malformed"),
    ],
)
def test_the_same_marks_elsewhere_are_not_passed_over(text: str, kind: str) -> None:
    fault = read_words(text)
    assert isinstance(fault, Fault), fault
    assert fault.kind == kind
