"""The rule book as text and as JSON: one rule explained, or all of them in a table.

The rules for the auditor stand above this floor and have the same shape, :class:`Explained`.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby
from typing import Any, Protocol

from checkface import authority
from checkface.authority import Force
from checkface.findings import Effect, Remedy
from checkface.report.drawing import Paint, no_paint
from checkface.report.facts import REMEDIES, source
from checkface.rules.registry import HEADINGS

#: What each effect does to the answer.
EFFECTS = {
    Effect.NOTE: "is written down and changes nothing",
    Effect.KEEP: "bars conversion; the paper may be kept and deposited",
    Effect.REFER: "calls for a manager",
    Effect.DECLINE: "bars taking the check",
}
#: What the effects of the rules for the auditor mean.
AUDITED = {Effect.NOTE: "is worth a look", Effect.REFER: "somebody has to look into it"}


#: The family of the rules for the auditor, whose effects are never part of an answer.
AUDIT = "audit"


class Explained(Protocol):
    """A rule as far as it is explained: one of the book, or one for the auditor."""

    @property
    def id(self) -> str: ...
    @property
    def family(self) -> str: ...
    @property
    def title(self) -> str: ...
    @property
    def effect(self) -> Effect: ...
    @property
    def lowest_effect(self) -> Effect: ...
    @property
    def force(self) -> Force: ...
    @property
    def remedy(self) -> Remedy: ...
    @property
    def asks_clerk(self) -> bool: ...
    @property
    def needs(self) -> tuple[str, ...]: ...
    @property
    def explanation(self) -> Mapping[str, str]: ...
    @property
    def authority(self) -> tuple[str, ...]: ...


def entry(rule: Explained) -> dict[str, Any]:
    """One rule, JSON-ready."""
    return {
        "id": rule.id,
        "family": rule.family,
        "title": rule.title,
        "effect": str(rule.effect),
        "lowest_effect": str(rule.lowest_effect),
        "force": str(rule.force),
        "remedy": str(rule.remedy),
        "asks_clerk": rule.asks_clerk,
        "needs": list(rule.needs),
        "explanation": {heading: rule.explanation[heading] for heading in HEADINGS},
        "authority": [
            {
                "id": found.id,
                "citation": found.citation,
                "title": found.title,
                "edition": found.edition,
                "force": str(found.force),
                "basis": found.basis,
            }
            for found in map(authority.get, rule.authority)
        ],
    }


def facts_of(rule: Explained) -> list[tuple[str, str]]:
    """What stands under the explanation: heading and sentence."""
    if rule.family == AUDIT:
        return [
            ("Effect", f"{rule.effect}: {AUDITED[rule.effect]}. It changes the answer for no check."),
            ("Needs", f"{', '.join(rule.needs)}; what it cannot be asked of is counted."),
        ]
    needs = ", ".join(need.removesuffix("_text").replace("_", " ") for need in rule.needs)
    policy = (
        f"No house may make it milder than {rule.lowest_effect}."
        if rule.lowest_effect > Effect.NOTE
        else "A house may give it any effect."
    )
    return [
        ("Effect", f"{rule.effect}: {EFFECTS[rule.effect]}. {policy}"),
        ("Remedy", f"{REMEDIES[rule.remedy].capitalize()}."),
        ("Needs", f"{needs}; it does not run on a check that lacks them." if needs else "nothing: it always runs."),
    ]


def explain(rule: Explained, *, columns: int = 100, paint: Paint = no_paint) -> str:
    """One rule under its headings. Ends without a line end."""
    page = [f"{paint(rule.id, 'rule')}  {paint(rule.effect, rule.effect)}", *_indented(rule.title, columns)]
    for heading, words in (*rule.explanation.items(), *facts_of(rule)):
        if heading != "title":
            page += ["", heading, *_indented(words, columns)]
    page += ["", "Authority"]
    for identifier in rule.authority:
        page += _indented(source(identifier), columns)
    return "\n".join(page)


def table(rules: Sequence[Explained], *, columns: int = 100, paint: Paint = no_paint) -> str:
    """All *rules* by family: id, effect, force of the authority, and the fault in a sentence. No line end follows."""
    margin = max((len(rule.id) for rule in rules), default=0)
    page: list[str] = []
    for family, members in groupby(rules, key=lambda rule: rule.family):
        page += ["", family_name(family)]
        for rule in members:
            head = f"  {rule.id:{margin}}  {rule.effect:7}  {rule.force:8}  "
            painted = f"  {rule.id:{margin}}  {paint(f'{rule.effect:7}', rule.effect)}  {rule.force:8}  "
            lines = textwrap.wrap(rule.title, max(columns - len(head), 20)) or [""]
            page += [painted + lines[0], *(" " * len(head) + line for line in lines[1:])]
    return "\n".join(page).lstrip("\n")


def family_name(family: str) -> str:
    """What a family of rules is called."""
    return family.replace("_", " ").replace("micr", "MICR").capitalize().replace("Micr", "MICR")


def _indented(words: str, columns: int) -> Iterator[str]:
    return iter(textwrap.wrap(words, columns, initial_indent="  ", subsequent_indent="  ", break_on_hyphens=False))
