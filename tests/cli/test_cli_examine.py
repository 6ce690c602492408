"""Sessions with ``checkface examine``, ``read``, ``explain``, ``rules``, ``tables`` and ``schema``."""

from __future__ import annotations

import io
import json
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from clean_tender import CLEAN, NAMED_TOML, patched

import checkface as cf
from checkface.audit import across
from checkface.cli import main

SESSION = """\
DECLINE  (no id)

decline   signature-missing
          Not signed.
          signature | (not seen)
remedy    have the customer sign
source    UCC 3-401(a) (law, from memory): Nobody is liable on an instrument without a signature.
          Common practice (practice): What counters commonly do; no published source.

answer    decline
read as   routing 071098973; account ••••1122; check number 1043; amount $45.10; date 2026-11-24;
          kind personal
change    to convert: signature-missing (have the customer sign)
"""

HOUSE = cf.Policy.parse(NAMED_TOML)
FLAGS = {
    "--micr": "T071098973T 45601122O 1043", "--micr-by": "reader", "--network": "up", "--amount": "45.10",
    "--figures": "$45.10", "--words": "Forty-five and 10/100", "--date": "11/24/2026", "--payee": "Quillfeather Grocery",
    "--drawer": "Ada Sample", "--drawee": "Specimen Savings Bank", "--legend": "", "--kind": "personal",
    "--document": "drivers-license", "--document-state": "IL", "--document-expires": "2029-05-01",
    "--document-name": "Ada Sample", "--on": "2026-11-24", "--policy": "house.toml",
}  # fmt: skip


