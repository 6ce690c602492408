"""``checkface draw``: from nothing, from a tender, and for everything that must not be drawn."""

from __future__ import annotations

import io
import json
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from clean_tender import patched

from checkface import tables
from checkface.cli import main

REFUSED = "Expected a specimen's routing number on the line, read another: real numbers are never drawn."


def written(tmp_path: Path, *tenders: dict[str, Any]) -> str:
    path = tmp_path / "tenders.json"
    path.write_text(json.dumps(list(tenders) if len(tenders) > 1 else tenders[0]), encoding="utf-8")
    return str(path)


def test_a_clean_specimen_from_nothing(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["draw"]) == 0
    first = capsys.readouterr().out
    ElementTree.fromstring(first)
    assert 'width="6in" height="2.75in"' in first
    assert ">SPECIMEN<" in first
    assert main(["draw"]) == 0
    assert capsys.readouterr().out == first
    assert main(["draw", "--seed", "2"]) == 0
    assert capsys.readouterr().out != first


@pytest.mark.parametrize("kind", ["cashiers-check", "Cashier's check", "cashiers_check", "cashiers"])
def test_a_kind_by_any_of_its_names(kind: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["draw", "--kind", kind]) == 0
    assert "CASHIER'S CHECK" in capsys.readouterr().out


def test_a_tender(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = written(tmp_path, patched({"face.words": "Fifty-four and 10/100"}))
    output = tmp_path / "drawn.svg"
    assert main(["draw", path, "--marked", "--side", "both", "--output", str(output)]) == 0
    assert capsys.readouterr() == ("", "")
    drawn = output.read_text(encoding="utf-8")
    assert "amounts-disagree" in drawn
    assert drawn.count(">SPECIMEN<") == 2
    assert "45601122" not in drawn


def test_a_policy_decides_what_is_marked(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    house = tmp_path / "house.toml"
    house.write_text('[limits]\nhouse = "40.00"\n[payee]\nnames = ["Quillfeather Grocery"]\n', encoding="utf-8")
    path = written(tmp_path, patched({}))
    assert main(["draw", path, "--marked", "--policy", str(house)]) == 0
    assert "amount-over-house-limit" in capsys.readouterr().out


def test_stdin(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    content = json.dumps(patched({})).encode()
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(content), encoding="utf-8"))
    assert main(["draw", "-"]) == 0
    assert capsys.readouterr().out.startswith("<svg")


def test_a_row_of_a_file(capsys: pytest.CaptureFixture[str]) -> None:
    saturday = str(tables.folder() / "demo" / "saturday.csv")
    assert main(["draw", saturday, "--row", "3"]) == 0
    assert capsys.readouterr().out.startswith("<svg")
    assert main(["draw", saturday]) == 2
    assert "Expected one tender, read 638: choose with --row, or give a --folder." in capsys.readouterr().err
    assert main(["draw", saturday, "--row", "639"]) == 2
    assert "Expected --row 1 to 638, read 639." in capsys.readouterr().err


def test_a_folder_of_drawings(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    real = patched({"face.micr": "⑆111000025⑆ 45601122⑈ 1043"})
    path = written(tmp_path, patched({}), real, patched({"face.payee": ""}))
    folder = tmp_path / "drawn" / "here"
    assert main(["draw", path, "--folder", str(folder)]) == 1
    assert sorted(each.name for each in folder.iterdir()) == ["0001.svg", "0003.svg"]
    assert capsys.readouterr().err == f"{path}:2: not drawn. {REFUSED}\n2 drawn, 1 not drawn.\n"


def test_a_real_number_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    output = tmp_path / "drawn.svg"
    path = written(tmp_path, patched({"face.micr": "⑆111000025⑆ 45601122⑈ 1043"}))
    assert main(["draw", path, "--output", str(output)]) == 2
    assert capsys.readouterr() == ("", f"checkface: {path}: {REFUSED}\n")
    assert not output.exists()


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["--kind", "monney-order"], "Expected a kind of paper after --kind, read 'monney-order'; the nearest is money-order."),
        (["--kind", "savings bond"], "Expected a check to draw, read a savings bond: it has no drawer, payee or account, and is not drawn as a check."),
        (["--row", "2"], "Expected a file for --row or --folder to take tenders from, read none."),
        (["x.json", "--kind", "personal"], "Expected a file or --kind, read both."),
        (["x.json", "--folder", "y", "--row", "1"], "Expected --folder, or --row and --output; read both."),
        (["nowhere.json"], "nowhere.json: Expected a file to read, read: No such file or directory."),
        (["--side", "top"], "Expected one of front, back, both after --side, read something else. See checkface draw --help."),
        (["--on", "soon"], "Expected a day such as 2026-11-24 after --on, read 'soon'."),
    ],
)  # fmt: skip
def test_one_sentence(words: list[str], sentence: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["draw", *words]) == 2
    assert capsys.readouterr() == ("", f"checkface: {sentence}\n")


def test_a_broken_tender_says_what_is_wrong(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "broken.json"
    path.write_text('{"face": {"seriel": "1"}}', encoding="utf-8")
    assert main(["draw", str(path)]) == 2
    assert "the nearest known key is 'serial'" in capsys.readouterr().err


def test_there_is_no_way_to_leave_the_word_out(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["draw", "--help"]) == 0
    page = capsys.readouterr().out
    assert "SPECIMEN" in page
    for option in ("--no-specimen", "--specimen", "--plain", "--raw"):
        assert main(["draw", option]) == 2
        assert "Expected an option of this command" in capsys.readouterr().err
