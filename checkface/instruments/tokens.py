"""Words of a reading with their places, so spelled that case, accents, punctuation and disguise do not matter.

>>> [token.word for token in tokenise("CASHIER’S  CHÈCK – V0ID, C$ 5")]
['cashiers', 'check', 'void', 'c$', '5']
>>> tokenise("V O I D")
[Token(word='void', start=0, end=7, line=0)]
"""

import unicodedata
from typing import NamedTuple

from checkface.patterns import lazily

_JOINERS = "'\u2018\u2019`\u00b4\u200b\u200c\u200d\u2060\ufeff\u00ad"
_TOKEN = lazily(
    r"(\n|\r)"
    r"|(?<![^\W_])(?:[^\W\d_][ ]{1,3}){3,}[^\W\d_](?![^\W_])"  # letters set apart
    r"|(?<![^\W_])[A-Za-z]{1,3}\$"
    r"|(?<![^\W_])[A-Za-z]+(?=[0-9]{2})|(?<=[0-9]{2})[A-Za-z]+(?![^\W_])"  # a code and its number run together
    r"|(?<![^\W_])[0-9]{2,}(?=[A-Za-z]+(?![^\W_]))"
    rf"|[^\W_]+(?:[{_JOINERS}]+[^\W_]+)*"
    r"|[&\u00a2-\u00a5\u20a0-\u20bf]"
)
_JOINED = str.maketrans("", "", _JOINERS + " ")
_FIGURES = str.maketrans("015", "ois")
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
    tokens = []
    line = 0
    for match in _TOKEN.finditer(text):
        if match[1]:
            line += 1
        else:
            tokens.append(Token(_plain(match[0]), match.start(), match.end(), line))
    return tokens


def _plain(word: str) -> str:
    word = word.translate(_JOINED)
    if not word.isascii():
        parts = unicodedata.normalize("NFKD", word.casefold())
        word = "".join(c for c in parts if not unicodedata.combining(c)).translate(_LOOK_ALIKES)
    word = word.lower()
    return word if word.isalpha() or word.isdigit() else word.translate(_FIGURES)
