"""The phrase table, and where its phrases stand in the readings of a face.

A reading is first asked for one telling word of each phrase, which costs little and settles most readings; only
where one is there are its words laid against the phrases, whole words in a row, the longest first.

Both sides are spelled alike before they are compared: a figure is the letter it is misread for, ``l`` is ``i``, every
spelling of the table's ``[words]`` is the word it stands for, and words run together are parted. So a phrase is
written once, and each of its disguises is found wherever it is.
"""

import re
import string
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from itertools import product
from typing import Any, NamedTuple

from checkface import tables
from checkface.instruments.address import names
from checkface.instruments.kinds import Kind, Weight
from checkface.instruments.tokens import FIGURES, JOINERS, Token, tokenise
from checkface.patterns import lazily
from checkface.span import Span

_SPACED_OUT = re.compile(r" [a-z] {1,8}[a-z]\b")
_EMPTY = r"(?:[\u2610\u25a1\u25a2\u274f\u2751]|\[ ?\])"
_BOX, _BOX_BEFORE, _BOX_BEHIND = lazily(_EMPTY), lazily(_EMPTY + r"[ \t]{0,3}$"), lazily(r"[ \t]{0,3}" + _EMPTY)
_TICKED = lazily(r"[\u2611\u2612\u2713\u2714\u2717\u2718\u25a0]|\[ ?[xX] ?\]")
_BANKS = [["bank"], ["fcu"], ["credit", "union"], ["federai", "credit", "union"]]
"""What a bank's name ends in, spelled as words are compared."""
_PARTED = "\0"
_LETTER = re.compile("[A-Za-z]")
_AMOUNTS = frozenset({"figures", "words"})
_LETTERS = string.ascii_lowercase.encode()
_SEEN = _LETTERS + _LETTERS.upper() + "".join(FIGURES).encode() + b"$"
_REST = bytes(set(range(1, 128)) - set(_SEEN))
_SPELLED = bytes.maketrans(
    _LETTERS.upper() + "".join(FIGURES).encode() + _REST + b"lLqQvV",
    _LETTERS + "".join(FIGURES.values()).encode() + b" " * len(_REST) + b"iioouu",
)
"""Small letters, a figure as the letter it looks like, and blanks."""
_UNSEEN = "".join(sign for sign in JOINERS if sign.isascii()).encode()
_RUN_TOGETHER = 7
"""Letters: words run together are parted only where they make a word this long, which hardly any other word is."""
_USUAL = 4
"""Spellings of a word, the usual ones first, with which it may be run together with others."""
PURPOSE = lazily(
    r"^[ \t_*.]{0,8}(?:memo\b|(?:for|re|nota|concepto|por|para)"
    r"(?:\.?[ \t]{0,4}[:_-]|[ \t]+[^ \t\n\r]+(?:[ \t]+[^ \t\n\r]+){0,3}[ \t]*$))",
    re.IGNORECASE | re.MULTILINE,
)
"""The head of a line on which the customer writes what the check is for."""
_RUNS_ON = frozenset(",;:")
_HANGING = frozenset({"is", "be", "are", "if", "or", "the"})
"""Signs and words at the end of a line that say that it goes on in the next."""
_ALIKE = str.maketrans("lqv", "iou")
"""Letters that are misread for each other as often as not, each pair as one."""
_COMMON = frozenset(
    word.translate(_ALIKE)
    for word in (
        "a", "an", "and", "of", "the", "to", "in", "no", "not", "on", "by", "is", "it", "for", "or", "this",
        "your", "you", "check", "order", "bank", "account", "company", "street", "market", "signature",
        "required", "service", "authorized", "dollars", "united", "states", "department", "payable", "first",
        "school", "same", "way", "use", "co",
    )
)  # fmt: skip
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
    unless_below: Mapping[str, tuple[tuple[str, ...], ...]]
    unless: frozenset[str]
    beside: frozenset[str]
    source: str


class Hit(NamedTuple):
    """A phrase found, with the weight it has in that reading."""

    phrase: Phrase
    weight: Weight
    reading: str
    span: Span


