"""The grammar of numbers in words, as regular expressions over the kinds of their tokens.

``one thousand two hundred and thirty-four`` has the shape ``ukuh&yu``. A shape that the grammar accepts has
exactly one value. Shapes that people use though they leave a scale word out (``nineteen ninety-nine``) are
recognised too, and give every value they may stand for.
"""

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from checkface.amounts.model import Candidate, Language, money
from checkface.amounts.token_kinds import (
    AND,
    ARTICLE,
    BELOW_HUNDRED,
    COMMA,
    FILLER,
    HUNDRED,
    HUNDREDS,
    MARKS,
    MILLION,
    MORE_DIGITS,
    OH,
    PADDED,
    SCALES,
    STOP,
    TEEN,
    TEN,
    TENS,
    THOUSAND,
    THREE_DIGITS,
    TWO_DIGITS,
    UNIT,
    ZERO,
)
from checkface.amounts.tokens import Token
from checkface.patterns import lazily

_LOW = f"(?:{TENS}{UNIT}|[{BELOW_HUNDRED}])"
_BELOW = f"(?:[{UNIT}{ARTICLE}]{HUNDRED}(?:{AND}?{_LOW})?|{_LOW}|{THREE_DIGITS})"
_BIG = f"(?:{_BELOW}|{ARTICLE})"
_MILLIONS = f"{_BIG}{MILLION}(?:{COMMA}?{AND}?(?={_BIG}))?"
_THOUSANDS = f"{_BIG}{THOUSAND}(?:{COMMA}?{AND}?(?=[{UNIT}{ARTICLE}]{HUNDRED}|{_LOW}|{THREE_DIGITS}))?"
_ROUND_HUNDREDS = f"(?:{TENS}{UNIT}|[{TEN}{TEEN}{TENS}{TWO_DIGITS}]){HUNDRED}(?:{AND}?{_LOW})?"
_IN_DIGITS = f"{MORE_DIGITS}|{ZERO}|{PADDED}"
_ENGLISH = lazily(f"(?:{_MILLIONS})?(?:{_THOUSANDS})?(?:{_BELOW})?|{_ROUND_HUNDREDS}|{_IN_DIGITS}")
_LOW_ES = f"(?:[{TENS}{TEN}]{AND}{UNIT}|[{BELOW_HUNDRED}])"
_BELOW_ES = f"(?:{HUNDREDS}{_LOW_ES}?|{_LOW_ES}|{THREE_DIGITS})"
_SPANISH = lazily(f"(?:{_BELOW_ES}{MILLION})?(?:{_BELOW_ES}?{THOUSAND})?(?:{_BELOW_ES})?|{_IN_DIGITS}")
_NUMBERS = {"en": _ENGLISH, "es": _SPANISH}
_CENTS = {"en": lazily(f"{_LOW}|[{ZERO}{PADDED}]"), "es": lazily(f"{_LOW_ES}|[{ZERO}{PADDED}]")}
_DIGIT_BY_DIGIT = lazily(f"[{ZERO}{UNIT}]{{3,}}")
_DROPPED = lazily(f"((?:{_BELOW}?[{MILLION}{THOUSAND}]{AND}?)*)({_LOW}|{_LOW}(?={OH}))({OH}?)({_LOW})")
_TEN_AND_TEEN = lazily(f"(?:.*[^{TENS}])?{TENS}{TEEN}")
TWO_FIGURES = frozenset((UNIT + UNIT, ZERO + UNIT, ZERO + ZERO))
"""Shapes of cents given digit by digit."""


class Number(NamedTuple):
    """What a run of number tokens is worth, in cents, and why that is not beyond doubt; ``likeliest`` tells that the
    first of several values is likelier than the others."""

    values: tuple[Candidate, ...]
    reasons: tuple[str, ...] = ()
    likeliest: bool = False

    @property
    def single(self) -> bool:
        """Whether there is one value that is no guess."""
        return len(self.values) == 1 and not self.values[0].reason.startswith("if ")


