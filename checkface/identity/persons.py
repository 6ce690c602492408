"""The persons whom the printed lines of a check's drawer or payee name, and in what capacity each stands there.

Digits, telephones, license numbers and addresses are set aside, joint owners are told apart, and of "JANE SAMPLE CUST
FOR ADA SAMPLE UTMA/VA" the first is a custodian and the second a beneficiary. Capacities and their abbreviations are
common practice of account titles; the form of a custodian's follows the Uniform Transfers to Minors Act, section 9.

>>> [" ".join(person.words) for person in persons_in("MR. MICHAEL & JANE SAMPLE\\n2300 WEST BROAD STREET")]
['MICHAEL SAMPLE', 'JANE SAMPLE']
>>> [(person.words[0], person.capacity) for person in persons_in("Jane Sample Cust for Ada Sample UTMA/VA")]
[('JANE', 'custodian'), ('ADA', 'beneficiary')]
>>> list(persons_in("804-555-0100"))
[]
>>> fold("José O’Brien-Núñez")
'JOSE OBRIEN-NUNEZ'
>>> without_suffix(("MICHAEL", "SAMPLE", "2ND"))
(('MICHAEL', 'SAMPLE'), 'II')
"""

import unicodedata
from collections.abc import Callable, Iterator
from typing import NamedTuple

from checkface.patterns import lazily
from checkface.span import Span

from .accounts import ADDRESS, BEGINS, LABELS, NO_PERSON, Part, parts_of
from .places import find_place

_TITLES = frozenset({
    "MR", "MRS", "MS", "MISS", "MX", "DR", "REV", "PROF", "HON", "SIR", "SR", "SRA", "SRTA", "WIFE", "HUSBAND",
    "DRS", "FR", "MSGR", "RABBI", "PVT", "PFC", "CPL", "SGT", "SSG", "SFC", "MSGT", "LT", "CAPT", "CPT", "MAJ",
    "LTC", "COL", "CDR", "CMDR", "ADM",
})  # fmt: skip
_AFTER_NAME = frozenset({
    "MD", "DDS", "DMD", "DVM", "PHD", "EDD", "PSYD", "JD", "MBA", "LCSW", "ESQ", "ESQUIRE", "CPA", "RN", "LPN",
    "RET", "USA", "USN", "USMC", "USAF", "USCG",
})  # fmt: skip
SUFFIXES = {"JR": "JR", "JNR": "JR", "JUNIOR": "JR", "SR": "SR", "SNR": "SR", "SENIOR": "SR"}
SUFFIXES |= {"1ST": "I", "2ND": "II", "3RD": "III", "4TH": "IV", "5TH": "V"}
SUFFIXES |= {numeral: numeral for numeral in ("I", "II", "III", "IV", "V", "VI")}
"""Name suffixes to their plain form."""
_NOT_PLAIN = _TITLES | _AFTER_NAME | NO_PERSON | LABELS
_JOINS = frozenset({"&", "+", ";", "/", "AND", "OR", "AND/OR", "Y/O"})
LONGEST = 2_000
"""Characters of a text in which persons are looked for."""
_MOST_WORDS = 16  # of one name
_MOST_LENT = 2  # words of a family name that another owner shares
_LETTERS_KEPT = str.maketrans(
    {"Ø": "O", "Ł": "L", "Đ": "D", "ẞ": "SS", "Æ": "AE", "Œ": "OE", "Þ": "TH", "Ð": "D", "ı": "I"}
)
_TOKEN = lazily(
    r"^[A-Z]\.(?=[A-Z]\.[ A-Z])|\bAND/OR\b|\bY/O\b|\b[A-Z](?:/[A-Z])+\b"
    r"|\(?[0-9]++(?:[()/.-]++[0-9]++)*+(?![^\W_])|[,&+;/]|[^\s,&+;/()]+",
    2,
)
_OF_ADDRESSES = lazily("[0-9]|BOX|CALLE")
_APOSTROPHES, _HYPHENS, _OTHER_MARKS = lazily("['’`´ʻ.]"), lazily("[‐‑–—]"), lazily("[^A-Z0-9 -]")
_MISREAD_DIGITS = frozenset("012568")


