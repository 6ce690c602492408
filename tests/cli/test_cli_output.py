"""What ``--output`` leaves on the disk, whichever command writes it."""

from __future__ import annotations

import json
import stat
from pathlib import Path

import pytest
from clean_tender import CLEAN

from checkface.cli import main


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("check.json").write_text(json.dumps(CLEAN), encoding="utf-8")


COMMANDS = [
    ["examine", "check.json"], ["audit", "check.json"], ["rules"], ["tables"], ["schema", "tender"], ["draw"],
    ["lesson"], ["explain", "altered"],
]  # fmt: skip


@pytest.mark.parametrize("words", COMMANDS, ids=lambda words: words[0])
def test_a_result_is_its_owners_and_no_link_is_written_through(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    Path("out.csv").write_text("earlier", encoding="utf-8")
    Path("out.csv").chmod(0o644)
    assert main([*words, "--output", "out.csv"]) == 0
    assert "out.csv: others could use it (mode 644); now only its owner can.\n" in capsys.readouterr().err
    assert stat.S_IMODE(Path("out.csv").stat().st_mode) == 0o600
    whole = Path("out.csv").read_bytes()
    assert whole not in (b"", b"earlier")
    Path("link.csv").symlink_to("out.csv")
    assert main([*words, "--output", "link.csv"]) == 2
    assert "link.csv: Expected a file to write, read: a symbolic link" in capsys.readouterr().err
    assert Path("out.csv").read_bytes() == whole


def test_a_record_open_to_others_is_closed_and_named(capsys: pytest.CaptureFixture[str]) -> None:
    Path("day.jsonl").touch(0o644)
    for said in ("day.jsonl: others could use it (mode 644); now only its owner can.\n", ""):
        assert main(["examine", "check.json", "--record", "day.jsonl"]) == 0
        assert capsys.readouterr().err == said
    assert stat.S_IMODE(Path("day.jsonl").stat().st_mode) == 0o600
    Path("link.jsonl").symlink_to("day.jsonl")
    assert main(["examine", "check.json", "--record", "link.jsonl"]) == 2
    assert "link.jsonl: Expected a file to add to, read: a symbolic link" in capsys.readouterr().err
