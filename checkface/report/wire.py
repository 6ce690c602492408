"""The form of an assessment as JSON: what ``Assessment.model_dump`` gives, written down as types for a JSON Schema."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import ConfigDict, TypeAdapter
from typing_extensions import TypedDict

from checkface.authority import Force
from checkface.findings import Disposition, Effect, Remedy
from checkface.handling.plan import Stage, When, Who
from checkface.reading import By

_CLOSED = ConfigDict(extra="forbid")


class LabelWire(TypedDict):
    """Characters ``start`` to ``end`` (exclusive, from 0) of one reading; 0 and 0 for the whole of it."""

    __pydantic_config__ = _CLOSED  # type: ignore[misc]
    reading: str
    start: int
    end: int
    text: str
    words: str
    primary: bool


class AuthorityWire(TypedDict):
    """Where a rule comes from, and with what force."""

    __pydantic_config__ = _CLOSED  # type: ignore[misc]
    id: str
    force: Force
    citation: str


class FindingWire(TypedDict):
    """What one rule found. A ``question`` is put to the clerk; ``counter.confirmed`` names the rule if it is answered
    with yes."""

    __pydantic_config__ = _CLOSED  # type: ignore[misc]
    rule: str
    effect: Effect
    message: str
    labels: list[LabelWire]
    authority: list[AuthorityWire]
    remedy: Remedy
    question: str | None


class RestWire(TypedDict):
    """A pillar of conversion that stands: who saw it, and in which reading."""

    __pydantic_config__ = _CLOSED  # type: ignore[misc]
    pillar: str
    by: By
    reading: str


class CureWire(TypedDict):
    """One finding that must be cured."""

    __pydantic_config__ = _CLOSED  # type: ignore[misc]
    rule: str
    remedy: Remedy


class ChangeWire(TypedDict):
    """What a better disposition takes; ``curable``: the counter has a remedy for all of it."""

    __pydantic_config__ = _CLOSED  # type: ignore[misc]
    disposition: Disposition
    cure: list[CureWire]
    curable: bool


class StepWire(TypedDict):
    """One thing to do; ``text`` is what is said, printed or written. ``when`` are the codes of the conditions that must
    all hold, ``only_if`` says the same in words."""

    __pydantic_config__ = _CLOSED  # type: ignore[misc]
    order: int
    stage: Stage
    who: Who
    does: str
    where: str
    text: str
    why: str
    cite: list[str]
    when: list[When]
    only_if: str


class ReadWire(TypedDict):
    """What was read. Amounts are cents; numbers of accounts and documents are masked."""

    __pydantic_config__ = _CLOSED  # type: ignore[misc]
    readings: dict[str, str]
    micr: dict[str, Any] | None
    routing: dict[str, Any] | None
    amount_cents: int | None
    words_cents: int | None
    figures_cents: int | None
    date: str | None
    kinds: list[str]
    evidence: list[dict[str, str]]
    documents: list[dict[str, str]]


class MadeWithWire(TypedDict):
    """SHA-256 of the rules, the tables and the policy the answer was made with."""

    __pydantic_config__ = _CLOSED  # type: ignore[misc]
    rules: str
    tables: str
    policy: str


class AssessmentWire(TypedDict):
    """The answer for one tender."""

    __pydantic_config__ = _CLOSED  # type: ignore[misc]
    schema: Literal[1]
    id: str
    disposition: Disposition
    findings: list[FindingWire]
    rests_on: list[RestWire]
    unread: list[str]
    would_change: list[ChangeWire]
    read: ReadWire
    instructions: list[StepWire]
    made_with: MadeWithWire


def assessment_schema() -> dict[str, Any]:
    """The JSON Schema of an assessment."""
    return TypeAdapter(AssessmentWire).json_schema()
