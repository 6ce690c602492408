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
from checkface.instruments.ordinary import words_of_names
from checkface.instruments.phrases import PURPOSE, breaks, choices, compare, read, scan, telling_of
from checkface.instruments.tokens import MISREAD_FROM, Token, outline
from checkface.patterns import lazily
from checkface.span import Span

LONGEST = 4000
"""Characters of print that are looked at; no check has room for more."""


class Unsettled(NamedTuple):
    """A line nobody understood: where it stands, and the first word of it that may bear on payment, as printed.

    ``paper`` is whether its words only tell of other paper than a customer's check, and set no limit.
    """

    span: Span
    word: str
    paper: bool = False

    def __repr__(self) -> str:
        return discreet(self)


class _Words(NamedTuple):
    """The words of ``[print]``, each as it is compared; those that any word may begin with stand apart."""

    bearing: frozenset[str]
    begins: tuple[str, ...]
    paper: frozenset[str]
    paper_begins: tuple[str, ...]
    heads: frozenset[str]
    purpose: frozenset[str]
    purpose_begins: tuple[str, ...]
    feature: frozenset[str]
    notice: frozenset[str]
    limit: frozenset[str]
    outlines: frozenset[str]
    telling: frozenset[str]

    def bears(self, token: Token) -> bool:
        """Whether a word, or the known one it is a misreading of, may bear on payment."""
        return (
            token.word in self.bearing
            or token.word.startswith(self.begins)
            or self.tells(token)
            or self.misread(token.word)
        )

    def tells(self, token: Token) -> bool:
        """Whether a word tells of other paper and sets no limit."""
        return token.word in self.paper or token.word.startswith(self.paper_begins)

    def heads_line(self, token: Token, text: str) -> bool:
        """Whether a word, as it is printed, is the noun of a title where it ends its line."""
        return text[token.start : token.end].lower() in self.heads

    def restricts(self, token: Token) -> bool:
        """Whether a word in what the customer wrote about the purpose may restrict payment."""
        return token.word in self.purpose or token.word.startswith(self.purpose_begins)

    def misread(self, word: str) -> bool:
        """Whether a word that no table has shows the outline of one that tells of a kind or bears on payment."""
        if len(word) < MISREAD_FROM or not word.isalpha() or word in self.notice or word in self.telling:
            return False
        if word in words_of_names().thing:
            return False  # a word of its own
        return outline(word) in self.outlines


_TOWN = lazily(
    r"^[A-Z][A-Za-z.]{1,20}(?: [A-Z][A-Za-z.]{1,20})?,? [A-Z]{2},? [0-9]{5}(?:-[0-9]{4})?$",
    re.IGNORECASE | re.MULTILINE,
)
"""A bank's town in its address: "CASH, AR 71639"."""
_THROUGH = lazily(r"\b(?:payable|collectible)\s+(?:if\s+desired\s+)?(?:through|thru|at|by|via)\b", re.IGNORECASE)
"""UCC 4-106: who presents a check that another pays."""
_CONDITIONS = frozenset({"if", "uniess", "without", "when"})
"""What a notice goes on with below its first word, spelled as words are compared."""
_CHECKING = "checking"
_LISTED = frozenset(",:;")
"""Signs at the end of a notice's line that say that it goes on."""
_WRAPPED = 3
"""Words of a line that may go on with the notice beside it, or with the limit below it."""


def unsettled(lines: str, memo: bool = False, through: bool = False) -> tuple[Unsettled, ...]:
    """The lines to be asked about, in their order; *memo* says that all of it is what the customer wrote, *through*
    that the drawee is known to be one whose checks a bank pays, as a credit union.

    Never raises; 4,000 characters are looked at. What printers print on all their checks is remembered.
    """
    if not lines:
        return ()
    text = lines[:LONGEST]
    return _unsettled(text, memo, through) if memo else _printed(text, through)


@lru_cache(1024)
def _printed(text: str, through: bool) -> tuple[Unsettled, ...]:
    return _unsettled(text, False, through)