@pytest.fixture(autouse=True)
def house(named: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A folder with the policy of the house, to be in."""
    monkeypatch.chdir(named.parent)


def flags(*more: str, **changes: str | None) -> list[str]:
    given = FLAGS | {f"--{name.replace('_', '-')}": value for name, value in changes.items()}
    words = [word for name, value in given.items() if value is not None for word in (name, value)]
    return [*words, "--bearer", "--authorized", *more]


@pytest.fixture
def tender(tmp_path: Path) -> Path:
    path = tmp_path / "tender.json"
    path.write_text(json.dumps(CLEAN), encoding="utf-8")
    return path


def give(monkeypatch: pytest.MonkeyPatch, content: str | bytes) -> None:
    raw = content.encode() if isinstance(content, str) else content
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(raw)))


def test_a_session_that_ends_in_a_refusal(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["examine", *flags(), "--no-signature"]) == 0
    out, err = capsys.readouterr()
    assert out.startswith(SESSION)
    assert out.endswith("record    Decline and hand back: Not signed.\n")
    assert err == ""


def test_a_check_given_by_options_is_the_one_given_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["examine", *flags(), "--signature", "--format", "json"]) == 0
    got = json.loads(capsys.readouterr().out)
    wire = {
        "face": {
            "micr": FLAGS["--micr"], "figures": "$45.10", "words": FLAGS["--words"], "date": FLAGS["--date"],
            "payee": FLAGS["--payee"], "drawer": "Ada Sample", "drawee": "Specimen Savings Bank", "legends": "",
            "signature": True,
        },
        "counter": {
            "on": "2026-11-24", "declared_kind": "personal", "amount": "45.10", "micr_by": "reader", "network": "up",
            "authorization_signed": True,
        },
        "documents": [
            {
                "kind": "drivers-license", "state": "IL", "expires": "2029-05-01", "name": "Ada Sample",
                "is_bearer": True,
            }
        ],
    }  # fmt: skip
    assert got == cf.assess(wire, HOUSE).model_dump()
    assert got["disposition"] == "convert"


def test_a_document_with_a_barcode_and_none_at_all(capsys: pytest.CaptureFixture[str]) -> None:
    def documents(*words: str) -> Any:
        assert main(["examine", "--words", "Ten", *words, "--on", "2026-11-24", "--format", "json"]) == 0
        return json.loads(capsys.readouterr().out)

    def library(wire: dict[str, Any]) -> Any:
        return cf.assess({"face": {"words": "Ten"}, "counter": {"on": "2026-11-24"}, **wire}).model_dump()

    shown = {"barcode": "@\n\x1e\rANSI 636035", "number": "A123-4567-8901", "is_bearer": False}
    words = ["--document-barcode", shown["barcode"], "--document-number", shown["number"], "--no-bearer"]
    assert documents(*words) == library({"documents": [shown]})
    assert "A123-4567-8901" not in json.dumps(documents(*words))
    assert documents("--document", "none") == library({"documents": []})
    assert documents() == library({})


def test_nothing_more_is_said_of_a_document_that_was_not_shown(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["examine", "--document", "none", "--document-state", "IL"]) == 2
    problem = "checkface: Expected nothing more of a document after --document none, read some.\n"
    assert capsys.readouterr() == ("", problem)


def test_a_question_is_answered_with_its_rule(capsys: pytest.CaptureFixture[str]) -> None:
    given = flags("--signature", "--format", "json", payee="Quillfeather Market")
    assert main(["examine", *given]) == 0
    asked = json.loads(capsys.readouterr().out)
    (question,) = (finding for finding in asked["findings"] if finding["question"])
    assert asked["disposition"] == "refer"
    assert question["question"] in {step["text"] for step in asked["instructions"]}
    assert main(["examine", *given, "--confirmed", question["rule"]]) == 0
    assert json.loads(capsys.readouterr().out)["disposition"] == "convert"
    assert main(["examine", *given, "--confirmed", "network-down"]) == 2
    assert "counter.confirmed: Expected a rule that a clerk may confirm" in capsys.readouterr().err


def test_the_memo_is_given_line_by_line(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["examine", *flags("--memo", "for groceries", "--memo", "and milk", "--format", "json")]) == 0
    assert json.loads(capsys.readouterr().out)["read"]["readings"]["face.memo"] == "for groceries\nand milk"


@pytest.mark.parametrize("form", ["text", "plain"])
def test_verbose_lists_what_is_still_to_do(form: str, capsys: pytest.CaptureFixture[str]) -> None:
    words = ["--words", "Forty-five and 10/100", "--on", "2026-11-24", "--verbose", "--format", form]
    assert main(["examine", *words]) == 0
    out = " ".join(capsys.readouterr().out.split())
    said = [
        "Put the check in the reader.", "Look at the payee line.", "May we see your identification, please?",
        "Read the signature on the pad before you accept it.", "Have the check judged again with what is new.",
        "if the answer stays the same",
    ]  # fmt: skip
    places = [out.find(words) for words in said]
    assert -1 not in places
    assert places == sorted(places)


@pytest.mark.parametrize(
    ("option", "state"),
    [(["--payee", ""], "(blank)"), (["--payee", "(illegible)"], "(illegible)"), ([], "(not looked at)")],
)
def test_the_states_of_a_reading(option: list[str], state: str, capsys: pytest.CaptureFixture[str]) -> None:
    main(["examine", *flags(payee=None), *option, "--signature", "--format", "plain"])
    assert state.strip("()") in capsys.readouterr().out


def test_lines_are_given_one_by_one(capsys: pytest.CaptureFixture[str]) -> None:
    drawer = ["--drawer", "Ada Sample", "--drawer", "12 Example Lane", "--legend", "VOID AFTER 90 DAYS"]
    assert main(["examine", *flags(drawer=None, legend=None), *drawer, "--format", "json"]) == 0
    readings = json.loads(capsys.readouterr().out)["read"]["readings"]
    assert readings["face.drawer"] == "Ada Sample\n12 Example Lane"
    assert readings["face.legends"] == "VOID AFTER 90 DAYS"


def test_without_a_day_it_is_today(capsys: pytest.CaptureFixture[str]) -> None:
    main(["examine", *flags(on=None), "--format", "json"])
    assert json.loads(capsys.readouterr().out)["read"]["readings"]["counter.on"] == date.today().isoformat()


def test_a_day_in_the_tender_stands(tender: Path, capsys: pytest.CaptureFixture[str]) -> None:
    main(["examine", str(tender), "--on", "2030-01-01", "--format", "json"])
    assert json.loads(capsys.readouterr().out)["read"]["readings"]["counter.on"] == "2026-11-24"


@pytest.mark.parametrize("words", [["-"], []])
def test_stdin(words: list[str], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    give(monkeypatch, json.dumps(CLEAN))
    assert main(["examine", *words, "--policy", "house.toml"]) == 0
    assert capsys.readouterr().out.startswith("CONVERT  0001\n")


def test_several_tenders_and_a_broken_one(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    down = json.dumps(patched({"id": "0002", "counter.network": "down"}))
    give(monkeypatch, f'{json.dumps(CLEAN)}\n{{"fase": {{}}}}\n{down}\n')
    assert main(["examine", "--format", "json", "--policy", "house.toml"]) == 1
    out, err = capsys.readouterr()
    assert [json.loads(line)["disposition"] for line in out.splitlines()] == ["convert", "keep"]
    assert err == ("stdin, 2: skipped. tender: Expected a known key, read 'fase'; the nearest known key is 'face'\n")


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"", "stdin: Expected a tender as JSON, read nothing."),
        (
            b"\x00\x01",
            "stdin: Expected JSON, read text that breaks off or goes wrong at line 1, column 1; a table of checks is for checkface audit.",
        ),
        ('{"fase": {}}', "stdin: tender: Expected a known key, read 'fase'; the nearest known key is 'face'"),
    ],
)
def test_what_is_no_tender(
    content: str | bytes, sentence: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    give(monkeypatch, content)
    assert main(["examine"]) == 2
    assert capsys.readouterr() == ("", f"checkface: {sentence}\n")


@pytest.mark.parametrize(
    ("network", "level", "code"),
    [("up", "keep", 0), ("down", "keep", 1), ("down", "refer", 0), ("down", None, 0)],
)
def test_fail_on(network: str, level: str | None, code: int, capsys: pytest.CaptureFixture[str]) -> None:
    words = flags(network=network) + (["--fail-on", level] if level else [])
    assert main(["examine", *words, "--signature"]) == code
    capsys.readouterr()


@pytest.mark.parametrize("form", ["text", "plain", "json"])
def test_numbers_are_masked_unless_asked_for(form: str, tender: Path, capsys: pytest.CaptureFixture[str]) -> None:
    main(["examine", str(tender), "--format", form, "--verbose"])
    assert "45601122" not in "".join(capsys.readouterr())
    main(["examine", str(tender), "--format", form, "--reveal"])
    assert "45601122" in capsys.readouterr().out


def test_output_goes_to_a_file(tender: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    place = tmp_path / "answer.json"
    assert main(["examine", str(tender), "--format", "json", "--output", str(place), "--policy", "house.toml"]) == 0
    assert capsys.readouterr() == ("", "")
    assert json.loads(place.read_text(encoding="utf-8"))["disposition"] == "convert"


def test_record_and_replay(tender: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    records, house = tmp_path / "day.jsonl", tmp_path / "low.toml"
    house.write_text(NAMED_TOML + '[limits]\nhouse = "40.00"\n', encoding="utf-8")
    assert main(["examine", str(tender), "--record", str(records), "--policy", "house.toml"]) == 0
    assert main(["examine", str(tender), "--record", str(records), "--policy", "house.toml"]) == 0
    capsys.readouterr()
    assert main(["examine", "--replay", str(records), "--policy", "house.toml"]) == 0
    assert capsys.readouterr() == ("", "2 judged again, 0 changed.\n")
    assert main(["examine", "--replay", str(records), "--policy", str(house)]) == 0
    assert capsys.readouterr() == (
        (
            "line 1  0001  convert -> refer  now amount-over-house-limit (refer)\n"
            "line 2  0001  convert -> refer  now amount-over-house-limit (refer)\n"
        ),
        "2 judged again, 2 changed. Made with other policy.\n",
    )
    records.write_text(records.read_text(encoding="utf-8") + "{}\n", encoding="utf-8")
    assert main(["examine", "--replay", str(records), "--policy", str(house), "--format", "json"]) == 1
    out, err = capsys.readouterr()
    assert json.loads(out.splitlines()[0]) == {
        "line": 1, "id": "0001", "before": "convert", "after": "refer",
        "reasons": ["now amount-over-house-limit (refer)"], "made_with_other": ["policy"],
    }  # fmt: skip
    assert ":3: skipped. " in err


def test_a_record_is_for_its_owner_and_never_goes_into_the_file_that_is_read(
    tender: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    records = tmp_path / "day.jsonl"
    main(["examine", str(tender), "--record", str(records)])
    assert records.stat().st_mode & 0o077 == 0
    capsys.readouterr()
    before = tender.read_bytes()
    for option in ("--record", "--output"):
        assert main(["examine", str(tender), option, str(tender)]) == 2
        assert "Expected another file to write than the one that is read." in capsys.readouterr().err
    assert tender.read_bytes() == before


@pytest.mark.parametrize(
    ("words", "first", "last"),
    [
        (["micr", "T071098973T 45601122O 1043"], "micr     | T071098973T ••••1122O 1043", "unread     no"),
        (["words", "Forty-five and 10/100"], "words      | Forty-five and 10/100", "candidates   $45.10 (as written)"),
        (
            ["words", "--", "-- Fifty"],
            "words      | -- Fifty",
            "note a single word may be the start of a longer amount",
        ),
        (["words", "-"], "words | -", "      | ^ Expected an amount in words, read a blank line."),
        (["date", "11/24/26", "--on", "2026-11-24"], "date             | 11/24/26", "weekday contradicts   no"),
    ],
)
def test_read(words: list[str], first: str, last: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["read", *words]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].split() == first.split()
    assert lines[-1].split() == last.split()


def test_read_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["read", "routing", "071098974", "--format", "json"]) == 0
    assert json.loads(capsys.readouterr().out)["faults"][0]["kind"] == "routing-checksum"


def test_the_rule_book(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    place = tmp_path / "rules.html"
    assert main(["rules", "--format", "html", "--output", str(place)]) == 0
    assert place.read_text(encoding="utf-8").startswith("<!doctype html>")
    assert main(["rules", "--format", "json"]) == 0
    listed = [*(rule.id for rule in cf.rules()), *(rule.id for rule in across.rules())]
    assert [rule["id"] for rule in json.loads(capsys.readouterr().out)] == listed
    assert main(["explain", "Amounts_Disagree", "--format", "json"]) == 0
    assert json.loads(capsys.readouterr().out)["id"] == "amounts-disagree"
    assert main(["explain", "network-down"]) == 0
    assert capsys.readouterr().out.startswith("network-down  keep\n  The network or the authorization line is down.\n")


def test_tables(capsys: pytest.CaptureFixture[str]) -> None:
    from checkface import tables

    assert main(["tables"]) == 0
    page = capsys.readouterr().out
    assert all(f"{name}  " in page for name in tables.names())
    assert all(tables.load(name).digest in page for name in tables.names())
    assert main(["tables", "routing_prefix", "--format", "csv"]) == 0
    assert capsys.readouterr().out.startswith("range,series,district,")
    assert main(["tables", "routing_prefix", "--format", "json"]) == 0
    wire = json.loads(capsys.readouterr().out)
    assert len(wire["rows"]) == len(tables.load("routing_prefix").rows)
    assert set(wire["source"]) == {"authority", "edition", "taken", "how", "check"}


@pytest.mark.parametrize("name", ["tender", "assessment", "policy"])
def test_schema(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["schema", name]) == 0
    schema: dict[str, Any] = json.loads(capsys.readouterr().out)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert schema["type"] == "object"
