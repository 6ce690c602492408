"""The rule book as text and as JSON: one rule explained, or all of them in a table."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Any

from checkface import authority
from checkface.findings import Effect
from checkface.report.drawing import Paint, no_paint
from checkface.report.facts import REMEDIES, source
from checkface.rules import Rule
from checkface.rules.registry import HEADINGS

#: What each effect does to the answer.
EFFECTS = {
    Effect.NOTE: "is written down and changes nothing",
    Effect.KEEP: "bars conversion; the paper may be kept and deposited",
    Effect.REFER: "calls for a manager",
    Effect.DECLINE: "bars taking the check",
}


def entry(rule: Rule) -> dict[str, Any]:
    """One rule, JSON-ready."""
    return {
        "id": rule.id,
        "family": rule.family,
        "title": rule.title,
        "effect": str(rule.effect),
        "lowest_effect": str(rule.lowest_effect),
        "force": str(rule.force),
        "remedy": str(rule.remedy),
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


def facts_of(rule: Rule) -> list[tuple[str, str]]:
    """What stands under the explanation: heading and sentence."""
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


def explain(rule: Rule, *, columns: int = 100, paint: Paint = no_paint) -> str:
    """One rule under its headings. Ends without a line end."""
    page = [f"{paint(rule.id, 'rule')}  {paint(rule.effect, rule.effect)}", *_indented(rule.title, columns)]
    for heading, words in (*rule.explanation.items(), *facts_of(rule)):
        if heading != "title":
            page += ["", heading, *_indented(words, columns)]
    page += ["", "Authority"]
    for identifier in rule.authority:
        page += _indented(source(identifier), columns)
    return "\n".join(page)


def table(rules: Sequence[Rule], *, columns: int = 100, paint: Paint = no_paint) -> str:
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
