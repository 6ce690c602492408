"""compare: agreement, the slip that explains a difference, and the law."""

from __future__ import annotations

import pytest
from amount_phrases import phrases, spell
from hypothesis import given
from hypothesis import strategies as st

from checkface.amounts import Comparison, FiguresAmount, WordsAmount, compare, read_figures, read_words
from checkface.amounts.slips import likely


def stand(words: str, figures: str, state: str | None = None) -> Comparison:
    return compare(read_words(words), read_figures(figures), state)


def test_equal_values_agree() -> None:
    result = stand("Forty-five and 10/100", "$45.10")
    assert result == Comparison("agree", 4_510, 4_510, 4_510, "UCC 3-114", "", "Words and figures are equal.")
    assert (result.difference, result.slip) == (0, None)


def test_different_values_disagree_and_the_words_rule() -> None:
    result = stand("Forty-five and 10/100", "$54.10")
    assert (result.outcome, result.difference, result.ruling_cents, result.law) == ("disagree", 900, 4_510, "UCC 3-114")
    assert result.reason == "The words say $45.10, the figures $54.10."


@pytest.mark.parametrize(
    ("words", "figures", "value", "settled"),
    [
        (
            "Twelve and 50/100",
            "1250",
            1_250,
            "the words settle the figures at $12.50: if the point before the cents is missing",
        ),
        (
            "Twelve hundred fifty and 00/100",
            "1250",
            125_000,
            "the words settle the figures at $1,250.00: if whole dollars are meant",
        ),
        (
            "Two hundred fifty and 50/100",
            "250.5",
            25_050,
            "the words settle the figures at $250.50: if a zero is missing behind the digit",
        ),
        (
            "Two hundred fifty and 05/100",
            "250.5",
            25_005,
            "the words settle the figures at $250.05: if a zero is missing before the digit",
        ),
        (
            "Fifteen hundred and 00/100",
            "1.500,00",
            150_000,
            "the words settle the figures at $1,500.00: if points and comma are exchanged",
        ),
        ("One hundred and 00/100", "l00.00", 10_000, 'the words settle the figures at $100.00: if "l" stands for 1'),
    ],
)
def test_the_words_choose_among_the_readings_of_the_figures(words: str, figures: str, value: int, settled: str) -> None:
    result = stand(words, figures)
    assert (result.outcome, result.figures_cents, result.ruling_cents, result.settled) == (
        "agree",
        value,
        value,
        settled,
    )


def test_figures_without_a_reading_that_fits_disagree() -> None:
    assert stand("Thirteen and 00/100", "1250").outcome == "disagree"
    result = stand("Thirteen and 00/100", "250.5")
    assert (result.outcome, result.slip) == ("disagree", None)
    assert result.reason == "The words say $13.00, and no reading of the figures does."


def test_repaired_words_count_only_beside_equal_and_definite_figures() -> None:
    assert stand("fourty and 00/100", "40.00").outcome == "agree"
    for figures in ("45.00", "4000", "4O.OO"):
        result = stand("fourty and 00/100", figures)
        assert (result.outcome, result.ruling_cents) == ("undecided", None)
    assert stand("fourty and 00/100", "4000").reason == "The words were repaired and the figures are not definite."
    assert stand("fourty and 00/100", "45.00").reason == "The words were repaired and do not equal the figures."


def test_repaired_figures_that_differ_are_no_disagreement() -> None:
    result = stand("Forty-five and 10/100", "4S.40")
    assert (result.outcome, result.ruling_cents) == ("undecided", 4_510)


def test_ambiguous_words_are_undecided_and_only_new_york_turns_to_the_figures() -> None:
    assert stand("one thirty", "$130.00").outcome == "undecided"
    assert stand("one thirty", "$130.00").ruling_cents is None
    result = stand("one thirty", "$130.00", "NY")
    assert (result.outcome, result.ruling_cents, result.law) == ("undecided", 13_000, "N.Y. UCC 3-118(c)")
    assert result.reason == "The words are ambiguous; the figures are one of their readings."
    assert stand("one thirty", "130", "NY").ruling_cents is None
    assert (
        stand("one thirty", "$140.00").reason == "The words are ambiguous, and the figures are none of their readings."
    )


def test_new_york_follows_plain_words() -> None:
    result = stand("Forty-five and 10/100", "$54.10", "ny")
    assert (result.ruling_cents, result.law) == (4_510, "N.Y. UCC 3-118(c)")


