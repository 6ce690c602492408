"""What the tests across checks share: one item with anything about it changed, and the questions asked of a few."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any

from clean_tender import house, patched

import checkface as cf
from checkface.audit import Assessed
from checkface.audit.across import AuditFinding, Counts, Index, Place, Thresholds, layout, near, runs, same
from checkface.audit.across.sight import Layout, Sight

LAYOUT = Layout("account, check number", 4, False)
ITEM = Sight(
    Place("day.csv", 2, "0001"), "kept", "071098973", "45601122", "1043", 4510, date(2026, 11, 24), date(2026, 11, 24),
    "quill", "7", "3", LAYOUT,
)  # fmt: skip


def item(line: int, **changed: Any) -> Sight:
    """The item on one *line* of the file, with its own id."""
    file = changed.pop("file", "day.csv")
    return ITEM._replace(place=Place(file, line, f"{line:04d}"), **changed)


def asked(items: Iterable[Sight], limits: Thresholds | None = None) -> tuple[list[AuditFinding], Counts]:
    """What the checks show when they are held against one another, by rule and place."""
    limits, counts = limits or Thresholds(), Counts()
    with Index() as index:
        for one in items:
            index.add(one)
        found = [
            *same.ask(index, counts), *near.ask(index, counts),
            *runs.ask(index, counts, accounts=limits.accounts, sequence=limits.sequence),
            *layout.ask(index, counts, witnesses=limits.witnesses),
        ]  # fmt: skip
    return sorted(found, key=lambda one: (one.rule, one.places, one.message)), counts


def said(items: Iterable[Sight], rule: str, limits: Thresholds | None = None) -> list[str]:
    """The messages of one rule."""
    return [found.message for found in asked(items, limits)[0] if found.rule == rule]


def seen(line: int = 2, **changed: Any) -> Assessed:
    """One assessed tender; keyword ``a__b`` changes ``a.b``."""
    patch = {path.replace("__", "."): value for path, value in changed.items()}
    return Assessed(line, cf.assess(patched(patch), house()))
