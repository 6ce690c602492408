"""The rule book: every rule on every tender, each with an outcome.

``examine`` runs all rules; :func:`rules` lists them in the order in which they are asked and reported. How to add one:
DEVELOPERS.md.
"""

from __future__ import annotations

import sys
from types import ModuleType

from checkface.rules import age as _age  # noqa: F401
from checkface.rules import amounts as _amounts  # noqa: F401
from checkface.rules import counter as _counter  # noqa: F401
from checkface.rules import dates as _dates  # noqa: F401
from checkface.rules import drawer as _drawer  # noqa: F401
from checkface.rules import fraction as _fraction  # noqa: F401
from checkface.rules import holder as _holder  # noqa: F401
from checkface.rules import identity as _identity  # noqa: F401
from checkface.rules import kinds as _kinds  # noqa: F401
from checkface.rules import limits as _limits  # noqa: F401
from checkface.rules import micr_line as _micr_line  # noqa: F401
from checkface.rules import micr_marks as _micr_marks  # noqa: F401
from checkface.rules import own_terms as _own_terms  # noqa: F401
from checkface.rules import parties as _parties  # noqa: F401
from checkface.rules import payee as _payee  # noqa: F401
from checkface.rules import pillars as _pillars  # noqa: F401
from checkface.rules import records as _records  # noqa: F401
from checkface.rules import routing as _routing  # noqa: F401
from checkface.rules import wording as _wording  # noqa: F401
from checkface.rules.engine import (
    Examination,
    book_digest,
    check_confirmed,
    check_effects,
    check_policy,
    examine,
    rules,
)
from checkface.rules.pillars import PILLARS, Rest, earned
from checkface.rules.registry import Case, Hit, Rule

__all__ = [
    "PILLARS",
    "Case",
    "Examination",
    "Hit",
    "Rest",
    "Rule",
    "book_digest",
    "check_confirmed",
    "check_effects",
    "check_policy",
    "earned",
    "examine",
    "rules",
]


class _Book(ModuleType):
    """``checkface.rules`` names this room and the function that lists its rules; whichever was imported first, it is
    both (a module may be of a class of its own, Python Language Reference 3.3.2)."""

    def __call__(self) -> tuple[Rule, ...]:
        """Every rule; see :func:`checkface.rules.engine.rules`."""
        return rules()


sys.modules[__name__].__class__ = _Book
