"""Wording that may be drawn: phrases of the rule book, our own prints, printed limits, amounts and dates; no others.

A word that is in none of these may be somebody's name. It becomes a row of z, as long as it was, so that what a finding
points at still stands where it stood (a row of x would say "no cents"), and digits become zeros. In what is printed or
stamped only whole phrases keep their words: "bank" and "teller" are names too. In an amount or a date, words misspelled
by a letter or two stay, since that is what a lesson is about.

>>> printed("MONEY ORDER for Steven Banks 4560")
'MONEY ORDER zzz zzzzzz zzzzz 0000'
>>> printed("VOID AFTER 60 DAYS"), printed("FOR DEPOSIT ONLY acct 4560")
('VOID AFTER 60 DAYS', 'FOR DEPOSIT ONLY zzzz 0000')
>>> written("Fourty-five and 10/100"), written("call 555-867-5309")
('Fourty-five and 10/100', 'zzzz 000-000-0000')
"""

from __future__ import annotations

import string
from collections.abc import Iterator, Mapping
from functools import cache, lru_cache
from typing import Any

from checkface import tables
from checkface.instruments.limits import legend_limits, not_before
from checkface.instruments.phrases import scan
from checkface.kinds import Kind
from checkface.patterns import lazily

#: Most characters of one reading that are drawn, and most lines.
LONGEST, LINES = 160, 6
_WORD = lazily(r"[^\W\d_]+(?:['\u2019][^\W\d_]+)*")
_LONG = lazily(r"(?<![$\d])\d(?:[ .()-]{0,3}\d){6,}|\d{5,}")
_DIGIT = lazily(r"\d")
#: An amount or a day as it is stamped: too short, and too much of its own shape, to be an account.
_STAMPED = lazily(
    r"(?<![\d$/.,-])(?:\$\d{1,3}(?:,\d{3}|\d{0,2})(?:\.\d\d)?"
    r"|(?:0?[1-9]|1[0-2])/(?:0?[1-9]|[12]\d|3[01])/(?:20)?\d\d)(?![\d/-]|[.,]\d)"
)
#: A number of a printed limit that is longer than any limit.
_NO_LIMIT = lazily(r"\d{6,}")
_PRINTED = frozenset(
    string.ascii_letters
    + string.digits
    + string.punctuation
    + " \n\u2019\u2013\u2014\u00bd\u00bc\u00be\u00a3\u20ac\u00a5\u20b9"
)
_AMOUNTS_AND_DATES = """
a an and cent cents check day date days dollar dollars even exactly hundredths month months no not of on only or pay
st nd rd th the this to void week weeks xx year years zero one two three four five six seven eight nine ten eleven
twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen twenty thirty forty fifty sixty seventy eighty
ninety hundred thousand million january february march april may june july august september october november december
jan feb mar apr jun jul aug sep sept oct nov dec monday tuesday wednesday thursday friday saturday sunday mon tue wed
thu fri sat sun
"""
_DOCUMENTS = (
    "card drivers id identification license library military passport permanent resident security social state tribal"
)
#: Words about a printed limit that belong to it.
_OF_LIMITS = """
a above after amount amounts at be before by cash cashed date day days deposited dollar dollars exceed exceeding expires
for from good greater if in issue is it less limit maximum max months month more must negotiable not of on only or over
paid payable presented than the this to under unless until up valid void weeks within year years
"""


def plain(text: str) -> str:
    """*text* in characters that every font has, cut to what fits on a face."""
    shown = "".join(character if character in _PRINTED else " " for character in text[:LONGEST])
    return "\n".join(shown.split("\n")[:LINES])


def written(text: str, *, misspelled: bool = True) -> str:
    """An amount or a date: *text* with words of other things as rows of z and long numbers as zeros."""
    known = _WORD.sub(
        lambda found: found[0] if _is_known(_bare(found[0]), misspelled) else "z" * len(found[0]), plain(text)
    )
    return _LONG.sub(lambda found: _DIGIT.sub("0", found[0]), known)


