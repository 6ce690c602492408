"""The JSON API: what it answers is what the library answers, and what it is not given it refuses in our own words."""

from __future__ import annotations

import json
from datetime import date
from typing import Any

import pytest
from clean_tender import CLEAN, patched
from pydantic import TypeAdapter
from starlette.testclient import TestClient

import checkface as cf
from checkface import report, tables
from checkface.report.wire import AssessmentWire
from checkface.web import application
from checkface.web import wire as forms
from checkface.web.bodies import LIMIT

TYPE = {"content-type": "application/json"}
LINES = {"content-type": "application/jsonl"}


def _post(client: TestClient, text: str | bytes, **headers: str) -> Any:
    return client.post("/v1/assess", content=text, headers=TYPE | headers)


@pytest.mark.parametrize(
    "patch",
    [
        {},
        {"face.words": "Fifty-four and 10/100"},
        {"face.signature": False},
        {"counter.network": "down"},
        {"face.micr": "(null)"},
        {"documents": "(absent)"},
        {"id": "till 3, 45601122"},
    ],
)
def test_an_assessment_is_the_library_s(client: TestClient, patch: dict[str, Any]) -> None:
    tender = patched(patch)
    answer = client.post("/v1/assess", json=tender)
    assert answer.status_code == 200
    assert answer.json() == cf.assess(tender).model_dump()
    assert answer.headers["content-type"] == "application/json"
    assert "checkface-day" not in answer.headers
    TypeAdapter(AssessmentWire).validate_python(answer.json())


@pytest.mark.parametrize("patch", [{}, {"face.signature": False}, {"documents": "(absent)"}])
def test_a_plan_is_the_library_s(client: TestClient, patch: dict[str, Any]) -> None:
    tender = patched(patch)
    answer = client.post("/v1/plan", json=tender)
    found = cf.assess(tender)
    assert answer.json() == {"disposition": str(found.disposition), "steps": found.instructions.wire()}
    TypeAdapter(forms.PlanWire).validate_python(answer.json())


def test_a_plan_begins_with_a_check_nobody_has_touched(client: TestClient) -> None:
    answer = client.post("/v1/plan", json={"face": {}})
    assert answer.headers["checkface-day"] == "2026-11-25"
    steps = answer.json()["steps"]
    assert (steps[0]["does"], steps[0]["stage"]) == ("use-reader", "before")
    assert [step["does"] for step in steps if step["stage"] == "before"][-1] == "judge-again"
    assert all("not-cured" in step["when"] for step in steps if step["stage"] == "after")
    refused = client.post("/v1/plan", json={"fase": {}})
    assert (refused.status_code, refused.json()["problems"][0][:7]) == (422, "tender:")


@pytest.mark.parametrize("path", ["/v1/assess", "/v1/plan"])
def test_what_no_clerk_may_confirm_is_refused_by_name(client: TestClient, path: str) -> None:
    answer = client.post(path, json={"face": {}, "counter": {"confirmed": ["network-down", "no-such-rule"]}})
    assert answer.status_code == 422
    first, second = answer.json()["problems"]
    assert first.startswith("counter.confirmed: Expected a rule that a clerk may confirm, read 'network-down'")
    assert second.startswith("counter.confirmed: Expected the id of a rule with a question, read 'no-such-rule'")


def test_the_account_is_masked_and_cannot_be_asked_for(client: TestClient) -> None:
    for path in ("/v1/assess", "/v1/assess?reveal=true"):
        answer = client.post(path, json=CLEAN)
        assert "••••1122" in answer.text
        assert "45601122" not in answer.text
    refused = client.post("/v1/assess", json=CLEAN | {"reveal": True})
    assert refused.status_code == 422
    assert refused.json()["problems"][0].startswith("tender: Expected a known key, read 'reveal'")


def test_the_server_s_day_is_taken_only_where_there_is_none_and_is_stated(client: TestClient) -> None:
    dayless = patched({"counter.on": "(absent)", "face.date": "11/25/2026"})
    answer = client.post("/v1/assess", json=dayless)
    dayless["counter"]["on"] = "2026-11-25"
    assert answer.json() == cf.assess(dayless).model_dump()
    assert answer.headers["checkface-day"] == answer.json()["read"]["readings"]["counter.on"] == "2026-11-25"


def test_the_policy_of_the_house_is_in_force_and_named() -> None:
    house = cf.Policy.parse('[limits]\nhouse = "40.00"')
    client = TestClient(application(house, today=lambda: date(2026, 11, 25)), base_url="http://localhost")
    answer = client.post("/v1/assess", json=CLEAN)
    assert answer.json() == cf.assess(CLEAN, house).model_dump()
    assert "amount-over-house-limit" in {finding["rule"] for finding in answer.json()["findings"]}
    assert answer.headers["checkface-policy"] == answer.json()["made_with"]["policy"] == house.digest
    assert client.get("/nowhere").headers["checkface-policy"] == house.digest


