"""The shape of one line of a drawer's block: one or two persons' names, or something else.

>>> shape("ADA Q SAMPLE, JR", Span(0, 16)).verdict, shape("BROWN, SMITH AND DAVIS", Span(0, 22)).why
('person', 'the first line lists several names')
"""

import re
from typing import Literal, NamedTuple

from checkface.digits import discreet
from checkface.instruments.ordinary import Words, words_of_names
from checkface.instruments.tokens import FIGURES, tokenise
from checkface.patterns import lazily
from checkface.span import Span

_MOST_WORDS = 6
"""Words of one person's name, as in Spanish double family names."""
_NUMBERS = lazily(
    r"(?<![^\W\d_])[#(]?[0-9][0-9() ./-]*(?![^\W_])|\b[a-z]{0,3}[0-9]{3,}[a-z0-9-]{0,16}\b", re.IGNORECASE
)
_CODE = lazily(r"\s*[a-z]-?[0-9]{1,2}(?=\s)", re.IGNORECASE)
"""A name of a letter and a figure, at the head of a line: "A-1"."""
OWNS = lazily(r"['\u2019`]s\b|s['\u2019`](?=\s+[^\W\d_])", re.IGNORECASE)
_SIGN = lazily(r"[^\W_]+(?:['\u2019`.-]+[^\W_]+)*\.?|and/or|[&+/,?!@=$%]")
JOINERS = frozenset({"&", "+", "/", "and", "or", "and/or", "y", "et", "ou", "und"})
TITLES = frozenset({
    "mr", "mrs", "ms", "miss", "mx", "dr", "drs", "rev", "reverend", "fr", "prof", "professor", "hon", "sir", "dame",
    "sra", "srta", "mme", "mlle", "msgr", "bro", "sgt", "cpl", "pvt", "pfc", "lt", "ltc", "capt", "maj", "col", "gen",
    "cmdr", "cdr", "adm", "cpt", "ssg", "sfc", "msg", "tsgt", "msgt", "ens", "cw2", "cw3", "rabbi", "imam",
})  # fmt: skip
BEHIND = frozenset({
    "jr", "sr", "ii", "iii", "iv", "vi", "2nd", "3rd", "4th", "2d", "3d", "junior", "senior", "hijo", "filho", "md",
    "phd", "dds", "dmd", "do", "dvm", "vmd", "rn", "lpn", "np", "aprn", "crna", "od", "dc", "dpm", "dnp", "edd",
    "psyd", "dsw", "msw", "lcsw", "mba", "ma", "ms", "ba", "bs", "jd", "llb", "llm", "mph", "pharmd", "rph", "thd",
    "dmin", "pe", "ret", "usn", "usmc", "usaf", "uscg", "usa", "facs", "facp", "sj", "osb", "op", "cssr", "aka",
    "fka", "nee",
})  # fmt: skip
"""What stands behind a name and is no part of it: a generation, a degree, an order (common practice)."""
NO_VOWEL = lazily(r"\b[b-df-hj-np-tv-xz]{3,}\b", re.IGNORECASE)
_GENERATIONS = frozenset({"jr", "sr", "ii", "iii", "iv", "vi", "2nd", "3rd", "4th", "2d", "3d", "junior", "senior"})
PARTICLES = frozenset({"de", "del", "della", "des", "di", "da", "das", "dos", "du", "der", "den", "von"})
_HYPHENED = lazily(r".*-del?$", re.IGNORECASE)
_UNREAD = frozenset("?!@=$%")
_FIGURE, _LONG = lazily("[0-9]"), lazily(r"[^\W\d_].*[^\W\d_]")
_DOTTED = lazily(r"(?:[a-z]\.){2,4}[a-z]?", re.IGNORECASE)
_DOMAIN = lazily(r"\.(?:com|net|org|biz|us|info|shop|store)$|^www\.", re.IGNORECASE)

A_PERSON = "the lines have the shape of a person's name"
SHORT = 6
"""Letters of a word that by its ending or by a letter misread is as likely a name."""

Verdict = Literal["person", "unclear", "organization", "none"]


class DrawerLines(NamedTuple):
    """What the drawer's lines say. ``span`` is what says so, ``why`` a short phrase that fits into a sentence.

    ``person``: every line above the address has the shape of one or two names. ``unclear``: nothing names an
    organization, but the lines could. ``organization``: a sign of one. ``none``: nobody is named.
    """

    verdict: Verdict
    span: Span
    why: str

    def __repr__(self) -> str:
        return discreet(self)


class _Part(NamedTuple):
    """A name of a line, and whether a comma parts it from the one before."""

    comma: bool
    words: list[re.Match[str]]


