"""What would be answered differently: under another policy, or today instead of when it was recorded.

A record is one line of JSON, ``{"tender": ..., "assessment": ...}``: the tender in full, since an assessment is masked
and cannot be judged again, and the answer that was given with the digests of what it was made with.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from functools import partial
from typing import Any, NamedTuple

from checkface.assessment import Assessment, TenderError, assess, parse
from checkface.audit.placed import Item, Skipped, guarded
from checkface.audit.source import InputError, Lines, Stream
from checkface.findings import Disposition, Effect
from checkface.policy import Policy
from checkface.tender import Tender

#: What an answer was made with, as its digests are called on the wire.
MADE_WITH = ("rules", "tables", "policy")


class Answer(NamedTuple):
    """What matters of one assessment: the disposition, the rules that found something with effect, the digests."""

    disposition: Disposition
    found: Mapping[str, Effect]
    made_with: Mapping[str, str]


class Change(NamedTuple):
    """One tender answered twice. ``line`` is where it stands in its file."""

    line: int
    id: str
    before: Answer
    after: Answer

    @property
    def moved(self) -> bool:
        """Whether the disposition is another."""
        return self.before.disposition != self.after.disposition

    @property
    def reasons(self) -> tuple[str, ...]:
        """What is found now and was not, was found and is not now, or is found with another effect."""
        before, after = self.before.found, self.after.found
        came = [f"now {rule} ({after[rule]})" for rule in after if rule not in before]
        gone = [f"no longer {rule} ({before[rule]})" for rule in before if rule not in after]
        other = [
            f"{rule} was {before[rule]}, now {after[rule]}"
            for rule in after
            if rule in before and before[rule] != after[rule]
        ]
        return (*came, *gone, *other)

    @property
    def remade_with(self) -> tuple[str, ...]:
        """Which of the rules, the tables and the policy are others."""
        return tuple(part for part in MADE_WITH if self.before.made_with.get(part) != self.after.made_with.get(part))


def record(tender: Tender, assessment: Assessment) -> str:
    """One line for :func:`replay`. It holds the tender unmasked."""
    return json.dumps({"tender": tender.wire(), "assessment": assessment.model_dump()}, ensure_ascii=False)


def replay(stream: Stream, policy: Policy) -> Iterator[Change | Skipped]:
    """Judge every recorded tender again under *policy*. Raises :class:`InputError` for a file without records."""
    lines = Lines(stream)
    empty = True
    while (line := lines.take()) is not None:
        number, text = line
        if text.strip():
            empty = False
            yield guarded(number, partial(_replayed, number, text, policy))
    if empty:
        raise InputError("Expected recorded checks, read an empty file.")


def compare(items: Iterable[Item | Skipped], before: Policy, after: Policy) -> Iterator[Change | Skipped]:
    """Judge every item under both policies."""
    for item in items:
        if isinstance(item, Skipped):
            yield item
        else:
            yield guarded(item.line, partial(_compared, item, before, after), item.sheet)


def _compared(item: Item, before: Policy, after: Policy) -> Change:
    old, new = (assess(item.tender, policy) for policy in (before, after))
    return Change(item.line, old.id, _answer(old.model_dump()), _answer(new.model_dump()))


def _replayed(number: int, text: str, policy: Policy) -> Change | Skipped:
    try:
        kept = json.loads(text)
        tender = parse(kept["tender"])
        before = _answer(kept["assessment"])
    except TenderError:
        raise
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return Skipped(number, 'Expected {"tender": ..., "assessment": ...} as it was recorded, read something else.')
    again = assess(tender, policy)
    return Change(number, again.id, before, _answer(again.model_dump()))


def _answer(wire: Mapping[str, Any]) -> Answer:
    found: dict[str, Effect] = {}
    for finding in wire["findings"]:
        effect = Effect(finding["effect"])
        found[finding["rule"]] = max(effect, found.get(finding["rule"], effect))
    return Answer(Disposition(wire["disposition"]), found, wire["made_with"])