class _Index(NamedTuple):
    """Telling words by reading, phrases by their first word, the longest first, and the words of each spelling."""

    telling: Mapping[str, frozenset[str]]
    by_first: Mapping[str, list[tuple[tuple[str, ...], Phrase]]]
    spelled: Mapping[str, tuple[str, ...]]


_ASKED_ALONE = {"harmless": "harmless"} | dict.fromkeys(
    ("depository", "obligor", "obligor-maybe", "payable-through", "abroad"), "drawee"
)
"""Families that are asked for alone, and the group they are asked for in."""


def scan(wording: Mapping[str, str], group: str = "") -> list[Hit]:
    """The phrases of the table that stand in the readings of a face and count there, in their order.

    Those of the groups ``harmless`` and ``drawee`` are asked for alone.
    """
    index = _index(group)
    hits: list[Hit] = []
    for reading in _worth_a_look(wording, index.telling):
        text = wording[reading]
        hits += _hits(reading, names(text) if reading == "drawer" else text, index)
    return hits


def read(text: str) -> list[Token]:
    """The words of a text as the table has them."""
    return list(_respelled(tokenise(text), _index().spelled))


@cache
def telling_of(reading: str) -> frozenset[str]:
    """The words one of which stands in whatever phrase counts in a reading, as words are compared."""
    return _index().telling[reading]


def _worth_a_look(wording: Mapping[str, str], telling: Mapping[str, frozenset[str]]) -> list[str]:
    """The readings in which a telling word may be; only where no disguise is possible is one left out."""
    texts = _PARTED.join(wording.values())
    if not texts.isascii() or texts.count(_PARTED) >= len(wording):
        return [reading for reading in wording if reading in telling]
    plain = texts.replace("$", "$ ").encode().translate(_SPELLED, _UNSEEN).decode()
    if _SPACED_OUT.search(plain):
        return [reading for reading in wording if reading in telling]
    return [
        reading
        for reading, words in zip(wording, plain.split(_PARTED), strict=True)
        if (known := telling.get(reading))
        # An amount that nobody could read, with letters in it, has a currency, or a disguise of one.
        and (not known.isdisjoint(words.split()) or (reading in _AMOUNTS and _LETTER.search(wording[reading])))
    ]


def _hits(reading: str, text: str, index: _Index) -> Iterator[Hit]:
    """The longest phrases that count at each place, none inside another."""
    tokens = list(_respelled(tokenise(text), index.spelled))
    words = [token.word for token in tokens]
    lines: dict[int, set[str]] = defaultdict(set)
    for token in tokens:
        lines[token.line].add(token.word)
    forms = choices(text) if reading == "legends" else frozenset()
    purposes = _purposes(text) if reading == "legends" else frozenset()
    covered = 0
    for start, word in enumerate(words):
        found = 0
        for variant, phrase in index.by_first.get(word, ()):
            end = start + len(variant)
            if len(variant) < found or end <= covered:
                break
            line = lines[tokens[start].line]
            if (
                (reading in phrase.readings or reading in phrase.hints)
                and _stands(variant, words, start, end)
                and phrase.unless.isdisjoint(line)
                and not (phrase.beside and phrase.beside.isdisjoint(line - set(variant)))
                and _counts(phrase, tokens, words, start, end)
                and not (
                    phrase.unless_below and reading == "legends" and _goes_on(phrase, text, tokens, words, start, end)
                )
            ):
                span = Span(tokens[start].start, tokens[end - 1].end)
                if phrase.kinds and (
                    _only_named(reading, words[end : end + 3])
                    or (tokens[start].line in forms and _is_choice(text, span))
                    or tokens[start].line in purposes
                ):
                    continue
                found = len(variant)
                weight = phrase.weight if reading in phrase.readings else Weight.HINT
                yield Hit(phrase, weight, reading, span)
        covered = max(covered, start + found)


def _stands(variant: tuple[str, ...], words: list[str], start: int, end: int) -> bool:
    """Whether a variant stands at a place; ``#`` is any number."""
    there = words[start:end]
    return (_numbers_apart(there) if "#" in variant else tuple(there)) == variant


