"""Wording that may be drawn: the words of the rule book's own phrases, of amounts and of dates, and no others.

A word nobody here knows may be somebody's name. It becomes a row of z, as long as it was, so that what a finding
points at still stands where it stood (a row of x would say "no cents"); a long number becomes zeros. A word that is
misspelled by a letter or two stays: misspelled amounts and months are what a lesson is about.

>>> words("MONEY ORDER for Somebody Real")
'MONEY ORDER for zzzzzzzz zzzz'
>>> words("Fourty-five and 10/100"), words("call 555-867-5309")
('Fourty-five and 10/100', 'call 000-000-0000')
"""

from __future__ import annotations

import string
from functools import cache, lru_cache

from checkface import tables
from checkface.patterns import lazily

#: Most characters of one reading that are drawn, and most lines.
LONGEST, LINES = 160, 6
_WORD = lazily(r"[^\W\d_]+(?:['\u2019][^\W\d_]+)*")
_LONG = lazily(r"(?<![$\d])\d(?:[ .()-]{0,3}\d){6,}|\d{5,}")
_DIGIT = lazily(r"\d")
_PRINTED = frozenset(
    string.ascii_letters
    + string.digits
    + string.punctuation
    + " \n\u2019\u2013\u2014\u00bd\u00bc\u00be\u00a3\u20ac\u00a5\u20b9"
)
_COMMON = """
a an and any at be been before below by call check cheque date day days deposit dollar dollars cent cents even exactly
expires for from good if in is it month months no not of on only or order over pay payable the this to under
until up valid void after account amount amounts within week weeks year years xx hundredths zero one two three four
five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen twenty thirty
forty fifty sixty seventy eighty ninety hundred thousand million january february march april may june july august
september october november december jan feb mar apr jun jul aug sep sept oct nov dec monday tuesday wednesday thursday
friday saturday sunday mon tue wed thu fri sat sun st nd rd th number id card drivers license state passport military
social security library permanent resident tribal
"""


@cache
def _known() -> frozenset[str]:
    """The words that are drawn: those above, and those of phrases that count among the legends."""
    phrases = tables.load("instrument_phrases").data["phrase"]
    variants = [text for row in phrases if "legends" in row["readings"] for text in row["variants"]]
    return frozenset(_COMMON.split()) | {_bare(found) for text in variants for found in _WORD.findall(text)}


def _bare(word: str) -> str:
    return word.casefold().replace("'", "").replace("\u2019", "")


@lru_cache(maxsize=4096)
def _is_known(word: str) -> bool:
    from difflib import get_close_matches

    return (
        len(word) < 2
        or not word.strip("z")
        or word in _known()
        or bool(len(word) > 3 and get_close_matches(word, _known(), 1, 0.79))
    )


def plain(text: str) -> str:
    """*text* in characters that every font has, cut to what fits on a face."""
    shown = "".join(character if character in _PRINTED else " " for character in text[:LONGEST])
    return "\n".join(shown.split("\n")[:LINES])


def words(text: str) -> str:
    """*text* with unknown words as rows of z and long numbers as zeros."""
    known = _WORD.sub(lambda found: found[0] if _is_known(_bare(found[0])) else "z" * len(found[0]), plain(text))
    return _LONG.sub(lambda found: _DIGIT.sub("0", found[0]), known)
