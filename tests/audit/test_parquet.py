"""Parquet as others write it: nested, typed, with nulls; and files that are broken, or made to do harm."""

from __future__ import annotations

import io
import json
import subprocess
import sys
from base64 import b85decode
from datetime import date, datetime
from decimal import Decimal
from itertools import islice
from pathlib import Path
from typing import Any
from uuid import UUID

import duckdb
import pyarrow as pa
import pytest
from clean_tender import CLEAN
from day_files import as_parquet, table_as_parquet
from hypothesis import given, settings
from hypothesis import strategies as st
from pyarrow import parquet as pq

from checkface.audit import InputError, Item, Skipped, tenders
from checkface.tender import Mark, State


def read(content: bytes, **options: Any) -> list[Item | Skipped]:
    return list(tenders(io.BytesIO(content), **options))


def wire(content: bytes, **options: Any) -> dict[str, Any]:
    (item,) = read(content, **options)
    assert isinstance(item, Item), item
    return item.tender.wire()


def column(path: str, values: list[Any], kind: Any = None) -> list[Item | Skipped]:
    """What is read of a file with an id and one more column."""
    ids = pa.array([f"n{number}" for number in range(len(values))])
    return read(table_as_parquet(pa.table([ids, pa.array(values, kind)], names=["id", path])))


def reason(path: str, value: Any, kind: Any = None) -> str:
    (item,) = column(path, [value], kind)
    assert isinstance(item, Skipped), item
    return item.reason


def test_rows_are_counted_from_one_over_groups_and_batches() -> None:
    rows = [[str(number), "45.10" if number != 2500 else "45.1"] for number in range(1, 3001)]
    found = read(as_parquet(["id", "amount"], rows, row_group_size=700))
    assert [item.line for item in found] == list(range(1, 3001))
    assert [item.line for item in found if isinstance(item, Skipped)] == [2500]


@pytest.mark.parametrize(
    "kind", [pa.string(), pa.large_string(), pa.string_view(), pa.binary(), pa.dictionary(pa.int8(), pa.string())]
)
def test_text_of_every_width(kind: Any) -> None:
    first, second = column("payee", ["Quill", None], kind)
    assert isinstance(first, Item)
    assert isinstance(second, Item)
    assert (first.tender.face.payee.text, second.tender.face.payee.state) == ("Quill", State.BLANK)


def test_a_null_is_an_empty_cell_but_among_yes_and_no_nobody_looked() -> None:
    marks = [item.tender.face.alterations for item in column("alterations", ["", None, "no"]) if isinstance(item, Item)]
    assert marks == [Mark.NO, Mark.NO, Mark.NO]
    marks = [
        item.tender.face.alterations for item in column("alterations", [True, None, False]) if isinstance(item, Item)
    ]
    assert marks == [Mark.YES, Mark.ABSENT, Mark.NO]


def test_structures_have_dotted_paths_and_one_that_is_null_was_not_looked_at() -> None:
    rows = [
        {
            "id": "1",
            "face": {"micr": "(illegible)", "drawer": ["Ada Sample", "12 Lane"]},
            "counter": {"on": date(2026, 11, 24)},
        },
        {"id": "2", "face": None, "counter": {"on": None}},
    ]
    first, second = (
        item.tender.wire() for item in read(table_as_parquet(pa.Table.from_pylist(rows))) if isinstance(item, Item)
    )
    assert first == {
        "id": "1", "face": {"micr": None, "drawer": "Ada Sample\n12 Lane"}, "counter": {"on": "2026-11-24"},
    }  # fmt: skip
    assert second == {"id": "2", "face": {}, "counter": {"on": None}}


def test_documents_are_columns_or_a_list_of_structures() -> None:
    shown = [
        {"kind": "passport", "expires": date(2030, 1, 2), "is_bearer": True, "state": None},
        {"kind": "drivers-license", "expires": None, "is_bearer": None, "state": 6},
    ]
    rows = [{"id": str(number), "documents": documents} for number, documents in enumerate([shown, [], None], 1)]
    found = [
        item.tender.wire() for item in read(table_as_parquet(pa.Table.from_pylist(rows))) if isinstance(item, Item)
    ]
    assert found[0]["documents"] == [
        {"kind": "passport", "expires": "2030-01-02", "is_bearer": True},
        {"kind": "drivers-license", "state": "06"},
    ]
    assert found[1]["documents"] == []
    assert "documents" not in found[2]


