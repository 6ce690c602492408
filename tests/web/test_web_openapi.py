"""The OpenAPI document says of every route what is really there."""

from __future__ import annotations

import json
import re
from typing import Any

from starlette.testclient import TestClient

import checkface as cf
from checkface.report.wire import assessment_schema
from checkface.web import api, application, openapi
from checkface.web.desk import Desk


def _resolved(document: dict[str, Any], found: Any) -> Any:
    """*found* with every reference replaced by what it refers to."""
    if isinstance(found, dict):
        if "$ref" in found:
            name = found["$ref"].removeprefix("#/components/schemas/").removeprefix("#/$defs/")
            place = document["components"]["schemas"] if "components" in document else document["$defs"]
            return _resolved(document, place[name])
        return {key: _resolved(document, value) for key, value in found.items() if key != "$defs"}
    return [_resolved(document, value) for value in found] if isinstance(found, list) else found


def test_it_names_every_route_and_no_other(client: TestClient) -> None:
    document = client.get("/v1/openapi.json").json()
    assert document == json.loads(json.dumps(openapi.document()))
    assert document["openapi"] == "3.1.0"
    assert document["info"]["version"] == cf.__version__
    told = {(path, method.upper()) for path, routes in document["paths"].items() for method in routes}
    desk = Desk(cf.Policy(), None, lambda: None)  # type: ignore[arg-type, return-value]
    real = {(route.path, *route.methods) for route in api.router(desk).routes}  # type: ignore[attr-defined]
    assert told == real - {("/v1/openapi.json", "GET")}


def test_its_schemas_are_those_of_the_wire(client: TestClient) -> None:
    document = client.get("/v1/openapi.json").json()
    assess = document["paths"]["/v1/assess"]["post"]
    taken = assess["requestBody"]["content"]["application/json"]["schema"]
    given = assess["responses"]["200"]["content"]["application/json"]["schema"]
    tender, answer = cf.Tender.model_json_schema(), assessment_schema()
    assert _resolved(document, taken) == _resolved(tender, tender)
    assert _resolved(document, given) == _resolved(answer, answer)


def test_every_reference_leads_somewhere_and_every_operation_has_a_name(client: TestClient) -> None:
    document = client.get("/v1/openapi.json").json()
    references = set(re.findall(r'"\$ref": "([^"]*)"', json.dumps(document)))
    assert references <= {f"#/components/schemas/{name}" for name in document["components"]["schemas"]}
    names = [route["operationId"] for routes in document["paths"].values() for route in routes.values()]
    assert len(names) == len(set(names))
    assert all(re.fullmatch("[a-z-]+", name) for name in names)
    assert "://" not in json.dumps(document)


def test_it_names_the_statuses_that_are_given(client: TestClient) -> None:
    document = client.get("/v1/openapi.json").json()
    told = document["paths"]["/v1/assess"]["post"]["responses"]
    kind = {"content-type": "application/json"}
    given = {
        client.post("/v1/assess", content=content, headers=headers).status_code
        for content, headers in (
            ('{"face": {}}', kind), ("{", kind), ("{}", kind), ("{}", {}), (b" " * (1 << 17), kind),
            ("{}", kind | {"sec-fetch-site": "cross-site"}),
        )
    }  # fmt: skip
    assert {str(status) for status in given} | {"408", "503"} == set(told)
    assert "404" in document["paths"]["/v1/rules/{id}"]["get"]["responses"]


def test_no_page_of_a_documentation_tool_is_served() -> None:
    client = TestClient(application(), base_url="http://localhost")
    for path in ("/docs", "/redoc", "/openapi.json"):
        assert client.get(path).status_code == 404
