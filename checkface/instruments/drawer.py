"""Who the drawer's lines say has drawn the check: persons, an organization, or somebody a clerk must look at.

Only the shape of the lines and ordinary words of trade count, never whose name it is: no list of given names or
surnames is kept, and the same proof is asked of everybody.

>>> describe("JORDAN Q SPECIMEN\\nALEX SPECIMEN\\n12 MAPLE ST\\nANYTOWN PA 15001").verdict
'person'
>>> describe("MARY SPECIMEN MASONRY\\n12 MAPLE ST")
DrawerLines(verdict='organization', span=Span(start=14, end=21), why='"MASONRY" is in the name')
>>> describe("GOLDEN DRAGON\\n12 MAPLE ST").why
'"DRAGON" is hardly ever in a person\\'s name'
>>> describe("12 MAPLE ST\\nANYTOWN PA 15001").verdict
'none'
>>> people("JORDAN Q SPECIMEN\\nALEX SPECIMEN\\n12 MAPLE ST\\nANYTOWN PA 15001")
Span(start=0, end=17)
>>> people("JORDAN Q SPECIMEN") is None  # no address
True
"""

import re
from functools import cache

from checkface.instruments.address import above
from checkface.instruments.kinds import Kind, Weight
from checkface.instruments.ordinary import Words, words_of_names
from checkface.instruments.phrases import Hit, compare, scan
from checkface.instruments.shape import (
    A_PERSON,
    BEHIND,
    JOINERS,
    NO_VOWEL,
    OWNS,
    PARTICLES,
    SHORT,
    TITLES,
    all_ordinary,
    blank,
    shape,
    without,
)  # fmt: skip
from checkface.instruments.shape import DrawerLines as DrawerLines
from checkface.instruments.tokens import outline, tokenise
from checkface.patterns import lazily
from checkface.span import Span

LONGEST = 2000
"""Characters of a drawer's block that are looked at; no check has room for more."""

_WORD = r"[^\W\d_]++(?:[.'\u2019-]++[^\W\d_]++)*+\.?"
_NAME = lazily(rf"\s*+({_WORD}(?:[ \t,&+/]++{_WORD}){{1,8}}+)(?=[ \t]*+(?:$|[\n\r]|[0-9])|[,.]\s++[0-9])")
_ADDRESS_FOLLOWS = lazily(r"[\s,][0-9]++(?!(?:st|nd|rd|th)\b)|box\b", re.IGNORECASE)
_NOT_OF_THE_NAME = frozenset(
    {"the", "of", "bank", "na", "n", "a", "national", "association", "and", "trust", "company", "co", "inc", "fsb"}
)

_PLAIN = lazily(
    r"[a-z]{2,20} (?:[a-z]\.? )?(?:(?:&|and|or) [a-z]{2,20} (?:[a-z]\.? )?)?(?!and\b|or\b)[a-z]{2,20}"
    r"(?:\n[a-z]{2,20} (?:[a-z]\.? )?(?!and\b|or\b)[a-z]{2,20})?"
    r"(?=\n[0-9][^\n]{1,60}(?:\n[a-z][a-z .]{1,40},? [a-z]{2}(?: [0-9]{5}(?:-[0-9]{4})?)?)?\n?\Z)",
    re.IGNORECASE | re.ASCII,
)
"""Names of two words, with or without an initial, over an address: nearly every check."""

