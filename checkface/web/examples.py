"""Invented checks to look at: for each rule that speaks on the demo day the one that shows least else, and a sound one.

The day, its truth and its house are those of ``data/demo``. An example is called as the rule that finds its fault.
"""

from __future__ import annotations

import csv
from functools import cache
from typing import NamedTuple

from checkface import audit, tables
from checkface.assessment import assess
from checkface.findings import Disposition
from checkface.policy import Policy
from checkface.rules import rules
from checkface.tender import Tender

#: What the example without a fault is called.
SOUND = "sound"


class Example(NamedTuple):
    """One invented check and the answer to it under the policy of the house of the demo day."""

    name: str
    title: str
    family: str
    disposition: Disposition
    tender: Tender


@cache
def examples() -> dict[str, Example]:
    """The examples by name, in the order of the rule book, the sound one first."""
    folder = tables.folder() / "demo"
    house = Policy.parse((folder / "house.toml").read_text(encoding="utf-8"))
    with (folder / "saturday.csv").open("rb") as stream:
        day = {item.tender.id: item.tender for item in audit.tenders(stream) if isinstance(item, audit.Item)}
    expected: dict[str, list[Tender]] = {}
    with (folder / "saturday-truth.csv").open(encoding="utf-8", newline="") as lines:
        for row in csv.DictReader(lines):
            if row["id"] in day:
                expected.setdefault(row["rule"], []).append(day[row["id"]])
    sound = next(tender for tender in day.values() if not assess(tender, house).findings)
    found = {SOUND: Example(SOUND, "A check with nothing wrong on it.", "", Disposition.CONVERT, sound)}
    for rule in rules():
        judged = [assess(tender, house) for tender in expected.get(rule.id, ())]
        # A question that the clerk has answered already shows less of the rule than an open one.
        answers = sorted(judged, key=lambda answer: (bool(answer.read.counter.confirmed), len(answer.findings)))
        # Some faults show only beside other checks or with the past, and none of that is here.
        for answer in [each for each in answers if rule.id in {finding.rule for finding in each.findings}][:1]:
            found[rule.id] = Example(rule.id, rule.title, rule.family, answer.disposition, answer.read.tender)
    return found
