"""The form as a tender: every state of a reading, every choice, every mistake; and what never comes back."""

from __future__ import annotations

from typing import Any

import pytest
from clean_tender import CLEAN, patched
from hypothesis import given, settings
from hypothesis import strategies as st
from page_reader import Page
from starlette.testclient import TestClient

import checkface as cf
from checkface.identity import KINDS
from checkface.tender import Face
from checkface.web import fields
from checkface.web.examples import examples
from checkface.web.form import decode, of_tender, shown_again, typed
from checkface.web.refusal import Refused

ACCOUNT = "4560112277"
LINE = f"T071098973T {ACCOUNT}O 1043"


@pytest.mark.parametrize(
    ("given", "wire"),
    [
        ({}, {"face": {}}),
        ({"face.payee": " ", "face.payee.state": ""}, {"face": {}}),
        ({"face.payee": "Ada"}, {"face": {"payee": "Ada"}}),
        ({"face.payee": "Ada", "face.payee.state": "text"}, {"face": {"payee": "Ada"}}),
        ({"face.payee": "", "face.payee.state": "blank"}, {"face": {"payee": ""}}),
        ({"face.payee.state": "illegible"}, {"face": {"payee": None}}),
        ({"face.signature": "yes", "face.alterations": "no", "face.countersignature": "illegible"},
         {"face": {"signature": True, "countersignature": None, "alterations": False}}),
        ({"face.signature": ""}, {"face": {}}),
        ({"counter.on": "2026-11-24", "counter.store": "", "counter.authorization_signed": "no"},
         {"face": {}, "counter": {"on": "2026-11-24", "authorization_signed": "no"}}),
        ({"documents": ""}, {"face": {}}),
        ({"documents": "none"}, {"face": {}, "documents": []}),
        ({"documents": "one"}, {"face": {}, "documents": [{}]}),
        ({"documents": "", "documents.0.state": "IL"}, {"face": {}, "documents": [{"state": "IL"}]}),
    ],
)  # fmt: skip
def test_each_state_is_a_different_tender(given: dict[str, str], wire: dict[str, Any]) -> None:
    found = typed(given)
    assert (found.wire, found.mistakes) == (wire, {})
    assert found.tender == cf.parse(wire)


@pytest.mark.parametrize(
    ("given", "field", "mistake"),
    [
        ({"face.date.state": "text"}, "face.date", "Expected what was read, or another answer beside it, read nothing"),
        ({"face.date": "11/24", "face.date.state": "blank"}, "face.date",
         "Expected nothing typed for what is not there or cannot be made out, read text"),
        ({"face.date": "11/24", "face.date.state": "illegible"}, "face.date",
         "Expected nothing typed for what is not there or cannot be made out, read text"),
        ({"face.date.state": "perhaps"}, "face.date", "Expected one of the choices, read another"),
        ({"face.signature": "perhaps"}, "face.signature", "Expected true, false or null (illegible), read something else"),
        ({"counter.on": "24.11.2026"}, "counter.on", "Expected a day such as 2026-11-24, read something else"),
        ({"counter.amount": "a lot"}, "counter.amount", 'Expected dollars as text, such as "45.10", read something else'),
        ({"counter.network": "sideways"}, "counter.network", "Expected 'up' or 'down', read other text"),
        ({"counter.declared_kind": "personel"}, "counter.declared_kind",
         "Expected a known kind of check, read 'personel'; the nearest known kind is 'personal'"),
        ({"documents": "perhaps"}, "documents", "Expected one of the choices, read another"),
        ({"documents": "none", "documents.0.state": "IL"}, "documents",
         "Expected no document where none was shown, read one"),
        ({"documents.0.is_bearer": "perhaps"}, "documents.0.is_bearer", "Expected true or false, read other text"),
    ],
)  # fmt: skip
def test_each_mistake_stands_beside_its_field(given: dict[str, str], field: str, mistake: str) -> None:
    found = typed(given)
    assert found.tender is None
    assert found.mistakes == {field: mistake}


def test_all_mistakes_are_named_at_once() -> None:
    assert set(typed({"counter.amount": "x", "counter.on": "x", "face.date.state": "text"}).mistakes) == {
        "counter.amount", "counter.on", "face.date",
    }  # fmt: skip


@pytest.mark.parametrize("body", [b"a=1", b"face.payee=a&face.payee=b", b"face.payee.state.state=text", b"face=x"])
def test_other_fields_than_the_form_s_are_refused(body: bytes) -> None:
    with pytest.raises(Refused) as refused:
        decode(body)
    assert refused.value.status == 422
    assert refused.value.problems == ["Expected the fields of the form, each once, read others"]


