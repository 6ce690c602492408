"""A run, its count, and the files it writes."""

from __future__ import annotations

import csv
import io
import json

import pytest
from clean_tender import patched

import checkface as cf
from checkface import audit

HOUSE = cf.Policy.model_validate({"payee": {"names": ["Quillfeather Grocery"]}})


def results() -> list[audit.Result]:
    good = audit.Item(2, cf.parse(patched({})))
    down = audit.Item(3, cf.parse(patched({"id": "=1+1", "counter.network": "down"})))
    unsigned = audit.Item(4, cf.parse(patched({"face.signature": False, "counter.network": "down"})))
    return list(audit.run([good, down, audit.Skipped(5, "Expected 3 cells, read 2."), unsigned], HOUSE))


def tally() -> audit.Tally:
    count = audit.Tally()
    for result in results():
        count.add(result)
    return count


def test_nothing_is_lost_between_rows_and_results() -> None:
    assert [result.line for result in results()] == [2, 3, 5, 4]


def test_the_tally() -> None:
    assert tally().text() == (
        "3 tenders: 1 convert, 1 keep, 0 refer, 1 decline.\n"
        "1 row skipped: no answer was given for it.\n"
        "\n"
        "tenders  effect   rule\n"
        "      1  decline  signature-missing\n"
        "      2  keep     network-down"
    )
    assert tally().worst is cf.Disposition.DECLINE
    assert audit.Tally().worst is None
    assert audit.Tally().text() == "0 tenders: 0 convert, 0 keep, 0 refer, 0 decline."


def test_the_tally_says_what_could_not_run() -> None:
    count = audit.Tally()
    for result in audit.run([audit.Item(2, cf.parse(patched({"counter.network": "(absent)"})))], HOUSE):
        count.add(result)
    assert count.text().endswith("\n\n      1  lack a reading that some rule needs; --verbose counts the rules")
    assert count.text(verbose=True).endswith("\n\ntenders  could not run, a reading is missing\n      1  network-down")


def test_csv() -> None:
    stream = io.StringIO()
    write = audit.writer(stream, "csv")
    for result in results():
        write("day.csv", result)
    rows = list(csv.reader(io.StringIO(stream.getvalue())))
    assert rows[0] == ["file", "line", "id", "disposition", "rules", "unread", "reason"]
    assert rows[1] == [
        "day.csv",
        "2",
        "0001",
        "convert",
        "",
        "",
        "Convert: all 12 things it rests on are in order, 8 of them by the clerk's eyes.",
    ]
    assert rows[2][2:5] == ["'=1+1", "keep", "keep network-down"]
    assert rows[3] == ["day.csv", "5", "", "skipped", "", "", "Expected 3 cells, read 2."]
    assert rows[4][3:5] == ["decline", "decline signature-missing | keep network-down"]


@pytest.mark.parametrize("form", ["csv", "jsonl"])
def test_no_number_in_full(form: str) -> None:
    stream = io.StringIO()
    write = audit.writer(stream, form)
    for result in results():
        write("day.csv", result)
    assert "45601122" not in stream.getvalue()


def test_json_lines() -> None:
    stream = io.StringIO()
    write = audit.writer(stream, "jsonl", reveal=True)
    for result in results():
        write("day.csv", result)
    wires = [json.loads(line) for line in stream.getvalue().splitlines()]
    assert [wire["line"] for wire in wires] == [2, 3, 5, 4]
    assert wires[2] == {"file": "day.csv", "line": 5, "skipped": "Expected 3 cells, read 2."}
    assert wires[0]["disposition"] == "convert"
    assert "45601122" in stream.getvalue()
