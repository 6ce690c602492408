"""What the page of one assessment shows: the facts of the report, arranged for reading and for teaching."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import NamedTuple

from checkface import masking
from checkface.assessment import Assessment, assess
from checkface.findings import Disposition, Effect
from checkface.reading import NEEDS
from checkface.report.facts import NAMES, Facts, Found, facts
from checkface.rules import rules
from checkface.tender import Reading
from checkface.training import NotASpecimenError, admitted, drawn
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
    """One finding, what its effect does, and its readings cut for marking."""

    found: Found
    does: str
    excerpts: list[Excerpt]


class Idle(NamedTuple):
    """A rule that could not run, and the readings it lacked."""

    rule: str
    lacks: tuple[str, ...]


class Drawing(NamedTuple):
    """An SVG document. ``marked``: the findings are numbered on it as they are on the page."""

    svg: str
    marked: bool


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
    drawing: Drawing | None
    wire: str
    made_with: dict[str, str]


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
        list(_shown(told)),
        list(_idle(found)),
        found.instructions.to_customer,
        found.instructions.to_till,
        drawing(found),
        json.dumps(wire, ensure_ascii=False, indent=2),
        wire["made_with"],
    )


def drawing(found: Assessment) -> Drawing | None:
    """The check drawn as a specimen; none of a check that may not be drawn."""
    policy = found.instructions.policy
    if _masked(found):
        return None
    try:
        specimen = assess(admitted(found.read.tender, policy), policy)
        # The specimen bears another account and other names; where it is judged otherwise, nothing is marked on it.
        alike = specimen.disposition is found.disposition and _places(specimen) == _places(found)
        return Drawing(drawn(specimen, marked=alike), alike)
    except NotASpecimenError:
        return None


def _masked(found: Assessment) -> bool:
    """Whether a reading besides the line holds a number that is masked: it would be drawn as it stands."""
    face, texts = found.read.face, masking.texts(found.read)
    names = (path.partition(".")[2] for path in texts if path.startswith("face.") and path != "face.micr")
    values = ((name, getattr(face, name)) for name in names)
    return any(isinstance(value, Reading) and value.text != texts[f"face.{name}"] for name, value in values)


def _places(found: Assessment) -> list[tuple[str, tuple[str, ...]]]:
    return [(finding.rule, tuple(label.reading for label in finding.labels)) for finding in found.findings]


def _shown(told: Facts) -> Iterator[Shown]:
    first = 1
    for found in told.found:
        yield Shown(found, EFFECTS[found.effect], excerpts(found.points, first))
        first += max(1, len(found.points))  # a finding about nothing on the face has a number of its own


def _idle(found: Assessment) -> Iterator[Idle]:
    known = found.read.known
    for identifier in found.unread:
        rule = _BOOK[identifier]
        lacks = tuple(dict.fromkeys(name_of(need) for need in rule.needs if not NEEDS[need] & known))
        yield Idle(identifier, lacks)


def name_of(need: str) -> str:
    """What a reading is called that a rule needs."""
    name = need.removesuffix("_text")
    return NAMES.get(f"face.{name}") or NAMES.get(f"counter.{name}") or name.replace("_", " ")


_BOOK = {rule.id: rule for rule in rules()}
