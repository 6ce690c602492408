"""Read the amount of any legal line by the general grammar: cut into tokens, resolved in one language, parsed whole."""

from __future__ import annotations

from checkface.amounts import line as lines
from checkface.amounts.model import Candidate, WordsAmount
from checkface.amounts.resolve import resolve
from checkface.amounts.scan import LIMIT, scan
from checkface.amounts.tokens import Line
from checkface.span import Fault, Span


def read_carefully(text: str) -> WordsAmount | Fault:
    """As :func:`read_words`, by the general grammar alone."""
    whole = Span(0, len(text))
    if len(text) > LIMIT:
        return Fault("words-too-long", whole, f"at most {LIMIT:,} characters", f"{len(text):,}")
    if not text.strip():
        return Fault("words-blank", whole, "an amount in words", "a blank line")
    lexemes = scan(text)
    if isinstance(lexemes, Fault):
        return lexemes
    line = resolve(lexemes, text)
    if isinstance(line, Fault):
        return line
    return _choose(line, text) if line.choices else lines.read(line, line.tokens, text)


def _choose(line: Line, text: str) -> WordsAmount | Fault:
    """Every value of a line with one doubtful word: the reader never picks one."""
    place, choices = line.choices[0]
    readings = []
    for token, reason in choices:
        tokens = [*line.tokens[:place], token, *line.tokens[place + 1 :]]
        reading = lines.read(line, tokens, text)
        if isinstance(reading, WordsAmount):
            readings.append((reading, reason))
    if not readings:
        token = choices[0][0]
        span = Span(token.start, token.end)
        return Fault("words-unknown-word", span, "words of an amount", f'"{span.of(text)}"')
    first = readings[0][0]
    candidates = tuple(
        Candidate(candidate.cents, reason if candidate.reason.startswith("as ") else f"{reason}, {candidate.reason}")
        for reading, reason in readings
        for candidate in reading.candidates
    )
    doubtful = Span(choices[0][0].start, choices[0][0].end).of(text)
    return first._replace(
        cents=None,
        candidates=candidates,
        verdict="ambiguous",
        reasons=(f'"{doubtful}" is uncertain', *first.reasons),
    )
