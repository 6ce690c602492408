"""Mend a misspelled or misread word, within limits that keep it from inventing an amount.

Measured over the vocabulary with the optimal string alignment distance (one slip: a letter lost, added, changed,
or two neighbours swapped), only eight/eighty and seven/even are one slip apart; pairs such as six/sixty,
nine/ninety, forty/fifty are two apart. So one slip is mended when the token has at least four letters and exactly
one word is that near; two slips are only ever a suggestion, and a real word (to, for, won, there) is never
mended. Letters and digits that readers of print confuse (0/o, 1/l/i, 5/s, 8/b, vv/w, rn/m) are put back only when
the result is a word of the vocabulary as it stands.

>>> mend("fourty", ENGLISH)
('forty',)
>>> mend("sixy", ENGLISH)
('six', 'sixty')
>>> mend("there", ENGLISH)
()
"""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping

from checkface.amounts.spanish import SPANISH
from checkface.amounts.token_kinds import CENTS, DOLLARS, HUNDREDTHS, NO_AMOUNT, NUMBERS
from checkface.amounts.vocabulary import ENGLISH, Entry
from checkface.amounts.word_lists import HOMOPHONES, PECULIAR, REAL_WORDS

_UNACCENT = str.maketrans("áéíóúü", "aeiouu")
_CONFUSED = (
    str.maketrans("01583", "oisbe"),
    str.maketrans("0158", "olsb"),
    str.maketrans("l", "i"),
    str.maketrans("i", "l"),
)
_PAIRS = (("vv", "w"), ("rn", "m"), ("cl", "d"))
_NEVER_TARGETS = PECULIAR.keys() | frozenset(
    ("even", "flat", "only", "just", "none", "pay", "the", "this", "amount", "exact", "sum", "states", "united", "full")
)


def without_accents(word: str) -> str:
    """*word* as the Spanish vocabulary has it, whose accents are optional on a check."""
    return unicodedata.normalize("NFC", word).translate(_UNACCENT)


def misread(word: str, words: Mapping[str, Entry]) -> str | None:
    """The word of the vocabulary that *word* shows once confusable characters are put back, if there is one."""
    for table in _CONFUSED:
        mended = word.translate(table)
        if mended != word and mended in words and len(mended) > 2:
            return mended
    for seen, meant in _PAIRS:
        mended = word.replace(seen, meant)
        if mended != word and mended in words:
            return mended
    return None


def mend(word: str, words: Mapping[str, Entry]) -> tuple[str, ...]:
    """Words one slip from *word*: one is a repair, several are a choice nobody can make."""
    if len(word) < 4 or word in REAL_WORDS or word in HOMOPHONES:
        return ()
    return tuple(target for target in targets(words) if slips(word, target, 1) == 1)


def suggest(word: str, words: Mapping[str, Entry]) -> tuple[str, ...]:
    """Words two slips from *word*, for a person to choose from."""
    if len(word) < 5 or word in REAL_WORDS:
        return ()
    return tuple(target for target in targets(words) if len(target) > 4 and slips(word, target, 2) == 2)


def targets(words: Mapping[str, Entry]) -> tuple[str, ...]:
    """The words of a vocabulary that a misspelled word may be taken for."""
    return _ENGLISH_TARGETS if words is ENGLISH else _SPANISH_TARGETS


def slips(read: str, meant: str, most: int) -> int:
    """Optimal string alignment distance between two words; any number above *most* once it is exceeded."""
    if abs(len(read) - len(meant)) > most:
        return most + 1
    while read and meant and read[0] == meant[0]:
        read, meant = read[1:], meant[1:]
    while read and meant and read[-1] == meant[-1]:
        read, meant = read[:-1], meant[:-1]
    before: list[int] = []
    row = list(range(len(meant) + 1))
    for i, letter in enumerate(read, 1):
        after = [i]
        for j, other in enumerate(meant, 1):
            cost = min(row[j] + 1, after[-1] + 1, row[j - 1] + (letter != other))
            if i > 1 and j > 1 and letter == meant[j - 2] and read[i - 2] == other:
                cost = min(cost, before[j - 2] + 1)
            after.append(cost)
        if min(after) > most:
            return most + 1
        before, row = row, after
    return row[-1]


def _spelled(words: Mapping[str, Entry]) -> tuple[str, ...]:
    return tuple(
        word
        for word, (kind, _) in words.items()
        if kind in NUMBERS + DOLLARS + CENTS + HUNDREDTHS + NO_AMOUNT and word not in _NEVER_TARGETS and len(word) > 2
    )


_ENGLISH_TARGETS = _spelled(ENGLISH)
_SPANISH_TARGETS = _spelled(SPANISH)