def digit_by_digit(tokens: Sequence[Token]) -> bool:
    """Whether *tokens* write a number as its digits: one two three."""
    return _DIGIT_BY_DIGIT.fullmatch(shape(tokens)) is not None


def shape(tokens: Sequence[Token]) -> str:
    """The kinds of *tokens*, one letter each."""
    return "".join(token.kind for token in tokens)


def small(tokens: Sequence[Token], language: Language) -> int | None:
    """The value of tokens that write a number of cents, 0 to 99, or None."""
    kinds = shape(tokens)
    if kinds in TWO_FIGURES and not any(token.digits for token in tokens):
        return tokens[0].value * 10 + tokens[1].value
    if not _CENTS[language].fullmatch(kinds):
        return None
    value = sum(token.value for token in tokens)
    return value if value < 100 else None


def old_form(tokens: Sequence[Token]) -> bool:
    """Whether a Spanish number below thirty is in three words, as of old: diez y seis, veinte y cinco."""
    return any(
        ten.kind in (TEN, TENS) and ten.value < 30 and joint.kind == AND and unit.kind == UNIT
        for ten, joint, unit in zip(tokens, tokens[1:], tokens[2:], strict=False)
    )


def _odd_spanish(tokens: Sequence[Token]) -> Iterator[str]:
    """What a word that is lost or wrong leaves behind: ciento with nothing below a hundred, uno mil, dos millón."""
    for token, behind in zip(tokens, (*tokens[1:], None), strict=True):
        if token.text == "ciento" and (behind is None or behind.kind not in BELOW_HUNDRED):
            yield "a word is missing behind ciento"
    if len(tokens) > 1 and tokens[0].text == "uno" and tokens[1].kind in (THOUSAND, MILLION):
        yield f"uno stands before {tokens[1].text}"
    million = next((place for place, token in enumerate(tokens) if token.kind == MILLION), 0)
    if million and (tokens[million].text == "millon") != (_value(tokens[:million]) == 1):
        yield f"{tokens[million].text} is in the wrong number"
    if old_form(tokens):
        yield "a number below thirty is in three words"


def number(tokens: Sequence[Token], language: Language, *, unit: bool, cents: int | None) -> Number | None:
    """What *tokens* are worth; None when they are no number.

    *unit* tells that the word dollars follows. *cents* are the cents given elsewhere, None when there are none:
    then a number may hold its own.
    """
    kinds = shape(tokens)
    if not kinds or kinds[-1] in (AND, COMMA):
        return None
    reasons = [] if all(token.digits == tokens[0].digits for token in tokens) else ["digits stand among the words"]
    plain, bare = kinds, False
    if language == "en" and kinds[0] in SCALES:
        plain, bare = ARTICLE + kinds, True
    if _NUMBERS[language].fullmatch(plain):
        reasons += _odd_spanish(tokens) if language == "es" else ()
        if ARTICLE in kinds[1:]:
            reasons.append("an article stands inside the number")
        if bare:
            reasons.append(f"no one stands before {tokens[0].text}")
        if kinds[0] in TEN + TENS and kinds[1:2] == HUNDRED:
            reasons.append("hundreds in a round ten")
        value = _value(tokens)
        named = Candidate(value * 100, "as written")
        tail = tokens[-1]
        loose = cents is None and not unit and tail.digits and not tokens[0].digits and tail.value < 100
        if loose:
            apart = (value - tail.value) * 100 + tail.value
            return Number(
                (
                    Candidate(value * 100, f"if {tail.text} counts dollars"),
                    Candidate(apart, f"if {tail.text} counts cents"),
                ),
                tuple(reasons),
            )
        return Number((named,), tuple(reasons))
    if language == "es":
        return None
    return _irregular(tokens, kinds, reasons, unit=unit, cents=cents)


def _irregular(
    tokens: Sequence[Token], kinds: str, reasons: list[str], *, unit: bool, cents: int | None
) -> Number | None:
    if digit_by_digit(tokens):
        value = int("".join(str(token.value) for token in tokens))
        values = [Candidate(value * 100, "digit by digit")]
        if cents is None and not unit:
            values.append(Candidate(value, "if the last two digits count cents"))
        return Number(tuple(values), tuple(reasons), likeliest=True)
    dropped = _DROPPED.fullmatch(kinds)
    if dropped and not _TEN_AND_TEEN.fullmatch(kinds):
        return _dropped_scale(tokens, dropped, unit=unit, cents=cents)
    return None


