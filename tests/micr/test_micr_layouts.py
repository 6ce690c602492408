"""House layouts and the printed number as evidence."""

from __future__ import annotations

import pytest

from checkface import micr
from checkface.micr import Layout, LayoutError, MicrLine

M = "⑆074098750⑆ "


def read(text: str, layout: Layout | None = None, printed: str | None = None) -> MicrLine:
    line = micr.read(text, None, {"074098750": layout} if layout else None, printed)
    assert isinstance(line, MicrLine)
    return line


@pytest.mark.parametrize(
    ("text", "layout", "account", "serial", "code"),
    [
        ("456011221043⑈", Layout(serial="last 4"), "45601122", "1043", None),
        ("456011221043⑈", Layout(serial="last 4", account="rest 8"), "45601122", "1043", None),
        ("104345601122⑈", Layout(serial="first 4"), "45601122", "1043", None),
        ("104345601122⑈", Layout(serial="rest", account="last 8"), "45601122", "1043", None),
        ("1043⑉45601122⑈", Layout(serial="lead"), "45601122", "1043", None),
        ("1043 45601122⑈", Layout(serial="lead"), "45601122", "1043", None),
        ("1043⑈45601122⑈ 27", Layout(serial="lead", transaction_code="right 1"), "45601122", "1043", "27"),
        ("45601122⑈ 1043 27", Layout(serial="right 1", transaction_code="right 2"), "45601122", "1043", "27"),
        ("45601122⑈ 27 1043", Layout(serial="right 2", transaction_code="right 1"), "45601122", "1043", "27"),
        ("456 01 122⑈ 27", Layout(transaction_code="right 1"), "45601122", None, "27"),
        ("1043⑈ 45601122", Layout(serial="rest", account="right 1"), "45601122", "1043", None),
    ],
)
def test_a_layout_comes_before_the_general_rules(
    text: str, layout: Layout, account: str, serial: str | None, code: str | None
) -> None:
    line = read(M + text, layout)
    assert (line.account, line.serial, line.transaction_code) == (account, serial, code)
    assert line.notes == ("fields placed by the layout kept for this bank",)
    assert line.settled
    for name in ("serial", "transaction_code"):
        if name in line.spans:
            assert line.spans[name].of(line.raw) == getattr(line, name)


@pytest.mark.parametrize(
    ("text", "layout"),
    [
        ("456⑈", Layout(serial="last 4")),
        ("4560⑈", Layout(serial="last 4")),
        ("45601121043⑈", Layout(serial="last 4", account="rest 8")),
        ("45601122⑈", Layout(serial="right 1")),
        ("45601122⑈ 1043 27", Layout(serial="right 1")),
        ("45601122⑈ 1043", Layout(account="first 4", serial="right 1")),
        ("45601122", Layout()),
        ("", Layout()),
    ],
)
def test_a_line_unlike_its_layout_is_flagged_and_read_by_the_general_rules(text: str, layout: Layout) -> None:
    line, general = read(M + text, layout), read(M + text)
    assert line.faults[0].kind == "micr-layout-unlike"
    assert (line.account, line.serial) == (general.account, general.serial)


def test_a_layout_with_the_serial_in_the_auxiliary_field() -> None:
    line = read("⑈1043⑈ " + M + "45601122⑈ 27", Layout(serial="auxiliary", transaction_code="right 1"))
    assert (line.account, line.serial, line.transaction_code) == ("45601122", "1043", "27")
    line = read("⑈1043⑈ " + M + "456011220007⑈", Layout(serial="last 4"))
    assert (line.account, line.serial, line.auxiliary) == ("45601122", "0007", "1043")


def test_a_layout_is_not_used_for_a_number_that_fails_its_sum() -> None:
    line = micr.read("⑆074098751⑆ 456011221043⑈", layouts={"074098751": Layout(serial="last 4")})
    assert isinstance(line, MicrLine)
    assert line.serial is None


def test_an_unread_digit_keeps_its_part_unknown() -> None:
    line = read(M + "4560?1221043⑈", Layout(serial="last 4"))
    assert (line.account, line.serial, line.unread) == (None, "1043", True)


