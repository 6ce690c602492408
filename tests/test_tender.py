"""The wire form: four states of a reading, closed keys, and errors that echo nothing private."""

from __future__ import annotations

import json
from typing import Any

import pytest
from clean_tender import CLEAN, patched
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

import checkface as cf
from checkface.tender import ABSENT, Face, Kind, Mark, Reading, State, Tender


@pytest.mark.parametrize(
    ("wire", "reading"),
    [
        ({}, ABSENT),
        ({"words": ""}, Reading(State.BLANK)),
        ({"words": "  \t"}, Reading(State.BLANK)),
        ({"words": None}, Reading(State.ILLEGIBLE)),
        ({"words": "Ten"}, Reading(State.TEXT, "Ten")),
        ({"words": ["Ten", "dollars"]}, Reading(State.TEXT, "Ten\ndollars")),
        ({"words": {"text": "Ten", "by": "camera", "confidence": 0.5}}, Reading(State.TEXT, "Ten", "camera", 0.5)),
        ({"words": {"text": None, "by": "camera"}}, Reading(State.ILLEGIBLE, "", "camera")),
    ],
)
def test_states(wire: dict[str, Any], reading: Reading) -> None:
    assert Face.model_validate(wire).words == reading


@pytest.mark.parametrize(
    ("patch", "problem"),
    [
        ({"face.seriel": "1"}, "face: Expected a known key, read 'seriel'; the nearest known key is 'serial'"),
        ({"fase": {}}, "tender: Expected a known key, read 'fase'; the nearest known key is 'face'"),
        ({"counter.amount": "45.1"}, 'counter.amount: Expected dollars as text, such as "45.10", read something else'),
        ({"counter.amount": 45.1}, 'counter.amount: Expected dollars as text, such as "45.10", read something else'),
        (
            {"counter.declared_kind": "persnal"},
            "counter.declared_kind: Expected a known kind of check, read 'persnal'; the nearest known kind is 'personal'",
        ),
        (
            {"face.words": 7},
            'face.words: Expected text, "" (blank), null (illegible) or {"text", "by", "confidence"}, read something else',
        ),
        *(
            ({"counter.on": day}, "counter.on: Expected a day such as 2026-11-24, read something else")
            for day in ("soon", "11/24/2026", "2026-11-24T10:00:00", 20261124, 1764028800, 0, True, ["2026-11-24"])
        ),
        ({"counter.on": "1899-12-31"}, "counter.on: Expected at least 1900-01-01, read less"),
        ({"counter.network": "45601122"}, "counter.network: Expected 'up' or 'down', read other text"),
        (
            {"counter.authorization_signed": "maybe"},
            "counter.authorization_signed: Expected true or false, read other text",
        ),
        ({"counter.store": 5}, "counter.store: Expected text, read a number"),
        ({"id": None}, "id: Expected text, read null"),
        ({"documents": [{"kind": ["x"]}]}, "documents.0.kind: Expected text, read a list"),
        ({"documents": "none"}, "documents: Expected a list, read other text"),
        ({"face": "45601122"}, "face: Expected keys and values, read other text"),
        ({"taken_as": "sold"}, "taken_as: Expected 'converted', 'kept' or 'returned', read other text"),
        ({"face": "(absent)"}, "face: Expected this key, read none"),
    ],
)
def test_a_malformed_tender_names_the_key(patch: dict[str, Any], problem: str) -> None:
    with pytest.raises(cf.TenderError) as caught:
        cf.assess(patched(patch))
    assert caught.value.problems[0].startswith(problem)


def test_errors_never_echo_values() -> None:
    with pytest.raises(cf.TenderError) as caught:
        cf.assess(patched({"face.micr": 45601122, "documents": [{"number": ["D12345678"]}]}))
    assert "45601122" not in str(caught.value)
    assert "D12345678" not in str(caught.value)


def test_repr_shows_no_numbers() -> None:
    tender = Tender.model_validate(patched({"documents": [{"kind": "passport", "number": "C01234567"}]}))
    assert "45601122" not in repr(tender)
    assert "C01234567" not in repr(tender)


@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ("personal", Kind.PERSONAL),
        ("Cashier's check", Kind.CASHIERS_CHECK),
        ("treasury", Kind.TREASURY_CHECK),
        ("business-check", Kind.BUSINESS),
        ("money order", Kind.MONEY_ORDER),
        ("", None),
    ],
)
def test_declared_kinds_are_taken_as_people_write_them(said: str, kind: Kind | None) -> None:
    assert cf.parse({"face": {}, "counter": {"declared_kind": said}}).counter.declared_kind is kind


@pytest.mark.parametrize(("said", "mark"), [(True, Mark.YES), ("no", Mark.NO), (None, Mark.ILLEGIBLE), ("", Mark.NO)])
def test_marks(said: object, mark: Mark) -> None:
    assert Face.model_validate({"signature": said}).signature is mark


