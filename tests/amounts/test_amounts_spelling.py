"""Spelling repair within its limits, and the mutations no reader can see."""

from __future__ import annotations

import itertools
import os
import random
import re
import string

import pytest
from amount_phrases import spell

from checkface.amounts import WordsAmount, read_words
from checkface.amounts.closed_words import split
from checkface.amounts.spelling import mend, misread, slips, suggest
from checkface.amounts.vocabulary import ENGLISH, ENGLISH_NUMBERS
from checkface.span import Fault


@pytest.mark.parametrize(
    ("read", "taken"),
    [
        ("fourty", "forty"),
        ("ninty", "ninety"),
        ("ninteen", "nineteen"),
        ("fife", "five"),
        ("thiry", "thirty"),
        ("eigth", "eight"),
        ("hundered", "hundred"),
        ("thousend", "thousand"),
        ("ELGHT", "eight"),
        ("0NE", "one"),
        ("F1VE", "five"),
        ("5ix", "six"),
        ("TVVENTY", "twenty"),
        ("rnillion", "million"),
    ],
)
def test_slips_that_are_mended(read: str, taken: str) -> None:
    line = {"hundred": "one {}", "thousand": "one {}", "million": "one {}"}.get(taken, "{} hundred")
    reading = read_words(line.format(read) + " dollars and 00/100")
    assert isinstance(reading, WordsAmount)
    assert [(repair.read, repair.taken) for repair in reading.repairs] == [(read, taken)]
    assert reading.verdict == "review"
    assert reading.repairs[0].span.of(line.format(read)) == read


@pytest.mark.parametrize(
    ("word", "values"),
    [
        ("to", [20_000, 10_000]),
        ("too", [20_000, 10_000]),
        ("for", [40_000, 10_000]),
        ("won", [10_000, 20_000, 100_000]),
        ("ate", [80_000, 10_000]),
        ("tree", [30_000, 10_000]),
        ("fore", [40_000, 10_000]),
    ],
)
def test_real_words_are_suggested_beside_the_line_without_them(word: str, values: list[int]) -> None:
    reading = read_words(f"{word} hundred and 00/100")
    assert isinstance(reading, WordsAmount)
    assert (reading.cents, reading.verdict, reading.repairs) == (None, "ambiguous", ())
    assert [candidate.cents for candidate in reading.candidates] == values


@pytest.mark.parametrize(
    ("text", "cents", "taken"),
    [
        ("nine-teen and 00/100", 1_900, "nineteen"),
        ("seven teen", 1_700, "seventeen"),
        ("five teen dollars", 1_500, "fifteen"),
        ("one hundred eight teen and 00/100", 11_800, "eighteen"),
        ("six ty and 00/100", 6_000, "sixty"),
        ("twen ty-five and 00/100", 2_500, "twenty"),
        ("one hun dred and 00/100", 10_000, "hundred"),
        ("dieci seis con 00/100", 1_600, "dieciseis"),
        ("veinti dós con 00/100", 2_200, "veintidos"),
        ("dos cientos con 00/100", 20_000, "doscientos"),
    ],
)
def test_a_word_cut_in_two_is_mended(text: str, cents: int, taken: str) -> None:
    reading = read_words(text)
    assert isinstance(reading, WordsAmount)
    assert (reading.cents, reading.verdict) == (cents, "review")
    assert [repair.taken for repair in reading.repairs] == [taken]


def test_two_whole_words_are_never_made_one() -> None:
    assert read_words("one hundred six teens").kind == "words-unknown-word"  # type: ignore[union-attr]
    for text in ("two teen dollars", "one ty dollars"):
        reading = read_words(text)
        assert isinstance(reading, Fault) or len(reading.candidates) > 1


@pytest.mark.parametrize("word", ["there", "hour", "line", "night", "sever", "fire", "thirsty", "collars", "tents"])
def test_other_real_words_are_refused(word: str) -> None:
    reading = read_words(f"{word} hundred and 00/100")
    assert isinstance(reading, Fault)
    assert reading.kind == "words-unknown-word"


@pytest.mark.parametrize("word", ["sixy", "eighy"])
def test_a_word_as_near_to_two_is_left_open(word: str) -> None:
    reading = read_words(f"{word} and 00/100")
    assert isinstance(reading, WordsAmount)
    assert reading.cents is None
    assert len(reading.candidates) == 2


