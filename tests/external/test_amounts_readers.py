"""Two independent readers of number words, as oracles for whole dollars.

Sources: text2num 3 (PyPI) and the English spell-out rules of Unicode CLDR parsed by ICU (PyICU).
"""

from __future__ import annotations

import random

import pytest

from checkface.amounts import WordsAmount, read_words


def _values() -> list[int]:
    draw = random.Random(41)
    return [draw.randint(1, draw.choice([99, 9_999, 999_999, 99_999_999])) for _ in range(3_000)]


def test_text2num_reads_the_same_dollars() -> None:
    text2num = pytest.importorskip("text_to_num").text2num
    spell = pytest.importorskip("num2words").num2words
    for value in _values():
        words = spell(value).replace(",", "").replace(" and ", " ")
        reading = read_words(f"{words} dollars and 00/100")
        assert isinstance(reading, WordsAmount)
        assert reading.cents == text2num(words, "en") * 100, words


def test_where_text2num_refuses_a_changed_phrase_this_reader_is_never_clear_on_another_value() -> None:
    text2num = pytest.importorskip("text_to_num").text2num
    spell = pytest.importorskip("num2words").num2words
    draw = random.Random(43)
    agreed = 0
    for value in _values()[:1_500]:
        words = spell(value).replace(",", "").replace(" and ", " ")
        place = draw.randrange(len(words))
        changed = words[:place] + draw.choice("abcdefghijklmnopqrstuvwxyz ") + words[place + 1 :]
        reading = read_words(f"{changed} dollars and 00/100")
        if not isinstance(reading, WordsAmount) or reading.verdict != "clear":
            continue
        try:
            theirs = text2num(" ".join(changed.split()), "en")
        except ValueError:
            assert reading.cents == value * 100, changed
        else:
            agreed += 1
            assert reading.cents == theirs * 100, changed
    assert agreed > 20


def test_icu_reads_the_same_dollars() -> None:
    icu = pytest.importorskip("icu")
    speller = icu.RuleBasedNumberFormat(icu.URBNFRuleSetTag.SPELLOUT, icu.Locale("en_US"))
    for value in _values()[:400]:
        words = str(speller.format(value))
        reading = read_words(f"{words} dollars and 00/100")
        assert isinstance(reading, WordsAmount)
        assert reading.cents == speller.parse(words).getInt64() * 100, words