class Person(NamedTuple):
    """One way to read one person.

    ``words`` are the given names and then the family name, of which ``family`` words are known to be the family
    name, 0 where nothing says so. ``number`` counts the persons of the text from 0; ``spans`` are where the words
    stand. ``lent`` is whether the family name may not be theirs, ``couple`` whether only one of a couple has a given
    name ("MR & MRS MICHAEL SAMPLE"), ``aside`` whether the line may as well be part of an address. ``no_person`` are
    words of a firm or a public body.
    """

    words: tuple[str, ...]
    number: int = 0
    capacity: str = ""
    family: int = 0
    lent: bool = False
    couple: bool = False
    aside: bool = False
    no_person: frozenset[str] = frozenset()
    spans: tuple[Span, ...] = ()


class _Word(NamedTuple):
    text: str
    span: Span


class _Piece(NamedTuple):
    """One name of a part of a line: given names first, ``family`` of the words known to be the family name."""

    words: tuple[_Word, ...]
    part: Part
    family: int = 0
    couple: bool = False


def persons_in(text: str, spell: Callable[[str], str] = str.upper) -> Iterator[Person]:
    """The persons *text* names, line by line; where it can be read in two ways, each of them under one number.

    None of more than ``LONGEST`` characters, and no name of more than 16 words.
    """
    if len(text) > LONGEST:
        return
    number, below, first = 0, False, True
    for words in _lines(text, spell):
        plain = " ".join(word.text for word in words)
        if _is_address(plain):
            below = True
            continue
        aside = below or (not first and words[0].text[:1].isdigit())
        first = False
        for group in _groups(words):
            for place, piece in enumerate(group):
                for person in _readings(group, place):
                    yield person._replace(number=number, aside=aside, capacity=piece.part.capacity)
                number += 1


def _lines(text: str, spell: Callable[[str], str]) -> Iterator[list[_Word]]:
    """The words of each line; a line that ends or begins with a joint belongs to its neighbor."""
    held: list[_Word] = []
    start = 0
    for line in text.split("\n"):
        words = [
            _Word(folded, Span(start + found.start(), start + found.end()))
            for found in _TOKEN.finditer(line)
            if (folded := _fold_token(found[0], spell))
        ]
        start += len(line) + 1
        if not words:
            continue
        joined = held and (held[-1].text in _JOINS or words[0].text in _JOINS)
        if held and not joined and not BEGINS.match(" ".join(word.text for word in words[:4])):
            yield held
            held = []
        held += words
    if held:
        yield held


def _fold_token(read: str, spell: Callable[[str], str]) -> str:
    if read.isascii() and read.isalpha():
        return read.upper()
    if read in ",&+;/" or read[0] in "0123456789(":
        return read
    word = spell(read).upper()
    if "/" in word:
        return word if word in _JOINS or word == "C/O" else word.replace("/", "")
    return fold(word).replace(" ", "-")


def _is_address(plain: str) -> bool:
    if not _OF_ADDRESSES.search(plain):
        return False
    if ADDRESS.search(plain):
        return True
    words = plain.replace(",", " ").split()
    digits = words[-1].replace("-", "")
    return (
        len(words) > 1
        and len(digits) in (5, 9)
        and digits.isdigit()
        and (find_place(words[-2]) is not None or find_place(" ".join(words[-3:-1])) is not None)
    )


def _groups(words: list[_Word]) -> Iterator[list[_Piece]]:
    """The pieces of a line that stand in one relation: joint owners, those they act for, beneficiaries."""
    group: list[_Piece] = []
    couple = False
    for part in parts_of([word.text for word in words]):
        held = words[part.start : part.end]
        named, titled = _named(held)
        couple = couple or (titled and not named)
        for piece_words, family in _by_commas(named):
            group.append(_Piece(piece_words, part, family, couple and titled))
        if not part.joined:
            if group:
                yield group
            group, couple = [], False
    if group:
        yield group


def _named(words: list[_Word]) -> tuple[list[_Word], bool]:
    """The words that can be a name, without numbers and what they number; and whether a title stood before them."""
    numbers = [_is_number(word.text) for word in words]
    kept = words
    if any(numbers):
        for place in reversed(range(len(words) - 1)):
            numbers[place] |= numbers[place + 1] and words[place].text in LABELS
        for place in range(1, len(words) - 2):  # the state ahead of a license and its number
            labeled = numbers[place + 1] and words[place + 1].text in LABELS
            numbers[place] |= labeled and len(words[place].text) == 2 and bool(find_place(words[place].text))
        for place in range(2, len(words)):  # the state of a license number
            numbers[place] |= numbers[place - 1] and len(words[place].text) == 2 and bool(find_place(words[place].text))
        kept = [word for word, number in zip(words, numbers, strict=True) if not number]
    first, titled = 0, False
    while first < len(kept) and (kept[first].text in _TITLES or kept[first].text == ","):
        titled = titled or kept[first].text != ","
        first += 1
    return kept[first:], titled


