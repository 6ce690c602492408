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
from typing import Literal, NamedTuple

from checkface.instruments.address import above
from checkface.instruments.kinds import Kind, Weight
from checkface.instruments.phrases import Hit, Words, compare, scan, words_of_names
from checkface.instruments.tokens import FIGURES, tokenise
from checkface.patterns import lazily
from checkface.span import Span

LONGEST = 2000
"""Characters of a drawer's block that are looked at; no check has room for more."""
_MOST_WORDS = 6
"""Words of one person's name, as in Spanish double family names."""

_WORD = r"[^\W\d_]++(?:[.'\u2019-]++[^\W\d_]++)*+\.?"
_NAME = lazily(rf"\s*+({_WORD}(?:[ \t,&+/]++{_WORD}){{1,8}}+)(?=[ \t]*+(?:$|[\n\r]|[0-9])|[,.]\s++[0-9])")
_OWNS = lazily(r"['\u2019`]s\b|s['\u2019`](?=\s+[^\W\d_])", re.IGNORECASE)
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
    r"|\b(?:[a-z]{2}[ ]{0,2})?(?:d\.?[ ]?l\.?[ ]?n?|lic(?:en[sc]e)?|driver'?s?[ ]lic(?:en[sc]e)?|o\.?l\.?n|c\.?d\.?l|i\.?d\.?(?=[ ]?(?:[#:]|no))|ss[n#]?|d\.?[ ]?o\.?[ ]?b"
    r"|born|birth[ ]?date|date[ ]of[ ]birth|exp(?:ires)?|ph(?:one)?|tel(?:ephone|[e\u00e9]fono)?|cell?|mobile|home|work|fax|acct|account|member|nac)\b"
    r"[ .:#]{0,4}(?:n[uo]m?(?:ber)?\.?)?[ .:#]{0,4}(?:[a-z]{2}[ -])?[a-z]{0,2}[ -]?[0-9(][0-9a-z./() -]{3,24}(?![a-z])"
    r"|\b(?:h|c|w|m)[.:][ ]?\(?[0-9][0-9() .-]{6,16}"
    r"|\(?\b[0-9]{3}\)?[ .-]{0,2}[0-9]{3}[ .-][0-9]{4}\b|\b[0-9]{3}[.-][0-9]{4}\b"
    r"|\b[0-9]{1,2}[/.-][0-9]{1,2}[/.-][0-9]{2,4}\b",
    re.IGNORECASE,
)
"""What stands on a name line beside a name: a telephone, a day of birth, a license and its number."""
_WORTH_ASIDE = lazily(
    r"@|\A[^0-9\n]+[0-9]|^\(?[0-9]{3}[ )./-]{1,2}[0-9]{2,4}[ .\n-]|^\W{0,3}[a-z.\']{1,8}[ .:#]{1,3}(?:[a-z.]{0,8}[ .:#-]{0,3})?[0-9(]",
    re.IGNORECASE | re.MULTILINE,
)
_NUMBERS = lazily(
    r"(?<![^\W\d_])[#(]?[0-9][0-9() ./-]*(?![^\W_])|\b[a-z]{0,3}[0-9]{3,}[a-z0-9-]{0,16}\b", re.IGNORECASE
)
_CODE = lazily(r"\s*[a-z]-?[0-9]{1,2}(?=\s)", re.IGNORECASE)
"""A name of a letter and a figure, at the head of a line: "A-1"."""
_JOINT = lazily(
    r"\b(?:(?:as\s)?(?:jt\.?|joint)\s?ten(?:ants?|s)?\b(?:\s?w/?\s?(?:ros|right\sof\ssurvivorship)|\swith\sright(?:s)?\sof\ssurvivorship)?"
    r"|jt\s?w\s?ros|jtros|j\.t\.?(?:\s?w\.?r\.?o\.?s\.?)?|jt\b\.?|w\.?r\.?o\.?s\b\.?|ten(?:ants)?\s(?:com|ent|in\scommon|by\s(?:the\s)?entiret(?:y|ies))"
    r"|com(?:m(?:unity)?)?\sprop(?:erty)?|husband\s(?:and|&)\swife|h\s?/\s?w|et\s(?:ux|vir)|joint\saccount|joint|tic|tbe)(?![^\W_])\.?",
    re.IGNORECASE,
)
"""How two persons hold one account (common practice): "JT TEN", "JTWROS", "TEN COM"."""
_JOINT_WORDS = frozenset(
    [
        "jt",
        "joint",
        "jtwros",
        "jtros",
        "jtten",
        "wros",
        "ten",
        "tenants",
        "tic",
        "tbe",
        "comm",
        "com",
        "community",
        "husband",
        "h/w",
        "et",
        "pod",
        "itf",
        "tod",
        "poa",
        "aif",
        "in",
        "on",
        "as",
        "power",
        "attorney",
        "atty",
        "agent",
        "payable",
        "pays",
        "transfer",
    ]
)
"""Words one of which is in every wording of :data:`_JOINT` and of :data:`_FOR_ANOTHER`."""
_FOR_ANOTHER = lazily(
    r"(?<=[\w.,] )(?:p\.?o\.?d|i\.?t\.?f|t\.?o\.?d|p\.?o\.?a|in\strust\sfor|(?:pay(?:able|s)?|transfer)\son\sdeath(?:\sto)?|power\sof\sattorney"
    r"|(?:as\s)?(?:attorney|atty|agent)[ -]in[ -]fact(?:\sfor)?|a\.?i\.?f)(?![^\W_])\.?|(?<![^\n\r])[ \t]*(?:p\.?o\.?d|i\.?t\.?f|p\.?o\.?a|in\strust\sfor)(?![^\W_])\.?",
    re.IGNORECASE,
)
_SLASHED = lazily(
    r"(?<![^\W_])(?:c/o|d/b/?a|t/a|o/a|u/a(?:/d)?|u/w|f/b/o|c/f|u/t/a|u/g/m/a|%\s)(?![a-z]/)", re.IGNORECASE
)

