"""Amounts as machines, printers and people in two languages deliver them: the amount written is read or is among the
candidates, and never another one is clear."""

from __future__ import annotations

import pytest
from amount_phrases import spell
from hypothesis import example, given
from hypothesis import strategies as st

from checkface.amounts import FiguresAmount, WordsAmount, read_figures, read_words
from checkface.amounts.closed_words import LONGEST, split, with_a_slip
from checkface.amounts.spanish import SPANISH_NUMBERS
from checkface.amounts.spelling import slips
from checkface.amounts.vocabulary import ENGLISH_NUMBERS
from checkface.span import Fault

DOLLARS = st.integers(1, 999_999)
CENTS = st.integers(0, 99)
LETTERS = "abcdefghijklmnopqrstuvwxyz"


def words(text: str) -> WordsAmount:
    reading = read_words(text)
    assert isinstance(reading, WordsAmount), (text, reading)
    return reading


def figures(text: str) -> FiguresAmount:
    reading = read_figures(text)
    assert isinstance(reading, FiguresAmount), (text, reading)
    return reading


def holds(reading: WordsAmount | FiguresAmount, cents: int, *, clear: bool) -> bool:
    """Whether the amount is told, or is among the candidates while none is told; *clear* where it must be so."""
    if reading.verdict == "clear":
        return clear and reading.cents == cents
    return not clear and reading.cents in (None, cents) and cents in {each.cents for each in reading.candidates}


CLEAR_LINES = (
    "{w} dollars without cents",
    "{w} and 00/100 in full",
    "{w} dollars and no cents in full",
    "Pay this amount: {w} and 00/100",
    "pay this amount {w} and 00/100 dollars",
    "The sum of this amount: {w} dollars and 00/100",
)


@given(DOLLARS, st.sampled_from(CLEAR_LINES), st.booleans())
def test_words_around_the_amount_are_passed_over(dollars: int, line: str, capital: bool) -> None:
    written = spell(dollars)
    assert holds(words(line.format(w=written.title() if capital else written)), dollars * 100, clear=True)


REVIEWED_LINES = (
    "{w} and {c:02d}/00",
    "{w} {c:02d}/00",
    "{w} & {c:02d}/00 dollars",
    "{w}: {c:02d}/100",
    "{w}; and {c:02d}/100",
    "{w} dollars; {c:02d} cents",
    "{w} dollars: {c:02d}/100",
    "net {w} and {c:02d}/100",
    "{w} and {c:02d}/100 net",
    "{w} dollars {c:02d} Cent",
)


@given(DOLLARS, st.integers(10, 99), st.sampled_from(REVIEWED_LINES))
def test_odd_marks_before_the_cents_are_read_and_doubted(dollars: int, cents: int, line: str) -> None:
    assert holds(words(line.format(w=spell(dollars), c=cents)), dollars * 100 + cents, clear=False)


@given(DOLLARS, st.sampled_from(["no", "xx", "0", "00"]))
def test_no_cents_over_two_zeros(dollars: int, none: str) -> None:
    assert holds(words(f"{spell(dollars)} and {none}/00"), dollars * 100, clear=False)


@given(DOLLARS, st.sampled_from([("½", 50), ("¼", 25), ("¾", 75), ("1/2", 50), ("3/4", 75)]), st.booleans())
def test_a_part_of_a_dollar(dollars: int, part: tuple[str, int], unit: bool) -> None:
    text, cents = part
    assert holds(words(f"{spell(dollars)} and {text}{' dollars' if unit else ''}"), dollars * 100 + cents, clear=False)
    assert holds(figures(f"${dollars} {text}"), dollars * 100 + cents, clear=False)


@given(st.integers(2, 9), st.integers(1, 9), st.integers(1, 9))
def test_a_digit_of_cents_behind_a_compound_is_its_own(ten: int, unit: int, cents: int) -> None:
    text = f"{spell(ten * 10 + unit)} {cents}/100"
    assert holds(words(text), (ten * 10 + unit) * 100 + cents, clear=False)


COMPOUNDS = [value for value in range(13, 100) if value % 10 and value != 80]


@st.composite
def slipped(draw: st.DrawFn) -> tuple[int, str]:
    """A number from 13 to 99 in one word with one slip: a letter lost, added, changed or swapped."""
    value = draw(st.sampled_from(COMPOUNDS))
    word = spell(value).replace("-", "")
    place = draw(st.integers(0, len(word) - 1))
    letter = draw(st.sampled_from(LETTERS))
    kind = draw(st.integers(0, 3))
    return value, (
        word[:place] + word[place + 1 :],
        word[:place] + letter + word[place:],
        word[:place] + letter + word[place + 1 :],
        word[:place] + word[place + 1 : place + 2] + word[place] + word[place + 2 :],
    )[kind]