def _unsettled(text: str, memo: bool, through: bool) -> tuple[Unsettled, ...]:
    text = text.replace("\r\n", " \n")
    tokens = read(text)
    known = _words()
    if not any(known.bears(token) or token.word in known.telling or known.heads_line(token, text) for token in tokens):
        return ()
    by_line: defaultdict[int, list[Token]] = defaultdict(list)
    for token in tokens:
        by_line[token.line].append(token)
    purposes = {*by_line} if memo else {breaks(text, match.start()) for match in PURPOSE.finditer(text)}
    explained, asked = _explained(text, memo)
    if through:
        explained.update(place for match in _THROUGH.finditer(text) for place in range(*match.span()))
    limits = {breaks(text, limit.span.start) for limit in (*legend_limits(text), *not_before(text))}
    towns = {breaks(text, match.start()) for match in _TOWN.finditer(text)}
    notices = towns | choices(text)
    if not memo:  # a hand writes none
        notices |= {number for number, line in by_line.items() if _is_notice(line, known)}
    found: list[Unsettled] = []
    for number, line in by_line.items():
        bears = known.restricts if number in purposes else known.bears
        left = [token for token in line if token.start in asked or (bears(token) and token.start not in explained)]
        if number not in purposes and known.heads_line(line[-1], text) and line[-1].start not in explained:
            left = left or line[-1:]
        if number in limits or (number + 1 in limits and len(line) <= _WRAPPED):
            left = [token for token in left if token.word not in known.limit]
        if left and number not in notices and not _goes_on(number, by_line, notices, known, text):
            span = Span(line[0].start, line[-1].end)
            paper = all(token.start in asked or known.tells(token) or known.heads_line(token, text) for token in left)
            if paper and any(token.word == _CHECKING for token in line):
                continue  # the name of a sort of account: Tax Checking
            found.append(Unsettled(span, text[left[0].start : left[0].end], paper))
    return tuple(found)


def _explained(text: str, memo: bool) -> tuple[set[int], set[int]]:
    """The characters that a phrase of the table explains, and those of phrases that a clerk reads all the same."""
    readings = {"memo" if memo else "legends": text}
    explained: set[int] = set()
    asked: set[int] = set()
    for hit in scan(readings) + scan(readings, "harmless"):
        (asked if hit.phrase.family == "asked" else explained).update(range(*hit.span))
    return explained, asked


def _is_notice(line: list[Token], known: _Words) -> bool:
    """Whether a line is made of nothing but a notice's words; one word alone is a stamp."""
    words = {token.word for token in line if not token.word.isdigit()}
    return len(line) > 1 and words <= known.notice and not known.feature.isdisjoint(words)


def _goes_on(number: int, lines: dict[int, list[Token]], notices: set[int], known: _Words, text: str) -> bool:
    """Whether a line without a security feature goes on with the notice above or below it."""
    line, below = lines[number], number + 1 in notices
    if not {token.word for token in line if not token.word.isdigit()} <= known.notice:
        return False
    if below and lines[number + 1][0].word in _CONDITIONS:
        return True
    above = number - 1 in notices
    listed = above and not _LISTED.isdisjoint(text[lines[number - 1][-1].end : line[0].start])
    return listed or (len(line) >= _WRAPPED and (below or above))


@cache
def _words() -> _Words:
    rows = tables.load("instrument_phrases").data["print"]

    def whole(key: str) -> frozenset[str]:
        return frozenset(token.word for word in rows[key] if word[-1] != "*" for token in read(word))

    def begins(key: str) -> tuple[str, ...]:
        return tuple(compare(word[:-1]) for word in rows[key] if word[-1] == "*")

    feature, bearing, paper, telling = whole("feature"), whole("bearing"), whole("paper"), telling_of("legends")
    return _Words(
        bearing,
        begins("bearing"),
        paper,
        begins("paper"),
        frozenset(rows["heads"]),
        whole("purpose"),
        begins("purpose"),
        feature,
        feature | whole("filler"),
        whole("limit"),
        frozenset(outline(word) for word in bearing | paper | telling if len(word) >= MISREAD_FROM and word.isalpha()),
        telling,
    )
