"""The grammar of a whole legal line: prefix, dollars, unit, joiner, cents, suffix, figures in brackets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from checkface.amounts import columns, grammar
from checkface.amounts.grammar import Number, shape
from checkface.amounts.model import LARGEST, Candidate, WordsAmount, money, quoted
from checkface.amounts.resolve import Line, Token
from checkface.span import Fault, Span

_EDGE = "xD~.,"
_NUMBER_KINDS = frozenset("uetywbdzoachkmgnq")


@dataclass(slots=True)
class _Work:
    """One reading under way: what the line is taken to hold so far."""

    line: Line
    text: str
    reasons: list[str]
    notes: list[str]
    ending: str = ""
    figures: list[Token] = field(default_factory=list)
    dollars: list[Token] = field(default_factory=list)
    cents: list[Token] = field(default_factory=list)

    def doubt(self, reason: str) -> None:
        if reason not in self.reasons:
            self.reasons.append(reason)


def read(line: Line, tokens: Sequence[Token], text: str) -> WordsAmount | Fault:
    """The amount of the *tokens* of *line*."""
    work = _Work(line, text, list(line.reasons), list(line.notes))
    body = _without_figures(work, list(tokens))
    if isinstance(body, Fault):
        return body
    body = _without_edges(work, body)
    if not body:
        return _nothing(work, tokens)
    if line.language == "en" and len(body) > 2 and body[0].kind == "n" and body[1].kind in "khm":
        work.doubt(f"an empty column of {body[1].text} is stated")
        body = body[2:]
    unit = next((place for place, token in enumerate(body) if token.kind == "D"), None)
    found = _by_ending(work, body) if unit is None else _by_unit(work, body[:unit], body[unit:])
    if isinstance(found, Fault):
        return found
    return _finish(work, found)


def _nothing(work: _Work, tokens: Sequence[Token]) -> Fault:
    whole = Span(0, len(work.text))
    if all(token.kind in "~.,D" for token in tokens) and not work.line.notes:
        return Fault("words-blank", whole, "an amount in words", "a blank line")
    if work.figures:
        return Fault("words-malformed", whole, "an amount in words", "figures in brackets alone")
    return Fault("words-malformed", whole, "an amount in words", "a line without a number")


def _without_figures(work: _Work, tokens: list[Token]) -> list[Token] | Fault:
    """Take figures in brackets, or behind a dollar sign after the words, off the line."""
    body: list[Token] = []
    inside = False
    for place, token in enumerate(tokens):
        if token.kind in "()":
            inside = token.kind == "("
        elif token.digits and token.kind not in "zgp" and (inside or _behind_sign(tokens, place)):
            work.figures.append(token)
        elif not inside:
            body.append(token)
        elif token.kind not in _EDGE:
            return Fault("words-malformed", Span(token.start, token.end), "figures in the brackets", quoted(token.text))
    return body


def _behind_sign(tokens: list[Token], place: int) -> bool:
    sign = place and tokens[place - 1].text == "$"
    return bool(sign) and any(token.kind in _NUMBER_KINDS or token.kind == "f" for token in tokens[: place - 1])


def _without_edges(work: _Work, body: list[Token]) -> list[Token]:
    start, end = 0, len(body)
    while start < end and body[start].kind in _EDGE:
        start += 1
    while end > start and body[end - 1].kind in _EDGE:
        end -= 1
    work.ending = shape(body[end:])
    body = body[start:end]
    if body and body[-1].kind == "v":
        body = _without_even(work, body)
    kept = []
    for place, token in enumerate(body):
        beside = shape(body[max(0, place - 1) : place] + body[place + 1 : place + 2])
        if not (token.kind == "x" and any(kind in "DCf&J~xL" for kind in beside)):
            kept.append(token)
    return kept


def _without_even(work: _Work, body: list[Token]) -> list[Token]:
    word = body.pop().text
    while body and body[-1].kind in "x~.,":
        body.pop()
    if not body or body[-1].kind not in "DfC":
        work.doubt(f"{word} stands without the word dollars before it")
    while body and body[-1].kind in "&J":
        body.pop()
    while body and body[-1].kind in "D~.,x":
        work.ending += body.pop().kind
    return body


def _trim(tokens: Sequence[Token], kinds: str = "~.,") -> list[Token]:
    start, end = 0, len(tokens)
    while start < end and tokens[start].kind in kinds:
        start += 1
    while end > start and tokens[end - 1].kind in kinds:
        end -= 1
    return list(tokens[start:end])


def _by_unit(work: _Work, left: Sequence[Token], right: Sequence[Token]) -> Number | Fault:
    """Dollars named by their unit word: all behind it is cents."""
    behind = _trim(right, "D~.,")
    joined = bool(behind) and behind[0].kind in "&J"
    if joined:
        behind = _trim(behind[1:])
    cents: int | None
    if behind:
        read = _cents(work, behind)
        if isinstance(read, Fault):
            return read
        cents = read
    else:
        cents = _missing_cents(work) if joined else None
    work.cents = behind
    return _with_cents(work, _trim(left), cents, unit=True)


def _missing_cents(work: _Work) -> int | None:
    """A joiner with nothing behind it but a drawn line means no cents; with nothing at all it is unfinished."""
    if "~" in work.ending:
        return 0
    work.doubt("nothing follows the joiner")
    return 0


def _cents(work: _Work, tokens: list[Token]) -> int | Fault:
    kinds = shape(tokens)
    last = tokens[-1]
    if kinds == "f":
        return last.value
    if kinds == "fC":
        span = Span(tokens[0].start, last.end)
        return Fault("words-fraction-of-cents", span, "a fraction of a dollar", quoted(span.of(work.text)))
    if kinds == "p":
        work.doubt("the cents are a decimal")
        return last.value
    if kinds in {"nC", "n"}:
        if kinds == "n":
            work.doubt("the word cents is missing")
        return 0
    named = last.kind in "CH"
    value = _small(work, tokens[:-1] if named else tokens)
    if value is None:
        return _malformed(work, tokens, "the cents")
    if not named:
        work.doubt("the word cents is missing")
    return value


def _small(work: _Work, tokens: Sequence[Token]) -> int | None:
    if tokens and tokens[0].kind == "o":
        tokens = tokens[1:]
        if len(tokens) == 1 and tokens[0].kind == "u":
            work.doubt("oh stands for a zero")
            return tokens[0].value
        return None
    value = grammar.small(tokens, work.line.language)
    if value is not None and shape(tokens) == "uu" and not grammar.shape(work.dollars):
        return value
    return value


def _by_ending(work: _Work, body: list[Token]) -> Number | Fault:
    """No unit word behind the dollars: the last token tells what the line ends in."""
    last = body[-1]
    if last.kind in "fp":
        if last.kind == "p":
            work.doubt("the cents are a decimal")
        work.cents = [last]
        return _with_cents(work, _without_joiner(work, body[:-1]), last.value, unit=False)
    if last.kind in "&J":
        return _with_cents(work, _trim(body[:-1]), _missing_cents(work), unit=False)
    if last.kind in "CH":
        return _by_cents(work, body)
    if any(token.kind == "P" for token in body):
        return _spoken_decimal(work, body)
    return _with_cents(work, body, None, unit=False)


def _without_joiner(work: _Work, tokens: list[Token]) -> list[Token]:
    tokens = _trim(tokens)
    if tokens and tokens[-1].kind in "&J":
        tokens = _trim(tokens[:-1])
    return tokens


def _spoken_decimal(work: _Work, body: list[Token]) -> Number | Fault:
    point = next(place for place, token in enumerate(body) if token.kind == "P")
    whole = _number(work, body[:point], unit=True, cents=0)
    behind = body[point + 1 :]
    if whole is None or not 1 <= len(behind) <= 2 or any(token.kind not in "uz" for token in behind):
        return _malformed(work, body, "the amount")
    cents = behind[0].value * 10 + (behind[1].value if len(behind) == 2 else 0)
    work.doubt("the cents are spoken as a decimal")
    work.dollars, work.cents = body[:point], behind
    values = tuple(Candidate(value.cents + cents, "if the words after point count cents") for value in whole.values)
    return Number(values, whole.reasons)


def _by_cents(work: _Work, body: list[Token]) -> Number | Fault:
    """The line ends in the word cents or hundredths and the word dollars is missing."""
    inner, last = _trim(body[:-1]), body[-1]
    if inner and inner[-1].kind == "f":
        return _malformed_fraction(work, inner[-1], last)
    if inner and inner[-1].kind == "n":
        work.cents = body[-2:]
        return _with_cents(work, _without_joiner(work, inner[:-1]), 0, unit=False)
    value = _small(work, inner)
    if value is not None:
        return _cents_alone(work, inner, value)
    ways = _joined_ways(work, inner)
    literal = _number(work, inner, unit=True, cents=0)
    mixed = bool(ways) and inner[-1].digits and not inner[0].digits
    if literal is not None and literal.single and last.kind == "C" and not mixed:
        ways += [way for way in _unjoined_ways(work, inner) if way not in ways]
        whole = literal.values[0].cents // 100
        ways.append((Candidate(whole, f"if all of it counts cents: {money(whole)}"), [], inner, ()))
    if not ways:
        return _malformed(work, body, "the amount")
    candidate, work.dollars, work.cents, reasons = ways[0]
    if len(ways) == 1 and not any(token.kind == "o" for token in inner):
        return Number((candidate._replace(reason="as written"),), reasons)
    work.doubt("the word dollars is missing")
    return Number(tuple(way[0] for way in ways))


_Way = tuple[Candidate, list[Token], list[Token], tuple[str, ...]]


def _joined_ways(work: _Work, inner: list[Token]) -> list[_Way]:
    places = [place for place, token in enumerate(inner) if token.kind in "&J"]
    return _ways(work, [(_trim(inner[:place]), _trim(inner[place + 1 :])) for place in places])


def _unjoined_ways(work: _Work, inner: list[Token]) -> list[_Way]:
    return _ways(work, [(inner[:place], inner[place:]) for place in range(1, len(inner))])


def _ways(work: _Work, cuts: list[tuple[list[Token], list[Token]]]) -> list[_Way]:
    ways: list[_Way] = []
    for left, right in cuts:
        value = _small(work, right)
        if value is None or not left:
            continue
        whole = _number(work, left, unit=True, cents=0)
        if whole is not None and whole.single:
            total = whole.values[0].cents + value
            ways.append(
                (Candidate(total, f"if the last words count cents: {money(total)}"), left, right, whole.reasons)
            )
    return ways


def _cents_alone(work: _Work, inner: list[Token], value: int) -> Number:
    work.cents = inner
    if [token.text for token in inner] == ["six"] and work.ending[:1] == "D":
        work.doubt("the line may be French")
        return Number((Candidate(6, "if it is English"), Candidate(60_000, "if it is French")))
    return Number((Candidate(value, "as written"),))


def _malformed_fraction(work: _Work, fraction: Token, last: Token) -> Fault:
    span = Span(fraction.start, last.end)
    return Fault("words-fraction-of-cents", span, "a fraction of a dollar", quoted(span.of(work.text)))


def _with_cents(work: _Work, tokens: list[Token], cents: int | None, *, unit: bool) -> Number | Fault:
    """Read the dollars and add the cents, where None means that the line gives none."""
    work.dollars = tokens
    if not tokens:
        if cents is None:
            return _malformed(work, work.line.tokens, "the amount")
        if not any(token.text in {"only", "exactly", "just", "solo", "exactamente"} for token in work.line.tokens):
            work.doubt("no dollars are stated")
        return Number((Candidate(cents, "as written"),))
    if shape(tokens) in {"n", "z"}:
        if cents is None and not unit and shape(tokens) == "n":
            return _malformed(work, tokens, "the amount")
        return Number((Candidate(cents or 0, "as written"),))
    if any(token.kind == "L" for token in tokens):
        return _columns(work, tokens, cents or 0)
    if shape(tokens) == "q":
        if cents is not None and cents != tokens[0].value % 100:
            return _malformed(work, tokens, "the amount")
        work.doubt("the amount is in figures")
        return Number((Candidate(tokens[0].value, "as written"),))
    whole = _number(work, tokens, unit=unit, cents=cents) or (
        _apart(work, tokens) if cents is None and not unit else None
    )
    if whole is None:
        return _malformed(work, tokens, "the amount")
    _look_at_form(work, tokens, cents, unit=unit)
    added = cents or 0
    return Number(tuple(value._replace(cents=value.cents + added) for value in whole.values), whole.reasons)


def _number(work: _Work, tokens: Sequence[Token], *, unit: bool, cents: int | None) -> Number | None:
    language = work.line.language
    return grammar.number(tokens, language, unit=unit, cents=cents) or grammar.with_strays_removed(
        tokens, language, unit=unit, cents=cents
    )


def _apart(work: _Work, tokens: list[Token]) -> Number | None:
    """Two numbers joined by "and" that make no single number: dollars and cents, perhaps."""
    ways = _joined_ways(work, tokens)
    if not ways:
        return None
    work.doubt("neither dollars nor cents are named")
    candidate, work.dollars, work.cents, reasons = ways[0]
    values = [candidate]
    cents = candidate.cents % 100
    if 0 < cents < 10:
        values.append(Candidate(candidate.cents + 9 * cents, f"if {work.cents[0].text} counts tens of cents"))
    return Number(tuple(values), reasons)


def _columns(work: _Work, tokens: list[Token], cents: int) -> Number | Fault:
    dollars = columns.dollars(tokens)
    if dollars is None:
        return _malformed(work, tokens, "the amount")
    work.doubt("the digits stand in named columns")
    return Number((Candidate(dollars * 100 + cents, "as written"),))


def _look_at_form(work: _Work, tokens: list[Token], cents: int | None, *, unit: bool) -> None:
    if all(token.digits for token in tokens):
        imprint = unit and len(work.cents) > 1 and work.cents[-1].kind == "C"
        if not imprint:
            work.doubt("the amount is in figures")
    elif len(tokens) == 1 and cents is None and not unit and "D" not in work.ending:
        work.doubt("a single word may be the start of a longer amount")


def _malformed(work: _Work, tokens: Sequence[Token], what: str) -> Fault:
    """Point at the first token that cannot go on what stands before it."""
    tokens = _trim(tokens)
    if not tokens:
        return Fault("words-malformed", Span(0, len(work.text)), "an amount in words", "a line without a number")
    good = 0
    for end in range(1, len(tokens)):
        if _number(work, tokens[:end], unit=True, cents=0) is not None:
            good = end
        elif end - good > 2:
            break
    wrong = tokens[good]
    return Fault(
        "words-malformed",
        Span(wrong.start, wrong.end),
        f"{what} to end or go on with a smaller number" if good else f"{what} in words",
        quoted(Span(wrong.start, wrong.end).of(work.text)),
        after=quoted(Span(tokens[0].start, tokens[good - 1].end).of(work.text)) if good else "",
    )


def _finish(work: _Work, found: Number) -> WordsAmount | Fault:
    for reason in found.reasons:
        work.doubt(reason)
    whole = Span(0, len(work.text))
    values = [value for value in found.values if 0 < value.cents <= LARGEST]
    if not values:
        if found.values[0].cents == 0:
            return Fault("words-zero", whole, "an amount above zero", "zero")
        return Fault("words-over-range", whole, f"at most {money(LARGEST)}", money(found.values[0].cents))
    candidates = tuple(values)
    settled = found.single
    for token in work.figures:
        cents = token.value if token.kind == "q" else token.value * 100
        if settled and cents != values[0].cents and not (token.kind != "q" and token.value == values[0].cents // 100):
            work.doubt("the figures on the line differ from the words")
            candidates = (*candidates, Candidate(cents, "the figures on the line"))
    contradicted = len(candidates) > len(values)
    clear = settled and not contradicted
    return WordsAmount(
        values[0].cents if clear else None,
        candidates,
        tuple(work.line.repairs),
        "ambiguous" if not clear else "review" if work.reasons else "clear",
        work.line.language,
        tuple(work.reasons),
        tuple(work.notes),
        bool(work.figures) or any(token.digits for token in work.dollars),
        _spans(work),
    )


def _spans(work: _Work) -> dict[str, Span]:
    parts = {"dollars": work.dollars, "cents": work.cents, "figures": work.figures}
    return {name: Span(tokens[0].start, tokens[-1].end) for name, tokens in parts.items() if tokens}
