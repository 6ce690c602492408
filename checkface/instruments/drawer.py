"""Who the drawer's lines say has drawn the check: people at an address, or a bank and which one.

Only the shape of the lines counts, never whose name it is: no list of given names or surnames is kept.

>>> people({"drawer": "JORDAN Q SPECIMEN\\nALEX SPECIMEN\\n12 MAPLE ST\\nANYTOWN PA 15001"})
('drawer', Span(start=0, end=17))
>>> people({"drawer": "JORDAN Q SPECIMEN"}) is None  # no address
True
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from checkface.instruments.phrases import LONGEST, family_of
from checkface.instruments.tokens import tokenise
from checkface.span import Span

_LINE = re.compile(r"[^\n\r]+")
_ADDRESS = re.compile(
    r"\s*(?:[0-9]|\(?[0-9]{3}\)|p\.?\s?o\.?\s?box\b|box\s[0-9]|apt\b|unit\b|suite\b|ste\b|r\.?r\.?\s?[0-9]|apartado\b)"
    r"|.*\b[a-z]{2}\.?,?\s+[0-9]{5}(?:-[0-9]{4})?\s*$"
    r"|.*,\s?[a-z]{2}\.?\s*$",
    re.IGNORECASE,
)
_NAME_ENDS = re.compile(r"(?<=[^\W\d_])[\s,.]+(?=[0-9]|p\.?\s?o\.?\s?box\b)", re.IGNORECASE)
_WORD = r"[^\W\d_]+(?:[.'\u2019-]+[^\W\d_]+)*\.?"
_NAME = re.compile(rf"\s*({_WORD}(?:[ \t,&+/-]+{_WORD}){{1,8}})(?=\s*(?:[\n\r]|[,.]?\s[0-9]|$))")
_ADDRESS_FOLLOWS = re.compile(r"[\s,][0-9]+(?![0-9]|(?:st|nd|rd|th)\b)|box\b", re.IGNORECASE)
_NOT_OF_THE_NAME = frozenset(
    {"the", "of", "bank", "na", "n", "a", "national", "association", "and", "trust", "company", "co", "inc", "fsb"}
)


class Line(NamedTuple):
    """One line of a reading: the part that names somebody (may be empty), and whether an address is on it."""

    reading: str
    name: Span
    has_address: bool
    text: str


def lines(wording: Mapping[str, str], family: str) -> list[Line]:
    """The lines of all readings of one family, in order. What follows a name on its line from the first figure on
    is address."""
    found: list[Line] = []
    for reading, text in wording.items():
        if family_of(reading) != family:
            continue
        for match in _LINE.finditer(text[:LONGEST]):
            start, end = match.span()
            if found and _ADDRESS.match(match[0]):
                found.append(Line(reading, Span(start, start), True, ""))
                continue
            cut = _NAME_ENDS.search(match[0])
            name = Span(start, start + cut.start() if cut else end)
            found.append(Line(reading, name, cut is not None, name.of(text)))
    return found


def people(wording: Mapping[str, str]) -> tuple[str, Span] | None:
    """Where the drawer's first line has the shape of one or two persons' names, if an address follows it."""
    parts = [(reading, text) for reading, text in wording.items() if family_of(reading) == "drawer"]
    if not parts:
        return None
    reading, first = parts[0]
    name = _NAME.match(first[:LONGEST])
    if name is None:
        return None
    rest = "\n".join((first[name.end() : LONGEST], *(text for _, text in parts[1:])))
    return (reading, Span(*name.span(1))) if _ADDRESS_FOLLOWS.search(rest) else None


def is_name_part(drawer: Sequence[Line], reading: str, span: Span) -> bool:
    """Whether *span* lies where somebody is named, not in an address."""
    return any(line.reading == reading and line.name.start <= span.start < line.name.end for line in drawer)


def same_bank(drawer: Sequence[Line], drawee: Sequence[Line]) -> bool | None:
    """Whether drawer and drawee name one bank; None if one of them names none."""
    ours = _significant(drawer[:1])
    theirs = _significant(drawee)
    return ours <= theirs if ours and theirs else None


def _significant(named: Sequence[Line]) -> set[str]:
    return {token.word for line in named for token in tokenise(line.text)} - _NOT_OF_THE_NAME