@pytest.mark.parametrize("body", [b"face.payee", b"\xff=", b"&", b"a=" * 300 + b"&a=" * 300])
def test_what_is_no_form_is_refused(body: bytes) -> None:
    with pytest.raises(Refused) as refused:
        decode(body)
    assert refused.value.status == 400


def test_lines_come_as_lines_and_signs_as_signs() -> None:
    assert decode(b"face.drawer=Ada%0D%0A12+Lane&face.micr=%E2%91%86&counter.lane=%FF") == {
        "face.drawer": "Ada\n12 Lane", "face.micr": "⑆", "counter.lane": "�",
    }  # fmt: skip
    assert decode(b"") == {}


@pytest.mark.parametrize(
    "tender",
    [CLEAN, patched({"face.micr": "(null)", "face.words": "", "face.signature": "(null)", "documents": []}),
     patched({"documents": "(absent)", "face.payee": "(absent)", "counter.authorization_signed": False})],
)  # fmt: skip
def test_a_tender_survives_the_form(tender: dict[str, Any]) -> None:
    wanted, found = cf.parse(tender), typed(of_tender(cf.parse(tender))).tender
    assert found is not None
    assert cf.assess(found).model_dump() == cf.assess(wanted.model_copy(update={"id": ""})).model_dump()


def test_every_example_survives_the_form() -> None:
    for example in examples().values():
        found = typed(of_tender(example.tender)).tender
        assert found is not None
        assert cf.assess(found).decision.for_house == cf.assess(example.tender).decision.for_house


def test_the_form_offers_everything_a_tender_has() -> None:
    offered = set(fields.FIELDS)
    assert {f"face.{name}" for name in Face.model_fields} <= offered
    assert {f"counter.{name}" for name in cf.Counter.model_fields} <= offered
    assert {f"documents.0.{name}" for name in cf.Document.model_fields} <= offered
    kinds = [value for value, _ in fields.FIELDS["counter.declared_kind"].choices]
    assert kinds == ["", *cf.Kind]
    assert [value for value, _ in fields.FIELDS["documents.0.kind"].choices] == ["", *KINDS]


@pytest.mark.parametrize("mistaken", [False, True], ids=["answer", "mistake"])
@pytest.mark.parametrize(
    "field",
    [name for name, field in fields.FIELDS.items() if field.shape in {"line", "lines", "day"}],
)
def test_no_whole_number_comes_back_wherever_it_was_typed(client: TestClient, field: str, mistaken: bool) -> None:
    for text in (ACCOUNT, f"No. {ACCOUNT}", "45 6011-2277"):
        given = {"face.micr": LINE, field: text} | ({"face.date.state": "perhaps"} if mistaken else {})
        answer = client.post("/examine", data=given)
        assert not mistaken or answer.status_code == 422
        assert ACCOUNT not in answer.text
        assert "45 6011-2277" not in answer.text
        page = Page(answer.text)
        assert page.named("face.micr")["value"] == ""


def test_document_numbers_do_not_come_back(client: TestClient) -> None:
    given = {
        "documents.0.number": "D1234567",
        "documents.0.barcode": "@\n\x1e\rANSI D1234567",
        "face.payee": "D1234567",
    }
    for more in ({}, {"counter.amount": "x"}):
        answer = client.post("/examine", data=given | more)
        assert "1234567" not in answer.text
        assert "documents.0.number-lost" in Page(answer.text).named("documents.0.number")["aria-describedby"]


def test_what_holds_no_number_comes_back_as_it_was() -> None:
    given = of_tender(cf.parse(CLEAN))
    again = shown_again(typed(given))
    assert again.keys() == given.keys() - {"face.micr"}
    assert all(given[name] == text for name, text in again.items())


_ANY = st.one_of(
    st.text(max_size=30), st.sampled_from([ACCOUNT, LINE, "text", "blank", "yes", "none", "one", "2026-11-24"])
)


@settings(max_examples=300, deadline=None)
@given(st.dictionaries(st.sampled_from(sorted(fields.NAMES)), _ANY))
def test_no_form_is_a_fault(given: dict[str, str]) -> None:
    found = typed(given)
    assert (found.tender is None) == bool(found.mistakes)
    assert set(found.mistakes) <= set(fields.FIELDS)
    assert shown_again(found).items() <= given.items()
