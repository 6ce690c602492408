"""The rules for the auditor, each with its effect, its authority and its explanation.

They are asked of many checks together, or of one check and what the lane did with it. What they find is for the
auditor: it changes the answer for no check, and no policy changes its effect. An explanation has the headings of the
rule book, whose shape an :class:`AuditRule` shares, so that one renderer shows both.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple, TypeVar

from checkface.authority import Force, get
from checkface.findings import Effect, Remedy
from checkface.rules.registry import parse_explanation

FAMILY = "audit"


class AuditRule(NamedTuple):
    """One rule for the auditor. ``needs`` says in words without what it cannot be asked."""

    id: str
    effect: Effect
    authority: tuple[str, ...]
    needs: tuple[str, ...]
    explanation: dict[str, str]

    @property
    def family(self) -> str:
        """What the rules for the auditor are listed under."""
        return FAMILY

    @property
    def title(self) -> str:
        """The first sentence: the fault the rule is named after."""
        return self.explanation["title"]

    @property
    def force(self) -> Force:
        """The force of the first authority, on which the effect rests."""
        return get(self.authority[0]).force

    @property
    def lowest_effect(self) -> Effect:
        """Its effect: a house policy speaks of the counter, not of its audit."""
        return self.effect

    @property
    def remedy(self) -> Remedy:
        """None: the customer has gone."""
        return Remedy.NONE

    @property
    def asks_clerk(self) -> bool:
        """Never: the lane has closed."""
        return False


#: Every rule for the auditor by id, in the order in which they are listed.
RULES: dict[str, AuditRule] = {}

_Ask = TypeVar("_Ask", bound=Callable[..., object])


def rule(identifier: str, effect: Effect, *, by: str, needs: str) -> Callable[[_Ask], _Ask]:
    """Register the decorated function as the rule *identifier*; its docstring is the explanation.

    ``by`` are ids of authorities between blanks, ``needs`` words between commas. Raises ``ValueError`` for an id used
    twice and for an explanation without its headings.
    """

    def register(ask: _Ask) -> _Ask:
        if identifier in RULES:
            raise ValueError(f"Expected a new rule id, read {identifier!r} a second time.")
        words = parse_explanation(identifier, ask.__doc__ or "")
        needed = tuple(need.strip() for need in needs.split(","))
        RULES[identifier] = AuditRule(identifier, effect, tuple(by.split()), needed, words)
        return ask

    return register
