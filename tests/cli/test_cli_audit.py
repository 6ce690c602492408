"""Sessions with ``checkface audit`` and ``checkface policy``."""

from __future__ import annotations

import csv
import io
import json
import tomllib
from pathlib import Path

import pytest
from clean_tender import CLEAN, patched

import checkface as cf
from checkface.cli import main

DAY = """\
id,micr,micr_by,network,amount,figures,words,date,payee,signature,declared_kind,on
0007,T071098973T 45601122O 1043,reader,up,45.10,$45.10,Forty-five and 10/100,11/24/2026,Quill,yes,personal,2026-11-24
0008,T071098973T 45601122O 1044,reader,down,45.10,$45.10,Forty-five and 10/100,11/24/2026,Quill,,personal,2026-11-24
0009,T071098973T 45601122O 1045,reader
0010,T071098973T 45601122O 1046,reader,up,45.1,$45.10,Forty-five and 10/100,11/24/2026,Quill,yes,personal,2026-11-24
"""


@pytest.fixture
def day(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    path = Path("day.csv")
    path.write_text(DAY, encoding="utf-8")
    return path


def test_a_session(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["audit", str(day)]) == 1
    out, err = capsys.readouterr()
    assert out == (
        "day.csv:3  0008  decline  signature-missing  Expected a signature, read none.\n"
        "day.csv:3  0008  keep     network-down  The network is down: nothing can be converted.\n"
    )
    assert err == (
        "day.csv:4: skipped. Expected 12 cells, read 3.\n"
        'day.csv:5: skipped. counter.amount: Expected dollars as text, such as "45.10", read something else\n'
        "2 tenders: 1 convert, 0 keep, 0 refer, 1 decline.\n"
        "2 rows skipped: no answer was given for them.\n"
        "\n"
        "tenders  effect   rule\n"
        "      1  decline  signature-missing\n"
        "      1  keep     network-down\n"
        "\n"
        "      2  lack a reading that some rule needs; --verbose counts the rules\n"
    )


def test_quiet_leaves_the_count(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    main(["audit", str(day), "--quiet"])
    out, err = capsys.readouterr()
    assert out == ""
    assert "2 tenders: 1 convert" in err


@pytest.mark.parametrize(("level", "code"), [("decline", 1), ("refer", 1), (None, 0)])
def test_exit_codes(level: str | None, code: int, day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    day.write_text("".join(DAY.splitlines(keepends=True)[:3]), encoding="utf-8")
    assert main(["audit", str(day), *(["--fail-on", level] if level else [])]) == code


def test_a_run_of_only_skipped_rows_is_not_done(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    day.write_text("id,micr\n1\n", encoding="utf-8")
    assert main(["audit", str(day)]) == 1
    assert capsys.readouterr().out == ""


def test_answers_as_csv_and_as_json_lines(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["audit", str(day), "--output", "out.csv"]) == 1
    rows = list(csv.DictReader(io.StringIO(Path("out.csv").read_text(encoding="utf-8"))))
    assert [(row["line"], row["id"], row["disposition"]) for row in rows] == [
        ("2", "0007", "convert"),
        ("3", "0008", "decline"),
        ("4", "", "skipped"),
        ("5", "", "skipped"),
    ]
    assert main(["audit", str(day), "--output", "out.jsonl"]) == 1
    wires = [json.loads(line) for line in Path("out.jsonl").read_text(encoding="utf-8").splitlines()]
    assert [wire.get("disposition", "skipped") for wire in wires] == ["convert", "decline", "skipped", "skipped"]


def test_no_account_number_is_printed_or_written(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    day.write_text(DAY.replace("personal,", "45601122,"), encoding="utf-8")
    main(["audit", str(day), "--output", "out.jsonl"])
    day.write_text(DAY, encoding="utf-8")
    main(["audit", str(day), "--output", "out.csv", "--verbose"])
    everything = "".join(capsys.readouterr()) + "".join(
        Path(f"out.{form}").read_text("utf-8") for form in ("csv", "jsonl")
    )
    assert "45601122" not in everything


def test_json_lines_several_files_and_stdin(
    day: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    Path("day.jsonl").write_text(json.dumps(CLEAN) + "\n", encoding="utf-8")
    down = json.dumps(patched({"counter.network": "down"}))
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(down.encode())))
    assert main(["audit", str(day), "day.jsonl", "-"]) == 1
    out, err = capsys.readouterr()
    assert (
        out.splitlines()[-1] == "stdin:1  0001  keep     network-down  The network is down: nothing can be converted."
    )
    assert "4 tenders: 2 convert, 1 keep, 0 refer, 1 decline." in err


def test_other_headings(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    day.write_text(DAY.replace("id,micr,", "Slip;Line,", 1).replace(";", ",", 1), encoding="utf-8")
    assert main(["audit", str(day), "--columns", "face.micr=Line", "--columns", "id=Slip"]) == 1
    assert "2 tenders: 1 convert, 0 keep, 0 refer, 1 decline." in capsys.readouterr().err
    assert main(["audit", str(day), "--columns", "face.micr=Line", "--ignore", "Slip"]) == 1
    assert "day.csv:3  -  decline" in capsys.readouterr().out
    assert main(["audit", str(day)]) == 2
    assert capsys.readouterr().err == "checkface: day.csv: Expected a column of a tender, read 'Slip'.\n"


def test_a_semicolon_a_byte_order_mark_and_a_day(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    day.write_bytes("id;micr;date\r\n1;(illegible);11/24/2024\r\n".encode("utf-8-sig"))
    assert main(["audit", str(day)]) == 0
    assert "date-stale" not in capsys.readouterr().out
    assert main(["audit", str(day), "--on", "2026-11-24"]) == 0
    assert "date-stale" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"", "Expected tenders, read an empty file."),
        (b"id,micr\n", "Expected rows below the heading, read none."),
        (b"\x7fELF\0\0", "Line 1: Expected text in UTF-8, read a zero byte; this looks like a binary file."),
        (b"id,payee\n1,caf\xe9\n", "Line 2: Expected text in UTF-8, read the byte 0xE9; save the file as UTF-8."),
        (
            b'id,payee\n1,"' + b"x" * 10_000_000 + b'"\n',
            "Line 2: Expected at most 1,048,576 bytes, read a longer line.",
        ),
        (b"id,mircr\n1,2\n", "Expected a column of a tender, read 'mircr'; the nearest known column is 'micr'."),
    ],
    ids=["empty", "heading only", "binary", "encoding", "10 MB cell", "unknown column"],
)
def test_a_file_that_cannot_be_read(
    content: bytes, sentence: str, day: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    day.write_bytes(content)
    assert main(["audit", str(day)]) == 2
    assert capsys.readouterr() == ("", f"checkface: day.csv: {sentence}\n")


def test_the_file_itself_is_not_overwritten(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["audit", str(day), "--output", "./day.csv"]) == 2
    assert capsys.readouterr().err == "checkface: day.csv: Expected another file to write than the one that is read.\n"
    assert day.read_text(encoding="utf-8") == DAY


def test_nothing_in_a_file_acts_on_the_terminal(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    day.write_text('id,network\n"\x1b[2J\nx",down\n', encoding="utf-8")
    main(["audit", str(day)])
    out = capsys.readouterr().out
    assert "\x1b" not in out
    assert "day.csv:2  \u241b[2J\u240ax  keep     network-down  " in out


HOUSE = """\
name = "Quillfeather"

[limits]
house = "40.00"

[kinds]
convertible = ["personal", "business"]

[effects]
network-down = "refer"
"""


@pytest.fixture
def house(day: Path) -> Path:
    path = Path("house.toml")
    path.write_text(HOUSE, encoding="utf-8")
    return path


def test_a_sound_policy(house: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["policy", "check", str(house)]) == 0
    assert capsys.readouterr() == ("house.toml: no mistake found.\n", "")


def test_every_mistake_is_named_with_its_line(house: Path, capsys: pytest.CaptureFixture[str]) -> None:
    house.write_text(
        '[limits]\nhose = "1.00"\n[effects]\namount-over-conversion-limit = "note"\nnetwork-dawn = "keep"\n'
        "[dates]\nstale_days = 0\n",
        encoding="utf-8",
    )
    assert main(["policy", "check", str(house)]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    lines = err.splitlines()
    assert lines[0] == (
        "checkface: house.toml: Line 2, limits: Expected a known key, read 'hose'; the nearest known key is 'house'"
    )
    assert lines[1].startswith("checkface: house.toml: Line 7, dates.stale_days: ")
    assert lines[2].startswith("checkface: house.toml: Line 4, effects.amount-over-conversion-limit: Expected keep or ")
    assert lines[3].startswith("checkface: house.toml: Line 5, effects.network-dawn: Expected the id of a rule, ")
    assert lines[3].endswith("; the nearest rule is 'network-down'.")


@pytest.mark.parametrize(
    ("content", "start"),
    [(b"x = = 1", "Expected a policy in TOML, read: "), (b"\xff", "Expected a policy in UTF-8, read other bytes.")],
)
def test_what_is_no_policy(content: bytes, start: str, house: Path, capsys: pytest.CaptureFixture[str]) -> None:
    house.write_bytes(content)
    assert main(["audit", "day.csv", "--policy", str(house)]) == 2
    assert capsys.readouterr().err.startswith(f"checkface: house.toml: {start}")


def test_what_is_in_force_is_a_policy_again_and_says_where_each_value_comes_from(
    house: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["policy", "show", str(house)]) == 0
    page = capsys.readouterr().out
    assert cf.Policy.parse(page) == cf.Policy.parse(HOUSE)
    lines = page.splitlines()
    assert lines[:2] == [f"# digest {cf.Policy.parse(HOUSE).digest}", 'name = "Quillfeather"  # line 1']
    for line in (
        'conversion = "25000.00"  # default', 'house = "40.00"  # line 4', "# cash_back is not set  # default",
        'convertible = ["personal", "business"]  # line 7', 'network-down = "refer"  # line 10', "# stale_days is not set  # default",
    ):  # fmt: skip
        assert line in lines
    assert main(["policy", "show"]) == 0
    page = capsys.readouterr().out
    assert cf.Policy.parse(page) == cf.Policy()
    assert "# line" not in page


def test_what_is_in_force_as_json(house: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["policy", "show", str(house), "--format", "json"]) == 0
    values = {entry["key"]: (entry["value"], entry["from"]) for entry in json.loads(capsys.readouterr().out)["values"]}
    assert values["limits.house"] == ("40.00", "line 4")
    assert values["dates.overdue_days"] == (90, "default")


def test_strange_names_survive(house: Path, capsys: pytest.CaptureFixture[str]) -> None:
    house.write_text('name = "a\\"b\\u007f"\n[house.stores."7 north"]\ncity = "Q"\n', encoding="utf-8")
    assert main(["policy", "show", str(house)]) == 0
    assert tomllib.loads(capsys.readouterr().out)["house"]["stores"]["7 north"]["city"] == "Q"


def test_two_policies_on_a_day(house: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["policy", "compare", "default", str(house), "day.csv"]) == 1
    out, err = capsys.readouterr()
    assert out == "line 2  0007  convert -> refer  now amount-over-house-limit (refer)\n"
    assert err.splitlines()[-1] == "2 judged under both, 1 answered differently."
    assert main(["policy", "compare", "default", str(house), "day.csv", "--format", "json"]) == 1
    assert json.loads(capsys.readouterr().out)["reasons"] == ["now amount-over-house-limit (refer)"]
