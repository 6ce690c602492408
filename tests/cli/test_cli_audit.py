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
from checkface.policy import UNNAMED

_HEAD = (
    "id,micr,micr_by,network,amount,figures,words,date,payee,signature,declared_kind,on,drawer,drawee,legends,"
    "authorization_signed,documents.kind,documents.state,documents.expires,documents.name,documents.is_bearer"
)
_REST = (
    "$45.10,Forty-five and 10/100,11/24/2026,Quillfeather,{signed},personal,2026-11-24,Ada Sample | 12 Example Lane,"
    "Specimen Savings Bank,,yes,drivers-license,17,2029-05-01,Ada Sample,yes"
)
DAY = f"""\
{_HEAD}
0007,T071098973T 45601122O 1043,reader,up,45.10,{_REST.format(signed="yes")}
0008,T071098973T 45601122O 1044,reader,down,45.10,{_REST.format(signed="")}
0009,T071098973T 45601122O 1045,reader
0010,T071098973T 45601122O 1046,reader,up,45.1,{_REST.format(signed="yes")}
"""
NAMED = """\
name = "Quillfeather"

[payee]
names = ["Quillfeather Grocery", "Quillfeather"]
"""


@pytest.fixture
def day(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    path = Path("day.csv")
    path.write_text(DAY, encoding="utf-8")
    Path("named.toml").write_text(NAMED, encoding="utf-8")
    return path


def test_a_session(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["audit", str(day), "--policy", "named.toml"]) == 1
    out, err = capsys.readouterr()
    assert out == (
        "day.csv:3  0008  decline  signature-missing  Not signed.\n"
        "day.csv:3  0008  keep     network-down  The network is down: nothing can be converted.\n"
    )
    assert err == (
        "day.csv:4: skipped. Expected 21 cells, read 3.\n"
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


def test_without_a_house_of_that_name_nothing_converts_and_the_audit_says_so(
    day: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["audit", str(day), "--quiet"]) == 1
    err = capsys.readouterr().err
    assert UNNAMED in err.splitlines()
    assert "2 tenders: 0 convert, 0 keep, 1 refer, 1 decline." in err


def test_quiet_leaves_the_count(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    main(["audit", str(day), "--quiet", "--policy", "named.toml"])
    out, err = capsys.readouterr()
    assert out == ""
    assert "2 tenders: 1 convert" in err


@pytest.mark.parametrize("answered", ["payee-near-hous", "network-down"])
def test_a_question_that_there_is_not_skips_its_row_and_no_other(
    answered: str, day: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    wires = [
        patched({"id": number, "counter.confirmed": [rule]})
        for number, rule in (("1", answered), ("2", "drawer-unclear"))
    ]
    Path("day.jsonl").write_text("\n".join(map(json.dumps, wires)), encoding="utf-8")
    assert main(["audit", "day.jsonl", "--policy", "named.toml"]) == 1
    err = capsys.readouterr().err
    assert err.startswith("day.jsonl:1: skipped. counter.confirmed: Expected ")
    assert f"read '{answered}'" in err
    assert "1 tender: 1 convert" in err
    assert main(["examine", "day.jsonl", "--policy", "named.toml"]) == 1
    assert f"read '{answered}'" in capsys.readouterr().err


@pytest.mark.parametrize(("level", "code"), [("decline", 1), ("refer", 1), (None, 0)])
def test_exit_codes(level: str | None, code: int, day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    day.write_text("".join(DAY.splitlines(keepends=True)[:3]), encoding="utf-8")
    assert main(["audit", str(day), *(["--fail-on", level] if level else [])]) == code


def test_a_run_of_only_skipped_rows_is_not_done(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    day.write_text("id,micr\n1\n", encoding="utf-8")
    assert main(["audit", str(day)]) == 1
    assert capsys.readouterr().out == ""


def test_answers_as_csv_and_as_json_lines(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["audit", str(day), "--output", "out.csv", "--policy", "named.toml"]) == 1
    rows = list(csv.DictReader(io.StringIO(Path("out.csv").read_text(encoding="utf-8"))))
    assert [(row["line"], row["id"], row["disposition"]) for row in rows] == [
        ("2", "0007", "convert"),
        ("3", "0008", "decline"),
        ("4", "", "skipped"),
        ("5", "", "skipped"),
    ]
    assert main(["audit", str(day), "--output", "out.jsonl", "--policy", "named.toml"]) == 1
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
    assert main(["audit", str(day), "day.jsonl", "-", "--policy", "named.toml"]) == 1
    out, err = capsys.readouterr()
    assert (
        out.splitlines()[-1] == "stdin:1  0001  keep     network-down  The network is down: nothing can be converted."
    )
    assert "4 tenders: 2 convert, 1 keep, 0 refer, 1 decline." in err


def test_other_headings(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    day.write_text(DAY.replace("id,micr,", "Slip;Line,", 1).replace(";", ",", 1), encoding="utf-8")
    assert (
        main(["audit", str(day), "--columns", "face.micr=Line", "--columns", "id=Slip", "--policy", "named.toml"]) == 1
    )
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


HOUSE = f"""\
{NAMED}
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
        'conversion = "25000.00"  # default', 'house = "40.00"  # line 7', 'cash_back = "50.00"  # default',
        'convertible = ["personal", "business"]  # line 10', 'network-down = "refer"  # line 13', "# stale_days is not set  # default",
    ):  # fmt: skip
        assert line in lines
    assert main(["policy", "show"]) == 0
    page = capsys.readouterr().out
    assert cf.Policy.parse(page) == cf.Policy()
    assert "# line" not in page


def test_what_is_in_force_as_json(house: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["policy", "show", str(house), "--format", "json"]) == 0
    values = {entry["key"]: (entry["value"], entry["from"]) for entry in json.loads(capsys.readouterr().out)["values"]}
    assert values["limits.house"] == ("40.00", "line 7")
    assert values["dates.overdue_days"] == (90, "default")


def test_a_limit_that_the_house_has_unset_is_shown_as_unset_and_read_as_unset(
    house: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    house.write_text('[limits]\nhouse = ""\n', encoding="utf-8")
    assert main(["policy", "show", str(house)]) == 0
    page = capsys.readouterr().out
    assert 'house = ""  # line 2' in page.splitlines()
    assert cf.Policy.parse(page).limits.house is None


def test_strange_names_survive(house: Path, capsys: pytest.CaptureFixture[str]) -> None:
    house.write_text('name = "a\\"b\\u007f"\n[house.stores."7 north"]\ncity = "Q"\n', encoding="utf-8")
    assert main(["policy", "show", str(house)]) == 0
    assert tomllib.loads(capsys.readouterr().out)["house"]["stores"]["7 north"]["city"] == "Q"


def test_two_policies_on_a_day(house: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["policy", "compare", "named.toml", str(house), "day.csv"]) == 1
    out, err = capsys.readouterr()
    assert out == "line 2  0007  convert -> refer  now amount-over-house-limit (refer)\n"
    assert err.splitlines()[-1] == "2 judged under both, 1 answered differently."
    assert main(["policy", "compare", "named.toml", str(house), "day.csv", "--format", "json"]) == 1
    assert json.loads(capsys.readouterr().out)["reasons"] == ["now amount-over-house-limit (refer)"]