def test_parse_layouts() -> None:
    table = micr.parse_layouts('[074098750]\nserial = "last 4"\n[031097765]\ntransaction_code = "right 1"\n')
    assert table == {"074098750": Layout(serial="last 4"), "031097765": Layout(transaction_code="right 1")}
    assert micr.parse_layouts("") == {}


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("[074098750", "Expected a layout table in TOML, read: Expected ']' at the end of a table"),
        ("[074098751]", "Expected a routing number of nine digits that passes its sum, read '074098751'."),
        ("[bank]", "Expected a routing number of nine digits that passes its sum, read 'bank'."),
        ("074098750 = 4", "Layout 074098750: expected a section with serial, account, transaction_code, read 4."),
        (
            '[074098750]\nacount = "rest"',
            "Layout 074098750: expected serial, account, transaction_code, read 'acount', nearest is 'account'.",
        ),
        (
            '[074098750]\nserial = "last"',
            "Layout 074098750, serial: expected a place out of auxiliary, first, last, lead, rest, right, none, read",
        ),
        (
            '[074098750]\naccount = "auxiliary"',
            "Layout 074098750, account: expected a place out of first, last, lead, rest, right, none, read 'auxilia",
        ),
        ("[074098750]\nserial = 4", "Layout 074098750, serial: expected a place out of auxiliary, first, last"),
        ('[074098750]\nserial = "rest"', "Layout 074098750: expected one part that takes the rest, read two."),
    ],
)
def test_a_broken_table_is_refused(text: str, message: str) -> None:
    with pytest.raises(LayoutError) as error:
        micr.parse_layouts(text)
    assert str(error.value).startswith(message)


@pytest.mark.parametrize(
    ("text", "printed", "account", "serial"),
    [
        ("456011221043⑈", "1043", "45601122", "1043"),
        ("456011221043⑈", "No. 1043", "45601122", "1043"),
        ("456011221043⑈", "001043", "45601122", "1043"),
        ("104345601122⑈", "1043", "45601122", "1043"),
        ("00104345601122⑈", "1043", "45601122", "001043"),
        ("1043⑉45601122⑈", "1043", "45601122", "1043"),
        ("1043 45601122⑈", "1043", "45601122", "1043"),
        ("45601122⑈ 27", "27", "45601122", "27"),
        ("45601122⑈ 1043 27", "1043", "45601122", "1043"),
        ("45601122⑈ 27 1043", "1043", "45601122", "1043"),
        ("1043⑈ 45601122⑈ 2741", "1043", "45601122", "1043"),
        ("1043⑈ 45601122", "45601122", "1043", "45601122"),
    ],
)
def test_the_printed_number_settles_the_serial_and_says_so(text: str, printed: str, account: str, serial: str) -> None:
    assert not read(M + text).settled
    line = read(M + text, printed=printed)
    assert (line.account, line.serial) == (account, serial)
    assert line.notes == ("serial settled by the printed number",)
    assert line.settled


@pytest.mark.parametrize(
    ("text", "printed"),
    [
        ("456011221043⑈", "1044"),  # another number
        ("456011221043⑈", "43"),  # two digits end many accounts by chance
        ("456011221043⑈", "10 43"),  # not one number
        ("456011221043⑈", ""),
        ("456011221043⑈", "000"),
        ("456011221043⑈", "１０４３"),  # full width
        ("4560112201043⑈", "1043"),  # the zero may be the account's or the serial's
        ("10434560111043⑈", "1043"),  # at both ends
        ("1043⑉45601122⑈", "1044"),
    ],
)
def test_a_printed_number_that_settles_nothing(text: str, printed: str) -> None:
    line = read(M + text, printed=printed)
    assert line.serial is None
    assert not line.settled


@pytest.mark.parametrize(
    ("text", "accounts"),
    [
        ("456011221043⑈ 2741", ("456011221043", "45601122")),
        ("1043 45601122⑈ 2741", ("104345601122", "45601122")),
        ("1043⑉45601122⑈ 2741", ("104345601122", "45601122")),
    ],
)
def test_a_printed_number_inside_the_account_unsettles_the_group_at_the_right(
    text: str, accounts: tuple[str, str]
) -> None:
    """A code of four digits right of the account looks like a serial; the printed number tells."""
    assert (read(M + text).serial, read(M + text).account) == ("2741", accounts[0])
    line = read(M + text, printed="1043")
    assert (line.serial, line.account) == (None, None)
    doubts = {ambiguity.field: ambiguity.candidates for ambiguity in line.ambiguities}
    assert doubts["account"] == accounts
    assert doubts["serial"] == ("2741", "1043")
    assert read(M + text, printed="2741").settled


def test_the_printed_number_changes_no_settled_line() -> None:
    for text in ("45601122⑈ 1043", "1043⑈ 45601122⑈", "1211⑉1234⑉56789⑈"):
        assert read(M + text, printed="777") == read(M + text)
