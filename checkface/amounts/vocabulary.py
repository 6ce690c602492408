"""The English words that write amounts, as language facts.

Every word has a kind of :mod:`checkface.amounts.token_kinds` and, where it counts, a value.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from checkface.amounts.token_kinds import (
    AND,
    ARTICLE,
    CENTS,
    COLUMN,
    DOLLARS,
    EVEN,
    HUNDRED,
    HUNDREDTHS,
    MILLION,
    NO_AMOUNT,
    NONE,
    OH,
    POINT,
    TEEN,
    TEN,
    TENS,
    THOUSAND,
    UNIT,
    WITH,
    ZERO,
)

Entry = tuple[str, int]


def number_words(kind: str, first: int, step: int, words: str) -> dict[str, Entry]:
    """Entries of one *kind*, their values counting from *first* by *step*."""
    return {word: (kind, first + step * place) for place, word in enumerate(words.split())}


def plain(kind: str, words: str) -> dict[str, Entry]:
    """Entries of one *kind* without a value."""
    return dict.fromkeys(words.split(), (kind, 0))


ENGLISH_NUMBERS: Mapping[str, Entry] = MappingProxyType(
    {
        **number_words(UNIT, 1, 1, "one two three four five six seven eight nine"),
        **number_words(TEN, 10, 1, "ten"),
        **number_words(TEEN, 11, 1, "eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen"),
        **number_words(TENS, 20, 10, "twenty thirty forty fifty sixty seventy eighty ninety"),
        "hundred": (HUNDRED, 100),
        "thousand": (THOUSAND, 1_000),
        "million": (MILLION, 1_000_000),
    }
)

ENGLISH: Mapping[str, Entry] = MappingProxyType(
    {
        **ENGLISH_NUMBERS,
        **plain(ZERO, "zero naught nought"),
        **plain(OH, "oh o"),
        **number_words(ARTICLE, 1, 0, "a an"),
        "hundreds": (HUNDRED, 100),
        "thousands": (THOUSAND, 1_000),
        "millions": (MILLION, 1_000_000),
        **plain(NONE, "no none nothing nil without"),
        **plain(DOLLARS, "dollar dollars dol dols dollar's dol's usd"),
        **plain(CENTS, "cent cents ct cts cent's ct's ¢"),
        **plain(HUNDREDTHS, "hundredths"),
        **plain(AND, "and &"),
        **plain(WITH, "with plus w/ +"),
        **plain(
            NO_AMOUNT, "pay exactly exact precisely only just the sum of this amount registered us u.s united states $"
        ),
        **plain(NO_AMOUNT, "in full net"),
        **plain(EVEN, "even flat"),
        **plain(POINT, "point"),
        **plain(COLUMN, "thou thous hun hund hunds tens unit units"),
    }
)
