"""Sessions with ``checkface till`` and ``checkface history``: a lane's evening, and the office next morning."""

from __future__ import annotations

import builtins
import json
import re
import sqlite3
import sys
from contextlib import closing
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from clean_tender import NAMED_TOML, patched

from checkface.cli import ledgers, main

ACCOUNT = "45601122"
NAMED = ["--policy", "house.toml"]


@pytest.fixture
def lane(tmp_path: Path, named: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Path:
    """A folder with four checks and an open till at lane 3: one convertible, three of a network that is down."""
    named.write_text(f'{NAMED_TOML}[limits]\nhouse = "1500.00"\n', encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("CHECKFACE_LEDGER", "shop.ledger")
    monkeypatch.setattr(ledgers, "now", lambda: datetime(2026, 11, 24, 21, 43))
    for serial, dollars in ("1043", "45.10"), ("1044", "45.10"), ("1045", "1200.00"), ("1046", "39.99"):
        check: dict[str, Any] = {"face.micr": f"⑆071098973⑆ {ACCOUNT}⑈ {serial}", "face.serial": serial}
        check |= {"face.figures": f"${dollars}", "counter.amount": dollars}
        check |= {"face.words": "(absent)", "counter.purchase": "(absent)"}
        if serial != "1043":
            check["counter.network"] = "down"
        Path(f"{serial}.json").write_text(json.dumps(patched(check)), encoding="utf-8")
    assert main(["till", "open", "--lane", "3", "--by", "114"]) == 0
    assert capsys.readouterr().out == "The till of lane 3 is open.\n"
    return tmp_path


def told(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    """What a command prints."""
    assert main([*words]) == 0
    return capsys.readouterr().out


def take(serial: str, *more: str) -> int:
    return main(["till", "take", f"{serial}.json", "--lane", "3", "--by", "114", *NAMED, *more])


def test_an_evening(lane: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert [take(serial) for serial in ("1043", "1044", "1045", "1046")] == [0] * 4
    out, err = capsys.readouterr()
    assert out.splitlines()[:2] == [
        "Recorded as converted: 1 check, $45.10. Convert: all 12 things it rests on are in order, 8 of them by the clerk's eyes. 7 rules could not run.",
        (
            "Recorded as kept: 1 check, $45.10. Keep in the till, do not convert: "
            "The network is down: nothing can be converted."
        ),
    ]
    assert err == ""
    assert main(["till", "count", "--checks", "2", "--total", "85.09", "--lane", "3"]) == 0
    assert capsys.readouterr().out == "Counted: 2 checks, $85.09.\n"
    closing = ["till", "close", "--lane", "3", "--by", "115", "--fail-on-difference"]
    assert main(closing) == 1
    sheet = capsys.readouterr().out
    assert "The drawer is short by 1 check and $1,200.00." in sheet
    assert "1. Check 1045 ($1,200.00, account ending 1122) was kept and is not in the drawer" in sheet
    assert ACCOUNT not in sheet
    assert main(["till", "report", "--lane", "3"]) == 0
    assert capsys.readouterr().out == sheet
    assert main(["till", "report", "--lane", "3", "--format", "html", "--output", "sheet.html"]) == 0
    assert Path("sheet.html").read_text(encoding="utf-8").startswith("<!doctype html>")
    assert main(["till", "report", "--lane", "3", "--format", "csv"]) == 0
    assert "check,1045,...1122,1200.00,kept,keep,114," in capsys.readouterr().out


def test_a_drawer_that_agrees_by_its_list(lane: Path, capsys: pytest.CaptureFixture[str]) -> None:
    take("1044")
    Path("drawer.csv").write_text("serial,amount\n1044,45.10\n", encoding="utf-8")
    assert main(["till", "count", "drawer.csv", "--lane", "3"]) == 0
    assert main(["till", "close", "--lane", "3", "--by", "114", "--fail-on-difference"]) == 0
    assert "The drawer agrees with what was kept." in capsys.readouterr().out


def test_a_check_that_comes_again(lane: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert take("1043") == take("1044") == 0
    capsys.readouterr()
    sheet = told(capsys, "till", "report", "--lane", "3")
    for more in ([], ["--done", "kept", "--reason", "insists", "--second", "MG"], ["--done", "returned"]):
        assert take("1043", *more) == 1
        assert capsys.readouterr() == (
            "",
            "Already recorded at lane 3, 9:43 pm: converted. Void it and hand it back.\n",
        )
        assert take("1044", *more) == 1
        assert capsys.readouterr() == ("", "Already recorded at lane 3, 9:43 pm: kept. Put it in the drawer.\n")
    assert told(capsys, "till", "report", "--lane", "3") == sheet
    assert main(["till", "open", "--lane", "5", "--by", "116"]) == 0
    capsys.readouterr()
    other = ["till", "take", "1044.json", "--lane", "5", "--by", "116", *NAMED]
    assert main(other) == 1
    assert capsys.readouterr().err == (
        "Not recorded: already recorded at lane 3, 9:43 pm, by 114: kept. "
        "It belongs in the drawer of lane 3: do not hand it back, call the manager.\n"
    )
    assert main([*other, "--done", "returned"]) == 0
    assert capsys.readouterr().out.startswith("Recorded as returned: 1 check, $45.10. Decline and hand back: ")


def test_an_entry_with_a_name_of_its_own_is_the_same_entry_again(
    lane: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert take("1044", "--id", "register-20261124-0007") == 0
    assert capsys.readouterr().out.startswith("Recorded as kept")
    for _ in range(2):
        assert take("1044", "--id", "register-20261124-0007") == 0
        assert capsys.readouterr() == ("Already recorded at lane 3, 9:43 pm: kept. Put it in the drawer.\n", "")
    assert take("1044", "--id", "register-20261124-0008") == 1
    assert take("1045", "--id", "register-20261124-0007") == 2
    assert "expected a new id, read that of another entry" in capsys.readouterr().err
    assert b"20261124-0007" not in Path("shop.ledger").read_bytes() + Path("shop.ledger").read_bytes()


def test_a_check_that_cannot_be_known_again_is_told(lane: Path, capsys: pytest.CaptureFixture[str]) -> None:
    check = json.loads(Path("1044.json").read_text(encoding="utf-8"))
    check["face"] |= {"micr": f"⑆071098973⑆ {ACCOUNT}⑈", "serial": None}
    Path("bare.json").write_text(json.dumps(check), encoding="utf-8")
    more = ["--done", "kept", "--reason", "known customer", "--second", "MG"]
    assert take("bare", *more) == 0
    said = "Cannot be known again: not all of its numbers were read"
    assert capsys.readouterr().err == f"{said}. If it comes twice, nothing here will tell.\n"
    assert told(capsys, "till", "report", "--lane", "3").count(said) == 1


def test_an_altered_ledger_is_told_by_every_command(lane: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert take("1044") == take("1045") == 0
    assert main(["till", "count", "--checks", "2", "--total", "1245.10", "--lane", "3"]) == 0
    capsys.readouterr()
    assert main(["till", "check"]) == 0
    assert re.fullmatch(
        r"Lane 3: Entries 1 to 4 are as they were recorded; the last seal is [0-9A-F]{4}-[0-9A-F]{4}\.\n",
        capsys.readouterr().out,
    )
    with closing(sqlite3.connect("shop.ledger")) as other, other:
        other.execute("UPDATE item SET amount_cents = 4511 WHERE serial = '1044'")
    altered = "ALTERED from entry 2 on (11/24/2026 9:43 pm): the check recorded then was changed."
    assert main(["till", "check"]) == 1
    assert capsys.readouterr().out == f"Lane 3, till of 11/24/2026: {altered}\n"
    assert main(["till", "report", "--lane", "3"]) == 1
    assert f"{altered} Call the manager.\n" in capsys.readouterr().out
    assert main(["till", "close", "--lane", "3", "--by", "115"]) == 1
    assert altered in capsys.readouterr().out
    assert main(["history", "purge", "--before", "2027-01-01"]) == 1
    assert "1 kept, for they were altered" in capsys.readouterr().err
    assert main(["history", "export", "--output", "all.jsonl"]) == 0
    capsys.readouterr()
    assert main(["history", "import", "all.jsonl", "--ledger", "copy.ledger", "--key", "shop.ledger.key"]) == 1
    assert capsys.readouterr().err == f"Lane 3, till of 11/24/2026: {altered}\n"


def test_a_ledger_others_could_use_is_closed_to_them_and_named(lane: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("shop.ledger").chmod(0o644)
    for said in (f"{lane / 'shop.ledger'}: others could use it (mode 644); now only its owner can.\n", ""):
        assert main(["history", "show"]) == 0
        assert capsys.readouterr().err == said


def test_overrides_and_corrections(lane: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert take("1044", "--done", "converted") == 2
    assert take("1044", "--done", "converted", "--reason", "line came back", "--second", "114") == 2
    assert take("1044", "--done", "converted", "--reason", "line came back", "--second", "MG") == 0
    err = capsys.readouterr().err
    assert "Expected a reason and second initials for a check converted where told to keep" in err
    assert "read the clerk's own" in err
    correct = ["till", "correct", "1044", "--done", "kept", "--reason", "was kept", "--second", "MG"]
    assert main([*correct, "--lane", "3", "--by", "114"]) == 0
    assert capsys.readouterr().out == "Was converted, is kept.\n"
    assert main([*correct, "--lane", "3", "--by", "114"]) == 2
    main(["till", "report", "--lane", "3"])
    sheet = capsys.readouterr().out
    assert "Check 1044 $45.10: kept, told to keep: line came back (MG)" in sheet
    assert "Check 1044: converted, became kept: was kept (114, MG)" in sheet


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["till", "open", "--lane", "3", "--by", "114"], "without an open till, found one; close it first."),
        (["till", "close", "--lane", "3", "--by", "114"], "Expected the drawer to be counted before"),
        (["till", "close", "--lane", "9", "--by", "114"], "Expected a lane with an open till, read '9'."),
        (["till", "report", "--lane", "9"], "Expected a lane that has had a till, read '9'."),
        (["till", "count", "--lane", "3"], "Expected a list of the counted checks, or --checks and --total"),
        (["till", "count", "--lane", "3", "--checks", "3"], "Expected --checks and --total together"),
        (["till", "count", "--lane", "3", "--checks", "3", "--total", "x"], "Expected dollars such as 45.10"),
        (["till", "count", "bad.csv", "--lane", "3"], "bad.csv, line 2: amount: Expected dollars"),
        (["till", "count", "none.csv", "--lane", "3"], "none.csv: Expected a file to read"),
        (["till", "take", "bad.csv", "--lane", "3", "--by", "1"], "bad.csv: Expected JSON"),
        (["till", "open", "--lane", "4", "--by", "1", "--ledger", "bad.csv", "--key", "k"], "is not a database"),
        (["till", "open", "--lane", "4", "--by", "1", "--ledger", "mysql://a"], "sqlite or postgresql ledger"),
        (["history", "show", "--routing", "071098973"], "Expected --routing and --account together"),
        (["history", "purge"], "Expected --before or --older-than"),
        (
            ["history", "add-unpaid", "--routing", "071098974", "--account", ACCOUNT],
            "--routing: Expected the check digit",
        ),
        (
            ["history", "add-unpaid", "--routing", "071098973", "--account", "-"],
            "Expected an account of 1 to 19 digits",
        ),
        (["history", "import", "bad.csv"], "Expected a ledger export with its head on the first line"),
        (["history", "import-returns", "bad.csv"], "read it without routing, account."),
        (["history", "import-returns", "latin.csv"], "latin.csv, line 1: Expected UTF-8"),
    ],
)
def test_one_sentence_for_each_mistake(
    lane: Path, capsys: pytest.CaptureFixture[str], words: list[str], said: str
) -> None:
    Path("bad.csv").write_text("amount\nlots\n" * 100, encoding="utf-8")
    Path("latin.csv").write_bytes("Kontó\n".encode("latin-1"))
    assert main(words) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert said in err
    assert all(line.startswith("checkface: ") for line in err.splitlines())
    assert "fault" not in err
    assert ACCOUNT not in err


def test_the_ledger_must_be_named(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.delenv("CHECKFACE_LEDGER", raising=False)
    assert main(["history", "show"]) == 2
    assert "Expected --ledger or CHECKFACE_LEDGER" in capsys.readouterr().err


def test_without_the_extra_the_command_says_what_to_install(
    lane: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    real = builtins.__import__

    def without(name: str, *rest: Any) -> Any:
        if name.partition(".")[0] == "sqlalchemy":
            raise ImportError(name)
        return real(name, *rest)

    for name in [name for name in sys.modules if name.startswith(("sqlalchemy", "checkface.ledger"))]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setattr(builtins, "__import__", without)
    for words in (
        ["till", "open", "--lane", "3", "--by", "1"],
        ["till", "take", "1043.json", "--lane", "3", "--by", "1"],
        ["till", "count", "--lane", "3", "--checks", "1", "--total", "1.00"],
        ["history", "add-unpaid", "--routing", "071098973", "--account", "1", "--amount", "1.00"],
        ["history", "show"],
    ):
        assert main(words) == 2
        assert capsys.readouterr().err == (
            "checkface: Expected the ledger extra to be installed: pip install 'checkface[ledger]'.\n"
        )


def test_the_office(lane: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("returns.csv").write_text(
        f"routing,account,serial,amount,returned_on,reason\n071098973,{ACCOUNT},1001,45.10,2026-11-20,R01\n1,2,,,,\n",
        encoding="utf-8",
    )
    assert main(["history", "import-returns", "returns.csv"]) == 1
    out, err = capsys.readouterr()
    assert out == "1 added, 0 known already, 1 skipped.\n"
    assert err == "returns.csv:3: skipped. routing: Expected nine digits, read 1 digit.\n"
    assert main(["history", "show"]) == 0
    assert capsys.readouterr().out == "2026-11-20  account ending 1122        $45.10  check 1001  R01\n"
    assert take("1043") == 0
    assert "on the house's list of unpaid accounts" in capsys.readouterr().out
    who = ["--routing", "071098973", "--account", ACCOUNT]
    assert main(["history", "clear", *who, "--by", "MG", "--on", "2026-11-25"]) == 0
    assert main(["history", "show"]) == 0
    assert main(["history", "show", "--cleared"]) == 0
    out = capsys.readouterr().out
    assert out.splitlines()[:2] == ["1 cleared.", "Nothing is recorded."]
    assert out.endswith("cleared 2026-11-25 by MG\n")
    assert main(["history", "add-unpaid", *who, "--amount", "12", "--on", "2026-11-26"]) == 0
    assert main(["history", "show", "--format", "json"]) == 0
    listed = json.loads(capsys.readouterr().out.partition("\n")[2])
    assert [(entry["account_last4"], entry["amount_cents"], entry["listed_on"]) for entry in listed] == [
        ("1122", 1200, "2026-11-26")
    ]
    assert main(["history", "show", *who]) == 0
    assert capsys.readouterr().out == (
        "2026-11-24  check       1043        $45.10  returned   told to decline  by 114\n"
    )
    assert main(["history", "export", "--output", "all.jsonl"]) == 0
    assert ACCOUNT not in Path("all.jsonl").read_text(encoding="utf-8")
    capsys.readouterr()
    assert main(["history", "import", "all.jsonl", "--ledger", "copy.ledger", "--key", "shop.ledger.key"]) == 0
    assert capsys.readouterr().out == "7 added, 0 known already, 0 skipped.\n"
    assert main(["history", "purge", "--before", "2027-01-01"]) == 0
    assert capsys.readouterr().out == "Forgotten: 0 checks, 0 tills, 0 documents, 1 cleared entries.\n"


def test_documents_are_remembered_only_where_the_law_or_the_house_says_so(lane: Path) -> None:
    from checkface.ledger import Ledger

    check = json.loads(Path("1044.json").read_text(encoding="utf-8"))
    check["documents"][0]["number"] = "S530-4407-9921"
    for serial, more in ("1", []), ("2", ["--documents"]), ("3", ["--no-documents"]):
        check["face"] |= {"micr": f"⑆071098973⑆ 9900{serial}⑈ 100{serial}", "serial": f"100{serial}"}
        Path("shown.json").write_text(json.dumps(check), encoding="utf-8")
        assert take("shown", *more) == 0
    with Ledger.open("shop.ledger") as ledger:
        assert ledger.accounts_of_document("S530-4407-9921") == 1


def test_examine_asks_a_ledger_and_writes_nothing_to_it(lane: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["examine", "1043.json", "--ledger", "shop.ledger", *NAMED]) == 0
    assert capsys.readouterr().out.startswith("CONVERT")
    assert take("1043") == 0
    capsys.readouterr()
    before = Path("shop.ledger").read_bytes()
    for _ in range(2):
        assert main(["examine", "1043.json", "--ledger", "shop.ledger", "--format", "json", *NAMED]) == 0
        found = json.loads(capsys.readouterr().out)
        assert found["disposition"] == "decline"
        assert [finding["rule"] for finding in found["findings"]] == ["item-seen-before"]
    assert Path("shop.ledger").read_bytes() == before
    assert main(["examine", "1043.json", *NAMED]) == 0
    assert capsys.readouterr().out.startswith("CONVERT")


def test_examine_makes_no_ledger(lane: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["examine", "1043.json", "--ledger", "other.ledger"]) == 2
    assert capsys.readouterr().err == "checkface: other.ledger: Expected a ledger, read no such file.\n"
    assert not Path("other.ledger").exists()
