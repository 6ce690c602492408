"""Amounts spelled by three libraries that know nothing of this one, read back to the cent.

Sources: num2words 0.5 (PyPI), inflect 7 (PyPI), and the English spell-out rules of Unicode CLDR through ICU's
rule-based number formats (PyICU, class RuleBasedNumberFormat). For Spanish also n2words 4.0.0, which is on npm and not
on PyPI: what it spells for the United States is kept in n2words_es_us.csv.
"""

from __future__ import annotations

import csv
import os
import random
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

import pytest

from checkface.amounts import WordsAmount, read_words

COUNT = 20_000 if os.environ.get("CHECKFACE_THOROUGH") else 2_000


def _amounts() -> list[int]:
    """Cents from 0.01 to 99,999,999.99, each order of magnitude alike."""
    draw = random.Random(19)
    return [draw.randint(1, draw.choice([99, 9_999, 99_999, 9_999_999, 9_999_999_999])) for _ in range(COUNT)]


def _check(spell: Callable[[int], str], vary: Callable[[str], str] = str) -> None:
    for cents in _amounts():
        text = vary(f"{spell(cents // 100)} and {cents % 100:02d}/100 dollars")
        reading = read_words(text)
        assert isinstance(reading, WordsAmount), text
        assert (reading.cents, reading.verdict) == (cents, "clear"), text


VARIANTS: tuple[Callable[[str], str], ...] = (
    str,
    str.upper,
    str.title,
    lambda text: text.replace(",", ""),
    lambda text: text.replace("-", " "),
    lambda text: text.replace(" and ", " ", text.count(" and ") - 1),
    lambda text: text.replace(",", "").replace("-", " ").replace(" and ", " & "),
)


@pytest.mark.parametrize("vary", VARIANTS)
def test_num2words(vary: Callable[[str], str]) -> None:
    spell = pytest.importorskip("num2words").num2words
    _check(spell, vary)


@pytest.mark.parametrize("vary", VARIANTS)
def test_inflect(vary: Callable[[str], str]) -> None:
    engine = pytest.importorskip("inflect").engine()
    _check(engine.number_to_words, vary)


@pytest.mark.parametrize("rule", ["%spellout-cardinal", "%spellout-cardinal-verbose"])
def test_icu(rule: str) -> None:
    icu = pytest.importorskip("icu")
    speller = icu.RuleBasedNumberFormat(icu.URBNFRuleSetTag.SPELLOUT, icu.Locale("en_US"))
    _check(lambda value: str(speller.format(value, rule)))


def test_num2words_currency_with_the_cents_in_words() -> None:
    """A plain int would be taken as cents here; the Decimal is dollars."""
    spell = pytest.importorskip("num2words").num2words
    for cents in _amounts()[:500]:
        if cents < 100:
            continue
        text = spell(Decimal(cents) / 100, to="currency", currency="USD", separator=" and")
        reading = read_words(text)
        assert isinstance(reading, WordsAmount), text
        assert reading.cents == cents, text


def test_spanish_num2words() -> None:
    spell = pytest.importorskip("num2words").num2words
    for cents in _amounts()[:1_000]:
        text = f"{spell(cents // 100, lang='es')} dólares con {cents % 100:02d}/100"
        reading = read_words(text)
        assert isinstance(reading, WordsAmount), text
        assert (reading.cents, reading.language) == (cents, "es"), text


def test_spanish_n2words() -> None:
    """It spells 21 centavos "veintiuno", which is kept: the reading must not depend on it."""
    rows = (Path(__file__).parent / "n2words_es_us.csv").read_text(encoding="utf-8").splitlines()
    table = list(csv.DictReader(row for row in rows if not row.startswith("#")))
    assert len(table) > 300
    for row in table:
        cents = int(row["cents"])
        for text in (
            f"{row['cardinal']} con {cents % 100:02d}/100",
            f"{row['cardinal']} and {cents % 100:02d}/100 dollars",
            row["currency"],
        ):
            reading = read_words(text)
            assert isinstance(reading, WordsAmount), text
            assert reading.language == "es"
            assert cents in {candidate.cents for candidate in reading.candidates}, text
            assert reading.cents in (None, cents), text


def test_spanish_icu() -> None:
    icu = pytest.importorskip("icu")
    speller = icu.RuleBasedNumberFormat(icu.URBNFRuleSetTag.SPELLOUT, icu.Locale("es"))
    for cents in _amounts()[:1_000]:
        text = f"{speller.format(cents // 100, '%spellout-cardinal-masculine')} dólares con {cents % 100:02d}/100"
        reading = read_words(text)
        assert isinstance(reading, WordsAmount), text
        assert reading.cents == cents, text
