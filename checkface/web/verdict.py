"""What the page of one assessment shows: the facts of the report, arranged for reading and for teaching."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import NamedTuple

from checkface import authority
from checkface.assessment import Assessment
from checkface.findings import Disposition, Effect
from checkface.reading import NEEDS
from checkface.report.facts import NAMES, Facts, Found, Opening, facts
from checkface.rules import rules
from checkface.training import NotASpecimenError, admitted, draw
from checkface.web.desk import Judged
from checkface.web.excerpts import Excerpt, excerpts

#: What each answer means for the paper.
MEANINGS = {
    Disposition.CONVERT: "The check may become an electronic debit. It is voided and handed back to the customer.",
    Disposition.KEEP: "The check is taken as paper. It goes in the till and may not become an electronic debit.",
    Disposition.REFER: "Nothing is decided yet. A manager looks at the check and decides.",
    Disposition.DECLINE: "The check is not taken. It is handed back to the customer.",
}
#: What each effect does, as it is said beside a finding.
EFFECTS = {
    Effect.NOTE: "written down, changes nothing",
    Effect.KEEP: "bars conversion",
    Effect.REFER: "calls for a manager",
    Effect.DECLINE: "bars taking the check",
}


class Shown(NamedTuple):
    """One finding, its readings cut for marking, its authorities as records."""

    found: Found
    title: str
    does: str
    excerpts: list[Excerpt]
    authorities: tuple[authority.Authority, ...]


class Idle(NamedTuple):
    """A rule that could not run, and the readings it lacked."""

    rule: str
    title: str
    lacks: tuple[str, ...]


class Verdict(NamedTuple):
    """The page of one assessment."""

    facts: Facts
    meaning: str
    day: str
    day_is_ours: bool
    findings: list[Shown]
    idle: list[Idle]
    to_customer: tuple[str, ...]
    to_till: tuple[str, ...]
    drawing: str
    wire: str
    made_with: dict[str, str]

    @property
    def openings(self) -> tuple[Opening, ...]:
        """What would have to change for each better answer."""
        return self.facts.openings


def verdict(judged: Judged) -> Verdict:
    """The page of *judged*, masked."""
    found = judged.assessment
    told, wire = facts(found), found.model_dump()
    on = found.read.counter.on
    return Verdict(
        told,
        MEANINGS[told.disposition],
        on.isoformat() if on else "",
        judged.day is not None,
        [_shown(each) for each in told.found],
        list(_idle(found)),
        found.instructions.to_customer,
        found.instructions.to_till,
        drawing(found),
        json.dumps(wire, ensure_ascii=False, indent=2),
        wire["made_with"],
    )


def drawing(found: Assessment) -> str:
    """The check drawn as a specimen with its findings, as SVG; nothing for a check that may not be drawn."""
    try:
        return draw(admitted(found.read.tender, found.instructions.policy), found.instructions.policy, marked=True)
    except NotASpecimenError:
        return ""


def _shown(found: Found) -> Shown:
    rule = _BOOK[found.rule]
    authorities = tuple(map(authority.get, rule.authority))
    return Shown(found, rule.title, EFFECTS[found.effect], excerpts(found.points), authorities)


def _idle(found: Assessment) -> Iterator[Idle]:
    known = found.read.known
    for identifier in found.unread:
        rule = _BOOK[identifier]
        lacks = tuple(dict.fromkeys(name_of(need) for need in rule.needs if not NEEDS[need] & known))
        yield Idle(identifier, rule.title, lacks)


def name_of(need: str) -> str:
    """What a reading is called that a rule needs."""
    name = need.removesuffix("_text")
    return NAMES.get(f"face.{name}") or NAMES.get(f"counter.{name}") or name.replace("_", " ")


_BOOK = {rule.id: rule for rule in rules()}
