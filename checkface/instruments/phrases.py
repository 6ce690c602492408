"""The phrase table, and where its phrases stand in the readings of a face.

A reading is first asked for one telling word of each phrase, which costs little and settles most readings; only
where one is there are its words laid against the phrases, whole words in a row, the longest first.
"""

import re
import string
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from typing import Any, NamedTuple

from checkface import tables
from checkface.instruments.drawer import names
from checkface.instruments.kinds import Kind, Weight
from checkface.instruments.tokens import Token, tokenise
from checkface.span import Span

_SPACED_OUT = re.compile(r" [a-z] {1,3}[a-z]\b")
_PARTED = "\0"
_LETTER = re.compile("[A-Za-z]")
_LETTERS = string.ascii_lowercase.encode()
_REST = bytes(set(range(1, 256)) - set(_LETTERS + _LETTERS.upper() + b"015$"))
_SPELLED = bytes.maketrans(_LETTERS.upper() + b"015" + _REST, _LETTERS + b"ois" + b" " * len(_REST))
"""Small letters, a figure as the letter it looks like, and blanks."""
_COMMON = frozenset(
    {"a", "an", "and", "of", "the", "to", "in", "no", "not", "on", "by", "is", "it", "for", "or", "this", "your", "you"}
    | {"check", "cheque", "order", "bank", "account", "company", "street", "market", "signature", "required", "service"}
    | {"authorized", "dollars", "united", "states", "department", "payable", "first", "school", "same", "way", "use"}
)
"""Words too usual on a check to tell anything."""


class Phrase(NamedTuple):
    """One phrase of the table; see the head of ``instrument_phrases.toml``."""

    id: str
    kinds: tuple[Kind, ...]
    family: str
    weight: Weight
    readings: frozenset[str]
    hints: frozenset[str]
    whole: bool
    at_end: bool
    unless_next: Mapping[str, tuple[tuple[str, ...], ...]]
    unless_before: frozenset[str]
    unless: frozenset[str]
    source: str


class Hit(NamedTuple):
    """A phrase found, with the weight it has in that reading."""

    phrase: Phrase
    weight: Weight
    reading: str
    span: Span


class _Index(NamedTuple):
    """Telling words by reading, and phrases by their first word, the longest first."""

    telling: Mapping[str, frozenset[str]]
    by_first: Mapping[str, list[tuple[tuple[str, ...], Phrase]]]


def scan(wording: Mapping[str, str]) -> list[Hit]:
    """The phrases of the table that stand in the readings of a face and count there, in their order."""
    index = _index()
    hits: list[Hit] = []
    for reading in _worth_a_look(wording, index.telling):
        text = wording[reading]
        hits += _hits(reading, tokenise(names(text) if reading == "drawer" else text), index.by_first)
    return hits


def _worth_a_look(wording: Mapping[str, str], telling: Mapping[str, frozenset[str]]) -> list[str]:
    """The readings in which a telling word may be; only where no disguise is possible is one left out."""
    texts = _PARTED.join(wording.values())
    if not texts.isascii() or texts.count(_PARTED) >= len(wording):
        return [reading for reading in wording if reading in telling]
    plain = texts.replace("$", "$ ").encode().translate(_SPELLED, b"'`").decode()
    if _SPACED_OUT.search(plain):
        return [reading for reading in wording if reading in telling]
    return [
        reading
        for reading, words in zip(wording, plain.split(_PARTED), strict=True)
        if (known := telling.get(reading))
        # A box of figures that has letters in it has a currency, or a disguise of one.
        and (not known.isdisjoint(words.split()) or (reading == "figures" and _LETTER.search(wording[reading])))
    ]


def _hits(
    reading: str, tokens: list[Token], by_first: Mapping[str, list[tuple[tuple[str, ...], Phrase]]]
) -> Iterator[Hit]:
    """The longest phrases that count at each place, none inside another."""
    words = [token.word for token in tokens]
    lines: dict[int, set[str]] = defaultdict(set)
    for token in tokens:
        lines[token.line].add(token.word)
    covered = 0
    for start, word in enumerate(words):
        found = 0
        for variant, phrase in by_first.get(word, ()):
            end = start + len(variant)
            if len(variant) < found or end <= covered:
                break
            if (
                (reading in phrase.readings or reading in phrase.hints)
                and tuple(words[start:end]) == variant
                and phrase.unless.isdisjoint(lines[tokens[start].line])
                and _counts(phrase, tokens, words, start, end)
            ):
                found = len(variant)
                weight = phrase.weight if reading in phrase.readings else Weight.HINT
                yield Hit(phrase, weight, reading, Span(tokens[start].start, tokens[end - 1].end))
        covered = max(covered, start + found)


def _counts(phrase: Phrase, tokens: list[Token], words: list[str], start: int, end: int) -> bool:
    """Whether the phrase stands where it must, and no word beside it gives it another meaning."""
    starts_line = start == 0 or tokens[start - 1].line < tokens[start].line
    ends_line = end == len(tokens) or tokens[end].line > tokens[end - 1].line
    if (phrase.whole and not (starts_line and ends_line)) or (phrase.at_end and not ends_line):
        return False
    if not starts_line and words[start - 1] in phrase.unless_before:
        return False
    return ends_line or not (phrase.unless_next and _is_followed(phrase.unless_next, words, end))


def _is_followed(guards: Mapping[str, tuple[tuple[str, ...], ...]], words: list[str], at: int) -> bool:
    """Whether one of the guards, kept by their first word, stands at a place; ``#`` is any number."""
    following = "#" if words[at].isdigit() else words[at]
    return any(tuple(words[at + 1 : at + 1 + len(rest)]) == rest for rest in guards.get(following, ()))


@cache
def _index() -> _Index:
    telling: dict[str, set[str]] = defaultdict(set)
    by_first: dict[str, list[tuple[tuple[str, ...], Phrase]]] = defaultdict(list)
    for row in tables.load("instrument_phrases").data["phrase"]:
        phrase = _phrase(row)
        for variant in dict.fromkeys(_words(text) for text in row["variants"]):
            by_first[variant[0]].append((variant, phrase))
            word = max(variant, key=lambda word: (word not in _COMMON, len(word)))
            for reading in phrase.readings | phrase.hints:
                telling[reading].add(word)
    for known in by_first.values():
        known.sort(key=lambda entry: -len(entry[0]))
    return _Index({reading: frozenset(words) for reading, words in telling.items()}, dict(by_first))


def _words(text: str) -> tuple[str, ...]:
    """The words of a variant or a guard; ``#`` stands for any number."""
    number, rest = ("#",) * text.startswith("#"), text.removeprefix("#")
    return (*number, *(token.word for token in tokenise(rest)))


def _phrase(row: Mapping[str, Any]) -> Phrase:
    kinds = row.get("kind", [])
    return Phrase(
        row["id"],
        tuple(Kind(kind) for kind in ([kinds] if isinstance(kinds, str) else kinds)),
        row.get("family", ""),
        Weight(row["weight"]),
        frozenset(row["readings"]),
        frozenset(row.get("hints", ())),
        row.get("whole", False),
        row.get("at_end", False),
        _by_first_word(row.get("unless_next", ())),
        frozenset(row.get("unless_before", ())),
        frozenset(row.get("unless", ())),
        row["source"],
    )


def _by_first_word(guards: Iterable[str]) -> dict[str, tuple[tuple[str, ...], ...]]:
    found: dict[str, tuple[tuple[str, ...], ...]] = {}
    for guard in guards:
        first, *rest = _words(guard)
        found[first] = (*found.get(first, ()), tuple(rest))
    return found
