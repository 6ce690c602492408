"""Ten notations, told apart or refused."""

from __future__ import annotations

import pytest

from checkface import micr
from checkface.micr import NOTATIONS, MicrLine
from checkface.span import Fault

FIELDS = {"routing": "031097765", "account": "45601122", "serial": "1043"}


@pytest.mark.parametrize("notation", NOTATIONS)
def test_a_personal_line_is_detected(notation: str) -> None:
    line = micr.read(micr.format("personal", **FIELDS, notation=notation))
    assert isinstance(line, MicrLine)
    assert (line.notation, line.account, line.serial) == (notation, "45601122", "1043") or (
        # written alike without an amount or a dash
        notation == "tu-dollar" and line.notation == "tuad"
    )


@pytest.mark.parametrize("notation", [name for name in NOTATIONS if name != "x9"])
def test_an_encoded_amount_is_read_in_every_notation(notation: str) -> None:
    text = micr.format("personal", **FIELDS, notation=notation, amount_cents=1957)
    line = micr.read(text)
    assert isinstance(line, MicrLine)
    assert (line.notation, line.amount_cents) == (notation, 1957)


@pytest.mark.parametrize(
    ("text", "notation"),
    [
        ("T031097765T 45601122U 1043", "tuad"),  # tu-dollar writes the same
        ("T031097765T", "toad"),  # as tuad and tu-dollar do
        ("T031097765T 45601122U $0000001957$", "tu-dollar"),
        ("T031097765T 456D01D122U 1043", "tuad"),
        ("A031097765A 456D01D122C 1043", "font-letters"),  # A is no amount here: nine digits, not ten, and no T
        ("d031097765d 45601122c b0000001957b", "dbc"),  # d is no dash here
        ("#031097765# 456'01'122% $0000001957$", "font-punctuation"),  # # and $ are no unread marks here
        ("t031097765t 45601122o a0000001957a", "unifiedpos"),  # a is no transit symbol of a font here
        (":031097765: 45601122< ;0000001957;", "iso2033"),
        (":031097764: 45601122< 1043", "iso2033"),  # the sum fails; still the only notation
        (":00123=004: 567=89012<", "iso2033"),
        ("<1043< :0310?7765: 456=01122<", "iso2033"),
        ("/1043/ 031097765 456-01122/", "x9"),
        ("/1043/ 03109*765 45601122/", "x9"),
    ],
)
def test_collisions(text: str, notation: str) -> None:
    line = micr.read(text)
    assert isinstance(line, MicrLine)
    assert line.notation == notation


@pytest.mark.parametrize(
    "text",
    [
        "T011193032T d021393453d",
        "t011193032t A021393453A",
        "t011193032t 456o A021393453A 789C",
        ":011193032: d021393453d",
    ],
)
def test_two_assignments_with_different_fields_are_refused(text: str) -> None:
    read = micr.read(text)
    assert isinstance(read, Fault)
    assert read.kind == "micr-notation-undecided"


@pytest.mark.parametrize("text", ["T011193032T A021393453A", ":011193032: #021393453#"])
def test_one_assignment_that_knows_every_character_is_read_and_flagged(text: str) -> None:
    read = micr.read(text)
    assert isinstance(read, MicrLine)
    assert (read.routing, read.account) == ("011193032", None)
    assert read.faults


def test_survivors_are_named() -> None:
    read = micr.read(":011193032: d021393453d")
    assert isinstance(read, Fault)
    assert read.kind == "micr-notation-undecided"
    assert read.read == "one that iso2033, dbc fit differently"
    named = micr.read(":011193032: d021393453d", "dbc")
    assert isinstance(named, MicrLine)
    assert named.routing == "021393453"


@pytest.mark.parametrize(
    "text",
    ["HELLO WORLD", "11/24/2026", "031097765 45601122 1043", "12:30", "A1 B2 C3", "Total $45.10", "d", "1234567890123"],
)
def test_other_texts_are_no_lines(text: str) -> None:
    assert isinstance(micr.read(text), Fault)


def test_a_nine_digit_account_is_never_taken_for_a_routing_number() -> None:
    """Transit symbols lost: the account 021393453 passes the sum and is still an account."""
    assert isinstance(micr.read("011193032 021393453< 1043"), Fault)
    assert isinstance(micr.read("/1043/ 0111930 021393453/", "x9"), Fault)


def test_x9_routing_stands_in_its_place_only() -> None:
    for text in ("031097765 45601122/", "4 031097765 45601122/", "/1043/ 031097765", " /1043/  4  031097765 "):
        line = micr.read(text, "x9")
        assert isinstance(line, MicrLine)
        assert line.routing == "031097765"
    for text in ("12 031097765 45601122/", "4031097765 45601122/", "/1043 031097765", "45601122/ 031097765"):
        assert isinstance(micr.read(text, "x9"), Fault)


def test_an_unknown_notation_names_the_nearest() -> None:
    with pytest.raises(ValueError, match="read 'unicod'; nearest is 'unicode'"):
        micr.read("", "unicod")
    with pytest.raises(ValueError, match="nearest is 'toad'"):
        micr.translate("", "unicode", "toda")


@pytest.mark.parametrize("notation", NOTATIONS)
def test_symbols_of_a_notation_differ(notation: str) -> None:
    written = [symbol for symbol in NOTATIONS[notation] if symbol]
    assert len(set(written)) == len(written)


def test_translate() -> None:
    text = "⑈1043⑈ 4⑆031097765⑆ 123⑉456⑈ ⑇0000001957⑇"
    assert micr.translate(text, "unicode", "iso2033") == "<1043< 4:031097765: 123=456< ;0000001957;"
    assert micr.translate(text, "unicode", "unicode") == text
    assert micr.translate("⑆03109Q765⑆", "unicode", "unifiedpos") == "t03109?765t"
    assert micr.translate("⑈1043⑈ 4⑆031097765⑆ 1?3⑉456⑈", "unicode", "x9") == "/1043/ 4 031097765  1*3-456/"
    assert micr.translate("/1043/ 4 031097765 1*3-456/", "x9", "toad") == "O1043O 4T031097765T1?3D456O"
    assert micr.translate("031097765 456/", "x9", "toad") == "T031097765T456O"
    with pytest.raises(ValueError, match="Expected no amount in x9"):
        micr.translate(text, "unicode", "x9")


def test_format_refuses_what_no_line_can_hold() -> None:
    for layout, fields, words in [
        ("busines", {}, "Expected a layout out of business"),
        ("personal", {"account": "45A"}, "Expected digits for 'a'"),
        ("personal", {"epc": "-"}, "Expected digits for 'e'"),
        ("personal", {"amount_cents": 10**10}, "at most ten digits"),
        ("personal", {"amount_cents": -1}, "at most ten digits"),
        ("personal", {"amount_cents": 1, "notation": "x9"}, "Expected no amount in x9"),
        ("personal", {"positions": True, "account": "1" * 20}, "Expected fields that fit their positions"),
        ("business", {"positions": True, "serial": "1" * 21}, "Expected fields that fit their positions"),
    ]:
        with pytest.raises(ValueError, match=words):
            micr.format(layout, **{**FIELDS, **fields})  # type: ignore[arg-type]
