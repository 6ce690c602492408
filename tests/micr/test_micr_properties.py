"""Properties of the reader: round trips, no crash on any text, a bound on its length, one answer by every way."""

from __future__ import annotations

import os
import string

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from checkface import micr
from checkface.micr import MicrLine, common, reader
from checkface.micr.notation import plain, sum_holds
from checkface.span import Fault

EXAMPLES = 5000 if os.environ.get("CHECKFACE_THOROUGH") else 300
more = settings(max_examples=EXAMPLES, deadline=None)


@st.composite
def routings(draw: st.DrawFn) -> str:
    prefix = draw(st.sampled_from(sorted(micr.repair.PAPER_PREFIXES - {"00"})))
    eight = prefix + draw(st.text("0123456789", min_size=6, max_size=6))
    return next(eight + digit for digit in "0123456789" if sum_holds(eight + digit))


accounts = st.text("0123456789", min_size=7, max_size=10)
dashed = st.lists(st.text("0123456789", min_size=2, max_size=4), min_size=3, max_size=3).map("-".join)
serials = st.text("0123456789", min_size=3, max_size=5)
codes = st.text("0123456789", min_size=1, max_size=2)
amounts = st.none() | st.integers(0, 10**10 - 1)
epcs = st.sampled_from(["", *"0123456789"])
notations = st.sampled_from(list(micr.NOTATIONS))

SURE = ["business", "business-code", "personal", "leading-closed", "leading-closed-code", "closed-both-sides"]
PRINTED = ["leading-dash", "leading-blank", "glued", "personal-code", "code-serial"]


def agrees(line: MicrLine, expected: dict[str, object]) -> None:
    assert {name: getattr(line, name) for name in expected} == expected


@more
@given(
    st.sampled_from(SURE),
    notations,
    routings(),
    accounts | dashed,
    serials,
    codes,
    epcs,
    amounts,
    st.booleans(),
    st.booleans(),
)
def test_every_settled_layout_comes_back_in_every_notation(
    layout: str,
    notation: str,
    routing: str,
    account: str,
    serial: str,
    code: str,
    epc: str,
    cents: int | None,
    detect: bool,
    positions: bool,
) -> None:
    assume(len(account) + len(serial) + len(code) <= 14)  # what the 19 positions of an On-Us field hold
    if notation == "x9":
        cents = None
    positions = positions and notation != "x9"
    text = micr.format(
        layout,
        routing=routing,
        account=account,
        serial=serial,
        transaction_code=code,
        epc=epc,
        amount_cents=cents,
        notation=notation,
        positions=positions,
    )
    line = micr.read(text, None if detect else notation)
    assert isinstance(line, MicrLine)
    assert line.settled
    if positions:
        assert line.positions
    agrees(
        line,
        {
            "raw": text,
            "routing": routing,
            "account": account.replace("-", ""),
            "serial": serial,
            "transaction_code": code if layout.endswith("code") else None,
            "epc": epc or None,
            "amount_cents": cents,
            "auxiliary": serial if layout.startswith("business") else None,
        },
    )


@more
@given(st.sampled_from(PRINTED), notations, routings(), accounts, serials, st.text("123456789", min_size=2, max_size=2))
def test_the_printed_number_settles_every_other_layout_or_says_what_remains(
    layout: str, notation: str, routing: str, account: str, serial: str, code: str
) -> None:
    text = micr.format(
        layout, routing=routing, account=account, serial=serial, transaction_code=code, notation=notation
    )
    bare = micr.read(text, notation)
    assert isinstance(bare, MicrLine)
    assert not bare.settled
    line = micr.read(text, notation, printed_serial=serial)
    assert isinstance(line, MicrLine)
    if line.settled:
        assert "serial settled by the printed number" in line.notes
        agrees(line, {"account": account, "serial": serial})
    elif serial.strip("0"):
        assert line.account in (None, account, serial + account, account + serial)
    assert line.routing == routing


TABLE = micr.reader_table({"transit": "T[", "on_us": 'O"', "amount": "A", "unread": "?x", "before": ["C", "MICR "]})
junk = st.one_of(
    st.text(),
    st.text("\x00\x02\x03\x1b\x1c\ufeff MICRT03109776501234O_-/$?[]\"'", max_size=60),
    st.text(string.printable),
    st.text("0123456789⑆⑇⑈⑉ ?-", max_size=80),
    st.text("01ABCDTUOtaobcd:;<=/#$%' ?*-0", max_size=60),
)


@more
@given(junk, st.none() | notations | st.just(TABLE), st.none() | st.text(max_size=6))
def test_any_text_is_read_without_a_crash(
    text: str, notation: str | micr.ReaderTable | None, printed: str | None
) -> None:
    read = micr.read(text, notation, printed_serial=printed)
    if isinstance(read, Fault):
        assert read.kind in micr.FAULTS
        assert 0 <= read.span.start <= read.span.end <= len(text)
        return
    for fault in read.faults:
        assert fault.kind in micr.FAULTS
        assert 0 <= fault.span.start <= fault.span.end <= len(text)
        assert not set(fault.message) & set("⑆⑇⑈⑉")
    for span in read.spans.values():
        assert 0 <= span.start <= span.end <= len(text)
    for name in ("routing", "epc", "account", "serial", "transaction_code"):
        value = getattr(read, name)
        assert value is None or (value.isascii() and value.isdigit())
        assert value is None or "".join(char for char in read.spans[name].of(text) if char in "0123456789") == value
    assert len(read.spans) == len(read.places)
    doubted = [ambiguity.field for ambiguity in read.ambiguities]
    assert len(doubted) == len(set(doubted))
    assert read.routing is None or len(read.routing) == 9
    assert (read.checksum is None) == (read.routing is None)


