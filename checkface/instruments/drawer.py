"""Who the drawer's lines say has drawn the check: people at an address, or a bank and which one.

Only the shape of the lines counts, never whose name it is: no list of given names or surnames is kept.

>>> people("JORDAN Q SPECIMEN\\nALEX SPECIMEN\\n12 MAPLE ST\\nANYTOWN PA 15001")
Span(start=0, end=17)
>>> people("JORDAN Q SPECIMEN") is None  # no address
True
>>> names("CORNER FLORIST 9 CHURCH ST\\nANYTOWN PA 15001").split()
['CORNER', 'FLORIST']
"""

from __future__ import annotations

import re

from checkface.instruments.tokens import tokenise
from checkface.patterns import lazily
from checkface.span import Span

_LINE = lazily(r"[^\n\r]+")
_ADDRESS = lazily(
    r"\s{0,20}(?:[0-9]|\(?[0-9]{3}\)|p\.?\s?o\.?\s?box\b|box\s[0-9]|apt\b|unit\b|suite\b|ste\b|r\.?r\.?\s?[0-9]|apartado\b)"
    r"|.{1,200}(?:\b[a-z]{2}\.?,?\s{1,8}[0-9]{5}(?:-[0-9]{4})?|,\s?[a-z]{2}\.?)\s{0,20}$",
    re.IGNORECASE,
)
_STREETS = (
    "street|st|road|rd|avenue|ave|lane|ln|drive|dr|place|pl|row|boulevard|blvd|circle|cir|terrace|ter|trail|trl|parkway"
    "|pkwy|highway|hwy|loop|alley|pike|route|rte|crescent|avenida"
)
_STATES = (
    "alabama|alaska|arizona|arkansas|california|colorado|connecticut|delaware|florida|georgia|hawaii|idaho|illinois"
    "|indiana|iowa|kansas|kentucky|louisiana|maine|maryland|massachusetts|michigan|minnesota|mississippi|missouri"
    "|montana|nebraska|nevada|new hampshire|new jersey|new mexico|new york|(?:north|south) (?:carolina|dakota)|ohio"
    "|oklahoma|oregon|pennsylvania|rhode island|tennessee|texas|utah|vermont|(?:west )?virginia|washington|wisconsin"
    "|wyoming|puerto rico|district of columbia"
)
_ADDRESS_BELOW = lazily(
    rf"\s(?:{_STREETS})\.?,?(?:\s(?:(?:apt|unit|suite|ste|lot|no)\.?\s?)?#?(?:[a-z]|[a-z]?[0-9]{{1,6}}[a-z]?))?\s*$"
    rf"|[\s,](?:{_STATES}),?\s[0-9]{{5}}(?:-[0-9]{{4}})?\s*$"
    r"|^\s*(?:psc|cmr)\s[0-9]{1,5},?\sbox\s[0-9]{1,6}\s*$",
    re.IGNORECASE,
)
"""What is an address on any line but the first: a street without its number ahead, a state, a military box.

Of streets Court, Way and Plaza are left out: offices and charities end in them."""
_ENDS_IN_STATE = lazily(
    rf",\s?(?:{_STATES})\s*$"
    r"|[a-z]\.?\s(?:a[klrz]|c[at]|d[ce]|fl|ga|hi|i[adln]|k[sy]|la|m[adeinost]|n[cdehjmvy]|o[hkr]|p[ar]|ri|s[cd]|t[nx]|ut"
    r"|v[ait]|w[aivy])\s*$",
    re.IGNORECASE,
)
"""A state without a ZIP Code, which is an address only below another."""
_TAIL = 80
"""Characters at the end of a line that tell whether it is an address."""
_NAME_ENDS = lazily(
    r"(?<=[^\W\d_])[\s,.]{1,20}(?=[0-9](?! [^\W\d_] [^\W\d_]\b)|p\.?\s?o\.?\s?box\b)",
    re.IGNORECASE,  # a figure among letters set apart is one of them, misread
)
_WORD = r"[^\W\d_]++(?:[.'\u2019-]++[^\W\d_]++)*+\.?"
_NAME = lazily(rf"\s*+({_WORD}(?:[ \t,&+/]++{_WORD}){{1,8}}+)(?=[ \t]*+(?:$|[\n\r]|[0-9])|[,.]\s++[0-9])")
_OWNS = lazily(r"['\u2019]s\b", re.IGNORECASE)
_ADDRESS_FOLLOWS = lazily(r"[\s,][0-9]++(?!(?:st|nd|rd|th)\b)|box\b", re.IGNORECASE)
_NOT_OF_THE_NAME = frozenset(
    {"the", "of", "bank", "na", "n", "a", "national", "association", "and", "trust", "company", "co", "inc", "fsb"}
)


def names(text: str) -> str:
    """*text* with its addresses blanked out, every character keeping its place.

    The first line names somebody whatever it looks like ("84 SPECIMEN COMPANY").
    """
    kept = [" "] * len(text)
    first, below = True, False
    for match in _LINE.finditer(text):
        start, end = match.span()
        if first or not (below := _is_address(match[0], below)):
            cut = _NAME_ENDS.search(match[0])
            stop = start + cut.start() if cut else end
            kept[start:stop] = text[start:stop]
        kept[end : end + 1] = text[end : end + 1]  # the line break
        first = False
    return "".join(kept)


def _is_address(line: str, below: bool) -> bool:
    """Whether a line below the first is an address; *below* another one, less is asked of it."""
    tail = line[-_TAIL:]
    return bool(_ADDRESS.match(line) or _ADDRESS_BELOW.search(tail) or (below and _ENDS_IN_STATE.search(tail)))


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