_ASIDE = lazily(
    r"\S{1,64}@\S{1,64}"
    r"|\b(?:[a-z]{2}[ ]{0,2})?(?:d\.?[ ]?l\.?[ ]?n?|lic(?:en[sc]e)?|driver'?s?[ ]lic(?:en[sc]e)?|o\.?l\.?n|c\.?d\.?l"
    r"|i\.?d\.?(?=[ ]?(?:[#:]|no))|ss[n#]?|d\.?[ ]?o\.?[ ]?b|born|birth[ ]?date|date[ ]of[ ]birth|exp(?:ires)?"
    r"|ph(?:one)?|tel(?:ephone|[e\u00e9]fono)?|cell?|mobile|home|work|fax|acct|account|member|nac)\b"
    r"[ .:#]{0,4}(?:n[uo]m?(?:ber)?\.?)?[ .:#]{0,4}(?:[a-z]{2}[ -])?[a-z]{0,2}[ -]?[0-9(][0-9a-z./() -]{3,24}(?![a-z])"
    r"|\b(?:h|c|w|m)[.:][ ]?\(?[0-9][0-9() .-]{6,16}"
    r"|\(?\b[0-9]{3}\)?[ .-]{0,2}[0-9]{3}[ .-][0-9]{4}\b|\b[0-9]{3}[.-][0-9]{4}\b"
    r"|\b[0-9]{1,2}[/.-][0-9]{1,2}[/.-][0-9]{2,4}\b",
    re.IGNORECASE,
)
"""What stands on a name line beside a name: a telephone, a day of birth, a license and its number."""
_WORTH_ASIDE = lazily(
    r"@|\A[^0-9\n]+[0-9]|^\(?[0-9]{3}[ )./-]{1,2}[0-9]{2,4}[ .\n-]"
    r"|^(?![^\n]{1,12} [a-z]{2} [0-9]{5}(?:-[0-9]{4})?$)"
    r"\W{0,3}[a-z.']{1,8}[ .:#]{1,3}(?:[a-z.]{0,8}[ .:#-]{0,3})?[0-9(]",
    re.IGNORECASE | re.MULTILINE,
)
"""Where it is worth looking for it."""
_JOINT = lazily(
    r"\b(?:(?:as\s)?(?:jt\.?|joint)\s?ten(?:ants?|s)?\b(?:\s?w/?\s?(?:ros|right\sof\ssurvivorship)|\swith\sright(?:s)?\sof\ssurvivorship)?"
    r"|jt\s?w\s?ros|jtros|j\.t\.?(?:\s?w\.?r\.?o\.?s\.?)?|jt\b\.?|w\.?r\.?o\.?s\b\.?|ten(?:ants)?\s(?:com|ent|in\scommon|by\s(?:the\s)?entiret(?:y|ies))"
    r"|com(?:m(?:unity)?)?\sprop(?:erty)?|husband\s(?:and|&)\swife|h\s?/\s?w|et\s(?:ux|vir)|joint\saccount|joint|tic|tbe)(?![^\W_])\.?",
    re.IGNORECASE,
)
"""How two persons hold one account (common practice): "JT TEN", "JTWROS", "TEN COM"."""
_JOINT_WORDS = frozenset({
    "jt", "joint", "jtwros", "jtros", "jtten", "wros", "ten", "tenants", "tic", "tbe", "comm", "com", "community",
    "husband", "h/w", "et", "pod", "itf", "tod", "poa", "aif", "in", "on", "as", "power", "attorney", "atty", "agent",
    "payable", "pays", "transfer",
})  # fmt: skip
"""Words one of which is in every wording of :data:`_JOINT` and of :data:`_FOR_ANOTHER`."""
_FOR_ANOTHER = lazily(
    r"(?:(?<=[\w.,] )(?:p\.?o\.?d|i\.?t\.?f|t\.?o\.?d|p\.?o\.?a|a\.?i\.?f|in\strust\sfor|power\sof\sattorney"
    r"|(?:pay(?:able|s)?|transfer)\son\sdeath(?:\sto)?|(?:as\s)?(?:attorney|atty|agent)[ -]in[ -]fact(?:\sfor)?)"
    r"|(?<![^\n\r])[ \t]*(?:p\.?o\.?d|i\.?t\.?f|p\.?o\.?a|in\strust\sfor))(?![^\W_])\.?",
    re.IGNORECASE,
)
"""Whom the money goes to at a death, or who signs for the drawer (UCC 3-402)."""
_SLASHED = lazily(
    r"(?<![^\W_])(?:c/o|d/b/?a|t/a|o/a|u/a(?:/d)?|u/w|f/b/o|c/f|u/t/a|u/g/m/a|%\s)(?![a-z]/)", re.IGNORECASE
)

_BY_THE_NAME = frozenset({"abbreviated", "capacity", "profession", "business-account"})
_ORDER = ("organization", "unclear", "person", "none")
_MIXED = lazily(r"[A-Z]l|l[A-Z]|[a-z]I")
_NO_SIGN = frozenset({Kind.COUNTER_CHECK, Kind.SUBSTITUTE_CHECK, Kind.REMOTELY_CREATED_CHECK})
"""Wording of the paper that may stray among the drawer's lines and says nothing of the drawer."""


