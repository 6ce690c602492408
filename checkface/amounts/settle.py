"""Put dollars and cents together, and decide how sure the reading is."""

from __future__ import annotations

from checkface.amounts import columns
from checkface.amounts.grammar import TWO_FIGURES, Number, digit_by_digit, shape
from checkface.amounts.model import LARGEST, Candidate, WordsAmount, distinct, money
from checkface.amounts.token_kinds import ARTICLE, CENTS, COLUMN, DECIMAL, DOLLARS, NONE, PADDED, ZERO
from checkface.amounts.tokens import Token
from checkface.amounts.work import Work
from checkface.span import Fault, Span

_THAT_IS_ALL = frozenset(("only", "exactly", "just", "precisely", "solo", "solamente", "exactamente", "unicamente"))


def with_cents(work: Work, tokens: list[Token], cents: int | None, *, unit: bool) -> Number | Fault:
    """Read the dollars in *tokens* and add *cents*, where None means that the line gives none."""
    work.dollars = tokens
    kinds = shape(tokens)
    added = cents or 0
    if not tokens:
        if cents is None:
            return work.malformed(work.line.tokens, "the amount")
        if not any(token.text in _THAT_IS_ALL for token in work.line.tokens):
            work.doubt("no dollars are stated")
        return Number((Candidate(added, "as written"),))
    if kinds == NONE and cents is not None and not unit:
        work.doubt("no stands for no dollars")
    if tokens[0].digits and kinds in (ZERO, PADDED) and not (unit and _cents_named(work)):
        work.doubt("the amount is in figures")
    if kinds == ZERO or (kinds == PADDED and not tokens[0].value) or (kinds == NONE and (unit or cents is not None)):
        return Number((Candidate(added, "as written"),))
    if kinds == ARTICLE and (unit or DOLLARS in work.ending):
        work.doubt(f"the article {tokens[0].text} stands for one")
        return Number((Candidate(100 + added, "as written"),))
    if COLUMN in kinds:
        dollars = columns.dollars(tokens)
        if dollars is None:
            return work.malformed(tokens, "the amount")
        work.doubt("the digits stand in named columns")
        return Number((Candidate(dollars * 100 + added, "as written"),))
    if kinds == DECIMAL and cents in {None, tokens[0].value % 100}:
        work.doubt("the amount is in figures")
        return Number((Candidate(tokens[0].value, "as written"),))
    if len(tokens) == 1 and tokens[0].digits and cents is None and not unit and not work.even:
        work.doubt("the amount is in figures")
        return Number(_pointless(tokens[0].value), ("no cents are marked off",))
    whole = work.number(tokens, unit=unit, cents=cents)
    if whole is None:
        return work.malformed(tokens, "the amount")
    look_at_form(work, tokens, cents, unit=unit)
    return whole._replace(values=tuple(value._replace(cents=value.cents + added) for value in whole.values))


def _pointless(value: int) -> tuple[Candidate, ...]:
    """What digits without a point can be, as in the courtesy box: they confirm no other digits without one."""
    return (
        Candidate(value * 100, "if whole dollars are meant"),
        Candidate(value, "if the point before the cents is missing"),
    )


def look_at_form(work: Work, tokens: list[Token], cents: int | None, *, unit: bool) -> None:
    """Doubt forms that carry an amount but not in the way a legal line should."""
    named = _cents_named(work)
    if all(token.digits for token in tokens):
        if not (unit and named and work.cents[0].digits):  # a machine imprint names both units: "5550 DOL'S 00 CTS"
            work.doubt("the amount is in figures")
    elif len(tokens) == 1 and cents is None and not unit and DOLLARS not in work.ending:
        work.doubt("a single word may be the start of a longer amount")
    by_digits = named and (shape(work.cents[:-1]) in TWO_FIGURES or work.cents[0].digits)
    if digit_by_digit(tokens) and not (unit and by_digits):
        work.doubt("the number is given digit by digit")
    if by_digits and not work.cents[0].digits and not digit_by_digit(tokens):
        work.doubt("the cents are given digit by digit")


def _cents_named(work: Work) -> bool:
    """Whether a number of cents is followed by the word cents, as a machine imprints it."""
    return len(work.cents) > 1 and work.cents[-1].kind == CENTS


def finish(work: Work, found: Number) -> WordsAmount | Fault:
    """The reading of the whole line, with its verdict."""
    for reason in found.reasons:
        work.doubt(reason)
    whole = Span(0, len(work.text))
    values = distinct(found.values)
    if work.line.repairs:
        values = tuple(v._replace(reason="as repaired") if v.reason == "as written" else v for v in values)
    if not values:
        if found.values[0].cents == 0:
            return Fault("words-zero", whole, "an amount above zero", "zero")
        return Fault("words-over-range", whole, f"at most {money(LARGEST)}", "more")
    differing = _differing_figures(work, values[0].cents) if len(values) == 1 else ()
    if differing:
        work.doubt("the figures on the line differ from the words")
        values = distinct((*values, *differing))
    several = len(values) > 1
    if not several:
        _look_at_units(work, *divmod(values[0].cents, 100))
    open_ = several and not found.likeliest
    return WordsAmount(
        cents=None if open_ else values[0].cents,
        candidates=values,
        repairs=tuple(work.line.repairs),
        verdict="ambiguous" if open_ else "review" if several or work.reasons else "clear",
        language=work.line.language,
        reasons=tuple(work.reasons),
        notes=tuple(work.line.notes),
        figures_on_line=bool(work.figures) or any(token.digits for token in work.dollars),
        spans=_spans(work),
    )


_ONE_DOLLAR, _ONE_CENT = frozenset(("dollar", "dolar")), frozenset(("cent", "centavo", "centimo"))


def _look_at_units(work: Work, dollars: int, cents: int) -> None:
    """Doubt units in the singular that count more than one, and an abbreviation at which the line may be cut off."""
    units = {token.text for token in work.line.tokens if token.kind in (DOLLARS, CENTS)}
    for one, count in ((_ONE_DOLLAR, dollars), (_ONE_CENT, cents)):
        if count > 1 and units & one:
            work.doubt(f"{(units & one).pop()} is in the singular")
    if work.even and cents:
        work.doubt("a word for no cents stands behind cents")
    if not work.cents and units & {"dol", "dols"}:
        work.doubt("the line may be cut off")


def _differing_figures(work: Work, cents: int) -> tuple[Candidate, ...]:
    """Figures beside the words that are neither the amount nor its whole dollars."""
    return tuple(
        Candidate(token.value if token.kind == DECIMAL else token.value * 100, "the figures on the line")
        for token in work.figures
        if token.value != (cents if token.kind == DECIMAL else cents // 100)
    )


def _spans(work: Work) -> dict[str, Span]:
    parts = {"dollars": work.dollars, "cents": work.cents, "figures": work.figures}
    return {name: Span(tokens[0].start, tokens[-1].end) for name, tokens in parts.items() if tokens}
