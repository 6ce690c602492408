"""The OpenAPI document of the API, true to the forms on the wire.

Its schemas come from the types that the answers are held against: the tender's own, and those of an assessment.
Source: OpenAPI Specification 3.1.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any, NamedTuple

from pydantic import TypeAdapter

from checkface import __version__
from checkface.report.wire import AssessmentWire
from checkface.tender import Tender
from checkface.web import wire
from checkface.web.bodies import JSON, JSON_LINES

_TYPES: dict[str, Any] = {
    "Tender": Tender, "Assessment": AssessmentWire, "Plan": wire.PlanWire, "BatchLine": wire.LineWire,
    "Rules": wire.RulesWire, "Rule": wire.RuleWire, "Tables": wire.TablesWire, "Schema": wire.SchemaWire,
    "Health": wire.HealthWire, "Problems": wire.ProblemsWire,
}  # fmt: skip
_REFUSED = {
    400: "The body is no JSON, or the Host is no name of this server.",
    403: "A browser made the request for another site.",
    404: "There is nothing of that name.",
    408: "The body did not come to its end in time.",
    413: "The body is too long.",
    415: "The body is of another type or character set, or it is compressed.",
    422: "The body is JSON, but no tender.",
    503: "The ledger does not answer.",
}
_POLICY = {"description": "SHA-256 of the policy the server was started with.", "schema": {"type": "string"}}
_DAY = {
    "description": "The server's day, where the tender carried none of its own.",
    "schema": {"type": "string", "format": "date"},
}
_ID = {"name": "id", "in": "path", "required": True, "description": "Name of a rule.", "schema": {"type": "string"}}


class Route(NamedTuple):
    """One route: what goes in and what comes out by their names in :data:`_TYPES`, and how it may be refused."""

    path: str
    method: str
    summary: str
    takes: str
    gives: str
    refused: tuple[int, ...]


ROUTES = (
    Route("/v1/assess", "post", "Judge one check", "Tender", "Assessment", (403, 408, 413, 415, 422, 503)),
    Route("/v1/plan", "post", "The steps still to take", "Tender", "Plan", (403, 408, 413, 415, 422, 503)),
    Route("/v1/assess/batch", "post", "Judge many checks, one a line", "Tender", "BatchLine", (403, 408, 413, 415)),
    Route("/v1/rules", "get", "The rule book", "", "Rules", ()),
    Route("/v1/rules/{id}", "get", "One rule", "", "Rule", (404,)),
    Route("/v1/tables", "get", "The reference tables and their sources", "", "Tables", ()),
    Route("/v1/schema/tender", "get", "The JSON Schema of a tender", "", "Schema", ()),
    Route("/v1/schema/assessment", "get", "The JSON Schema of an assessment", "", "Schema", ()),
    Route("/healthz", "get", "Whether the server answers, and what it judges with", "", "Health", ()),
)


@cache
def document() -> dict[str, Any]:
    """The whole document, JSON-ready."""
    places, definitions = TypeAdapter.json_schemas(
        [(name, "validation", TypeAdapter(kind)) for name, kind in _TYPES.items()],
        ref_template="#/components/schemas/{model}",
    )
    schemas = {name: place for (name, _), place in places.items()}
    paths: dict[str, Any] = {}
    for route in ROUTES:
        paths.setdefault(route.path, {})[route.method] = _operation(schemas, route)
    return {
        "openapi": "3.1.0",
        "info": {
            "title": "checkface",
            "version": __version__,
            "description": "Is the face of a check sound, and may it be converted or must it be kept? Account and "
            "identification numbers are masked in every answer; no bank is asked, and nothing is stored.",
        },
        "paths": paths,
        "components": {"schemas": definitions["$defs"]},
    }


def _operation(schemas: Mapping[str, Any], route: Route) -> dict[str, Any]:
    # In JSON Lines the schema describes each line.
    kind = (JSON_LINES if route.path.endswith("/batch") else JSON)[0]
    done: dict[str, Any] = {"description": f"{route.summary}.", "headers": {"checkface-policy": _POLICY}}
    done["content"] = {kind: {"schema": schemas[route.gives]}}
    if route.gives in ("Assessment", "Plan"):
        done["headers"]["checkface-day"] = _DAY
    operation: dict[str, Any] = {"summary": route.summary, "operationId": _name(route.path)}
    if "{" in route.path:
        operation["parameters"] = [_ID]
    if route.takes:
        operation["requestBody"] = {"required": True, "content": {kind: {"schema": schemas[route.takes]}}}
    problems = {JSON[0]: {"schema": schemas["Problems"]}}
    responses = {"200": done}
    for status in (400, *route.refused):
        responses[str(status)] = {"description": _REFUSED[status], "content": problems}
    return operation | {"responses": responses}


def _name(path: str) -> str:
    return path.removeprefix("/v1").strip("/").replace("/{id}", "-one").replace("/", "-")
