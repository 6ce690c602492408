"""The fraction in every print, and what it refuses."""

from __future__ import annotations

import os

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from checkface import routing
from checkface.span import Fault, Span

MANY = 2000 if os.environ.get("CHECKFACE_THOROUGH") else 200

FORM = "Expected a prefix, a dash, an institution, a slash and a routing symbol, read them in another order or number."


def parts(text: str) -> tuple[str | None, str, str, str | None]:
    fraction = routing.read_fraction(text)
    assert not isinstance(fraction, Fault), fraction.message
    return fraction.prefix, fraction.institution, fraction.symbol, fraction.branch


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("53-9477/113", ("53", "9477", "0113", None)),
        ("53-9477/0113", ("53", "9477", "0113", None)),
        (" 53 - 9477 / 113 ", ("53", "9477", "0113", None)),
        ("53–9477⁄113", ("53", "9477", "0113", None)),
        ("53‑9477∕113", ("53", "9477", "0113", None)),
        ("53-9477／113", ("53", "9477", "0113", None)),
        ("90-9374/1210", ("90", "9374", "1210", None)),
        ("55-2/212", ("55", "0002", "0212", None)),
        ("9477/113", (None, "9477", "0113", None)),
        ("053-9477/113", ("53", "9477", "0113", None)),
        ("101-677/215", ("101", "0677", "0215", None)),
        ("15-51/000", ("15", "0051", "0000", None)),
        ("53-9477\n113", ("53", "9477", "0113", None)),
        ("53-9477\r\n  113", ("53", "9477", "0113", None)),
        ("9477\n113", (None, "9477", "0113", None)),
        ("53-9477\n-------\n113", ("53", "9477", "0113", None)),
        ("53-9477\n———\n113", ("53", "9477", "0113", None)),
        ("53-9477\n─────\n113", ("53", "9477", "0113", None)),
        ("53-9477\n_______\n 113", ("53", "9477", "0113", None)),
        ("53-9477\n/\n113", ("53", "9477", "0113", None)),
        ("53-9477 113", ("53", "9477", "0113", None)),
        ("53-9477/113 02", ("53", "9477", "0113", "02")),
        ("53-9477/113-02", ("53", "9477", "0113", "02")),
        ("53-9477/113 (02)", ("53", "9477", "0113", "02")),
        ("53-9477/113\n02", ("53", "9477", "0113", "02")),
        ("53-9477\n-----\n113\n0204", ("53", "9477", "0113", "0204")),
        ("53-9477 (02)/113", ("53", "9477", "0113", "02")),
        ("53-9477-02/113", ("53", "9477", "0113", "02")),
        ("53-9477 02\n113", ("53", "9477", "0113", "02")),
        ("53 9477/113", ("53", "9477", "0113", None)),
        ("053  9477 / 0113", ("53", "9477", "0113", None)),
        ("53 9477\n113", ("53", "9477", "0113", None)),
        ("53 9477 02/113", ("53", "9477", "0113", "02")),
        ("53 9477/113 02", ("53", "9477", "0113", "02")),
        ("53 9477 113", ("53", "9477", "0113", None)),
        ("9477 02/113", (None, "9477", "0113", "02")),  # no prefix has four digits, none is 102
        ("102 02/113", (None, "0102", "0113", "02")),
    ],
)
def test_the_forms_in_print(text: str, expected: tuple[str | None, str, str, str | None]) -> None:
    assert parts(text) == expected


