"""Sessions with ``checkface audit`` across checks: the lines, the count, the files, and what goes wrong."""

from __future__ import annotations

import csv
import io
import json
import re
import sys
import tempfile
from pathlib import Path

import pytest

from checkface.audit import across
from checkface.cli import main as command

HEAD = (
    "id,micr,micr_by,network,amount,figures,words,date,payee,signature,declared_kind,on,drawer,drawee,legends,"
    "authorization_signed,documents.kind,documents.state,documents.expires,documents.name,documents.is_bearer,"
    "taken_as,store,lane\n"
)


def main(words: list[str]) -> int:
    """The program, under the policy of a house with a name."""
    return command([*words, "--policy", "house.toml"])


def row(
    identifier: str, serial: str, taken: str, network: str = "up", account: str = "45601122", amount: str = "45.10"
) -> str:
    words = {"45.10": "Forty-five and 10/100", "19.99": "Nineteen and 99/100"}[amount]
    return (
        f"{identifier},T071098973T {account}O {serial},reader,{network},{amount},${amount},{words},11/24/2026,"
        "Quillfeather Grocery,yes,personal,2026-11-24,Ada Sample | 12 Example Lane,Specimen Savings Bank,,yes,"
        f"drivers-license,17,2029-05-01,Ada Sample,yes,{taken},7,3\n"
    )


DAY = HEAD + "".join(
    (
        row("0007", "1043", "converted"),
        row("0008", "1043", "kept", "down"),
        row("0009", "2001", "converted", "down", "77889900", "19.99"),
        row("0010", "3001", "kept", "down", "66554433", "19.99"),
        row("0011", "4001", "", "up", "55443322"),
    )
)


