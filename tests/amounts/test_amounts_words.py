"""read_words: every form of the legal line, and what it refuses."""

from __future__ import annotations

import csv
import time
from pathlib import Path

import pytest
from amount_phrases import Style, phrases, spell
from hypothesis import given
from hypothesis import strategies as st

from checkface.amounts import WordsAmount, read_words
from checkface.amounts.careful import read_carefully
from checkface.amounts.quick import read_quickly
from checkface.span import Fault

with (Path(__file__).parent / "words_rows.csv").open(encoding="utf-8", newline="") as rows:
    ROWS = list(csv.DictReader(rows))


def value(text: str) -> int | None:
    reading = read_words(text)
    assert isinstance(reading, WordsAmount), reading
    return reading.cents


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["text"][:40] or "blank")
def test_published_and_constructed_lines(row: dict[str, str]) -> None:
    reading = read_words(row["text"])
    if isinstance(reading, Fault):
        assert reading.kind == row["verdict"]
        return
    assert reading.verdict + (" repaired" if reading.repairs else "") == row["verdict"]
    assert reading.cents == (int(row["cents"]) if row["cents"] else None)
    if row["candidates"]:
        assert [candidate.cents for candidate in reading.candidates] == [int(c) for c in row["candidates"].split()]


def test_the_rows_cover_every_verdict() -> None:
    verdicts = [row["verdict"] for row in ROWS]
    assert len(ROWS) > 200
    assert verdicts.count("clear") > 80
    assert verdicts.count("ambiguous") > 20
    assert len({verdict for verdict in verdicts if verdict.startswith("words-")}) > 12


@given(phrases())
def test_round_trip_of_phrases_written_from_scratch(phrase: tuple[str, int]) -> None:
    text, cents = phrase
    reading = read_words(text)
    assert isinstance(reading, WordsAmount), (text, reading)
    assert (reading.cents, reading.verdict, reading.language) == (cents, "clear", "en"), text


@given(phrases())
def test_quick_and_careful_readings_are_equal_in_every_field(phrase: tuple[str, int]) -> None:
    quick = read_quickly(phrase[0])
    assert quick is None or quick == read_carefully(phrase[0])


_TEXT = """
one two eight eleven twenty eighty forty-five hundred thousand million and dollars cents , no/100
45/100 xx/100 zero no a dollars, and, 00/100
"""
_PIECES = st.sampled_from(_TEXT.split())


@given(st.lists(_PIECES, min_size=1, max_size=9).map(" ".join))
def test_quick_never_reads_what_the_grammar_would_not(text: str) -> None:
    quick = read_quickly(text)
    assert quick is None or quick == read_carefully(text)


def _plain(text: str) -> str:
    return " ".join(word for word in text.replace("-", " ").replace(",", " ").split() if word != "and")


@given(st.lists(_PIECES, min_size=2, max_size=8).map(" ".join))
def test_a_clear_line_is_the_line_its_value_would_be_written_as(text: str) -> None:
    reading = read_words(text)
    if not isinstance(reading, WordsAmount) or reading.verdict != "clear" or "dollars" not in reading.spans:
        return
    assert reading.cents is not None
    words = _plain(reading.spans["dollars"].of(text)).replace("a ", "one ")
    dollars = reading.cents // 100
    spellings = {_plain(spell(dollars)), _plain(spell(dollars, Style(hundreds_form=True)))}
    if "digit by digit" in reading.candidates[0].reason:
        spellings.add(_plain(" ".join(spell(int(digit)) for digit in str(dollars))))
        assert "cents" in text
    assert words in spellings | {"no", "zero"}, (text, reading)


@given(st.text(max_size=80))
def test_any_text_gives_a_reading_or_a_fault(text: str) -> None:
    reading = read_words(text)
    if isinstance(reading, Fault):
        assert 0 <= reading.span.start <= reading.span.end <= max(len(text), 1)
        assert reading.message.endswith(".")
    else:
        assert (reading.cents is None) == (reading.verdict == "ambiguous")
        assert reading.verdict == "clear" or reading.reasons


