"""A generated attack: every secret in every disguise in every field, in everything that leaves the toolkit.

A sample by a seed; all of it with ``CHECKFACE_THOROUGH=1``.
"""

from __future__ import annotations

import csv
import io
import json
import os
import random
import sqlite3
from collections.abc import Iterator
from datetime import datetime
from itertools import product
from pathlib import Path
from typing import Any

import pytest
from clean_tender import NAMED, patched
from leaks import DISGUISES, OWN, SCRIPTS, SECRETS, Place, reached, said, shown

import checkface as cf
from checkface import audit, report
from checkface.tender import Face

THOROUGH = bool(os.environ.get("CHECKFACE_THOROUGH"))
SAMPLE = 400
HOUSE = cf.Policy.model_validate(NAMED)
READINGS = [f"face.{name}" for name, field in Face.model_fields.items() if "Reading" in str(field.annotation)]
AMOUNTS = ["counter.amount", "counter.purchase"]
FREE = ["id", "counter.store", "counter.lane", "counter.employee"]
DOCUMENT = ["documents.kind", "documents.state", "documents.name", "documents.expires", "documents.number"]
#: Parts of the line, its account aside: the auxiliary field, the serial, the transaction code, the amount.
LINE = ["line.auxiliary", "line.serial", "line.transaction", "line.amount", "line.whole"]
FIELDS = [*READINGS, *AMOUNTS, *FREE, *DOCUMENT, *LINE]
MOMENT = datetime(2026, 11, 24, 9, 30)


def may_hold(place: Place) -> bool:
    """Whether the field can have such digits: nobody can tell a check number or a sale's from a number in one piece."""
    in_one_piece = place.disguise in {"plain", "in words", "noughts before", *SCRIPTS}
    return (
        place.secret == "social security number"
        and in_one_piece
        and place.field in {"face.serial", "id", "line.auxiliary", "line.serial"}
    )


def planted(place: Place) -> dict[str, Any]:
    """The clean tender with the secret where *place* says; the numbers that are its own are on its line and document."""
    account = SECRETS["short account"] if place.secret == "short account" else SECRETS["account"]
    document = {"kind": "drivers-license", "state": "17", "number": SECRETS["license"], "name": "Ada Sample"}
    parts = {"auxiliary": "", "serial": "1043", "transaction": "", "amount": ""}
    branch, _, name = place.field.partition(".")
    if branch == "line":
        parts[name] = place.text
    if branch == "documents":
        document[name] = place.text
    left = f"⑈{parts['auxiliary']}⑈ " if parts["auxiliary"] else ""
    right = f" ⑇{parts['amount']}⑇" if parts["amount"] else ""
    line = f"{left}⑆071098973⑆ {account}⑈ {parts['serial']} {parts['transaction']}{right}"
    patch: dict[str, Any] = {"face.micr": place.text if place.field == "line.whole" else line, "documents": [document]}
    if branch in {"face", "counter", "id"}:
        patch[place.field] = place.text
    return patched(patch)


def attack() -> list[Place]:
    every = [Place(*each) for each in product(SECRETS, DISGUISES, FIELDS)]
    every = [place for place in every if not may_hold(place)]
    return every if THOROUGH else random.Random(13).sample(every, SAMPLE)


def leaked(place: Place, outputs: dict[str, str]) -> list[str]:
    """What is shown of the secret that was planted, and of the tender's own numbers, by output."""
    own = ("short account",) if place.secret == "short account" else ("account",)
    wanted = tuple(dict.fromkeys((place.secret, *own, "license")))
    return [f"{name}: {place} shows {found}" for name, text in outputs.items() if (found := shown(text, wanted))]


def assessed(place: Place) -> cf.Assessment | str:
    """The answer, or the errors of a tender that is none."""
    try:
        return cf.assess(planted(place), HOUSE)
    except cf.TenderError as error:
        return f"{error!r} {error}"


def outputs(got: cf.Assessment) -> Iterator[tuple[str, str]]:
    yield "JSON", got.model_dump_json()
    yield "text", report.caret(got)
    yield "plain", report.plain(got)
    yield "instructions", "\n".join((*got.instructions.to_customer, *got.instructions.to_till))
    for thing in reached(got):
        yield f"repr of {type(thing).__name__}", said(thing)


