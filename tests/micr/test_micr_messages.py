"""The exact sentence of every fault, and that none quotes an account number."""

from __future__ import annotations

from typing import Any

import pytest

from checkface import micr
from checkface.span import Fault, Span

M = "⑆031097765⑆ "
MESSAGES: list[tuple[str, dict[str, Any], str, tuple[int, int], str]] = [
    ("", {}, "micr-blank", (0, 0), "Expected a MICR line, read nothing."),
    ("  \t", {}, "micr-blank", (0, 3), "Expected a MICR line, read blanks only."),
    ("", {"notation": "toad"}, "micr-blank", (0, 0), "Expected a MICR line, read nothing."),
    ("1" * 257, {}, "micr-too-long", (0, 257), "Expected a line of at most 256 characters, read 257."),
    (
        "HELLO WORLD",
        {},
        "micr-transit-missing",
        (0, 11),
        "Expected a routing number between two transit symbols, read no transit symbol of any notation.",
    ),
    (
        "031097765 45601122U",
        {"notation": "tuad"},
        "micr-transit-missing",
        (0, 19),
        "Expected a routing number between two transit symbols, read no transit symbol.",
    ),
    (
        "⑆031097765 45601122⑈",
        {},
        "micr-transit-missing",
        (0, 20),
        "Expected a routing number between two transit symbols, read one transit symbol.",
    ),
    (
        "/1043/ 03109776 45601122/",
        {"notation": "x9"},
        "micr-transit-missing",
        (0, 25),
        "Expected a routing number of nine positions set off by blanks, read none in its place.",
    ),
    (
        ":012345<0123456: 0001234>",
        {},
        "micr-cmc7",
        (0, 25),
        "Expected a line in the font E-13B, read one in CMC-7, the font of other countries.",
    ),
    (
        "T011193032T d021393453d",
        {},
        "micr-notation-undecided",
        (0, 23),
        "Expected one notation that fits the line, read one that toad, tuad, tu-dollar, dbc fit differently.",
    ),
    (
        "⑆03109776⑆ 45601122⑈",
        {},
        "micr-transit-length",
        (1, 9),
        "Expected nine digits between the transit symbols, read eight digits.",
    ),
    (
        "⑆0310977651234⑆ 45601122⑈",
        {},
        "micr-transit-length",
        (1, 14),
        "Expected nine digits between the transit symbols, read 13 digits.",
    ),
    ("⑆⑆ 456⑈", {}, "micr-transit-content", (1, 1), "Expected nine digits between the transit symbols, read nothing."),
    (
        "⑆03⑈097765⑆ 45601122⑈",
        {},
        "micr-transit-content",
        (1, 10),
        "Expected nine digits between the transit symbols, read eight digits and one other character.",
    ),
    (M + "456⑆1122⑈", {}, "micr-transit-twice", (0, 16), "Expected two transit symbols, read three transit symbols."),
    (
        M[:-2] + "? 45601122⑈ 1043",
        {},
        "micr-transit-unread",
        (10, 11),
        "Expected a transit symbol, read an unread mark ten places from it.",
    ),
    (
        "⑈1043 " + M + "45601122⑈",
        {},
        "micr-auxiliary-malformed",
        (0, 5),
        "Expected digits between two On-Us symbols, or one EPC digit, read four digits and one On-Us symbol.",
    ),
    (
        "⑈" + "1" * 19 + "⑈" + M + "45601122⑈",
        {},
        "micr-field-too-long",
        (0, 21),
        "Expected at most 20 characters in the auxiliary field, read 21 characters.",
    ),
    (
        M + "1" * 20 + "⑈",
        {},
        "micr-field-too-long",
        (12, 33),
        "Expected at most 20 characters in the On-Us field, read 21 characters.",
    ),
    (
        "⑈" + "1" * 25 + "⑈" + M + "1" * 26 + "⑈",
        {},
        "micr-field-too-long",
        (0, 66),
        "Expected at most 65 characters in the line, read 66.",
    ),
    (
        M + "45601122⑈ 1043 ⑇00012345⑇",
        {},
        "micr-amount-length",
        (28, 36),
        "Expected ten digits between the amount symbols, read eight digits.",
    ),
    (
        M + "45601122⑈ ⑇0001 23456⑇",
        {},
        "micr-amount-length",
        (23, 33),
        "Expected ten digits between the amount symbols, read nine digits among ten characters.",
    ),
    (
        M + "45601122⑈ ⑇0000012345⑇ 7",
        {},
        "micr-left-over",
        (34, 36),
        "Expected the end of the line after the amount, read more characters.",
    ),
    (M + "45601122⑈ ⑇00", {}, "micr-amount-symbols", (22, 23), "Expected two amount symbols, read one amount symbol."),
    (
        "⑇⑆031097765⑆ 45601122⑈",
        {},
        "micr-amount-misplaced",
        (0, 1),
        "Expected the amount at the right end, read an amount symbol left of it.",
    ),
    (
        "⑆031097765⑆ 45601122⑈ 1043      0000012345 ",
        {},
        "micr-amount-symbols",
        (31, 43),
        "Expected two symbols around the amount, read ten digits on its positions without them.",
    ),
    (
        M + "45601122",
        {},
        "micr-on-us-missing",
        (12, 20),
        "Expected an On-Us symbol right of the account number, read none.",
    ),
    (
        M + "⑈45601122",
        {},
        "micr-on-us-unclosed",
        (12, 13),
        "Expected an On-Us symbol right of the account number, read one left of it only.",
    ),
    (
        M + "1⑈2⑈3⑈",
        {},
        "micr-on-us-symbols",
        (12, 18),
        "Expected at most one On-Us symbol before the one closing the account, read three On-Us symbols.",
    ),
    (
        M + "456⑉⑉1122⑈ 1043",
        {},
        "micr-account-malformed",
        (12, 21),
        "Expected every dash of the account between two digits, read a dash beside a blank, a dash or an edge.",
    ),
    (
        M + "4560l122⑈ 1043",
        {},
        "micr-character",
        (16, 17),
        "Expected digits and symbols of E-13B only, read 'l' (U+006C), which the font does not have.",
    ),
    (
        M + "4５ü0l122⑈ 1043",
        {},
        "micr-character",
        (13, 17),
        (
            "Expected digits and symbols of E-13B only, read three characters the font does not have, the first a digit of"
            " another script."
        ),
    ),
    (
        M + "4560\x001122⑈ 1043",
        {},
        "micr-character",
        (16, 17),
        "Expected digits and symbols of E-13B only, read the character U+0000, which the font does not have.",
    ),
    (
        "®031097765® 45601122© 1043",
        {},
        "micr-transit-missing",
        (0, 1),
        "Expected a routing number between two transit symbols, read '®' (U+00AE), a transit symbol of no notation.",
    ),
    (
        "T031097765T 456U1122O 1043",
        {},
        "micr-notation-undecided",
        (0, 26),
        "Expected the symbols of one notation, read 'U' (U+0055) and 'O' (U+004F), which no notation has together.",
    ),
    (
        "⑆074098750⑆ 45601121043⑈",
        {"layouts": {"074098750": micr.Layout(serial="last 4", account="rest 8")}},
        "micr-layout-unlike",
        (12, 24),
        "Expected the layout the house keeps for this bank, read another.",
    ),
]