def test_a_policy_that_may_not_be_starts_no_server() -> None:
    with pytest.raises(cf.PolicyError, match="Expected decline or stricter"):
        application(cf.Policy.parse('[effects]\nsignature-missing = "note"'))


@pytest.mark.parametrize(
    ("text", "status", "problems"),
    [
        ("", 400, ["tender: Expected JSON, read text that breaks off or goes wrong at line 1, column 1"]),
        ("{", 400, ["tender: Expected JSON, read text that breaks off or goes wrong at line 1, column 2"]),
        (b"\xff{}", 400, ["tender: Expected JSON in UTF-8, read the byte 0xFF"]),
        ('{"face": {}, "face": {}}', 400, ["tender: Expected each key once, read 'face' twice"]),
        ('{"face": NaN}', 400, ["tender: Expected JSON, read NaN, which is no number of it"]),
        ("[" * 9000, 400, ["tender: Expected JSON, read lists or objects too deep within each other"]),
        ("[]", 422, ["tender: Expected a JSON object, read something else"]),
        ("null", 422, ["tender: Expected a JSON object, read something else"]),
        ("{}", 422, ["face: Expected this key, read none"]),
        (
            '{"face": {"seriel": "1"}, "counter": {"on": "2026-13-01", "amount": 45}}',
            422,
            [
                "face: Expected a known key, read 'seriel'; the nearest known key is 'serial'",
                "counter.on: Expected a day such as 2026-11-24, read something else",
                'counter.amount: Expected dollars as text, such as "45.10", read something else',
            ],
        ),
    ],
)
def test_what_is_no_tender_is_refused(client: TestClient, text: str | bytes, status: int, problems: list[str]) -> None:
    answer = _post(client, text)
    assert (answer.status_code, answer.json()) == (status, {"problems": problems})


@pytest.mark.parametrize(
    "text",
    [
        '{"4560112277": 1, "4560112277": 1}',
        '{"face": {"4560112277": 1}}',
        '{"face": {"T071098973T 4560112277O 1043": 1}}',
        '{"face": {}, "counter": {"declared_kind": "4560112277"}}',
        '{"face": {}, "counter": {"network": "4560112277"}}',
        '{"face": {}, "taken_as": 4560112277}',
    ],
)
def test_a_refusal_repeats_no_number(client: TestClient, text: str) -> None:
    answer = _post(client, text)
    assert answer.status_code in {400, 422}
    assert "456011" not in answer.text
    assert "Expected" in answer.json()["problems"][0]


@pytest.mark.parametrize(
    "text",
    [
        r'{"face": {"drawer": ["a\ud800", "b"], "payee": "\udfff", "words": {"text": "\ud800", "by": "\ud800"}}, "id": "\ud800"}',
        r'{"face": {}, "counter": {"store": "\ud800", "lane": "x\udfff"}, "documents": [{"kind": "\ud800", "name": "\ud800"}]}',
        r'{"face": {"\ud800": ""}}',
        r'{"\ud800": "", "\ud800": ""}',
        r'{"face": {}, "counter": {"declared_kind": "\ud800", "on": "\ud800", "network": "\ud800"}}',
    ],
)
def test_half_a_character_is_no_fault(client: TestClient, text: str) -> None:
    """A lone surrogate can be written in JSON and not in UTF-8 (RFC 8259, section 8.2)."""
    assert _post(client, text).status_code in {200, 400, 422}


def test_a_body_beyond_the_limit_is_refused_however_it_comes(client: TestClient) -> None:
    long = b" " * (LIMIT + 1)
    problem = {"problems": ["Expected at most 65,536 bytes, read more"]}
    told = _post(client, long)
    untold = client.post("/v1/assess", content=iter([long[:LIMIT], b" "]), headers=TYPE)
    assert (told.status_code, told.json()) == (untold.status_code, untold.json()) == (413, problem)
    fits = json.dumps(CLEAN).encode()
    assert _post(client, fits + b" " * (LIMIT - len(fits))).status_code == 200


@pytest.mark.parametrize(
    "kind",
    ["", "text/plain", "application/x-www-form-urlencoded", "application/json; charset=latin-1", "multipart/form-data"],
)
def test_another_media_type_is_refused(client: TestClient, kind: str) -> None:
    answer = client.post("/v1/assess", content=json.dumps(CLEAN), headers={"content-type": kind})
    assert answer.status_code == 415
    assert answer.json() == {"problems": ["Expected a body of type application/json in UTF-8, read another type"]}


