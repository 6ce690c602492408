"""The law of contradictory amounts, and a decided case.

Sources: Uniform Commercial Code 3-114 (words prevail over numbers); New York Uniform Commercial Code 3-118(c) (words
control figures except that if the words are ambiguous figures control); UCC 3-115 (incomplete instrument);
Galatia Community State Bank v. Kindy, 307 Ark. 467, 821 S.W.2d 765 (1991).
"""

from __future__ import annotations

from checkface.amounts import WordsAmount, compare, read_figures, read_words


def test_kindy_the_imprint_of_5550_dollars_controls_the_figures_of_6550() -> None:
    imprint = "RegistereD No. 497345 **5550 DOL’S 00 CTS"
    words, figures = read_words(imprint), read_figures("6,550.00")
    assert isinstance(words, WordsAmount)
    assert (words.cents, words.verdict) == (555_000, "clear")
    result = compare(words, figures, "AR")
    assert (result.outcome, result.ruling_cents, result.difference) == ("disagree", 555_000, 100_000)
    assert result.law == "UCC 3-114"
    assert result.slip is not None
    assert result.slip.kind == "one-digit"


def test_ucc_3_114_words_prevail_over_numbers() -> None:
    result = compare(read_words("Eleven hundred and 00/100"), read_figures("$1,200.00"), "CA")
    assert (result.ruling_cents, result.law) == (110_000, "UCC 3-114")


def test_new_york_3_118_c() -> None:
    plain = compare(read_words("Eleven hundred and 00/100"), read_figures("$1,200.00"), "NY")
    assert (plain.ruling_cents, plain.law) == (110_000, "N.Y. UCC 3-118(c)")
    ambiguous = compare(read_words("nineteen ninety nine"), read_figures("$19.99"), "NY")
    assert (ambiguous.ruling_cents, ambiguous.law) == (1_999, "N.Y. UCC 3-118(c)")
    elsewhere = compare(read_words("nineteen ninety nine"), read_figures("$19.99"), "NJ")
    assert elsewhere.ruling_cents is None


def test_ucc_3_115_blank_words_are_incomplete() -> None:
    result = compare(read_words(""), read_figures("$19.99"))
    assert (result.outcome, result.law) == ("incomplete", "UCC 3-115")
