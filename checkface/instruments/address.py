"""Which lines of a drawer's block are an address, and which name somebody.

Postal abbreviations are those of USPS Publication 28.

>>> names("CORNER FLORIST 9 CHURCH ST\\nANYTOWN PA 15001").split()
['CORNER', 'FLORIST']
>>> [span.of("ANN SPECIMEN\\nBO SPECIMEN\\n9 ELM ST") for span in above("ANN SPECIMEN\\nBO SPECIMEN\\n9 ELM ST")]
['ANN SPECIMEN', 'BO SPECIMEN']
>>> above("9 ELM ST")
[]
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from checkface.patterns import lazily
from checkface.span import Span

_LINE = lazily(r"[^\n\r]+")
_STREET = lazily(
    r"\s{0,20}(?:[0-9]|\(?[0-9]{3}\)|p\.?\s?o\.?\s?(?:box|drawer)\b|(?:box|drawer)\s[0-9]|apt\b|unit\b|suite\b|ste\b|r\.?r\.?\s?[0-9]|apartado\b"
    r"|r(?:(?:oute|te?)\.?)\s?[0-9]|h\.?c\.?\s?[0-9]|star\s+r(?:oute|te?)\b|[nsew][0-9]{2,5}\s|general\s+delivery\b"
    r"|lot\s?#?[0-9]|trlr\b|#\s?[0-9])",
    re.IGNORECASE,
)
_ENDS_IN_CODE = lazily(r".\b[a-z]{2}\.?,?\s{1,8}[0-9]{5}(?:-[0-9]{4})?\s{0,20}$", re.IGNORECASE)
_ENDS_IN_LETTERS = lazily(r".,\s?[a-z]{2}\.?\s{0,20}$", re.IGNORECASE)
"""A state, or letters behind a name ("BELL DENTAL, PC"): no address where the street is still to come."""
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
    r"|\s(?:apt|lot|trlr)\.?\s?#?(?:[a-z]|[a-z]?[0-9]{1,6}[a-z]?)\s*$"
    r"|\s(?:mobile home|trailer|rv)\s(?:park|court|estates)\b"
    r"|^\s*(?:psc|cmr)\s[0-9]{1,5},?\sbox\s[0-9]{1,6}\s*$",
    re.IGNORECASE,
)
"""What is an address on any line but the first: a street without its number ahead, a state, a military box.

Of streets Court, Way and Plaza are left out: offices and charities end in them."""
_CODES = (
    "a[klrz]|c[at]|d[ce]|fl|ga|hi|i[adln]|k[sy]|la|m[adeinost]|n[cdehjmvy]|o[hkr]|p[ar]|ri|s[cd]|t[nx]|ut|v[ait]"
    "|w[aivy]"
)
IN_STATES = lazily(
    rf"\b(?:{_STATES}|{_CODES}|usa|u\.?s\.?a?\.?)\.?,?\s{{0,8}}(?:[0-9]{{5}}(?:-[0-9]{{4}})?)?\s{{0,20}}$",
    re.IGNORECASE,
)
"""A line that ends in one of the states."""
_ENDS_IN_STATE = lazily(
    rf",\s?(?:{_STATES})\s*$"
    rf"|[a-z]\.?\s(?:{_CODES})\s*$",
    re.IGNORECASE,
)
"""A state without a ZIP Code, which is an address only below another."""
_TAIL = 80
"""Characters at the end of a line that tell whether it is an address."""
_NAME_ENDS = lazily(
    r"(?<=[^\W\d_])[\s,.]{1,20}(?=[0-9](?! [^\W\d_] [^\W\d_]\b)|p\.?\s?o\.?\s?box\b)",
    re.IGNORECASE,  # a figure among letters set apart is one of them, misread
)
_AFTER_NAME = lazily(
    rf"(?<![^\W\d_])(?:{_STREETS}|way|court|ct|plaza|broadway|calle)(?![^\W\d_])|\bbox\b|\b[a-z]{{2}}\.?,?\s{{1,8}}[0-9]{{5}}\b"
    rf"|,\s?[a-z]{{2}}\.?\s{{0,20}}$|^[^a-z]*$|(?:apt|unit|suite|ste)\b",
    re.IGNORECASE,
)
"""What makes an address of the rest of a line behind a name: "ANN SPECIMEN 2 GO CATERING" has none."""
_FIRST = lazily(
    rf"\s*(?:[0-9]{{1,6}}[a-z]?\s.{{1,60}}?\b(?:{_STREETS}|way|court|ct|plaza|broadway)\.?,?(?:\s(?:apt|unit|suite|ste|lot|no|#).{{0,12}})?"
    rf"|p\.?\s?o\.?\s?box\b.{{0,20}}|[^0-9]{{0,60}}\b[a-z]{{2}}\.?,?\s[0-9]{{5}}(?:-[0-9]{{4}})?)\s*$",
    re.IGNORECASE | re.MULTILINE,
)
"""A first line that is nothing but an address."""


def names(text: str) -> str:
    """*text* with its addresses blanked out, every character keeping its place.

    The first line names somebody whatever it looks like ("84 SPECIMEN COMPANY").
    """
    kept = [" "] * len(text)
    for start, stop, end in _lines(text):
        kept[start:stop] = text[start:stop]
        kept[end : end + 1] = text[end : end + 1]  # the line break
    return "".join(kept)


def above(text: str) -> list[Span]:
    """What names somebody on each line above the address; nothing where the first line is an address itself."""
    found: list[Span] = []
    for start, stop, end in _lines(text):
        if start == stop or (not found and _FIRST.match(text, start, end)):
            break
        found.append(Span(start, stop))
    return found


def _lines(text: str) -> Iterator[tuple[int, int, int]]:
    """Of each line with something on it: where it starts, where what names somebody stops, and where it ends."""
    lines = list(_LINE.finditer(text))
    streets = [index for index, line in enumerate(lines) if index and _STREET.match(line[0])]
    last_street = streets[-1] if streets else 0
    below = False
    for index, line in enumerate(lines):
        start, end = line.span()
        if index and (below := _is_address(line[0], below, index < last_street)):
            yield start, start, end
            continue
        cut = _NAME_ENDS.search(line[0])
        follows = cut and _AFTER_NAME.search(line[0][cut.end() :][:_TAIL])
        yield start, start + cut.start() if cut and follows else end, end


def _is_address(line: str, below: bool, street_follows: bool) -> bool:
    """Whether a line below the first is an address; *below* another one, less is asked of it."""
    tail = line[-_TAIL:]
    return bool(
        _STREET.match(line)
        or _ENDS_IN_CODE.search(tail)
        or _ADDRESS_BELOW.search(tail)
        or (_ENDS_IN_LETTERS.search(tail) and (below or not street_follows))
        or (below and _ENDS_IN_STATE.search(tail))
    )