def test_tenders_in_json_that_duckdb_made_parquet_of(tmp_path: Path) -> None:
    (tmp_path / "day.json").write_text(json.dumps(CLEAN), encoding="utf-8")
    duckdb.sql(f"COPY (FROM read_json('{tmp_path}/day.json')) TO '{tmp_path}/day.parquet' (FORMAT parquet)")
    made = wire((tmp_path / "day.parquet").read_bytes())
    assert made["face"] == CLEAN["face"] | {name: "\n".join(CLEAN["face"][name]) for name in ("drawer", "drawee")}
    assert made["counter"] == CLEAN["counter"]
    assert made["documents"] == CLEAN["documents"]


@pytest.mark.parametrize(
    ("value", "kind", "cents"),
    [
        (Decimal("45.10"), pa.decimal128(9, 2), 4510),
        (Decimal("45.1000"), pa.decimal256(50, 4), 4510),
        (Decimal("999999999.99"), pa.decimal128(12, 2), 99999999999),
        (45.1, pa.float32(), 4510),
        (45.1, pa.float64(), 4510),
        (45, pa.int16(), 4500),
        (-0.0, pa.float64(), 0),
        (None, pa.float64(), None),
    ],
)
def test_amounts(value: Any, kind: Any, cents: int | None) -> None:
    (item,) = column("amount", [value], kind)
    assert isinstance(item, Item)
    assert item.tender.counter.amount == cents


@pytest.mark.parametrize(
    ("path", "value", "kind", "sentence"),
    [
        ("amount", 45.105, pa.float64(), "counter.amount: Expected dollars and whole cents, read 45.105."),
        ("amount", 45.300000000000004, pa.float64(), "counter.amount: Expected dollars and whole cents, read parts of a cent; round it."),
        ("amount", float("nan"), pa.float64(), "counter.amount: Expected dollars and whole cents, read nan."),
        ("amount", float("inf"), pa.float32(), "counter.amount: Expected dollars and whole cents, read inf."),
        ("amount", 1e300, pa.float64(), "counter.amount: Expected dollars below 1,000,000,000, read more."),
        ("figures", 1e300, pa.float64(), "face.figures: Expected dollars and whole cents, read 1e+300."),
        ("amount", Decimal("0.001"), pa.decimal128(9, 3), "counter.amount: Expected dollars and whole cents, read 0.001."),
        ("amount", -5.0, pa.float64(), "counter.amount: Expected dollars of 0.00 or more, read a negative number."),
        ("amount", True, pa.bool_(), "counter.amount: Expected dollars and cents, read a yes or no."),
        ("amount", date(2026, 11, 24), pa.date32(), "counter.amount: Expected dollars and cents, read a day."),
        ("micr", 71098973, pa.int64(), "face.micr: Expected text, read a number, which keeps no leading noughts; keep the column as text."),
        ("fraction", 70.5, pa.float64(), "face.fraction: Expected text, read a number, which keeps no leading noughts; keep the column as text."),
        ("serial", 1043.5, pa.float64(), "face.serial: Expected text, read a number with a fraction."),
        ("amount", Decimal("-45.10"), pa.decimal128(9, 2), "counter.amount: Expected dollars of 0.00 or more, read a negative number."),
        ("amount", -1, pa.int64(), "counter.amount: Expected dollars of 0.00 or more, read a negative number."),
        ("amount", 10**9, pa.int64(), "counter.amount: Expected dollars below 1,000,000,000, read more."),
        ("purchase", 1e30, pa.float64(), "counter.purchase: Expected dollars below 1,000,000,000, read more."),
        ("serial", 1e15, pa.float64(), "face.serial: Expected digits, read a number too long to be exact; keep the column as text."),
        ("serial", float("nan"), pa.float32(), "face.serial: Expected digits, read a number too long to be exact; keep the column as text."),
        ("serial", date(2026, 11, 24), pa.date32(), "face.serial: Expected text, read a day."),
        ("date", 46350, pa.int64(), "face.date: Expected a day, read a bare number; give the column the form of a date."),
        ("date", datetime(2026, 11, 24, 9, 5), pa.timestamp("ms"), "face.date: Expected a day, read one with a time of day, 09:05:00."),
        ("signature", 0.5, pa.float64(), "face.signature: Expected yes or no, read a number with a fraction."),
        ("payee", "x" * 131_073, pa.string(), "face.payee: Expected at most 131,072 characters, read 131,073."),
        ("payee", b"caf\xe9", pa.binary(), "face.payee: Expected text in UTF-8, read other bytes."),
    ],
)  # fmt: skip
def test_what_is_never_guessed(path: str, value: Any, kind: Any, sentence: str) -> None:
    assert reason(path, value, kind) == sentence


