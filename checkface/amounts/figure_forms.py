"""The forms an amount in figures takes, from ``1,234.56`` to ``42 25/xx`` and ``1234²⁹``."""

import re
from collections.abc import Callable
from typing import NamedTuple

from checkface.amounts.model import PART_DOUBT, PARTS, Candidate, Verdict, quoted
from checkface.patterns import lazily
from checkface.span import Fault, Span


class FormValues(NamedTuple):
    """Values of one form, the likeliest first."""

    candidates: tuple[Candidate, ...]
    verdict: Verdict
    reasons: tuple[str, ...] = ()


ASCII_DIGITS = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉", "01234567890123456789")
_Make = Callable[[re.Match[str]], FormValues]

_WHOLE = r"(?P<whole>\d{1,3}(?:\s?,\s?\d{3})+|\d{1,3}(?:\s\d{3})+|\d+)"
_ZERO_MARKS = r"(?:xx|no|-0-|-+|—+|\*\*)"
_LINE = r"\s?(?:-+|—+)\s?"
_JOINT = r"(?:\s(?:and\s|&\s?)?|\s?&\s?)"
_DOLLARS = r"\s?(?:dollars?|dols?\.?)(?:\s?,)?"
_CENTS = r"\s?(?:¢|cents?|cts?\.?)"
_UNDER = "(?:100|xxx?|₁₀₀|ₓₓ)"
_RAISED = "[⁰¹²³⁴⁵⁶⁷⁸⁹]{2}"


def _dollars(match: re.Match[str]) -> int:
    return int(re.sub(r"[\s,.']", "", match["whole"])) * 100


def _clear(match: re.Match[str]) -> FormValues:
    written = match.groupdict("").get("cents", "").translate(ASCII_DIGITS)
    cents = PARTS.get(written, int(written) if written.isdecimal() else 0)
    value = (_dollars(match) if match["whole"] else 0) + cents
    return FormValues((Candidate(value, "as written"),), "clear")


def _doubted(reason: str) -> _Make:
    def make(match: re.Match[str]) -> FormValues:
        return FormValues((Candidate(_clear(match).candidates[0].cents, f"if {reason}"),), "review", (reason,))

    return make


def _guessed(reason: str, guess: str, marks: str) -> _Make:
    """Cents behind the mark that parts the thousands: they are cents, or digits of the dollars."""

    def make(match: re.Match[str]) -> FormValues:
        value = _clear(match).candidates[0].cents
        whole = Candidate(value * 100, f"if the {marks} mean nothing")
        return FormValues((Candidate(value, guess), whole), "ambiguous", (reason,))

    return make


