"""Lines of print that may bear on payment and that nothing explains: a clerk reads them.

A line is understood where a phrase of the table or a printed limit stands in it, and harmless where it is a form's own
print or a notice of security features, all of whose words are such notices' words. What is left, and holds a word that
may bear on payment, is asked about. What the customer wrote about the purpose bears on payment only where it restricts.

>>> unsettled("SECURITY FEATURES ON BACK\\nVOID IF ALTERED\\nVOID AFTER 90 DAYS\\nMEMO rent loan")
()
>>> [found.word for found in unsettled("NOT GOOD UNLESS THE DEED IS SIGNED")]
['NOT']
>>> [found.word for found in unsettled("loan, not good yet", memo=True)]
['not']
"""

import re
from collections import defaultdict
from functools import cache, lru_cache
from typing import NamedTuple

from checkface import tables
from checkface.digits import discreet
from checkface.instruments.limits import legend_limits, not_before
from checkface.instruments.phrases import PURPOSE, breaks, choices, compare, read, scan
from checkface.instruments.tokens import Token
from checkface.patterns import lazily
from checkface.span import Span

LONGEST = 4000
"""Characters of print that are looked at; no check has room for more."""


class Unsettled(NamedTuple):
    """A line nobody understood: where it stands, and the first word of it that may bear on payment, as printed."""

    span: Span
    word: str

    def __repr__(self) -> str:
        return discreet(self)


class _Words(NamedTuple):
    """The words of ``[print]``, each as it is compared; those that any word may begin with stand apart."""

    bearing: frozenset[str]
    begins: tuple[str, ...]
    purpose: frozenset[str]
    purpose_begins: tuple[str, ...]
    feature: frozenset[str]
    notice: frozenset[str]
    limit: frozenset[str]


_TOWN = lazily(
    r"^[A-Z][A-Za-z.]{1,20}(?: [A-Z][A-Za-z.]{1,20})?,? [A-Z]{2},? [0-9]{5}(?:-[0-9]{4})?$",
    re.IGNORECASE | re.MULTILINE,
)
"""A bank's town in its address: "CASH, AR 71639"."""
_CONDITIONS = frozenset({"if", "uniess", "without", "when"})
"""What a notice goes on with below its first word, spelled as words are compared."""
_WRAPPED = 3
"""Words of a line that may go on with the notice beside it, or with the limit below it."""


def unsettled(lines: str, memo: bool = False) -> tuple[Unsettled, ...]:
    """The lines to be asked about, in their order; *memo* says that all of it is what the customer wrote.

    Never raises; 4,000 characters are looked at. What printers print on all their checks is remembered.
    """
    if not lines:
        return ()
    text = lines[:LONGEST]
    return _unsettled(text, memo) if memo else _printed(text)


@lru_cache(1024)
def _printed(text: str) -> tuple[Unsettled, ...]:
    return _unsettled(text, memo=False)


def _unsettled(text: str, memo: bool) -> tuple[Unsettled, ...]:
    tokens = read(text)
    known = _words()
    if not any(_bears(token.word, known.bearing, known.begins) for token in tokens):
        return ()
    by_line: defaultdict[int, list[Token]] = defaultdict(list)
    for token in tokens:
        by_line[token.line].append(token)
    purposes = {*by_line} if memo else {breaks(text, match.start()) for match in PURPOSE.finditer(text)}
    explained = _explained(text, memo)
    limits = {breaks(text, limit.span.start) for limit in (*legend_limits(text), *not_before(text))}
    towns = {breaks(text, match.start()) for match in _TOWN.finditer(text)}
    notices = towns | choices(text) | {number for number, line in by_line.items() if _is_notice(line, known)}
    found: list[Unsettled] = []
    for number, line in by_line.items():
        bearing = (known.purpose, known.purpose_begins) if number in purposes else (known.bearing, known.begins)
        left = [token for token in line if _bears(token.word, *bearing) and token.start not in explained]
        if number in limits or (number + 1 in limits and len(line) <= _WRAPPED):
            left = [token for token in left if token.word not in known.limit]
        if left and number not in notices and not _goes_on(number, by_line, notices, known):
            span = Span(line[0].start, line[-1].end)
            found.append(Unsettled(span, text[left[0].start : left[0].end]))
    return tuple(found)


def _bears(word: str, words: frozenset[str], begins: tuple[str, ...]) -> bool:
    return word in words or word.startswith(begins)


def _explained(text: str, memo: bool) -> set[int]:
    """The characters that a phrase of the table explains."""
    readings = {"memo" if memo else "legends": text}
    hits = scan(readings) + scan(readings, "harmless")
    return {place for hit in hits for place in range(*hit.span)}


def _is_notice(line: list[Token], known: _Words) -> bool:
    """Whether a line is made of nothing but a notice's words."""
    words = {token.word for token in line if not token.word.isdigit()}
    return words <= known.notice and not known.feature.isdisjoint(words)


def _goes_on(number: int, lines: dict[int, list[Token]], notices: set[int], known: _Words) -> bool:
    """Whether a line without a security feature goes on with the notice above or below it."""
    line, below = lines[number], number + 1 in notices
    if not {token.word for token in line if not token.word.isdigit()} <= known.notice:
        return False
    if below and lines[number + 1][0].word in _CONDITIONS:
        return True
    return len(line) >= _WRAPPED and (below or number - 1 in notices)


@cache
def _words() -> _Words:
    rows = tables.load("instrument_phrases").data["print"]

    def whole(key: str) -> frozenset[str]:
        return frozenset(token.word for word in rows[key] if word[-1] != "*" for token in read(word))

    def begins(key: str) -> tuple[str, ...]:
        return tuple(compare(word[:-1]) for word in rows[key] if word[-1] == "*")

    feature = whole("feature")
    return _Words(
        whole("bearing"),
        begins("bearing"),
        whole("purpose"),
        begins("purpose"),
        feature,
        feature | whole("filler"),
        whole("limit"),
    )
