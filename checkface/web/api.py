"""The JSON API for tills, version 1: tenders in, assessments out, and what both rest on.

Answers are masked; there is no way to ask for whole numbers over the network.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from fastapi import APIRouter
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response, StreamingResponse

from checkface import __version__, report, tables
from checkface.assessment import TenderError, parse
from checkface.report.wire import assessment_schema
from checkface.rules import book_digest
from checkface.rules import rules as every_rule
from checkface.strictjson import JsonError, loads
from checkface.tender import Tender
from checkface.web.bodies import JSON, JSON_LINES, LIMIT, body
from checkface.web.desk import Desk, Judged
from checkface.web.openapi import document
from checkface.web.refusal import Refused, fault, one_of

#: Most bytes and most tenders of one batch.
BATCH, TENDERS = 1 << 22, 1000
#: Lines of a batch that are answered in one piece.
TOGETHER = 10
_DIALECT = "https://json-schema.org/draft/2020-12/schema"


def as_json(value: Any, status: int = 200, headers: dict[str, str] | None = None) -> Response:
    """*value* as an answer in JSON."""
    return Response(_bytes(value), status, headers, media_type="application/json")


def _bytes(value: Any) -> bytes:
    return json.dumps(value, ensure_ascii=False, allow_nan=False).encode()


def router(desk: Desk) -> APIRouter:
    """The routes of the API, judging at *desk*."""
    api = APIRouter()

    @api.post("/v1/assess")
    async def assess(request: Request) -> Response:
        """The assessment of a tender, masked; the header `checkface-day` states the day if the server put it in."""
        given = await body(request, JSON)
        judged = await run_in_threadpool(lambda: desk.judge(tender_of(given)))
        return as_json(judged.assessment.model_dump(), headers=_day(judged))

    @api.post("/v1/plan")
    async def plan(request: Request) -> Response:
        """The steps still to take for a tender as far as it is known: before the answer, then what follows it."""
        given = await body(request, JSON)
        judged = await run_in_threadpool(lambda: desk.judge(tender_of(given)))
        found = judged.assessment
        return as_json({"disposition": found.disposition, "steps": found.instructions.wire()}, headers=_day(judged))

    @api.post("/v1/assess/batch")
    async def batch(request: Request) -> Response:
        """One tender a line in JSON Lines, one answer a line out; a line that is no tender costs no other."""
        lines = [
            (number, line)
            for number, line in enumerate((await body(request, JSON_LINES, BATCH)).split(b"\n"), 1)
            if line.strip()
        ]
        if not lines:
            raise Refused(400, ["Expected tenders, one a line, read none"])
        if len(lines) > TENDERS:
            raise Refused(413, [f"Expected at most {TENDERS:,} tenders, read {len(lines):,}"])
        return StreamingResponse(_judged(desk, lines), media_type=JSON_LINES[0])

    @api.get("/v1/rules")
    def rules() -> Response:
        """The rule book, with explanations and authorities."""
        return as_json({"digest": book_digest(), "rules": [report.entry(rule) for rule in every_rule()]})

    @api.get("/v1/rules/{id}")
    def rule(id: str) -> Response:
        """One rule by its name."""
        every = {entry.id: entry for entry in every_rule()}
        return as_json(report.entry(every[one_of(every, id, "a rule")]))

    @api.get("/v1/tables")
    def sources() -> Response:
        """Every reference table with its source."""
        found = [_table(tables.load(name)) for name in tables.names()]
        return as_json({"digest": tables.digest(), "tables": found})

    @api.get("/v1/schema/tender")
    def tender_schema() -> Response:
        """The JSON Schema of a tender."""
        return as_json({"$schema": _DIALECT, **Tender.model_json_schema()})

    @api.get("/v1/schema/assessment")
    def answer_schema() -> Response:
        """The JSON Schema of an assessment."""
        return as_json({"$schema": _DIALECT, **assessment_schema()})

    @api.get("/v1/openapi.json")
    def description() -> Response:
        """The OpenAPI document of all this."""
        return as_json(document())

    @api.get("/healthz")
    async def health() -> Response:
        """The version, and the digests of rules, tables and policy."""
        made_with = {"rules": book_digest(), "tables": tables.digest(), "policy": desk.policy.digest}
        return as_json({"status": "ok", "version": __version__, "made_with": made_with})

    return api


def _day(judged: Judged) -> dict[str, str]:
    return {} if judged.day is None else {"checkface-day": judged.day.isoformat()}


def tender_of(given: bytes) -> Tender:
    """The tender in a JSON body. Raises :class:`Refused`: 400 for what is no JSON, 422 for what is no tender."""
    try:
        value = loads(given)
        if not isinstance(value, dict):
            raise Refused(422, ["tender: Expected a JSON object, read something else"])
        return parse(value)
    except JsonError as error:
        raise Refused(400, [f"tender: {error}"]) from None
    except TenderError as error:
        raise Refused(422, error.problems) from None


def _judged(desk: Desk, lines: list[tuple[int, bytes]]) -> Iterator[bytes]:
    """The answers, some lines at once: each piece that is sent costs a change of threads."""
    for some in range(0, len(lines), TOGETHER):
        yield b"".join(_bytes(_answer(desk, *line)) + b"\n" for line in lines[some : some + TOGETHER])


def _answer(desk: Desk, number: int, line: bytes) -> dict[str, Any]:
    try:
        if len(line) > LIMIT:
            raise Refused(413, [f"Expected at most {LIMIT:,} bytes on a line, read more"])
        return {"line": number, "assessment": desk.judge(tender_of(line)).assessment.model_dump()}
    except Refused as refused:
        return {"line": number, "problems": refused.problems}
    except Exception as error:
        return {"line": number, "problems": fault(error).problems}


def _table(table: tables.Table) -> dict[str, Any]:
    rows = len(table.rows) or len(table.data)
    return {"name": table.name, "source": table.source._asdict(), "digest": table.digest, "rows": rows}
