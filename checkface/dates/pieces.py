"""The figures, month names and weekdays that a written date is made of, each with its place."""

import re
from collections.abc import Iterable
from typing import NamedTuple

from checkface.dates import words
from checkface.dates.value import Repair
from checkface.patterns import lazily
from checkface.span import Fault, Span

_RUN = lazily(
    r"([^\W_\u00aa\u00ba]+)|['\u2018\u2019`\u00b4]([0-9]*)"
    r"|([^\s/\\|.,;:~()_\u00aa\u00ba\u00b0\u2044\u2215\u00b7\u2010-\u2015\u2212-])"
)
_PIECE = lazily(r"[0-9]+|[^0-9]+")


class Number(NamedTuple):
    """A run of figures; ``is_year`` where an apostrophe or a printed century says so."""

    digits: str
    span: Span
    is_year: bool = False


class Month(NamedTuple):
    """A month by its name or Roman figure."""

    value: int
    span: Span
    roman: bool


class Pieces(NamedTuple):
    """Everything a date says, in the order it stands there; weekdays count from Monday, 0."""

    numbers: list[Number]
    months: list[Month]
    weekdays: list[int]
    repairs: list[Repair]


def split(text: str) -> Pieces | Fault:
    """The pieces of *text*, or a fault at the first thing that belongs to no date."""
    pieces = Pieces([], [], [], [])
    tens = 0
    for match in _RUN.finditer(text):
        if match[2]:
            pieces.numbers.append(Number(match[2], Span(*match.span(2)), True))
        elif match[3]:
            return Fault("date-unreadable", Span(*match.span()), "a date", "a mark that is no part of one")
        for piece, start in _parts(match):
            span = Span(start, start + len(piece))
            if piece.isascii() and piece.isdigit():
                pieces.numbers.append(Number(piece, span))
                continue
            word = words.find(piece)
            if word is None:
                return Fault("date-unreadable", span, "a date", "a word that is no part of one")
            if word.role in ("void", "ditto"):
                return Fault(f"date-{word.role}", span, "a date", f"the word {word.role}")
            if word.repaired:
                pieces.repairs.append(Repair(span, word.repaired))
            if word.role in ("month", "roman"):
                pieces.months.append(Month(word.value, span, word.role == "roman"))
            elif word.role == "weekday":
                pieces.weekdays.append(word.value)
            elif word.role == "ordinal":
                pieces.numbers.append(Number(str(tens + word.value), span))
            tens = word.value if word.role == "tens" else 0
    return _join_century(pieces)


def _parts(match: re.Match[str]) -> Iterable[tuple[str, int]]:
    """A run whole where it is all figures or a known word, else its figures and letters apart (``24Nov2026``)."""
    run = match[1]
    if not run:
        return ()
    if run.isalpha() or run.isdigit() or words.find(run):
        return ((run, match.start()),)
    return ((part[0], match.start() + part.start()) for part in _PIECE.finditer(run))


def _join_century(pieces: Pieces) -> Pieces:
    """A printed 19 or 20 and the two figures written behind it are one year."""
    numbers = pieces.numbers
    if len(numbers) >= 2 and len(numbers) + len(pieces.months) == 4:
        century, rest = numbers[-2:]
        if century.digits in ("19", "20") and len(rest.digits) == 2:
            numbers[-2:] = [Number(century.digits + rest.digits, Span(century.span.start, rest.span.end), True)]
    return pieces
