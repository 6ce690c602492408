"""What many checks show together, and what a lane did with each: for the auditor, whom no answer at a counter binds.

Against what the lane did, the paper in the drawer and declared sums, the questions need nothing but the file. To hold
the checks against one another takes an :class:`Index`, which needs the ``audit`` extra (DuckDB).

>>> import checkface as cf
>>> from checkface.audit.run import Assessed
>>> seen = Assessed(2, cf.assess({"face": {"signature": False}, "taken_as": "kept"}))
>>> across = Across()
>>> [(finding.rule, finding.message) for finding in across.add("day.csv", seen)]
[('taken-though-declined', 'Kept, but the answer is decline: signature-missing.')]
>>> list(across.finish())
[]
"""

from __future__ import annotations

from checkface.audit.across.book import RULES, AuditRule
from checkface.audit.across.found import AuditFinding, Counts, Place
from checkface.audit.across.held import Across, Thresholds
from checkface.audit.across.index import Index
from checkface.audit.across.papers import Drawer
from checkface.audit.across.totals import Declared, declared, together

__all__ = [
    "RULES", "Across", "AuditFinding", "AuditRule", "Counts", "Declared", "Drawer", "Index", "Place", "Thresholds",
    "declared", "together",
]  # fmt: skip


def rules() -> tuple[AuditRule, ...]:
    """Every rule for the auditor, in the order in which they are listed."""
    return tuple(RULES.values())