def _no_point(match: re.Match[str]) -> FormValues:
    value = _dollars(match)
    return FormValues(
        (
            Candidate(value, "if whole dollars are meant"),
            Candidate(value // 100, "if the point before the cents is missing"),
        ),
        "review",
        ("no cents are marked off",),
    )


def _one_digit(match: re.Match[str]) -> FormValues:
    dollars, digit = _dollars(match) if match["whole"] else 0, int(match["cents"])
    tens = Candidate(dollars + digit * 10, "if a zero is missing behind the digit")
    ones = Candidate(dollars + digit, "if a zero is missing before the digit")
    return FormValues((tens, ones), "ambiguous", ("the cents have one digit",))


def _over_none(match: re.Match[str]) -> FormValues:
    """One number over crosses or zeros: the dollars, or cents where it has two digits at most."""
    value = int(match["whole"].replace(",", ""))
    dollars = Candidate(value * 100, "if no cents stand over the line")
    if value > 99:
        return FormValues((dollars,), "review", ("nothing stands over the line",))
    return FormValues((dollars, Candidate(value, "if it counts cents")), "ambiguous", ("no dollars are stated",))


def _point_as_comma(match: re.Match[str]) -> FormValues:
    guess = Candidate(_dollars(match), "if the point marks thousands")
    point = Candidate(_dollars(match) // 1_000, "if the last digit is one too many")
    return FormValues((guess, point), "ambiguous", ("three digits follow the point",))


def _cents_sign(match: re.Match[str]) -> FormValues:
    value = int(match["cents"])
    if match["point"]:
        part = Candidate(1, "if a part of one cent is meant, rounded up")
        dollars = Candidate(int(f"{match['cents']:0<2}"), "if the cents sign means nothing")
        point = Candidate(value, "if the point means nothing")
        return FormValues((dollars, point, part), "ambiguous", ("a cents sign follows a decimal",))
    return FormValues((Candidate(value, "as written"),), "review", ("the amount is in cents",))


def _cents_behind_dollars(match: re.Match[str]) -> FormValues:
    value = _clear(match).candidates[0].cents
    cents = Candidate(-(-value // 100), "if it counts cents, rounded up")
    return FormValues(
        (Candidate(value, "if the cents sign belongs to the cents alone"), cents),
        "ambiguous",
        ("a cents sign follows a decimal",),
    )


_OTHER_POINTS = {
    ":": "a colon stands for the point",
    "$": "a dollar sign stands for the point",
    "=": "a double line stands for the point",
    "..": "the point is written twice",
}


def _other_point(match: re.Match[str]) -> FormValues:
    return _doubted(_OTHER_POINTS[match["point"].strip()])(match)


def _compiled(forms: tuple[tuple[str, _Make], ...]) -> tuple[tuple[re.Pattern[str], _Make], ...]:
    return tuple((lazily(pattern, re.ASCII | re.IGNORECASE), make) for pattern, make in forms)


_FORMS = _compiled(
    (
        (rf"{_WHOLE}?\s?[.·]\s?(?P<cents>\d\d)", _clear),
        (rf"{_WHOLE}{_LINE}(?P<cents>\d\d)", _clear),
        (rf"{_WHOLE}\s?[.·]\s?(?P<cents>{_ZERO_MARKS})", _clear),
        (rf"{_WHOLE}[.·]?\s?(?P<cents>{_RAISED})", _clear),
        (
            rf"{_WHOLE}(?:(?:{_DOLLARS})?{_JOINT}|{_LINE})(?P<cents>\d\d|{_RAISED}|{_ZERO_MARKS})\s?/\s?{_UNDER}",
            _clear,
        ),
        (rf"{_WHOLE}(?P<cents>{_RAISED})\s?/\s?{_UNDER}", _clear),
        (rf"{_WHOLE}(?:\s|{_LINE})(?P<cents>\d)\s?/\s?{_UNDER}", _doubted("one digit stands for the cents")),
        (r"(?P<whole>)(?P<cents>\d\d)\s?/\s?(?:100|₁₀₀)", _doubted("no dollars are stated")),
        (rf"{_WHOLE}(?:\s?/-+|{_LINE}(?:xx|no))", _clear),
        (rf"{_WHOLE}(?P<point>:|\s?[$=]\s?|\.\.)(?P<cents>\d\d)", _other_point),
        (r"(?P<whole>\d{1,3}(?:,\d{3})+|\d+)\s(?P<cents>\d\d)", _doubted("a gap stands for the point")),
        (r"(?P<whole>\d{1,3}(?:\.\d{3})+),(?P<cents>\d\d)", _doubted("points and comma are exchanged")),
        (r"(?P<whole>\d{1,3}(?:'\d{3})+)\.(?P<cents>\d\d)", _doubted("apostrophes mark the thousands")),
        (rf"{_WHOLE}(?:\.|\s?xx+)?", _no_point),
        (rf"{_WHOLE}?\s?[.·]\s?(?P<cents>\d)", _one_digit),
        (
            r"(?P<whole>\d{1,3}(?:,\d{3})*|\d+),(?P<cents>\d\d)",
            _guessed("a comma stands before two digits", "if the last comma is a point", "commas"),
        ),
        (
            r"(?P<whole>\d{1,3}(?:\.\d{3})+)\.(?P<cents>\d\d)",
            _guessed("points mark the thousands", "if the last point marks the cents", "points"),
        ),
        (r"(?P<whole>[1-9]\d{0,2}(?:\.\d{3})+)", _point_as_comma),
        (r"(?P<whole>\d{1,3}(?:,\d{3})+|\d+)\s?/\s?(?:xxx?|00)", _over_none),
        (
            rf"{_WHOLE}(?:(?:{_DOLLARS})?{_JOINT}|{_LINE})(?P<cents>\d\d|{_ZERO_MARKS})\s?/\s?00",
            _doubted("00 stands under the cents"),
        ),
        (rf"{_WHOLE}(?:{_JOINT}|{_LINE}|\s?(?=[½¼¾]))(?P<cents>[½¼¾]|1/2|[13]/4)", _doubted(PART_DOUBT)),
        (rf"{_WHOLE},\s?(?:-+|—+)", _doubted("a comma stands for the point")),
        (r"(?P<whole>\d{1,3}(?:\.\d{3})+),\s?(?:-+|—+)", _doubted("points and comma are exchanged")),
        (r"(?P<whole>\d{1,3}(?:[\s']\d{3})+),(?P<cents>\d\d)", _doubted("a comma stands for the point")),
    )
)

_NAMED_FORMS = _compiled(
    (
        (rf"{_WHOLE}{_DOLLARS}{_JOINT}?(?P<cents>\d\d|{_RAISED}|no){_CENTS}", _clear),
        (rf"{_WHOLE}{_DOLLARS}{_JOINT}?(?P<cents>\d){_CENTS}", _doubted("one digit stands for the cents")),
        (rf"{_WHOLE}{_DOLLARS}{_JOINT}(?P<cents>\d\d)", _doubted("the word cents is missing")),
        (rf"{_WHOLE}(?:{_DOLLARS}|\.00)?\s(?:even|flat)", _clear),
        (rf"{_WHOLE}\s?[.·]\s?(?P<cents>\d\d)\s?/\s?xxx?", _doubted("the cents are marked off twice")),
        (
            rf"(?P<whole>\d{{1,3}}(?:,\d{{3}})+|\d+){_JOINT}(?P<cents>\d\d){_CENTS}",
            _doubted("the word dollars is missing"),
        ),
        (rf"(?P<point>0?\.)?(?P<cents>\d{{1,2}}){_CENTS}", _cents_sign),
        (rf"{_WHOLE}\s?\.\s?(?P<cents>\d\d){_CENTS}", _cents_behind_dollars),
    )
)
"""Forms with words or a cents sign in them, which most boxes do without."""

_AMOUNT = r"\d[\d,]*\.\d\d"
_TWO_AMOUNTS = lazily(rf"{_AMOUNT}\D+{_AMOUNT}", re.ASCII)
_SHORTHAND = lazily(r"(?<=\d)\s?(k|m|mm|mio|e\d+|thousand|million|hundred)(?![a-z])", re.ASCII | re.IGNORECASE)
_FRACTION = lazily(r"\s?(\d+)\s?/\s?(\d+)$", re.ASCII)
_DECIMALS = lazily(r"\.(\d{3,})$", re.ASCII)
_CREDIT = lazily(r"(?<=[\d\s])cr(?:edit)?\.?$", re.IGNORECASE)
_SHOWN = lazily(r"[\d,.\s]*", re.ASCII)


def read_core(core: str, span: Span) -> FormValues | Fault:
    """Every value of *core*, figures freed of signs and fillers; *span* is its place in the raw text."""
    named = "¢" in core or core.lower() != core.upper()
    for pattern, make in (*_FORMS, *_NAMED_FORMS) if named else _FORMS:
        match = pattern.fullmatch(core)
        if match:
            return make(match)
    return _fault(core, span)


def _fault(core: str, span: Span) -> Fault:
    if core[0] in "-(" or core[-1] in "-)" or core[:5].lower() == "minus":
        return Fault("figures-negative", span, "an amount above zero", f"a negative mark in {quoted(core)}")
    credit = _CREDIT.search(core)
    if credit:
        place = Span(span.start + credit.start(), span.end)
        return Fault("figures-negative", place, "an amount above zero", "the mark of a credit")
    if _TWO_AMOUNTS.search(core):
        return Fault("figures-two-amounts", span, "one amount", quoted(core))
    shorthand = _SHORTHAND.search(core)
    if shorthand:
        place = Span(span.start + shorthand.start(1), span.start + shorthand.end(1))
        return Fault("figures-shorthand", place, "figures spelled out", quoted(shorthand[1]))
    fraction = _FRACTION.search(core)
    if fraction:
        place = Span(span.start + fraction.start(1), span.start + fraction.end())
        if "." in core:
            return Fault("figures-malformed", place, "the cents behind a point or over 100, not both", quoted(core))
        if fraction[2] != "100":
            return Fault("figures-denominator", place, "100 under the cents", quoted(fraction[2]))
        return Fault(
            "figures-cents-over-99",
            place,
            "dollars, a space and at most 99 cents over 100",
            quoted(fraction[0].strip()),
        )
    decimals = _DECIMALS.search(core)
    if decimals:
        place = Span(span.start + decimals.start(1), span.end)
        return Fault("figures-decimals", place, "two digits after the point", quoted(decimals[1]))
    shown = _SHOWN.match(core)
    end = shown.end() if shown else 0
    if end == len(core):
        return Fault(
            "figures-grouping", span, "commas before every third digit and two digits after the point", quoted(core)
        )
    wrong = Span(span.start + end, span.start + end + 1)
    return Fault("figures-malformed", wrong, "figures such as 1,234.56", quoted(core[end]))
