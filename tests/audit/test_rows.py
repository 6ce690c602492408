"""One broken row costs no other; a file that is no text costs one sentence."""

from __future__ import annotations

import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checkface.audit.rows import Row, rows
from checkface.audit.source import InputError, Lines


def read(content: bytes) -> list[Row]:
    return list(rows(Lines(io.BytesIO(content)), lambda heading: heading in {"id", "words"}))


@pytest.mark.parametrize("start", [b"", b"\xef\xbb\xbf"], ids=["plain", "byte-order mark"])
@pytest.mark.parametrize("end", [b"\n", b"\r\n"], ids=["LF", "CR LF"])
@pytest.mark.parametrize("separator", [b",", b";", b"\t"])
def test_what_just_works(start: bytes, end: bytes, separator: bytes) -> None:
    lines = [b"id,words".replace(b",", separator), b'7,"two\nlines"'.replace(b",", separator), b"", b"8" + separator]
    assert read(start + end.join(lines)) == [
        Row(1, ("id", "words")),
        Row(2, ("7", "two\nlines")),
        Row(5, ("8", "")),
    ]


@pytest.mark.parametrize(
    ("row", "fault"),
    [
        ("8", "Expected 2 cells, read 1."),
        ("8,a,b", "Expected 2 cells, read 3."),
        ('8,"a"b', "Expected a separator after the closing quotation mark, read something else."),
        ("8,a\rb", "Expected lines that end in LF or CR LF, read a bare carriage return."),
    ],
)
def test_a_broken_row_costs_no_other(row: str, fault: str) -> None:
    found = read(f"id,words\n7,a\n{row}\n9,b\n".encode())
    assert found[1:] == [Row(2, ("7", "a")), Row(3, (), fault), Row(4, ("9", "b"))]


def test_a_quotation_mark_never_closed_costs_one_line() -> None:
    found = read(b'id,words\n7,"a\n8,b\n9,c\n')
    assert found[1:] == [
        Row(2, (), "Expected a closing quotation mark, read the end of the file."),
        Row(3, ("8", "b")),
        Row(4, ("9", "c")),
    ]


def test_a_stray_quotation_mark_before_a_quoted_cell_costs_one_line() -> None:
    found = read(b'id,words\n7,"a\n8,"b"\n9,c\n')
    assert found[1:] == [
        Row(2, (), "Expected a separator after the closing quotation mark, read something else."),
        Row(3, ("8", "b")),
        Row(4, ("9", "c")),
    ]


def test_a_quotation_mark_never_closed_in_a_long_file_costs_one_line() -> None:
    found = read(b'id,words\n7,"a\n' + b"8,some words\n" * 20_000)
    assert len(found) == 20_002
    assert [row.line for row in found if row.fault] == [2]


def test_a_broken_row_of_several_lines_is_reported_once() -> None:
    found = read(b'id,words\n7,"a\nb\nc",d,e\n8,b\n')
    assert [(row.line, bool(row.fault)) for row in found] == [(1, False), (2, True), (5, False)]


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        ("id,words\n7,a\n".encode("utf-16"), "Expected text in UTF-8, read UTF-16; save the file as UTF-8."),
        (
            b"id,words\n7,caf\xe9\n",
            "Line 2: Expected text in UTF-8, read the byte 0xE9; save the file as UTF-8.",
        ),
        (
            b"\x7fELF\0\0",
            "Line 1: Expected text in UTF-8, read a zero byte; this looks like a binary file.",
        ),
        (b"id,words\n7," + b"x" * 10_000_000, "Line 2: Expected at most 1,048,576 bytes, read a longer line."),
        (
            b"id,words\n7," + b"x" * 200_000,
            "Line 2: Expected at most 131,072 characters in a cell, read more.",
        ),
        (
            b'id,words\n7,"' + b"x\n" * 5_000_000 + b'"\n8,a\n',
            "Line 2: Expected at most 131,072 characters in a cell, read more.",
        ),
        (
            b'id,words\n7,"' + b'x\n","' * 1_000_000,
            "Line 2: Expected at most 131,072 characters in a cell, read more.",
        ),
        (
            b'id,"words\n',
            "Line 1: Expected a closing quotation mark, read the end of the file.",
        ),
    ],
    ids=["UTF-16", "Latin-1", "binary", "10 MB line", "long cell", "10 MB cell of lines", "endless row", "heading"],
)
def test_one_clear_sentence(content: bytes, sentence: str) -> None:
    with pytest.raises(InputError) as error:
        read(content)
    assert str(error.value) == sentence


@given(st.binary(max_size=300))
def test_any_bytes(content: bytes) -> None:
    try:
        found = read(b"id,words\n" + content)
    except InputError:
        return
    assert all(row.fault or len(row.cells) == 2 for row in found)


@given(st.lists(st.tuples(st.text("ab\"',;\n |⑆", min_size=1), st.text("ab\"',;\n |⑆")), max_size=8))
def test_what_a_csv_writer_wrote_is_read_back(table: list[tuple[str, str]]) -> None:
    import csv

    stream = io.StringIO()
    csv.writer(stream).writerows([("id", "words"), *table])
    wanted = [row for row in table if any(cell.strip() for cell in row)]
    assert [row.cells for row in read(stream.getvalue().encode())][1:] == wanted
