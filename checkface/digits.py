"""Digits that may be somebody's number: where they stand in a text, and how many of them each field shows.

A number is written plainly, or with up to three signs between two digits: blanks of any width, line ends, dashes, dots,
slashes, colons, commas, bars, apostrophes, and characters that nobody sees. Digits are those of every script, raised
and circled ones too (Unicode Character Database, Numeric_Type Decimal and Digit). What is masked keeps its length, so
that a caret still stands under the right character.

>>> hide("rent of 11/24/2026, 12 Example Lane 62701"), hide("acct 4560-1122 3344"), hide("SSN 123 45 6789")
('rent of 11/24/2026, 12 Example Lane 62701', 'acct ••••-•••• 3344', 'SSN ••• •• ••••')
>>> hide("0042-20261124-1043", "id"), hide("123-45-6789", "id"), hide("4111111111111111", "id")
('0042-20261124-1043', '•••-••-••••', '••••••••••••1111')
>>> hide_own("see ４５６０ 1122", own("45601122")), hide_own("11/24", own("1124")), hide_own("11240", own("1124"))
('see •••• 1122', '••/••', '11240')
"""

import re
from bisect import bisect_left
from collections.abc import Collection, Iterable, Sequence
from functools import lru_cache
from typing import Any, NamedTuple
from unicodedata import digit, normalize

from checkface.patterns import lazily

MASK = "\u2022"

#: Digits that are no decimal digits (``\d``): raised, lowered, circled, in brackets, with a stop, and of a few scripts.
_RAISED = (
    "\u00b2\u00b3\u00b9\u1369-\u1371\u19da\u2070\u2074-\u2079\u2080-\u2089\u2460-\u2468\u2474-\u247c\u2488-\u2490\u24ea"
    "\u24f5-\u24fd\u24ff\u2776-\u277e\u2780-\u2788\u278a-\u2792\U00010a40-\U00010a43\U00010e60-\U00010e68"
    "\U00011052-\U0001105a\U0001f100-\U0001f10a"
)
#: Signs that part two numbers, and the mask itself.
_PARTS = '"$%\u00a2-\u00a5\u201c-\u201f\u20ac' + MASK
#: No number of anybody's has fewer digits.
FEWEST = 4
_ANY_DIGIT, _ANY_SIGN = rf"[\d{_RAISED}]", rf"(?:(?![{_PARTS}])[\W_])"
_RUN = lazily(rf"{_ANY_DIGIT}(?:{_ANY_SIGN}{{0,3}}{_ANY_DIGIT}){{{FEWEST - 1},}}")
_ASCII_RUN = lazily(rf"[0-9](?:[^0-9A-Za-z\"$%]{{0,3}}[0-9]){{{FEWEST - 1},}}")
_DIGIT = lazily(_ANY_DIGIT)
_LETTERS = lazily(r"[^0-9]+")
_NOT_ASCII_PLAIN = lazily(r"[^0-9A-Z]+")

_YEAR, _MONTH, _DAY = r"(?:19|20)\d\d", r"(?:0?[1-9]|1[0-2])", r"(?:0?[1-9]|[12]\d|3[01])"
_DATED = rf"(?:{_YEAR}-{_MONTH}-{_DAY}|{_MONTH}([/.-]){_DAY}\1{_YEAR})"
#: A year, each digit in a box of its own if need be.
_COMB_YEAR = r"(?:1\D{0,3}9|2\D{0,3}0)\D{0,3}\d\D{0,3}\d"
_STAMP = r"(?:19|20)\d\d([-/._]?)(?:0[1-9]|1[0-2])\1(?:0[1-9]|[12]\d|3[01])"
#: No digit beside it, nor one behind a single sign: what stands there is not part of a longer number.
_ALONE = r"(?<!\d)(?<!\d[-./:,'|]){}(?![-./:,'|]?\d)"
_MONEY = r"(?:\d{1,2}(?:,\d{3}){2}|\d{1,3},\d{3}|\d{1,8})(?:\.\d\d(?:/100)?|[ -]\d\d?/100)"


class Limit(NamedTuple):
    """The most digits that a field shows in one run, and the longer forms that it can have besides.

    ``forms`` is looked for in a run whose digits were made ASCII; what it finds is shown, the rest by ``most``.
    """

    most: int
    why: str
    forms: re.Pattern[str] | None = None


