"""The pages for trainers, made on the server and complete without a script.

A form is sent by POST, so that no reading stands in an address, a history or a log; the answer comes at once and is
kept nowhere. Everything else is read by GET.
"""

from __future__ import annotations

import json
from collections.abc import Collection, Mapping
from functools import cache
from itertools import groupby
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response
from starlette.routing import Route

from checkface import __version__, authority, cells, tables
from checkface.findings import Effect
from checkface.policy import Policy
from checkface.report.facts import source
from checkface.report.rulebook import EFFECTS, facts_of, family_name
from checkface.rules import Rule, book_digest
from checkface.rules import rules as every_rule
from checkface.tables import Table
from checkface.tender import Tender
from checkface.web import excerpts, fields, form
from checkface.web.bodies import FORM, body
from checkface.web.desk import Desk
from checkface.web.examples import Example, examples
from checkface.web.form import Typed
from checkface.web.refusal import Refused, one_of
from checkface.web.verdict import verdict

_HERE = Path(__file__).parent
#: Most characters that are looked for.
LONGEST = 100


@cache
def _templates() -> Environment:
    found = Environment(
        loader=FileSystemLoader(_HERE / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    found.filters |= {
        "family": family_name, "source": source, "shown": cells.shown, "words": _words, "lines": excerpts.shown,
        "citation": lambda identifier: authority.get(identifier).citation,
    }  # fmt: skip
    found.globals |= {
        "version": __version__, "STATES": fields.STATES, "SECTIONS": fields.SECTIONS, "all": len(every_rule()),
        "label_of": lambda name: fields.FIELDS[name].label,
    }  # fmt: skip
    return found


def _words(name: str) -> str:
    """A name of ours as words."""
    return name.replace("-", " ").replace("_", " ")


class Pages:
    """The pages, judging at *desk*. What is no coroutine runs in a thread of its own and holds up nobody."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk

    def routes(self) -> list[Route]:
        """Every page and the style sheet."""
        reading = {
            "/": self.form, "/rules": self.rules, "/rules/{id}": self.rule, "/tables": self.tables,
            "/tables/{name}": self.table, "/examples": self.examples, "/examples/{name}": self.example,
            "/style.css": self.style,
        }  # fmt: skip
        examine = Route("/examine", self.examine, methods=["POST"])
        return [examine, *(Route(path, page, methods=["GET"]) for path, page in reading.items())]

    def _page(self, name: str, status: int = 200, **values: Any) -> HTMLResponse:
        page = _templates().get_template(name)
        return HTMLResponse(page.render(policy=self._desk.policy, at=name.partition(".")[0], **values), status)

    def form(self, request: Request) -> Response:
        """The form, empty or filled with an example."""
        name = request.query_params.get("example", "")
        given = form.of_tender(_example(name).tender) if name else {}
        return self._form(given, {})

    def _form(
        self, given: Mapping[str, str], mistakes: Mapping[str, str], status: int = 200, lost: Collection[str] = ()
    ) -> Response:
        today = self._desk.today().isoformat()
        return self._page("examine.html", status, given=given, mistakes=mistakes, lost=lost, today=today)

    async def examine(self, request: Request) -> Response:
        """The answer to a form that was sent, or the form again with its mistakes."""
        given = form.decode(await body(request, FORM))
        return await run_in_threadpool(lambda: self._examined(form.typed(given)))

    def _examined(self, typed: Typed) -> Response:
        again = form.shown_again(typed)
        lost = typed.given.keys() - again.keys()
        if typed.tender is None:
            return self._form(again, typed.mistakes, 422, lost)
        return self._answer(typed.tender, given=again, lost=lost)

    def example(self, request: Request) -> Response:
        """The answer to one of the invented checks."""
        found = _example(request.path_params["name"])
        return self._answer(found.tender, example=found)

    def _answer(
        self,
        tender: Tender,
        *,
        given: Mapping[str, str] | None = None,
        lost: Collection[str] = (),
        example: Example | None = None,
    ) -> Response:
        found = verdict(self._desk.judge(tender))
        today = self._desk.today().isoformat()
        # Drawn by us; what it quotes is escaped where it is drawn.
        drawing = Markup(found.drawing.svg) if found.drawing else ""  # noqa: S704
        return self._page(
            "verdict.html", verdict=found, drawing=drawing, given=given, lost=lost, mistakes={}, today=today,
            example=example,
        )  # fmt: skip

    def examples(self, request: Request) -> Response:  # noqa: ARG002
        """All invented checks by the family of their fault."""
        families = [
            (name, list(members)) for name, members in groupby(examples().values(), key=lambda each: each.family)
        ]
        return self._page("examples.html", families=families)

    def rules(self, request: Request) -> Response:
        """The rules that contain every word asked for, and have the effect asked for."""
        asked = request.query_params.get("q", "")[:LONGEST]
        effect = request.query_params.get("effect", "")
        found = [rule for rule in every_rule() if _fits(rule, asked, effect, self._desk.policy)]
        families = [(name, list(members)) for name, members in groupby(found, key=lambda rule: rule.family)]
        return self._page(
            "rules.html", families=families, asked=asked, effect=effect, count=len(found),
            effects=EFFECTS, effect_here=_effect_here, digest=book_digest(),
        )  # fmt: skip

    def rule(self, request: Request) -> Response:
        """One rule with everything that is known of it."""
        every = {rule.id: rule for rule in every_rule()}
        found = every[one_of(every, request.path_params["id"], "a rule")]
        example = examples().get(found.id)
        return self._page(
            "rule.html",
            rule=found,
            facts=facts_of(found),
            authorities=list(map(authority.get, found.authority)),
            example=example,
            effect_here=_effect_here,
        )

    def tables(self, request: Request) -> Response:  # noqa: ARG002
        """All reference tables with their sources."""
        return self._page("tables.html", tables=list(map(tables.load, tables.names())), digest=tables.digest())

    def table(self, request: Request) -> Response:
        """One reference table with its rows."""
        found = tables.load(one_of(tables.names(), request.path_params["name"], "a table"))
        return self._page("table.html", table=found, data=_data(found))

    def style(self, request: Request) -> Response:  # noqa: ARG002
        """The style sheet."""
        return Response((_HERE / "templates" / "style.css").read_bytes(), media_type="text/css")

    def refused(self, refused: Refused) -> Response:
        """The page of a request that cannot be answered."""
        return self._page("refused.html", refused.status, problems=refused.problems)


def _example(name: str) -> Example:
    every = examples()
    return every[one_of(every, name, "an example")]


def _effect_here(rule: Rule, policy: Policy) -> Effect:
    return policy.effects.get(rule.id, rule.effect)


def _fits(rule: Rule, asked: str, effect: str, policy: Policy) -> bool:
    if effect and effect != _effect_here(rule, policy):
        return False
    text = " ".join((rule.id, family_name(rule.family), *rule.explanation.values(), *map(source, rule.authority)))
    return all(word in text.casefold() for word in asked.casefold().split())


def _data(table: Table) -> str:
    """The sections of a table without rows."""
    return "" if table.rows else json.dumps(dict(table.data), ensure_ascii=False, indent=2)