_SIGN = lazily(r"[^\W_]+(?:['\u2019`.-]+[^\W_]+)*\.?|and/or|[&+/,?!@=$%]")
_JOINERS = frozenset({"&", "+", "/", "and", "or", "and/or", "y", "et", "ou", "und"})
_TITLES = frozenset(
    [
        "mr",
        "mrs",
        "ms",
        "miss",
        "mx",
        "dr",
        "drs",
        "rev",
        "reverend",
        "fr",
        "prof",
        "professor",
        "hon",
        "sir",
        "dame",
        "sra",
        "srta",
        "mme",
        "mlle",
        "msgr",
        "bro",
        "sgt",
        "cpl",
        "pvt",
        "pfc",
        "lt",
        "ltc",
        "capt",
        "maj",
        "col",
        "gen",
        "cmdr",
        "cdr",
        "adm",
        "ssg",
        "sfc",
        "msg",
        "tsgt",
        "msgt",
        "ens",
        "cw2",
        "cw3",
        "rabbi",
        "imam",
    ]
)
_BEHIND = frozenset(
    [
        "jr",
        "sr",
        "ii",
        "iii",
        "iv",
        "vi",
        "2nd",
        "3rd",
        "4th",
        "2d",
        "3d",
        "junior",
        "senior",
        "hijo",
        "filho",
        "md",
        "phd",
        "dds",
        "dmd",
        "do",
        "dvm",
        "vmd",
        "rn",
        "lpn",
        "np",
        "aprn",
        "crna",
        "od",
        "dc",
        "dpm",
        "dnp",
        "edd",
        "psyd",
        "dsw",
        "msw",
        "lcsw",
        "mba",
        "ma",
        "ms",
        "ba",
        "bs",
        "jd",
        "llb",
        "llm",
        "mph",
        "pharmd",
        "rph",
        "thd",
        "dmin",
        "pe",
        "ret",
        "usn",
        "usmc",
        "usaf",
        "uscg",
        "usa",
        "facs",
        "facp",
        "sj",
        "osb",
        "op",
        "cssr",
        "aka",
        "fka",
        "nee",
    ]
)
"""What stands behind a name and is no part of it: a generation, a degree, an order (common practice)."""
_NO_VOWEL = lazily(r"\b[b-df-hj-np-tv-xz]{3,}\b", re.IGNORECASE)
_NO_SIGN = frozenset({Kind.COUNTER_CHECK, Kind.SUBSTITUTE_CHECK, Kind.REMOTELY_CREATED_CHECK})
"""Wording of the paper that may stray among the drawer's lines and says nothing of the drawer."""

_GENERATIONS = frozenset({"jr", "sr", "ii", "iii", "iv", "vi", "2nd", "3rd", "4th", "2d", "3d", "junior", "senior"})
_PARTICLES = frozenset({"de", "del", "della", "des", "di", "da", "das", "dos", "du", "der", "den", "von"})
_HYPHENED = lazily(r".*-del?$", re.IGNORECASE)
_UNREAD = frozenset("?!@=$%")
_FIGURE, _LONG = lazily("[0-9]"), lazily(r"[^\W\d_].*[^\W\d_]")
_MIXED = lazily(r"[A-Z]l|l[A-Z]|[a-z]I")
_DOTTED = lazily(r"(?:[a-z]\.){2,4}[a-z]?", re.IGNORECASE)
_DOMAIN = lazily(r"\.(?:com|net|org|biz|us|info|shop|store)$|^www\.", re.IGNORECASE)
_SHORT = 6
"""Letters of a word that by its ending or by a letter misread is as likely a name."""
_A_PERSON = "the lines have the shape of a person's name"
_BY_THE_NAME = frozenset({"capacity", "profession", "business-account"})
_ORDER = ("organization", "unclear", "person", "none")