@pytest.mark.parametrize(
    ("text", "kind", "span", "message"),
    [
        ("", "fraction-blank", (0, 0), "Expected a fraction, read nothing."),
        ("\n", "fraction-blank", (0, 1), "Expected a fraction, read nothing."),
        ("9" * 81, "fraction-length", (0, 81), "Expected a fraction, read 81 characters."),
        (
            "53-9477",
            "fraction-symbol",
            (7, 7),
            "Expected a routing symbol of three or four digits after a slash or a line, read none.",
        ),
        (
            "53-9477/ ",
            "fraction-symbol",
            (8, 9),
            "Expected a routing symbol of three or four digits after a slash or a line, read none.",
        ),
        (
            "53-9477/11",
            "fraction-symbol",
            (8, 10),
            "Expected a routing symbol of three or four digits, read 2 digits.",
        ),
        ("53-9477/1", "fraction-symbol", (8, 9), "Expected a routing symbol of three or four digits, read 1 digit."),
        (
            "53-9477/01130",
            "fraction-symbol",
            (8, 13),
            "Expected a routing symbol of three or four digits, read 5 digits.",
        ),
        ("S3-9477/113", "fraction-characters", (0, 1), "Expected digits, a dash and a slash, read a letter."),
        (
            "53-94７7/113",
            "fraction-characters",
            (5, 6),
            "Expected digits, a dash and a slash, read a digit of another script.",
        ),
        ("53-9477*113", "fraction-characters", (7, 8), "Expected digits, a dash and a slash, read another character."),
        ("11 24 2026", "fraction-form", (0, 10), FORM),
        (
            "53-9477-113",
            "fraction-form",
            (0, 11),
            FORM,
        ),
    ],
)
def test_each_refusal_says_what_was_read(text: str, kind: str, span: tuple[int, int], message: str) -> None:
    fault = routing.read_fraction(text)
    assert isinstance(fault, Fault)
    assert (fault.kind, fault.span, fault.message) == (kind, Span(*span), message)


def test_spans_cover_the_figures_in_the_raw_text() -> None:
    text = "  53 - 9477\n-----\n113 (02)"
    fraction = routing.read_fraction(text)
    assert isinstance(fraction, routing.Fraction)
    assert {part: span.of(text) for part, span in fraction.spans.items()} == {
        "prefix": "53",
        "institution": "9477",
        "symbol": "113",
        "branch": "02",
    }


def test_what_a_fraction_stands_for() -> None:
    fraction = routing.read_fraction("53-9477/113")
    assert isinstance(fraction, routing.Fraction)
    assert fraction.first_eight == "01139477"
    assert fraction.number == "011394776"
    assert (fraction.states, fraction.district) == (("MA",), 1)


def test_an_unknown_prefix_has_no_place() -> None:
    for text in ("100-9477/113", "0-9477/113", "9477/113"):
        fraction = routing.read_fraction(text)
        assert isinstance(fraction, routing.Fraction)
        assert (fraction.place, fraction.states) == (None, ())


BARS = st.sampled_from(["/", " / ", "⁄", "\n", "\n---\n", " \n ____ \n "])


@given(st.integers(1, 101), st.integers(0, 9999), st.integers(0, 9999), BARS, st.booleans())
@settings(max_examples=MANY)
def test_a_printed_fraction_is_read_back(prefix: int, institution: int, symbol: int, bar: str, filled: bool) -> None:
    under = f"{symbol:04}" if filled else f"{symbol:03}"
    assert parts(f"{prefix}-{institution}{bar}{under}") == (str(prefix), f"{institution:04}", f"{symbol:04}", None)


@given(
    st.integers(1, 99) | st.just(101),
    st.integers(0, 9999),
    st.integers(100, 1299),
    st.sampled_from([" ", "  ", "\t", "    "]),
    BARS | st.just(" "),
)
@settings(max_examples=MANY)
def test_blanks_for_the_dash_read_as_the_dash(prefix: int, institution: int, symbol: int, gap: str, bar: str) -> None:
    assert parts(f"{prefix}{gap}{institution}{bar}{symbol}") == parts(f"{prefix}-{institution}{bar}{symbol}")


@given(st.one_of(st.text(max_size=90), st.text("0123456789-/ \n()", max_size=90)))
@settings(max_examples=MANY)
def test_any_text_gives_a_fraction_or_a_fault_within_it(text: str) -> None:
    read = routing.read_fraction(text)
    if isinstance(read, Fault):
        assert 0 <= read.span.start <= read.span.end <= len(text)
    else:
        assert all(span.of(text).isdigit() for span in read.spans.values())
        assert read.first_eight.isascii()
        assert len(read.first_eight) == 8


def test_long_junk_is_refused_at_once() -> None:
    for junk in ("1", "1-", "\n", "53-9477/113 ", "-", "/", "53 ", " "):
        read = routing.read_fraction(junk * 50_000)
        assert isinstance(read, Fault)
        assert read.kind in ("fraction-length", "fraction-blank")
