"""Words written together, as ``twothousand``, and such words with one slip in them, as ``fourtyfive``.

>>> split("twothousand", "en"), split("fourtyfive", "en")
(('two', 'thousand'), None)
>>> with_a_slip("fourtyfive", "en"), with_a_slip("onehundredsevntytwo", "en")
([('forty', 'five')], [('one', 'hundred', 'seventy', 'two')])
>>> one_slip_away("sixten", "en"), one_slip_away("eightfour", "en")
([('sixteen',)], [('eighty', 'four')])
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from checkface.amounts.spanish import SPANISH
from checkface.amounts.spelling import mend, slips, targets
from checkface.amounts.token_kinds import TENS, UNIT
from checkface.amounts.vocabulary import ENGLISH, Entry
from checkface.amounts.word_lists import ORDINALS, REAL_WORDS

LONGEST = 40
"""Letters; no longer word is mended part by part."""

_LONGEST_PART = 18
_ORDINALS = tuple(ORDINALS)
_WORDS: Mapping[str, Mapping[str, Entry]] = {"en": ENGLISH, "es": SPANISH}
_PIECES = {
    "en": frozenset(word for word in targets(ENGLISH) if word not in {"usd", "cts"})
    | {"zero", "and", "only", "the", "sum"},
    "es": frozenset(targets(SPANISH)) | {"cero", "y"},
}


def _compounds(words: Mapping[str, Entry], joint: tuple[str, ...]) -> dict[str, tuple[str, ...]]:
    tens = [word for word, (kind, _) in words.items() if kind == TENS]
    units = [word for word, (kind, _) in words.items() if kind == UNIT]
    return {"".join((ten, *joint, unit)): (ten, *joint, unit) for ten in tens for unit in units}


_COMPOUNDS = {"en": _compounds(ENGLISH, ()), "es": _compounds(SPANISH, ("y",))}
"""Twenty-one to ninety-nine in one word."""


@lru_cache(maxsize=512)
def split(word: str, language: str) -> tuple[str, ...] | None:
    """The one way to cut *word* into words of the vocabulary, or None."""
    pieces = _PIECES[language]
    ways: list[list[tuple[str, ...]]] = [[()], *([] for _ in word)]
    for end in range(1, len(word) + 1):
        for size in range(1, min(end, 17) + 1):
            piece = word[end - size : end]
            if piece in pieces:
                ways[end] += [(*way, piece) for way in ways[end - size]][:2]
                del ways[end][2:]
    return ways[-1][0] if len(ways[-1]) == 1 else None


def one_slip_away(word: str, language: str) -> list[tuple[str, ...]]:
    """The words and compounds, as their pieces, that *word* is one slip away from."""
    compounds = _COMPOUNDS[language].items() if len(word) > 5 else ()
    near = [(target,) for target in mend(word, _WORDS[language])]
    return [*near, *(pieces for compound, pieces in compounds if slips(word, compound, 1) == 1)]


def with_a_slip(word: str, language: str) -> list[tuple[str, ...]]:
    """Every way to cut *word* into words of the vocabulary and one part that is a slip away from some."""
    size = len(word)
    if not 6 < size <= LONGEST or word in REAL_WORDS or word.endswith(_ORDINALS):
        return []  # twentyeighth is an ordinal
    heads = [(), *(split(word[:end], language) for end in range(1, size))]
    tails = [*(split(word[start:], language) for start in range(1, size)), ()]
    found = [
        (*head, *part, *tail)
        for start, head in enumerate(heads)
        if head is not None
        for end, tail in enumerate(tails[start : start + _LONGEST_PART], start + 1)
        if tail is not None
        for part in one_slip_away(word[start:end], language)
    ]
    return list(dict.fromkeys(found))
