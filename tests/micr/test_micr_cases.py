"""Lines as banks print them, field by field."""

from __future__ import annotations

from typing import Any

import pytest

from checkface import micr
from checkface.micr import MicrLine
from checkface.span import Fault

# Each: line, notation, expected values, what it shows. Layouts: ASC X9 TR 100-2013; specimen routing numbers.
LINES: list[tuple[str, str | None, dict[str, Any], str]] = [
    (
        "⑈001234⑈ ⑆011193032⑆ 123⑉456⑉789⑈",
        None,
        {"routing": "011193032", "auxiliary": "001234", "serial": "001234", "account": "123456789"},
        "business, dashes inside the account",
    ),
    (
        "⑈20417⑈ ⑆021393453⑆ 88120045⑈ 27",
        None,
        {"auxiliary": "20417", "serial": "20417", "account": "88120045", "transaction_code": "27"},
        "transaction code right of the account",
    ),
    (
        "⑈20417⑈ ⑆021393453⑆ 88120045⑈ 2741",
        None,
        {"serial": "20417", "account": "88120045", "transaction_code": "2741"},
        "a code of four digits is no serial where the auxiliary field holds one",
    ),
    (
        "⑈20417⑈ 4⑆021294413⑆ 88120045⑈",
        None,
        {"routing": "021294413", "auxiliary": "20417", "epc": "4", "account": "88120045"},
        "substitute check",
    ),
    (
        "⑆031097765⑆ 0045601122⑈ 1043",
        None,
        {"routing": "031097765", "account": "0045601122", "serial": "1043", "auxiliary": None, "epc": None},
        "personal, serial right; leading zeros kept",
    ),
    (
        "⑆042097482⑆ 1043⑈ 45601122⑈",
        None,
        {"account": "45601122", "serial": "1043", "ambiguities": ()},
        "serial leading, closed by its own symbol",
    ),
    (
        "⑆061095520⑆⑈45601122⑈ 1043",
        None,
        {"account": "45601122", "serial": "1043", "ambiguities": ()},
        "symbols on both sides of the account",
    ),
    ("⑆063093779⑆ 0000456011⑈ 0099", None, {"account": "0000456011", "serial": "0099"}, "zero-filled fields"),
    (
        "⑆065093010⑆ 1211⑉1234⑉56789⑈",
        None,
        {"account": "1211123456789", "account_text": "1211⑉1234⑉56789", "serial": None, "ambiguities": ()},
        "several dashes are the account's own",
    ),
    ("⑆084294450⑆ 45601122⑈ 1043", None, {"epc": None, "returned": False}, "ordinary item"),
    ("6⑆084294450⑆ 45601122⑈ 1043", None, {"epc": "6", "account": "45601122", "serial": "1043"}, "remotely created"),
    (":101093275: 45601122< 1043", "iso2033", {"routing": "101093275", "account": "45601122"}, "ISO 2033"),
    ("A103098553A 45601122C 1043", "font-letters", {"routing": "103098553", "serial": "1043"}, "letters of fonts"),
    ("a103098553a 45601122c 1043", None, {"notation": "font-letters", "account": "45601122"}, "small letters of fonts"),
    ("⑆211395604⑆ 45601122⑈ 1043", None, {"routing": "211395604", "checksum": False}, "the sum fails"),
    ("⑆011394776⑆", None, {"routing": "011394776", "checksum": True, "account": None, "faults": ()}, "transit only"),
    (
        "  ⑈001234⑈   ⑆221394676⑆    123456789⑈  ",
        None,
        {"routing": "221394676", "auxiliary": "001234", "account": "123456789"},
        "runs of blanks at every gap",
    ),
    (
        "⑈001234⑈⑆231397605⑆123456789⑈",
        None,
        {"routing": "231397605", "auxiliary": "001234", "account": "123456789"},
        "no blanks at all",
    ),
    (
        "⑆243098617⑆45601122⑈1043⑇0000012345⑇",
        None,
        {"account": "45601122", "serial": "1043", "amount_cents": 12345},
        "no blanks, amount",
    ),
    ("⑆031097765⑆ 123 4 567890⑈ 123", None, {"account": "1234567890", "serial": "123"}, "blanks in the account"),
    ("⑆031097765⑆ 45601122⑈ 0000001043", None, {"account": None, "serial": None}, "which is the account?"),
    ("⑆031097765⑆ 0045601122⑈ 01043\r\n", None, {"serial": "01043", "account": "0045601122"}, "line end kept out"),
    ("⑆031097765⑆\t0045601122⑈\u00a01043", None, {"serial": "1043", "account": "0045601122"}, "other blanks"),
    ("⑆031097765⑆ 12-34-5678⑈ 1043", None, {"account": "12345678", "account_text": "12-34-5678"}, "hyphen for dash"),
    ("/001234/ 4 011193032 123-456/", "x9", {"auxiliary": "001234", "epc": "4", "account": "123456"}, "X9 fields"),
    ("011193032 45601122/ 1043", None, {"notation": "x9", "routing": "011193032", "serial": "1043"}, "X9 found"),
]


