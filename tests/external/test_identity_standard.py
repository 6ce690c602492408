"""The worked examples printed in the AAMVA DL/ID Card Design Standard, editions 2020 and 2000."""

from __future__ import annotations

from datetime import date

from checkface.identity import read_barcode

# AAMVA DL/ID Card Design Standard 2020, Annex D, D.12.6: example of raw PDF417 data (Virginia). The postal code has
# two blanks behind it; no other line breaks than the control characters.
EXAMPLE_2020 = (
    "@\n\x1e\rANSI 636000100002DL00410278ZV03190008DLDAQT64235789\nDCSSAMPLE\nDDEN\nDACMICHAEL\nDDFN\nDADJOHN\nDDGN\n"
    "DCUJR\nDCAD\nDCBK\nDCDPH\nDBD06062019\nDBB06061986\nDBA12102024\nDBC1\nDAU068 in\nDAYBRO\n"
    "DAG2300 WEST BROAD STREET\nDAIRICHMOND\nDAJVA\nDAK232690000  \nDCF2424244747474786102204\nDCGUSA\nDCK123456789\n"
    "DDAF\nDDB06062018\nDDC06062020\nDDD1\rZVZVA01\r"
)

# AAMVA National Standard DL/ID-2000, Annex D: its second subfile is 32 characters long where its header says 31.
EXAMPLE_2000 = (
    "@\n\x1e\rANSI 6360000102DL00390187ZV02260031DLDAQ0123456789ABC\nDAAPUBLIC,JOHN,Q\nDAG123 MAIN STREET\n"
    "DAIANYTOWN\nDAJVA\nDAK123459999  \nDARDM  \nDAS          \nDAT     \nDAU509\nDAW175\nDAYBL \nDAZBR \n"
    "DBA20011201\nDBB19761123\nDBCM\nDBD19961201\rZVZVAJURISDICTIONDEFINEDELEMENT\r"
)


def subfiles(payload: str, header: int, entries: int) -> list[tuple[str, int, int]]:
    parts = [payload[header + 10 * i : header + 10 * i + 10] for i in range(entries)]
    return [(part[:2], int(part[2:6]), int(part[6:])) for part in parts]


def test_the_2020_example_by_its_own_arithmetic():
    assert len(EXAMPLE_2020) == 327
    assert subfiles(EXAMPLE_2020, 21, 2) == [("DL", 41, 278), ("ZV", 319, 8)]
    for kind, offset, length in subfiles(EXAMPLE_2020, 21, 2):
        assert EXAMPLE_2020[offset : offset + 2] == kind
        assert EXAMPLE_2020[offset + length - 1] == "\r"


def test_the_2020_example_is_read_exactly():
    card = read_barcode(EXAMPLE_2020)
    assert card.kind == "drivers-license"
    assert (card.issuer, card.issuer_code, card.country, card.version) == ("VA", "636000", "USA", 10)
    assert card.name == ("SAMPLE", "MICHAEL", "JOHN", "JR", False, False, False, "")
    assert card.expires == ("date", date(2024, 12, 10), date(2024, 12, 10), "12102024")
    assert card.issued == date(2019, 6, 6)
    assert card.is_adult(date(2004, 6, 6)) is True
    assert card.is_adult(date(2004, 6, 5)) is False
    assert card.address == ("2300 WEST BROAD STREET", "RICHMOND", "VA", "23269")
    assert card.reveal_number() == "T64235789"
    assert card.limited_duration is True
    assert (card.repairs, card.checks, card.forbidden) == ((), (), ())


def test_the_2020_example_as_bytes_of_iso_8859_1():
    assert read_barcode(EXAMPLE_2020.encode("latin-1")) == read_barcode(EXAMPLE_2020)


def test_the_2000_example_by_its_own_arithmetic():
    (dl, start, length), (zv, second, declared) = subfiles(EXAMPLE_2000, 19, 2)
    assert (dl, start, zv) == ("DL", 39, "ZV")
    assert EXAMPLE_2000[start : start + 2] == "DL"
    assert EXAMPLE_2000[start + length - 1] == "\r"
    assert EXAMPLE_2000[second : second + 2] == "ZV"
    assert len(EXAMPLE_2000) - second == declared + 1


def test_the_2000_example_is_read_within_its_inconsistency_of_one():
    card = read_barcode(EXAMPLE_2000)
    assert (card.kind, card.issuer, card.version) == ("drivers-license", "VA", 1)
    assert (card.family, card.given, card.middle) == ("PUBLIC", "JOHN", "Q")
    assert card.expires.on == date(2001, 12, 1)
    assert card.issued == date(1996, 12, 1)
    assert card.is_adult(date(1994, 11, 23)) is True
    assert card.is_adult(date(1994, 11, 22)) is False
    assert card.reveal_number() == "0123456789ABC"
    assert card.address.postal == "123459999"
    assert card.repairs == ()
    # The example's number is a pattern of the page, not one of Virginia's.
    assert [check.kind for check in card.checks] == ["number-shape"]
