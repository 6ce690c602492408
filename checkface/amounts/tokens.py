"""Tokens of a legal line, each with its kind and value, and the line they make."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from checkface.amounts.model import Language, Repair, quoted
from checkface.amounts.scan import Lexeme
from checkface.amounts.vocabulary import Entry
from checkface.span import Fault, Span


class Token(NamedTuple):
    """``kind`` is one of :mod:`checkface.amounts.token_kinds`; ``digits`` tells a number written in digits."""

    kind: str
    value: int
    start: int
    end: int
    text: str
    digits: bool = False


Choice = tuple[tuple[Token, ...], str]
"""The tokens that a doubtful word may be, none for no word of the amount, and when."""


@dataclass(slots=True)
class TokenLine:
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

    def add(self, lexeme: Lexeme, entry: Entry, digits: bool = False) -> None:
        """Append a token for *lexeme*."""
        self.tokens.append(Token(entry[0], entry[1], lexeme.start, lexeme.end, lexeme.text, digits))

    def choose(self, choices: tuple[Choice, ...]) -> Fault | None:
        """Append a token with several readings, the first of them for the time being; a second one makes the line
        unreadable."""
        first = choices[0][0][0]
        if self.choices:
            span = Span(first.start, first.end)
            return Fault("words-unreadable", span, "at most one doubtful word", "a second one", self.last_word)
        self.choices.append((len(self.tokens), choices))
        self.tokens.append(first)
        return None

    @property
    def last_word(self) -> str:
        """The last word so far, quoted, or nothing."""
        return quoted(self.tokens[-1].text) if self.tokens and self.tokens[-1].text.isalpha() else ""
