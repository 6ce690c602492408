"""Words that a gap or a hyphen cut in two, as ``nine-teen`` and ``twen ty``, and marks that a lost word leaves behind.

>>> from checkface.amounts import read_words
>>> reading = read_words("nine-teen and 00/100")
>>> reading.cents, reading.verdict, reading.repairs[0].taken
(1900, 'review', 'nineteen')
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from checkface.amounts.model import Repair, quoted
from checkface.amounts.scan import Lexeme
from checkface.amounts.spelling import without_accents
from checkface.amounts.token_kinds import (
    AND,
    CENTS,
    DOLLARS,
    JOINERS,
    MILLION,
    NO_AMOUNT,
    NONE,
    SCALES,
    TEEN,
    TENS,
    THOUSAND,
    UNIT,
    UNKNOWN,
)
from checkface.amounts.tokens import TokenLine
from checkface.amounts.vocabulary import ENGLISH, Entry
from checkface.span import Span

_PARTED = re.compile(r"\s*-?\s*")
_WORDS = {entry: word for word, entry in ENGLISH.items() if entry[0] in (TEEN, TENS)}
_OTHER = (UNKNOWN, 0)
_ENDINGS = {"teen": (TEEN, 10, 1), "ty": (TENS, 0, 10)}


def joined(line: TokenLine, lexemes: list[Lexeme], text: str) -> Iterator[Lexeme]:
    """The *lexemes*, two halves of one word as that word, with a repair on *line*."""
    for reason in _left_behind(line.words, lexemes):
        line.doubt(reason)
    place = 0
    while place < len(lexemes):
        lexeme = lexemes[place]
        behind = place + 1
        if lexeme.kind == "word":
            if behind < len(lexemes) and lexemes[behind].text == "-":
                behind += 1
            second = lexemes[behind] if behind < len(lexemes) else None
            if second is not None and second.kind == "word" and _PARTED.fullmatch(text, lexeme.end, second.start):
                whole = _whole(lexeme.text, second.text, line.words)
                if whole is not None:
                    span = Span(lexeme.start, second.end)
                    line.repairs.append(Repair(span, span.of(text), whole))
                    line.doubt(f"{quoted(span.of(text))} was taken for {whole}")
                    yield Lexeme("word", whole, *span)
                    place = behind + 1
                    continue
        yield lexeme
        place += 1


def _left_behind(words: Mapping[str, Entry], lexemes: list[Lexeme]) -> Iterator[str]:
    """What marks show of words that are lost: at the beginning, behind a hyphen, behind the comma of a scale word."""
    if len(lexemes) > 1 and (lexemes[0].text == "," or (lexemes[0].text == "-" and lexemes[0].end == lexemes[1].start)):
        yield "the line may have lost its beginning"
    for place, mark in enumerate(lexemes[1:], 1):
        if mark.text == "-" and _dangles(words, lexemes[place - 1], mark, lexemes[place + 1 : place + 2]):
            yield "nothing follows the hyphen"
        elif mark.text == "," and words.get(lexemes[place - 1].text, _OTHER)[0] in (THOUSAND, MILLION):
            rest = lexemes[place + 1 : place + 3]
            if rest and words.get(rest[0].text, _OTHER)[0] == AND:
                del rest[0]
            if (
                not rest
                or rest[0].kind == "fraction"
                or words.get(rest[0].text, _OTHER)[0] in DOLLARS + CENTS + NO_AMOUNT + NONE + JOINERS
            ):
                yield f"nothing follows the comma behind {lexemes[place - 1].text}"


def _dangles(words: Mapping[str, Entry], ten: Lexeme, hyphen: Lexeme, behind: list[Lexeme]) -> bool:
    """Whether a hyphen at the end of twenty to ninety waits for a word that does not come."""
    if words.get(ten.text, _OTHER)[0] != TENS or hyphen.start != ten.end:
        return False
    if not behind or behind[0].kind != "word":
        return not behind or behind[0].kind != "mixed"
    return behind[0].start > hyphen.end and words.get(behind[0].text, _OTHER)[0] not in UNIT + SCALES + UNKNOWN


def _whole(first: str, second: str, words: Mapping[str, Entry]) -> str | None:
    """The word that two halves make, where at least one of them is none."""
    if first in words and second in words:
        return None
    first, second = without_accents(first), without_accents(second)
    if first in words and second in words:
        return None
    if first + second in words:
        return first + second
    kind, value = words.get(first, _OTHER)
    if words is ENGLISH and kind == UNIT and value > 2 and second in _ENDINGS:
        ending, base, step = _ENDINGS[second]
        return _WORDS[ending, base + step * value]
    return None