def describe(text: str) -> DrawerLines:
    """Whom the lines name. Never raises; of *text* the first 2,000 characters are looked at."""
    if (plain := _PLAIN.match(text)) and not _doubtful(plain[0]):
        return DrawerLines("person", Span(0, plain.end()), A_PERSON)
    text = text[:LONGEST]
    if _WORTH_ASIDE.search(text):
        text = without(_ASIDE, text)
    lines = above(text)
    unclear: list[DrawerLines] = []
    for line in lines:
        shown = text[line.start : line.end]
        if ("/" in shown or "%" in shown) and (slashed := _SLASHED.search(text, *line)):
            return DrawerLines("organization", Span(*slashed.span()), f'"{slashed[0].strip()}" stands by the name')
        if "." not in shown and _JOINT_WORDS.isdisjoint(shown.lower().split()):
            continue
        if other := _FOR_ANOTHER.search(text, *line):
            unclear.append(DrawerLines("unclear", Span(*other.span()), f'"{other[0].strip()}" names somebody else'))
            text = blank(text, other.start(), line.end)
        text = without(_JOINT, text, *line)
    below = lines[-1].end if lines else (text + "\n").index("\n")
    for hit in scan({"drawer": text}):
        if (lines or hit.span.start >= below) and (said := _sign(hit, text, lines, below)):
            if said.verdict == "organization":
                return said
            unclear.append(said)
    shapes = [said for line in lines if (said := shape(text, line, line is lines[0]))]
    shapes.sort(key=lambda said: _ORDER.index(said.verdict))
    if shapes and shapes[0].verdict == "organization":
        return shapes[0]
    return (unclear + shapes or [DrawerLines("none", Span(0, len(text)), "no name stands above the address")])[0]


def _sign(hit: Hit, text: str, lines: list[Span], below: int) -> DrawerLines | None:
    """What a phrase of the table says that stands among the drawer's lines."""
    phrase = hit.phrase
    if not _as_printed(hit.span.of(text)):
        return None
    if not (phrase.kinds or phrase.family == "bank-name") or not _NO_SIGN.isdisjoint(phrase.kinds):
        return None
    words = " ".join(hit.span.of(text).split())
    if phrase.id in _BY_THE_NAME:
        return DrawerLines("organization", hit.span, f'"{words}" stands by the name')
    if hit.span.start >= below and phrase.weight is Weight.HINT:
        return DrawerLines("unclear", hit.span, f'"{words}" stands below the address')
    if phrase.id == "bank-name-end" and any(_surname(text, line, hit.span) for line in lines):
        return DrawerLines("unclear", hit.span, f'"{words}" is in the name')
    return DrawerLines("organization", hit.span, f'"{words}" is in the name')


def _as_printed(words: str) -> bool:
    """Whether a short word is spelled like a sign: "Ball" is no misread "bail", but "BAlL" may be."""
    exact = words_of_names().exact
    return len(tokens := tokenise(words)) > 1 or all(
        token.word in exact
        or not 1 < len(token.word) <= SHORT
        or not words[token.start : token.end].isalpha()
        or _MIXED.search(words)
        for token in tokens
    )


_FIGURES = 4
"""Figures of the shortest number that is set aside wherever it stands; fewer may be letters misread."""


def asides(text: str) -> list[Span]:
    """Where a telephone, a day of birth or a license and its number stand in the drawer's lines."""
    found = _ASIDE.finditer(text[:LONGEST])
    return [Span(*match.span()) for match in found if sum(map(str.isdigit, match[0])) >= _FIGURES]


def _surname(text: str, line: Span, sign: Span) -> bool:
    """Whether a sign ends a line that is otherwise one person's name."""
    return line.start <= sign.start < line.end and len(text[line.start : sign.start].split()) > 0


def _doubtful(plain: str) -> bool:
    """Whether a plain name holds any word that needs a closer look."""
    known, doubts = _doubts()
    for line in plain.lower().split("\n"):
        words = line.split()
        if not (doubts.isdisjoint(words) and known.telling.isdisjoint(compare(line).split())) or NO_VOWEL.search(line):
            return True
        if not known.outlines.isdisjoint(outline(line).split()):
            return True
        if any(word.endswith(known.ending) or (word[-1] == "s" and known.is_thing(word)) for word in words):
            return True
        if all_ordinary(words, known):
            return True
    return False


@cache
def _doubts() -> tuple[Words, frozenset[str]]:
    """The words of the tables, and every word that alone may make a line something else than a plain name."""
    known = words_of_names()
    own = (TITLES | BEHIND | JOINERS | _JOINT_WORDS | PARTICLES) - {"&", "and", "or"}
    return known, known.thing.union(known.first, known.last, known.sign, own)


def people(text: str) -> Span | None:
    """Where the drawer's first line has the shape of one or two persons' names, if an address follows it.

    A name that owns something is a shop's ("Ann's Nook").
    """
    name = _NAME.match(text)
    if name is None or not _ADDRESS_FOLLOWS.search(text, name.end()) or OWNS.search(name[1]):
        return None
    return Span(*name.span(1))


def same_bank(name: str, drawee: str) -> bool | None:
    """Whether every telling word of a drawer's name is in the drawee's; None if one of them has none."""
    ours, theirs = _telling(name), _telling(drawee)
    return ours <= theirs if ours and theirs else None


def _telling(text: str) -> set[str]:
    return {token.word for token in tokenise(text)} - _NOT_OF_THE_NAME
