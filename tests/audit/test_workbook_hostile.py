"""Workbooks that are broken, locked, of another kind, or made to do harm: one sentence each, and no memory."""

from __future__ import annotations

import io
import re
import zipfile
from typing import Any

import pytest
from day_files import as_workbook
from hypothesis import given, settings
from hypothesis import strategies as st

from checkface.audit import InputError, Item, Skipped, book, package, sheet, tenders

DAY = as_workbook(["id", "amount", "payee"], [[str(number), "45.10", "Quill"] for number in range(30)])
SHEET = "xl/worksheets/sheet1.xml"
DAMAGED = "Expected a workbook, read a damaged one."
ARCHIVE = "Expected a workbook, read a damaged or cut off ZIP archive."
BOMB = "Expected a workbook without document type declarations, read one: it may be a bomb."


def read(content: bytes, **options: Any) -> list[Item | Skipped]:
    return list(tenders(io.BytesIO(content), **options))


def sentence(content: bytes, **options: Any) -> str:
    with pytest.raises(InputError) as error:
        read(content, **options)
    return str(error.value)


def parts(content: bytes = DAY) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def packed(named: dict[str, bytes], method: int = zipfile.ZIP_DEFLATED) -> bytes:
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", method) as archive:
        for name, part in named.items():
            archive.writestr(name, part)
    return stream.getvalue()


def with_part(name: str, part: bytes) -> bytes:
    return packed(parts() | {name: part})


def with_rows(rows: str, head: str = "") -> bytes:
    """The day with the rows of its sheet replaced by *rows*, as XML."""
    text = parts()[SHEET].decode()
    return with_part(
        SHEET, (head + re.sub("<sheetData>.*</sheetData>", f"<sheetData>{rows}</sheetData>", text)).encode()
    )


HEADING = '<row r="1"><c r="A1" t="inlineStr"><is><t>id</t></is></c></row>'


def test_the_helper_makes_sound_days() -> None:
    (item,) = read(with_rows(HEADING + '<row r="7"><c r="A7"><v>7</v></c></row>'))
    assert isinstance(item, Item)
    assert (item.line, item.tender.id) == (7, "7")


