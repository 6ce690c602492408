"""The forms of what the API answers besides an assessment, written down as types for its OpenAPI document."""

from __future__ import annotations

from typing import Any, Literal, NotRequired

from pydantic import ConfigDict
from typing_extensions import TypedDict

from checkface.authority import Force
from checkface.findings import Disposition, Effect, Remedy
from checkface.report.wire import AssessmentWire, MadeWithWire, StepWire

_CLOSED = ConfigDict(extra="forbid")


class ProblemsWire(TypedDict):
    """What is wrong with a request, one sentence a problem."""

    __pydantic_config__ = _CLOSED  # type: ignore[misc]
    problems: list[str]


class PlanWire(TypedDict):
    """The steps still to take. Those of the stage ``before`` come first: what they find may change ``disposition``."""

    __pydantic_config__ = _CLOSED  # type: ignore[misc]
    disposition: Disposition
    steps: list[StepWire]


class LineWire(TypedDict):
    """The answer for one line of a batch, counted from 1: an assessment, or what is wrong with the line."""

    __pydantic_config__ = _CLOSED  # type: ignore[misc]
    line: int
    assessment: NotRequired[AssessmentWire]
    problems: NotRequired[list[str]]


class ProvisionWire(TypedDict):
    """A provision that a rule rests on; ``basis`` says how its text was known."""

    __pydantic_config__ = _CLOSED  # type: ignore[misc]
    id: str
    citation: str
    title: str
    edition: str
    force: Force
    basis: Literal["text", "public summary", "memory"]


class RuleWire(TypedDict):
    """One rule of the book; no house may give it less than ``lowest_effect``."""

    __pydantic_config__ = _CLOSED  # type: ignore[misc]
    id: str
    family: str
    title: str
    effect: Effect
    lowest_effect: Effect
    force: Force
    remedy: Remedy
    asks_clerk: bool
    needs: list[str]
    explanation: dict[str, str]
    authority: list[ProvisionWire]


class RulesWire(TypedDict):
    """The rule book in the order in which it is asked; ``digest`` is its SHA-256."""

    __pydantic_config__ = _CLOSED  # type: ignore[misc]
    digest: str
    rules: list[RuleWire]


class SourceWire(TypedDict):
    """Where a table was taken from, when, how, and what confirms it."""

    __pydantic_config__ = _CLOSED  # type: ignore[misc]
    authority: str
    edition: str
    taken: str
    how: str
    check: str


class TableWire(TypedDict):
    """One reference table; ``rows`` is the number of its rows, or of its sections where it has none."""

    __pydantic_config__ = _CLOSED  # type: ignore[misc]
    name: str
    source: SourceWire
    digest: str
    rows: int


class TablesWire(TypedDict):
    """The reference tables; ``digest`` is the SHA-256 over them all."""

    __pydantic_config__ = _CLOSED  # type: ignore[misc]
    digest: str
    tables: list[TableWire]


class HealthWire(TypedDict):
    """That the server answers, which version, and what it judges with."""

    __pydantic_config__ = _CLOSED  # type: ignore[misc]
    status: Literal["ok"]
    version: str
    made_with: MadeWithWire


#: A JSON Schema is any object.
SchemaWire = dict[str, Any]
