"""Mistakes in a command line: one sentence on stderr, exit code 2, nothing on stdout."""

from __future__ import annotations

from pathlib import Path

import pytest

from checkface.cli import main


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["exmine"], "Expected a command, read 'exmine'; the nearest is examine. See checkface --help."),
        (["read", "mcr", "x"], "Expected a command, read 'mcr'; the nearest is micr. See checkface read --help."),
        (
            ["examine", "--polisy", "x"],
            "Expected an option of this command, read --polisy; the nearest is --policy. See checkface examine --help.",
        ),
        (
            ["read", "micr", "-071098973 45601122O"],
            (
                "Expected an option of this command, read -••••••••• ••••1122O; a text that starts with a hyphen stands "
                "after --. See checkface read micr --help."
            ),
        ),
        (["45601122"], "Expected a command, read '••••1122'. See checkface --help."),
        (["examine", "--policy"], "Expected a value after --policy, read nothing. See checkface examine --help."),
        (["examine", "a", "b"], "Expected no more words, read 1 more. See checkface examine --help."),
        (
            ["examine", "--network", "sideways"],
            "Expected one of up, down after --network, read something else. See checkface examine --help.",
        ),
        (
            ["examine", "--network", "up", "--network", "down"],
            "Expected --network once, read it again. See checkface examine --help.",
        ),
        (
            ["audit", "x.csv", "--fail-on", "convert"],
            "Expected one of keep, refer, decline after --fail-on, read something else. See checkface audit --help.",
        ),
        (["explain"], "Expected RULE, read nothing. See checkface explain --help."),
        (
            ["schema", "tendr"],
            "Expected one of tender, assessment, policy after NAME, read something else. See checkface schema --help.",
        ),
        (["audit"], "Expected a file to audit, read none. See checkface audit --help."),
        (
            ["examine", "x.json", "--micr", "y"],
            "Expected a file, options that say what is read on a check, or --replay; read several of these.",
        ),
        (["examine", "--micr", "x", "--on", "24/11"], "Expected a day such as 2026-11-24 after --on, read '24/11'."),
        (
            ["examine", "--amount", "45.1"],
            'counter.amount: Expected dollars as text, such as "45.10", read something else',
        ),
        (
            ["read", "micr", "x", "--notation", "toed"],
            (
                "Expected one of unicode, iso2033, unifiedpos, x9, font-letters, font-punctuation, toad, tuad, tu-dollar, "
                "dbc after --notation, read 'toed'."
            ),
        ),
        (
            ["explain", "amounts-disagre"],
            (
                "Expected the name of a rule, read 'amounts-disagre'; the nearest is amounts-disagree. "
                "All are listed by: checkface rules"
            ),
        ),
        (
            ["tables", "routng_prefix"],
            (
                "Expected the name of a table, read 'routng_prefix'; the nearest is routing_prefix. "
                "All are listed by: checkface tables"
            ),
        ),
        (
            ["tables", "--format", "csv"],
            "Expected the name of a table that has rows before --format csv, read another.",
        ),
        (["audit", "x.csv", "--columns", "micr"], "Expected PATH=HEADING after --columns, read 'micr'."),
        (
            ["audit", "x.csv", "--output", "x.ods"],
            "Expected a file named .csv, .jsonl, .parquet or .xlsx after --output, read 'x.ods'.",
        ),
    ],
)
def test_one_sentence(words: list[str], sentence: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(words) == 2
    assert capsys.readouterr() == ("", f"checkface: {sentence}\n")


@pytest.mark.parametrize("command", [["examine"], ["audit"], ["examine", "--replay"], ["examine", "--policy"]])
def test_files_that_are_not_there(command: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    missing = tmp_path / "none.json"
    rest = ["--micr", "x"] if "--policy" in command else []
    assert main([*command, str(missing), *rest]) == 2
    kind = "policy" if "--policy" in command else "file"
    assert (
        capsys.readouterr().err
        == f"checkface: {missing}: Expected a {kind} to read, read: No such file or directory.\n"
    )


def test_a_folder_is_no_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["examine", str(tmp_path)]) == 2
    assert capsys.readouterr().err == f"checkface: {tmp_path}: Expected a file to read, read: Is a directory.\n"


def test_a_place_that_cannot_be_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    place = tmp_path / "none" / "x.json"
    assert main(["schema", "--output", str(place)]) == 2
    assert (
        capsys.readouterr().err == f"checkface: {place}: Expected a file to write, read: No such file or directory.\n"
    )


def test_a_value_that_is_refused_is_not_quoted(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["examine", "--micr-by", "45601122"]) == 2
    assert "45601122" not in capsys.readouterr().err


def test_a_fault_of_the_program_shows_no_number(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def broken(*_: object) -> None:
        raise RuntimeError("account 45601122")

    monkeypatch.setattr("checkface.cli.examine.assess", broken)
    assert main(["examine", "--micr", "x"]) == 2
    err = capsys.readouterr().err
    assert err.startswith("checkface: A fault in checkface itself, please report it: RuntimeError in broken, line ")
    assert "45601122" not in err


def test_an_interrupt(monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("checkface.cli.examine.assess", interrupted)
    assert main(["examine", "--micr", "x"]) == 130
