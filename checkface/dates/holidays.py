"""The name of a holiday before a date: ``Thanksgiving 11/26/2026``.

Federal holidays and their days are those of 5 U.S.C. 6103(a); the others are common practice. A name says nothing
that the date does not; where it falls on another day, the date is doubted as with a wrong weekday.

>>> christmas = find("Christmas Day, 12/25/2026")
>>> christmas.end, christmas.falls_on(date(2026, 12, 25)), christmas.falls_on(date(2026, 12, 11))
(13, True, False)
>>> find("Día de Acción de Gracias 26/11/2026").falls_on(date(2026, 11, 26))
True
>>> find("Christopher 12/25/2026") is None
True
"""

from __future__ import annotations

import re
import unicodedata
from datetime import date, timedelta
from typing import NamedTuple

from checkface.patterns import lazily

_FIXED = {
    "new year's eve|nochevieja|fin de ano": (12, 31),
    "new year's day|new year's|new year|ano nuevo": (1, 1),
    "dia de los reyes|dia de reyes|epiphany": (1, 6),
    "valentine's day|saint valentine's day|st valentine's day|st. valentine's day": (2, 14),
    "saint patrick's day|st patrick's day|st. patrick's day": (3, 17),
    "juneteenth": (6, 19),
    "independence day": (7, 4),
    "halloween": (10, 31),
    "dia de los muertos|dia de muertos": (11, 2),
    "veteran's day|armistice day": (11, 11),
    "christmas eve|nochebuena": (12, 24),
    "christmas day|christmas|x-mas|xmas|dia de navidad|navidad": (12, 25),
}
_COUNTED = {
    "martin luther king, jr. day|martin luther king jr day|martin luther king day|mlk day": (1, 0, 3),
    "washington's birthday|president's day": (2, 0, 3),
    "mother's day": (5, 6, 2),
    "memorial day": (5, 0, -1),
    "father's day": (6, 6, 3),
    "labor day": (9, 0, 1),
    "columbus day|indigenous people's day": (10, 0, 2),
    "thanksgiving day|thanksgiving|dia de accion de gracias|accion de gracias": (11, 3, 4),
}
"""Month, weekday (0 Monday) and which of them in that month, -1 for the last."""
_ANY_DAY = "good friday|easter sunday|easter|pascua|dia del trabajo|dia de la independencia|dia de las madres"
"""Feasts that move by the moon, and names that are on another day in another country."""


class Holiday(NamedTuple):
    """A holiday named up to offset ``end``; ``month`` is 0 where its day is not told."""

    end: int
    month: int = 0
    day: int = 0
    weekday: int | None = None
    which: int = 0

    def falls_on(self, day: date) -> bool:
        """Whether *day* is that holiday."""
        if not self.month:
            return True
        if self.weekday is None:
            return (day.month, day.day) == (self.month, self.day)
        last = (day + timedelta(7)).month != day.month
        counted = last if self.which < 0 else (day.day + 6) // 7 == self.which
        return day.month == self.month and day.weekday() == self.weekday and counted


def find(text: str) -> Holiday | None:
    """The holiday whose name *text* begins with, if it does."""
    if not text.isascii():
        text = "".join(unicodedata.normalize("NFD", mark)[0] for mark in text)
    if text.lstrip()[:2].lower() not in _BEGINNINGS:
        return None
    match = _BEGINS.match(text)
    if match is None or match.lastgroup is None:
        return None
    month, *rest = _DAYS[int(match.lastgroup[1:])]
    if len(rest) == 1:
        return Holiday(match.end(), month, rest[0])
    return Holiday(match.end(), month, 0, *rest) if rest else Holiday(match.end())


_NAMES = (*_FIXED, *_COUNTED, _ANY_DAY)
_DAYS: tuple[tuple[int, ...], ...] = (*_FIXED.values(), *_COUNTED.values(), (0,))
_QUOTE = "['\u2018\u2019`\u00b4]?"
_FLEXIBLE = (".", r"\."), (" ", r"\s+"), ("'s", f"{_QUOTE}s{_QUOTE}")


def _flexible(names: str) -> str:
    for plain, pattern in _FLEXIBLE:
        names = names.replace(plain, pattern)
    return names


_BEGINNINGS = {"ha", "me"} | {name[:2] for names in _NAMES for name in names.split("|")}
_NAME = "|".join(f"(?P<n{place}>{_flexible(names)})" for place, names in enumerate(_NAMES))
_BEGINS = lazily(rf"\s*(?:(?:happy|merry)\s+)?(?:{_NAME})(?![^\W_])", re.IGNORECASE)