@pytest.mark.parametrize(("line", "notation", "expected", "why"), LINES)
def test_fields(line: str, notation: str | None, expected: dict[str, Any], why: str) -> None:
    read = micr.read(line, notation)
    assert isinstance(read, MicrLine), why
    assert {name: getattr(read, name) for name in expected} == expected, why


@pytest.mark.parametrize(("line", "notation", "expected", "why"), LINES)
def test_spans_cover_the_fields(line: str, notation: str | None, expected: dict[str, Any], why: str) -> None:
    read = micr.read(line, notation)
    assert isinstance(read, MicrLine)
    spans = read.spans
    for name in ("routing", "auxiliary", "epc", "serial", "transaction_code"):
        value = getattr(read, name)
        if value is not None:
            assert spans[name].of(line) == value
    if read.account_text is not None:
        assert spans["account"].of(line) == read.account_text
    if read.amount_cents is not None:
        assert int(spans["amount"].of(line)) == read.amount_cents


def line_of(text: str, **options: Any) -> MicrLine:
    read = micr.read(text, **options)
    assert isinstance(read, MicrLine)
    return read


def doubted(line: MicrLine) -> dict[str, tuple[str, ...]]:
    return {ambiguity.field: ambiguity.candidates for ambiguity in line.ambiguities}


def test_two_groups_right_of_the_account_stay_open() -> None:
    line = line_of("⑆071098973⑆ 45601122⑈ 1043 27")
    assert (line.account, line.serial, line.transaction_code) == ("45601122", None, None)
    assert doubted(line) == {"serial": ("1043", "27"), "transaction_code": ("27", "1043")}


def test_a_glued_serial_stays_open() -> None:
    line = line_of("⑆074098750⑆ 456011221043⑈")
    assert (line.account, line.serial) == ("456011221043", None)
    assert set(doubted(line)) == {"account", "serial"}


def test_a_leading_group_set_off_by_a_blank_is_usually_the_serial() -> None:
    line = line_of("⑆031097765⑆ 1043 45601122⑈")
    assert (line.serial, line.account) == ("1043", "45601122")
    assert doubted(line)["account"] == ("45601122", "104345601122")


@pytest.mark.parametrize(
    ("field", "accounts"),
    [
        ("1044 45601122O", ("104445601122", "45601122")),
        ("1044 45601122O 02", ("104445601122", "45601122")),
        ("4560 1122O", ()),
        ("12 45601122O", ()),
        ("456 112 233 9O", ("4561122339", "1122339")),
    ],
)
def test_beside_a_serial_in_the_auxiliary_field_a_leading_group_may_be_no_part_of_the_account(
    field: str, accounts: tuple[str, ...]
) -> None:
    line = line_of(f"⑈1043⑈ ⑆071098973⑆ {field.replace('O', '⑈')}")
    assert (line.auxiliary, line.serial) == ("1043", "1043")
    assert line.account == "".join(filter(str.isdigit, field.partition("O")[0]))
    assert doubted(line) == ({"account": accounts} if accounts else {})


def test_a_leading_group_set_off_by_one_dash_is_undecided() -> None:
    line = line_of("⑆031097765⑆ 1043⑉45601122⑈")
    assert (line.serial, line.account) == (None, None)
    assert doubted(line) == {"account": ("45601122", "104345601122"), "serial": ("1043",)}


