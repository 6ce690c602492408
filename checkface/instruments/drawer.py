"""Who the drawer's lines say has drawn the check: people at an address, or a bank and which one.

Only the shape of the lines counts, never whose name it is: no list of given names or surnames is kept.

>>> people("JORDAN Q SPECIMEN\\nALEX SPECIMEN\\n12 MAPLE ST\\nANYTOWN PA 15001")
Span(start=0, end=17)
>>> people("JORDAN Q SPECIMEN") is None  # no address
True
"""

from __future__ import annotations

import re

from checkface.instruments.tokens import tokenise
from checkface.patterns import lazily
from checkface.span import Span

_WORD = r"[^\W\d_]++(?:[.'\u2019-]++[^\W\d_]++)*+\.?"
_NAME = lazily(rf"\s*+({_WORD}(?:[ \t,&+/]++{_WORD}){{1,8}}+)(?=[ \t]*+(?:$|[\n\r]|[0-9])|[,.]\s++[0-9])")
_OWNS = lazily(r"['\u2019]s\b", re.IGNORECASE)
_ADDRESS_FOLLOWS = lazily(r"[\s,][0-9]++(?!(?:st|nd|rd|th)\b)|box\b", re.IGNORECASE)
_NOT_OF_THE_NAME = frozenset(
    {"the", "of", "bank", "na", "n", "a", "national", "association", "and", "trust", "company", "co", "inc", "fsb"}
)


def people(text: str) -> Span | None:
    """Where the drawer's first line has the shape of one or two persons' names, if an address follows it.

    A name that owns something is a shop's ("Ann's Nook").
    """
    name = _NAME.match(text)
    if name is None or not _ADDRESS_FOLLOWS.search(text, name.end()) or _OWNS.search(name[1]):
        return None
    return Span(*name.span(1))


def same_bank(name: str, drawee: str) -> bool | None:
    """Whether every telling word of a drawer's name is in the drawee's; None if one of them has none."""
    ours, theirs = _telling(name), _telling(drawee)
    return ours <= theirs if ours and theirs else None


def _telling(text: str) -> set[str]:
    return {token.word for token in tokenise(text)} - _NOT_OF_THE_NAME
