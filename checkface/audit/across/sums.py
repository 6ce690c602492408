"""The items of a file added up by store, lane and what was done with them; and what explains a difference.

One slip is looked for, with its check: one the declaration lacks, or has twice, or has among those taken another way,
or with one digit misread, two neighbouring digits exchanged, or the point one place off. Where several fit, all are
named, or counted where they are many: the more there are, the likelier is coincidence.
"""

from __future__ import annotations

from array import array
from collections import defaultdict
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from checkface.amounts import money
from checkface.audit.across.found import NAMED, AuditFinding, Counts, Place, found, listed
from checkface.audit.across.sight import AMOUNTLESS, UNKNOWN, Sight
from checkface.audit.across.totals import WAYS, Declared, plain, totals_disagree

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
        group = self._groups[check.taken, plain(check.store), plain(check.lane)]
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
            lacking = self._lacking(said, groups)
            why = (
                ""
                if said.cents in {None, cents} or self.skipped
                else _said(slips, "may explain" if lacking else "explains")
            )
            message = totals_disagree(said, checks, cents, " ".join(filter(None, (why, lacking))))
            if message is not None:
                yield counts.add(found(_RULE, message, [place for slip in slips for place in slip.places]))

    def _of(self, said: Declared, way: str | None) -> list[_Group]:
        return [
            group
            for (taken, store, lane), group in self._groups.items()
            if taken == way and self._is_of(said, store, lane)
        ]

    @staticmethod
    def _is_of(said: Declared, store: str, lane: str) -> bool:
        return plain(said.store) in {"", store} and plain(said.lane) in {"", lane}

    def _lacking(self, said: Declared, groups: Sequence[_Group]) -> str:
        """What the sum cannot know of."""
        amountless = sum(group.amountless for group in groups)
        unknown = sum(len(group.cents) + group.amountless for group in self._of(said, None))
        parts = [f"{amountless} of them without an amount" if amountless else ""]
        parts += [f"of {unknown} more nothing says what was done with them" if unknown else ""]
        parts += [f"{self.skipped:,} row{'s' * (self.skipped != 1)} skipped" if self.skipped else ""]
        lacking = f"Not in the sum: {', '.join(filter(None, parts))}." if any(parts) else ""
        if said.where and not any(self._is_of(said, store, lane) for _, store, lane in self._groups):
            return " ".join(filter(None, (f"No check of the file is of {said.where}.", lacking)))
        return lacking

    def _slips(self, said: Declared, cents: int, checks: int) -> Iterator[_Slip]:
        """The usual slips of one check that explain the difference."""
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
        if off > 0 and more == 0:
            yield from _with(off, own, "the declaration counts once but adds twice")
        if off and more in {None, 0}:
            yield from _misread(off, own)


class _Slip(NamedTuple):
    words: str
    places: tuple[Place, ...]


def _with(cents: int, groups: Sequence[_Group], words: str) -> Iterator[_Slip]:
    places = [p for group in groups for p, own in zip(group.places, group.cents, strict=True) if own == cents]
    if places:
        yield _Slip(f"{words} the {money(cents)} of {listed(places)}", tuple(sorted(places)))


def _misread(off: int, groups: Sequence[_Group]) -> Iterator[_Slip]:
    """Items whose amount is off by *off* with one digit misread, two exchanged or the point one place off."""
    at: defaultdict[int, list[Place]] = defaultdict(list)
    for group in groups:
        for place, cents in zip(group.places, group.cents, strict=True):
            if _is_misread(cents, cents + off):
                at[cents].append(place)
    if len(at) > NAMED:
        yield _Slip(f"one digit misread of any of {sum(map(len, at.values())):,} checks", ())
        return
    for cents, places in sorted(at.items()):
        words = f"{money(cents + off)} declared for the {money(cents)} of {listed(places)}"
        yield _Slip(words, tuple(sorted(places)))


def _is_misread(cents: int, other: int) -> bool:
    """Whether *other* is *cents* with one digit changed, two neighbours exchanged or the point one place off."""
    if other < 0:
        return False
    if other == cents * 10 or cents == other * 10:
        return True
    one, two = f"{cents:03d}", f"{other:03d}"
    if len(one) != len(two):
        return _is_exchanged(one.zfill(len(two)), two.zfill(len(one)))
    return sum(a != b for a, b in zip(one, two, strict=True)) == 1 or _is_exchanged(one, two)


def _is_exchanged(one: str, two: str) -> bool:
    apart = [n for n, (a, b) in enumerate(zip(one, two, strict=True)) if a != b]
    if len(apart) != 2 or apart[1] != apart[0] + 1:
        return False
    at = slice(apart[0], apart[1] + 1)
    return one[at] == two[at][::-1]


def _said(slips: Sequence[_Slip], explains: str) -> str:
    if not slips:
        return "None of the usual slips of one check explains it."
    which = "One check" if len(slips) == 1 and len(slips[0].places) == 1 else "Any one of these"
    return f"{which} {explains} it: {'; or '.join(slip.words for slip in slips)}."