def document(kind: str) -> str:
    """The kind of a document: *kind* with every word that is not of one as a row of z, and zeros for digits."""
    known = frozenset(_DOCUMENTS.split())
    shown = _WORD.sub(lambda found: found[0] if _bare(found[0]) in known else "z" * len(found[0]), plain(kind))
    return _DIGIT.sub("0", shown)


def printed(text: str) -> str:
    """What is printed or stamped: *text* with everything outside phrases, limits, amounts and dates as z and zeros."""
    shown = plain(text)
    # A phrase may hang on a word beside it that does not stay: until nothing more goes, look again.
    while (fewer := _once(shown)) != shown:
        shown = fewer
    return shown


def _once(text: str) -> str:
    kept = {at for start, end in _kept(text) for at in range(start, end)}
    return "".join(
        character if at in kept else "z" if character.isalpha() else "0" if character.isdigit() else character
        for at, character in enumerate(text)
    )


def _kept(text: str) -> Iterator[tuple[int, int]]:
    """Where *text* stays as it is."""
    for hit in scan({"legends": text}):
        if hit.phrase.family != "bank-name":
            yield from _words_within(text, *hit.span)
    folded = text.casefold()
    for own in _own_prints():
        at = folded.find(own)
        while at >= 0:
            if not text[:at][-1:].isalnum() and not text[at + len(own) :][:1].isalnum():
                yield at, at + len(own)
            at = folded.find(own, at + 1)
    yield from (found.span() for found in _STAMPED.finditer(text))
    limits = [*legend_limits(text), *not_before(text)]
    for limit in limits:
        if not _NO_LIMIT.search(text, *limit.span):
            yield limit.span
    about = frozenset(_OF_LIMITS.split())
    for line in {text.count("\n", 0, limit.span.start) for limit in limits}:
        start = sum(len(words) + 1 for words in text.split("\n")[:line])
        for found in _WORD.finditer(text, start, start + len(text.split("\n")[line])):
            if _bare(found[0]) in about:
                yield found.span()


def _words_within(text: str, start: int, end: int) -> Iterator[tuple[int, int]]:
    """The words of a phrase with the figures misread for their letters, but no number of its own."""
    at = start
    for piece in text[start:end].split(" "):
        if not piece.isdigit():
            yield at, at + len(piece)
        at += len(piece) + 1


@cache
def _own_prints() -> frozenset[str]:
    """What this counter itself prints on paper, what stands on our own papers, and the oldest words of a back."""
    steps = tables.load("handling").data["step"]
    texts = [step["text"] for step in steps if _is_printed(step)]
    parts = {_bare_edges(part) for text in texts for line in text.split("\n") for part in _outside_fields(line)}
    ours = [words for kind in Kind if (made := kind.row.specimen) for words in made.legends]
    ours += tables.load("specimen_papers").data["names"]["prints"]
    return frozenset(
        {part for part in parts if " " in part} | {words.casefold() for words in ours} | {"for deposit only"}
    )


def _is_printed(step: Mapping[str, Any]) -> bool:
    """Whether *step* puts words of its own on the check, rather than asks for something."""
    return step["who"] != "customer" and step["where"].startswith(("front", "back")) and "text" in step


def _outside_fields(line: str) -> Iterator[str]:
    yield from (literal for literal, *_ in string.Formatter().parse(line))


def _bare_edges(part: str) -> str:
    return part.strip(" -/").casefold()


def _bare(word: str) -> str:
    return word.casefold().replace("'", "").replace("\u2019", "")


@lru_cache(maxsize=4096)
def _is_known(word: str, misspelled: bool) -> bool:
    from difflib import get_close_matches

    known = _AMOUNTS_AND_DATES.split()
    return (
        len(word) < 2
        or not word.strip("z")
        or word in known
        or (misspelled and len(word) > 3 and bool(get_close_matches(word, known, 1, 0.79)))
    )