def _dropped_scale(tokens: Sequence[Token], dropped: re.Match[str], *, unit: bool, cents: int | None) -> Number | None:
    """Both readings of "one thirty": a scale word left out, or dollars and cents without their units."""
    base = _value(tokens[: dropped.end(1)])
    first = _value(tokens[dropped.end(1) : dropped.end(2)])
    second = _value(tokens[dropped.end(3) :])
    two_units = dropped[2] == dropped[4] == UNIT and not dropped[3]
    values = []
    joined = base + first * (10 if two_units else 100) + second
    if not (base and (first > 9 or base % 1_000)):
        values.append(Candidate(joined * 100, f"if a scale word was left out: {money(joined * 100)}"))
    if not unit and not cents and not (two_units and base):
        split = (base + first) * 100 + second
        values.append(Candidate(split, f"if the last words count cents: {money(split)}"))
    if values and two_units:
        hundreds = (base + first * 100 + second) * 100
        values.append(Candidate(hundreds, f"if hundred was left out: {money(hundreds)}"))
    if values and tokens[0].digits and first % 10 == 0 and first > 10 and second < 10 and not base:
        values.append(
            Candidate((first + second) * 100, f"if {tokens[0].text} is a ten: {money((first + second) * 100)}")
        )
    if len(values) == 1:
        other = (base + second if base else first * 1_000 + second) * 100
        why = f"if {tokens[dropped.end(1)].text} is a slip" if base else "if thousand was left out"
        values.append(Candidate(other, f"{why}: {money(other)}"))
    return Number(tuple(values), ("a scale word is missing",)) if values else None


def _value(tokens: Sequence[Token]) -> int:
    total = group = 0
    empty = True
    for token in tokens:
        kind = token.kind
        if kind in (THOUSAND, MILLION):
            total += (1 if empty else group) * token.value
            group, empty = 0, True
        elif kind == HUNDRED:
            group, empty = (1 if empty else group) * 100, False
        elif kind not in (AND, COMMA):
            group, empty = group + token.value, False
    return total + group


def with_strays_removed(tokens: Sequence[Token], language: Language, *, unit: bool, cents: int | None) -> Number | None:
    """Read a number that commas, stops or fillers interrupt; a comma that may mean thousands gives both values."""
    kept = [token for token in tokens if token.kind not in MARKS]
    if len(kept) == len(tokens):
        return None
    whole = number(kept, language, unit=unit, cents=cents)
    if whole is None:
        return None
    strays = [place for place, token in enumerate(tokens) if token.kind in MARKS]
    names = {COMMA: "a comma", STOP: "a stop", FILLER: "a filler"}
    reason = f"{names[tokens[strays[0]].kind]} stands inside the number"
    if len(strays) == 1 and tokens[strays[0]].kind == COMMA:
        apart = _thousands_mark(tokens, strays[0], language)
        if apart is not None:
            given = tuple(value._replace(reason="if the comma means nothing") for value in whole.values)
            return Number((*given, *apart), (reason,))
    return Number(whole.values, (*whole.reasons, reason))


def _thousands_mark(tokens: Sequence[Token], place: int, language: Language) -> tuple[Candidate, ...] | None:
    before = number(tokens[:place], language, unit=True, cents=0)
    after = number(tokens[place + 1 :], language, unit=True, cents=0)
    if before is None or after is None or tokens[place - 1].kind in SCALES:
        return None
    high, low = before.values[0].cents, after.values[0].cents
    if high >= 100_000 or low >= 100_000:
        return None
    if tokens[place - 1].kind == TENS and len(tokens) == place + 2 and low < 1_000:
        return (Candidate(high + low // 100, "if the words after the comma count cents"),)
    return (Candidate(high * 1_000 + low, "if the comma stands for thousand"),)
