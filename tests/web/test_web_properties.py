"""Whatever is sent: an answer in our own form, never a fault, never a whole account number."""

from __future__ import annotations

import copy
import json
import os
from typing import Any
from urllib.parse import quote

from clean_tender import CLEAN
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from page_reader import Page
from starlette.testclient import TestClient

import checkface as cf
from checkface.web import fields

ACCOUNT = "4560112277"
LINE = f"T071098973T {ACCOUNT}O 1043"
MORE = 20 if os.environ.get("CHECKFACE_THOROUGH") else 1
EVERY = settings(max_examples=80 * MORE, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])

_JSON = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(max_size=20)
    | st.just(ACCOUNT),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8) | st.just(ACCOUNT), inner, max_size=3)
    ),
    max_leaves=8,
)
_KEYS = st.sampled_from(["face", "counter", "documents", "id", "taken_as", "micr", "date", "payee", "words", "figures", "drawer",
                         "legends", "signature", "on", "amount", "store", "kind", "number", "barcode", "name", "by", "text",
                         "declared_kind", "expires", "state", ACCOUNT])  # fmt: skip
_NEAR = st.dictionaries(
    _KEYS, st.recursive(_JSON, lambda inner: st.dictionaries(_KEYS, inner, max_size=4), max_leaves=12)
)


def _holds(client: TestClient, body: bytes, kind: str = "application/json") -> Any:
    answer = client.post("/v1/assess", content=body, headers={"content-type": kind})
    assert answer.status_code in {200, 400, 413, 415, 422}
    found = answer.json()
    if answer.status_code == 200:
        given = cf.parse(body)
        if given.counter.on is None:
            counter = given.counter.model_copy(
                update={"on": cf.parse('{"face":{},"counter":{"on":"2026-11-25"}}').counter.on}
            )
            given = given.model_copy(update={"counter": counter})
        assert found == json.loads(json.dumps(cf.assess(given).model_dump()))
    else:
        assert list(found) == ["problems"]
        assert found["problems"]
        assert all(isinstance(problem, str) and "Expected" in problem for problem in found["problems"])
        assert ACCOUNT not in answer.text
    return found


@EVERY
@given(body=st.binary(max_size=200), kind=st.sampled_from(["application/json", "text/plain", ""]))
def test_any_bytes(client: TestClient, body: bytes, kind: str) -> None:
    _holds(client, body, kind)


@EVERY
@given(value=_JSON | _NEAR)
def test_any_json(client: TestClient, value: Any) -> None:
    _holds(client, json.dumps(value).encode())


@EVERY
@given(data=st.data())
def test_a_tender_with_anything_anywhere(client: TestClient, data: st.DataObject) -> None:
    tender = copy.deepcopy(CLEAN)
    tender["face"]["micr"] = LINE
    for _ in range(data.draw(st.integers(1, 3))):
        part = data.draw(st.sampled_from(["face", "counter", "document"]))
        place = tender["documents"][0] if part == "document" else tender[part]
        key = data.draw(st.sampled_from([*sorted(place), "number", "barcode", ACCOUNT]))
        place[key] = data.draw(
            _JSON | st.sampled_from([f"x {ACCOUNT} y", f"{ACCOUNT[:5]}-{ACCOUNT[5:]}", [ACCOUNT], LINE])
        )
    if tender["face"].get("micr") != LINE:
        return  # without the line nothing says which digits are the account
    answer = client.post("/v1/assess", json=tender)
    assert answer.status_code in {200, 422}
    assert ACCOUNT not in answer.text
    assert f"{ACCOUNT[:5]}-{ACCOUNT[5:]}" not in answer.text


@EVERY
@given(lines=st.lists(st.binary(max_size=60) | _NEAR.map(lambda value: json.dumps(value).encode()), max_size=6))
def test_any_lines(client: TestClient, lines: list[bytes]) -> None:
    content = b"\n".join(lines)
    answer = client.post("/v1/assess/batch", content=content, headers={"content-type": "application/jsonl"})
    wanted = [number for number, line in enumerate(content.split(b"\n"), 1) if line.strip()]
    if not wanted:
        assert answer.status_code == 400
        return
    assert answer.status_code == 200
    found = [json.loads(line) for line in answer.text.split("\n") if line]
    assert [line["line"] for line in found] == wanted
    assert all(("problems" in line) != ("assessment" in line) for line in found)


@EVERY
@example(given={"face.micr.state": "no state", "face.figures": ACCOUNT})
@given(
    given=st.dictionaries(
        st.sampled_from(sorted(fields.NAMES - {"face.micr"})),
        st.text(max_size=40) | st.sampled_from([ACCOUNT, f"No. {ACCOUNT}", "text", "blank", "yes", "one", "<b>&\"'"]),
        max_size=8,
    )
)
def test_any_form(client: TestClient, given: dict[str, str]) -> None:
    answer = client.post("/examine", data=given | {"face.micr": LINE})
    assert answer.status_code in {200, 422}
    assert Page(answer.text).complaints == []
    assert ACCOUNT not in answer.text


@EVERY
@given(body=st.binary(max_size=200))
def test_any_bytes_as_a_form(client: TestClient, body: bytes) -> None:
    answer = client.post("/examine", content=body, headers={"content-type": "application/x-www-form-urlencoded"})
    assert answer.status_code in {200, 400, 422}
    assert Page(answer.text).complaints == []


@EVERY
@given(path=st.text(st.characters(codec="utf-8", exclude_characters="?#"), max_size=30), query=st.text(max_size=30))
def test_any_address(client: TestClient, path: str, query: str) -> None:
    for place in ("/", "/rules/", "/tables/", "/examples/", "/v1/rules/"):
        answer = client.get(place + quote(path.lstrip("/")), params={"q": query, "example": query, "effect": query})
        assert answer.status_code in {200, 400, 404, 405}
