"""What the readers of amounts get right and cost, against general readers of number words in the same run.

Run with ``pytest tests/benchmarks/bench_amounts.py --benchmark-enable -s``; the tables are printed, and only
accuracy is asserted. The others read whole numbers: each is given the dollars after the regular expression that
a caller would need to cut off the cents, and a refusal counts as not right.
"""

from __future__ import annotations

import random
import re
import timeit
from collections.abc import Callable

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from checkface.amounts import WordsAmount, compare, read_figures, read_words
from checkface.amounts.careful import read_carefully

_CENTS = re.compile(r"^(.*?)\s+and\s+(\d\d|no|xx)/100$")
_AMOUNTS = 1_000

Reader = Callable[[str], int | None]


def _readers() -> dict[str, Reader]:
    """Every reader at hand as a function from a phrase with cents to cents."""
    readers: dict[str, Reader] = {"checkface.amounts": _ours}
    text_to_num = pytest.importorskip("text_to_num")
    word2number = pytest.importorskip("word2number.w2n")
    text2digits = pytest.importorskip("text2digits.text2digits")
    number_parser = pytest.importorskip("number_parser")
    icu = pytest.importorskip("icu")
    converter = text2digits.Text2Digits()
    speller = icu.RuleBasedNumberFormat(icu.URBNFRuleSetTag.SPELLOUT, icu.Locale("en_US"))
    readers["text2num + re"] = _with_cents(lambda words: int(text_to_num.text2num(words, "en")))
    readers["word2number + re"] = _with_cents(lambda words: int(word2number.word_to_num(words)))
    readers["text2digits + re"] = _with_cents(lambda words: int(converter.convert(words)))
    readers["number-parser + re"] = _with_cents(lambda words: int(number_parser.parse_number(words)))
    readers["PyICU + re"] = _with_cents(lambda words: int(speller.parse(words).getInt64()))
    return readers


def _ours(text: str) -> int | None:
    reading = read_words(text)
    return reading.cents if isinstance(reading, WordsAmount) and reading.verdict == "clear" else None


def _with_cents(dollars: Callable[[str], int]) -> Reader:
    def read(text: str) -> int | None:
        match = _CENTS.match(text)
        if match is None:
            return None
        cents = match[2]
        return dollars(match[1]) * 100 + (int(cents) if cents.isdigit() else 0)

    return read


def _phrases(spell: Callable[[int], str], vary: Callable[[str], str]) -> list[tuple[str, int]]:
    draw = random.Random(7)
    values = [draw.randint(1, draw.choice([999, 9_999, 99_999, 9_999_999])) for _ in range(_AMOUNTS)]
    return [(f"{vary(spell(value))} and {value % 100:02d}/100", value * 100 + value % 100) for value in values]


def _sets() -> dict[str, list[tuple[str, int]]]:
    spell = pytest.importorskip("num2words").num2words
    inflected = pytest.importorskip("inflect").engine().number_to_words
    return {
        "num2words": _phrases(spell, str),
        "no commas": _phrases(spell, lambda text: text.replace(",", "")),
        "plain": _phrases(spell, lambda text: text.replace(",", "").replace(" and ", " ")),
        "no hyphens": _phrases(spell, lambda text: text.replace(",", "").replace("-", " ")),
        "Title Case": _phrases(spell, lambda text: text.replace(",", "").title()),
        "inflect": _phrases(inflected, str),
    }


def _right(read: Reader, phrases: list[tuple[str, int]]) -> float:
    right = 0
    for text, cents in phrases:
        try:
            right += read(text) == cents
        except Exception:
            continue
    return 100 * right / len(phrases)


def _microseconds(call: Callable[[], object], number: int) -> float:
    return min(timeit.repeat(call, number=number, repeat=5)) / number * 1e6


def test_table(capsys: pytest.CaptureFixture[str]) -> None:
    readers, sets = _readers(), _sets()
    plain = [text for text, _ in sets["plain"]][:100]
    costs = {
        name: _microseconds(lambda read=read: [read(text) for text in plain], 3) / len(plain)
        for name, read in readers.items()
    }
    ours = costs["checkface.amounts"]
    with capsys.disabled():
        print(
            f"\n{'right, per cent of ' + str(_AMOUNTS):22}"
            + "".join(f"{name:>12}" for name in sets)
            + "      us   ratio"
        )
        for name, read in readers.items():
            shares = {phrase_set: _right(read, phrases) for phrase_set, phrases in sets.items()}
            row = "".join(f"{share:12.1f}" for share in shares.values())
            print(f"{name:22}{row}{costs[name]:8.2f}{costs[name] / ours:8.2f}")
            if name == "checkface.amounts":
                assert set(shares.values()) == {100.0}


CALLS: dict[str, Callable[[], object]] = {
    "words, plain": lambda: read_words("one thousand two hundred thirty-four and 56/100"),
    "words, as people write": lambda: read_words("One Thousand, Two Hundred and Thirty-four and 56/100 dollars"),
    "words, by the grammar": lambda: read_carefully("one thousand two hundred thirty-four and 56/100"),
    "words, imprint": lambda: read_words("**5550 DOL'S 00 CTS"),
    "words, repaired": lambda: read_words("fourty-five and 10/100"),
    "words, refused": lambda: read_words("five dollars and three apples"),
    "figures, clean": lambda: read_figures("$1,234.56"),
    "figures, no point": lambda: read_figures("1250"),
}
_WORDS, _EQUAL, _OTHER = read_words("forty-five and 10/100"), read_figures("$45.10"), read_figures("$54.10")
CALLS["compare, equal"] = lambda: compare(_WORDS, _EQUAL)
CALLS["compare, different"] = lambda: compare(_WORDS, _OTHER)


@pytest.mark.parametrize("name", CALLS)
def test_one_call(benchmark: BenchmarkFixture, name: str) -> None:
    benchmark(CALLS[name])


def test_costs(capsys: pytest.CaptureFixture[str]) -> None:
    with capsys.disabled():
        print()
        for name, call in CALLS.items():
            print(f"{name:26}{_microseconds(call, 2_000):8.2f} us")
