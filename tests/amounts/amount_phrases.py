"""Amounts spelled out, written from scratch for the tests: nothing here knows the reader."""

from __future__ import annotations

from dataclasses import dataclass

from hypothesis import strategies as st

_WORDS = """
zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen
sixteen seventeen eighteen nineteen
"""
_SMALL = _WORDS.split()
_TENS = ("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")


@dataclass(frozen=True)
class Style:
    """How one person spells a number."""

    hyphen: str = "-"
    comma: str = ""
    after_hundred: str = " "
    before_last: str = " "
    hundreds_form: bool = False


def below_hundred(value: int, style: Style) -> str:
    if value < 20:
        return _SMALL[value]
    ten, unit = divmod(value, 10)
    return _TENS[ten] + (style.hyphen + _SMALL[unit] if unit else "")


def below_thousand(value: int, style: Style) -> str:
    hundreds, rest = divmod(value, 100)
    if not hundreds:
        return below_hundred(rest, style)
    head = f"{_SMALL[hundreds]} hundred"
    return head + style.after_hundred + below_hundred(rest, style) if rest else head


_PLAIN = Style()


def spell(value: int, style: Style = _PLAIN) -> str:
    """Whole dollars below a thousand million."""
    hundreds, rest = divmod(value, 100)
    if style.hundreds_form and 11 <= hundreds <= 99 and hundreds % 10:
        head = f"{below_hundred(hundreds, style)} hundred"
        return head + style.after_hundred + below_hundred(rest, style) if rest else head
    parts = []
    for scale, name in ((1_000_000, "million"), (1_000, "thousand")):
        count, value = divmod(value, scale)
        if count:
            parts.append(f"{below_thousand(count, style)} {name}")
    text = f"{style.comma} ".join(parts)
    if value or not parts:
        last = below_thousand(value, style)
        joint = style.before_last if value < 100 else f"{style.comma} "
        text = text + joint + last if parts else last
    return text


STYLES = st.builds(
    Style,
    hyphen=st.sampled_from(["-", " ", " - "]),
    comma=st.sampled_from(["", ","]),
    after_hundred=st.sampled_from([" ", " and "]),
    before_last=st.sampled_from([" ", " and ", ", ", ", and "]),
    hundreds_form=st.booleans(),
)

CENTS_FORMS = (
    "{n} and {c:02d}/100",
    "{n} and {c:02d}/100 dollars",
    "{n} dollars and {c:02d}/100",
    "{n} {c:02d}/100",
    "{n} & {c:02d}/xx",
    "{n} with {c:02d}/100 Dollars",
    "*** {n} and {c:02d}/100 ----------",
    "pay exactly {n} US dollars and {c:02d} cents",
    "{n} dollars and {w} cents",
    "{n} and {c:02d} / 100______DOLLARS",
    "the sum of {n} dollars {c:02d} cts.",
    "{n} and {c:02d}⁄100 ***",
)


@st.composite
def phrases(draw: st.DrawFn, largest: int = 99_999_999) -> tuple[str, int]:
    """A phrase in some style, and its value in cents."""
    dollars = draw(st.one_of(st.integers(1, 999), st.integers(1, 99_999), st.integers(1, largest)))
    cents = draw(st.integers(0, 99))
    style = draw(STYLES)
    form = draw(st.sampled_from(CENTS_FORMS))
    text = form.format(n=spell(dollars, style), c=cents, w=below_hundred(cents, style) if cents else "no")
    case = draw(st.sampled_from([str, str.upper, str.title, str.capitalize]))
    return case(text), dollars * 100 + cents
