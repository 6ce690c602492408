"""Give every token of the line its kind and value in one language, mending words where that is allowed."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence

from checkface.amounts import closed_words, spelling
from checkface.amounts.digits import figures, fraction
from checkface.amounts.grammar import number
from checkface.amounts.model import PART_DOUBT, PARTS, Repair, quoted
from checkface.amounts.scan import STRIKES, Lexeme
from checkface.amounts.spanish import SPANISH
from checkface.amounts.split_words import joined
from checkface.amounts.token_kinds import (
    ARTICLE,
    BRACKETS,
    CENTS,
    COMMA,
    DOLLARS,
    FILLER,
    FRACTION,
    HUNDREDTHS,
    JOINERS,
    MORE_DIGITS,
    NO_AMOUNT,
    NUMBERS,
    STOP,
)
from checkface.amounts.tokens import Choice, Token, TokenLine
from checkface.amounts.vocabulary import ENGLISH
from checkface.amounts.word_lists import HOMOPHONES, NOT_AMOUNTS, PECULIAR
from checkface.span import Fault, Span

_OVER = re.compile(r"\s?\d\d\s?/")
_ENGLISH_AND = re.compile(r"\band\b", re.IGNORECASE)
_CLOCK = re.compile(r"\d[:;]\d")
_Reader = Callable[["TokenLine", Lexeme, str], Fault | None]

_FILLERS = frozenset(("/", "\\", "x", "xx"))
"""Marks that close the line once the cents are written."""
_RUNS = re.compile(r"\d+|[^\d]+")


def resolve(lexemes: list[Lexeme], text: str) -> TokenLine | Fault:
    """The line in English, or in Spanish when a word says so; a :class:`Fault` for the first word in neither."""
    spanish = any(lexeme.kind == "word" and _is_spanish(lexeme.text) for lexeme in lexemes)
    line = TokenLine("es", SPANISH) if spanish else TokenLine("en", ENGLISH)
    for lexeme in joined(line, lexemes, text):
        fault = _READERS[lexeme.kind](line, lexeme, text)
        if fault is not None:
            return fault
    return line


def _is_spanish(word: str) -> bool:
    if word in ENGLISH:
        return False
    plain = spelling.without_accents(word)
    return plain in SPANISH or (6 < len(word) <= 60 and closed_words.split(plain, "es") is not None)


def _word(line: TokenLine, lexeme: Lexeme, text: str) -> Fault | None:
    word = lexeme.text
    if word in _FILLERS and any(token.kind in (FRACTION, CENTS) for token in line.tokens):
        line.add(lexeme, (FILLER, 0))
        return None
    if word == "/" and line.tokens and line.tokens[-1].kind not in JOINERS and _OVER.match(text, lexeme.end):
        line.doubt("a slash parts dollars and cents")
        line.add(lexeme, (FILLER, 0))
        return None
    if STRIKES.search(word):
        return _struck(line, lexeme, text)
    if "\u00ad" in text[lexeme.start : lexeme.end]:
        line.note("a soft hyphen inside a word was passed over")
    if line.language == "es":
        word = spelling.without_accents(word)
    if word[-1] == "'":
        line.doubt("an apostrophe stands behind a word")
        word = word.rstrip("'")
    entry = line.words.get(word)
    if entry is not None:
        if word in PECULIAR:
            line.doubt(PECULIAR[word])
        if word == "net" and line.tokens and line.tokens[-1].kind in NUMBERS + ARTICLE:
            ten = Token(*line.words["ten"], lexeme.start, lexeme.end, "ten")
            return line.choose((((ten,), 'if "net" stands for ten'), ((), 'if "net" is no word of the amount')))
        if word == "once" and line.language == "es" and _ENGLISH_AND.search(text):
            eleven = Token(*entry, lexeme.start, lexeme.end, word)
            one = Token(*ENGLISH["one"], lexeme.start, lexeme.end, "one")
            return line.choose((((eleven,), 'if "once" is Spanish'), ((one,), 'if "once" is a slip of one')))
        line.add(lexeme._replace(text=word), entry)
        return None
    span = Span(lexeme.start, lexeme.end)
    if word in NOT_AMOUNTS:
        kind, expected, read = NOT_AMOUNTS[word]
        return Fault(kind, span, expected, f"{read}, {quoted(span.of(text))}")
    return _unknown(line, lexeme._replace(text=word), text)


def _unknown(line: TokenLine, lexeme: Lexeme, text: str) -> Fault | None:
    """Take a word that is in no vocabulary apart, mend it, or give every word that it may be."""
    word, raw = lexeme.text, text[lexeme.start : lexeme.end]
    span = Span(lexeme.start, lexeme.end)
    whole = closed_words.split(word, line.language) if len(word) <= 120 else None
    if whole is not None:
        others = closed_words.one_slip_away(word, line.language)
        if others:
            return line.choose(_ways(line, lexeme, raw, [*others, whole]))
        line.tokens += _tokens(line, lexeme, whole)
        line.note(f"{quoted(raw)} was taken apart into {' '.join(whole)}")
        return None
    misread = spelling.misread(word, line.words)
    mended = [(misread,)] if misread else [(near,) for near in spelling.mend(word, line.words)]
    parted = closed_words.with_a_slip(word, line.language)
    ways = list(dict.fromkeys((*mended, *(words for words in parted if _is_number(line, lexeme, words)))))
    if len(ways) == 1:
        taken = " ".join(ways[0])
        line.repairs.append(Repair(span, raw, taken))
        line.doubt(f"{quoted(raw)} was taken for {taken}")
        line.tokens += _tokens(line, lexeme, ways[0])
        return None
    if ways:
        return line.choose(_ways(line, lexeme, raw, ways))
    near = HOMOPHONES.get(word, ()) if line.language == "en" else ()
    near = near or spelling.suggest(word, line.words)
    if not near:
        return Fault("words-unknown-word", span, "words of an amount", quoted(raw), after=line.last_word)
    choices = _ways(line, lexeme, raw, [(other,) for other in near])
    return line.choose((*choices, ((), f"if {quoted(raw)} is no word of the amount")))


def _is_number(line: TokenLine, lexeme: Lexeme, words: Sequence[str]) -> bool:
    """Whether *words* make one number, or name more than a number."""
    tokens = _tokens(line, lexeme, words)
    found = number(tokens, line.language, unit=True, cents=0)
    return (found is not None and found.single) or any(token.kind not in NUMBERS + ARTICLE for token in tokens)


def _tokens(line: TokenLine, lexeme: Lexeme, words: Sequence[str]) -> tuple[Token, ...]:
    """A token for each of *words*, all at the place of the one word they were written as."""
    return tuple(Token(*line.words[word], lexeme.start, lexeme.end, word) for word in words)


def _ways(line: TokenLine, lexeme: Lexeme, raw: str, ways: Sequence[Sequence[str]]) -> tuple[Choice, ...]:
    return tuple((_tokens(line, lexeme, words), f"if {quoted(raw)} stands for {' '.join(words)}") for words in ways)


def _struck(line: TokenLine, lexeme: Lexeme, text: str) -> Fault | None:
    raw = text[lexeme.start : lexeme.end]
    bare = STRIKES.sub("", lexeme.text)
    entry = line.words.get(bare)
    if entry is not None and entry[0] in (DOLLARS, NO_AMOUNT, CENTS) and len(STRIKES.findall(raw)) >= len(bare):
        line.note(f"{quoted(bare)} is struck out")
        return None
    struck = quoted(bare) if bare else "a stroke"
    return Fault("words-struck", Span(lexeme.start, lexeme.end), "no word of the amount struck out", struck)


def _mixed(line: TokenLine, lexeme: Lexeme, text: str) -> Fault | None:
    if lexeme.text.isalnum() and spelling.misread(lexeme.text, line.words):
        return _unknown(line, lexeme, text)
    for run in _RUNS.finditer(lexeme.text):
        piece = Lexeme("run", run[0].strip("'"), lexeme.start + run.start(), lexeme.start + run.end())
        if not piece.text:
            continue
        if piece.text in {"x", "xx"} and piece.end == lexeme.end and _OVER.match(text, piece.end):
            if piece.text == "x":
                line.doubt("a cross stands before the cents")
            line.add(piece, (FILLER, 0))
            continue
        fault = figures(line, piece, text) if piece.text.isdigit() else _word(line, piece, text)
        if fault is not None:
            return fault
    return None


def _fixed(kind: str) -> _Reader:
    def read(line: TokenLine, lexeme: Lexeme, _text: str) -> Fault | None:
        line.add(lexeme, (kind, 0))
        return None

    return read


def _hundredths(line: TokenLine, lexeme: Lexeme, _text: str) -> Fault | None:
    line.doubt("the cents over 100 are no plain figures")
    line.add(lexeme, (HUNDREDTHS, 0))
    return None


def _serial(line: TokenLine, _lexeme: Lexeme, _text: str) -> Fault | None:
    if any(token.kind in NUMBERS + MORE_DIGITS for token in line.tokens):
        line.doubt("a serial number stands behind the amount")
    line.note("a serial number was passed over")
    return None


def _mark(line: TokenLine, lexeme: Lexeme, text: str) -> Fault | None:
    if not lexeme.text:
        line.note("a soft hyphen between words was passed over")
        return None
    if lexeme.text in COMMA + STOP + BRACKETS:
        line.tokens.append(Token(lexeme.text, 0, lexeme.start, lexeme.end, lexeme.text))
        return None
    if lexeme.text == ":" and line.tokens and line.tokens[-1].kind == NO_AMOUNT:
        return None
    if lexeme.text in PARTS:
        line.doubt(PART_DOUBT)
        line.add(lexeme, (FRACTION, PARTS[lexeme.text]))
        return None
    if lexeme.text in ":;" and line.tokens and not _CLOCK.match(text, lexeme.start - 1):
        line.doubt(f"{quoted_mark(lexeme.text)} stands inside the line")
        line.tokens.append(Token(COMMA, 0, lexeme.start, lexeme.end, COMMA))
        return None
    if lexeme.text in "\"':;":
        return Fault(
            "words-unknown-mark", Span(lexeme.start, lexeme.end), "words of an amount", quoted_mark(lexeme.text)
        )
    return _word(line, lexeme, text)


def quoted_mark(mark: str) -> str:
    """Name a punctuation mark that quotes would hide."""
    return {'"': "a quotation mark", "'": "an apostrophe", ":": "a colon", ";": "a semicolon"}[mark]


def _joint(_line: TokenLine, _lexeme: Lexeme, _text: str) -> Fault | None:
    return None


_READERS: Mapping[str, _Reader] = {
    "serial": _serial,
    "united": _fixed(NO_AMOUNT),
    "with": _word,
    "fraction": fraction,
    "hundredths": _hundredths,
    "mixed": _mixed,
    "digits": figures,
    "word": _word,
    "line": _fixed(FILLER),
    "joint": _joint,
    "mark": _mark,
}