def test_the_serial_of_a_float_and_an_id_that_is_unique_by_itself() -> None:
    unique = UUID("01234567-89ab-cdef-0123-456789abcdef")
    assert wire(table_as_parquet(pa.table({"id": pa.array([unique.bytes], pa.uuid()), "serial": [1043.0]}))) == {
        "id": str(unique), "face": {"serial": "1043"}, "counter": {},
    }  # fmt: skip


def test_what_python_cannot_hold_costs_one_row() -> None:
    days = pa.array([0, 10_000_000, 1], pa.int32()).cast(pa.date32())
    found = read(table_as_parquet(pa.table([pa.array(["1", "2", "3"]), days], names=["id", "date"])))
    assert [type(item) for item in found] == [Item, Skipped, Item]
    broken = pa.Array.from_buffers(pa.string(), 2, [*pa.array(["ab", "cd"]).buffers()[:2], pa.py_buffer(b"ab\xff\xfe")])
    found = read(table_as_parquet(pa.table([pa.array(["1", "2"]), broken], names=["id", "payee"])))
    assert [type(item) for item in found] == [Item, Skipped]
    assert found[1] == Skipped(2, "face.payee: Expected text, read something else.")


def test_an_empty_row_is_named() -> None:
    found = read(table_as_parquet(pa.table({"id": ["1", None, ""], "serial": ["7", None, ""]})))
    assert found[1:] == [Skipped(row, "Expected a check, read an empty row.") for row in (2, 3)]


def test_several_faults_of_a_row_are_all_named() -> None:
    found = read(table_as_parquet(pa.table({"amount": [0.001], "serial": [0.5]})))
    assert found == [
        Skipped(1, "counter.amount: Expected dollars and whole cents, read 0.001. "
                   "face.serial: Expected text, read a number with a fraction."),
    ]  # fmt: skip


def test_no_number_is_quoted() -> None:
    assert "45601122" not in reason("micr", 45601122)
    assert "4560112233" not in reason("amount", 4560112233.001)


def test_what_is_told_of_columns_that_may_not_be_what_they_seem() -> None:
    told: list[str] = []
    read(table_as_parquet(pa.table({"amount": [45], "serial": [1043], "payee": ["x"]})), tell=told.append)
    assert told == [
        "Column 'amount' holds whole numbers: read as dollars.",
        "Column 'serial' holds numbers: noughts they may have begun with are lost.",
    ]


def test_the_row_labels_of_pandas_are_passed_over() -> None:
    assert wire(table_as_parquet(pa.table({"id": ["7"], "__index_level_0__": [3]})))["id"] == "7"


def test_columns_are_renamed_and_ignored_and_an_ignored_one_may_hold_anything() -> None:
    table = pa.table({
        "Slip": ["7"], "scan": pa.array([{"Line": "(illegible)", "front": b"\xff\xd8", "dpi": [200]}]), "meta": [{"a": {"b": 1}}],
    })  # fmt: skip
    found = wire(
        table_as_parquet(table),
        renames={"id": "Slip", "face.micr": "scan.Line"}, ignored=["meta", "scan.front", "scan.dpi"],
    )  # fmt: skip
    assert found == {"id": "7", "face": {"micr": None}, "counter": {}}


