"""Give every token of the line its kind and value in one language, mending words where that is allowed."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from checkface.amounts import spelling
from checkface.amounts.model import Language, Repair, quoted
from checkface.amounts.scan import STRIKES, Lexeme
from checkface.amounts.vocabulary import (
    ENGLISH,
    EXPECTED,
    HOMOPHONES,
    NOT_AMOUNTS,
    PECULIAR,
    SPANISH,
    Entry,
)
from checkface.span import Fault, Span


class Token(NamedTuple):
    """``kind`` as in :mod:`checkface.amounts.vocabulary`, plus ``f`` a fraction (value in cents), ``p`` decimal
    cents, ``q`` figures with decimals (value in cents), ``g`` digits with a leading zero, ``,`` ``.`` ``(``
    ``)`` marks and ``~`` a filler. ``digits`` tells a number written in digits."""

    kind: str
    value: int
    start: int
    end: int
    text: str
    digits: bool = False


Choice = tuple[Token, str]


@dataclass(slots=True)
class Line:
    """The tokens of one line and what was noticed on the way. ``choices`` holds, for the one token that has
    several readings, its place and every reading with the reason for it."""

    language: Language
    words: Mapping[str, Entry]
    tokens: list[Token] = field(default_factory=list)
    reasons: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    repairs: list[Repair] = field(default_factory=list)
    choices: list[tuple[int, tuple[Choice, ...]]] = field(default_factory=list)

    def doubt(self, reason: str) -> None:
        """Keep a reason for which the line cannot be clear."""
        if reason not in self.reasons:
            self.reasons.append(reason)

    def note(self, remark: str) -> None:
        """Keep a remark that casts no doubt."""
        if remark not in self.notes:
            self.notes.append(remark)


_Reader = Callable[["Line", Lexeme, str], Fault | None]

_UNACCENT = str.maketrans("áéíóúü", "aeiouu")
_RUNS = re.compile(r"\d+|[^\d]+")


def resolve(lexemes: list[Lexeme], text: str) -> Line | Fault:
    """The line in English, or in Spanish when a word says so; a :class:`Fault` for the first word in neither."""
    spanish = any(
        (lexeme.kind == "word" and _plain(lexeme.text) in SPANISH and lexeme.text not in ENGLISH)
        or (lexeme.kind == "word" and len(lexeme.text) > 6 and spelling.split(_plain(lexeme.text)[:60], "es"))
        for lexeme in lexemes
    )
    line = Line("es", SPANISH) if spanish else Line("en", ENGLISH)
    for lexeme in lexemes:
        fault = _READERS[lexeme.kind](line, lexeme, text)
        if fault is not None:
            return fault
    return line


def _plain(word: str) -> str:
    return unicodedata.normalize("NFC", word).translate(_UNACCENT)


def _add(line: Line, lexeme: Lexeme, entry: Entry, digits: bool = False) -> None:
    line.tokens.append(Token(entry[0], entry[1], lexeme.start, lexeme.end, lexeme.text, digits))


def _word(line: Line, lexeme: Lexeme, text: str) -> Fault | None:
    word = lexeme.text
    if STRIKES.search(word):
        return _struck(line, lexeme, text)
    if "\u00ad" in text[lexeme.start : lexeme.end]:
        line.note("a soft hyphen inside a word was passed over")
    if line.language == "es":
        word = _plain(word)
    word = word.rstrip("'")
    entry = line.words.get(word)
    if entry is not None:
        if word in PECULIAR:
            line.doubt(PECULIAR[word])
        _add(line, lexeme._replace(text=word), entry)
        return None
    span = Span(lexeme.start, lexeme.end)
    if word in NOT_AMOUNTS:
        kind, meaning = NOT_AMOUNTS[word]
        return Fault(kind, span, EXPECTED[kind], f"{meaning}, {quoted(text[lexeme.start : lexeme.end])}")
    return _unknown(line, lexeme._replace(text=word), text)


def _unknown(line: Line, lexeme: Lexeme, text: str) -> Fault | None:
    word, raw = lexeme.text, text[lexeme.start : lexeme.end]
    span = Span(lexeme.start, lexeme.end)
    pieces = spelling.split(word, line.language) if len(word) <= 120 else None
    if pieces is not None and len(pieces) > 1:
        place = lexeme.start
        for piece in pieces:
            _add(line, Lexeme("word", piece, place, place + len(piece)), line.words[piece])
            place += len(piece)
        last = line.tokens[-1]
        line.tokens[-1] = last._replace(end=lexeme.end)
        line.note(f"{quoted(raw)} was taken apart into {' '.join(pieces)}")
        return None
    mended = spelling.misread(word, line.words)
    near = (mended,) if mended else spelling.mend(word, line.words)
    if len(near) == 1:
        line.repairs.append(Repair(span, raw, near[0]))
        line.doubt(f"{quoted(raw)} was taken for {near[0]}")
        _add(line, lexeme._replace(text=near[0]), line.words[near[0]])
        return None
    if word in HOMOPHONES and line.language == "en":
        near = (HOMOPHONES[word],)
    near = near or spelling.suggest(word, line.words)
    if not near:
        return Fault("words-unknown-word", span, "words of an amount", quoted(raw), after=_before(line))
    return _choose(
        line,
        tuple(
            (Token(*line.words[other], lexeme.start, lexeme.end, other), f"if {quoted(raw)} stands for {other}")
            for other in near
        ),
    )


def _choose(line: Line, choices: tuple[Choice, ...]) -> Fault | None:
    if line.choices:
        token = choices[0][0]
        return Fault(
            "words-unreadable", Span(token.start, token.end), "at most one doubtful word", "a second one", _before(line)
        )
    line.choices.append((len(line.tokens), choices))
    line.tokens.append(choices[0][0])
    return None


def _before(line: Line) -> str:
    return quoted(line.tokens[-1].text) if line.tokens and line.tokens[-1].text.isalpha() else ""


def _struck(line: Line, lexeme: Lexeme, text: str) -> Fault | None:
    raw = text[lexeme.start : lexeme.end]
    bare = STRIKES.sub("", lexeme.text)
    entry = line.words.get(bare)
    if entry is not None and entry[0] in "DxC" and len(STRIKES.findall(raw)) >= len(bare):
        line.note(f"{quoted(bare)} is struck out")
        return None
    return Fault("words-struck", Span(lexeme.start, lexeme.end), "no word of the amount struck out", quoted(bare))


def _digits(line: Line, lexeme: Lexeme, text: str) -> Fault | None:
    whole, point, decimals = lexeme.text.partition(".")
    span = Span(lexeme.start, lexeme.end)
    groups = whole.split(",")
    if len(whole) > 15:
        return Fault("words-over-range", span, "at most eleven digits", f"{len(whole)} characters of figures")
    badly = len(groups) > 1 and (len(groups[0]) > 3 or any(len(group) != 3 for group in groups[1:]))
    if badly or (point and len(decimals) != 2):
        return Fault("words-figures-form", span, "figures such as 1,234.56", quoted(lexeme.text))
    value = int(whole.replace(",", "") or "0")
    if point:
        _add(line, lexeme, ("q" if whole else "p", value * 100 + int(decimals)), digits=True)
    else:
        _add(line, lexeme, (_digit_kind(whole, value), value), digits=True)
    return None


def _digit_kind(written: str, value: int) -> str:
    if len(written) > 1 and written[0] == "0":
        return "g"
    for kind, below in (("z", 1), ("u", 10), ("e", 11), ("t", 20), ("w", 100), ("b", 1_000)):
        if value < below:
            return kind
    return "d"


def _mixed(line: Line, lexeme: Lexeme, text: str) -> Fault | None:
    if lexeme.text.isalnum() and spelling.misread(lexeme.text, line.words):
        return _unknown(line, lexeme, text)
    for run in _RUNS.finditer(lexeme.text):
        piece = Lexeme("run", run[0].strip("'"), lexeme.start + run.start(), lexeme.start + run.end())
        if not piece.text:
            continue
        fault = _digits(line, piece, text) if piece.text.isdigit() else _word(line, piece, text)
        if fault is not None:
            return fault
    return None


_NO_CENTS = frozenset(("0", "00", "no", "none", "nothing", "zero", "xx", "x", "nil"))
_TO_DIGITS = str.maketrans("oilsbz", "011582")


def _fraction(line: Line, lexeme: Lexeme, text: str) -> Fault | None:
    over, under = lexeme.over, lexeme.under
    span = Span(lexeme.start, lexeme.end)
    raw = text[lexeme.start : lexeme.end]
    cents: int | None = None
    if over in _NO_CENTS or over.strip("-") in {"", "0", "00"} or not over.strip("*—―"):
        cents = 0
        if over in {"nil", "x"}:
            line.doubt(f"{over} stands for no cents")
    elif over.isdigit():
        cents = int(over)
        if len(over) == 1:
            line.doubt("the cents have one digit")
    elif over.translate(_TO_DIGITS).isdigit() and (any(c.isdigit() for c in over) or not over.strip("o")):
        cents = int(over.translate(_TO_DIGITS))
        line.repairs.append(Repair(Span(lexeme.start, lexeme.start + len(over)), over, f"{cents:02d}"))
        line.doubt(f"{quoted(over)} was taken for {cents:02d}")
    if cents is not None and cents > 99:
        return Fault("words-cents-over-99", span, "at most 99 cents over 100", quoted(raw))
    if lexeme.bar == "|":
        line.doubt("a bar stands for the slash")
    cents_token = Token("f", cents or 0, lexeme.start, lexeme.end, lexeme.text)
    plain = under.rstrip("'ths")
    if cents is None:
        return _choose(line, ((cents_token, f"if {quoted(over)} stands for no cents"),))
    if plain in {"100", "xx", "xxx"}:
        line.tokens.append(cents_token)
    elif not under:
        line.doubt("nothing stands under the cents")
        line.tokens.append(cents_token)
    elif under == "10":
        return _choose(line, ((cents_token, "if the 10 under the cents lost a zero"),))
    elif plain.translate(_TO_DIGITS) == "100":
        place = lexeme.end - len(under)
        line.repairs.append(Repair(Span(place, lexeme.end), under, "100"))
        line.doubt(f"{quoted(under)} was taken for 100")
        line.tokens.append(cents_token)
    else:
        return Fault("words-denominator", span, "100 under the cents", quoted(under))
    return None


def _fixed(kind: str) -> _Reader:
    def read(line: Line, lexeme: Lexeme, text: str) -> Fault | None:
        _add(line, lexeme, (kind, 0))
        return None

    return read


def _serial(line: Line, lexeme: Lexeme, text: str) -> Fault | None:
    line.note("a serial number before the amount was passed over")
    return None


def _mark(line: Line, lexeme: Lexeme, text: str) -> Fault | None:
    if lexeme.text in ",.()":
        line.tokens.append(Token(lexeme.text, 0, lexeme.start, lexeme.end, lexeme.text))
        return None
    if lexeme.text in "\"':;":
        return Fault(
            "words-unknown-mark", Span(lexeme.start, lexeme.end), "words of an amount", quoted_mark(lexeme.text)
        )
    return _word(line, lexeme, text)


def quoted_mark(mark: str) -> str:
    """Name a punctuation mark that quotes would hide."""
    return {'"': "a quotation mark", "'": "an apostrophe", ":": "a colon", ";": "a semicolon"}[mark]


def _joint(line: Line, lexeme: Lexeme, text: str) -> Fault | None:
    return None


_READERS: Mapping[str, _Reader] = {
    "serial": _serial,
    "united": _fixed("x"),
    "with": _word,
    "fraction": _fraction,
    "hundredths": _fixed("H"),
    "mixed": _mixed,
    "digits": _digits,
    "word": _word,
    "line": _fixed("~"),
    "joint": _joint,
    "mark": _mark,
}
