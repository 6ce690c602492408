"""Whether a word written by hand or read by a machine is a known word misspelled, or another word.

A slip keeps the sound (``Quilfether`` for ``Quillfeather``), swaps two vowels or two consonants, or is a figure that a
machine read for a letter. A vowel and a consonant swapped may give another name (Christian, Christina), as every slip
in a short word may (Miler, Miller): these are only near. A letter replaced by one that sounds otherwise makes another
name, however long the word: Walker and Walter, Hillcrest and Millcrest.
Common practice; the sounds are those of American English spelling, checked by hand.

>>> alike("quilfether", "quillfeather"), alike("miler", "miller"), alike("walter", "walker")
(<Alike.SLIP: 2>, <Alike.NEAR: 3>, <Alike.OTHER: 4>)
>>> alike("qu1llfeather", "quillfeather"), alike("hills", "hill")
(<Alike.EXACT: 0>, <Alike.PLURAL: 1>)
"""

from enum import IntEnum
from functools import lru_cache

from checkface.patterns import lazily

SURE = 7
"""Letters of the longer spelling from which a word that sounds the same is the same word."""
SHORTEST = 4
"""Letters below which any change makes another word."""
LONG = 8
"""Letters of the longer spelling from which one that was left out or added leaves the word near."""
_WIDEST = 60
"""Letters; longer words are compared letter by letter only."""
_VOWELS = frozenset("aeiouy")
_READ_AS = {"0": "odq", "1": "il", "2": "z", "3": "e", "4": "a", "5": "s", "6": "gb", "7": "t", "8": "b", "9": "gq"}
"""Letters that a machine reads as the figure."""
_SOUNDS = tuple(
    (lazily(spelled), sound)
    for spelled, sound in (
        ("^mc(?!h)", "mac"),
        ("ph", "f"),
        ("ght", "t"),
        ("(?<=[wr])h", ""),
        ("ch", "\u010d"),
        ("ck|c(?![eiy])", "k"),
        ("c", "s"),
        ("\u010d", "ch"),
        ("qu", "kw"),
        ("x", "ks"),
        ("(?<=.)z", "s"),
        (r"([a-z])\1", r"\1"),
        ("(?<=..)(?:ie|e?y|i)(?=s?$)", "i"),
        ("(?<=.)(?:ea|ei|ie|eo)", "e"),
        ("(?<=.)(?:ai|ay)", "a"),
        ("(?<=.)(?:oa|oe)", "o"),
        ("aw", "au"),
        ("ow", "ou"),
        ("(?<=.)y", "i"),
        ("(?<=.[^aeiou])(?:[eoau]r|re)(?=s?$)", "r"),
        ("(?<=.[^aeiou])(?:[ea]l|le)(?=s?$)", "l"),
        ("(?<=.[^aeiou])e(?=s?$)", ""),
    )
)
"""Spellings of one sound, in the order in which they are rewritten; a first letter stays what it is."""


class Alike(IntEnum):
    """How near a written word is to a known one; the smaller the nearer."""

    EXACT = 0
    PLURAL = 1
    SLIP = 2
    NEAR = 3
    OTHER = 4


@lru_cache(maxsize=4096)
def alike(written: str, known: str) -> Alike:
    """How near *written* (small letters, figures where a machine read some) is to *known* (small letters)."""
    if written == known or _misread(written, known):
        return Alike.EXACT
    if not (written.isalpha() and known.isalpha()):
        return Alike.OTHER
    short, long = sorted((singular(written), singular(known)), key=len)
    if short == long:
        return Alike.PLURAL
    if short[0] != long[0] or not SHORTEST <= len(short) <= len(long) <= _WIDEST:
        return Alike.OTHER
    ours, theirs = _sound(short), _sound(long)
    swapped = _swapped(short, long)
    if (ours == theirs and len(long) - len(short) <= 2) or swapped:
        sure = len(long) >= SURE and (ours == theirs or len(_VOWELS.intersection(swapped)) != 1)
        return Alike.SLIP if sure else Alike.NEAR
    if len(long) >= LONG and (_swapped(ours, theirs) or one_added(ours, theirs) or one_added(short, long)):
        return Alike.NEAR
    return Alike.OTHER


def singular(word: str) -> str:
    """*word* without the ending of a plural or of an owner."""
    if word.endswith("ies") and len(word) > SHORTEST:
        return f"{word[:-3]}y"
    return word[:-1] if len(word) > 2 and word.endswith("s") and not word.endswith("ss") else word


def one_letter(written: str, known: str) -> bool:
    """Whether the words differ by one letter, replaced, left out or added."""
    if len(written) != len(known):
        return one_added(written, known)
    return sum(a != b for a, b in zip(written, known, strict=True)) == 1


def one_added(one: str, other: str) -> bool:
    """Whether one word is the other with one letter more."""
    short, long = sorted((one, other), key=len)
    if len(long) - len(short) != 1:
        return False
    at = next((place for place, (a, b) in enumerate(zip(short, long, strict=False)) if a != b), len(short))
    return short[at:] == long[at + 1 :]


def _swapped(one: str, other: str) -> str:
    """The two neighboring letters, neither of them the first, that stand the other way round; else empty."""
    if len(one) != len(other):
        return ""
    places = [place for place, (a, b) in enumerate(zip(one, other, strict=True)) if a != b]
    if len(places) != 2 or places[0] == 0 or places[1] != places[0] + 1:
        return ""
    pair = one[places[0] : places[1] + 1]
    return pair if pair[::-1] == other[places[0] : places[1] + 1] else ""


def _misread(written: str, known: str) -> bool:
    """Whether every figure among the letters of *written* can have been read for the letter of *known*."""
    if len(written) != len(known) or written.isdigit() or written.isalpha():
        return False
    return all(a == b or b in _READ_AS.get(a, "") for a, b in zip(written, known, strict=True))


@lru_cache(maxsize=4096)
def _sound(word: str) -> str:
    for pattern, sound in _SOUNDS:
        word = pattern.sub(sound, word)
    return word