def _is_number(word: str) -> bool:
    if word.isalpha() or not any(map(str.isdigit, word)) or word in SUFFIXES:
        return False
    digits = [char for char in word if char.isdigit()]
    letters = sum(map(str.isalpha, word))
    return letters < 2 * len(digits) or not _MISREAD_DIGITS.issuperset(digits)


def _by_commas(words: list[_Word]) -> Iterator[tuple[tuple[_Word, ...], int]]:
    """The names in one piece: "SAMPLE, MICHAEL" is one with the family name first, and a list of names is several."""
    parts: list[list[_Word]] = [[]]
    for word in words:
        if word.text == ",":
            parts.append([])
        elif word.text not in _AFTER_NAME or not (parts[0] or parts[-1]):
            parts[-1].append(word)
    suffixes = [word for part in parts[1:] if part and all(word.text in SUFFIXES for word in part) for word in part]
    named = [
        part for place, part in enumerate(parts) if part and (place == 0 or any(w.text not in SUFFIXES for w in part))
    ]
    if len(named) == 2 and (len(named[0]) == 1 or len(named[1]) == 1 or named[0][-1].text != named[1][-1].text):
        family = [word for word in named[0] if word.text not in SUFFIXES or len(named[0]) == 1]
        behind = [word for word in named[0] if word not in family]
        yield (*named[1], *family, *behind, *suffixes), len(family)
        if len(named[0]) == 1 or len(named[1]) == 1:
            return
    for place, part in enumerate(named):
        yield (*part, *(suffixes if place == len(named) - 1 else ())), 0


def _readings(group: list[_Piece], place: int) -> Iterator[Person]:
    """The person of one piece, alone and with the family name of another owner: "MICHAEL & JANE SAMPLE"."""
    piece = group[place]
    texts = tuple(word.text for word in piece.words)
    if not 0 < len(texts) <= _MOST_WORDS:
        return
    no_person = NO_PERSON.intersection(word.text for other in group for word in other.words)
    spans = tuple(word.span for word in piece.words)
    unsure = any(other.part.unsure for other in group)
    alone = Person(texts, 0, "", piece.family, unsure, piece.couple, no_person=no_person, spans=spans)
    bare, suffix = without_suffix(texts)
    others = [*group[place + 1 :], *reversed(group[:place])]
    lender = next((other for other in others if len(other.words) > 1), None)
    given_only = len(bare) == 1 or len(bare[-1]) == 1
    if lender is None or piece.family:
        yield alone
        return
    if not given_only:
        yield alone
    lent = [word for word in lender.words if word.text not in SUFFIXES][1:]
    known = lender.family or min(_MOST_LENT, len(lent))
    for size in range(1 if not lender.family else known, known + 1):
        family = lent[len(lent) - size :]
        if family and len(family[0].text) > 1:
            words = (*bare, *(word.text for word in family), *((suffix,) if suffix else ()))
            yield alone._replace(
                words=words, spans=(*spans, *(word.span for word in family)), lent=unsure or not given_only
            )


def without_suffix(words: tuple[str, ...]) -> tuple[tuple[str, ...], str]:
    """The words without a suffix behind the first, and the suffix. A lone I or V amid them is an initial."""
    for place in range(len(words) - 1, 0, -1):
        found = SUFFIXES.get(words[place], "")
        if found and (len(words[place]) > 1 or place == len(words) - 1 > 1):
            return words[:place] + words[place + 1 :], found
    return words, ""


def fold(text: str) -> str:
    """Capitals without accents and apostrophes, hyphens kept, other marks as blanks."""
    text = text.upper()
    words = text.split()
    if text.isascii() and (not words or "".join(words).isalpha()):
        return " ".join(words)  # most names, and most parts of one, are that plain
    if not text.isascii():
        marks = unicodedata.normalize("NFKD", text.translate(_LETTERS_KEPT))
        text = _HYPHENS.sub("-", "".join(mark for mark in marks if not unicodedata.combining(mark)))
    text = _OTHER_MARKS.sub(" ", _APOSTROPHES.sub("", text))
    return "-".join(" ".join(part.split()) for part in text.split("-")).strip("-")


def is_plain(name: str) -> bool:
    """Whether no word of *name*, in capitals, is a title, a mark of an account, or what no person is called."""
    words = name.split()
    return _NOT_PLAIN.isdisjoint(words) and parts_of(words) == [Part(0, len(words))]
