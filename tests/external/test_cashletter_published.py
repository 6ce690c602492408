"""The layout of cash letters and their characters, against what is published outside this project.

Positions, typed by hand: public field tables of X9.100-187-2013/2016 and a bank's published X9.37 specification. Code
pages: Python's own cp037 and cp1140, and the C library's converter for IBM-1047.
"""

from __future__ import annotations

import shutil
import subprocess

import pytest

from checkface.cashletter import layouts, return_reasons
from checkface.cashletter.form import decode, encode

ALL = bytes(range(256))


@pytest.mark.parametrize("level", ["03", "30", "35"])
def test_published_lengths(level: str) -> None:
    """80 bytes but for 27, 34 (46 and a key), 52 (117 and key, signature, image), 62 (100) and 68 (45 and user data)."""
    lengths = {kind: layout.least for kind, layout in layouts(level).items()}
    assert {kind: length for kind, length in lengths.items() if length != 80} == {
        "27": 46, "34": 46, "52": 117, "62": 100, "68": 45,
    }  # fmt: skip
    assert sorted(lengths) == [
        "01", "10", "20", "25", "26", "27", "28", "31", "32", "33", "34", "35", "50", "52", "54", "61", "62", "68", "70",
        "85", "90", "99",
    ]  # fmt: skip


@pytest.mark.parametrize("level", ["03", "30", "35"])
def test_fields_follow_one_another_without_gap_or_overlap(level: str) -> None:
    for kind, layout in layouts(level).items():
        place = 0
        for number, field in enumerate(layout.fields, 1):
            assert (field.number, field.start) == (number, place), (kind, field)
            place += field.length or 0
        assert layout.fields[0].name == "Record Type"


#: Record, field number, first and last position from 1, name: what a check's money and line depend on.
POSITIONS = [
    ("01", 2, 3, 4, "Standard Level"),
    ("01", 4, 6, 14, "Immediate Destination Routing Number"),
    ("01", 5, 15, 23, "Immediate Origin Routing Number"),
    ("01", 6, 24, 31, "File Creation Date"),
    ("10", 5, 23, 30, "Cash Letter Business Date"),
    ("10", 10, 45, 52, "Cash Letter ID"),
    ("20", 5, 23, 30, "Bundle Business Date"),
    ("20", 7, 39, 48, "Bundle ID"),
    ("25", 2, 3, 17, "Auxiliary On-Us"),
    ("25", 3, 18, 18, "External Processing Code"),
    ("25", 4, 19, 26, "Payor Bank Routing Number"),
    ("25", 5, 27, 27, "Payor Bank Routing Number Check Digit"),
    ("25", 6, 28, 47, "On-Us"),
    ("25", 7, 48, 57, "Item Amount"),
    ("25", 8, 58, 72, "ECE Institution Item Sequence Number"),
    ("25", 11, 75, 75, "MICR Valid Indicator"),
    ("25", 13, 77, 78, "Check Detail Record Addendum Count"),
    ("25", 14, 79, 79, "Correction Indicator"),
    ("26", 11, 76, 76, "BOFD Correction Indicator"),
    ("28", 8, 39, 39, "Endorsing Bank Correction Indicator"),
    ("31", 2, 3, 10, "Payor Bank Routing Number"),
    ("31", 3, 11, 11, "Payor Bank Routing Number Check Digit"),
    ("31", 4, 12, 31, "On-Us"),
    ("31", 5, 32, 41, "Item Amount"),
    ("31", 6, 42, 42, "Return Reason"),
    ("31", 7, 43, 44, "Return Record Addendum Count"),
    ("31", 11, 69, 69, "External Processing Code"),
    ("33", 3, 21, 35, "Auxiliary On-Us"),
    ("50", 8, 32, 32, "View Side Indicator"),
    ("52", 14, 102, 105, "Length of Image Reference Key"),
    ("61", 6, 48, 57, "Item Amount"),
    ("62", 6, 48, 61, "Item Amount"),
    ("68", 7, 39, 45, "Length of User Data"),
    ("70", 2, 3, 6, "Items Within Bundle Count"),
    ("70", 3, 7, 18, "Bundle Total Amount"),
    ("70", 4, 19, 30, "MICR Valid Total Amount"),
    ("70", 5, 31, 35, "Images within Bundle Count"),
    ("90", 2, 3, 8, "Bundle Count"),
    ("90", 3, 9, 16, "Items Within Cash Letter Count"),
    ("90", 4, 17, 30, "Cash Letter Total Amount"),
    ("90", 5, 31, 39, "Images Within Cash Letter Count"),
    ("99", 2, 3, 8, "Cash Letter Count"),
    ("99", 3, 9, 16, "Total Record Count"),
    ("99", 4, 17, 24, "Total Item Count"),
    ("99", 5, 25, 40, "File Total Amount"),
]