@pytest.mark.parametrize(
    ("words", "figures", "outcome"),
    [
        ("4510", "4510", "undecided"),
        ("4,510", "$4510", "undecided"),
        ("4510 dollars", "4510", "undecided"),
        ("4510", "$45.10", "undecided"),
        ("one zero zero", "100", "undecided"),
        ("one zero zero", "$1.00", "undecided"),
        ("one zero zero", "$100.00", "agree"),
        ("one zero zero", "$101.00", "disagree"),
        ("45.10", "4510", "agree"),
        ("4510 and 00/100", "4510", "agree"),
        ("Fifty", "50", "agree"),
    ],
)
def test_two_open_sides_never_settle_one_another(words: str, figures: str, outcome: str) -> None:
    assert stand(words, figures).outcome == outcome


@given(st.text(alphabet="0123456789,. $-/lO", max_size=9), st.text(alphabet="0123456789,. $-/lO", max_size=9))
def test_agreement_needs_one_side_with_a_single_value(line: str, box: str) -> None:
    words, figures = read_words(line), read_figures(box)
    if compare(words, figures).outcome == "agree":
        assert isinstance(words, WordsAmount)
        assert isinstance(figures, FiguresAmount)
        assert min(len(words.candidates), len(figures.candidates)) == 1


def test_blanks_are_incomplete_not_contradictory() -> None:
    assert stand("", "$45.10").outcome == "incomplete"
    assert (stand("", "$45.10").law, stand("", "$45.10").ruling_cents) == ("UCC 3-115", None)
    result = stand("Forty-five and 10/100", "")
    assert (result.outcome, result.ruling_cents) == ("incomplete", 4_510)
    assert stand("", "").reason == "Neither amount is written."


def test_unreadable_is_undecided() -> None:
    assert stand("see box", "$45.10").reason == "The words cannot be read."
    result = stand("Forty-five and 10/100", "about 45")
    assert (result.outcome, result.ruling_cents, result.reason) == ("undecided", 4_510, "The figures cannot be read.")


@pytest.mark.parametrize(
    ("words", "figures", "kind"),
    [
        (4_510, 5_410, "transposed-digits"),
        (123_456, 124_356, "transposed-digits"),
        (1_250, 125_000, "lost-point"),
        (125_000, 1_250, "lost-point"),
        (4_510, 4_515, "cents-only"),
        (12_345, 12_399, "cents-only"),
        (12_000, 120_000, "extra-zero"),
        (12_000, 1_200, "lost-zero"),
        (500_000, 500, "lost-thousand"),
        (150_000, 50_000, "lost-leading-digit"),
        (12_345, 512_345, "sign-as-digit"),
        (125_000, 105_000, "dropped-hundred"),
        (1_300, 3_000, "teen-ty"),
        (11_500, 15_000, "teen-ty"),
        (800, 8_000, "eight-eighty"),
        (800_000, 8_000_000, "eight-eighty"),
        (123_456, 13_456, "lost-digit"),
        (12_345, 12_945, "one-digit"),
        (4_510, 99_999, None),
    ],
)
def test_likely_slips(words: int, figures: int, kind: str | None) -> None:
    slip = likely(words, figures)
    assert (slip.kind if slip else None) == kind


def test_the_sentence_of_a_slip() -> None:
    slip = stand("Forty-five and 10/100", "$54.10").slip
    assert slip is not None
    assert slip.sentence == "Two digits are swapped: $45.10 in words, $54.10 in figures."


@given(st.integers(1, 10**9), st.integers(1, 10**9))
def test_two_definite_values_never_agree_unless_equal(one: int, other: int) -> None:
    words = read_words(f"{spell(one // 100)} dollars and {one % 100:02d}/100")
    figures = read_figures(f"${other // 100:,}.{other % 100:02d}")
    assert isinstance(words, WordsAmount)
    assert isinstance(figures, FiguresAmount)
    expected = "agree" if one == other else "disagree"
    if figures.verdict == "clear":
        assert compare(words, figures).outcome == expected
        assert compare(words, figures, "NY").outcome == expected


@given(phrases(), st.text(alphabet="0123456789,. $/lOS", max_size=12))
def test_agreement_needs_the_value_of_the_words_among_those_of_the_figures(phrase: tuple[str, int], box: str) -> None:
    words, figures = read_words(phrase[0]), read_figures(box)
    result = compare(words, figures)
    if result.outcome == "agree":
        assert isinstance(figures, FiguresAmount)
        assert phrase[1] in [candidate.cents for candidate in figures.candidates]


@given(st.text(max_size=30), st.text(max_size=12), st.sampled_from([None, "NY", "TX", ""]))
def test_compare_never_crashes(words: str, figures: str, state: str | None) -> None:
    assert compare(read_words(words), read_figures(figures), state).outcome in {
        "agree",
        "disagree",
        "undecided",
        "incomplete",
    }
