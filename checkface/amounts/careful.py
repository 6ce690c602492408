"""Read the amount of any legal line by the general grammar: cut into tokens, resolved in one language, parsed whole."""

from __future__ import annotations

from checkface.amounts import line as lines
from checkface.amounts.model import Candidate, Repair, WordsAmount, distinct
from checkface.amounts.resolve import resolve
from checkface.amounts.scan import LIMIT, scan
from checkface.amounts.tokens import TokenLine
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


def _choose(line: TokenLine, text: str) -> WordsAmount | Fault:
    """Every value of a line with one doubtful word: the reader never picks one; if there is but one, it is mended."""
    place, choices = line.choices[0]
    readings = []
    for taken, reason in choices:
        tokens = [*line.tokens[:place], *taken, *line.tokens[place + 1 :]]
        reading = lines.read(line, tokens, text)
        if isinstance(reading, WordsAmount):
            readings.append((reading, reason))
    span = Span(line.tokens[place].start, max(token.end for taken, _ in choices for token in taken))
    doubtful = span.of(text)
    if not readings:
        return Fault("words-unknown-word", span, "words of an amount", f'"{doubtful}"')
    first = readings[0][0]
    candidates = distinct(
        Candidate(candidate.cents, reason if candidate.reason.startswith("as ") else f"{reason}, {candidate.reason}")
        for reading, reason in readings
        for candidate in reading.candidates
    )
    reasons = (f'"{doubtful}" is uncertain', *first.reasons)
    if len(candidates) > 1:
        return first._replace(cents=None, candidates=candidates, verdict="ambiguous", reasons=reasons)
    mended = Repair(span, doubtful, line.tokens[place].text)
    return first._replace(candidates=candidates, verdict="review", reasons=reasons, repairs=(*first.repairs, mended))