#: How many digits each field shows, and why so many. A run of more is masked up to its last four, of fewer than eight
#: up to its last half; nine may be a social security number and are masked wholly.
SHOWN: dict[str, Limit] = {
    "prose": Limit(
        6, "names, wording and addresses hold house numbers, ZIP codes and dates", lazily(_ALONE.format(_DATED))
    ),
    "message": Limit(
        6,
        "a sentence quotes dates, amounts and fractions; numbers that are open anyway are named to it",
        lazily(_ALONE.format(rf"(?:{_DATED}|{_MONEY}|\d{{1,2}}-\d{{1,4}}/\d{{3,4}}|\d{{1,3}}(?:,000){{2,3}})")),
    ),
    "counter": Limit(6, "stores, lanes and initials have up to six digits (common practice)"),
    "reason": Limit(4, "what is kept for years needs codes of reasons and days, such as R01 on 11/24"),
    "name": Limit(4, "what was read in place of a word that is expected, or stands in a log, needs no more"),
    "file": Limit(
        6,
        "names of files carry a day, and the time of it",
        lazily(rf"(?<!\d)(?:\d{{1,6}}[-/._]+)?{_STAMP}(?:[-/._]*(?:\d{{6}}|\d{{4}}))?(?:[-/._]+\d{{1,6}})?(?!\d)"),
    ),
    "id": Limit(
        6,
        "a cash letter numbers items with 15 digits (X9.100-187), a register with fewer, in groups (common practice)",
        lazily(
            rf"\A(?:\d{{1,15}}|(?:\d{{1,6}}[-_/.:#]){{0,2}}{_STAMP}(?:[-_/.:#]?\d{{1,6}}){{0,2}}"
            r"|(?!\d{3}([-_/.:#])\d\d\2\d{4}\Z)(?=(?:\D?\d){1,12}\Z)\d{1,8}(?:[-_/.:#]\d{1,8}){1,3})\Z"
        ),
    ),
    "serial": Limit(
        6, "a check number has up to twelve digits in one piece (ASC X9 TR 100-2013)", lazily(r"\A\d{1,12}\Z")
    ),
    "line": Limit(
        6, "the fields beside the account hold their digits in one piece (ASC X9 TR 100-2013)", lazily(r"\A\d+\Z")
    ),
    "fraction": Limit(
        6,
        "prefix, institution, symbol and branch have up to 2 (or 101), 4, 4 and 2 digits (ABA numbering plan)",
        lazily(r"\A(?:101|\d{1,2})(?:[\s./_|-]{1,3}\d{1,4}){2}(?:[\s./_|-]{1,3}\d{1,2})?\Z"),
    ),
    "date": Limit(
        6,
        "a date has up to eight digits, four of them a year, each in a box of its own if need be",
        lazily(rf"\A(?:(?:\d\D{{0,3}}){{2,4}}{_COMB_YEAR}|{_COMB_YEAR}(?:\D{{0,3}}\d){{2,4}})\Z"),
    ),
    "figures": Limit(
        6,
        "a check's amount field has eight digits for dollars (ASC X9 TR 100-2013), written by thousands, and cents",
        lazily(
            r"\A(?:\d{1,8}|\d{1,2}(?:[,.' ]{1,2}\d{3}){1,2}|\d{3}[,.' ]{1,2}\d{3})"
            r"(?:[\s.,/=*_~&-]{1,3}\d\d?)?(?:[\s/]{1,3}100)?\Z"
        ),
    ),
    "amount": Limit(10, "cents in the ten digits of the amount field (ASC X9 TR 100-2013)"),
    "label": Limit(9, "what is said of a part of the line may name a routing number"),
}


def hide(text: str, field: str = "prose", but: Collection[str] = ()) -> str:
    """*text* as *field*, one of :data:`SHOWN`, may show it; runs whose digits are those of *but* are open."""
    run = _ASCII_RUN if text.isascii() else _RUN
    limit = SHOWN[field]
    return run.sub(lambda found: _hidden(found[0], limit, but), text)


def _hidden(run: str, limit: Limit, but: Collection[str]) -> str:
    if len(run) <= limit.most:
        return run
    places = [found.start() for found in _DIGIT.finditer(run)]
    if len(places) <= limit.most:
        return run
    said = run if run.isascii() else "".join(str(digit(c, c)) for c in run)
    if but and "".join(said[place] for place in places) in but:
        return run
    out, behind = list(run), 0
    cuts = [found.span() for found in limit.forms.finditer(said)] if limit.forms is not None else []
    for start, end in (*cuts, (len(run), len(run))):
        first, last = bisect_left(places, behind), bisect_left(places, start)
        if last - first > limit.most:
            for place in places[first : last - tail(last - first)]:
                out[place] = MASK
        behind = end
    return "".join(out)