@pytest.mark.parametrize(
    ("table", "sentence"),
    [
        (pa.table({"id": pa.array([], pa.string())}), "Expected rows below the heading, read none."),
        (pa.table({}), "Expected columns of a tender, read none."),
        (pa.table({"mircr": ["x"]}), "Expected a column of a tender, read 'mircr'; the nearest known column is 'micr'."),
        (pa.table({"face": [{"mircr": "x"}]}), "Expected a column of a tender, read 'face.mircr'; the nearest known column is 'face.micr'."),
        (pa.table([["1"], ["2"]], names=["id", "id"]), "Expected one column for id, read another: 'id'."),
        (pa.table([["1"], [{"micr": "2"}]], names=["micr", "face"]), "Expected one column for face.micr, read another: 'face.micr'."),
        (pa.table({"on": pa.array([datetime(2026, 11, 24)], pa.timestamp("us", "UTC"))}), "Column 'on': Expected days at the store, read moments in a time zone."),
        (pa.table({"on": pa.array([1], pa.duration("s"))}), "Column 'on': Expected text, numbers, days or yes and no, read duration[s]; it can be ignored."),
        (pa.table({"payee": [["a"]]}), "Column 'payee': Expected text, numbers, days or yes and no, read list<element: string>; it can be ignored."),
        (pa.table({"documents": [[{"kind": "p"}]], "documents.name": ["x"]}), "Expected the documents in one form, read a list of them and columns beside it."),
        (pa.table({"documents": [[{"kine": "p"}]]}), "Expected a column of a tender, read 'documents.kine'; the nearest known column is 'documents.kind'."),
        (pa.table({"face": pa.StructArray.from_arrays([pa.array(["a"]), pa.array(["b"])], names=["micr", "micr"])}), "Expected one column a name, read one twice within 'face'."),
    ],
    ids=["no rows", "no columns", "unknown", "unknown within", "twice", "twice in two forms", "time zone", "a duration", "a list",
         "documents twice", "unknown of a document", "twice within"],
)  # fmt: skip
def test_a_file_that_is_no_day(table: Any, sentence: str) -> None:
    with pytest.raises(InputError) as error:
        read(table_as_parquet(table))
    assert str(error.value) == sentence


DAY = as_parquet(["id", "micr"], [[str(number), "(illegible)"] for number in range(3000)], row_group_size=1000)
DAMAGED = "Expected a Parquet file, read a damaged one: its own description makes no sense."


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"PAR1", DAMAGED),
        (b"PAR1" + b"\0" * 100, DAMAGED),
        (DAY[:-1], DAMAGED),
        (DAY[: len(DAY) // 2], DAMAGED),
        (DAY[:-8] + b"\xff\xff\xff\x7fPAR1", DAMAGED),
        (b"PARE" + DAY[4:-4] + b"PARE", "Expected Parquet in the clear, read an encrypted file."),
    ],
    ids=["magic only", "noughts", "cut by one", "cut in half", "endless description", "encrypted"],
)
def test_broken_files(content: bytes, sentence: str) -> None:
    with pytest.raises(InputError) as error:
        read(content)
    assert str(error.value) == sentence


def test_a_file_damaged_within_says_how_far_it_was_read() -> None:
    group = pq.ParquetFile(io.BytesIO(DAY)).metadata.row_group(2).column(0)
    start = group.dictionary_page_offset or group.data_page_offset
    found = tenders(io.BytesIO(DAY[:start] + b"\xff" * 40 + DAY[start + 40 :]))
    assert [item.line for item in islice(found, 1024)] == list(range(1, 1025))
    with pytest.raises(InputError, match=r"^After row 1024: Expected rows of Parquet, read damaged ones\.$"):
        next(found)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.integers(4, len(DAY) - 1), st.integers(0, 255)), min_size=1, max_size=4))
def test_any_damage_is_one_sentence(damage: list[tuple[int, int]]) -> None:
    content = bytearray(DAY)
    for place, byte in damage:
        content[place] = byte
    try:
        read(bytes(content))
    except InputError as error:
        assert str(error).endswith(".")


def test_a_group_of_rows_that_would_fill_the_memory_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("checkface.audit.parquet.UNPACKED", 1000)
    with pytest.raises(InputError) as error:
        read(as_parquet(["id", "payee"], [["1", "x" * 2000]]))
    assert str(error.value) == "Expected at most 1,000 bytes in a group of 1 rows, read more."


