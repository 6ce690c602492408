"""The grammar of a whole legal line: prefix, dollars, unit, joiner, cents, suffix, figures in brackets."""

from __future__ import annotations

import re
from collections.abc import Sequence

from checkface.amounts import endings, settle
from checkface.amounts.grammar import Number, shape
from checkface.amounts.model import Candidate, WordsAmount, quoted
from checkface.amounts.token_kinds import (
    ARTICLE,
    BRACKETS,
    CENTS,
    DECIMAL,
    DECIMAL_CENTS,
    DOLLARS,
    EDGE,
    EVEN,
    FRACTION,
    HUNDREDTHS,
    JOINERS,
    MARKS,
    MORE_DIGITS,
    NO_AMOUNT,
    NONE,
    NUMBERS,
    OH,
    OPENING,
    PADDED,
    SCALES,
    THREE_DIGITS,
    UNIT,
    ZERO,
)
from checkface.amounts.tokens import Token, TokenLine
from checkface.amounts.work import Work, trim
from checkface.span import Fault, Span

_IN_NUMBERS = NUMBERS + MORE_DIGITS + ZERO + OH + ARTICLE + PADDED + DECIMAL
_PASSED = f"[{NO_AMOUNT}{MARKS}]*"
_INSIDE = re.compile(f"(?<=[{_IN_NUMBERS}{NONE}]){_PASSED}{NO_AMOUNT}{_PASSED}(?=[{_IN_NUMBERS}])")
"""Words that state no amount, between two number words: there they are not passed over."""
_NUMBER_KINDS = _IN_NUMBERS + NONE + FRACTION


def read(line: TokenLine, tokens: Sequence[Token], text: str) -> WordsAmount | Fault:
    """The amount of the *tokens* of *line*, cut from *text*."""
    work = Work(line, text, list(line.reasons))
    body = _without_figures(work, tokens)
    if isinstance(body, Fault):
        return body
    body = _without_edges(work, body)
    if not body:
        return _nothing(work, tokens)
    if len(body) > 2 and body[0].kind == NONE and body[1].kind in SCALES:
        work.doubt(f"an empty column of {body[1].text} is stated")
        body = body[2:]
    unit = next((place for place, token in enumerate(body) if token.kind == DOLLARS), None)
    found = endings.read(work, body) if unit is None else _by_unit(work, body[:unit], body[unit:])
    return found if isinstance(found, Fault) else settle.finish(work, found)


def _nothing(work: Work, tokens: Sequence[Token]) -> Fault:
    whole = Span(0, len(work.text))
    if work.figures:
        return Fault("words-malformed", whole, "an amount in words", "figures in brackets alone")
    if all(token.kind in DOLLARS + MARKS or token.text == "$" for token in tokens) and not work.line.notes:
        return Fault("words-blank", whole, "an amount in words", "a blank line")
    return Fault("words-malformed", whole, "an amount in words", "a line without a number")


def _without_figures(work: Work, tokens: Sequence[Token]) -> list[Token] | Fault:
    """Take figures in brackets, or behind a dollar sign beside the words, off the line."""
    body: list[Token] = []
    inside = False
    for place, token in enumerate(tokens):
        if token.kind in BRACKETS:
            if inside == (token.kind == OPENING):
                work.doubt("a bracket stands alone")
            inside = token.kind == OPENING
        elif (
            token.digits and token.kind not in (ZERO, PADDED, DECIMAL_CENTS) and (inside or _behind_sign(tokens, place))
        ):
            work.figures.append(token)
        elif not inside:
            body.append(token)
        elif token.kind not in EDGE:
            span = Span(token.start, token.end)
            return Fault("words-malformed", span, "figures in the brackets", quoted(span.of(work.text)))
    if inside:
        work.doubt("a bracket stands alone")
    return body