def shape(text: str, line: Span, first: bool = True) -> DrawerLines | None:
    """What the shape of one line and its ordinary words say; None where nothing but numbers stands there."""
    if code := _CODE.match(text, *line):
        return _unclear(code, "a figure stands in the name")
    if _FIGURE.search(text, *line):
        text = without(_NUMBERS, text, *line)
    parts = [_Part(False, [])]
    titles = 0
    for sign in _SIGN.finditer(text, *line):
        plain = sign[0].lower().replace(".", "")
        here = parts[-1].words
        if plain in _UNREAD:
            return _unclear(sign, f'"{sign[0]}" stands in the name')
        if plain == "," or plain in JOINERS:
            parts.append(_Part(plain == ",", []))
        elif plain in TITLES and not here:
            titles += 1
        elif not (plain in BEHIND and _is_behind(plain, parts)):
            if _FIGURE.search(plain) and not _misread(plain):
                return _unclear(sign, "a figure stands in the name")
            here.append(sign)
    parts = [part for part in parts if part.words]
    named = [part.words for part in parts]
    if not named:
        return _line(text, line, "unclear", "no name follows the title") if titles else None
    if owner := OWNS.search(text, *line):
        start = next(sign.start() for part in named for sign in part if sign.end() >= owner.end())
        return DrawerLines("organization", Span(start, owner.end()), f'"{text[start : owner.end()]}" reads like a shop')
    if found := _in_words(named):
        return found
    sizes = [_size([sign[0].lower() for sign in part]) for part in named]
    count = "the first line" if first else "a line below it"
    if not any(_LONG.search(sign[0]) for part in named for sign in part):
        return _line(text, line, "unclear", f"{count} is only initials")
    if sizes in ([0], [1]) and not (titles > 1):
        return _line(text, line, "unclear", f"{count} is one word")
    if len(sizes) > 2:
        return _line(text, line, "unclear", f"{count} lists several names")
    if max(sizes) > _MOST_WORDS:
        return _line(text, line, "unclear", f"{count} is longer than a name")
    if len(sizes) == 2 and (sizes[1] < 2 or (parts[1].comma and sizes[0] < 2)):
        return _line(text, line, "unclear", f"{count} may be two names of one word each")
    return _line(text, line, "person", A_PERSON)


def _is_behind(word: str, parts: list[_Part]) -> bool:
    """Whether enough of a name stands before a word, or before the comma before it, for the word to be none of it."""
    ahead = parts[-2] if parts[-1].comma and not parts[-1].words else parts[-1]
    return len(ahead.words) >= (1 if word in _GENERATIONS else 2)


def _size(words: list[str]) -> int:
    """How many names stand in a part of a line: "de la" is none."""
    size, after = 0, False
    for word in words:
        counts = word not in PARTICLES and not _HYPHENED.match(word)
        size += counts and not (after and word in {"la", "las", "los"})
        after = not counts
    return size


def _in_words(named: list[list[re.Match[str]]]) -> DrawerLines | None:
    """What an ordinary word among the names says."""
    known = words_of_names()
    every: list[str] = []
    for part in named:
        for index, sign in enumerate(part):
            word = _letters(sign[0])
            every.append(word)
            if _DOMAIN.search(sign[0]):
                return DrawerLines("organization", Span(*sign.span()), f'"{sign[0]}" is in the name')
            if known.is_thing(word) or (len(word) > SHORT and word.endswith(known.ending)):
                return _unclear(sign, f'"{sign[0]}" is hardly ever in a person\'s name')
            if word in PARTICLES and index < len(part) - 1 and index:
                continue  # van den Berg
            if (
                word in known.sign
                or (word in known.last and index == len(part) - 1)
                or (word in known.first and index == 0 and len(part) > 1)
            ):
                return _unclear(sign, f'"{sign[0]}" is in the name')
            if known.misread(word):
                return _unclear(sign, f'"{sign[0]}" may be a misread word of trade')
            if NO_VOWEL.fullmatch(word) or (index and index == len(part) - 1 and _DOTTED.fullmatch(sign[0])):
                return _unclear(sign, f'"{sign[0]}" reads like the initials of a firm')
    if all_ordinary(every, known):
        whole = Span(named[0][0].start(), named[-1][-1].end())
        return DrawerLines("unclear", whole, "every word is an ordinary one")
    return None


def all_ordinary(words: list[str], known: Words) -> bool:
    """Whether every word of a line is an ordinary one, and hardly all of them are somebody's names."""
    long = [word for word in words if len(word) > 1]
    if len(long) < 2 or not (long[0] not in known.given or long[-1] in known.rare):
        return False
    return all(
        word in known.surname or word in known.rare or word in known.given or word in known.sign for word in long
    )


def _unclear(sign: re.Match[str], why: str) -> DrawerLines:
    return DrawerLines("unclear", Span(*sign.span()), why)


def _line(text: str, line: Span, verdict: Verdict, why: str) -> DrawerLines:
    """A verdict on a line, without the blanks about it."""
    shown = text[line.start : line.end]
    start = line.start + len(shown) - len(shown.lstrip())
    return DrawerLines(verdict, Span(start, start + len(shown.strip())), why)


def _letters(word: str) -> str:
    """A word in plain small letters, without its accents and signs."""
    if word.isalpha() and word.isascii():
        return word.lower()
    return "".join(token.word for token in tokenise(word))


def _misread(word: str) -> bool:
    """Whether every figure among the letters of a word is one that a letter is misread for."""
    figures = [sign for sign in word if sign.isdigit()]
    return 2 * len(figures) < len(word) and all(figure in FIGURES for figure in figures)


def without(pattern: re.Pattern[str], text: str, start: int = 0, end: int | None = None) -> str:
    """*text* with what the pattern finds blanked out."""
    for match in pattern.finditer(text, start, len(text) if end is None else end):
        text = blank(text, *match.span())
    return text


def blank(text: str, start: int, end: int) -> str:
    return text[:start] + " " * (end - start) + text[end:]
