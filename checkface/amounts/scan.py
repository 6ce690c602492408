"""Cut the raw text of a legal line into tokens, before any word is looked up.

Characters that a reader of the paper cannot see, and letters of other alphabets that look like Latin ones, are
reported and never mapped to what they resemble. Only characters that mean the same are folded, one for one, so
that offsets stay those of the raw text: raised and lowered digits, the fraction slash U+2044, typographic
apostrophes, hyphens and spaces.
"""

import re
import unicodedata
from typing import NamedTuple

from checkface.amounts.model import quoted
from checkface.patterns import lazily
from checkface.span import Fault, Span

LIMIT = 1_000
"""Characters. The longest amount written out, with its fillers, is far below this."""

SPACES = "\u00a0\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000"
FOLD = str.maketrans(
    "⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉⁄∕’‘‐‑−–" + SPACES,
    "01234567890123456789//''----" + " " * len(SPACES),
)
STRIKES = lazily("[\u0335-\u0338]")
_ALLOWED = lazily("[\t\n\r\x20-\x7ea-zà-öø-ÿ\u00ad\u0300-\u0308\u0335-\u0338—―…•¢€£¥₹½¼¾]*")
_LETTER = "a-zà-öø-ÿ"
_WITHIN = rf"[{_LETTER}'\u00ad\u0300-\u0308\u0335-\u0338]"

_TOKEN = lazily(
    rf"""
    (?P<serial> (?:no|number|serial)\.?\s?[#:]?\s?(?P<serial_digits>\d{{3,}})(?![\d/|]) )
  | (?P<united> u\.\s?s\.(?:\s?a\.)? | e\.\s?u\.(?:\s?a\.)? | ee\.?\s?uu\.? | m\.\s?a\.?(?![a-z]) )
  | (?P<with> w/(?!\s?(?:100|xx)\b) )
  | (?P<fraction>
        (?P<over> [0-9oilsbz]{{1,4}} | no | nil | none | nothing | zero | xx? | [a-z]{{1,2}}
                | -0+- | -+ | \*+ | [—―]+ )
        \s?(?P<bar> [/|] )\s?
        (?P<under> 100(?:ths?|'?s)?(?![0-9a-z]) | 100(?=[a-z]) | [24](?![0-9a-z/])
                | (?:one[\s-])?hundred(?:ths?)?(?![a-z]) | xxx?(?![a-z]) | [0-9oilsz]{{2,5}}(?![a-z]) | ) )
  | (?P<hundredths> /\s?(?:100|xx|(?:one[\s-])?hundred(?:ths?)?)\b )
  | (?P<line> [-_~*.=#—―…•]{{2,}} | [—―_~=\#…•] | /-+ | x{{3,}}(?![a-z]) )
  | (?P<mixed> (?=[a-z]*\d)(?=\d*[a-z])[0-9a-z][0-9a-z']*?(?=(?<!\d)\d{{1,4}}\s?[/|]|[^0-9a-z']|\Z) )
  | (?P<digits> \d+(?:,\d+)*(?:\.\d+)? | \.\d+ )
  | (?P<word> [{_LETTER}]{_WITHIN}* )
  | (?P<joint> [-*] )
  | (?P<mark> . )
    """,
    re.VERBOSE | re.DOTALL,
)


class Lexeme(NamedTuple):
    """One piece of the line: its ``kind`` (a group name of the scanner), cleaned lower-case text, and place."""

    kind: str
    text: str
    start: int
    end: int
    over: str = ""
    bar: str = ""
    under: str = ""


def scan(text: str) -> list[Lexeme] | Fault:
    """Cut *text*; a :class:`Fault` names the first character that cannot be taken at its face."""
    folded = text if text.isascii() else text.translate(FOLD)
    lower = folded.lower()
    if not text.isascii() or not _ALLOWED.fullmatch(lower):
        for place, mark in enumerate(text):
            if not _taken(mark):
                return _strange(place, mark)
    lexemes = []
    place, end = 0, len(lower)
    while place < end:
        if lower[place] in " \t\n\r":
            place += 1
            continue
        match = _TOKEN.match(lower, place)
        assert match is not None  # the last alternative takes any character
        lexemes.append(_lexeme(match))
        place = match.end()
    return lexemes


def _taken(mark: str) -> bool:
    lower = mark.translate(FOLD).lower()
    return len(lower) == 1 and mark != "\u212a" and _ALLOWED.fullmatch(lower) is not None


def _lexeme(match: re.Match[str]) -> Lexeme:
    kind = match.lastgroup or "mark"
    start, end = match.span()
    if kind == "fraction":
        return Lexeme(kind, match[0], start, end, match["over"], match["bar"], match["under"])
    return Lexeme(kind, match[0].replace("\u00ad", ""), start, end)


_INVISIBLE = frozenset(("Cf", "Cc", "Cn", "Co", "Cs", "Zl", "Zp"))
_BLANK_LETTERS = "\u034f\u115f\u1160\u17b4\u17b5\u2800\u3164\uffa0"


def invisible(mark: str) -> bool:
    """Whether nobody who looks at paper could see *mark*: controls, joiners, fillers, variation selectors."""
    selector = "\ufe00" <= mark <= "\ufe0f" or "\U000e0100" <= mark <= "\U000e01ef"
    return selector or mark in _BLANK_LETTERS or unicodedata.category(mark) in _INVISIBLE


def _strange(place: int, mark: str) -> Fault:
    span = Span(place, place + 1)
    name = unicodedata.name(mark, f"U+{ord(mark):04X}")
    if invisible(mark):
        return Fault("words-hidden-character", span, "characters that show on paper", f"the invisible {name}")
    if unicodedata.category(mark)[0] in "LM":
        return Fault("words-foreign-letter", span, "letters of the Latin alphabet", name)
    return Fault("words-foreign-character", span, "words and a fraction", f"{name}, {quoted(mark)}")