def test_the_reader_of_leaks_sees_every_disguise() -> None:
    for name, disguise in product(SECRETS, DISGUISES):
        text = DISGUISES[disguise](SECRETS[name])
        assert name in shown(f"said '{text}' twice"), (name, disguise)
        assert not shown(cf.assess(patched({})).model_dump_json())


def test_no_answer_shows_five_digits_of_a_secret() -> None:
    found: list[str] = []
    for place in attack():
        got = assessed(place)
        found += leaked(place, {"error": got} if isinstance(got, str) else dict(outputs(got)))
    assert found == []


@pytest.fixture(scope="module")
def judged() -> list[tuple[Place, cf.Assessment]]:
    """As many answers for the files of a batch and for the ledger, which are written once for all of them."""
    made = ((place, assessed(place)) for place in attack()[:: 1 if THOROUGH else 2])
    return [(place, got) for place, got in made if not isinstance(got, str)]


def test_no_file_of_answers_shows_five_digits_of_a_secret(judged: list[tuple[Place, cf.Assessment]]) -> None:
    pq = pytest.importorskip("pyarrow.parquet")
    openpyxl = pytest.importorskip("openpyxl")
    files = {form: io.StringIO() for form in ("csv", "jsonl")}
    tables = {form: io.BytesIO() for form in ("parquet", "xlsx")}
    results = [audit.Assessed(number, got) for number, (_, got) in enumerate(judged, 1)]
    for form, text in files.items():
        write = audit.writer(text, form)
        for result in results:
            write("day.csv", result)
    for form, binary in tables.items():
        with audit.table_writer(binary, form) as put:
            for result in results:
                put("day.csv", result)
    rows = {
        "CSV": [" ; ".join(row) for row in list(csv.reader(io.StringIO(files["csv"].getvalue())))[1:]],
        "JSON Lines": files["jsonl"].getvalue().splitlines(),
        "Parquet": [" ; ".join(map(str, row.values())) for row in pq.read_table(tables["parquet"]).to_pylist()],
        "XLSX": [
            " ; ".join(str(cell) for cell in row if cell is not None)
            for row in list(openpyxl.load_workbook(tables["xlsx"])["answers"].iter_rows(values_only=True))[1:]
        ],
    }
    assert {form: len(each) for form, each in rows.items()} == dict.fromkeys(rows, len(judged))
    found = [each for form, lines in rows.items() for (place, _), line in zip(judged, lines, strict=True)
             for each in leaked(place, {form: line})]  # fmt: skip
    assert found == []


def test_no_ledger_and_no_sheet_shows_five_digits_of_a_secret(
    judged: list[tuple[Place, cf.Assessment]], tmp_path: Path
) -> None:
    pytest.importorskip("sqlalchemy")
    from checkface.ledger import Ledger, Override, sheet, till, transfer

    found: list[str] = []
    # An amount is added up, whatever it is.
    kept = [
        (place, got)
        for place, got in judged
        if place.field not in {*AMOUNTS, "face.figures", "face.words", "line.amount"}
    ]
    with Ledger.open(tmp_path / "shop.ledger") as ledger:
        which = till.open(ledger, store="7", lane="3", by="114", at=MOMENT).id
        for place, got in kept[: None if THOROUGH else 60]:
            why = Override(f"says {place.text}", "MG")
            till.take(ledger, which, got, "kept", by="114", at=MOMENT, override=why, amount_cents=4510)
        told = till.report(ledger, which)
        exported = io.StringIO()
        transfer.export(ledger, exported)
        pages = {
            "sheet": sheet.text(told), "CSV sheet": sheet.table(told), "HTML sheet": sheet.html(told),
            "export": _without_digests(exported.getvalue()), "file": _columns(tmp_path / "shop.ledger"),
        }  # fmt: skip
        found = [f"{name}: {each}" for name, page in pages.items() if (each := shown(page))]
        found += [f"repr: {each!r}" for each in reached(told) if shown(said(each))]
    assert found == []


