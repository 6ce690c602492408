"""Sessions with ``checkface read letter``, and with cash letters given to ``audit`` and ``history``."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from plain_letter import SMALL, Check, file, whole

from checkface.cli import main


@pytest.fixture
def deposit(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    path = Path("deposit.x9")
    path.write_bytes(file(SMALL))
    return path


def test_a_session(deposit: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["read", "letter", str(deposit), "--items"]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    assert out == (
        "form    a length before each record, EBCDIC (code page 37)\n"
        "level   03, X9.37-2003\n"
        "use     test\n"
        "\n"
        "  record                                   items                amount    images\n"
        "       4  check 0001                                            $45.10         2  ⑆071098973⑆ ••••1122⑈1043\n"
        "      11  check 0002                                         $1,234.56         0  ⑈001044⑈ ⑆071098973⑆ ••*•••1122⑈"
        "  read error, repaired\n"
        "      12  bundle 1                             2             $1,279.66         2  as declared\n"
        "      14  return 1                                               $9.99         1  ⑈77⑈ ⑆071098973⑆ ••••1122⑈1043"
        "  A not sufficient funds\n"
        "      20  check 0004                                             $0.01         0  6⑆071098973⑆ •••⑉••6⑉789⑈55"
        "  a field is missing\n"
        "      21  bundle 2                             2                $10.00         1  as declared\n"
        "      22  cash letter LETTER01                 4             $1,289.66         3  as declared\n"
        "      23  file SPECIMEN ORIGIN                 4             $1,289.66         3  as declared\n"
        "\n"
        "No flaw found.\n"
    )


def test_a_broken_file_is_told_and_ends_with_one(deposit: Path, capsys: pytest.CaptureFixture[str]) -> None:
    deposit.write_bytes(file(SMALL)[:2000])
    assert main(["read", "letter", str(deposit)]) == 1
    out, _ = capsys.readouterr()
    assert out.splitlines()[5:] == [
        "      12  bundle 1                             2             $1,279.66         2  as declared",
        "    flaw  Byte 1,986, record 14 (type 31): Expected a record of 80 bytes, read 14 before the end of the file.",
        "    flaw  Byte 1,982, record 13: Expected record 70 to close the bundle, read the end of the file.",
        "       -  bundle 2                             0                 $0.00         0  nothing declared",
        "    flaw  Byte 1,982, record 13: Expected record 90 to close the cash letter, read the end of the file.",
        "       -  cash letter LETTER01                 2             $1,279.66         2  nothing declared",
        "    flaw  Byte 1,982, record 13: Expected record 99 to close the file, read the end of the file.",
        "       -  file SPECIMEN ORIGIN                 2             $1,279.66         2  nothing declared",
        "",
        "4 flaws.",
    ]


def test_many_alike_are_counted_and_told_when_asked(deposit: Path, capsys: pytest.CaptureFixture[str]) -> None:
    deposit.write_bytes(file(whole([[Check(1, valid="9") for _ in range(8)]])))
    assert main(["read", "letter", str(deposit)]) == 1
    out = capsys.readouterr().out
    assert out.count("MICR Valid Indicator): Expected") == 5
    assert out.endswith("\n       3  more of type 25, MICR Valid Indicator; --verbose tells each\n8 flaws.\n")
    assert main(["read", "letter", str(deposit), "--verbose"]) == 1
    assert capsys.readouterr().out.count("MICR Valid Indicator): Expected") == 8


def test_objects_for_programs(deposit: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["read", "letter", str(deposit), "--items", "--format", "jsonl"]) == 0
    lines = [json.loads(line) for line in capsys.readouterr().out.splitlines()]
    assert lines[0] == {"entry": "form", "framing": "prefixed", "encoding": "cp037", "level": "03", "use": "test"}
    assert [line["entry"] for line in lines[1:]] == [
        "check", "check", "bundle", "return", "check", "bundle", "letter", "file", "end",
    ]  # fmt: skip
    check = lines[1]
    assert (check["amount"], check["micr"], check["routing"]) == ("45.10", "⑆071098973⑆ ••••1122⑈1043", "071098973")
    place = check["images"][0]
    assert deposit.read_bytes()[place["offset"] :].startswith(b"II*\0")
    assert lines[8 - 1]["declared_amount"] == "1289.66"
    assert lines[-1] == {"entry": "end", "flaws": 0, "not_told": 0}


def test_an_account_is_shown_only_when_asked(deposit: Path, capsys: pytest.CaptureFixture[str]) -> None:
    deposit.write_bytes(file(whole([[Check(1), Check(2, on_us="45601122A/7")]])))
    for form in ("text", "jsonl"):
        main(["read", "letter", str(deposit), "--items", "--format", form])
        assert "4560" not in capsys.readouterr().out
        main(["read", "letter", str(deposit), "--items", "--format", form, "--reveal"])
        assert capsys.readouterr().out.count("45601122") == 2


@pytest.mark.parametrize("content", [b"", b"id,micr\n7,\n", b"\x89PNG\r\n\x1a\n"])
def test_what_is_no_letter_ends_with_two(content: bytes, deposit: Path, capsys: pytest.CaptureFixture[str]) -> None:
    deposit.write_bytes(content)
    assert main(["read", "letter", str(deposit)]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("checkface: deposit.x9: Expected a file header, record 01 in EBCDIC or ASCII, read ")


def test_audit_judges_a_letter(deposit: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["audit", str(deposit), "--fail-on", "decline"]) == 1
    out, err = capsys.readouterr()
    assert "deposit.x9:20  0004  decline  micr-remotely-created" in out
    assert "deposit.x9:11  0002  keep     micr-keyed" in out
    assert "4 tenders: 0 convert, 0 keep, 3 refer, 1 decline." in err
    deposit.write_bytes(file(SMALL)[:2000])
    assert main(["audit", str(deposit)]) == 1
    err = capsys.readouterr().err
    assert "deposit.x9:14: flaw. Byte 1,986, record 14 (type 31): Expected a record of 80 bytes, read 14" in err
    assert "\n4 flaws of the cash letter.\n" in err
    assert "skipped" not in err


@pytest.mark.parametrize("form", ["csv", "jsonl"])
def test_a_flaw_is_told_apart_from_a_row_skipped(form: str, deposit: Path) -> None:
    deposit.write_bytes(file(whole([[Check(1, valid="9")]])))
    assert main(["audit", str(deposit), "--quiet", "--output", f"answers.{form}"]) == 1
    flaw, check = Path(f"answers.{form}").read_text().splitlines()[-2:]
    assert (("flaw" in flaw, "skipped" in flaw), "flaw" in check) == ((True, False), False)


@pytest.mark.parametrize(
    ("sequence", "said"),
    [
        ("202611250000019", "202611250000019"),
        ("456011221122", "••••11221122"),
        ("4111111111111111"[:15], "411111111111111"),
    ],
)
def test_a_sequence_number_is_masked_as_audit_masks_it(
    sequence: str, said: str, deposit: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    deposit.write_bytes(file(whole([[Check(1, sequence=sequence)]])))
    assert main(["audit", str(deposit)]) == 0
    assert capsys.readouterr().out.split()[1] == said
    assert main(["read", "letter", str(deposit), "--items"]) == 0
    assert f" check {said} " in capsys.readouterr().out
    assert main(["read", "letter", str(deposit), "--items", "--format", "jsonl"]) == 0
    assert f'"sequence": "{said}"' in capsys.readouterr().out
    assert main(["read", "letter", str(deposit), "--items", "--reveal"]) == 0
    assert f" check {sequence} " in capsys.readouterr().out


def test_history_lists_returns_of_a_letter(deposit: Path, capsys: pytest.CaptureFixture[str]) -> None:
    words = ["history", "import-returns", str(deposit), "--ledger", "house.db"]
    assert main(words) == 0
    assert capsys.readouterr().out == "1 added, 0 known already, 0 skipped.\n"
    assert main(words) == 0
    assert capsys.readouterr().out == "0 added, 1 known already, 0 skipped.\n"
    assert main(["history", "show", "--ledger", "house.db"]) == 0
    assert (
        capsys.readouterr().out == "2026-11-25  account ending 1122         $9.99  check 77  A not sufficient funds\n"
    )
    deposit.write_bytes(file(whole([[Check(5, reason="Y")]])))
    assert main(words) == 1
    out, err = capsys.readouterr()
    assert out == "0 added, 0 known already, 1 skipped.\n"
    assert "read 'Y', presented twice" in err


def test_the_help_page(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    assert main(["read", "letter", "--help"]) == 0
    page = capsys.readouterr().out
    assert page.startswith("Usage: checkface read letter [OPTIONS] FILE\n")
    assert max(map(len, page.splitlines())) <= 80
    assert main(["read", "--help"]) == 0
    assert "letter    An image cash letter, the file of scanned checks: its totals" in capsys.readouterr().out