def test_one_value_beyond_all_measure_is_refused_before_it_is_unpacked() -> None:
    content = as_parquet(["id", "payee"], [["1", "x" * (1 << 26)]])
    with pytest.raises(InputError, match=r"^Expected at most 67,108,864 bytes in a group of 1 rows, read more\.$"):
        read(content)


#: A column of an id in two rows, in which one byte of what the file says of the column was changed.
ABORTS = b85decode(
    "P(e~L6$BLu6$(rh0u=xf00031001!+02LAy5-b%26%Z8$6$TtO0w@777y&U65dZ)H0ssI20|5a702KroEHwZa26JO*Wo=;<0ss{ZB?1@%X=Eh;OdJ3J02Txp92p!Y02~zz88rX~5E&Q"
    "(X=D`u76cY@7IG#oCI}oh0w@777y&U65dax16$BLk6#@Vi02L4w0suS~0tp5gCISKg000(p76c{;7IFY6AaG%Fadl;MEn{$SEn#wUZ+9SeWpZ<AZ*CwmHZCwOF&P{j0001*0000`K~ga"
)


def test_a_damaged_description_of_a_column_does_not_end_the_process() -> None:
    """In a process of its own: what it guards against takes the whole interpreter down."""
    program = """
import io, sys
from checkface.audit import InputError, tenders
try:
    list(tenders(io.BytesIO(sys.stdin.buffer.read())))
except InputError as error:
    print(error)
"""
    done = subprocess.run([sys.executable, "-c", program], input=ABORTS, capture_output=True, check=False)
    assert done.returncode == 0, done.stderr.decode()
    assert done.stdout.decode().startswith(("After row 0: Expected rows of Parquet", DAMAGED))


@pytest.mark.parametrize("kind", [pa.string(), pa.large_string(), pa.binary()])
def test_a_long_text_in_many_rows_is_in_memory_once(kind: Any) -> None:
    rows, text = 500, "x" * 1_000_000
    table = pa.table({"id": list(map(str, range(rows))), "payee": pa.array([text] * rows, kind)})
    content = table_as_parquet(table, compression="zstd", dictionary_pagesize_limit=1 << 28)
    del table
    before = pa.default_memory_pool().bytes_allocated()
    found = tenders(io.BytesIO(content))
    (first,) = islice(found, 1)
    assert isinstance(first, Skipped)
    assert first.reason == "face.payee: Expected at most 131,072 characters, read 1,000,000."
    assert pa.default_memory_pool().bytes_allocated() - before < 50_000_000
    assert len(list(found)) == rows - 1


def test_a_long_text_within_a_list_is_refused() -> None:
    content = table_as_parquet(pa.table({"id": ["1"], "drawer": [["x" * 600_000]]}))
    with pytest.raises(InputError, match=r"^After row 0: Expected texts of at most 524,288 bytes, read a longer\.$"):
        read(content)
    content = table_as_parquet(pa.table({"id": ["1"], "documents": [[{"number": "x" * 600_000}]]}))
    with pytest.raises(InputError, match=r"^After row 0: Expected texts of at most 524,288 bytes, read a longer\.$"):
        read(content)


@pytest.mark.parametrize(
    ("name", "place"), [("_opened", ""), ("_values", "After row 0: ")], ids=["the description", "the rows"]
)
def test_memory_that_is_used_up_is_one_sentence(name: str, place: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: Any) -> None:
        raise pa.ArrowMemoryError("malloc of size 80000000000 failed")

    monkeypatch.setattr(f"checkface.audit.parquet.{name}", full)
    with pytest.raises(InputError) as error:
        read(DAY)
    assert str(error.value) == f"{place}Expected rows that fit into the memory there is, read larger ones."


def test_a_clock_that_ticks_in_billionths() -> None:
    (item,) = column("on", [datetime(2026, 11, 24)], pa.timestamp("ns"))
    assert isinstance(item, Item)
    assert item.tender.counter.on == date(2026, 11, 24)
    ticks = pa.array([1], pa.int64()).cast(pa.timestamp("ns"))
    (item,) = read(table_as_parquet(pa.table({"on": ticks})))
    assert isinstance(item, Item)
    assert item.tender.counter.on == date(1970, 1, 1)