@pytest.fixture
def day(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("house.toml").write_text('[payee]\nnames = ["Quillfeather Grocery"]\n', encoding="utf-8")
    Path("day.csv").write_text(DAY, encoding="utf-8")
    Path("drawer.csv").write_text("micr\nT071098973T 45601122O 1043\n", encoding="utf-8")
    return Path("day.csv")


BARRED = "day.csv:4  0009  refer    converted-though-barred  Converted, but the answer is keep: network-down.\n"
UNASKED = (
    "converted-though-barred, kept-though-convertible and taken-though-declined could not be asked of 1 item because "
    "nothing says what the lane did (taken_as).\n"
)


def test_against_the_lane_without_asking(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["audit", "day.csv"]) == 0
    out, err = capsys.readouterr()
    assert BARRED in out
    assert out.splitlines()[2] == BARRED.strip()  # below what the check itself shows
    assert err.endswith(
        "\n\n  asked  found  effect   rule for the auditor\n"
        "      2      1  refer    converted-though-barred\n"
        "      2      0  note     kept-though-convertible\n"
        "      4      0  refer    taken-though-declined\n" + UNASKED
    )


def test_a_file_that_says_nothing_of_the_lane_says_so_when_asked(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    rows = [line.split(",") for line in DAY.splitlines()]
    day.write_text("".join(",".join(cells[:-3]) + "\n" for cells in rows), encoding="utf-8")
    assert main(["audit", "day.csv"]) == 0
    assert "taken_as" not in capsys.readouterr().err
    assert main(["audit", "day.csv", "--verbose"]) == 0
    assert capsys.readouterr().err.endswith(f"\n\n{UNASKED.replace('1 item', '5 items')}")


def test_a_whole_session(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    words = ["audit", "day.csv", "--across", "--drawer", "drawer.csv", "--total", "kept=65.10", "--count", "kept@7/3=2"]
    assert main(words) == 0
    out, err = capsys.readouterr()
    assert out.splitlines()[4:] == [
        ("day.csv:2  0007  refer    converted-check-in-drawer  Converted and in the drawer (drawer.csv:2): check 1043 "
        "($45.10, account ••••1122). Deposited, it would be paid twice."),
        ("day.csv:5  0010  refer    kept-check-missing  Kept and not in the drawer: check 3001 ($19.99, account ••••4433). "
        "The till is short by it."),
        ("day.csv:2  0007  refer    same-item-converted-and-kept  One check converted and kept, to be paid twice: converted at "
        "day.csv:2 0007, kept at day.csv:3 0008."),
        ("day.csv:3  0008  refer    totals-disagree  Kept: declared $65.10, the 2 checks of the file make $65.09: $0.01 more declared. One "
        "check may explain it: $45.11 declared for the $45.10 of day.csv:3 0008. Not in the sum: of 1 more nothing says what was done with them."),
    ]  # fmt: skip
    assert "      2      1  refer    kept-check-missing\n" in err
    assert "could not be asked of 1 item because nothing says what the lane did (taken_as)." in err


def test_fail_on_what_is_found_across(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    day.write_text(HEAD + row("1", "1043", "converted") + row("2", "1043", "converted"), encoding="utf-8")
    assert main(["audit", "day.csv", "--fail-on", "keep"]) == 0
    assert main(["audit", "day.csv", "--across", "--fail-on", "decline"]) == 0
    assert main(["audit", "day.csv", "--across", "--fail-on", "refer", "--quiet"]) == 1
    out = capsys.readouterr().out
    assert out.count("same-item-twice") == 1
    day.write_text(HEAD + row("1", "1043", "kept"), encoding="utf-8")
    assert main(["audit", "day.csv", "--fail-on", "keep"]) == 0  # kept-though-convertible is a note
    assert "kept-though-convertible" in capsys.readouterr().out


@pytest.mark.parametrize("form", ["csv", "jsonl", "parquet", "xlsx"])
def test_findings_have_rows_of_their_own(form: str, day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["audit", "day.csv", "--across", "--total", "kept=1.00", "--output", f"out.{form}"]) == 0
    expected = [
        ("day.csv", "4", "0009", "refer converted-though-barred"),
        ("day.csv", "2", "0007", "refer same-item-converted-and-kept"),
        ("", "", "", "refer totals-disagree"),
    ]
    place = Path(f"out.{form}")
    if form == "jsonl":
        wires = [json.loads(line) for line in place.read_text(encoding="utf-8").splitlines()]
        assert len(wires) == 8
        assert [wire["across"]["rule"] for wire in wires if "across" in wire] == [
            rule[3].split()[1] for rule in expected
        ]
        assert wires[6]["across"]["places"] == [
            {"file": "day.csv", "line": 2, "id": "0007"}, {"file": "day.csv", "line": 3, "id": "0008"},
        ]  # fmt: skip
        return
    if form == "csv":
        rows = [tuple(cells) for cells in csv.reader(io.StringIO(place.read_text(encoding="utf-8")))]
    elif form == "parquet":
        pq = pytest.importorskip("pyarrow.parquet")
        rows = [tuple(str(value or "") for value in found.values()) for found in pq.read_table(place).to_pylist()]
    else:
        openpyxl = pytest.importorskip("openpyxl")
        sheet = openpyxl.load_workbook(place)["answers"]
        rows = [tuple(str(value or "") for value in cells) for cells in sheet.iter_rows(values_only=True)]
    assert [(*cells[:3], cells[4]) for cells in rows if cells[3] == "across"] == expected


def test_no_number_in_full(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    more = row("0012", "1048", "kept", "down") + row("1", "1048", "converted", account="45601132")
    day.write_text(DAY + more, encoding="utf-8")
    words = ["audit", "day.csv", "--across", "--drawer", "drawer.csv", "--total", "kept=1.00"]
    main([*words, "--output", "out.jsonl"])
    written = [line for line in Path("out.jsonl").read_text(encoding="utf-8").splitlines() if '{"across"' in line]
    messages = [json.loads(line)["across"]["message"] for line in written]
    assert len(messages) > 4
    assert not [message for message in messages if re.search("45601122|45601132|77889900", message)]


def test_a_missing_extra_says_so(
    day: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setitem(sys.modules, "duckdb", None)
    assert main(["audit", "day.csv", "--across"]) == 2
    assert capsys.readouterr() == (
        "",
        "checkface: Expected the audit extra for --across: pip install 'checkface[audit]'.\n",
    )
    assert main(["audit", "day.csv", "--drawer", "drawer.csv", "--total", "kept=65.09"]) == 0
    assert "converted-check-in-drawer" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["--total", "kept"], "Expected kept=1234.50 or the like, read 'kept'. See checkface audit --help."),
        (["--count", "kept=x"], "Expected a number of checks, read 'x'. See checkface audit --help."),
        (["--total", "kept=1", "--total", "kept=2"], "Expected one total of kept, read another. See checkface audit --help."),
        (["--accounts", "7"], "Expected --across with --accounts, read --accounts alone."),
        (["--across", "--sequence", "1"], "Expected at least 2 after --sequence, read 1."),
        (["--drawer-sheet", "x"], "Expected --drawer with --drawer-sheet, read --drawer-sheet alone."),
        (["--drawer", "drawer.csv", "--drawer-columns", "x"], "Expected PATH=HEADING after --drawer-columns, read 'x'."),
        (["--drawer", "drawer.csv", "--drawer-sheet", "x"], "drawer.csv: Expected a workbook to choose a sheet of, read another form of file."),
        (["--drawer", "none.csv"], "none.csv: Expected a file to read, read: No such file or directory."),
        (["--drawer", "empty.csv"], "empty.csv: Expected tenders, read an empty file."),
        (["--drawer", "drawer.csv", "--output", "drawer.csv"], "drawer.csv: Expected another file to write than the one that is read."),
    ],
)  # fmt: skip
def test_mistakes(words: list[str], sentence: str, day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("empty.csv").write_text("", encoding="utf-8")
    assert main(["audit", "day.csv", *words]) == 2
    assert capsys.readouterr() == ("", f"checkface: {sentence}\n")


def test_a_broken_row_of_the_drawer_is_named_and_counted(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("drawer.csv").write_text("serial,amount\n1043,45.10\n3001,x\n", encoding="utf-8")
    assert main(["audit", "day.csv", "--drawer", "drawer.csv"]) == 1
    err = capsys.readouterr().err
    assert err.startswith("drawer.csv:3: skipped. counter.amount: Expected dollars")
    assert err.endswith("\n1 row of the drawer skipped.\n")


def test_the_list_of_the_drawer_may_have_headings_of_its_own(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("drawer.csv").write_text("Line,Clerk\nT071098973T 45601122O 1043,Ada\n", encoding="utf-8")
    words = ["--drawer", "drawer.csv", "--drawer-columns", "face.micr=Line", "--drawer-ignore", "Clerk"]
    assert main(["audit", "day.csv", *words]) == 0
    out = capsys.readouterr().out
    assert "converted-check-in-drawer" in out
    assert "drawer-check-unexplained" not in out


def test_what_a_broken_row_may_be_is_accused_of_nothing(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    words = ["audit", "day.csv", "--drawer", "drawer.csv"]
    Path("drawer.csv").write_text("micr,amount\nT071098973T 45601122O 1043,45.10\nT071098973T 66554433O 3001,x\n")
    main(words)
    out, err = capsys.readouterr()
    assert "kept-check-missing" not in out
    assert "kept-check-missing could not be asked of 1 item because a row of the drawer was skipped." in err
    day.write_text(DAY.replace("down,19.99,$19.99", "down,x,$19.99"), encoding="utf-8")
    Path("drawer.csv").write_text("micr\nT071098973T 45601122O 1043\nT071098973T 66554433O 3001\n")
    assert main([*words, "--total", "kept=65.09"]) == 1
    out, err = capsys.readouterr()
    assert "drawer-check-unexplained" not in out
    assert "drawer-check-unexplained could not be asked of 1 item because a row of the file was skipped." in err
    assert "nothing says what was done with them, 2 rows skipped.\n" in out
    assert "explains it" not in out


def test_other_thresholds(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    rows = [row(str(n), str(1043 + n), "kept", "down") for n in range(3)]
    day.write_text(HEAD + "".join(rows), encoding="utf-8")
    assert main(["audit", "day.csv", "--across"]) == 0
    assert "counterfeit-run" not in capsys.readouterr().out
    assert main(["audit", "day.csv", "--across", "--sequence", "3"]) == 0
    assert "Checks 1043 to 1045, 3 without a gap, of account ••••1122" in capsys.readouterr().out


def test_two_files_are_held_against_one_another(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("evening.csv").write_text(HEAD + row("0099", "1043", "converted"), encoding="utf-8")
    assert main(["audit", "evening.csv", "day.csv", "--across"]) == 0
    assert "converted at day.csv:2 0007 and evening.csv:2 0099, kept at day.csv:3 0008." in capsys.readouterr().out


def test_nothing_stays_behind(day: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    spill = tmp_path / "spill"
    spill.mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(spill))
    made: list[Path] = []
    kept = across.Index.__enter__

    def entered(index: across.Index) -> across.Index:
        made.extend(spill.iterdir())
        return kept(index)

    monkeypatch.setattr(across.Index, "__enter__", entered)
    assert main(["audit", "day.csv", "--across", "--quiet"]) == 0
    assert len(made) == 1
    assert main(["audit", "none.csv", "--across", "--quiet"]) == 2
    assert len(made) == 2
    assert list(spill.iterdir()) == []


def test_the_help_names_every_option(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["audit", "--help"]) == 0
    page = capsys.readouterr().out
    part = page.partition("The checks together:\n")[2].partition("\n\n")[0]
    assert re.findall(r"^  (--[a-z-]+)", part, re.MULTILINE) == [
        "--across", "--drawer", "--drawer-columns", "--drawer-ignore", "--drawer-sheet", "--total", "--count", "--accounts", "--sequence", "--witnesses",
    ]  # fmt: skip


def test_an_empty_drawer_is_a_drawer(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("drawer.csv").write_text("micr\n", encoding="utf-8")
    assert main(["audit", "day.csv", "--drawer", "drawer.csv", "--quiet"]) == 0
    out = capsys.readouterr()
    assert "kept-check-missing" in out.out + out.err
    Path("drawer.csv").write_text("", encoding="utf-8")
    assert main(["audit", "day.csv", "--drawer", "drawer.csv"]) == 2
    assert capsys.readouterr().err == "checkface: drawer.csv: Expected tenders, read an empty file.\n"


def test_stdin_is_one_thing_only(day: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["audit", "-", "--drawer", "-"]) == 2
    assert capsys.readouterr().err == "checkface: Expected - for stdin once, read it twice.\n"
