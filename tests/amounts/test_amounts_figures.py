"""read_figures: a set of values with reasons, never one silent value."""

from __future__ import annotations

import csv
import re
import string
import time
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checkface.amounts import FiguresAmount, read_figures
from checkface.amounts.figures import read_carefully
from checkface.span import Fault

with (Path(__file__).parent / "figures_rows.csv").open(encoding="utf-8", newline="") as rows:
    ROWS = list(csv.DictReader(rows))

CENTS = st.one_of(st.integers(1, 99_999), st.integers(1, 99_999_999_999))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["text"] or "blank")
def test_published_and_constructed_boxes(row: dict[str, str]) -> None:
    reading = read_figures(row["text"])
    if isinstance(reading, Fault):
        assert reading.kind == row["verdict"]
        return
    assert reading.verdict + (" repaired" if reading.repairs else "") == row["verdict"]
    assert reading.cents == (int(row["cents"]) if row["cents"] else None)
    if row["candidates"]:
        assert [candidate.cents for candidate in reading.candidates] == [int(c) for c in row["candidates"].split()]


_FORMS = (
    "{d:,}.{c:02d}",
    "${d:,}.{c:02d}",
    "{d}.{c:02d}",
    "$$ {d}.{c:02d}",
    "**{d:,}.{c:02d}**",
    "{d:,} {c:02d}/100",
    "{d} {c:02d}/xx",
    "{d}-{c:02d}",
    "{d}·{c:02d}",
    "{d} . {c:02d}",
    "exactly {d:,}.{c:02d}",
    "{d:,}.{c:02d} only",
    "USD {d:,}.{c:02d}",
    "{d:,}.{c:02d} -----",
    "${d:,}.{c:02d}--",
    "{d}.{c:02d} --",
    "${d}.{c:02d}\N{EM DASH}",
    "${d:,}.{c:02d} xx",
    "{d:,}.{c:02d}/-",
    "{d} - {c:02d}",
    "{d}\N{EM DASH}{c:02d}",
    "{d}-{c:02d}/100",
    "{d}-----{c:02d}/xx-",
    "{d}\N{BULLET}{c:02d}",
    "{d:,} dollars {c:02d} cents",
    "**{d} DOLLARS AND {c:02d} CTS**",
    "{d} dols. & {c:02d}\N{CENT SIGN}",
    "{d} dollars {c:02d}/100",
    "{d} {c:02d}/XXX",
    "{d:,}.{c:02d} |",
    "{d:,}.{c:02d}.--",
    "{d} {c:02d}/100 xx",
)


