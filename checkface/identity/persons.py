"""The persons whom the printed lines of a check's drawer name, and the spelling in which names are compared.

>>> [" ".join(person.words) for person in persons_in(["MR. MICHAEL & JANE SAMPLE", "2300 WEST BROAD STREET"])]
['MICHAEL', 'MICHAEL SAMPLE', 'JANE SAMPLE']
>>> fold("José O’Brien-Núñez")
'JOSE OBRIEN-NUNEZ'
>>> without_suffix(("MICHAEL", "SAMPLE", "2ND"))
(('MICHAEL', 'SAMPLE'), 'II')
"""

import unicodedata
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from checkface.patterns import lazily

_TITLES = frozenset({"MR", "MRS", "MS", "MISS", "MX", "DR", "REV", "PROF", "HON", "SIR"})
_AFTER_NAME = frozenset({"MD", "DDS", "DVM", "PHD", "ESQ", "CPA", "RN"})
SUFFIXES = {"JR": "JR", "JNR": "JR", "JUNIOR": "JR", "SR": "SR", "SNR": "SR", "SENIOR": "SR"}
SUFFIXES |= {"1ST": "I", "2ND": "II", "3RD": "III", "4TH": "IV", "5TH": "V"}
SUFFIXES |= {numeral: numeral for numeral in ("I", "II", "III", "IV", "V", "VI")}
"""Name suffixes to their plain form."""

NO_PERSON = frozenset({
    "ASSN", "ASSOCIATION", "BANK", "CHURCH", "CITY", "CLUB", "CO", "COMPANY", "CORP", "CORPORATION", "COUNTY", "DBA",
    "DEPT", "ENTERPRISES", "ESTATE", "FOUNDATION", "FUND", "INC", "INCORPORATED", "LLC", "LLP", "LP", "LTD",
    "PARTNERSHIP", "PAYROLL", "PC", "PLLC", "SCHOOL", "SERVICES", "TRUST", "TRUSTEE", "UNIVERSITY",
})  # fmt: skip
"""Words of a drawer that is a business, a trust or a public body."""

_BETWEEN = lazily(r" *(?:&|\+|;|/|\bAND/OR\b|\bAND\b|\bOR\b|\bY/O\b) *")
_NOT_A_NAME = lazily(r"[0-9#]|\bP\.? ?O\.? BOX\b|\b(?:APT|SUITE|STE|UNIT|PHONE|TEL)\b|@")
_ORDINAL = lazily(r"\b[1-5](?:ST|ND|RD|TH)\b")
_LETTERS_KEPT = str.maketrans(
    {"Ø": "O", "Ł": "L", "Đ": "D", "ẞ": "SS", "Æ": "AE", "Œ": "OE", "Þ": "TH", "Ð": "D", "ı": "I"}
)
_APOSTROPHES, _HYPHENS, _OTHER_MARKS = lazily("['’`´ʻ.]"), lazily("[‐‑–—]"), lazily("[^A-Z0-9 -]")


class Person(NamedTuple):
    """The words of one person; ``lent`` is whether the family name may not be theirs."""

    words: tuple[str, ...]
    lent: bool = False


def persons_in(lines: Iterable[str]) -> Iterator[Person]:
    """The persons the lines name. In "MICHAEL & JANE SAMPLE" the family name is also that of the first."""
    for line in lines:
        capitals = " ".join(unicodedata.normalize("NFC", line).upper().split())
        if not capitals or _NOT_A_NAME.search(_ORDINAL.sub("", capitals)):
            continue
        pieces = [words for words in map(_words, _BETWEEN.split(capitals)) if words]
        for place, words in enumerate(pieces):
            yield Person(words)
            others = [*pieces[place + 1 :], *reversed(pieces[:place])]
            if family := next((_family_of(other) for other in others if len(other) > 1), ""):
                yield Person((*words, family), lent=len(words) > 1 and len(words[-1]) > 1)


def _words(piece: str) -> tuple[str, ...]:
    before, comma, after = piece.partition(",")
    given = fold(after).split()
    family_first = comma and given and not (set(given) <= SUFFIXES.keys() | _AFTER_NAME)
    words = [*given, *fold(before).split()] if family_first else [*fold(before).split(), *given]
    while words and words[0] in _TITLES:
        words.pop(0)
    return tuple(words[:1] + [word for word in words[1:] if word not in _AFTER_NAME])


def _family_of(words: tuple[str, ...]) -> str:
    bare, _ = without_suffix(words)
    return bare[-1] if bare else ""


def without_suffix(words: tuple[str, ...]) -> tuple[tuple[str, ...], str]:
    """The words without a suffix behind the first, and the suffix. A lone I or V amid them is an initial."""
    for place in range(len(words) - 1, 0, -1):
        found = SUFFIXES.get(words[place], "")
        if found and (len(words[place]) > 1 or place == len(words) - 1 > 1):
            return words[:place] + words[place + 1 :], found
    return words, ""


def fold(text: str) -> str:
    """Capitals without accents and apostrophes, hyphens kept, other marks as blanks."""
    text = text.upper()
    words = text.split()
    if text.isascii() and (not words or "".join(words).isalpha()):
        return " ".join(words)  # most names, and most parts of one, are that plain
    if not text.isascii():
        marks = unicodedata.normalize("NFKD", text.translate(_LETTERS_KEPT))
        text = _HYPHENS.sub("-", "".join(mark for mark in marks if not unicodedata.combining(mark)))
    text = _OTHER_MARKS.sub(" ", _APOSTROPHES.sub("", text))
    return "-".join(" ".join(part.split()) for part in text.split("-")).strip("-")
