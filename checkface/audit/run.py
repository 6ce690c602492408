"""Assess tender after tender; what was skipped stays in the stream, so that it is counted and never lost."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from checkface.assessment import Assessment, assess
from checkface.audit.items import Item, Skipped
from checkface.policy import Policy
from checkface.rules.history import History


class Assessed(NamedTuple):
    """One tender of a file, assessed."""

    line: int
    assessment: Assessment
    sheet: str = ""


Result = Assessed | Skipped


def run(items: Iterable[Item | Skipped], policy: Policy, history: History | None = None) -> Iterator[Result]:
    """The assessment of every item, in order and as they come. Raises ``PolicyError`` as ``checkface.assess`` does."""
    for item in items:
        if isinstance(item, Skipped):
            yield item
        else:
            yield Assessed(item.line, assess(item.tender, policy, history), item.sheet)