@pytest.mark.parametrize(("text", "cents"), [("45.10", 4510), ("$1,045.10", 104510), ("45", 4500), ("", None)])
def test_money_is_cents(text: str, cents: int | None) -> None:
    assert cf.parse({"face": {}, "counter": {"amount": text}}).counter.amount == cents


def test_round_trip_keeps_absent_blank_and_illegible_apart() -> None:
    wire = patched({"face.words": None, "face.figures": "", "face.payee": "(absent)"})
    again = Tender.model_validate_json(json.dumps(cf.parse(wire).wire()))
    assert again == cf.parse(wire)
    assert again.face.payee is not None
    assert again.face.payee.state is State.ABSENT


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(max_size=20),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=10), inner, max_size=4),
    max_leaves=12,
)
KEYS = st.sampled_from([f"{part}.{key}" for part in ("face", "counter") for key in CLEAN[part]] + ["documents", "id"])


@given(KEYS, JSON)
def test_any_json_is_a_tender_or_a_tender_error(path: str, value: object) -> None:
    wire = patched({path: "x"})
    parent, _, key = path.rpartition(".")
    (wire[parent] if parent else wire)[key] = value
    try:
        cf.assess(wire)
    except cf.TenderError as error:
        assert error.problems


def test_a_lone_surrogate_is_read_as_what_it_is_not() -> None:
    got = cf.assess(
        patched({"face.payee": "Ada \ud800 Sample", "documents": [{"kind": "passport", "number": "C\udfff1"}]})
    )
    assert got.read.face.payee.text == "Ada \ufffd Sample"
    assert got.model_dump_json().encode()


@pytest.mark.parametrize("day", ["0001-01-05", "9999-12-31"])
def test_a_day_of_tender_outside_the_calendar_of_checks_is_named(day: str) -> None:
    with pytest.raises(cf.TenderError, match=r"counter\.on: "):
        cf.assess(patched({"counter.on": day, "face.date": "11/24"}))


@pytest.mark.parametrize(
    ("word", "kind"),
    [
        ("Official Check", "tellers-check"),
        ("travelers cheque", "travelers-check"),
        ("WARRANT", "government-check"),
        ("starter check", "counter-check"),
        (" Money_Order ", "money-order"),
    ],
)
def test_a_kind_is_known_by_its_other_names(word: str, kind: str) -> None:
    assert cf.parse({"face": {}, "counter": {"declared_kind": word}}).counter.declared_kind == kind


def test_words_of_the_counter_are_taken_as_they_are_meant() -> None:
    told = {"network": " UP ", "micr_by": "Reader", "authorization_signed": "Yes", "on": " 2026-11-24 "}
    counter = cf.parse({"face": {"signature": "Y", "alterations": "N"}, "counter": told}).counter
    assert (counter.network, counter.micr_by, counter.authorization_signed) == ("up", "reader", True)


@pytest.mark.parametrize("word", ["bank check", "4111111111111111", "my account is 45601122"])
def test_a_kind_that_is_none_is_named_with_no_number_in_it(word: str) -> None:
    with pytest.raises(cf.TenderError) as caught:
        cf.parse({"face": {}, "counter": {"declared_kind": word}})
    (problem,) = caught.value.problems
    assert problem.startswith("counter.declared_kind: Expected a known kind of check, read '")
    assert "nearest" not in problem
    assert not any(number in problem for number in ("4111", "4560"))


@pytest.mark.parametrize(
    "text", ["2026112499", "20261124", "2026-W48-2", "2026W482", "2026-328", "２０２６-11-24", "2026-02-30"]
)
def test_a_day_of_tender_is_year_month_day_and_nothing_else(text: str) -> None:
    with pytest.raises(cf.TenderError) as caught:
        cf.parse({"face": {}, "counter": {"on": text}})
    assert caught.value.problems == ["counter.on: Expected a day such as 2026-11-24, read something else"]


def test_the_errors_of_a_model_that_is_made_directly_carry_no_input() -> None:
    account = "45601122"
    mistakes: tuple[dict[str, Any], ...] = (
        {"face": {"micr": 45601122}}, {"face": {}, "counter": {"network": account}}, {"face": {}, account: account},
        {"face": {}, "counter": {"amount": account * 3, "on": account}}, {"face": {}, "documents": account},
    )  # fmt: skip
    for wire in mistakes:
        for make in (lambda wire=wire: cf.Tender(**wire), lambda wire=wire: cf.Tender.model_validate(wire)):
            with pytest.raises(ValidationError) as caught:
                make()
            assert account not in f"{caught.value.errors()} {caught.value} {caught.value!r} {caught.value.json()}"


def test_a_model_says_no_more_as_text_than_in_a_log() -> None:
    tender = cf.parse(patched({"counter.store": "45601122", "id": "45601122", "documents": [{"number": "S53042986"}]}))
    for model in (tender, tender.face, tender.counter, *(tender.documents or ())):
        assert str(model) == repr(model)
        assert not any(secret in repr(model) for secret in ("45601122", "S53042986", "Quillfeather", "Ada"))
    assert repr(tender.face.payee) == "Reading(text, 20 characters)"