_ALPHABET = st.sampled_from(
    [*"oneightwuvyfrcdmxk01258/|-&.,*$()' \u00ad\u0336é—⁄⁰", "hundred ", " and ", " dollars ", " cents"]
)


@given(st.lists(_ALPHABET, max_size=60).map("".join))
def test_near_amounts_never_crash(text: str) -> None:
    reading = read_words(text)
    assert isinstance(reading, (WordsAmount, Fault))


@pytest.mark.parametrize(
    "junk",
    [
        "one ",
        "a",
        "-",
        "and ",
        "xx/",
        "9",
        "(",
        "onehundred",
        "twentyone",
        "é",
        "no ",
        "o/",
        "'",
        "1,",
        "e\u0336",
        ". ",
    ],
)
def test_a_hundred_kilobytes_of_junk_read_in_no_time(junk: str) -> None:
    for size in (999, 100_000):
        text = (junk * size)[:size]
        start = time.perf_counter()
        read_words(text)
        assert time.perf_counter() - start < 0.5, size


@pytest.mark.parametrize(
    ("text", "cents"),
    [
        ("nine million nine thousand", 900_900_000),
        ("two million one thousand", 200_100_000),
        ("thirty-four hundred and fifty", 345_000),
        ("seventy five hundred", 750_000),
        ("five thousand, six hundred", 560_000),
        ("twothousand and one", 200_100),
        ("five hundred and sixty six", 56_600),
        ("twenty two dollars and eight cents", 2_208),
        ("four dollars and thirty-five cents", 435),
        ("one thousand one dollars and ten cents", 100_110),
    ],
)
def test_amounts_that_general_readers_were_reported_to_get_wrong(text: str, cents: int) -> None:
    reading = read_words(text)
    assert isinstance(reading, WordsAmount)
    assert (reading.cents, reading.verdict) == (cents, "clear")


def test_a_misspelled_word_is_never_dropped() -> None:
    assert value("fourty five") == 4_500
    assert value("FIFTY ELGHT THOUSAND EIGHT HUNDRED AND NO/100") == 5_880_000
    assert read_words("FIFTY ELGHT THOUSAND EIGHT HUNDRED AND NO/100").verdict == "review"  # type: ignore[union-attr]


def test_hundred_and_twenty_is_held_for_a_look_not_read_as_2000() -> None:
    reading = read_words("hundred and twenty")
    assert isinstance(reading, WordsAmount)
    assert (reading.cents, reading.verdict, reading.reasons) == (12_000, "review", ("no one stands before hundred",))


def test_leftover_words_fail() -> None:
    reading = read_words("five dollars and three apples")
    assert isinstance(reading, Fault)
    assert reading.span.of("five dollars and three apples") == "apples"


@pytest.mark.parametrize("joint", ["and", "&", "with", "AND"])
@pytest.mark.parametrize(
    ("mark", "cents"),
    [("45/100", 45), ("no/100", 0), ("0/100", 0), ("XX/100", 0), ("25/XX", 25), ("-0-/100", 0), ("07/100", 7)],
)
def test_joiners_and_marks_of_cents(joint: str, mark: str, cents: int) -> None:
    reading = read_words(f"Sixty-two {joint} {mark}")
    assert isinstance(reading, WordsAmount)
    assert (reading.cents, reading.verdict) == (6_200 + cents, "clear")


@pytest.mark.parametrize("filler", ["-----", "– – –", "———", "______", "~~~~", "****", "....", "====", "####", "xxxxx"])
def test_fillers_left_and_right(filler: str) -> None:
    text = f"{filler} Sixty-two and 05/100 {filler}"
    reading = read_words(text)
    assert isinstance(reading, WordsAmount)
    assert (reading.cents, reading.verdict) == (6_205, "clear")
    assert read_words(f"Sixty-two and 05/100 {filler} DOLLARS").cents == 6_205  # type: ignore[union-attr]


