"""Whether the drawee's line names a bank or credit union, and nobody else who might owe the amount.

A bank is what UCC 4-105(1) and 12 CFR 229.2(e) call one. Credit unions' share drafts are payable through a bank and
the credit union's own all the same; what funds, brokers and insurers make payable through a bank is theirs.

>>> describe("First Specimen Bank\\nAnytown PA", "primary").verdict
'bank'
>>> describe("Specimen Credit Union\\nPayable through Notional Bank", "thrift").verdict
'bank'
>>> describe("SPECIMEN MONEY FUND\\nPAYABLE THROUGH NOTIONAL BANK", "primary")
Drawee(verdict='other', span=Span(start=9, end=19), why='"MONEY FUND" stands beside the bank', union=False)
>>> describe("SPECIMEN FINANCIAL", "primary").verdict
'unclear'
"""

import re
from functools import lru_cache
from typing import Literal, NamedTuple

from checkface.digits import discreet
from checkface.instruments.address import IN_STATES, names
from checkface.instruments.kinds import Kind, Weight
from checkface.instruments.phrases import Hit, scan
from checkface.patterns import lazily
from checkface.span import Span

LONGEST = 600
"""Characters of a drawee's lines that are looked at; no check has room for more."""
_DOMESTIC = frozenset({"primary", "thrift"})
_BANKS_OWN = frozenset({Kind.CASHIERS_CHECK, Kind.TELLERS_CHECK, Kind.CERTIFIED_CHECK, Kind.FOREIGN_CURRENCY_CHECK})
_LETTERS = lazily(r"[^\W\d_]{2}")
_UNION = lazily(r"union|c\.?u\b|share", re.IGNORECASE)
_ENDS_IN_BANK = lazily(r"[^\W\d_]{2,}(?:bank|banc|banco|bancorp|fcu|cu)\b", re.IGNORECASE)
"""A bank's name in one word."""
_APART = lazily(r"[\n\r,;:/]|\b(?:by|at|through|thru|via)\b", re.IGNORECASE)
_OF = lazily(r"\s(?:of|de)\b", re.IGNORECASE)

Verdict = Literal["bank", "unclear", "other", "none"]


class Drawee(NamedTuple):
    """What the drawee's lines say. ``span`` is what says so, ``why`` a short phrase that fits into a sentence.

    ``bank``: a bank or credit union, and nothing names another obligor. ``unclear``: somebody else may owe it.
    ``other``: somebody else does. ``none``: nobody is named. ``union``: it is a bank, and a credit union.
    """

    verdict: Verdict
    span: Span
    why: str
    union: bool = False

    def __repr__(self) -> str:
        return discreet(self)


def describe(text: str, series: str | None) -> Drawee:
    """Whom the lines name, beside the ``series`` of the routing number. Never raises; 600 characters are looked at.

    What a bank prints on all its checks is worked out once and remembered.
    """
    return _describe(text[:LONGEST], series)


@lru_cache(4096)
def _describe(text: str, series: str | None) -> Drawee:
    if not _LETTERS.search(text):
        return Drawee("none", Span(0, len(text)), "no bank is named")
    hits = scan({"drawee": names(text)}, "drawee")
    banks = [hit.span for hit in hits if hit.phrase.family == "depository"]
    banks += [Span(*match.span()) for match in _ENDS_IN_BANK.finditer(text)]
    for hit in (*hits, *scan({"drawee": text})):
        if _owes(hit) and not _own_name(text, hit.span, banks):
            beside = "stands beside the bank" if banks else "is no bank"
            return Drawee("other", hit.span, f'"{_words(text, hit.span)}" {beside}')
    if not banks:
        return Drawee("unclear", Span(0, len(text)), "no word of a bank is in it")
    through = [hit.span for hit in hits if hit.phrase.family == "payable-through"]
    for span in through:
        if _of_a_bank(text, span, banks):
            continue
        if not any(_UNION.search(text, *bank) and not _follows(text, bank, through) for bank in banks):
            return Drawee("unclear", span, f'"{_words(text, span)}" names a second bank')
    for hit in scan({"drawee": text}, "drawee"):
        if hit.phrase.family == "abroad" and not IN_STATES.search(_line_of(text, hit.span)):
            verdict: Verdict = "unclear" if series in _DOMESTIC else "other"
            return Drawee(verdict, hit.span, f'"{_words(text, hit.span)}" lies abroad')
    for hit in hits:
        if hit.phrase.family == "obligor-maybe" and not any(_same_line(text, hit.span, bank) for bank in banks):
            return Drawee("unclear", hit.span, f'"{_words(text, hit.span)}" may be somebody else\'s')
    if series is not None and series not in _DOMESTIC:
        return Drawee("unclear", banks[0], "the routing number is not a bank's own")
    union = any(_UNION.search(text, *bank) for bank in banks)
    return Drawee("bank", banks[0], f'"{_words(text, banks[0])}" names a bank', union)


def _owes(hit: Hit) -> bool:
    """Whether a phrase of the table names somebody else who owes the amount."""
    phrase = hit.phrase
    if phrase.family == "obligor":
        return True
    return bool(phrase.kinds) and hit.weight is not Weight.HINT and _BANKS_OWN.isdisjoint(phrase.kinds)


def _own_name(text: str, sign: Span, banks: list[Span]) -> bool:
    """Whether a sign is the beginning of a bank's own name ("Teachers Insurance Credit Union")."""
    return any(
        (bank.start >= sign.end and not _APART.search(text, sign.end, bank.start) and not _OF.match(text, bank.end))
        or (bank.start <= sign.start and sign.end <= bank.end)
        for bank in banks
    )


def _of_a_bank(text: str, sign: Span, banks: list[Span]) -> bool:
    """Whether one bank is a division of another."""
    ahead, behind = (any(bank.end <= sign.start for bank in banks), any(bank.start >= sign.end for bank in banks))
    return _words(text, sign).lower() == "division of" and ahead and behind


def _follows(text: str, bank: Span, through: list[Span]) -> bool:
    return any(span.end <= bank.start and _same_line(text, span, bank) for span in through)


def _same_line(text: str, one: Span, other: Span) -> bool:
    return "\n" not in text[min(one.end, other.end) : max(one.start, other.start)]


def _line_of(text: str, span: Span) -> str:
    end = text.find("\n", span.end)
    return text[text.rfind("\n", 0, span.start) + 1 : len(text) if end < 0 else end]


def _words(text: str, span: Span) -> str:
    return " ".join(span.of(text).split())