@given(slipped(), st.sampled_from(["{} and 00/100", "{} dollars", "one hundred {} and 00/100", "{} thousand dollars"]))
@example((16, "sixten"), "{} and 00/100")
@example((14, "fourten"), "{} dollars")
@example((84, "eightfour"), "{} and 00/100")
@example((64, "sixtyfor"), "{} and 00/100")
@example((45, "fourtyfive"), "{} and 00/100")
def test_a_slip_in_a_closed_word_never_gives_another_amount(slip: tuple[int, str], line: str) -> None:
    value, word = slip
    amount = (value * 1_000 if "thousand" in line else value + 100 if "hundred" in line else value) * 100
    reading = read_words(line.format(word))
    if isinstance(reading, WordsAmount):
        assert amount in {each.cents for each in reading.candidates}, reading
        assert reading.cents in (None, amount), reading
        assert reading.verdict != "clear" or word == spell(value).replace("-", "")


@given(
    st.integers(2, 9),
    st.integers(1, 9),
    st.sampled_from(["{} {} and 00/100", "{} {} dollars", "{}-{} dollars and no cents"]),
)
def test_a_ten_in_figures_before_a_word(ten: int, unit: int, line: str) -> None:
    assert holds(words(line.format(ten * 10, spell(unit))), (ten * 10 + unit) * 100, clear=False)


@pytest.mark.parametrize(
    ("text", "cents"),
    [
        ("one hundred net and 00/100", [11_000, 10_000]),
        ("once and 01/100", [1_101, 101]),
        ("net and 00/100", None),
        ("twentyeighth and 00/100", None),
        ("hundredweight and 00/100", None),
        ("fourtyfourfive and 00/100", None),
    ],
)
def test_words_that_only_look_like_an_amount(text: str, cents: list[int] | None) -> None:
    reading = read_words(text)
    if cents is None:
        assert isinstance(reading, Fault)
    else:
        assert isinstance(reading, WordsAmount)
        assert [each.cents for each in reading.candidates] == cents
        assert reading.cents is None


@pytest.mark.parametrize(
    "line",
    [
        "mil doscientos and {c:02d}/100", "MIL DOSCIENTOS DOLARES AND {c:02d}/100 DOLLARS", "mil doscientos con {c:02d}/100 M.A.",
        "Son mil doscientos dólares {c:02d}/100 moneda americana", "mil doscientos con {c:02d}/100 dólares E.U.A.",
        "mil doscientos dólares con {c:02d}/100 EE.UU.",
    ],
)  # fmt: skip
@given(cents=CENTS)
def test_what_a_machine_set_to_spanish_prints(line: str, cents: int) -> None:
    reading = words(line.format(c=cents))
    assert (reading.cents, reading.verdict, reading.language) == (120_000 + cents, "clear", "es")


@given(DOLLARS, CENTS)
def test_boxes_of_other_customs(dollars: int, cents: int) -> None:
    spaced = f"{dollars:,}".replace(",", " ")
    amount = dollars * 100 + cents
    assert holds(figures(f"${dollars} {cents:02d}/00"), amount, clear=False)
    if dollars > 999:
        for mark in "’‘'":
            assert holds(figures(f"{dollars:,}".replace(",", mark) + f".{cents:02d}"), amount, clear=False)
        assert holds(figures(f"{spaced},{cents:02d}"), amount, clear=False)
        assert holds(figures(f"${dollars:,}/xx"), dollars * 100, clear=False)
    for text in (f"${dollars:,},-", f"{dollars},--"):
        assert holds(figures(text), dollars * 100, clear=False)
    assert holds(figures(f"{dollars}/xx"), dollars * 100, clear=False)


@given(DOLLARS, CENTS, st.sampled_from(["-", " -", "−", "CR", " CR", " cr.", " Credit", "- **", "–"]))
def test_a_credit_is_never_a_clear_amount(dollars: int, cents: int, mark: str) -> None:
    for number in (f"{dollars}.{cents:02d}", f"${dollars:,}.{cents:02d}", f"**{dollars} . {cents:02d}"):
        reading = read_figures(number + mark)
        assert not isinstance(reading, FiguresAmount) or reading.verdict != "clear"


@given(st.text(st.sampled_from("onetwfivhrxsgyldau "), max_size=120))
def test_taking_words_apart_ends_soon_and_keeps_to_the_vocabulary(text: str) -> None:
    for word in text.split():
        for pieces in with_a_slip(word, "en"):
            assert len(word) <= LONGEST
            assert sum(map(len, pieces)) - len(word) in (-1, 0, 1)
            assert all(split(piece, "en") == (piece,) for piece in pieces)


def test_once_alone_is_a_number_in_both_languages_by_one_slip() -> None:
    """So an English and beside Spanish words leaves no other number in doubt."""
    near = [
        (spanish, english)
        for spanish, (_, value) in SPANISH_NUMBERS.items()
        for english, (_, other) in ENGLISH_NUMBERS.items()
        if value != other and slips(spanish, english, 1) < 2
    ]
    assert near == [("once", "one")]
