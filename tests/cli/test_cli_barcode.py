"""Sessions with ``checkface read barcode``: what is shown of a card, and what never is."""

from __future__ import annotations

import io
import json
import random
import sys
from datetime import date
from pathlib import Path

import pytest

from checkface import identity
from checkface.cli import main
from checkface.report.parts import part, part_text

sys.path.insert(0, str(Path(__file__).parents[1] / "identity"))
from identity_payloads import DEFORMATIONS, holder, issuers

# An invented holder on Virginia's issuer number, laid out as AAMVA DL/ID Card Design Standard 2020, Annex D.
PAYLOAD = (
    "@\n\x1e\rANSI 636000100101DL00310189DLDAQT64235789\nDCSSAMPLE\nDDEN\nDACJOSÉ\nDDFN\nDADJOHN\nDDGN\n"
    "DBD06062019\nDBB06071986\nDBA12102024\nDAG2300 WEST BROAD STREET\nDAIRICHMOND\nDAJVA\nDAK232690000  \n"
    "DCF2424244747474786102204\nDCGUSA\nDDD0\r"
)
ESCAPED = PAYLOAD.replace("\n", "<LF>").replace("\x1e", "<RS>").replace("\r", "<CR>")

PAGE = """\
barcode          | 220 characters
medium             barcode
kind               drivers-license
issuer             VA
issuer code        636000
country            USA
version            10
number             •••••5789
family             SAMPLE
given              JOSÉ
middle             JOHN
family truncated   no
given truncated    no
middle truncated   no
address state      VA
limited duration   no
issued             2019-06-06
expiry             date
expires            2024-12-10
validity           current
holder             adult
repairs            character-set (bytes in UTF-8 instead of ISO 8859-1)
"""


def give(monkeypatch: pytest.MonkeyPatch, content: bytes) -> None:
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(content)))


@pytest.mark.parametrize("words", [["-"], ["--file", "-"], ["--file", "card.txt"]])
def test_bytes(
    words: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("card.txt").write_bytes(PAYLOAD.encode())
    give(monkeypatch, PAYLOAD.encode())
    assert main(["read", "barcode", *words, "--on", "2024-12-10"]) == 0
    assert capsys.readouterr() == (PAGE, "")


@pytest.mark.parametrize(
    ("text", "repairs"), [(PAYLOAD, None), (ESCAPED, "escapes-undone (control characters written out as text)")]
)
def test_a_text_of_the_command_line(text: str, repairs: str | None, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["read", "barcode", text]) == 0
    lines = dict(line.split("  ", 1) for line in capsys.readouterr().out.splitlines()[1:])
    assert lines["family"].strip() == "SAMPLE"
    assert lines.get("repairs", "").strip() == (repairs or "")
    assert not {"validity", "holder"} & set(lines)


@pytest.mark.parametrize(
    ("day", "validity", "holder"),
    [("2004-06-06", "current", "minor"), ("2004-06-07", "current", "adult"), ("2024-12-11", "expired", "adult")],
)
def test_as_it_stands_on_a_day(day: str, validity: str, holder: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["read", "barcode", PAYLOAD, "--on", day, "--format", "json"]) == 0
    fields = json.loads(capsys.readouterr().out)["fields"]
    assert (fields["validity"], fields["holder"]) == (validity, holder)


def test_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["read", "barcode", PAYLOAD.replace("DBB06071986\n", "DBK123456789\n"), "--format", "json"]) == 0
    got = json.loads(capsys.readouterr().out)
    assert (got["reading"], got["text"], got["spans"], got["faults"]) == ("barcode", "221 characters", {}, [])
    assert got["fields"] == {
        "medium": "barcode", "kind": "drivers-license", "issuer": "VA", "issuer_code": "636000", "country": "USA",
        "version": 10, "number": "•••••5789", "family": "SAMPLE", "given": "JOSÉ", "middle": "JOHN", "suffix": "",
        "family_truncated": False, "given_truncated": False, "middle_truncated": False, "unordered": "",
        "address_state": "VA", "limited_duration": False, "issued": "2019-06-06", "expiry": "date",
        "expires": ["2024-12-10"], "validity": None, "holder": None, "repairs": [], "checks": [],
        "forbidden": [{"kind": "social-security", "certainty": "certain"}],
    }  # fmt: skip


def test_the_number_is_shown_when_asked_for(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["read", "barcode", PAYLOAD, "--reveal"]) == 0
    assert "\nnumber             T64235789\n" in capsys.readouterr().out


