"""The figures, month names and weekdays that a written date is made of, each with its place."""

import re
from collections.abc import Callable, Iterable
from datetime import date
from typing import NamedTuple

from checkface.dates import words
from checkface.dates.value import RepairedWord
from checkface.patterns import lazily
from checkface.span import Fault, Span

MOST_DIGITS = 8
"""Digits together; no date has more."""

_RUN = lazily(
    r"([^\W_\u00aa\u00ba]+)|['\u2018\u2019`\u00b4]([0-9]*)"
    r"|([^\s/\\|.,;:~()_\u00aa\u00ba\u00b0\u2044\u2215\u00b7\u2010-\u2015\u2212-])"
)
_PIECE = lazily(r"[0-9]+|[^0-9]+")
_WITHIN_YEAR = lazily(r"[\s_]*")


class Figures(NamedTuple):
    """A run of figures; ``is_year`` where an apostrophe or a printed century says so, ``split`` where it stands in two
    parts: the printed century and the year behind it."""

    digits: str
    span: Span
    is_year: bool = False
    split: bool = False


class Month(NamedTuple):
    """A month by its name or Roman figure; ``weekday`` where the same letters are a weekday too."""

    value: int
    span: Span
    roman: bool
    weekday: int | None = None


class Pieces(NamedTuple):
    """Everything a date says, in the order it stands there. Each of ``fits`` tells whether a day is the weekday or
    holiday that is named."""

    numbers: list[Figures]
    months: list[Month]
    fits: list[Callable[[date], bool]]
    repairs: list[RepairedWord]


def split(text: str) -> Pieces | Fault:
    """The pieces of *text*, or a fault at the first thing that belongs to no date."""
    pieces = Pieces([], [], [], [])
    tens, last = 0, len(text.rstrip(" .,;:"))
    for match in _RUN.finditer(text):
        if match[2]:
            pieces.numbers.append(Figures(match[2], Span(*match.span(2)), True))
        elif match[3]:
            return Fault("date-unreadable", Span(*match.span()), "a date", "a mark that is no part of one")
        for piece, start in _parts(match):
            span = Span(start, start + len(piece))
            if piece.isascii() and piece.isdigit():
                pieces.numbers.append(Figures(piece, span))
                continue
            first = not pieces.numbers and not pieces.months and span.end < last
            word = words.find_first(piece) if first else words.find(piece)
            glued = word is not None and word.role == "roman" and piece != match[1] and not piece.strip("Ii")
            if word is None or glued:  # 1I is 11 to a machine's eye sooner than the first of January
                return Fault("date-unreadable", span, "a date", "a word that is no part of one")
            if word.role in ("void", "ditto"):
                return Fault(f"date-{word.role}", span, "a date", f"the word {word.role}")
            if word.repaired:
                pieces.repairs.append(RepairedWord(span, word.repaired))
            if word.role in ("month", "roman"):
                pieces.months.append(Month(word.value, span, word.role == "roman", words.as_weekday(piece)))
            elif word.role == "weekday":
                pieces.fits.append(words.weekday_test(word.value))
            elif word.role == "ordinal":
                pieces.numbers.append(Figures(str(tens + word.value), span))
            tens = word.value if word.role == "tens" else 0
    long = next((number for number in pieces.numbers if len(number.digits) > MOST_DIGITS), None)
    if long:
        expected = f"at most {MOST_DIGITS} digits together"
        return Fault("date-unreadable", long.span, expected, f"{len(long.digits)}")
    _take_weekday(pieces, len(pieces.months) > 1)
    _join_century(pieces, text)
    if _take_weekday(pieces, len(pieces.numbers) + len(pieces.months) > 3):
        _join_century(pieces, text)
    return pieces


def _parts(match: re.Match[str]) -> Iterable[tuple[str, int]]:
    """A run whole where it is all figures or a known word, else its figures and letters apart (``24Nov2026``)."""
    run = match[1]
    if not run:
        return ()
    if run.isalpha() or run.isdigit() or words.find(run):
        return ((run, match.start()),)
    return ((part[0], match.start() + part.start()) for part in _PIECE.finditer(run))


def _take_weekday(pieces: Pieces, asked: bool) -> bool:
    """Where there is more than a date needs, letters that name a month or a weekday name the weekday (martes)."""
    either = next((month for month in pieces.months if month.weekday is not None), None)
    if not asked or either is None or either.weekday is None:
        return False
    pieces.months.remove(either)
    pieces.fits.append(words.weekday_test(either.weekday))
    return True


def _join_century(pieces: Pieces, text: str) -> None:
    """A printed 19 or 20 and the two figures written behind it are one year."""
    numbers = pieces.numbers
    if len(numbers) >= 2 and len(numbers) + len(pieces.months) == 4:
        century, rest = numbers[-2:]
        together = _WITHIN_YEAR.fullmatch(text, century.span.end, rest.span.start)
        if century.digits in ("19", "20") and len(rest.digits) == 2 and together:
            whole = Span(century.span.start, rest.span.end)
            numbers[-2:] = [Figures(century.digits + rest.digits, whole, True, split=True)]
