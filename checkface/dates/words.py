"""Month names, weekdays and the small words of a written date, in English and Spanish.

>>> find("Setiembre").value, find("Tues").role
(9, 'weekday')
>>> find("Febuary")
Word(role='month', value=2, repaired='February')
>>> find("Juny") is None  # as near to June as to July
True
>>> find("th").role, find_first("Th").role, as_weekday("mar")  # an ordinal's end, Thursday, martes
('small', 'weekday', 1)
"""

import unicodedata
from collections.abc import Callable
from datetime import date
from functools import cache, lru_cache
from typing import NamedTuple

from checkface.dates.calendar import MONTHS

_SPANISH = (
    "enero", "febrero", "marzo", "abril", "mayo", "junio", "julio", "agosto",
    "septiembre", "octubre", "noviembre", "diciembre",
)  # fmt: skip
_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_DIAS = ("lunes", "martes", "miercoles", "jueves", "viernes", "sabado", "domingo")
_ABBREVIATIONS = {
    "jany": 1, "feby": 2, "mch": 3, "apl": 4, "jly": 7, "augt": 8, "set": 9, "setiembre": 9, "septbr": 9, "septr": 9,
    "octbr": 10, "octr": 10, "novbr": 11, "novr": 11, "decbr": 12, "decr": 12,
}  # fmt: skip
_ROMAN = ("i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii")
_ORDINALS = (
    "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh",
    "twelfth", "thirteenth", "fourteenth", "fifteenth", "sixteenth", "seventeenth", "eighteenth", "nineteenth",
    "twentieth",
)  # fmt: skip
_SMALL = (
    "the", "of", "day", "this", "on", "in", "year", "a", "d", "ad", "date", "dated", "de", "del", "el", "dia", "fecha",
    "ano", "st", "nd", "rd", "th", "ro", "er", "los", "dias", "mes",
)  # fmt: skip
_TWO_LETTERS = {
    "mo": 0, "tu": 1, "we": 2, "fr": 4, "sa": 5, "su": 6, "lu": 0, "ma": 1, "mi": 2, "ju": 3, "weds": 2,
}  # fmt: skip
_FIRST_WEEKDAYS = {"th": 3, "do": 6}
"""Weekdays where they stand before any figure; behind one they end an ordinal and say ditto."""
_EITHER = {"mar": 1, "vi": 4}
"""Tuesday and Friday in Spanish, and a month: March, and VI for June."""
_LOOKS = (str.maketrans("015", "ois"), str.maketrans("015", "ols"))
"""Letters for which machines read figures inside a word."""

LONGEST = 14
"""Letters; no word of a date is longer."""


class Word(NamedTuple):
    """``role`` is ``month``, ``roman``, ``weekday`` (0 Monday), ``tens``, ``ordinal``, ``small``, ``void`` or
    ``ditto``; ``repaired`` the word it was taken for, empty when it was spelled rightly."""

    role: str
    value: int
    repaired: str = ""


@lru_cache(maxsize=1024)
def find(text: str) -> Word | None:
    """What a run of letters means, with spelling repaired where only one month or weekday is near enough."""
    folded = _fold(text)
    if folded is None:
        return None
    if found := _known().get(folded):
        return found
    for looks in _LOOKS:
        found = _known().get(folded.translate(looks))
        if found and found.role == "void":
            return found
        if found and found.role == "month":
            return Word("month", found.value, MONTHS[found.value - 1])
    return _repair(folded) if folded.isalpha() else None


def find_first(text: str) -> Word | None:
    """As :func:`find`, for a word before all figures and months, with more behind it."""
    day = _FIRST_WEEKDAYS.get(text.lower())
    return find(text) if day is None else Word("weekday", day)


def as_weekday(text: str) -> int | None:
    """The weekday, 0 for Monday, that the name of a month or a Roman figure may be too."""
    return _EITHER.get(text.lower())


def weekday_test(weekday: int) -> Callable[[date], bool]:
    """What tells whether a day falls on *weekday*, 0 for Monday."""
    return lambda day: day.weekday() == weekday


def _fold(text: str) -> str | None:
    """Lower case without accents; None for another alphabet or a word too long."""
    if len(text) > LONGEST:
        return None
    if text.isascii():
        return text.lower()
    bare = "".join(c for c in unicodedata.normalize("NFD", text) if not unicodedata.combining(c))
    return bare.lower() if bare.isascii() else None


@cache
def _known() -> dict[str, Word]:
    words = {word: Word("small", 0) for word in _SMALL}
    for names in (_DIAS, _WEEKDAYS, _SPANISH, MONTHS):  # later names win: "mar" is March, not martes
        role = "weekday" if len(names) == 7 else "month"
        for value, name in enumerate(names, role == "month"):
            words |= {name.lower()[:length]: Word(role, value) for length in range(3, len(name) + 1)}
    words |= {word: Word("month", value) for word, value in _ABBREVIATIONS.items()}
    words |= {word: Word("weekday", value) for word, value in _TWO_LETTERS.items()}
    words |= {word: Word("roman", value) for value, word in enumerate(_ROMAN, 1)}
    words |= {word: Word("ordinal", value) for value, word in enumerate(_ORDINALS, 1)}
    words |= {"primero": Word("ordinal", 1), "thirtieth": Word("ordinal", 30)}
    words |= {"twenty": Word("tens", 20), "thirty": Word("tens", 30)}
    words |= {word: Word("void", 0) for word in ("void", "voided", "nulo", "anulado")}
    return words | {word: Word("ditto", 0) for word in ("ditto", "do", "same", "idem")}


@cache
def _spellings() -> tuple[tuple[str, Word], ...]:
    return tuple(
        (name.lower(), Word(role, value, right))
        for names, rights, role in (
            (MONTHS, MONTHS, "month"),
            (_SPANISH, MONTHS, "month"),
            (_WEEKDAYS, _WEEKDAYS, "weekday"),
            (_DIAS, _WEEKDAYS, "weekday"),
        )
        for value, (name, right) in enumerate(zip(names, rights, strict=True), role == "month")
    )


def _repair(word: str) -> Word | None:
    """The one name within one edit (two from seven letters on), if no other name is as near."""
    if len(word) < 4:
        return None
    allowed = 1 if len(word) < 7 else 2
    near: dict[int, set[Word]] = {}
    for name, meant in _spellings():
        if abs(len(name) - len(word)) <= allowed and (edits := _edits(word, name)) <= allowed:
            near.setdefault(edits, set()).add(meant)
    closest = near[min(near)] if near else set()
    return closest.pop() if len(closest) == 1 else None


def _edits(left: str, right: str) -> int:
    """Optimal string alignment distance: insertions, deletions, substitutions, swaps of neighbours."""
    before: list[int] = []
    row = list(range(len(right) + 1))
    for i, a in enumerate(left, 1):
        last, before, row = before, row, [i]
        for j, b in enumerate(right, 1):
            cost = min(row[j - 1] + 1, before[j] + 1, before[j - 1] + (a != b))
            if i > 1 and j > 1 and a == right[j - 2] and b == left[i - 2]:
                cost = min(cost, last[j - 2] + 1)
            row.append(cost)
    return row[-1]
