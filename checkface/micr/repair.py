"""Which routing numbers an unread or misread one may be: suggestions for a person, never taken silently.

The check digit of 12 CFR 229 App. A weighs every digit with a unit modulo 10, so one unread digit has exactly one
value that fits and one misread digit exactly one replacement. Candidates are ranked by what the house knows, then by
the number series of that appendix, then (misreads) by the likeness of the printed shapes.

>>> [candidate.number for candidate in routing_candidates("1210?3747")]
['121093747']
>>> misread_suggestions("211355601")[0].number
'211395601'
>>> misread_suggestions("211395601")
()
"""

from collections.abc import Container, Iterable
from itertools import product
from typing import NamedTuple

from checkface.micr.glyphs import similarity
from checkface.micr.notation import UNREAD_MARKS, sum_holds

PAPER_PREFIXES = frozenset(f"{first:02}" for first in (*range(13), *range(21, 33), 80))
"""First two digits of numbers printed on checks: 00 government, 01-12 primary, 21-32 thrift series, 80 traveler's
checks (12 CFR 229 App. A). 61-72 name electronic transactions only and are never printed."""


class Candidate(NamedTuple):
    """A number that may be meant. ``score`` orders candidates: known, then series, then likeness of shapes."""

    number: str
    score: float
    reason: str


def routing_candidates(
    digits: str, known: Container[str] = frozenset(), prefixes: Iterable[str] = PAPER_PREFIXES
) -> tuple[Candidate, ...]:
    """Numbers that fit nine positions with one or two unread marks, likeliest first.

    *known* are numbers of a directory, such as those of the government or of banks seen before; *prefixes* the series
    that count as plausible. Numbers outside them are left out. Empty for more unread digits or other text.
    """
    marks = [at for at, char in enumerate(digits) if char in UNREAD_MARKS]
    rest = "".join(char for char in digits if char not in UNREAD_MARKS)
    if len(digits) != 9 or not 1 <= len(marks) <= 2 or not (rest.isascii() and rest.isdigit()):
        return ()
    series = frozenset(prefixes)
    found = []
    for values in product("0123456789", repeat=len(marks)):
        number = list(digits)
        for at, value in zip(marks, values, strict=True):
            number[at] = value
        found.append("".join(number))
    return _ranked(_judged(number, 0.0, "fits the sum", known) for number in found if _fits(number, series))


def misread_suggestions(
    routing: str, known: Container[str] = frozenset(), prefixes: Iterable[str] = PAPER_PREFIXES
) -> tuple[Candidate, ...]:
    """Numbers that a failed one would be if one digit was misread, likeliest first.

    Empty if *routing* is not nine digits or passes the sum.
    """
    if len(routing) != 9 or not (routing.isascii() and routing.isdigit()) or sum_holds(routing):
        return ()
    series = frozenset(prefixes)
    found = []
    for at, read in enumerate(routing):
        for value in "0123456789":
            number = routing[:at] + value + routing[at + 1 :]
            if value != read and _fits(number, series):
                reason = f"digit {at + 1} read as {read} may be {value}"
                found.append(_judged(number, similarity(read, value), reason, known))
    return _ranked(found)


def _fits(number: str, series: frozenset[str]) -> bool:
    return number[:2] in series and number != "000000000" and sum_holds(number)


def _judged(number: str, likeness: float, reason: str, known: Container[str]) -> Candidate:
    if number in known:
        return Candidate(number, 2 + likeness, f"{reason}; known to the house")
    rare = number[:2] in ("00", "80")  # government items and traveler's checks are few among checks
    return Candidate(number, likeness + (not rare), reason)


def _ranked(found: Iterable[Candidate]) -> tuple[Candidate, ...]:
    return tuple(sorted(found, key=lambda candidate: (-candidate.score, candidate.number)))
