"""Lines that do not name the dollars: what the line ends in tells where the cents begin.

"One hundred and twenty-five cents" can be $1.25 or $100.25: every cut that gives dollars and cents is tried, and
more than one reading leaves the line ambiguous.
"""

from collections.abc import Sequence
from typing import NamedTuple

from checkface.amounts import settle
from checkface.amounts.grammar import Number, old_form, shape
from checkface.amounts.model import Candidate, money, quoted
from checkface.amounts.token_kinds import (
    CENTS,
    DECIMAL_CENTS,
    DOLLARS,
    FILLER,
    FRACTION,
    HUNDREDTHS,
    JOINERS,
    NONE,
    OH,
    PADDED,
    POINT,
    TENS,
    UNIT,
    ZERO,
)
from checkface.amounts.tokens import Token
from checkface.amounts.work import Work, trim, without_joiner
from checkface.span import Fault, Span


def read(work: Work, body: list[Token]) -> Number | Fault:
    """The value of *body*, a line without the word dollars inside."""
    last = body[-1]
    if last.kind in (FRACTION, DECIMAL_CENTS):
        if last.kind == DECIMAL_CENTS:
            work.doubt("the cents are a decimal")
        work.cents = [last]
        found = settle.with_cents(work, without_joiner(body[:-1]), last.value, unit=False)
        return _ten_before(work, body, found)
    if last.kind == NONE and len(body) > 1:
        work.doubt("the word cents is missing")
        work.cents = [last]
        return settle.with_cents(work, without_joiner(body[:-1]), 0, unit=False)
    if last.kind in JOINERS and len(body) > 1:
        cents = nothing_joined(work)
        return settle.with_cents(work, trim(body[:-1]), cents, unit=False)
    if last.kind in (CENTS, HUNDREDTHS):
        return _by_cents(work, body)
    if any(token.kind == POINT for token in body):
        return _spoken_decimal(work, body)
    return settle.with_cents(work, body, None, unit=False) if len(body) < 3 else _bare(work, body)


def _ten_before(work: Work, body: list[Token], found: Number | Fault) -> Number | Fault:
    """A ten or a digit before cents of one digit may be theirs: twenty 5/100 is $20.05 or 25 cents."""
    ten, cents = body[-2:] if len(body) > 1 else (body[-1], body[-1])
    digit = cents.kind == FRACTION and 0 < cents.value < 10 and work.text[cents.start : cents.start + 1] != "0"
    if isinstance(found, Fault) or ten.kind not in (TENS, UNIT) or not digit:
        return found
    if ten.kind == UNIT and len(body) > 2 and body[-3].kind == TENS and work.text[body[-3].end : ten.start] == "-":
        return found  # sixty-two is one number
    left = without_joiner(body[:-2])
    rest = work.number(left, unit=True, cents=0) if left else Number((Candidate(0, ""),))
    apart = tuple(value._replace(reason=f"if {ten.text} counts dollars") for value in found.values)
    more = ten.value * (10 if ten.kind == UNIT else 1) + cents.value
    values = tuple(Candidate(v.cents + more, f"if {ten.text} counts cents") for v in rest.values) if rest else ()
    return found._replace(values=(*apart, *values)) if values else found


def nothing_joined(work: Work) -> int:
    """No cents: a joiner with a drawn line behind it says so; with nothing behind it, it is unfinished."""
    if FILLER not in work.ending and not work.cents:
        work.doubt("nothing follows the joiner")
    return 0


def fraction_of_cents(work: Work, fraction: Token, last: Token) -> Fault:
    """The Fault for "45/100 cents", which is less than a cent if taken at its word."""
    span = Span(fraction.start, last.end)
    return Fault("words-fraction-of-cents", span, "a fraction of a dollar", quoted(span.of(work.text)))


def _bare(work: Work, body: list[Token]) -> Number | Fault:
    """Neither unit is named: one number, or two joined by "and" that make no single one."""
    found = settle.with_cents(work, body, None, unit=False)
    one = isinstance(found, Number)
    ways = [] if one and not old_form(body) else _joined(work, body)
    if not ways:
        return found
    work.doubt("neither dollars nor cents are named")
    values = [v._replace(reason="if it is one number") for v in found.values] if isinstance(found, Number) else []
    for way in ways:
        count = way.total % 100
        values.append(Candidate(way.total, _LAST_ARE_CENTS))
        if count < 10 and way.cents[0].kind in (UNIT, PADDED):
            values.append(Candidate(way.total + 9 * count, f"if {way.cents[0].text} counts tens of cents"))
    if DOLLARS in work.ending or len({value.cents for value in values}) == 1:
        both = ways[0].total + 99 * (ways[0].total % 100)
        values.append(Candidate(both, f"if all of it counts dollars: {money(both)}"))
    work.dollars, work.cents = ways[0].dollars, ways[0].cents
    return Number(tuple(values), ways[0].reasons)