@given(CENTS, st.sampled_from(_FORMS))
def test_plain_forms_round_trip(cents: int, form: str) -> None:
    text = form.format(d=cents // 100, c=cents % 100)
    reading = read_figures(text)
    assert isinstance(reading, FiguresAmount), text
    assert reading.cents == cents
    assert reading.verdict == ("review" if re.fullmatch("8{3,}", str(cents // 100)) else "clear")
    assert [candidate.cents for candidate in reading.candidates] == [cents]


@given(CENTS)
def test_raised_cents_round_trip(cents: int) -> None:
    raised = f"{cents % 100:02d}".translate(str.maketrans(string.digits, "⁰¹²³⁴⁵⁶⁷⁸⁹"))
    reading = read_figures(f"{cents // 100}{raised}")
    assert isinstance(reading, FiguresAmount)
    assert reading.cents == cents


_BOX = st.text(alphabet="0123456789,.$ -/*xOlS|'()·—⁰²¹¢K:", max_size=18)


@given(_BOX)
def test_the_quick_form_and_the_general_forms_are_equal(text: str) -> None:
    assert read_figures(text) == read_carefully(text)


@given(CENTS, st.booleans())
def test_clean_figures_read_the_same_both_ways(cents: int, sign: bool) -> None:
    text = f"{'$' * sign}{cents // 100:,}.{cents % 100:02d}"
    assert read_figures(text) == read_carefully(text)


@given(st.one_of(st.text(max_size=40), _BOX))
def test_any_text_gives_values_or_a_fault(text: str) -> None:
    reading = read_figures(text)
    if isinstance(reading, Fault):
        assert reading.message.endswith(".")
        return
    assert reading.candidates
    assert (reading.cents is None) == (reading.verdict == "ambiguous")
    assert reading.cents in {None, reading.candidates[0].cents}
    assert reading.verdict == "clear" or reading.reasons
    assert len({candidate.cents for candidate in reading.candidates}) == len(reading.candidates)


@given(st.integers(100, 9_999_999))
def test_a_lost_point_keeps_the_true_value_among_the_candidates(cents: int) -> None:
    reading = read_figures(f"{cents // 100}{cents % 100:02d}")
    assert isinstance(reading, FiguresAmount)
    assert reading.verdict == "review"
    assert {candidate.cents for candidate in reading.candidates} == {cents, cents * 100}


@pytest.mark.parametrize(
    ("text", "verdict", "values"),
    [
        ("1250", "review", [125_000, 1_250]),
        ("1250.", "review", [125_000, 1_250]),
        ("50", "review", [5_000, 50]),
        ("7", "review", [700, 7]),
        ("1,387", "review", [138_700, 1_387]),
        ("250.5", "ambiguous", [25_050, 25_005]),
        (".5", "ambiguous", [50, 5]),
        ("1.500,00", "review", [150_000]),
        ("1.500", "ambiguous", [150_000, 150]),
        ("12,34", "ambiguous", [1_234, 123_400]),
        ("1.234.56", "ambiguous", [123_456, 12_345_600]),
        ("1'234.56", "review", [123_456]),
        ("5.0", "review", [500]),
        (".5¢", "ambiguous", [50, 5, 1]),
        (".01¢", "review", [1]),
        ("S.50", "ambiguous", [50, 550]),
        ("45|10", "ambiguous", [4_510, 4_511_000, 45_110]),
        ("42 5/100", "review", [4_205]),
        ("25/100", "review", [25]),
        ("99¢", "review", [99]),
        ("S123.45", "ambiguous", [12_345, 512_345]),
        ("5O.OO", "review", [5_000]),
        ("8B8.00", "review", [88_800]),
        ("45-", "review", [4_500, 45]),
        ("45 \N{EM DASH}", "review", [4_500, 45]),
        ("45 xx", "review", [4_500, 45]),
        ("45.1-", "ambiguous", [4_510, 4_501]),
        ("45,10-", "ambiguous", [4_510, 451_000]),
        ("45$10", "review", [4_510]),
        ("45=10", "review", [4_510]),
        ("45..10", "review", [4_510]),
        ("45.10/xx", "review", [4_510]),
        ("45 10\N{CENT SIGN}", "review", [4_510]),
        ("45.10\N{CENT SIGN}", "ambiguous", [4_510, 46]),
        ("45 dollars 5 cents", "review", [4_505]),
        ("45 dollars 10", "review", [4_510]),
        ("45-5/100", "review", [4_505]),
        ("|45.10", "ambiguous", [4_510, 14_510]),
        ("|45.10|", "ambiguous", [4_510, 14_510]),
    ],
)
def test_dangerous_forms_give_every_value(text: str, verdict: str, values: list[int]) -> None:
    reading = read_figures(text)
    assert isinstance(reading, FiguresAmount), reading
    assert (reading.verdict, [candidate.cents for candidate in reading.candidates]) == (verdict, values)


@pytest.mark.parametrize("text", ["12.-", "12. -", "12.\N{EM DASH}", "12. --", "12.-0-", "12/-", "12 --/100", "12.xx-"])
def test_a_dash_behind_the_point_still_stands_for_no_cents(text: str) -> None:
    reading = read_figures(text)
    assert isinstance(reading, FiguresAmount), reading
    assert (reading.verdict, reading.cents) == ("clear", 1_200)


@pytest.mark.parametrize("text", ["-45.10", "-45.10-", "$-45.10--", "(45.10)", "(45.10)-", "minus 45.10-"])
def test_only_what_stands_before_the_amount_or_round_it_makes_it_negative(text: str) -> None:
    fault = read_figures(text)
    assert isinstance(fault, Fault)
    assert fault.kind == "figures-negative"


def test_repairs_point_at_each_letter() -> None:
    reading = read_figures("  $l,2S4.56")
    assert isinstance(reading, FiguresAmount)
    assert [(r.span, r.read, r.taken) for r in reading.repairs] == [((3, 4), "l", "1"), ((6, 7), "S", "5")]


def test_the_span_leaves_out_signs_and_fillers() -> None:
    for text in ("** $1,234.56 **", "$1,234.56", "1,234.56.", "１,234.56"):
        reading = read_figures(text)
        assert isinstance(reading, FiguresAmount)
        assert reading.spans["amount"].of(text) in {"1,234.56", "１,234.56"}


@pytest.mark.parametrize("text", ["١٢.٥٠", "12.५०", "1²34.56", "½", "⅓", "12 ⅓", "12.³4", "XII"])
def test_digits_of_other_scripts_are_no_figures(text: str) -> None:
    assert isinstance(read_figures(text), Fault)


@pytest.mark.parametrize("junk", ["1", "1,", " ", "-", "$", "*", "1 ", "O", "1,234", "8", "x", "."])
def test_a_hundred_kilobytes_of_junk_read_in_no_time(junk: str) -> None:
    for size in (199, 100_000):
        text = (junk * size)[:size]
        start = time.perf_counter()
        read_figures(text)
        assert time.perf_counter() - start < 0.2


def test_one_wrong_character_is_clear_only_where_it_reads_as_other_digits() -> None:
    """A digit changed, added, swapped, lost or hidden by a sign leaves figures that are as good as any others."""
    for text in ("$1,234.56", "1234.56", "45.10", "100.00", "7.05", "42 25/100"):
        true = read_figures(text).cents  # type: ignore[union-attr]
        digits = re.sub(r"/100$|\D", "", text)
        for place in range(len(text) + 1):
            for letter in "0123456789OlSx,.$- */":
                for changed in (
                    text[:place] + letter + text[place:],
                    text[:place] + letter + text[place + 1 :],
                    text[:place] + text[place + 1 :],
                ):
                    reading = read_figures(changed)
                    if isinstance(reading, FiguresAmount) and reading.verdict == "clear" and reading.cents != true:
                        assert re.sub(r"/100$|\D", "", changed) != digits, (text, changed)