@pytest.mark.parametrize(("text", "options", "kind", "span", "message"), MESSAGES)
def test_message(text: str, options: dict[str, Any], kind: str, span: tuple[int, int], message: str) -> None:
    read = micr.read(text, **options)
    faults = [read] if isinstance(read, Fault) else list(read.faults)
    assert (kind, Span(*span), message) in [(fault.kind, fault.span, fault.message) for fault in faults]


def test_every_kind_has_its_message() -> None:
    kinds = {kind for _, _, kind, _, _ in MESSAGES}
    elsewhere = {"micr-field-character", "micr-swipes-differ"}  # below, and in test_micr_swipes.py
    assert kinds | elsewhere == set(micr.FAULTS)


@pytest.mark.parametrize(
    ("field", "text", "message"),
    [
        ("routing", "03109776T", "Expected digits, blanks, dashes and * in the routing field, read another character."),
        ("on_us", "456⑈", "Expected digits, blanks, dashes, / and * in the on-us field, read another character."),
        ("epc", "x", "Expected digits, blanks and * in the epc field, read another character."),
        ("amount", "1.00", "Expected digits, blanks and * in the amount field, read another character."),
        ("auxiliary", "/1/", "Expected digits, blanks, dashes and * in the auxiliary field, read another character."),
    ],
)
def test_record_field_messages(field: str, text: str, message: str) -> None:
    read = micr.from_fields(**{"routing": "031097765", field: text})
    assert isinstance(read, Fault)
    assert (read.kind, read.message) == ("micr-field-character", message)
