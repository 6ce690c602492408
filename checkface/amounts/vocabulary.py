"""The English words that write amounts, as language facts.

Every word has a kind, one letter, so that the kinds of a line spell its shape and the grammar of amounts is a
regular expression over shapes (see :mod:`checkface.amounts.grammar`):

===== ========================================= ===== =============================================
kind  meaning                                   kind  meaning
===== ========================================= ===== =============================================
``u`` one to nine                               ``D`` dollars
``e`` ten                                       ``C`` cents
``t`` eleven to nineteen                        ``H`` hundredths
``y`` twenty, thirty ... ninety                 ``&`` and (may stand inside a number)
``w`` 21 to 99 in one token                     ``J`` with (joins cents, never inside a number)
``b`` 100 to 999 in one token                   ``x`` words that state no amount: pay, exactly, only
``d`` 1,000 and more in digits                  ``v`` even, flat: no cents, said after the unit
``z`` zero                                      ``n`` no, none
``o`` oh, for a zero                            ``h`` hundred
``a`` a, an, for one                            ``k`` thousand
``c`` Spanish hundreds (doscientos)             ``m`` million
``L`` column name of a check protector          ``P`` point
===== ========================================= ===== =============================================
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

Entry = tuple[str, int]


def number_words(kind: str, first: int, step: int, words: str) -> dict[str, Entry]:
    """Entries of one *kind*, their values counting from *first* by *step*."""
    return {word: (kind, first + step * place) for place, word in enumerate(words.split())}


def plain(kind: str, words: str) -> dict[str, Entry]:
    """Entries of one *kind* without a value."""
    return dict.fromkeys(words.split(), (kind, 0))


ENGLISH_NUMBERS: Mapping[str, Entry] = MappingProxyType(
    {
        **number_words("u", 1, 1, "one two three four five six seven eight nine"),
        **number_words("e", 10, 1, "ten"),
        **number_words("t", 11, 1, "eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen"),
        **number_words("y", 20, 10, "twenty thirty forty fifty sixty seventy eighty ninety"),
        "hundred": ("h", 100),
        "thousand": ("k", 1_000),
        "million": ("m", 1_000_000),
    }
)

ENGLISH: Mapping[str, Entry] = MappingProxyType(
    {
        **ENGLISH_NUMBERS,
        **plain("z", "zero naught nought"),
        **plain("o", "oh o"),
        **number_words("a", 1, 0, "a an"),
        "hundreds": ("h", 100),
        "thousands": ("k", 1_000),
        "millions": ("m", 1_000_000),
        **plain("n", "no none nothing nil without"),
        **plain("D", "dollar dollars dol dols dollar's dol's usd"),
        **plain("C", "cent cents ct cts cent's ct's ¢"),
        **plain("H", "hundredths"),
        **plain("&", "and &"),
        **plain("J", "with plus w/ +"),
        **plain("x", "pay exactly exact precisely only just the sum of this amount registered us u.s united states $"),
        **plain("x", "in full net"),
        **plain("v", "even flat"),
        **plain("P", "point"),
        **plain("L", "thou thous hun hund hunds tens unit units"),
    }
)
