"""Numbers in digits on the legal line: figures, and the cents over 100."""

from __future__ import annotations

from checkface.amounts.model import Repair, quoted
from checkface.amounts.scan import Lexeme
from checkface.amounts.tokens import Line, Token
from checkface.span import Fault, Span


def figures(line: Line, lexeme: Lexeme, _text: str) -> Fault | None:
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
        line.add(lexeme, ("q" if whole else "p", value * 100 + int(decimals)), digits=True)
    else:
        line.add(lexeme, (_digit_kind(whole, value), value), digits=True)
    return None


def _digit_kind(written: str, value: int) -> str:
    if len(written) > 1 and written[0] == "0":
        return "g"
    for kind, below in (("z", 1), ("u", 10), ("e", 11), ("t", 20), ("w", 100), ("b", 1_000)):
        if value < below:
            return kind
    return "d"


_NO_CENTS = frozenset(("0", "00", "no", "none", "nothing", "zero", "xx", "x", "nil"))
_TO_DIGITS = str.maketrans("oilsbz", "011582")


def fraction(line: Line, lexeme: Lexeme, text: str) -> Fault | None:
    """Add the cents written over 100."""
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
        if len(over) != 2:
            line.doubt("the cents have not two digits")
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
        return line.choose(((cents_token, f"if {quoted(over)} stands for no cents"),))
    if plain in {"100", "xx", "xxx"}:
        line.tokens.append(cents_token)
    elif not under:
        line.doubt("nothing stands under the cents")
        line.tokens.append(cents_token)
    elif under == "10":
        return line.choose(((cents_token, "if the 10 under the cents lost a zero"),))
    elif plain.translate(_TO_DIGITS) == "100":
        place = lexeme.end - len(under)
        line.repairs.append(Repair(Span(place, lexeme.end), under, "100"))
        line.doubt(f"{quoted(under)} was taken for 100")
        line.tokens.append(cents_token)
    else:
        return Fault("words-denominator", span, "100 under the cents", quoted(under))
    return None