@pytest.mark.parametrize(("kind", "number", "first", "last", "name"), POSITIONS)
def test_published_positions(kind: str, number: int, first: int, last: int, name: str) -> None:
    for level in ("03", "30", "35"):
        field = layouts(level)[kind].fields[number - 1]
        assert (field.number, field.name) == (number, name)
        assert (field.start + 1, field.start + (field.length or 0)) == (first, last)


def test_what_the_levels_have_different() -> None:
    """X9.37-2003 has a return location in bundles, and no credit total indicator in 70 and 99."""
    old, new = layouts("03"), layouts("35")
    assert old["20"].fields[9].name == "Return Location Routing Number"
    assert new["20"].fields[9].name == "Reserved"
    for kind, place in (("70", 56), ("99", 65)):
        assert "Credit Total Indicator" not in old[kind].places
        assert new[kind].places["Credit Total Indicator"] == (place - 1, place)


def test_code_page_37_is_that_of_the_standard_library() -> None:
    assert decode(ALL, "cp037") == ALL.decode("cp037")
    assert encode(ALL.decode("cp037"), "cp037") == ALL
    # The page with the euro sign differs from it in one place only: it would read files alike.
    assert [at for at in range(256) if ALL.decode("cp037")[at] != ALL.decode("cp1140")[at]] == [0x9F]


def test_code_page_1047_is_that_of_the_c_library() -> None:
    if not shutil.which("iconv"):
        pytest.skip("iconv is not installed")
    listed = subprocess.run(["iconv", "-l"], capture_output=True, text=True, check=True).stdout
    if "IBM1047" not in listed:
        pytest.skip("this iconv does not know IBM-1047")
    # Line feed and new line are exchanged in some tables of the page; neither may stand in a field.
    printable = bytes(code for code in range(256) if code >= 0x40 and code != 0xFF)
    told = subprocess.run(["iconv", "-f", "IBM1047", "-t", "UTF-8"], input=printable, capture_output=True, check=True)
    assert decode(printable, "cp1047") == told.stdout.decode()
    assert encode(told.stdout.decode(), "cp1047") == printable


def test_digits_and_letters_are_the_same_in_both_pages_and_as_published() -> None:
    """EBCDIC: F0 to F9 are the digits, 40 is the blank, 5C the asterisk, 60 the hyphen, 61 the slash."""
    for page in ("cp037", "cp1047"):
        assert decode(b"\xf0\xf9\x40\x5c\x60\x61\xc1\xe9", page) == "09 *-/AZ"


def test_return_reasons_are_those_of_the_standard() -> None:
    """ANSI X9.100-188 as public field tables repeat it: A to Z without V, 3 to 6."""
    codes = return_reasons()
    assert sorted(codes) == sorted("ABCDEFGHIJKLMNOPQRSTUWXYZ3456")
    assert (codes["A"].words, codes["D"].words, codes["Y"].unpaid) == ("not sufficient funds", "account closed", False)
    assert len({reason.words for reason in codes.values()}) == len(codes)
    # the house list cuts a reason at eighty characters
    assert max(len(reason.words) for reason in codes.values()) < 60
