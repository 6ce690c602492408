"""What stands around the figures of a date: printed stars, comb boxes, full-width letters, a bar, a letter for a digit.

Nothing is taken away that may be the rest of a digit: a star at a single figure may have struck out another.

>>> [way.text for text in ("**11/24/26**", "|1|1|2|4|2|6|", "*1/24/2026", "|1/24/26") for way in ways(text)]
['  11/24/26  ', '112426', '*1/24/2026', ' 1/24/26', '11/24/26']
>>> [way.text for way in mended(Way("1O/24/2026"))]
['10/24/2026']
"""

from __future__ import annotations

import re
from typing import NamedTuple

from checkface.dates.value import RepairedWord
from checkface.patterns import lazily
from checkface.span import Span

_FOLD = {0xFF01 + place: 0x21 + place for place in range(94)} | dict.fromkeys(map(ord, "│¦"), "|")
"""One for one: full-width characters (U+FF01 to U+FF5E) and the bars of a box."""
_CENTURY_PRINTED = lazily(r"(?<![0-9])(?:19|20)[ \t]?_[_\s]*$")
_FILLERS = " \t*~=#"
_LAST_FIGURES = lazily(r"[0-9]+$")
_SINGLE_FIGURE = lazily(r"[0-9](?![0-9])")
_CELL = r"[\s|_\[\](){}]"
_IN_CELL = lazily(_CELL)
_COMB = lazily(rf"(?:{_CELL}|[/.-])*[0-9](?:(?:{_CELL}|[/.-])++[0-9]){{5,7}}(?:{_CELL}|[/.-])*")
_SPACED_YEAR = lazily(r"\s*[0-9]\s+[0-9]\s+((?:1\s+9|2\s+0)\s+[0-9]\s+[0-9])\s*")
_BOXED = lazily(r"\s*(?:\[[^\[\]]*\]\s*|(?:\[\s*[0-9]+\s*\][\s/.-]*){3})")
_BRACKETS = str.maketrans("[]", "  ")
_BAR = lazily(r"(?<![0-9])\|(?=[0-9])|(?<=[0-9])\|(?![0-9])")
_MISREAD = lazily(r"(?<![^\W_])(?:(?=[A-Za-z]*[0-9])[0-9OoQlISsBbZz]{2,8}|[lI]{1,2})(?![^\W_])")
_LETTERS = str.maketrans("OoQlISsBbZz", "00011558822")
_ORDINAL = lazily(r"(?<![^\W_])1[oO](?=\.?\s+de\s)", re.IGNORECASE)
_PERHAPS_ORDINAL = lazily(r"(?<![^\W_])1[oO](?=\.?\s+[A-Za-z])")


class Way(NamedTuple):
    """A text to be read in place of the one written; ``places`` has the offset there of each character, where these
    are not the same."""

    text: str
    places: tuple[int, ...] = ()
    repairs: tuple[RepairedWord, ...] = ()

    def placed(self, span: Span) -> Span:
        """*span* of this text as a span of the one written."""
        if not self.places:
            return span
        last = self.places[max(span.end, 1) - 1]
        return Span(self.places[span.start] if span.start < span.end else last, last + 1)


def ways(text: str) -> list[Way]:
    """How *text* can be meant, without what a form prints around figures."""
    if not text.isascii():
        text = text.translate(_FOLD)
    if "_" in text:
        text = _CENTURY_PRINTED.sub(lambda found: " " * len(found[0]), text)
    text = _without_frame(text)
    if _COMB.fullmatch(text):
        spaced = _SPACED_YEAR.fullmatch(text)  # 1 1 2 0 2 6 is November 20 in boxes, or January 1 with a wide year
        return [_joined(text, Span(0, len(text)))] + ([_joined(text, Span(*spaced.span(1)))] if spaced else [])
    if "[" in text and _BOXED.fullmatch(text):
        text = text.translate(_BRACKETS)
    if "1" in text:
        text = _ORDINAL.sub("1 ", text)
    if "|" in text and _BAR.search(text):  # a bar at the edge of figures is a line or a one
        return [Way(_BAR.sub(" ", text)), Way(_BAR.sub("1", text))]
    return [Way(text)]


def _joined(text: str, span: Span) -> Way:
    """*text* without the walls and blanks between the cells within *span*."""
    places = tuple(
        place for place, mark in enumerate(text) if not (span.start <= place < span.end and _IN_CELL.match(mark))
    )
    return Way("".join(text[place] for place in places), places)


def _without_frame(text: str) -> str:
    """Stars and the like at both ends as blanks, unless one may stand for a digit (``*1/24``, ``11/24/20**``)."""
    core = text.strip(_FILLERS)
    if len(core) == len(text) or not core:
        return text
    start = text.find(core)
    before, after = text[:start], text[start + len(core) :]
    marks_before, marks_after = before[len(before.rstrip("*~=#")) :], after[: len(after) - len(after.lstrip("*~=#"))]
    last = _LAST_FIGURES.search(core)
    if marks_after and last and (last[0] in ("19", "20") or (len(last[0]) == 1 and not marks_before)):
        return text
    if len(marks_before) == 1 and not marks_after and _SINGLE_FIGURE.match(core):
        return text
    return " " * len(before) + core + " " * len(after)


def mended(way: Way) -> list[Way]:
    """*way* with the letters that machines read for digits put back, where letters stand among digits."""
    text = way.text
    found = list(_MISREAD.finditer(text))
    if not found:
        return []
    repairs = tuple(RepairedWord(Span(*match.span()), match[0].translate(_LETTERS)) for match in found)
    right = way._replace(text=_MISREAD.sub(lambda match: match[0].translate(_LETTERS), text), repairs=repairs)
    if not _PERHAPS_ORDINAL.search(text):
        return [right]
    first = _PERHAPS_ORDINAL.sub("1 ", text)  # 1o is the first in Spanish
    return [way._replace(text=first, repairs=repairs[:1]), right]
