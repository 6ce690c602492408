"""The rule book: every rule on every tender, each with an outcome.

``examine`` runs all rules; :func:`rules` lists them. Adding a rule: see DEVELOPERS.md.
"""

from __future__ import annotations

from checkface.rules import counter as _counter  # noqa: F401
from checkface.rules.engine import Examination, catalogue, check_effects, examine
from checkface.rules.registry import Case, Hit, Rule

__all__ = ["Case", "Examination", "Hit", "Rule", "catalogue", "check_effects", "examine"]
