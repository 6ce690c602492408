"""The ten ways the four E-13B symbols are written as text, and how to tell them apart.

>>> [name for name, _ in fitting("T031097765T 0045601122O 1043")]
['toad']
>>> plain(":031097765: 0045601122< 1043", "iso2033")
'T031097765T 0045601122O 1043'
>>> fitting("HELLO WORLD")
[]
>>> named("toda")
Traceback (most recent call last):
    ...
ValueError: Expected a notation out of unicode, iso2033, unifiedpos, x9, font-letters, font-punctuation, toad, tuad, \
tu-dollar, dbc, read 'toda'; nearest is 'toad'.

Unicode's names of two symbols are misnomers; its formal correction aliases are right: U+2448 is the On-Us symbol
and U+2449 the dash (Unicode NameAliases). ISO 2033 (ISO-IR-98) writes the symbols ``: ; < =``, the UnifiedPOS
standard ``t a o -``, X9.100-187 files ``/ -`` with the transit field marked by its place; the others are the
habits of fonts and scanning programs (font documentation; ``toad``, ``tu-dollar`` and ``dbc`` from memory).

The letters of ``toad``, ``tuad``, ``tu-dollar`` and the fonts may be small. A pair of ``$`` around the ten positions at
the right end encloses an amount in every notation where an account stands before it. Underscores at every gap between
fields and nowhere else, on a line without blanks, are blanks. Elsewhere both mark a character that was not read.

Every line is first rewritten, character for character, into one plain alphabet: digits, blank, ``T`` transit,
``A`` amount, ``O`` On-Us, ``D`` dash, ``?`` unread and ``x`` not an E-13B character. Offsets stay those of the
reading.
"""

import re
from collections.abc import Mapping
from functools import lru_cache
from typing import NamedTuple

from checkface.mistakes import quoted
from checkface.patterns import lazily


class Symbols(NamedTuple):
    """How a notation writes the symbols; an empty string where it has none."""

    transit: str
    amount: str
    on_us: str
    dash: str
    unread: str


NOTATIONS: Mapping[str, Symbols] = {
    "unicode": Symbols("\u2446", "\u2447", "\u2448", "\u2449", "?"),
    "iso2033": Symbols(":", ";", "<", "=", "?"),
    "unifiedpos": Symbols("t", "a", "o", "-", "?"),
    "x9": Symbols("", "", "/", "-", "*"),
    "font-letters": Symbols("A", "B", "C", "D", "?"),
    "font-punctuation": Symbols("#", "$", "%", "'", "?"),
    "toad": Symbols("T", "A", "O", "D", "?"),
    "tuad": Symbols("T", "A", "U", "D", "?"),
    "tu-dollar": Symbols("T", "$", "U", "-", "?"),
    "dbc": Symbols("d", "b", "c", "-", "?"),
}
"""Notation name to its symbols, in the order in which equal readings are named."""

UNREAD_MARKS = "*?!@#~_^%&$|+.x"
"""Marks for a character that was not read: ``?`` UnifiedPOS, ``*`` X9.100-187, the others from memory."""

BLANKS = " \t\r\n\u00a0\x1c\x1d\x1e\x1f"
"""Characters taken for a blank; the last four part fields by their definition (ECMA-48, information separators)."""

NINE = "[0-9?x]{9}|[0-9?x]{4}D[0-9?x]{4}|[0-9?x]{5}D[0-9?x]{3}"
"""The nine routing positions, plain: number, old four-dash-four form, or Canadian branch and institution."""

FIELD = lazily(f"T({NINE})T")
"""The transit field of a plain line."""

_X9_ROUTING = lazily(rf" *+(?:O[^O]*+O)?+ *+(?:[0-9?] ++)?({NINE})(?![^ ])")


class Alphabet(dict[int, str]):
    """Translation table into the plain alphabet that gives ``x`` for every character it does not know."""

    def __init__(self, symbols: Symbols, blanks: str = BLANKS) -> None:
        """Each text of *symbols* lists the characters with that meaning; what comes later in it wins."""
        super().__init__()
        for written, meaning in (
            ("0123456789", None), (blanks, " "), (symbols.unread, "?"), (symbols.dash, "D"), (symbols.on_us, "O"),
            (symbols.amount, "A"), (symbols.transit, "T"),
        ):  # fmt: skip
            self.update((ord(char), meaning or char) for char in written)

    def __missing__(self, key: int) -> str:
        return "x"


def _alphabet(symbols: Symbols) -> Alphabet:
    return Alphabet(symbols._replace(dash=symbols.dash + "-", unread=UNREAD_MARKS))


def _small(symbols: Symbols) -> Symbols:
    return Symbols(*(written.lower() for written in symbols))


_BOTH_CASES = NOTATIONS["font-letters"]  # the fonts carry the symbols on both cases, even in one line
_ALPHABETS = {name: _alphabet(symbols) for name, symbols in NOTATIONS.items()} | {
    "font-letters": _alphabet(Symbols(*(written + written.lower() for written in _BOTH_CASES)))
}
_SMALL = {name: _alphabet(_small(NOTATIONS[name])) for name in ("toad", "tuad", "tu-dollar")}
_UNICODE = re.compile("[\u2446-\u2449]")
_DOLLARS = lazily(r"\$([^$]{10})\$ *(?:/00|-)? *$")
_BESIDE_DIGITS = lazily("[^TOA_]_+[^TOA_]")  # no gap between fields
_CLOSED_UP = lazily("^T[0-9?]|[0-9?]O[0-9?]")  # a gap right of the transit field without an underscore