def test_a_short_group_right_of_the_account_is_a_code() -> None:
    line = line_of("⑆031097765⑆ 45601122⑈ 27")
    assert (line.serial, line.transaction_code, line.account) == (None, "27", "45601122")
    assert doubted(line)["serial"] == ("27",)


def test_canadian_line() -> None:
    line = line_of("⑈12345⑈ ⑆00123⑉004⑆ 567⑉89012⑈")
    assert (line.country, line.routing, line.checksum) == ("CA", None, None)
    assert (line.serial, line.account) == ("12345", "56789012")
    assert line.notes == ("Canadian transit: branch 00123, institution 004",)


def test_a_us_dollar_item_of_a_canadian_bank() -> None:
    line = line_of("⑈12345⑈ ⑆00123⑉004⑆ 567⑉89012⑈ 45")
    assert (line.transaction_code, line.notes[-1]) == (
        "45",
        "transaction code 45 marks a US-dollar item in Canada (from memory)",
    )


def test_a_us_line_that_lost_its_first_symbol_is_not_surely_foreign() -> None:
    for text in ("031097765⑆ 45601122⑈ 1043", "4031097765⑆ 45601122⑈ 1043"):
        assert doubted(line_of(text))["country"] == ("other", "US")


def test_eight_transit_digits_are_never_padded() -> None:
    line = line_of("⑆00123004⑆ 56789012⑈")
    assert (line.routing, line.country) == (None, "US")
    assert doubted(line)["country"] == ("US", "CA")


def test_old_four_dash_four_form() -> None:
    line = line_of("⑆1234⑉5678⑆ 45601122⑈ 1043")
    assert (line.routing, line.checksum, line.routing_old_form) == (None, None, "1234-5678")
    assert not line.settled


@pytest.mark.parametrize(
    "text",
    [
        "⑈123456⑈ 091097637⑆ 000123⑈ 31",  # India: nine digits closed by one transit symbol
        "⑈123456⑈ 12⑉34⑉56⑆ 12345678⑈",  # United Kingdom, from memory
        "⑈000001⑈ 012⑉345⑆ 1234⑉56789⑈",  # Australia, from memory
        "⑆1234⑉567⑆ 7654321⑈",  # Japan, from memory
    ],
)
def test_foreign_lines_are_no_us_lines(text: str) -> None:
    line = line_of(text)
    assert (line.country, line.routing, line.checksum) == ("other", None, None)


def test_an_indian_form_may_be_a_us_line_that_lost_a_symbol() -> None:
    assert doubted(line_of("⑈123456⑈ 091097637⑆ 000123⑈ 31")) == {"country": ("other", "US")}


@pytest.mark.parametrize("text", [":012345<0123456: 001234>", "#00001 012345678>012345678901<", "A012345B678E0123"])
def test_cmc7_is_another_font(text: str) -> None:
    read = micr.read(text)
    assert isinstance(read, Fault)
    assert read.kind == "micr-cmc7"


def test_one_unread_routing_digit_is_recovered_but_not_taken() -> None:
    line = line_of("⑆1210?3747⑆ 45601122⑈ 1043")
    assert (line.routing, line.routing_repaired, line.unread) == (None, "121093747", True)
    assert (line.account, line.serial) == ("45601122", "1043")


def test_two_unread_routing_digits_give_candidates_only() -> None:
    line = line_of("⑆12??93772⑆ 45601122⑈ 1043")
    assert (line.routing, line.routing_repaired, line.unread) == (None, None, True)
    assert "122193772" in doubted(line)["routing"]


def test_three_unread_routing_digits_give_none() -> None:
    assert doubted(line_of("⑆12???3772⑆ 45601122⑈ 1043"))["routing"] == ()


def test_an_unread_digit_where_canada_has_its_dash() -> None:
    assert doubted(line_of("⑆03109?765⑆ 45601122⑈ 1043"))["country"] == ("US", "CA")