def _spoken_decimal(work: Work, body: list[Token]) -> Number | Fault:
    """The words point four five: likely 45 cents, but spoken decimals have no place on a check."""
    point = next(place for place, token in enumerate(body) if token.kind == POINT)
    whole = work.number(body[:point], unit=True, cents=0)
    behind = body[point + 1 :]
    if whole is None or not 1 <= len(behind) <= 2 or any(token.kind not in (UNIT, ZERO) for token in behind):
        return work.malformed(body, "the amount")
    work.doubt("the cents are spoken as a decimal")
    work.dollars, work.cents = body[:point], behind
    digits = "".join(str(token.value) for token in behind)
    ways = [(int(f"{digits:0<2}"), "if the words after point count cents")]
    if len(digits) == 1:
        ways.append((int(digits), f"if {behind[0].text} counts single cents"))
    ways.append((int(digits) * 100, "if the word point means nothing"))
    return Number(
        tuple(Candidate(value.cents + more, reason) for value in whole.values for more, reason in ways), whole.reasons
    )


class _Way(NamedTuple):
    """One cut of a line into dollars and cents."""

    total: int
    dollars: list[Token]
    cents: list[Token]
    reasons: tuple[str, ...]


_LAST_ARE_CENTS = "if the last words count cents"


def _by_cents(work: Work, body: list[Token]) -> Number | Fault:
    """The line ends in the word cents or hundredths and the word dollars is missing."""
    inner, last = trim(body[:-1]), body[-1]
    if inner and inner[-1].kind == FRACTION:
        return fraction_of_cents(work, inner[-1], last)
    if inner and inner[-1].kind == NONE:
        work.cents = body[-2:]
        return settle.with_cents(work, without_joiner(inner[:-1]), 0, unit=False)
    value = work.small(inner)
    if value is not None:
        return _cents_alone(
            work, inner, value, open_=last.kind == HUNDREDTHS or shape(inner) == UNIT + UNIT or old_form(inner)
        )
    ways = _joined(work, inner)
    literal = None if ways and inner[-1].digits and not inner[0].digits else _whole(work, inner)
    values = [Candidate(way.total, _LAST_ARE_CENTS) for way in ways]
    single = literal is not None and literal.single
    if single or (not ways and last.kind == HUNDREDTHS):
        ways += [way for way in _unjoined(work, inner) if way.total not in {other.total for other in ways}]
        values = [Candidate(way.total, _LAST_ARE_CENTS) for way in ways]
    if literal is not None and single and last.kind == CENTS:
        values.append(Candidate(literal.values[0].cents // 100, "if all of it counts cents"))
    if not values:
        return work.malformed(body, "the amount")
    if ways:
        work.dollars, work.cents = ways[0].dollars, [*ways[0].cents, last]
        settle.look_at_form(work, work.dollars, 0, unit=False)
    if len(values) == 1:
        if literal is not None and not ways:
            work.cents = body
            work.doubt("more than 99 cents are counted")
        reasons = ways[0].reasons if ways else literal.reasons if literal is not None else ()
        return Number((values[0]._replace(reason="as written"),), reasons)
    work.doubt("the word dollars is missing")
    return Number(tuple(value._replace(reason=f"{value.reason}: {money(value.cents)}") for value in values))


def _whole(work: Work, inner: list[Token]) -> Number | None:
    """All of *inner* as one number, the word oh in it read as a zero."""
    if OH in shape(inner):
        inner = [token for token in inner if token.kind != OH]
    return work.number(inner, unit=True, cents=0)


def _cents_alone(work: Work, inner: list[Token], value: int, *, open_: bool) -> Number:
    """Nothing but cents; *open_* where dollars may stand before the last word: twenty five/100."""
    work.cents = inner
    ways = _unjoined(work, inner) + _joined(work, inner) if open_ else []
    if ways:
        work.doubt("the word dollars is missing")
        apart = tuple(Candidate(way.total, _LAST_ARE_CENTS) for way in ways)
        return Number((Candidate(value, "if all of it counts cents"), *apart))
    if all(token.digits for token in inner):
        work.doubt("the amount is in figures")
    if [token.text for token in inner] == ["six"] and work.ending[:1] == DOLLARS:
        work.doubt("the line may be French")
        return Number((Candidate(6, "if it is English"), Candidate(60_000, "if it is French")))
    return Number((Candidate(value, "as written"),))


def _joined(work: Work, inner: list[Token]) -> list[_Way]:
    places = [place for place, token in enumerate(inner) if token.kind in JOINERS]
    return _ways(work, [(trim(inner[:place]), trim(inner[place + 1 :])) for place in places])


def _unjoined(work: Work, inner: list[Token]) -> list[_Way]:
    return _ways(work, [(inner[:place], inner[place:]) for place in range(1, len(inner))])


def _ways(work: Work, cuts: Sequence[tuple[list[Token], list[Token]]]) -> list[_Way]:
    ways: list[_Way] = []
    for left, right in cuts:
        value = work.small(right) if left and len(right) < 4 else None
        whole = None if value is None else work.number(left, unit=True, cents=0)
        if whole is not None and value is not None and whole.single:
            ways.append(_Way(whole.values[0].cents + value, left, right, whole.reasons))
    return ways