@pytest.mark.parametrize(
    ("content", "expected"),
    [
        (b"PK\x03\x04", ARCHIVE),
        (DAY[:-1], ARCHIVE),
        (DAY[: len(DAY) // 2], ARCHIVE),
        (packed({}), "Expected a workbook (.xlsx), read another ZIP archive."),
        (packed({"day.csv": b"id"}), "Expected a workbook (.xlsx), read another ZIP archive."),
        (packed({"mimetype": b"", "content.xml": b"<a/>"}), "Expected a workbook (.xlsx), read an OpenDocument file; save it as .xlsx."),
        (packed({"xl/workbook.bin": b""}), "Expected a workbook (.xlsx), read a binary workbook (.xlsb); save it as .xlsx."),
        (packed({"xl/workbook.xml": b"<workbook/>"}), DAMAGED),
        (with_part("xl/workbook.xml", b"<workbook"), DAMAGED),
        (with_part("xl/styles.xml", b"<styleSheet>"), DAMAGED),
        (with_part(SHEET, b"not XML"), DAMAGED),
        (with_part(SHEET, parts()[SHEET][:-40]), "After row 31: Expected a workbook, read a damaged one."),
        (packed(parts(), zipfile.ZIP_LZMA), "Expected a workbook packed by deflation, read another method."),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 600,
         "Expected a workbook (.xlsx), read a workbook of before 2007 (.xls) or one with a password; save it as .xlsx without a password."),
    ],
    ids=["magic only", "cut by one", "cut in half", "empty archive", "another archive", "OpenDocument", "binary", "nothing else", "broken",
         "broken styles", "no sheet", "sheet cut off", "LZMA", "OLE"],
)  # fmt: skip
def test_one_clear_sentence(content: bytes, expected: str) -> None:
    assert sentence(content) == expected


@pytest.mark.parametrize(("form", "what"), [("xlsx", "a workbook (.xlsx)"), ("parquet", "Parquet")])
def test_another_file_under_that_name(form: Any, what: str) -> None:
    assert sentence(b"id,micr\n7,x\n", form=form) == f"Expected {what}, read something else."
    assert sentence(b"", form=form) == "Expected tenders, read an empty file."


@pytest.mark.parametrize("form", ["csv", "jsonl", "parquet"])
def test_a_workbook_under_another_name_is_read(form: Any) -> None:
    assert len(read(DAY, form=form)) == 30


def test_a_locked_part() -> None:
    content = bytearray(DAY)
    at = content.rfind(b"PK\x01\x02")
    content[at + 8] |= 1
    assert sentence(bytes(content)) == "Expected a workbook without a password, read an encrypted one."


@pytest.mark.filterwarnings("ignore:Duplicate name")
def test_a_part_twice() -> None:
    stream = io.BytesIO(DAY)
    with zipfile.ZipFile(stream, "a") as archive:
        archive.writestr(SHEET, b"<worksheet/>")
    assert sentence(stream.getvalue()) == "Expected each part of the workbook once, read one twice."


def test_parts_that_unpack_to_more_than_anyone_needs() -> None:
    bomb = with_part("xl/sharedStrings.xml", b" " * (package.PART + 1))
    assert len(bomb) < 1 << 20
    assert sentence(bomb) == "Expected a workbook part of at most 67,108,864 bytes unpacked, read a larger: a bomb?"


def test_a_sheet_and_a_whole_that_unpack_to_more(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(package, "SHEET", 1000)
    assert "at most 1,000 bytes unpacked" in sentence(DAY)
    monkeypatch.undo()
    monkeypatch.setattr(package, "WHOLE", 5000)
    assert "a bomb?" in sentence(DAY)


ENTITIES = '<!DOCTYPE x [<!ENTITY a "lol"><!ENTITY b "&a;&a;&a;&a;&a;&a;">]>'


@pytest.mark.parametrize(
    "name",
    [
        SHEET,
        "xl/workbook.xml",
        "xl/styles.xml",
        "[Content_Types].xml",
        "xl/_rels/workbook.xml.rels",
        "docProps/core.xml",
    ],
)
@pytest.mark.parametrize("encoding", ["utf-8", "utf-16"])
def test_no_part_may_declare_entities(name: str, encoding: str) -> None:
    text = parts()[name].decode().removeprefix('<?xml version="1.0" encoding="UTF-8" standalone="yes"?>')
    text = re.sub(r"^<\?xml.*?\?>", "", text)
    assert sentence(with_part(name, (ENTITIES + text).encode(encoding))) == BOMB


def test_an_entity_from_a_file_is_not_followed(tmp_path: Any) -> None:
    secret = tmp_path / "secret"
    secret.write_text("45601122")
    head = f'<!DOCTYPE x [<!ENTITY a SYSTEM "file://{secret}">]>'
    assert (
        sentence(with_rows(HEADING + '<row r="2"><c r="A2" t="inlineStr"><is><t>&a;</t></is></c></row>', head)) == BOMB
    )


def test_a_declaration_behind_a_long_comment() -> None:
    comment = f"<!--{' ' * 100_000}-->"
    expected = "Expected a workbook of XML parts, read one whose first element never comes."
    assert sentence(with_rows(HEADING, comment + ENTITIES)) == expected


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        ('<row r="99999999999"><c r="A99999999999"><v>7</v></c></row>', "Expected rows of the sheet in order, at most 1,048,576, read row 99999999999 after 1."),
        ('<row r="5"/><row r="3"><c r="A3"><v>7</v></c></row>', "Expected rows of the sheet in order, at most 1,048,576, read row 3 after 5."),
        ('<row r="-1"/>', "Expected rows of the sheet in order, at most 1,048,576, read row -1 after 1."),
        ('<row r="x"/>', "After row 1: Expected a workbook, read a damaged one."),
        ('<row r="2"/><row r="2"><c r="A2"><v>7</v></c></row>', "Expected rows of the sheet in order, at most 1,048,576, read row 2 after 2."),
        ('<row r="2"><c r="A2"><v>7</v></c><c r="A2"><v>8</v></c></row>', "After row 1: Expected a workbook, read a damaged one."),
        ('<row r="2"><c r="B2"><v>7</v></c><c r="A2"><v>8</v></c></row>', "After row 1: Expected a workbook, read a damaged one."),
        ('<row r="2"><c r="A3"><v>7</v></c></row>', "After row 1: Expected a workbook, read a damaged one."),
        ('<row r="2"><c r="A2" t="s"><v>-1</v></c></row>', "After row 1: Expected a workbook, read a damaged one."),
        ('<row r="2"><c r="A2"><v>1_0</v></c></row>', "After row 1: Expected a workbook, read a damaged one."),
        ('<row r="2"><c r="A2"><v>x</v></c></row>', "After row 1: Expected a workbook, read a damaged one."),
        ('<row r="2"><c r="A2" t="s"><v>9999</v></c></row>', "After row 1: Expected a workbook, read a damaged one."),
        ('<row r="2"><c r="ZZZZZZ2"><v>7</v></c></row>', "After row 1: Expected a workbook, read a damaged one."),
    ],
    ids=["far down", "backwards", "negative", "no number", "twice", "cell twice", "cells backwards", "cell of another row",
         "string before the first", "digits in groups", "value", "string", "column"],
)  # fmt: skip
def test_rows_no_spreadsheet_writes(rows: str, expected: str) -> None:
    assert sentence(with_rows(HEADING + rows)) == expected


