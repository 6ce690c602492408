"""The items of a file added up by store, lane and what was done with them; and what explains a difference.

One slip is looked for, with its check: one the declaration lacks, or has twice, or has among those taken another way,
or with two neighbouring digits exchanged, or with the point one place off. Where several fit, all are named: the more
there are, the likelier is coincidence.
"""

from __future__ import annotations

from array import array
from collections import defaultdict
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from checkface.amounts import money
from checkface.audit.across.found import AuditFinding, Counts, Place, found, listed
from checkface.audit.across.sight import AMOUNTLESS, UNKNOWN, Sight
from checkface.audit.across.totals import WAYS, Declared, totals_disagree

_RULE = "totals-disagree"


class _Group:
    """The items of one store, lane and way: the amounts of those that have one, and where each stands."""

    def __init__(self) -> None:
        self.cents = array("q")
        self.places: list[Place] = []
        self.amountless = 0


class Sums:
    """What was declared, and the items it is held against."""

    def __init__(self, declarations: Sequence[Declared]) -> None:
        self.skipped = 0  # rows of the file that could not be read
        self._said = declarations
        self._groups: defaultdict[tuple[str | None, str, str], _Group] = defaultdict(_Group)

    def add(self, check: Sight, counts: Counts) -> None:
        """One more item."""
        group = self._groups[check.taken, check.store, check.lane]
        if check.amount is None:
            group.amountless += 1
        else:
            group.cents.append(check.amount)
            group.places.append(check.place)
        if check.taken is None:
            counts.unread[_RULE][UNKNOWN] += 1
        elif check.amount is None:
            counts.unread[_RULE][AMOUNTLESS] += 1
        else:
            counts.asked[_RULE] += 1

    def findings(self, counts: Counts) -> Iterator[AuditFinding]:
        """One finding for each declaration that the items do not bear out."""
        for said in self._said:
            groups = self._of(said, said.way)
            cents = sum(sum(group.cents) for group in groups)
            checks = sum(len(group.cents) + group.amountless for group in groups)
            slips = list(self._slips(said, cents, checks))
            why = "" if said.cents in {None, cents} or self.skipped else _said(slips)
            message = totals_disagree(said, checks, cents, " ".join(filter(None, (why, self._lacking(said, groups)))))
            if message is not None:
                yield counts.add(found(_RULE, message, [place for slip in slips for place in slip.places]))

    def _of(self, said: Declared, way: str | None) -> list[_Group]:
        return [
            group
            for (taken, store, lane), group in self._groups.items()
            if taken == way and said.store in {"", store} and said.lane in {"", lane}
        ]

    def _lacking(self, said: Declared, groups: Sequence[_Group]) -> str:
        """What the sum cannot know of."""
        amountless = sum(group.amountless for group in groups)
        unknown = sum(len(group.cents) + group.amountless for group in self._of(said, None))
        parts = [f"{amountless} of them without an amount" if amountless else ""]
        parts += [f"of {unknown} more nothing says what was done with them" if unknown else ""]
        parts += [f"{self.skipped:,} row{'s' * (self.skipped != 1)} skipped" if self.skipped else ""]
        return f"Not in the sum: {', '.join(filter(None, parts))}." if any(parts) else ""

    def _slips(self, said: Declared, cents: int, checks: int) -> Iterator[_Slip]:
        """Everything that explains the difference by one check."""
        if said.cents is None or self.skipped:
            return
        off = said.cents - cents
        more = None if said.checks is None else said.checks - checks
        own = self._of(said, said.way)
        if off < 0 and more in {None, -1}:
            yield from _with(-off, own, "the declaration lacks")
        if off < 0 and more == 0:
            yield from _with(-off, own, "the declaration counts but does not add")
        if off > 0 and more in {None, 1}:
            for way in WAYS:
                if way != said.way:
                    yield from _with(off, self._of(said, way), f"recorded as {way} and declared here")
            yield from _with(off, own, "declared twice")
        if off and off % 9 == 0 and more in {None, 0}:
            yield from _exchanged(off, own)


class _Slip(NamedTuple):
    words: str
    places: tuple[Place, ...]


def _with(cents: int, groups: Sequence[_Group], words: str) -> Iterator[_Slip]:
    places = [p for group in groups for p, own in zip(group.places, group.cents, strict=True) if own == cents]
    if places:
        yield _Slip(f"{words} the {money(cents)} of {listed(places)}", tuple(sorted(places)))


def _exchanged(off: int, groups: Sequence[_Group]) -> Iterator[_Slip]:
    """Items whose amount, with two neighbouring digits exchanged or the point one place off, is off by *off*."""
    at: defaultdict[int, list[Place]] = defaultdict(list)
    for group in groups:
        for place, cents in zip(group.places, group.cents, strict=True):
            if cents + off in _variants(cents):
                at[cents].append(place)
    for cents, places in sorted(at.items()):
        words = f"{money(cents + off)} declared for the {money(cents)} of {listed(places)}"
        yield _Slip(words, tuple(sorted(places)))


def _variants(cents: int) -> set[int]:
    digits = f"{cents:03d}"
    exchanged = {int(digits[:i] + digits[i + 1] + digits[i] + digits[i + 2 :]) for i in range(len(digits) - 1)}
    return (exchanged | {cents * 10} | ({cents // 10} if cents % 10 == 0 else set())) - {cents}


def _said(slips: Sequence[_Slip]) -> str:
    if not slips:
        return "No single check explains it."
    one = len(slips) == 1 and len(slips[0].places) == 1
    return (
        f"{'One check explains it' if one else 'Any one of these explains it'}: {'; or '.join(s.words for s in slips)}."
    )