Verdict = Literal["person", "unclear", "organization", "none"]


class DrawerLines(NamedTuple):
    """What the drawer's lines say. ``span`` is what says so, ``why`` a short phrase that fits into a sentence.

    ``person``: every line above the address has the shape of one or two names. ``unclear``: nothing names an
    organization, but the lines could. ``organization``: a sign of one. ``none``: nobody is named.
    """

    verdict: Verdict
    span: Span
    why: str


class _Part(NamedTuple):
    """A name of a line, and whether a comma parts it from the one before."""

    comma: bool
    words: list[re.Match[str]]


def describe(text: str) -> DrawerLines:
    """Whom the lines name. Never raises; of *text* the first 2,000 characters are looked at."""
    if (plain := _PLAIN.match(text)) and not _doubtful(plain[0]):
        return DrawerLines("person", Span(0, plain.end()), _A_PERSON)
    text = text[:LONGEST]
    if _WORTH_ASIDE.search(text):
        text = _without(_ASIDE, text)
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
            text = _blank(text, other.start(), line.end)
        text = _without(_JOINT, text, *line)
    below = lines[-1].end if lines else (text + "\n").index("\n")
    for hit in scan({"drawer": text}):
        if (lines or hit.span.start >= below) and (said := _sign(hit, text, lines, below)):
            if said.verdict == "organization":
                return said
            unclear.append(said)
    shapes = [shape for line in lines if (shape := _shape(text, line, line is lines[0]))]
    shapes.sort(key=lambda shape: _ORDER.index(shape.verdict))
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
    """Whether short words are spelled like a sign: "Ball" is no misread "bail", but "BAlL" may be."""
    exact = words_of_names().exact
    return all(
        token.word in exact
        or len(token.word) > _SHORT
        or not words[token.start : token.end].isalpha()
        or _MIXED.search(words)
        for token in tokenise(words)
    )


def _surname(text: str, line: Span, sign: Span) -> bool:
    """Whether a sign ends a line that is otherwise one person's name."""
    return line.start <= sign.start < line.end and len(text[line.start : sign.start].split()) > 0


def _shape(text: str, line: Span, first: bool) -> DrawerLines | None:
    """What the shape of one line and its ordinary words say; None where nothing but numbers stands there."""
    if code := _CODE.match(text, *line):
        return _unclear(code, "a figure stands in the name")
    text = _without(_NUMBERS, text, *line)
    parts = [_Part(False, [])]
    titles = 0
    for sign in _SIGN.finditer(text, *line):
        plain = sign[0].lower().replace(".", "")
        here = parts[-1].words
        if plain in _UNREAD:
            return _unclear(sign, f'"{sign[0]}" stands in the name')
        if plain == "," or plain in _JOINERS:
            parts.append(_Part(plain == ",", []))
        elif plain in _TITLES and not here:
            titles += 1
        elif not (plain in _BEHIND and _is_behind(plain, parts)):
            if _FIGURE.search(plain) and not _misread(plain):
                return _unclear(sign, "a figure stands in the name")
            here.append(sign)
    parts = [part for part in parts if part.words]
    named = [part.words for part in parts]
    if not named:
        return _line(text, line, "unclear", "no name follows the title") if titles else None
    if owner := _OWNS.search(text, *line):
        start = next(sign.start() for part in named for sign in part if sign.end() >= owner.end())
        return DrawerLines("organization", Span(start, owner.end()), f'"{text[start : owner.end()]}" owns something')
    if found := _in_words(named):
        return found
    sizes = [_size([sign[0].lower() for sign in part]) for part in named]
    count = "the first line" if first else "a line below it"
    if not any(_LONG.search(sign[0]) for part in named for sign in part):
        return _line(text, line, "unclear", f"{count} is initials alone")
    if sizes in ([0], [1]) and not (titles > 1):
        return _line(text, line, "unclear", f"{count} is one word")
    if len(sizes) > 2:
        return _line(text, line, "unclear", f"{count} lists several names")
    if max(sizes) > _MOST_WORDS:
        return _line(text, line, "unclear", f"{count} is longer than a name")
    if len(sizes) == 2 and (sizes[1] < 2 or (parts[1].comma and sizes[0] < 2)):
        return _line(text, line, "unclear", f"{count} joins single words")
    return _line(text, line, "person", _A_PERSON)