def _behind_sign(tokens: Sequence[Token], place: int) -> bool:
    """Whether figures behind a dollar sign stand beside the words, before or after them."""
    if place == 0 or tokens[place - 1].text != "$":
        return False
    if any(token.kind in _NUMBER_KINDS for token in tokens[: place - 1]):
        return True
    behind = tokens[place + 1 :]
    return tokens[place].kind in (DECIMAL, MORE_DIGITS, THREE_DIGITS) and any(
        token.kind in NUMBERS and not token.digits for token in behind
    )


def _without_edges(work: Work, tokens: list[Token]) -> list[Token]:
    """Cut off what stands before and behind the amount, and words beside a unit that state nothing."""
    body = trim(tokens, EDGE)
    behind = next((place for place, token in enumerate(tokens) if body and token is body[-1]), 0)
    work.ending = shape(tokens[behind + 1 :])
    if body and body[-1].kind == EVEN:
        body = _without_even(work, body)
    inside = {place for run in _INSIDE.finditer(shape(body)) for place in range(*run.span())}
    return [token for place, token in enumerate(body) if token.kind != NO_AMOUNT or place in inside]


def _without_even(work: Work, body: list[Token]) -> list[Token]:
    """The word even says that no cents follow. Seven loses one letter to become even, so it needs a unit before it."""
    word = body[-1].text
    work.even = True
    body = trim(body[:-1], NO_AMOUNT + MARKS)
    if not body or body[-1].kind not in (DOLLARS, FRACTION, CENTS):
        work.doubt(f"{word} stands without the word dollars before it")
    if body and body[-1].kind == DOLLARS:
        work.ending += DOLLARS
    return trim(trim(body, JOINERS), EDGE)


def _by_unit(work: Work, left: Sequence[Token], right: Sequence[Token]) -> Number | Fault:
    """Dollars named by their unit word: all behind it is cents."""
    behind = trim(right, DOLLARS + MARKS)
    joined = bool(behind) and behind[0].kind in JOINERS
    if joined:
        behind = trim(behind[1:])
    work.cents = behind
    cents = endings.nothing_joined(work) if joined else None
    if shape(behind) == FRACTION + CENTS and shape(trim(left)) in ("", NONE, ZERO):
        return endings.fraction_of_cents(work, behind[0], behind[1])
    if behind:
        read = _cents(work, behind)
        if isinstance(read, Fault):
            return read
        cents = read
    found = settle.with_cents(work, trim(left), cents, unit=True)
    if isinstance(found, Fault) or not cents or behind[-1].kind in (FRACTION, DECIMAL_CENTS, CENTS, HUNDREDTHS):
        return found
    ways = [(cents, "if the last words count cents")]
    if shape(behind) == UNIT:
        ways.append((cents * 10, f"if {behind[0].text} counts tens of cents"))
    if DOLLARS in work.ending:
        ways.append((cents * 100, "if both count dollars"))
    if len(ways) == 1:
        return found
    return Number(
        tuple(Candidate(v.cents - cents + more, reason) for v in found.values for more, reason in ways), found.reasons
    )


def _cents(work: Work, tokens: list[Token]) -> int | Fault:
    """The cents behind the word dollars: a fraction, a number with or without its unit, or none."""
    kinds, last = shape(tokens), tokens[-1]
    if kinds == FRACTION:
        return last.value
    if kinds == FRACTION + CENTS:
        if tokens[0].value:
            work.doubt(f"{last.text} stands behind a fraction of a dollar")
        return tokens[0].value
    if kinds == DECIMAL_CENTS:
        work.doubt("the cents are a decimal")
        return last.value
    named = last.kind in (CENTS, HUNDREDTHS)
    if not named:
        work.doubt("the word cents is missing")
    if kinds in (NONE + CENTS, NONE):
        return 0
    counted = tokens[:-1] if named else tokens
    value = work.small(counted)
    if value is not None:
        return value
    if work.number(counted, unit=True, cents=0) is None:
        return work.malformed(tokens, "the cents")
    span = Span(tokens[0].start, last.end)
    return Fault("words-cents-over-99", span, "at most 99 cents", quoted(span.of(work.text)))
