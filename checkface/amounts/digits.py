"""Numbers in digits on the legal line: figures, and the cents over 100."""

from __future__ import annotations

from checkface.amounts.model import PART_DOUBT, PARTS, Repair, quoted
from checkface.amounts.scan import Lexeme
from checkface.amounts.token_kinds import (
    DECIMAL,
    DECIMAL_CENTS,
    FRACTION,
    MORE_DIGITS,
    PADDED,
    TEEN,
    TEN,
    THREE_DIGITS,
    TWO_DIGITS,
    UNIT,
    ZERO,
)
from checkface.amounts.tokens import Token, TokenLine
from checkface.span import Fault, Span


def figures(line: TokenLine, lexeme: Lexeme, _text: str) -> Fault | None:
    """Add a number in figures; its grouping must be sound."""
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
        line.add(lexeme, (DECIMAL if whole else DECIMAL_CENTS, value * 100 + int(decimals)), digits=True)
    else:
        line.add(lexeme, (_digit_kind(whole, value), value), digits=True)
    return None


_DIGIT_KINDS = (
    (ZERO, 1),
    (UNIT, 10),
    (TEN, 11),
    (TEEN, 20),
    (TWO_DIGITS, 100),
    (THREE_DIGITS, 1_000),
)


def _digit_kind(written: str, value: int) -> str:
    if len(written) > 1 and written[0] == "0":
        return PADDED
    for kind, below in _DIGIT_KINDS:
        if value < below:
            return kind
    return MORE_DIGITS


_NO_CENTS = frozenset(("no", "none", "nothing", "zero", "xx", "x", "nil"))
_TO_DIGITS = str.maketrans("oilsbz", "011582")


def fraction(line: TokenLine, lexeme: Lexeme, text: str) -> Fault | None:
    """Add the cents written over 100."""
    span = Span(lexeme.start, lexeme.end)
    over = Span(lexeme.start, lexeme.start + len(lexeme.over))
    part = PARTS.get(f"{lexeme.over}/{lexeme.under}")
    if part is not None:
        line.doubt(PART_DOUBT)
        line.tokens.append(Token(FRACTION, part, lexeme.start, lexeme.end, lexeme.text))
        return None
    cents = _over(line, lexeme, text)
    letters = lexeme.over.translate(_TO_DIGITS)
    if cents is None and not letters.isdigit():
        return Fault("words-unknown-mark", over, "two digits or a mark for no cents", quoted(over.of(text)))
    if (cents or 0) > 99:
        return Fault("words-cents-over-99", span, "at most 99 cents over 100", quoted(span.of(text)))
    if lexeme.bar == "|":
        line.doubt("a bar stands for the slash")
    under = "100" if "hundred" in lexeme.under else lexeme.under.rstrip("'ths")
    if not under:
        line.doubt("nothing stands under the cents")
    elif under == "00":
        line.doubt("00 stands under the cents")
    elif under not in {"100", "10", "xx", "xxx"}:
        if under.translate(_TO_DIGITS) != "100":
            return Fault("words-denominator", span, "100 under the cents", quoted(lexeme.under))
        _repair(line, Span(lexeme.end - len(lexeme.under), lexeme.end), text, "100")

    def of(value: int) -> Token:
        return Token(FRACTION, value, lexeme.start, lexeme.end, f"{value:02d}/100")

    read = quoted(over.of(text))
    if cents is None:
        found, no_cents = of(int(letters) % 100), of(0)
        return line.choose(
            (((found,), f"if {read} stands for {letters:0>2}"), ((no_cents,), f"if {read} stands for no cents"))
        )
    if under == "10":
        lost, tenths = of(cents), of(cents * 10)
        return line.choose(
            (
                ((lost,), "if the 10 under the cents lost a zero"),
                ((tenths,), f"if {read} counts tenths of a dollar"),
            )
        )
    line.tokens.append(of(cents))
    return None


def _over(line: TokenLine, lexeme: Lexeme, text: str) -> int | None:
    """The number above the line, or None when it is neither a number nor a known mark for no cents."""
    over = lexeme.over
    if over.isdigit():
        if len(over) != 2 and over != "0":
            line.doubt("the cents are not two digits")
        return int(over)
    if over in _NO_CENTS or not over.strip("*-—―0"):
        if over in {"nil", "x"}:
            line.doubt(f"{over} stands for no cents")
        return 0
    digits = over.translate(_TO_DIGITS)
    if digits.isdigit() and (any(mark.isdigit() for mark in over) or not over.strip("o")):
        _repair(line, Span(lexeme.start, lexeme.start + len(over)), text, f"{int(digits):02d}")
        return int(digits)
    return None


def _repair(line: TokenLine, span: Span, text: str, taken: str) -> None:
    read = span.of(text)
    line.repairs.append(Repair(span, read, taken))
    line.doubt(f"{quoted(read)} was taken for {taken}")