def test_merged_ranges_without_end_or_sense(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sheet, "MOST", 3)
    ranges = "<mergeCells>" + '<mergeCell ref="A2:B3"/>' * 4 + "</mergeCells>"
    merged = with_part(SHEET, parts()[SHEET].replace(b"</sheetData>", b"</sheetData>" + ranges.encode()))
    assert sentence(merged) == "Expected at most 3 merged ranges in the sheet, read more."
    assert sentence(
        with_part(
            SHEET, parts()[SHEET].replace(b"</sheetData>", b'</sheetData><mergeCells><mergeCell ref="?"/></mergeCells>')
        )
    ) == ("Expected a merged range such as B5:B9, read something else.")


def test_a_result_that_is_empty_text_is_one_and_an_empty_result_is_none() -> None:
    cells = '<c r="B2" t="str"><f>""</f><v></v></c>'
    heading = HEADING.replace("</row>", '<c r="B1" t="inlineStr"><is><t>payee</t></is></c></row>')
    (item,) = read(with_rows(heading + f'<row r="2"><c r="A2"><v>7</v></c>{cells}</row>'))
    assert isinstance(item, Item)
    assert item.tender.wire()["face"] == {"payee": ""}
    (item,) = read(with_rows(heading + f'<row r="2"><c r="A2"><v>7</v></c>{cells.replace(" t=", " u=")}</row>'))
    assert isinstance(item, Skipped)
    assert item.reason.startswith("B2, face.payee: Expected the result of a formula, read none")
    (item,) = read(with_rows(heading + '<row r="2"><c r="A2"><f>B2</f><v>7</v></c><c r="B2" s="0"/></row>'))
    assert isinstance(item, Item)
    assert item.tender.id == "7"


def test_a_day_beyond_the_calendar_is_no_day() -> None:
    book = as_workbook(["date"], [[20]], lambda sheet: setattr(sheet["A2"], "number_format", "yyyy-mm-dd"))
    text = parts(book)[SHEET].replace(b"<v>20</v>", b"<v>99999999</v>")
    (item,) = read(packed(parts(book) | {SHEET: text}))
    assert item == Skipped(2, "A2, face.date: Expected a day, read a number beyond the calendar.", "Checks")


def test_a_false_note_of_the_size_hides_no_row() -> None:
    text = re.sub('<dimension ref="[^"]*" ?/>', '<dimension ref="A1"/>', parts()[SHEET].decode())
    assert 'ref="A1"' in text
    assert len(read(with_part(SHEET, text.encode()))) == 30


def styled(code: str, cells: int) -> bytes:
    """The day with one format of its own, used by so many kinds of cell."""
    formats = f'<numFmts><numFmt numFmtId="200" formatCode="{code}"/></numFmts>'
    used = '<xf numFmtId="200"/>' * cells
    return with_part("xl/styles.xml", f"<styleSheet>{formats}<cellXfs>{used}</cellXfs></styleSheet>".encode())


def test_a_format_is_read_once_however_many_cells_have_it(monkeypatch: pytest.MonkeyPatch) -> None:
    codes: list[str] = []
    form = book._form

    def counted(code: str) -> book.Form:
        codes.append(code)
        return form(code)

    monkeypatch.setattr(book, "_form", counted)
    assert len(read(styled("#" * 255, 65536))) == 30
    assert codes == ["#" * 255]


@pytest.mark.parametrize(("code", "cells"), [("#" * 256, 1), ("[" * 500_000, 1), ("0", 65537)])
def test_formats_no_spreadsheet_can_have(code: str, cells: int) -> None:
    assert sentence(styled(code, cells)) == DAMAGED


def test_links_to_elsewhere_are_left_alone() -> None:
    relations = parts()["xl/_rels/workbook.xml.rels"].replace(
        b"</Relationships>",
        b'<Relationship Id="rX" TargetMode="External" Target="http://127.0.0.1:9/x" Type="http://schemas.openxmlformats.org/'
        b'officeDocument/2006/relationships/externalLink"/></Relationships>',
    )
    assert len(read(with_part("xl/_rels/workbook.xml.rels", relations))) == 30


@settings(max_examples=100, deadline=None)
@given(st.lists(st.tuples(st.integers(4, len(DAY) - 1), st.integers(0, 255)), min_size=1, max_size=4))
def test_any_damage_to_the_archive_is_one_sentence(damage: list[tuple[int, int]]) -> None:
    content = bytearray(DAY)
    for place, byte in damage:
        content[place] = byte
    try:
        read(bytes(content))
    except InputError as error:
        assert str(error).endswith((".", "?"))


@settings(max_examples=100, deadline=None)
@given(st.sampled_from(sorted(parts())), st.integers(0, 5000), st.binary(max_size=6), st.integers(0, 6))
def test_any_damage_to_a_part_is_one_sentence(name: str, at: int, put: bytes, taken: int) -> None:
    part = parts()[name]
    at %= len(part)
    try:
        read(with_part(name, part[:at] + put + part[at + taken :]))
    except InputError as error:
        assert str(error).endswith((".", "?"))
