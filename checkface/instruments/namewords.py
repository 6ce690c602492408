"""The words of a shop's name: forms (The, Inc) left out, usual abbreviations written out, words of the trade known.

Three lists, common practice: what a store that sells food calls itself beside its name, the forms of business, and
ways of writing one word. ``trade_word`` gives "" for a word that tells one shop from another.

>>> [word.text for word in name_words("The Quillfeather Mkt., Inc.", Span(0, 27))]
['quillfeather', 'market']
>>> trade_word("grocries"), trade_word("quill")
('grocery', '')
"""

from functools import lru_cache
from typing import NamedTuple

from checkface.instruments.misspelling import Alike, alike, one_added, singular
from checkface.instruments.tokens import Token, tokenise
from checkface.span import Span

_MOST_WORDS = 24
_FORMS = frozenset({
    "the", "inc", "incorporated", "llc", "llp", "lp", "ltd", "limited", "co", "company", "corp", "corporation",
    "pllc", "plc", "to",
})  # fmt: skip
_SHORT = {
    "mkt": "market", "mkts": "markets", "gro": "grocery", "groc": "grocery", "pharm": "pharmacy", "rx": "pharmacy",
    "supermkt": "supermarket", "whse": "warehouse", "ctr": "center", "centre": "center", "shoppe": "shop",
    "mrkt": "market", "fds": "foods", "grocer": "grocery", "grocers": "grocery", "saint": "st", "street": "st",
    "avenue": "ave", "road": "rd", "mount": "mt", "fort": "ft", "bros": "brothers", "intl": "international",
    "natl": "national", "number": "no", "and": "&", "n": "&", "one": "1", "two": "2", "three": "3", "four": "4",
    "five": "5", "six": "6", "seven": "7", "eight": "8", "nine": "9", "ten": "10", "eleven": "11", "twelve": "12",
    "first": "1st", "second": "2nd", "third": "3rd",
}  # fmt: skip
"""Ways of writing one word."""
_TRADE = frozenset({
    "grocery", "groceries", "grocer", "grocers", "market", "markets", "marketplace", "mart", "minimart", "food",
    "foods", "store", "stores", "shop", "shops", "super", "supermarket", "supermarkets", "superstore",
    "supercenter", "convenience", "general", "pharmacy", "pharmacies", "drug", "drugs", "drugstore", "deli",
    "delis", "delicatessen", "bakery", "bakeries", "butcher", "butchers", "meat", "meats", "produce", "provisions",
    "liquor", "liquors", "wine", "wines", "beer", "spirits", "fuel", "gas", "floral", "express", "warehouse",
    "center", "outlet", "mercado", "supermercado", "tienda", "bodega", "abarrotes", "carniceria", "panaderia",
    "farmacia",
})  # fmt: skip
"""What a store that sells food calls itself beside its name."""
_MISSPELLED = ("grocery", "groceries", "market", "supermarket", "pharmacy")
"""Words of the trade so common that a letter left out or added in them gives no other name."""


class Word(NamedTuple):
    """One word in small letters, figures as they were read, and where it stands in the text."""

    text: str
    start: int
    end: int


def name_words(text: str, span: Span) -> list[Word]:
    """The words of a name without forms, a figure inside a word as it was read."""
    part = span.of(text)
    found: list[Word] = []
    for token in tokenise(part)[:_MOST_WORDS]:
        word = _as_read(token, part)
        word = _SHORT.get(word, word)
        word = word if word in _TRADE else trade_word(word) or word  # a slip in a word of the trade tells nothing
        if word not in _FORMS and (found or word != "&"):
            found.append(Word(word, span.start + token.start, span.start + token.end))
    return found[:-1] if found and found[-1].text == "&" else found  # Example & Co.


def _as_read(token: Token, text: str) -> str:
    """The token's word, figures in it kept; a small l among capitals may be an I, as a 1 may."""
    raw = text[token.start : token.end]
    if not raw.isascii() or not raw.isalnum():
        return token.word
    if "l" in raw and raw.replace("l", "").isupper():
        raw = raw.replace("l", "1")
    return raw.lower()


@lru_cache(maxsize=4096)
def trade_word(word: str) -> str:
    """The word of the trade that *word* is, in the singular; empty where it is none."""
    if word in _TRADE:
        return singular(word)
    if len(word) >= 5:
        for known in _MISSPELLED:
            if alike(word, known) <= Alike.NEAR or (word[0] == known[0] and one_added(word, known)):
                return singular(known)
    return ""
