"""The ten ways the four E-13B symbols are written as text, and how to tell them apart.

Unicode's names of two symbols are misnomers; its formal correction aliases are right: U+2448 is the On-Us symbol
and U+2449 the dash (Unicode NameAliases). ISO 2033 (ISO-IR-98) writes the symbols ``: ; < =``, the UnifiedPOS
standard ``t a o -``, X9.100-187 files ``/ -`` with the transit field marked by its place; the others are the
habits of fonts and scanning programs (font documentation; ``toad``, ``tu-dollar`` and ``dbc`` from memory).

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

UNREAD_MARKS = "*?!@#~_"
"""Marks for a character that was not read: ``?`` UnifiedPOS, ``*`` X9.100-187, the others from memory."""

BLANKS = " \t\r\n\u00a0"

NINE = "[0-9?x]{9}|[0-9?x]{4}D[0-9?x]{4}|[0-9?x]{5}D[0-9?x]{3}"
"""The nine routing positions, plain: number, old four-dash-four form, or Canadian branch and institution."""

_X9_ROUTING = lazily(rf" *+(?:O[^O]*+O)?+ *+(?:[0-9?] ++)?({NINE})(?![^ ])")


class _Alphabet(dict[int, str]):
    """Translation table that gives ``x`` for every character it does not know."""

    def __missing__(self, key: int) -> str:
        return "x"


def _alphabet(name: str, symbols: Symbols) -> _Alphabet:
    table = _Alphabet({ord(digit): digit for digit in "0123456789"})
    table.update((ord(blank), " ") for blank in BLANKS)
    table.update((ord(mark), "?") for mark in UNREAD_MARKS)
    table[ord("-")] = "D"
    for plain, written in zip("TAOD", symbols[:4], strict=True):
        if written:
            table[ord(written)] = plain
            if name == "font-letters":  # the fonts carry the symbols on both cases
                table[ord(written.lower())] = plain
    return table


_ALPHABETS = {name: _alphabet(name, symbols) for name, symbols in NOTATIONS.items()}
_UNICODE = re.compile("[\u2446-\u2449]")
_FIELD = lazily(f"T({NINE})T")


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
    return text.translate(_ALPHABETS[name])


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


def fitting(text: str) -> list[tuple[str, str]]:
    """The notations that *text* may be written in, best class only, as ``(name, plain line)``.

    Classes, best first: nine routing positions between exactly two transit symbols that pass the sum (or hold an
    unread mark or a dash), nine that fail it, both first among notations that know every character of the line
    and then among those that do not; last, lines of known characters that merely hold a transit symbol.
    """
    if _UNICODE.search(text):
        return [("unicode", plain(text, "unicode"))]
    ranked = []
    for name, symbols in NOTATIONS.items():
        if (symbols.transit or symbols.on_us) in text or (name == "font-letters" and "a" in text):
            line = plain(text, name)
            ranked.append((_rank(name, line), name, line))
    best = max((rank for rank, _, _ in ranked), default=0)
    return [(name, line) for rank, name, line in ranked if rank == best > 0]


def _rank(name: str, line: str) -> int:
    covered = "x" not in line
    if name == "x9":
        place = x9_routing(line)
        nine = line[place[0] : place[1]] if place else ""
    else:
        field = _FIELD.search(line)
        nine = field[1] if field and line.count("T") == 2 else ""
    if not nine:
        return int(covered and "T" in line)
    fails = nine.isdigit() and not sum_holds(nine)
    return 2 + 2 * covered + (not fails)
