"""The MICR reader against things published outside this project; each names its source."""

from __future__ import annotations

import shutil
import subprocess
import unicodedata

import pytest
from stdnum.us import rtn

from checkface import micr
from checkface.micr import MicrLine
from checkface.span import Fault


@pytest.mark.parametrize(
    ("alias", "role"),
    [
        ("MICR TRANSIT SYMBOL", "transit"),  # also the name of no other character
        ("MICR AMOUNT SYMBOL", "amount"),
        ("MICR ON US SYMBOL", "on_us"),
        ("MICR DASH SYMBOL", "dash"),
    ],
)
def test_unicode_correction_aliases(alias: str, role: str) -> None:
    """Unicode NameAliases.txt: U+2448 and U+2449 carry corrections; U+2446 and U+2447 the names OCR BRANCH BANK
    IDENTIFICATION and OCR AMOUNT OF CHECK."""
    names = {"transit": "OCR BRANCH BANK IDENTIFICATION", "amount": "OCR AMOUNT OF CHECK"}
    assert getattr(micr.NOTATIONS["unicode"], role) == unicodedata.lookup(names.get(role, alias))


@pytest.mark.parametrize("charset", ["E13B", "ISO_2033-1983"])
def test_iso_ir_98_through_iconv(charset: str) -> None:
    """ISO-IR-98 as the C library's converter knows it: the same bytes give the same symbols."""
    if not shutil.which("iconv"):
        pytest.skip("iconv is not installed")
    listed = subprocess.run(["iconv", "-l"], capture_output=True, text=True, check=True).stdout
    if charset not in listed:
        pytest.skip(f"this iconv does not know {charset}")
    line = "<1043< 4:031097765: 456=011=22< ;0000001957;"
    # E13B has no blank; the blank is set aside and put back.
    done = subprocess.run(
        ["iconv", "-f", charset, "-t", "UTF-8"], input=line.replace(" ", ""), capture_output=True, text=True
    )
    assert done.returncode == 0
    assert micr.translate(line, "iso2033", "unicode").replace(" ", "") == done.stdout
    assert micr.translate(done.stdout, "unicode", "iso2033") == line.replace(" ", "")


def test_unifiedpos_sample() -> None:
    """UnifiedPOS, MICR RawData: the standard's sample and the fields it parses from it. The sample shows a format
    only: its transit number does not pass the routing sum."""
    line = micr.read("2t123456789t123 4 567890o 123 a0000001957a")
    assert isinstance(line, MicrLine)
    assert (line.notation, line.epc, line.routing, line.account_text) == (
        "unifiedpos",
        "2",
        "123456789",
        "123 4 567890",
    )
    assert (line.serial, line.amount_cents) == ("123", 1957)
    assert line.checksum is False is rtn.is_valid("123456789")
    assert line.returned
    assert line.drawee_routing is None


def test_tr_100_positions() -> None:
    """ASC X9 TR 100-2013: position 1 at the right edge; amount symbols on 1 and 12, blank on 13, transit symbols on 33
    and 43, check digit on 34, EPC on 44, the auxiliary field left of it."""
    text = micr.format(
        "business", routing="031097765", account="45601122", serial="1043", epc="4", amount_cents=1957, positions=True
    )
    at = dict(zip(range(len(text), 0, -1), text, strict=True))
    assert {position for position, char in at.items() if char == "⑇"} == {1, 12}
    assert {position for position, char in at.items() if char == "⑆"} == {33, 43}
    assert (at[13], at[34], at[44]) == (" ", "5", "4")
    assert at[35] + at[36] == "67"
    line = micr.read(text)
    assert isinstance(line, MicrLine)
    assert line.positions


def test_tr_100_serial_number() -> None:
    """ASC X9 TR 100-2013, definition 70: the serial is in the auxiliary field of long checks, beside the account of
    short ones."""
    for text in ("⑈1043⑈ ⑆031097765⑆ 45601122⑈", "⑆031097765⑆ 45601122⑈ 1043", "⑆031097765⑆ 1043⑈ 45601122⑈"):
        line = micr.read(text)
        assert isinstance(line, MicrLine)
        assert (line.serial, line.account, line.is_long) == ("1043", "45601122", text.startswith("⑈"))


@pytest.mark.parametrize("number", ["111000025", "021200025", "076401251", "000000204"])
def test_published_routing_numbers(number: str) -> None:
    """python-stdnum's worked number; the fraction 55-2/212; 0764 0125 with check digit 1; TFM's 0000-0020."""
    line = micr.read(f"⑆{number}⑆ 45601122⑈ 1043")
    assert isinstance(line, MicrLine)
    assert (line.routing, line.checksum) == (number, True)


def test_a_published_picture_that_cannot_be_a_check() -> None:
    """A published picture of a check shows 129131673 in the line beside the fraction 11-3167/1210."""
    line = micr.read("⑆129131673⑆ 45601122⑈ 1043")
    assert isinstance(line, MicrLine)
    assert (line.routing, line.checksum) == ("129131673", False)
    assert line.checksum == rtn.is_valid("129131673")
    true = "12103167" + rtn.calc_check_digit("12103167")
    assert true not in [candidate.number for candidate in micr.misread_suggestions("129131673")]


@pytest.mark.parametrize("epc", ["2", "5"])
def test_regulation_cc_returns(epc: str) -> None:
    """12 CFR 229.31(a)(3): a qualified returned check carries the depositary bank's number and a 2 or 5."""
    line = micr.read(f"{epc}⑆031097765⑆ ⑇0000001957⑇")
    assert isinstance(line, MicrLine)
    assert (line.returned, line.drawee_routing) == (True, None)


def test_canadian_line() -> None:
    """CPA Standard 006: five digits of the branch, a dash, three of the institution, between transit symbols."""
    line = micr.read("⑈12345⑈ ⑆00123⑉004⑆ 567⑉89012⑈")
    assert isinstance(line, MicrLine)
    assert (line.country, line.routing) == ("CA", None)


@pytest.mark.parametrize("text", ["012345C0123456A 0012345E", ":012345<0123456: 001234>"])
def test_cmc7_symbols_as_readers_send_them(text: str) -> None:
    """ISO 1004-2 font CMC-7: manuals of readers send its symbols as A to E, recognition programs as 3A to 3E."""
    read = micr.read(text)
    assert isinstance(read, Fault)
    assert read.kind == "micr-cmc7"


@pytest.mark.parametrize(
    ("left", "right", "on_us", "amount"),
    [("A", "A", "C", "B"), ("[", "[", "@", "$"), ("]", "]", "@", "$"), ("[", "]", "@", "$")],
)
def test_characters_of_a_published_font(left: str, right: str, on_us: str, amount: str) -> None:
    """A font maker's E-13B manual, table of character mappings: transit A or [ or ], amount B or # or $, On-Us C or @,
    dash D or -."""
    line = micr.read(f"{left}031097765{right} 456-01-122{on_us} 1043 {amount}0000001957{amount}")
    assert isinstance(line, MicrLine)
    assert (line.account, line.serial, line.amount_cents, line.settled) == ("45601122", "1043", 1957, True)
