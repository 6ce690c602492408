"""One reading of a legal line under way: its parts so far, and the doubts met."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from checkface.amounts import grammar
from checkface.amounts.grammar import Number, shape
from checkface.amounts.model import quoted
from checkface.amounts.token_kinds import AND, JOINERS, MARKS, OH, UNIT
from checkface.amounts.tokens import Token, TokenLine
from checkface.span import Fault, Span


@dataclass(slots=True)
class Work:
    """What the *line* is taken to hold. ``ending`` is the shape of what was cut off behind the amount; ``even`` tells
    that a word there says that no cents follow."""

    line: TokenLine
    text: str
    reasons: list[str]
    ending: str = ""
    even: bool = False
    figures: list[Token] = field(default_factory=list)
    dollars: list[Token] = field(default_factory=list)
    cents: list[Token] = field(default_factory=list)

    def doubt(self, reason: str) -> None:
        """Keep a reason for which the reading cannot be clear."""
        if reason not in self.reasons:
            self.reasons.append(reason)

    def number(self, tokens: Sequence[Token], *, unit: bool, cents: int | None) -> Number | None:
        """Read whole dollars, passing over stray marks with a reason; see :func:`grammar.number`."""
        language = self.line.language
        return grammar.number(tokens, language, unit=unit, cents=cents) or grammar.with_strays_removed(
            tokens, language, unit=unit, cents=cents
        )

    def small(self, tokens: Sequence[Token]) -> int | None:
        """Read 0 to 99, the number of cents."""
        if shape(tokens) == OH + UNIT:
            self.doubt("oh stands for a zero")
            return tokens[1].value
        value = grammar.small(tokens, self.line.language)
        if value is not None and any(token.digits != tokens[0].digits for token in tokens if token.kind != AND):
            self.doubt("digits stand among the words")
        if value is not None and grammar.old_form(tokens):
            self.doubt("a number below thirty is in three words")
        return value

    def malformed(self, tokens: Sequence[Token], what: str) -> Fault:
        """Point at the first token that cannot go on what stands before it."""
        tokens = trim(tokens)
        if not tokens:
            whole = Span(0, len(self.text))
            return Fault("words-malformed", whole, f"{what} in words", "a line without a number")
        good = 0
        for end in range(1, len(tokens)):
            if self.number(tokens[:end], unit=True, cents=0) is not None:
                good = end
            elif end - good > 2:
                break
        wrong = Span(tokens[good].start, tokens[good].end)
        if not good:
            return Fault("words-malformed", wrong, f"{what} in words", quoted(wrong.of(self.text)))
        before = Span(tokens[0].start, tokens[good - 1].end)
        return Fault(
            "words-malformed",
            wrong,
            f"{what} to end or go on with a smaller number",
            quoted(wrong.of(self.text)),
            after=quoted(before.of(self.text)),
        )


def trim(tokens: Sequence[Token], kinds: str = MARKS) -> list[Token]:
    """*tokens* without those of *kinds* at either end."""
    start, end = 0, len(tokens)
    while start < end and tokens[start].kind in kinds:
        start += 1
    while end > start and tokens[end - 1].kind in kinds:
        end -= 1
    return list(tokens[start:end])


def without_joiner(tokens: Sequence[Token]) -> list[Token]:
    """*tokens* without a joiner at their end."""
    kept = trim(tokens)
    return trim(kept[:-1]) if kept and kept[-1].kind in JOINERS else kept
