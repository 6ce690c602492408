"""Headings and cells: every state of a reading survives a spreadsheet."""

from __future__ import annotations

from typing import Any

import pytest

from checkface.assessment import parse
from checkface.audit.columns import PATHS, is_known, resolve, wire
from checkface.audit.source import InputError
from checkface.tender import Mark, Reading, State


@pytest.mark.parametrize(
    ("heading", "path"),
    [
        ("face.micr", "face.micr"),
        ("micr", "face.micr"),
        (" MICR ", "face.micr"),
        ("Declared Kind", "counter.declared_kind"),
        ("document.kind", "documents.kind"),
        ("documents.number", "documents.number"),
        ("number", "documents.number"),
        ("on", "counter.on"),
        ("date", "face.date"),
        ("id", "id"),
        ("taken_as", "taken_as"),
    ],
)
def test_headings(heading: str, path: str) -> None:
    assert resolve([heading]) == (path,)
    assert is_known(heading)


def test_every_path_is_its_own_heading() -> None:
    assert resolve(PATHS) == PATHS


@pytest.mark.parametrize(
    ("headings", "sentence"),
    [
        (["mircr"], "Expected a column of a tender, read 'mircr'; the nearest known column is 'micr'."),
        (["colour of ink"], "Expected a column of a tender, read 'colour of ink'."),
        (
            ["kind"],
            "Expected a column that is one thing, read 'kind': name counter.declared_kind or documents.kind.",
        ),
        (["micr", "face.micr"], "Expected one column for face.micr, read another: 'face.micr'."),
        (["45601122"], "Expected a column of a tender, read '••••1122'."),
        ([""], "Expected a column of a tender, read ''."),
    ],
)
def test_headings_that_are_none(headings: list[str], sentence: str) -> None:
    with pytest.raises(InputError) as error:
        resolve(headings)
    assert str(error.value) == sentence


def test_a_heading_can_be_renamed_and_another_ignored() -> None:
    assert resolve(["Line", "Till note", "id"], {"micr": "Line"}, ["Till note"]) == ("face.micr", None, "id")


@pytest.mark.parametrize(
    ("renames", "ignored", "sentence"),
    [
        ({"micr": "Lina"}, [], "Expected a heading of the file, read 'Lina'; the nearest is 'Line'."),
        ({}, ["note"], "Expected a heading of the file, read 'note'."),
        ({"mick": "Line"}, [], "Expected a column of a tender, read 'mick'; the nearest known column is 'micr'."),
    ],
)
def test_what_cannot_be_renamed(renames: dict[str, str], ignored: list[str], sentence: str) -> None:
    with pytest.raises(InputError) as error:
        resolve(["Line", "id"], renames, ignored)
    assert str(error.value) == sentence


@pytest.mark.parametrize(
    ("cell", "reading"),
    [
        ("", Reading(State.BLANK)),
        ("  ", Reading(State.BLANK)),
        ("(illegible)", Reading(State.ILLEGIBLE)),
        ("(Illegible) ", Reading(State.ILLEGIBLE)),
        ("(not looked at)", Reading(State.ABSENT)),
        ("1043", Reading(State.TEXT, "1043")),
        ("a | b", Reading(State.TEXT, "a | b")),
    ],
)
def test_the_states_of_a_reading(cell: str, reading: Reading) -> None:
    assert parse(wire(("face.payee",), (cell,))).face.payee == reading


@pytest.mark.parametrize(
    ("cell", "mark"),
    [
        ("yes", Mark.YES),
        ("no", Mark.NO),
        ("", Mark.NO),
        ("(illegible)", Mark.ILLEGIBLE),
        ("(not looked at)", Mark.ABSENT),
    ],
)
def test_the_states_of_a_mark(cell: str, mark: Mark) -> None:
    assert parse(wire(("face.signature",), (cell,))).face.signature is mark


def test_a_missing_column_was_not_looked_at() -> None:
    assert parse(wire(("id",), ("7",))).face.micr.state is State.ABSENT


@pytest.mark.parametrize("path", ["face.drawer", "face.drawee", "face.legends", "face.endorsements"])
def test_lines_are_parted_by_a_bar(path: str) -> None:
    tender = parse(wire((path,), ("Ada Sample | 12 Example Lane",)))
    assert getattr(tender.face, path.removeprefix("face.")).text == "Ada Sample\n12 Example Lane"


@pytest.mark.parametrize(
    ("cells", "documents"),
    [
        (("passport", "A1"), [{"kind": "passport", "number": "A1"}]),
        (("passport", ""), [{"kind": "passport", "number": ""}]),
        (("", ""), []),
        (("(not looked at)", "(not looked at)"), None),
    ],
    ids=["shown", "number blank", "none shown", "nobody asked"],
)
def test_the_document(cells: tuple[str, str], documents: Any) -> None:
    assert wire(("documents.kind", "documents.number"), cells).get("documents") == documents


def test_circumstances() -> None:
    paths = ("counter.on", "counter.amount", "counter.network", "counter.declared_kind", "counter.authorization_signed")
    counter = parse(wire(paths, ("2026-11-24", "45.10", "", "payroll check", "yes"))).counter
    assert (str(counter.on), counter.amount, counter.network, counter.declared_kind) == (
        "2026-11-24",
        4510,
        None,
        "payroll",
    )
    assert counter.authorization_signed is True