@pytest.mark.parametrize("mark", micr.UNREAD_MARKS)
def test_an_unread_account_digit_is_not_recoverable(mark: str) -> None:
    line = line_of(f"⑆125098418⑆ 4560{mark}122⑈ 1043")
    assert (line.routing, line.account, line.serial, line.unread) == ("125098418", None, "1043", True)
    assert line.account_text == f"4560{mark}122"


def test_full_width_digits_are_no_digits() -> None:
    line = line_of("⑆3０1０957０1⑆ 456０1122⑈ 1０43")
    assert (line.routing, line.account, line.serial, line.routing_repaired) == (None, None, None, None)
    assert [fault.kind for fault in line.faults] == ["micr-character"]


def test_two_transit_fields_leave_the_routing_number_open() -> None:
    line = line_of("⑆291095659⑆ 45601122⑈ 1043 ⑆301095701⑆")
    assert line.routing is None
    assert doubted(line)["routing"] == ("291095659", "301095701")
    assert line.faults[0].kind == "micr-transit-twice"


def test_a_transit_symbol_lost_beside_nine_good_digits() -> None:
    line = line_of("⑆031097765? 45601122⑈ 1043")
    assert (line.routing, line.unread) == ("031097765", True)
    assert [fault.kind for fault in line.faults] == ["micr-transit-unread"]


@pytest.mark.parametrize("epc", ["2", "5"])
def test_a_returned_item_names_the_depositary_bank(epc: str) -> None:
    """12 CFR 229.31(a)(3)."""
    line = line_of(f"{epc}⑆011193032⑆ ⑇0000001957⑇")
    assert (line.routing, line.drawee_routing, line.returned, line.amount_cents) == ("011193032", None, True, 1957)
    assert line_of(f"4{line.raw[1:]}").drawee_routing == "011193032"


@pytest.mark.parametrize("epc", "013789")
def test_an_unassigned_epc_is_no_fault(epc: str) -> None:
    line = line_of(f"{epc}⑆031097765⑆ 45601122⑈ 1043")
    assert (line.epc, line.settled) == (epc, True)


def test_a_postal_money_order_has_a_serial_and_no_account() -> None:
    """Treasury Financial Manual, volume 2 part 4 chapter 7000: 0000-0020 is 000000204."""
    line = line_of("⑆000000204⑆ 12345678901⑈")
    assert (line.serial, line.account) == ("12345678901", None)


def test_a_treasury_check_has_no_account() -> None:
    line = line_of("⑈40450⑈ ⑆000000518⑆ 123456789⑈ 091024")
    assert (line.account, line.serial, line.auxiliary) == (None, None, "40450")
    assert set(doubted(line)) == {"serial"}


def test_long_paper() -> None:
    assert line_of("⑈001234⑈ ⑆011193032⑆ 123456789⑈").is_long
    assert not line_of("4⑆011193032⑆ 123456789⑈ 1043").is_long
    assert not line_of("  ⑆011193032⑆ 123456789⑈ 1043").is_long
    assert line_of("12⑆011193032⑆ 123456789⑈ 1043").is_long
    assert line_of("/1/ 011193032 123456789/", notation="x9").is_long
    assert not line_of("4 011193032 123456789/", notation="x9").is_long


def test_all_zeros_pass_the_sum_and_are_never_proposed() -> None:
    assert line_of("⑆000000000⑆ 45601122⑈ 1043").checksum
    assert line_of("⑆0000?0000⑆ 45601122⑈ 1043").routing_repaired is None


def test_a_line_is_a_plain_immutable_value() -> None:
    line = line_of("⑆031097765⑆ 0045601122⑈ 1043")
    assert hash(line) == hash(line_of(line.raw))
    with pytest.raises(AttributeError):
        line.routing = "000000000"  # type: ignore[misc]


def test_an_auxiliary_field_of_two_groups() -> None:
    text = "⑈1043⑉07⑈ ⑆011193032⑆ 123456789⑈"
    line = line_of(text)
    assert (line.auxiliary, line.serial, doubted(line)) == ("1043⑉07", None, {"serial": ("1043", "07")})
    line = line_of(text, printed_serial="1043")
    assert (line.serial, line.notes) == ("1043", ("serial settled by the printed number",))
