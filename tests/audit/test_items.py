"""The tenders of a file: what is read, what is skipped with its line, and what ends the run in one sentence."""

from __future__ import annotations

import doctest
import io
import json
from datetime import date
from typing import Any

import pytest
from clean_tender import CLEAN
from hypothesis import given, settings
from hypothesis import strategies as st

from checkface.audit import InputError, Item, Skipped, few, placed, tenders
from checkface.policy import PolicyError
from checkface.rules.history import HistoryError

ON = date(2026, 11, 24)


def read(content: bytes | str, **options: Any) -> list[Item | Skipped]:
    raw = content.encode() if isinstance(content, str) else content
    return list(tenders(io.BytesIO(raw), **options))


def test_csv_and_json_lines_give_the_same_tender() -> None:
    (by_csv,) = read("id,micr,on\n7,T071098973T 45601122O 1043,2026-11-24\n")
    wire = {"id": "7", "face": {"micr": "T071098973T 45601122O 1043"}, "counter": {"on": "2026-11-24"}}
    (by_json,) = read("\n" + json.dumps(wire))
    assert isinstance(by_csv, Item)
    assert isinstance(by_json, Item)
    assert (by_csv.line, by_json.line) == (2, 2)
    assert by_csv.tender == by_json.tender


def test_a_broken_row_of_each_kind_is_skipped_with_its_line() -> None:
    found = read(
        "id,amount,kind_column\n".replace("kind_column", "declared_kind")
        + "1,45.10,personal\n"
        + "2,45.10\n"
        + "3,45.1O,personal\n"
        + "4,45.10,persnal\n"
        + "5,45.10,business\n"
    )
    assert [entry for entry in found if isinstance(entry, Skipped)] == [
        Skipped(3, "Expected 3 cells, read 2."),
        Skipped(4, 'counter.amount: Expected dollars as text, such as "45.10", read something else'),
        Skipped(5, "counter.declared_kind: Expected a known kind of check, read 'persnal'; "
                   "the nearest known kind is 'personal'"),
    ]  # fmt: skip
    assert [entry.line for entry in found] == [2, 3, 4, 5, 6]


def test_a_broken_line_of_json_is_skipped() -> None:
    found = read('{"face": {}}\n{"face": \n{"fase": {}}\n[]\n{"face": {}}\n')
    assert [entry.line for entry in found if isinstance(entry, Item)] == [1, 5]
    reasons = {entry.line: entry.reason for entry in found if isinstance(entry, Skipped)}
    assert set(reasons) == {2, 3, 4}
    assert "the nearest known key is 'face'" in reasons[3]


def test_a_number_in_the_wrong_cell_is_not_quoted() -> None:
    (skipped,) = read("id,declared_kind\n1,45601122\n")
    assert isinstance(skipped, Skipped)
    assert "45601122" not in skipped.reason
    assert "•••" in skipped.reason
    assert "1122" not in skipped.reason


def test_the_day_is_filled_in_only_where_there_is_none() -> None:
    found = read("id,on\n1,2026-01-02\n2,\n", on=ON)
    assert [entry.tender.counter.on for entry in found if isinstance(entry, Item)] == [date(2026, 1, 2), ON]
    (unfilled,) = read("id\n1\n")
    assert isinstance(unfilled, Item)
    assert unfilled.tender.counter.on is None


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        ("", "Expected tenders, read an empty file."),
        ("\n \n", "Expected tenders, read an empty file."),
        ("id,micr\n", "Expected rows below the heading, read none."),
        ("id,mircr\n1,2\n", "Expected a column of a tender, read 'mircr'; the nearest known column is 'micr'."),
        (",,", "Expected a heading, read blank cells."),
        ("[]", "Expected one JSON object a line, read an array."),
        *(
            (
                text,
                "Expected one JSON object a line, read one over several lines; checkface examine takes a single check.",
            )
            for text in (
                '{\n "face": {}}',
                '{"face": {\n}}',
                '\n{"id": "1",\n"face": {}}',
                '{"documents": [\n], "face": {}}',
            )
        ),
    ],
)
def test_a_file_that_holds_no_tenders(content: str, sentence: str) -> None:
    with pytest.raises(InputError) as error:
        read(content)
    assert str(error.value) == sentence


def test_json_lines_have_no_headings_to_rename() -> None:
    with pytest.raises(InputError):
        read('{"face": {}}', renames={"micr": "Line"})


def test_a_file_known_to_be_json_lines_may_start_with_a_broken_line() -> None:
    found = read('"face"\n{"face": {}}\n', form="jsonl")
    assert [type(entry).__name__ for entry in found] == ["Skipped", "Item"]


def test_one_tender_an_array_or_one_a_line() -> None:
    one = json.dumps(CLEAN, indent=2)
    line = json.dumps(CLEAN)
    for content, several, count in ((one, False, 1), (f"[{line}, {line}]", True, 2), (f"{line}\n{line}\n", True, 2)):
        many, items = few(io.BytesIO(content.encode("utf-8-sig")))
        assert (many, len(items)) == (several, count)
        assert all(isinstance(item, Item) for item in items)


def test_one_broken_entry_of_an_array_costs_no_other() -> None:
    _, items = few(io.BytesIO(b'[{"face": {}}, 7, {"fase": {}}, {"face": {}}]'))
    assert [type(item).__name__ for item in items] == ["Item", "Skipped", "Skipped", "Item"]
    assert items[1] == Skipped(2, "Expected a tender as a JSON object, read something else.")


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"", "Expected a tender as JSON, read nothing."),
        (b"\xef\xbb\xbf \n", "Expected a tender as JSON, read nothing."),
        (b"\xff\xfe{", "Expected JSON in UTF-8, read the byte 0xFF; a table of checks is for checkface audit."),
        (b'{"face": ', "Expected JSON, read text that breaks off or goes wrong at line 1, column 10."),
        (b"7", "Expected a tender as a JSON object, read something else."),
        (b'{"face": {"micr": 45601122}}',
         'face.micr: Expected text, "" (blank), null (illegible) or {"text", "by", "confidence"}, read something else'),
        (b"[" * 100_000, "Expected JSON, read lists or objects too deep within each other."),
        (b" " * (1 << 24) + b"{}", "Expected at most 16,777,216 bytes, read more; `checkface audit` reads any length."),
    ],
    ids=["empty", "blank", "UTF-16", "cut short", "a number", "a number for a text", "brackets", "huge"],
)  # fmt: skip
def test_what_holds_no_tender(content: bytes, sentence: str) -> None:
    with pytest.raises(InputError) as error:
        few(io.BytesIO(content))
    assert str(error.value) == sentence


@settings(max_examples=150, deadline=None)
@given(st.binary(max_size=200) | st.text(alphabet='{}[]":, \nfaceid17⑆', max_size=80).map(str.encode))
def test_any_bytes(content: bytes) -> None:
    for read_them in (lambda: list(tenders(io.BytesIO(content))), lambda: few(io.BytesIO(content))[1]):
        try:
            found = read_them()
        except InputError:
            continue
        assert all(isinstance(entry, Item | Skipped) for entry in found)


def test_examples() -> None:
    result = doctest.testmod(placed, optionflags=doctest.ELLIPSIS)
    assert result.attempted
    assert not result.failed


@pytest.mark.parametrize("of_all", [InputError("x"), PolicyError(["x"]), HistoryError("x"), OSError("x")])
def test_what_concerns_every_row_is_no_row_s_fault(of_all: Exception) -> None:
    def fail() -> None:
        raise of_all

    with pytest.raises(type(of_all)):
        placed.guarded(1, fail)