def named(name: str) -> Symbols:
    """Symbols of the notation called *name*. Raises ValueError, naming the nearest, if there is none."""
    try:
        return NOTATIONS[name]
    except KeyError:
        import difflib

        near = difflib.get_close_matches(name, NOTATIONS, 1, 0.0)[0]
        known = ", ".join(NOTATIONS)
        raise ValueError(f"Expected a notation out of {known}, read {quoted(name)}; nearest is {near!r}.") from None


def plain(text: str, name: str) -> str:
    """*text*, written in the notation *name*, in the plain alphabet; same length."""
    small = _SMALL.get(name)
    transit = NOTATIONS[name].transit
    table = small if small is not None and transit not in text and transit.lower() in text else _ALPHABETS[name]
    line = text.translate(table)
    if "_" in text:
        line = underscores(text, line)
    return dollars(text, line) if "$" in text else line


@lru_cache(maxsize=4096)  # a counter sees the same banks all day
def sum_holds(nine: str) -> bool:
    """Whether nine routing digits end in their check digit (12 CFR 229 App. A)."""
    # Imported at the first call: python-stdnum brings ssl and urllib, a fifth of the time to start.
    from stdnum.us.rtn import calc_check_digit

    return calc_check_digit(nine[:8]) == nine[8]


def x9_routing(line: str) -> tuple[int, int] | None:
    """Where the routing number stands in a plain line written as X9 fields one after the other.

    Such a line has no transit symbols. Its order is fixed, so the routing number is the first group of nine
    positions set off by blanks after ``/auxiliary/`` and a lone EPC digit; nothing further right is considered.
    """
    found = _X9_ROUTING.match(line)
    return found.span(1) if found else None


def dollars(text: str, line: str) -> str:
    """*line* with a pair of dollar signs of *text* as amount symbols, where they enclose ten positions at the end."""
    found = _DOLLARS.search(text)
    if found is None or "A" in line:
        return line
    start, end = found.span(1)
    if line.rfind("O", 0, start) < line.rfind("T"):  # without an On-Us symbol the digits may be the account
        return line
    return f"{line[: start - 1]}A{line[start:end]}A{line[end + 1 :]}"


def underscores(text: str, line: str) -> str:
    """*line* with the underscores of *text* as blanks where they stand at every gap between fields and nowhere else.

    A reader that has another character for a blank means unread characters by them; so it does where one of them
    stands beside digits only, where a gap has none, and where there is only one.
    """
    shown = "".join("_" if char == "_" else plain_char for char, plain_char in zip(text, line, strict=True))
    between = shown[shown.rfind("T") :]
    if " " in shown or shown.count("_") < 2 or _BESIDE_DIGITS.search(shown) or _CLOSED_UP.search(between):
        return line
    return shown.replace("_", " ")


def fitting(text: str) -> list[tuple[str, str]]:
    """The notations that *text* may be written in, best class only, as ``(name, plain line)``.

    Classes, best first: nine routing positions between exactly two transit symbols that pass the sum (or hold an
    unread mark or a dash), nine that fail it, both first among notations that know every character of the line
    and then among those that do not; last, lines of known characters that merely hold a transit symbol. Within a
    class those stay that know most characters, and of them those that leave fewest unread.
    """
    if _UNICODE.search(text):
        return [("unicode", plain(text, "unicode"))]
    ranked = []
    for name, symbols in NOTATIONS.items():
        if (symbols.transit or symbols.on_us) in text or (name == "font-letters" and "a" in text):
            line = plain(text, name)
            ranked.append((_rank(name, line), name, line))
    best = max((rank for rank, _, _ in ranked), default=0)
    if best < _COVERED and "t" in text:
        for name in _SMALL:
            if NOTATIONS[name].transit not in text:
                line = plain(text, name)
                ranked.append((_rank(name, line), name, line))
        best = max((rank for rank, _, _ in ranked), default=0)
    found = [(name, line) for rank, name, line in ranked if rank == best > 0]
    if len(found) < 2:
        return found
    unknown = [_unknown(text, name, line) for name, line in found]
    return [pair for pair, count in zip(found, unknown, strict=True) if count == min(unknown)]


def _unknown(text: str, name: str, line: str) -> tuple[int, int, bool]:
    """How many characters *name* does not know, how many it leaves unread, and whether it borrows the dollar sign.

    A dollar sign that encloses no amount counts as unread, twice where the notation has no such mark.
    """
    own = NOTATIONS[name].amount == "$"
    stray = 2 * text.count("$") if own and "$" in text and not _DOLLARS.search(text) else 0
    return line.count("x"), line.count("?") + stray, "$" in text and not own


_COVERED = 4
"""Least rank of a line with nine routing positions of which every character is known."""


def _rank(name: str, line: str) -> int:
    covered = "x" not in line
    if name == "x9":
        place = x9_routing(line)
        nine = line[place[0] : place[1]] if place else ""
    else:
        field = FIELD.search(line)
        nine = field[1] if field and line.count("T") == 2 else ""
    if not nine:
        return int(covered and "T" in line)
    fails = nine.isdigit() and not sum_holds(nine)
    return 2 + 2 * covered + (not fails)
