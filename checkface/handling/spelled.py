"""An amount in words, as it is written on the legal line.

Common practice: dollars in words, cents as a fraction of a hundred, which leaves no room for a second reading.

>>> spelled(4510)
'Forty-five and 10/100'
>>> spelled(2_500_000)
'Twenty-five thousand and 00/100'
>>> spelled(99)
'Zero and 99/100'
"""

from __future__ import annotations

_ONES = (
    "", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen",
    "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
_TENS = ("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
#: The first amount, in cents, that is too large.
LIMIT = 10**14
_SCALES = ((1_000_000_000, "billion"), (1_000_000, "million"), (1_000, "thousand"), (1, ""))


def spelled(cents: int) -> str:
    """*cents* in words. Raises ``ValueError`` for a negative amount or one of a trillion dollars and more."""
    if not 0 <= cents < LIMIT:
        raise ValueError("Expected an amount from zero to below a trillion dollars, read another.")
    dollars, rest = divmod(cents, 100)
    words: list[str] = []
    for size, name in _SCALES:
        group, dollars = divmod(dollars, size)
        if group:
            words += [_below_thousand(group), name] if name else [_below_thousand(group)]
    return f"{' '.join(words) or 'zero'} and {rest:02d}/100".capitalize()


def _below_thousand(number: int) -> str:
    hundreds, rest = divmod(number, 100)
    words = [f"{_ONES[hundreds]} hundred"] if hundreds else []
    if rest >= 20:
        words.append(_TENS[rest // 10] + (f"-{_ONES[rest % 10]}" if rest % 10 else ""))
    elif rest:
        words.append(_ONES[rest])
    return " ".join(words)