def test_what_is_wrong_and_what_must_not_be_kept_is_said(capsys: pytest.CaptureFixture[str]) -> None:
    text = PAYLOAD.replace("T64235789", "123-45-6789").replace("DBA12102024", "DBA12102018")
    assert main(["read", "barcode", text, "--reveal"]) == 0
    out = capsys.readouterr().out
    assert "\nchecks             dates-inconsistent (expires before it was issued)\n" in out
    assert out.endswith("\nforbidden          social-security (certain)\n")
    assert "6789" not in out


def test_a_month_of_expiry_is_two_days(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["read", "barcode", "%VARICHMOND^SAMPLE$ANA^1 MAIN ST^?\n;636000642357890=241219860607=?"]) == 0
    lines = [line.split(maxsplit=1) for line in capsys.readouterr().out.splitlines()]
    assert ["expiry", "between"] in lines
    assert ["expires", "2024-12-01, 2024-12-31"] in lines


def test_what_is_no_card_is_not_repeated(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["read", "barcode", "half a sandwich, 4111 1111 1111 1111"]) == 0
    assert capsys.readouterr().out == (
        "barcode | 36 characters\n"
        "        | ^^^^^^^^^^^^^\n"
        "        | Expected the payload of an identification card, read 36 other characters.\n"
    )
    assert main(["read", "barcode", "", "--format", "json"]) == 0
    assert json.loads(capsys.readouterr().out)["faults"] == [
        {
            "kind": "id-not-a-card", "start": 0, "end": 12,
            "message": "Expected the payload of an identification card, read nothing.",
        }
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ([], "Expected a text or --file, read neither."),
        (["x", "--file", "y"], "Expected a text or --file, read both."),
        (["--file", "none.png"], "none.png: Expected a file to read, read: No such file or directory."),
        (["x", "--on", "24/11"], "Expected a day such as 2026-11-24 after --on, read '24/11'."),
    ],
)
def test_mistakes(words: list[str], sentence: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["read", "barcode", *words]) == 2
    assert capsys.readouterr() == ("", f"checkface: {sentence}\n")


def test_a_picture_without_the_extra(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setitem(sys.modules, "zxingcpp", None)
    monkeypatch.chdir(tmp_path)
    Path("card.jpg").write_bytes(b"\xff\xd8\xff\xe0")
    assert main(["read", "barcode", "--file", "card.jpg"]) == 2
    assert capsys.readouterr() == (
        "",
        "checkface: card.jpg: Expected the scan extra (pip install checkface[scan]), read none installed.\n",
    )


@pytest.mark.parametrize("form", ["PNG", "JPEG"])
def test_a_picture(
    form: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    pytest.importorskip("zxingcpp")
    pytest.importorskip("PIL")
    pdf417gen = pytest.importorskip("pdf417gen")
    codes = pdf417gen.encode(PAYLOAD.encode("latin-1"), columns=10, security_level=4)
    picture = io.BytesIO()
    pdf417gen.render_image(codes, scale=3, ratio=3, padding=20).convert("L").save(picture, form)
    give(monkeypatch, picture.getvalue())
    assert main(["read", "barcode", "-", "--on", "2024-12-10"]) == 0
    assert capsys.readouterr().out == PAGE[: PAGE.index("repairs")]


def test_a_picture_that_holds_no_barcode(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    pytest.importorskip("zxingcpp")
    image = pytest.importorskip("PIL.Image")
    monkeypatch.chdir(tmp_path)
    image.new("L", (300, 200), 255).save("blank.png")
    assert main(["read", "barcode", "--file", "blank.png"]) == 2
    assert capsys.readouterr() == (
        "",
        "checkface: blank.png: Expected one PDF417 barcode in the picture, read none.\n",
    )


@pytest.mark.parametrize("name", DEFORMATIONS)
def test_no_number_and_no_birth_date_in_any_output(name: str) -> None:
    rng = random.Random(11)
    for issuer in issuers()[::4]:
        for version in range(1, 13):
            who = holder(*issuer, version, rng)
            text = DEFORMATIONS[name](who, rng)
            told = part("barcode", text, identity.read_barcode(text), on=date(2026, 11, 24))
            everything = part_text(told) + json.dumps(told.wire(), ensure_ascii=False)
            assert len(who.number) < 5 or who.number not in everything
            assert "WEST BROAD" not in everything
            assert "123456789" not in everything
            for written in ("%Y%m%d", "%m%d%Y", "%Y-%m-%d", "%m/%d/%Y", "%m-%d-%Y"):
                assert f"{who.birth:{written}}" not in everything