@pytest.mark.parametrize(
    "text",
    [
        "twenty thousand only sum twenty",
        "one of exactly million dollars",
        "twenty xxxx exactly two and 00/100",
        "two 5 cents",
        "one hundred one hundred dollars",
        "1,234.56 and 00/100",
        "One hundred dollars and 45/100 and 45/100",
        "and",
        "dollars and cents",
    ],
)
def test_words_that_make_no_single_amount_are_malformed(text: str) -> None:
    reading = read_words(text)
    assert isinstance(reading, Fault), reading
    assert reading.kind == "words-malformed"


@pytest.mark.parametrize(
    ("text", "cents", "reason"),
    [
        ("one thousand cents", 1_000, "more than 99 cents are counted"),
        ("1,250 cents", 1_250, "more than 99 cents are counted"),
        ("hundred cents", 100, "no one stands before hundred"),
        ("no and 45/100", 45, "no stands for no dollars"),
        ("forty dollars and 00/100 No. 12345", 4_000, "a serial number stands behind the amount"),
        ("one two three dollars and 45/100", 12_345, "the number is given digit by digit"),
        ("one hundred dollars and four five cents", 10_045, "the cents are given digit by digit"),
        ("One hundred and 00/100 (100", 10_000, "a bracket stands alone"),
        ("fifty and fifty/100", 5_050, "the cents over 100 are no plain figures"),
        ("a dollar and 00/100", 100, "the article a stands for one"),
        ("five hundreds and 00/100", 50_000, "hundred is in the plural"),
        ("five dollars and forty5 cents", 545, "digits stand among the words"),
        ("seventy2cents", 72, "digits stand among the words"),
        ("tres mil ciento y 47/100", 310_047, "a word is missing behind ciento"),
        ("ciento mil con 00/100", 10_000_000, "a word is missing behind ciento"),
        ("diez y seis dólares con 45/100", 1_645, "a number below thirty is in three words"),
        ("veinte y cinco con 00/100", 2_500, "a number below thirty is in three words"),
        ("twenty- and 47/100", 2_047, "nothing follows the hyphen"),
        ("one hundred thirty- 47/100", 13_047, "nothing follows the hyphen"),
        ("-five and 10/100", 510, "the line may have lost its beginning"),
        (", three hundred and 05/100", 30_005, "the line may have lost its beginning"),
        ("one thousand, and 47/100", 100_047, "nothing follows the comma behind thousand"),
        ("two million, dollars and 47/100", 200_000_047, "nothing follows the comma behind million"),
        ("mil, con 47/100", 100_047, "nothing follows the comma behind mil"),
        ("0 and 45/100", 45, "the amount is in figures"),
        ("05 dollars and eleven cents", 511, "the amount is in figures"),
        ("nueve millón con 00/100", 900_000_000, "millon is in the wrong number"),
        ("un millones con 00/100", 100_000_000, "millones is in the wrong number"),
        ("uno mil con 00/100", 100_000, "uno stands before mil"),
        ("one thousand a hundred and 00/100", 110_000, "an article stands inside the number"),
        ("nine nine nine dollars and seventy-six cents", 99_976, "the number is given digit by digit"),
        ("seventy cent dollars", 70, "cent is in the singular"),
        ("fifty dollar and 45/100", 5_045, "dollar is in the singular"),
        ("fifty dol", 5_000, "the line may be cut off"),
        ("seventy-two dollars 45/100 even", 7_245, "a word for no cents stands behind cents"),
        ("cinco dólares y veinte y tres centavos", 523, "a number below thirty is in three words"),
    ],
)
def test_odd_forms_are_held_for_a_look(text: str, cents: int, reason: str) -> None:
    reading = read_words(text)
    assert isinstance(reading, WordsAmount), reading
    assert (reading.cents, reading.verdict) == (cents, "review")
    assert reason in reading.reasons


def test_a_line_of_fillers_is_blank() -> None:
    for text in ("", "   ", "-------", "_____ DOLLARS", "$"):
        assert read_words(text).kind == "words-blank"  # type: ignore[union-attr]


