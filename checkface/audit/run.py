"""Assess tender after tender; what was skipped stays in the stream, so that it is counted and never lost."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import partial
from typing import NamedTuple

from checkface.assessment import Assessment, assess
from checkface.audit.placed import Item, Skipped, guarded
from checkface.policy import Policy
from checkface.rules.history import History


class Assessed(NamedTuple):
    """One tender of a file, assessed."""

    line: int
    assessment: Assessment
    sheet: str = ""


Result = Assessed | Skipped


def run(items: Iterable[Item | Skipped], policy: Policy, history: History | None = None) -> Iterator[Result]:
    """The assessment of every item, in order and as they come; an unforeseen fault of one item is its own.

    A fault while *items* are read ends them, told as the file's own (``Skipped.is_file``). Raises what
    :func:`~checkface.audit.placed.guarded` does.
    """
    found = iter(items)
    while (item := guarded(0, partial(next, found, None))) is not None:
        if isinstance(item, Skipped):
            yield item
        else:
            yield guarded(item.line, partial(_assessed, item, policy, history), item.sheet)


def _assessed(item: Item, policy: Policy, history: History | None) -> Assessed:
    return Assessed(item.line, assess(item.tender, policy, history), item.sheet)