def test_a_character_set_that_is_json_s_own_is_taken(client: TestClient) -> None:
    text = json.dumps(CLEAN)
    assert _post(client, text, **{"content-type": 'Application/JSON; Charset="UTF-8"'}).status_code == 200
    assert _post(client, text, **{"content-encoding": "gzip"}).status_code == 415


def test_a_batch_answers_every_line_and_loses_none(client: TestClient) -> None:
    unsigned = patched({"face.signature": False})
    lines = [json.dumps(CLEAN), "", '{"face": {"45601122": ""}}', json.dumps(unsigned), "no JSON", " " * LIMIT + "{}"]
    answer = client.post("/v1/assess/batch", content="\n".join(lines), headers=LINES)
    assert (answer.status_code, answer.headers["content-type"]) == (200, "application/jsonl")
    found = [json.loads(line) for line in answer.text.splitlines()]
    assert [line["line"] for line in found] == [1, 3, 4, 5, 6]
    assert found[0]["assessment"] == cf.assess(CLEAN).model_dump()
    assert found[2]["assessment"] == cf.assess(unsigned).model_dump()
    assert found[1]["problems"][0].startswith("face: Expected a known key, read '•")
    assert found[3]["problems"] == [
        "tender: Expected JSON, read text that breaks off or goes wrong at line 1, column 1"
    ]
    assert found[4]["problems"] == ["Expected at most 65,536 bytes on a line, read more"]
    for line in found:
        TypeAdapter(forms.LineWire).validate_python(line)


@pytest.mark.parametrize(
    ("content", "status", "problem"),
    [
        ("", 400, "Expected tenders, one a line, read none"),
        (" \n\r\n", 400, "Expected tenders, one a line, read none"),
        ("{}\n" * 1001, 413, "Expected at most 1,000 tenders, read 1,001"),
        (" " * ((1 << 22) + 1), 413, "Expected at most 4,194,304 bytes, read more"),
    ],
)
def test_a_batch_has_bounds(client: TestClient, content: str, status: int, problem: str) -> None:
    answer = client.post("/v1/assess/batch", content=content, headers=LINES)
    assert (answer.status_code, answer.json()) == (status, {"problems": [problem]})


def test_a_batch_is_json_lines_and_nothing_else(client: TestClient) -> None:
    assert client.post("/v1/assess/batch", content="{}", headers=TYPE).status_code == 415
    assert client.post("/v1/assess/batch", content="{}", headers={"content-type": "application/x-ndjson"}).is_success


def test_the_rule_book(client: TestClient) -> None:
    found = client.get("/v1/rules").json()
    TypeAdapter(forms.RulesWire).validate_python(found)
    assert found == {
        "digest": cf.assess(CLEAN).model_dump()["made_with"]["rules"],
        "rules": [report.entry(r) for r in cf.rules()],
    }
    assert client.get("/v1/rules/altered").json() == next(entry for entry in found["rules"] if entry["id"] == "altered")
    missing = client.get("/v1/rules/alterd")
    assert missing.status_code == 404
    assert missing.json() == {"problems": ["Expected the name of a rule, read another; the nearest is altered"]}


def test_the_tables(client: TestClient) -> None:
    found = client.get("/v1/tables").json()
    TypeAdapter(forms.TablesWire).validate_python(found)
    assert found["digest"] == tables.digest()
    assert [table["name"] for table in found["tables"]] == list(tables.names())
    states = next(table for table in found["tables"] if table["name"] == "us_states")
    assert states["rows"] == len(tables.load("us_states").rows) > 50
    assert states["source"] == tables.load("us_states").source._asdict()


def test_schemas_and_health(client: TestClient) -> None:
    assert client.get("/v1/schema/tender").json().items() >= cf.Tender.model_json_schema().items()
    answer = client.get("/v1/schema/assessment").json()
    assert answer["required"] == list(cf.assess(CLEAN).model_dump())
    health = client.get("/healthz").json()
    TypeAdapter(forms.HealthWire).validate_python(health)
    assert health["made_with"] == cf.assess(CLEAN).model_dump()["made_with"]
    assert health["version"] == cf.__version__


def test_other_methods_and_places_are_refused_in_json(client: TestClient) -> None:
    for answer, status in (
        (client.get("/v1/assess"), 405), (client.delete("/v1/rules"), 405), (client.get("/v1/none"), 404),
        (client.post("/healthz"), 405), (client.options("/v1/assess"), 405),
    ):  # fmt: skip
        assert answer.status_code == status
        assert list(answer.json()) == ["problems"]
    assert client.get("/v1/assess").headers["allow"] == "POST"