def _columns(file: Path) -> str:
    """Every text in the database, the digests and the rest of its bytes aside."""
    with sqlite3.connect(file) as connection:
        names = [name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        rows = [row for name in names for row in connection.execute(f"SELECT * FROM {name}")]
    return "\n".join(_word(value) for row in rows for value in row if isinstance(value, str))


def _without_digests(export: str) -> str:
    rows = [json.loads(line) for line in export.splitlines()]
    return "\n".join(_word(value) for row in rows for value in row.get("row", {}).values() if isinstance(value, str))


def _word(value: str) -> str:
    """A column's text; a digest in hexadecimal is of no number."""
    is_digest = len(value) in {32, 64} and set(value) <= set("0123456789abcdef")
    return "" if is_digest or (len(value) > 64 and set(value) <= set("0123456789abcdef")) else value


@pytest.mark.parametrize("secret", SECRETS)
def test_no_page_shows_five_digits_of_a_secret(secret: str) -> None:
    testclient = pytest.importorskip("starlette.testclient")
    from checkface.web import application

    places = [place for place in attack() if place.secret == secret]
    with testclient.TestClient(application(HOUSE), base_url="http://127.0.0.1:8000") as client:
        for place in places[: None if THOROUGH else 12]:
            tender = planted(place)
            form = {f"face.{k}": "\n".join(v) if isinstance(v, list) else v for k, v in tender["face"].items()
                    if isinstance(v, str | list)}  # fmt: skip
            form |= {f"counter.{k}": str(v) for k, v in tender["counter"].items() if isinstance(v, str)}
            form |= {f"documents.0.{k}": v for k, v in tender["documents"][0].items() if isinstance(v, str)}
            origin = {"origin": "http://127.0.0.1:8000", "sec-fetch-site": "same-origin"}
            page = client.post("/examine", data=form, headers=origin)
            answer = client.post("/v1/examine", json=tender, headers=origin)
            assert leaked(place, {"page": page.text, "API": answer.text}) == []


@pytest.mark.parametrize("secret", [name for name in SECRETS if name != "short account"])
def test_no_error_shows_five_digits_of_a_secret(secret: str, capsys: pytest.CaptureFixture[str]) -> None:
    from checkface.cli.app import main

    for disguise in DISGUISES:
        text = DISGUISES[disguise](SECRETS[secret])
        told = []
        heading = text.replace("\n", " ").replace(",", ";").replace('"', "")
        for lines in (f"micr,{heading}\n1,2\n", f"id,micr\n{heading},{heading},3\n"):
            try:
                told += [repr(each) for each in audit.tenders(io.BytesIO(lines.encode()), "csv")]
            except audit.InputError as error:
                told.append(str(error))
        for words in (
            ["explain", text],
            ["examine", f"{text}.json"],
            ["read", "micr", "1", "--notation", text],
            [text],
        ):
            main([word.replace("\0", "") for word in words])
            told.append("".join(capsys.readouterr()))
        for wire in ({"face": {}, text: 1}, {"face": {text: 1}}, {"face": {}, "counter": {"network": text}}):
            with pytest.raises(cf.TenderError) as caught:
                cf.parse(wire)
            told += [str(caught.value), repr(caught.value)]
        assert [each for each in told if shown(each, (secret,))] == [], disguise


PARTS = ("routing", "fraction", "words", "figures", "date", "micr", "barcode")


@pytest.mark.parametrize("part", PARTS)
def test_no_part_echoes_five_digits_of_a_secret(part: str, capsys: pytest.CaptureFixture[str]) -> None:
    from checkface.cli.app import main

    for secret, disguise in product((name for name in SECRETS if name != "short account"), DISGUISES):
        if part == "routing" and secret == "social security number":
            continue  # nine digits are what a routing number has
        text = DISGUISES[disguise](SECRETS[secret])
        for form in ("text", "json"):
            main(["read", part, "--format", form, "--", text])
            assert not shown("".join(capsys.readouterr()), (secret,)), (secret, disguise, form)


def test_own_secrets_are_what_the_tender_bears() -> None:
    got = cf.assess(planted(Place("account", "plain", "face.memo")))
    assert got.read.line is not None
    assert got.read.line.account == SECRETS["account"]
    assert SECRETS["license"] in got.read.document_numbers
    assert set(OWN) < set(SECRETS)