def test_spans_are_offsets_into_the_raw_text() -> None:
    text = "*** Five Thousand and 07/100 Dollars ($5,000.07 USD)"
    reading = read_words(text)
    assert isinstance(reading, WordsAmount)
    assert {name: span.of(text) for name, span in reading.spans.items()} == {
        "dollars": "Five Thousand",
        "cents": "07/100",
        "figures": "5,000.07",
    }
    assert reading.figures_on_line
    assert not read_words("Five Thousand and 07/100").figures_on_line  # type: ignore[union-attr]


def test_spans_of_a_plain_phrase_and_of_raised_cents() -> None:
    for text in ("One hundred forty and 45/100 dollars", "One hundred forty dollars and ⁴⁵⁄₁₀₀"):
        reading = read_words(text)
        assert isinstance(reading, WordsAmount)
        assert reading.spans["dollars"].of(text) == "One hundred forty"
        assert reading.spans["cents"].of(text) in {"45/100", "⁴⁵⁄₁₀₀"}


@pytest.mark.parametrize(
    ("text", "cents"),
    [
        ("**5550 DOL'S 00 CTS", 555_000),
        ("TheSum6762dol's64cts", 676_264),
        ("1,234 DOL 67 CENTS", 123_467),
        ("Registered No. 497345 **5550 DOL'S 00 CTS", 555_000),
        ("PAY EXACTLY ****123DOLLARS45CENTS", 12_345),
        ("ONE*TWO*THREE*DOLS*FOUR*FIVE*CTS", 12_345),
        ("000123 DOLS 45 CTS", 12_345),
        ("00 DOLS 45 CTS", 45),
    ],
)
def test_machine_imprints(text: str, cents: int) -> None:
    reading = read_words(text)
    assert isinstance(reading, WordsAmount)
    assert (reading.cents, reading.verdict) == (cents, "clear")


def test_the_number_behind_no_is_never_the_amount() -> None:
    assert isinstance(read_words("No. 497345 DOLLARS"), Fault)
    assert isinstance(read_words("Serial 497345"), Fault)


@pytest.mark.parametrize(
    "text",
    ["1,500 and 00/100", "**$1,234.56**", "150 and 00/100", "12 hundred and 00/100", "One hundred 23 and 45/100"],
)
def test_digits_for_words_are_held_for_a_look(text: str) -> None:
    reading = read_words(text)
    assert isinstance(reading, WordsAmount)
    assert reading.verdict == "review"
    assert reading.figures_on_line


@pytest.mark.parametrize(
    "text",
    [
        "Five hundred and 00/100 ($500.00)",
        "Five hundred (500) and 00/100",
        "Five hundred and 00/100 $500.00",
        "$500.00 Five hundred and 00/100",
        "$500 five hundred dollars",
    ],
)
def test_figures_beside_the_words_that_agree(text: str) -> None:
    reading = read_words(text)
    assert isinstance(reading, WordsAmount)
    assert (reading.cents, reading.verdict, reading.figures_on_line) == (50_000, "clear", True)
    wrong = read_words(text.replace("500", "600"))
    assert isinstance(wrong, WordsAmount)
    assert wrong.cents is None
    assert {candidate.cents for candidate in wrong.candidates} == {50_000, 60_000}


@pytest.mark.parametrize("text", ["1,234 and 56 cents", "45 cents", "$100 and 45/100", "05 dollars even"])
def test_digits_without_both_units_are_no_imprint(text: str) -> None:
    reading = read_words(text)
    assert isinstance(reading, WordsAmount)
    assert reading.verdict == "review"
    assert "the amount is in figures" in reading.reasons


def test_bracketed_figures_that_differ_leave_both_values() -> None:
    reading = read_words("One hundred (200) and 00/100")
    assert isinstance(reading, WordsAmount)
    assert (reading.cents, reading.verdict) == (None, "ambiguous")
    assert [candidate.cents for candidate in reading.candidates] == [10_000, 20_000]