def tail(count: int) -> int:
    """How many of *count* digits are shown at the end: the last four, never more than half; of nine, none."""
    return 0 if count in (0, 9) else min(4, count // 2)


def last_four(text: str) -> str:
    """*text* with every digit and letter but the last four masked; all of it when there are no more than four."""
    left = sum(map(str.isalnum, text))
    left -= 4 if left > 4 else 0
    out = []
    for character in text:
        hidden = character.isalnum() and left > 0
        out.append(MASK if hidden else character)
        left -= hidden
    return "".join(out)


def hidden(text: str, field: str) -> list[str]:
    """The digits of every run of *text* of which *field* shows only a part."""
    run = _ASCII_RUN if text.isascii() else _RUN
    found = (each[0] for each in run.finditer(text) if hide(each[0], field) != each[0])
    return list(map(_ascii_digits, found))


@lru_cache(maxsize=1024)
def own(*numbers: str | None) -> tuple[str, ...]:
    """*numbers* as :func:`hide_own` looks for them: their letters and digits, the longest first."""
    plain = {"".join(map(_plain, number)) for number in numbers if number}
    # Noughts before a number say nothing, and a part may have taken the digits of one that has letters, too.
    shorter = {short for number in plain for short in (number.lstrip("0"), _LETTERS.sub("", number))}
    plain |= {short for short in shorter if len(short) > _ALONE_UP_TO}
    return tuple(sorted((each for each in plain if len(each) >= FEWEST and each.strip("0")), key=len, reverse=True))


#: A number of no more characters is looked for by itself only: within longer ones, so few come together by chance.
_ALONE_UP_TO = 6


def hide_own(text: str, numbers: Iterable[str]) -> str:
    """*text* with these *numbers*, as :func:`own` gives them, masked to their last four, however parted."""
    said = _NOT_ASCII_PLAIN.sub("", text.upper()) if text.isascii() else "".join(map(_plain, text))
    found = [number for number in numbers if number in said]
    if not found:
        return text
    places = [place for place, character in enumerate(text) if _plain(character)]
    out = list(text)
    for number in found:
        start = said.find(number)
        while start >= 0:
            end = start + len(number)
            if len(number) > _ALONE_UP_TO or _stands_alone(text, places, start, end):
                shown = 4 if len(number) > 4 else 0
                for place in places[start : end - shown]:
                    out[place] = MASK
            start = said.find(number, end)
    return "".join(out)


def hide_parted(text: str, numbers: Sequence[str]) -> str:
    """*text* with a piece of one of *numbers* masked, and all digits but the last four where the pieces make it up."""
    if not numbers:
        return text
    text = (_ASCII_RUN if text.isascii() else _RUN).sub(lambda found: _piece(found[0], numbers), text)
    said = _ascii_digits(text)
    if not any(len(number) > _ALONE_UP_TO and number in said for number in numbers):
        return text
    places = [found.start() for found in _DIGIT.finditer(text)]
    hidden = frozenset(places[:-4])
    return "".join(MASK if place in hidden else character for place, character in enumerate(text))


def _piece(run: str, numbers: Sequence[str]) -> str:
    if len(run) <= FEWEST:
        return run
    said = _ascii_digits(run)
    return last_four(run) if len(said) > FEWEST and any(said in number for number in numbers) else run


def _ascii_digits(text: str) -> str:
    """The digits of *text* alone, each as an ASCII one."""
    return _LETTERS.sub("", text) if text.isascii() else "".join(str(digit(c, "")) for c in text)


def _stands_alone(text: str, places: list[int], start: int, end: int) -> bool:
    """Whether no letter or digit but noughts before touches the characters from *start* to *end*."""
    while start and places[start - 1] == places[start] - 1 and _plain(text[places[start - 1]]) == "0":
        start -= 1
    touched_before = start > 0 and places[start - 1] == places[start] - 1
    touched_after = end < len(places) and places[end] == places[end - 1] + 1
    return not (touched_before or touched_after)


def _plain(character: str) -> str:
    """A letter as a plain capital, a digit as an ASCII one; nothing for what is neither."""
    if not character.isalnum():
        return ""
    value = digit(character, None)
    if value is not None:
        return str(value)
    plain = normalize("NFKC", character).upper()
    return plain if len(plain) == 1 else character


def discreet(value: Any) -> str:
    """The ``repr`` of a named tuple for a log: nobody there knows which number is an account, so none stands in it."""
    said = ", ".join(f"{name}={hide(repr(each), 'name')}" for name, each in zip(value._fields, value, strict=True))
    return f"{type(value).__name__}({said})"