def _is_behind(word: str, parts: list[_Part]) -> bool:
    """Whether enough of a name stands before a word, or before the comma before it, for the word to be none of it."""
    ahead = parts[-2] if parts[-1].comma and not parts[-1].words else parts[-1]
    return len(ahead.words) >= (1 if word in _GENERATIONS else 2)


def _size(words: list[str]) -> int:
    """How many names stand in a part of a line: "de la" is none."""
    size, after = 0, False
    for word in words:
        counts = word not in _PARTICLES and not _HYPHENED.match(word)
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
            if word in known.thing or (len(word) > _SHORT and word.endswith(known.ending)):
                return _unclear(sign, f'"{sign[0]}" is hardly ever in a person\'s name')
            if (
                word in known.sign
                or (word in known.last and index == len(part) - 1)
                or (word in known.first and index == 0 and len(part) > 1)
            ):
                return _unclear(sign, f'"{sign[0]}" is in the name')
            if _NO_VOWEL.fullmatch(word) or (index and index == len(part) - 1 and _DOTTED.fullmatch(sign[0])):
                return _unclear(sign, f'"{sign[0]}" reads like the initials of a firm')
    if _all_ordinary(every, known):
        whole = Span(named[0][0].start(), named[-1][-1].end())
        return DrawerLines("unclear", whole, "every word is an ordinary one")
    return None


def _all_ordinary(words: list[str], known: Words) -> bool:
    """Whether every word of a line is an ordinary one, and hardly all of them are somebody's names."""
    long = [word for word in words if len(word) > 1]
    if len(long) < 2 or not (long[0] not in known.given or long[-1] in known.rare):
        return False
    return all(
        word in known.surname or word in known.rare or word in known.given or word in known.sign for word in long
    )


def _doubtful(plain: str) -> bool:
    """Whether a plain name holds any word that needs a closer look."""
    known, doubts = _doubts()
    for line in plain.lower().split("\n"):
        words = line.split()
        if not (doubts.isdisjoint(words) and known.telling.isdisjoint(compare(line).split())) or _NO_VOWEL.search(line):
            return True
        if any(word.endswith(known.ending) for word in words) or _all_ordinary(words, known):
            return True
    return False


@cache
def _doubts() -> tuple[Words, frozenset[str]]:
    """The words of the tables, and every word that alone may make a line something else than a plain name."""
    known = words_of_names()
    own = (_TITLES | _BEHIND | _JOINERS | _JOINT_WORDS | _PARTICLES) - {"&", "and", "or"}
    return known, known.thing.union(known.first, known.last, known.sign, own)


def _unclear(sign: re.Match[str], why: str) -> DrawerLines:
    return DrawerLines("unclear", Span(*sign.span()), why)


def _line(text: str, line: Span, verdict: Verdict, why: str) -> DrawerLines:
    """A verdict on a line, without the blanks about it."""
    shown = text[line.start : line.end]
    start = line.start + len(shown) - len(shown.lstrip())
    return DrawerLines(verdict, Span(start, start + len(shown.strip())), why)


def _letters(word: str) -> str:
    """A word in plain small letters, without its accents and signs."""
    return "".join(token.word for token in tokenise(word))


def _misread(word: str) -> bool:
    """Whether every figure among the letters of a word is one that a letter is misread for."""
    figures = [sign for sign in word if sign.isdigit()]
    return 2 * len(figures) < len(word) and all(figure in FIGURES for figure in figures)


def _without(pattern: re.Pattern[str], text: str, start: int = 0, end: int | None = None) -> str:
    """*text* with what the pattern finds blanked out."""
    for match in pattern.finditer(text, start, len(text) if end is None else end):
        text = _blank(text, *match.span())
    return text


def _blank(text: str, start: int, end: int) -> str:
    return text[:start] + " " * (end - start) + text[end:]


def people(text: str) -> Span | None:
    """Where the drawer's first line has the shape of one or two persons' names, if an address follows it.

    A name that owns something is a shop's ("Ann's Nook").
    """
    name = _NAME.match(text)
    if name is None or not _ADDRESS_FOLLOWS.search(text, name.end()) or _OWNS.search(name[1]):
        return None
    return Span(*name.span(1))


def same_bank(name: str, drawee: str) -> bool | None:
    """Whether every telling word of a drawer's name is in the drawee's; None if one of them has none."""
    ours, theirs = _telling(name), _telling(drawee)
    return ours <= theirs if ours and theirs else None


def _telling(text: str) -> set[str]:
    return {token.word for token in tokenise(text)} - _NOT_OF_THE_NAME
