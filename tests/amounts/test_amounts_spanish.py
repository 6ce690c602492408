"""Amounts in Spanish: the same contract, the language reported."""

from __future__ import annotations

import os
import random
import string
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checkface.amounts import WordsAmount, read_words
from checkface.amounts.spanish import SPANISH_NUMBERS
from checkface.amounts.spelling import slips
from checkface.span import Fault

_WORDS = """
cero uno dos tres cuatro cinco seis siete ocho nueve diez once doce trece catorce quince dieciséis
diecisiete dieciocho diecinueve veinte veintiuno veintidós veintitrés veinticuatro veinticinco
veintiséis veintisiete veintiocho veintinueve
"""
_SMALL = _WORDS.split()
_TENS = ("", "", "", "treinta", "cuarenta", "cincuenta", "sesenta", "setenta", "ochenta", "noventa")
_HUNDREDS = (
    "",
    "ciento",
    "doscientos",
    "trescientos",
    "cuatrocientos",
    "quinientos",
    "seiscientos",
    "setecientos",
    "ochocientos",
    "novecientos",
)


def below_thousand(value: int) -> str:
    if value == 100:
        return "cien"
    hundreds, rest = divmod(value, 100)
    words = [_HUNDREDS[hundreds]] if hundreds else []
    if rest >= 30:
        ten, unit = divmod(rest, 10)
        words.append(_TENS[ten] + (f" y {_SMALL[unit]}" if unit else ""))
    elif rest or not words:
        words.append(_SMALL[rest])
    return " ".join(words)


def spell(value: int) -> str:
    millions, rest = divmod(value, 1_000_000)
    thousands, rest = divmod(rest, 1_000)
    parts = []
    if millions:
        parts.append("un millón" if millions == 1 else f"{below_thousand(millions).replace('uno', 'un')} millones")
    if thousands:
        parts.append("mil" if thousands == 1 else f"{below_thousand(thousands)} mil")
    if rest or not parts:
        parts.append(below_thousand(rest))
    return " ".join(parts)


@pytest.mark.parametrize(
    ("text", "cents"),
    [
        ("ciento veinte con 50/100", 12_050),
        ("ciento veintitrés dólares con 45/100", 12_345),
        ("CIENTO VEINTITRES DOLARES CON 45/100", 12_345),
        ("mil dólares", 100_000),
        ("un millón de dólares con 00/100", 100_000_000),
        ("Son: dos mil quinientos y 00/100 dólares", 250_000),
        ("treinta y cinco dólares y veinte centavos", 3_520),
        ("veinte centavos", 20),
        ("cero dólares con 50/100", 50),
        ("cientoveinte con 50/100", 12_050),
        ("la cantidad de cien dólares exactos", 10_000),
        ("once dólares sin centavos", 1_100),
    ],
)
def test_forms(text: str, cents: int) -> None:
    reading = read_words(text)
    assert isinstance(reading, WordsAmount), reading
    assert (reading.cents, reading.verdict, reading.language) == (cents, "clear", "es")


@given(
    st.one_of(st.integers(1, 999), st.integers(1, 99_999_999)),
    st.integers(0, 99),
    st.sampled_from(["{n} con {c:02d}/100", "{n} dólares con {c:02d}/100", "{n} y {c:02d}/100 dólares"]),
    st.sampled_from(["NFC", "NFD", "none"]),
)
def test_round_trip_with_and_without_accents(dollars: int, cents: int, form: str, accents: str) -> None:
    text = form.format(n=spell(dollars), c=cents)
    if accents == "none":
        text = text.translate(str.maketrans("áéíóú", "aeiou"))
    else:
        text = unicodedata.normalize(accents, text)  # type: ignore[arg-type]
    reading = read_words(text)
    assert isinstance(reading, WordsAmount), (text, reading)
    assert (reading.cents, reading.verdict) == (dollars * 100 + cents, "clear"), text


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("dos mil pesos", "words-foreign-currency"),
        ("menos cien dólares", "words-negative"),
        ("mil mil dólares", "words-malformed"),
        ("cien one dollars", "words-unknown-word"),
        ("cero dólares con 00/100", "words-zero"),
    ],
)
def test_faults(text: str, kind: str) -> None:
    reading = read_words(text)
    assert isinstance(reading, Fault)
    assert reading.kind == kind


def test_repair_is_held_for_a_look() -> None:
    reading = read_words("seicientos y 00/100")
    assert isinstance(reading, WordsAmount)
    assert (reading.cents, reading.verdict) == (60_000, "review")
    assert [repair.taken for repair in reading.repairs] == ["seiscientos"]


def test_ambiguous_cents() -> None:
    reading = read_words("ciento veinte y cinco centavos")
    assert isinstance(reading, WordsAmount)
    assert reading.cents is None
    assert {candidate.cents for candidate in reading.candidates} == {12_005, 10_025, 125}


def test_french_is_recognised_and_never_read() -> None:
    for text in ("cent vingt-trois dollars et 45/100", "mille dollars", "deux cents dollars"):
        assert read_words(text).kind == "words-language"  # type: ignore[union-attr]


def test_the_words_one_slip_apart() -> None:
    words = sorted(SPANISH_NUMBERS)
    near = {
        (a, b)
        for place, a in enumerate(words)
        for b in words[place + 1 :]
        if slips(a, b, 1) == 1 and SPANISH_NUMBERS[a] != SPANISH_NUMBERS[b]
    }
    assert near == {("sesenta", "setenta")}


def test_one_wrong_letter_only_exchanges_sesenta_and_setenta() -> None:
    draw = random.Random(307)
    found = set()
    for _ in range(4_000 if os.environ.get("CHECKFACE_THOROUGH") else 120):
        dollars = draw.randint(1, draw.choice([99, 999, 99_999]))
        text = f"{spell(dollars)} con 00/100"
        for _ in range(60):
            place, letter = draw.randrange(len(text) - 6), draw.choice(string.ascii_lowercase + "áéíóú")
            for changed in (
                text[:place] + letter + text[place:],
                text[:place] + letter + text[place + 1 :],
                text[:place] + text[place + 1 :],
            ):
                reading = read_words(changed)
                if isinstance(reading, WordsAmount) and reading.verdict == "clear" and reading.cents != dollars * 100:
                    assert text.count("sesenta") != changed.count("sesenta"), (text, changed)
                    found.add("sesenta/setenta")
    assert found == {"sesenta/setenta"}
