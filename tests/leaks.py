"""Five kinds of secret in thirty disguises, and a reader that finds five digits of one in any text."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import is_dataclass
from datetime import date
from enum import Enum
from typing import Any, NamedTuple
from unicodedata import digit

from pydantic import BaseModel

#: All invented: the card has a right check digit under a leading 99 that no network uses, the social security number
#: is in a form that could be given out. No five digits of one are digits of another or of the clean tender.
SECRETS = {
    "account": "904417792658",
    "short account": "730519",
    "card": "9928375648271365",
    "social security number": "219476083",
    "license": "S53864980175",
}
#: Numbers that the tender itself bears: they are known wherever they stand.
OWN = ("account", "short account", "license")
WINDOW = 5


def _grouped(sign: str) -> Callable[[str], str]:
    def disguise(number: str) -> str:
        sizes = (3, 2, 4) if len(number) == 9 else (3,) * 2 if len(number) == 6 else (4,) * 9
        parts, start = [], 0
        for size in sizes:
            parts.append(number[start : start + size])
            start += size
        return sign.join(filter(None, parts))

    return disguise


def _in(digits: str) -> Callable[[str], str]:
    return lambda number: number.translate(str.maketrans("0123456789", digits))


#: One to three signs between groups or digits; digits of other scripts; words around.
SIGNS = {
    "blank": " ", "dash": "-", "dot": ".", "slash": "/", "colon": ":", "comma": ",", "bar": "|", "apostrophe": "'",
    "curly apostrophe": "\u2019", "no-break": "\u00a0", "zero-width": "\u200b", "word joiner": "\u2060",
    "soft hyphen": "\u00ad", "en dash": "\u2013", "middle dot": "\u00b7", "two lines": "\n", "blanks and dash": " - ",
    "three blanks": "   ", "slashes": "//", "ideographic blank": "\u3000", "combining": "\u20e3", "under": "_",
}  # fmt: skip
SCRIPTS = {
    "full-width": "０１２３４５６７８９", "Arabic": "٠١٢٣٤٥٦٧٨٩", "bold": "𝟎𝟏𝟐𝟑𝟒𝟓𝟔𝟕𝟖𝟗",
    "raised": "⁰¹²³⁴⁵⁶⁷⁸⁹", "lowered": "₀₁₂₃₄₅₆₇₈₉", "circled": "⓪①②③④⑤⑥⑦⑧⑨",
}  # fmt: skip
DISGUISES: dict[str, Callable[[str], str]] = {
    "plain": str,
    "in words": lambda number: f"no {number} please",
    "noughts before": lambda number: f"000{number}",
    "digit by digit": " ".join,
    "digit, zero-width": "\u200b".join,
    **{name: _grouped(sign) for name, sign in SIGNS.items()},
    **{name: _in(digits) for name, digits in SCRIPTS.items()},
}

_ESCAPE = re.compile(r"\\x[0-9a-f]{2}|\\u[0-9a-f]{4}|\\U[0-9a-f]{8}|\\n|&#[0-9]+;|&#x[0-9a-f]+;")


class Place(NamedTuple):
    """What was planted: which secret, in which disguise, where."""

    secret: str
    disguise: str
    field: str

    @property
    def text(self) -> str:
        return DISGUISES[self.disguise](SECRETS[self.secret])


def shown(text: str, secrets: tuple[str, ...] = tuple(SECRETS)) -> list[str]:
    """Those of *secrets* of which five digits in a row can be read in *text*, with up to three signs between two."""
    plain = "".join(str(digit(c, c)) if c.isdigit() else c for c in _ESCAPE.sub("", text))
    # Digits that stand near each other, in one row; what is farther apart is parted by a blank.
    near = re.sub(r"(?<=[0-9])[\W_]{1,3}(?=[0-9])", "", plain)
    found = []
    for name in secrets:
        number = "".join(filter(str.isdigit, SECRETS[name]))
        if any(number[at : at + WINDOW] in near for at in range(len(number) - WINDOW + 1)):
            found.append(name)
    return found


def reached(root: object) -> Iterator[object]:
    """*root* and every object that can be reached from it, but for plain values."""
    seen: set[int] = set()
    waiting = [root]
    while waiting:
        thing = waiting.pop()
        if id(thing) in seen or thing is None or isinstance(thing, str | bytes | int | float | Enum | date | type):
            continue
        seen.add(id(thing))
        yield thing
        if isinstance(thing, dict):
            waiting += [*thing.keys(), *thing.values()]
        elif isinstance(thing, tuple | list | set | frozenset):
            waiting += thing
        elif isinstance(thing, BaseModel):
            waiting += thing.__dict__.values()
        elif is_dataclass(thing):
            waiting += [getattr(thing, name) for name in thing.__dataclass_fields__]


def said(thing: object) -> str:
    """``repr`` and ``str`` of *thing* as a log has them; of plain containers only what is in them counts."""
    plain: tuple[Any, ...] = (dict, tuple, list, set, frozenset)
    return "" if type(thing) in plain else f"{thing!r}\n{thing!s}"