def _only_named(reading: str, rest: list[str]) -> bool:
    """Whether what names a kind is the beginning of the drawee bank's own name."""
    return reading == "drawee" and rest[:2] != ["bank", "of"] and any(rest[: len(name)] == name for name in _BANKS)


def choices(text: str) -> frozenset[int]:
    """The lines that offer a choice, none of it ticked."""
    if _BOX.search(text) is None:
        return frozenset()
    lines = enumerate(text.replace("\r", "\n").split("\n"))
    return frozenset(i for i, line in lines if len(_BOX.findall(line)) > 1 and not _TICKED.search(line))


def _purposes(text: str) -> frozenset[int]:
    """The lines on which the customer wrote what the check is for."""
    return frozenset(breaks(text, match.start()) for match in PURPOSE.finditer(text))


def breaks(text: str, end: int) -> int:
    """The line a place stands on, as tokens count lines."""
    return text.count("\n", 0, end) + text.count("\r", 0, end)


def _is_choice(text: str, span: Span) -> bool:
    return bool(_BOX_BEHIND.match(text, span.end) or _BOX_BEFORE.search(text[max(0, span.start - 6) : span.start]))


def _respelled(tokens: Iterable[Token], spelled: Mapping[str, tuple[str, ...]]) -> Iterator[Token]:
    """Each word as the table has it; an "s" that stands apart from its word is put back."""
    last: Token | None = None
    for token in tokens:
        key = compare(token.word)
        if last is not None:
            if key == "s" and last.line == token.line and (whole := last.word + "s") in spelled:
                last = last._replace(word=whole, end=token.end)
                continue
            yield from _as_table(last, spelled)
        last = token if key == token.word else token._replace(word=key)
    if last is not None:
        yield from _as_table(last, spelled)


def _as_table(token: Token, spelled: Mapping[str, tuple[str, ...]]) -> Iterable[Token]:
    words = spelled.get(token.word)
    return (token,) if words is None else [token._replace(word=word) for word in words]


def compare(word: str) -> str:
    """A word as it is compared."""
    return word.translate(_ALIKE)


def _counts(phrase: Phrase, tokens: list[Token], words: list[str], start: int, end: int) -> bool:
    """Whether the phrase stands where it must, and no word beside it gives it another meaning."""
    starts_line = start == 0 or tokens[start - 1].line < tokens[start].line
    ends_line = end == len(tokens) or tokens[end].line > tokens[end - 1].line
    if (phrase.whole and not (starts_line and ends_line)) or (phrase.at_end and not ends_line):
        return False
    if not starts_line and words[start - 1] in phrase.unless_before:
        return False
    return ends_line or not (phrase.unless_next and _is_followed(phrase.unless_next, words, end))


def _goes_on(phrase: Phrase, text: str, tokens: list[Token], words: list[str], start: int, end: int) -> bool:
    """Whether a word of the line below or above gives the phrase another meaning: print wraps, a stamp does not."""
    if end < len(tokens) and tokens[end].line > tokens[end - 1].line:
        if _is_followed(phrase.unless_below, words, end):
            return True
        if _runs_on(text, tokens[end - 1], tokens[end]) and _is_followed(phrase.unless_next, words, end):
            return True
    return start > 0 and words[start - 1] in phrase.unless_before and _runs_on(text, tokens[start - 1], tokens[start])


def _runs_on(text: str, word: Token, following: Token) -> bool:
    return word.word in _HANGING or not _RUNS_ON.isdisjoint(text[word.end : following.start])


def _is_followed(guards: Mapping[str, tuple[tuple[str, ...], ...]], words: list[str], at: int) -> bool:
    """Whether one of the guards, kept by their first word, stands at a place; ``#`` is any number."""
    rests = guards.get("#" if words[at].isdigit() else words[at])
    return rests is not None and any(_numbers_apart(words[at + 1 : at + 1 + len(rest)]) == rest for rest in rests)


def _numbers_apart(words: list[str]) -> tuple[str, ...]:
    return tuple("#" if word.isdigit() else word for word in words)