@more
@given(st.text("0123456789⑆⑇⑈⑉ ?-x０", max_size=70), st.text(max_size=5))
def test_a_character_outside_the_font_never_settles(text: str, strange: str) -> None:
    for read in (micr.read(text), micr.read(text + strange)):
        if isinstance(read, MicrLine) and read.settled:
            assert not set(read.raw) - set("0123456789⑆⑇⑈⑉ \t\r\n\u00a0-")


words = [
    "⑆031097765⑆",
    "⑈1043⑈",
    "45601122⑈",
    "123⑉45-67⑈",
    "⑆",
    "⑈",
    "⑇0000012345⑇",
    "⑇",
    " ",
    "  ",
    "45601122",
    "1043",
    "27",
    "⑉",
    "?",
    "6",
    "x",
]
line_parts = st.lists(st.sampled_from(words), max_size=9)


@more
@given(line_parts.map("".join))
def test_the_short_way_equals_the_general_way(text: str) -> None:
    short = common.read(text, text, "unicode", common.UNICODE, {})
    if short is not None:
        assert short == reader._general(text, "unicode", plain(text, "unicode"), {}, "")


@more
@given(
    routings(),
    accounts,
    serials,
    codes | st.just(""),
    epcs,
    amounts,
    st.sampled_from(["business-code", "personal", "leading-closed-code"]),
    st.booleans(),
)
def test_the_short_way_is_taken_and_equals_the_general_way(
    routing: str, account: str, serial: str, code: str, epc: str, cents: int | None, layout: str, positions: bool
) -> None:
    assume(len(account) + len(serial) + len(code) <= 14)
    text = micr.format(
        layout,
        routing=routing,
        account=account,
        serial=serial,
        transaction_code=code,
        epc=epc,
        amount_cents=cents,
        positions=positions,
    )
    line = common.read(text, text, "unicode", common.UNICODE, {})
    assert line is not None
    assert line == reader._general(text, "unicode", plain(text, "unicode"), {}, "")
    assert line == common.read(text, plain(text, "unicode"), "unicode", common.PLAIN, {})


@more
@given(routings(), accounts, serials, notations, notations)
def test_translation_keeps_the_fields(routing: str, account: str, serial: str, source: str, target: str) -> None:
    text = micr.format("leading-closed", routing=routing, account=account, serial=serial, notation=source)
    line = micr.read(micr.translate(text, source, target), target)
    assert isinstance(line, MicrLine)
    agrees(line, {"routing": routing, "account": account, "serial": serial})


@more
@given(st.text("0123456789⑆⑇⑈⑉ ?T", max_size=60))
def test_translation_makes_no_symbol_of_a_foreign_character(text: str) -> None:
    assert micr.translate(text, "unicode", "toad").count("T") == text.count("⑆")


@pytest.mark.parametrize(
    "junk",
    ["⑆", " ", "⑈ ", "0", "⑆031097765⑆", "T", "A ", "/1/ ", "?", ":<", "\u00e9", "⑆ 1 ⑇", "[", "_", "\x02"],
    ids=ascii,
)
def test_a_longer_text_is_refused_unread(junk: str) -> None:
    text = junk * (100_000 // len(junk))
    for notation in (None, TABLE, *micr.NOTATIONS):
        read = micr.read(text, notation)
        assert isinstance(read, Fault)
        assert read.kind == "micr-too-long"
        assert micr.read_swipes(text, text, notation) == read


@pytest.mark.parametrize(
    "junk",
    ["⑆", " ", "⑈ ", "0", "A ", "/1/ ", "4 ", "⑈1⑈ ", " ⑆0", "-", "1-", "T_", "[1", "x", "MICR ", "$", "\x02 ", "/00"],
    ids=ascii,
)
def test_the_longest_text_looked_at_is_no_line(junk: str) -> None:
    text = (junk * 256)[: reader.LIMIT - 1] + "!"
    for notation in (None, TABLE, *micr.NOTATIONS):
        read = micr.read(text, notation)
        assert isinstance(read, Fault) or not read.settled
        assert micr.read_swipes(text, text[1:], notation) is not None


@more
@given(junk, st.none() | notations)
def test_what_stands_around_a_line_changes_nothing_in_it(text: str, notation: str | None) -> None:
    plain_read = micr.read(text, notation)
    framed = micr.read(f"\x02{text}\x03\r\n", notation)
    if isinstance(plain_read, MicrLine):
        assert isinstance(framed, MicrLine)
        assert framed.raw[1:-3] == text
        assert framed[2:8] == plain_read[2:8]
        assert framed.settled == plain_read.settled
        assert framed.places == tuple((name, start + 1, end + 1) for name, start, end in plain_read.places)
    else:
        assert isinstance(framed, Fault)
        assert framed.kind == plain_read.kind
