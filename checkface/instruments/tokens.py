"""Words of a reading with their places, so spelled that case, accents, punctuation and disguise do not matter.

>>> [token.word for token in tokenise("CASHIER’S  CHÈCK – V0ID, C$ 5")]
['cashiers', 'check', 'void', 'c$', '5']
>>> tokenise("V.O.I.D")
[Token(word='void', start=0, end=7, line=0)]
>>> [token.word for token in tokenise("B A N K  D R 4 F T")]
['bank', 'draft']
"""

import re
import unicodedata
from collections.abc import Iterator
from typing import NamedTuple

from checkface.patterns import lazily

JOINERS = "'\u2018\u2019\u201b\u02bc\u2032`\u00b4\u200b\u200c\u200d\u2060\ufeff\u00ad"
"""What stands inside a word without parting it: apostrophes of every sort, and marks of no width."""
_GAP = rf"[ \t\u00a0.*_{JOINERS}-]{{1,8}}"
_TOKEN = lazily(
    r"(\n|\r)"
    rf"|(?<![^\W_])([^\W_](?:{_GAP}[^\W_](?![^\W_])){{2,}})"  # letters set apart
    r"|(?<![^\W_])[A-Za-z][A-Za-z0-9]{0,2}\$"
    # a code, or a word, and its number run together
    r"|(?<![^\W_])(?:[A-Za-z]{1,3}(?=[0-9]{2,}(?![^\W_])|[0-9],[0-9]{3})|[A-Za-z]+(?=[0-9]{3}))"
    r"|(?<=[0-9]{2})[A-Za-z]+(?![^\W_])"
    r"|(?<![^\W_])(?:[0-9]{2,}(?=[A-Za-z]{1,3}(?![^\W_]))|[0-9]{3,}(?=[A-Za-z]+(?![^\W_])))"
    rf"|[^\W_]+(?:[{JOINERS}]+[^\W_]+)*"
    r"|[&\u00a2-\u00a5\u20a0-\u20bf]"
)
_SET_APART = lazily(rf"[^\W_]({_GAP})?")
_OUTLINES = str.maketrans("dfkxgnmylqv", "oerrchhuiou")
MISREAD_FROM = 6
"""Letters from which a word that differs from a known one by its outline's letters alone is that word misread."""
_JOINED = str.maketrans("", "", JOINERS + " ")
FIGURES = {"0": "o", "1": "i", "3": "e", "4": "a", "5": "s", "7": "t", "8": "b"}
"""A figure inside a word, as the letter it is misread for."""
_FIGURES = str.maketrans(FIGURES)
_LOOK_ALIKES = str.maketrans(
    "\u0430\u0432\u0435\u043a\u043c\u043d\u043e\u0440\u0441\u0442\u0443\u0445\u0456\u0458\u0455\u0501\u04cf"
    "\u03b1\u03b2\u03b5\u03b9\u03ba\u03bd\u03bf\u03c1\u03c4\u03c5\u03c7\u03b6\u03bc\u03b7",
    "abekmhopctyxijsdlabeikvoptuxzun",
)
"""Cyrillic and Greek small letters that pass for Latin ones on paper (Unicode confusables)."""


class Token(NamedTuple):
    """A word in plain small letters, where it stands in the raw text, and on which line, counted from 0."""

    word: str
    start: int
    end: int
    line: int


def tokenise(text: str) -> list[Token]:
    """The words of *text*. A figure inside a word is read as the letter it looks like; a number stays a number."""
    tokens: list[Token] = []
    line = 0
    for match in _TOKEN.finditer(text):
        if match[1]:
            line += 1
        elif match[2]:
            tokens += (Token(_plain(word), start, end, line) for word, start, end in _set_apart(match))
        else:
            tokens.append(Token(_plain(match[0]), match.start(), match.end(), line))
    return tokens


def outline(words: str) -> str:
    """Words in small letters as their outlines: letters that are misread for each other are one, and II is an H.

    >>> outline("chukcii") == outline("church"), outline("chequf") == outline("cheque")
    (True, True)
    """
    return words.translate(_OUTLINES).replace("ii", "h")


def _set_apart(run: re.Match[str]) -> Iterator[tuple[str, int, int]]:
    """The words of letters that stand apart: where some gaps are wider than the others, they part words."""
    letters = [(match[0][0], match.start(), _width(match[1])) for match in _SET_APART.finditer(run[0])]
    narrow = min((gap for _, _, gap in letters if gap), default=0)
    word, start = "", 0
    for index, (letter, place, gap) in enumerate(letters):
        start = start if word else place
        word += letter
        if gap > narrow or index == len(letters) - 1:
            yield word, run.start() + start, run.start() + place + 1
            word = ""


def _width(gap: str | None) -> int:
    """Characters of a gap between letters; one that holds an apostrophe is none."""
    return len(gap) if gap and not any(sign in JOINERS for sign in gap) else 0


def _plain(word: str) -> str:
    word = word.translate(_JOINED)
    if not word.isascii():
        parts = unicodedata.normalize("NFKD", word.casefold())
        word = "".join(c for c in parts if not unicodedata.combining(c)).translate(_LOOK_ALIKES)
    word = word.lower()
    return word if word.isalpha() or word.isdigit() else word.translate(_FIGURES)