@cache
def _index(group: str = "") -> _Index:
    table = tables.load("instrument_phrases").data
    spellings = {compare(word): [compare(word), *map(compare, others)] for word, others in table["words"].items()}
    spelled: dict[str, tuple[str, ...]] = {other: (word,) for word, others in spellings.items() for other in others}
    spelled |= {compare(short): _words(text, spelled) for short, text in table["short"].items()}
    telling: dict[str, set[str]] = defaultdict(set)
    by_first: dict[str, list[tuple[tuple[str, ...], Phrase]]] = defaultdict(list)
    joined: dict[str, tuple[str, ...]] = {}
    for row in table["phrase"]:
        if _ASKED_ALONE.get(row.get("family", ""), "") != group:
            continue
        phrase = _phrase(row, spelled)
        for variant, text in {_words(text, spelled): text for text in row["variants"]}.items():
            by_first[variant[0]].append((variant, phrase))
            word = _telling_word(variant, phrase)
            known = {*spellings.get(word, [word])}
            if len(variant) > 1:
                together = set(map("".join, product(*(spellings.get(part, (part,))[:_USUAL] for part in variant))))
                together.add(compare(text.replace(" ", "").replace("'", "")))
                parted = {whole: variant for whole in together if len(whole) >= _RUN_TOGETHER}
                joined |= parted
                known |= parted.keys()
            for reading in phrase.readings | phrase.hints:
                telling[reading] |= known
    for short, long in table["short"].items():
        for known in telling.values():
            if not known.isdisjoint(_words(long, spelled)):
                known.add(compare(short))
    for phrases in by_first.values():
        phrases.sort(key=lambda entry: -len(entry[0]))
    quick = {reading: frozenset(known) for reading, known in telling.items()}
    return _Index(quick, dict(by_first), joined | spelled)


def _telling_word(variant: tuple[str, ...], phrase: Phrase) -> str:
    """The word of a variant that a reading is first asked for: one that hardly anything else has."""
    if phrase.readings | phrase.hints == {"drawer"} and "bank" in variant:
        return "bank"  # it stands below the drawer on most checks, and among the drawer's lines on few
    return max(variant, key=lambda word: (word not in _COMMON and word.isalpha(), len(word)))


def _words(text: str, spelled: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
    """The words of a variant or a guard, as the table has them; ``#`` stands for any number."""
    parts = compare(text).split(" ")
    if min(map(len, parts)) > 1 and text.isascii() and "".join(parts).isalpha():  # nothing for the tokeniser to settle
        return tuple(word for part in parts for word in spelled.get(part, (part,)))
    if "#" in parts:
        return tuple(word for part in parts for word in ((part,) if part == "#" else _words(part, spelled)))
    return tuple(token.word for token in _respelled(tokenise(text), spelled))


def _phrase(row: Mapping[str, Any], spelled: Mapping[str, tuple[str, ...]]) -> Phrase:
    kinds = row.get("kind", [])

    def single(key: str) -> frozenset[str]:
        return frozenset(word for text in row.get(key, ()) for word in _words(text, spelled))

    return Phrase(
        row["id"],
        tuple(Kind(kind) for kind in ([kinds] if isinstance(kinds, str) else kinds)),
        row.get("family", ""),
        Weight(row["weight"]),
        frozenset(row["readings"]),
        frozenset(row.get("hints", ())),
        row.get("whole", False),
        row.get("at_end", False),
        _by_first_word(row.get("unless_next", ()), spelled),
        single("unless_before"),
        _by_first_word(row.get("unless_below", ()), spelled),
        single("unless"),
        single("beside"),
        row["source"],
    )


def _by_first_word(
    guards: Iterable[str], spelled: Mapping[str, tuple[str, ...]]
) -> dict[str, tuple[tuple[str, ...], ...]]:
    found: dict[str, tuple[tuple[str, ...], ...]] = {}
    for guard in guards:
        first, *rest = _words(guard, spelled)
        found[first] = (*found.get(first, ()), tuple(rest))
    return found