def test_short_words_are_never_mended() -> None:
    assert [mend(word, ENGLISH) for word in ("sx", "tn", "oen", "tow", "sik")] == [()] * 5
    assert isinstance(read_words("oen hundred and 00/100"), Fault)


def test_two_slips_are_a_suggestion() -> None:
    assert suggest("twelf", ENGLISH) == ("twelve",)
    assert suggest("fiveteen", ENGLISH) == ("fifteen", "nineteen")
    assert mend("twelf", ENGLISH) == ()


def test_two_uncertain_words_are_unreadable() -> None:
    reading = read_words("to hundred for dollars and 00/100")
    assert isinstance(reading, Fault)
    assert reading.kind == "words-unreadable"


def test_ordinals_are_refused_though_one_letter_from_a_number() -> None:
    for word in ("sixth", "seventh", "eighth", "ninth", "fourth", "hundredth"):
        assert read_words(f"one hundred {word}").kind == "words-ordinal"  # type: ignore[union-attr]


def test_the_distance() -> None:
    assert slips("eigth", "eight", 2) == 1
    assert slips("eight", "eighty", 2) == 1
    assert slips("kitten", "sitting", 2) > 2
    assert slips("", "ab", 2) == 2


def test_only_eight_and_eighty_are_one_slip_apart() -> None:
    words = [*ENGLISH_NUMBERS, "even", "zero"]
    near = {(a, b) for a, b in itertools.combinations(words, 2) if slips(a, b, 1) == 1}
    assert near == {("eight", "eighty"), ("seven", "even")}


def test_run_together_words_are_taken_apart_one_way_only() -> None:
    assert split("onehundredtwentythree", "en") == ("one", "hundred", "twenty", "three")
    assert split("eighthundred", "en") == ("eight", "hundred")
    assert split("seventyeight", "en") == ("seventy", "eight")
    assert split("onehundrd", "en") is None
    assert misread("e1ght", ENGLISH) == "eight"


def test_every_number_run_together_gives_its_value_or_a_refusal() -> None:
    for value in range(1, 1_000):
        words = spell(value).replace(" ", "").replace("-", "")
        reading = read_words(f"{words} dollars and 00/100")
        assert isinstance(reading, WordsAmount), words
        assert reading.cents == value * 100
        assert reading.verdict == "clear"


def _one_slip_away(text: str, draw: random.Random) -> str:
    place = draw.randrange(len(text) + 1)
    letter = draw.choice(string.ascii_lowercase + string.digits + " -,.&/*'$()|")
    kind = draw.randrange(4)
    if kind == 0:
        return text[:place] + letter + text[place:]
    if kind == 1:
        return text[:place] + text[place + 1 :]
    if kind == 2:
        return text[:place] + letter + text[place + 1 :]
    return text[:place] + text[place : place + 2][::-1] + text[place + 2 :]


_FORMS = (
    "{n} and {c:02d}/100",
    "{n} dollars and {c:02d}/100",
    "{n} & {c:02d}/xx",
    "{n} dollars and no cents",
    "{n} dollars",
)


def test_one_wrong_character_never_gives_another_clear_amount_but_where_nothing_shows_it() -> None:
    """The exceptions, all of them: eight/eighty, and the digits of the cents, which carry no redundancy."""
    draw = random.Random(118)
    wrong, tried = set(), 0
    for _ in range(20_000 if os.environ.get("CHECKFACE_THOROUGH") else 700):
        dollars = draw.randint(1, draw.choice([99, 999, 99_999, 9_999_999]))
        cents = draw.randint(0, 99)
        form = draw.choice(_FORMS)
        text = form.format(n=spell(dollars), c=cents)
        true = dollars * 100 + (cents if "{c" in form else 0)
        assert read_words(text).verdict == "clear" or "-" not in text  # type: ignore[union-attr]
        for _ in range(60):
            changed = _one_slip_away(text, draw)
            tried += 1
            reading = read_words(changed)
            if not isinstance(reading, WordsAmount) or reading.verdict != "clear" or reading.cents == true:
                continue
            if re.sub(r"\D", "", changed) != re.sub(r"\D", "", text):
                assert reading.cents is not None
                assert reading.cents // 100 == dollars, changed
                wrong.add("digits of the cents")
            else:
                assert text.count("eighty") != changed.count("eighty"), (text, changed)
                wrong.add("eight/eighty")
    assert tried > 40_000
    assert wrong == {"digits of the cents", "eight/eighty"}
