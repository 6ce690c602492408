"""Instructions for the clean tender with a few things changed, under a decision of one's own choosing."""

from __future__ import annotations

from datetime import time
from typing import Any

from clean_tender import patched

from checkface.decision import Decision
from checkface.findings import Disposition, Effect, Finding, Remedy
from checkface.handling import Agency, Instructions, Printing, handle
from checkface.policy import Policy
from checkface.reading import read
from checkface.rules import Examination
from checkface.tender import Tender

HOUSE = Policy.parse(
    """
    state = "IL"
    [payee]
    names = ["Quillfeather Grocery"]
    [house]
    name = "Quillfeather Grocery"
    telephone = "217-555-0100"
    location = "Store 0007"
    city = "Springfield"
    """
)
AGENCY = Agency("Example Reports", "1 Example Plaza, Springfield IL", "800-555-0199")
LANE = Printing(at=time(10, 32), initials="QF", customer_telephone="217-555-0142", pad="up")
#: A rule of each effect that every book has, for decisions made by hand.
RULE = {"keep": "network-down", "refer": "reading-not-taken", "decline": "conversion-not-accepted-here"}


def finding(effect: str, rule: str | None = None, remedy: Remedy = Remedy.NONE) -> Finding:
    """A finding made by hand."""
    return Finding(rule or RULE[effect], Effect(effect), f"Found: {effect}.", (), ("house-policy",), remedy)


def made(
    disposition: str,
    patch: dict[str, Any] | None = None,
    *,
    policy: Policy = HOUSE,
    printing: Printing = LANE,
    agency: Agency | None = None,
    findings: tuple[Finding, ...] | None = None,
) -> Instructions:
    """Instructions for the clean tender with *patch* under *disposition*."""
    if findings is None:
        findings = () if disposition == "convert" else (finding(disposition),)
    found = read(Tender.model_validate(patched(patch or {})))
    decision = Decision(Disposition(disposition), Examination(findings, {}, found, policy), policy.digest)
    return handle(decision, found, policy, printing, agency)


def does(instructions: Instructions) -> list[str]:
    """What is done, in order."""
    return [step.does for step in instructions.steps]


def step(instructions: Instructions, name: str) -> Any:
    """The one step called *name*."""
    (found,) = (step for step in instructions.steps if step.does == name)
    return found
