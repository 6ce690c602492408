"""Why a drawer does not add up, by computation: every shortest set of slips that explains the difference exactly.

Checks were kept, converted and handed back; at night the drawer is counted. Each slip that is known to happen
changes the number of checks and the total by known amounts; a set of slips that sums to the difference explains
it. The shortest sets are searched, and the result says whether there is one, several, or whether the search was
stopped before it could know. Pure computation on cents: no database, no clock.

>>> kept = [Piece("a", "1043", 4510), Piece("b", "1044", 1999), Piece("c", "207", 12000)]
>>> found = explain(kept, (), (), checks=2, cents=16510)
>>> found.is_only, [(slip.kind, slip.piece.serial) for slip in found.sets[0]]
(True, [('kept-missing', '1044')])
>>> [(slip.kind, slip.counted_cents) for slip in explain(kept, (), (), checks=3, cents=18149).sets[0]]
[('transposed-digits', 4150)]
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from itertools import accumulate, islice
from typing import Final, Literal, NamedTuple

SlipKind = Literal[
    "kept-missing",
    "converted-in-drawer",
    "returned-in-drawer",
    "counted-twice",
    "amount-left-out",
    "amount-added-twice",
    "transposed-digits",
    "point-slipped",
    "amount-misread",
    "serial-differs",
    "stranger",
]

#: The longest set of slips that is looked for.
MOST_SLIPS: Final = 6
#: Sets listed before the search is content that there are many.
MOST_SETS: Final = 12
#: Steps of the search, about a second's worth.
STEPS: Final = 400_000


class Piece(NamedTuple):
    """One check as it was recorded: its id in the ledger, serial, cents, and the last four of its account."""

    id: str
    serial: str
    amount_cents: int
    account_last4: str = ""


class Slip(NamedTuple):
    """One thing that went wrong with one check, and what that does to the count and the total.

    ``counted_cents``: the amount it was counted with, where that differs. ``others``: slips it may have been as
    well, because nothing written down tells them apart.
    """

    kind: SlipKind
    piece: Piece
    checks: int
    cents: int
    counted_cents: int | None = None
    others: tuple[Slip, ...] = ()


class Explanation(NamedTuple):
    """All shortest sets of slips that sum to the difference. ``is_complete``: no set as short was left out."""

    sets: tuple[tuple[Slip, ...], ...]
    is_complete: bool

    @property
    def is_only(self) -> bool:
        """Exactly one set explains the difference, and it is known that no other does."""
        return self.is_complete and len(self.sets) == 1 and not any(slip.others for slip in self.sets[0])


def explain(
    kept: Sequence[Piece],
    converted: Sequence[Piece],
    returned: Sequence[Piece],
    *,
    checks: int,
    cents: int,
    most_slips: int = MOST_SLIPS,
    most_sets: int = MOST_SETS,
    steps: int = STEPS,
) -> Explanation:
    """What explains that *checks* and *cents* were counted where *kept* was expected.

    A single slip may be of any kind; longer sets are made of checks that are in the drawer or not (the slips of
    adding fit too easily together to prove anything). No set, and complete: nothing up to *most_slips* explains it.
    """
    target = (checks - len(kept), cents - sum(piece.amount_cents for piece in kept))
    if target == (0, 0):
        return Explanation(((),), True)
    more = [
        *(Slip("converted-in-drawer", piece, 1, piece.amount_cents) for piece in converted),
        *(Slip("returned-in-drawer", piece, 1, piece.amount_cents) for piece in returned),
        *(Slip("counted-twice", piece, 1, piece.amount_cents) for piece in kept),
    ]
    fewer = [Slip("kept-missing", piece, -1, -piece.amount_cents) for piece in kept]
    single = [*fewer, *more, *(slip for piece in kept for slip in slips_of_adding(piece))]
    if fitting := [(slip,) for slip in single if (slip.checks, slip.cents) == target]:
        return Explanation(tuple(fitting[:most_sets]), len(fitting) <= most_sets)
    budget = _Budget(steps)
    for size in range(max(2, abs(target[0])), most_slips + 1):
        if (size + target[0]) % 2:
            continue  # every slip here adds or removes one check
        found = tuple(islice(_sets(more, fewer, size, target, budget), most_sets + 1))
        if found or budget.is_spent:
            return Explanation(found[:most_sets], len(found) <= most_sets and not budget.is_spent)
    return Explanation((), True)


def slips_of_adding(piece: Piece) -> Iterator[Slip]:
    """The slips of whoever adds the checks up: the count of checks stays right, the total does not."""
    right = piece.amount_cents
    if right:
        yield Slip("amount-left-out", piece, 0, -right, 0)
        yield Slip("amount-added-twice", piece, 0, right, 2 * right)
    for wrong in sorted(transpositions(right)):
        yield Slip("transposed-digits", piece, 0, wrong - right, wrong)
    for wrong in sorted(slides(right) - transpositions(right) - {2 * right}):
        yield Slip("point-slipped", piece, 0, wrong - right, wrong)


def transpositions(cents: int) -> set[int]:
    """*cents* with two neighbouring digits exchanged, every way that changes it. Each differs by a multiple of nine."""
    digits = f"{cents:03d}"
    swapped = (digits[:i] + digits[i + 1] + digits[i] + digits[i + 2 :] for i in range(len(digits) - 1))
    return {int(other) for other in swapped} - {cents}


def slides(cents: int) -> set[int]:
    """*cents* with the point one place off, where that leaves whole cents. Each differs by a multiple of nine."""
    return ({cents * 10} | ({cents // 10} if cents % 10 == 0 else set())) - {cents}


class _Budget:
    """Steps that may still be taken; once spent, the search ends and says so."""

    def __init__(self, steps: int) -> None:
        self._left = steps

    def step(self) -> bool:
        self._left -= 1
        return self._left >= 0

    @property
    def is_spent(self) -> bool:
        return self._left < 0


def _sets(
    more: Sequence[Slip], fewer: Sequence[Slip], size: int, target: tuple[int, int], budget: _Budget
) -> Iterator[tuple[Slip, ...]]:
    """Every set of *size* slips that reaches *target*; how many of each sign follows from the count of checks."""
    plus, minus = (size + target[0]) // 2, (size - target[0]) // 2
    gains, losses = _Pool(more), _Pool(fewer)
    if plus == 0:
        yield from losses.summing_to(minus, -target[1], budget)
        return
    for lost, lost_cents in losses.combinations(minus, budget):
        for gained in gains.summing_to(plus, target[1] + lost_cents, budget):
            yield (*lost, *gained)


class _Pool:
    """Slips of one sign, sorted by the size of their amount, for subset search."""

    def __init__(self, slips: Sequence[Slip]) -> None:
        self.slips = sorted(slips, key=lambda slip: abs(slip.cents))
        self.cents = [abs(slip.cents) for slip in self.slips]
        self.sums = [0, *accumulate(self.cents)]

    def combinations(self, size: int, budget: _Budget, start: int = 0) -> Iterator[tuple[tuple[Slip, ...], int]]:
        """Every subset of *size* slips from *start* on, with its sum."""
        if size == 0:
            yield (), 0
            return
        for index in range(start, len(self.slips) - size + 1):
            if not budget.step():
                return
            for rest, cents in self.combinations(size - 1, budget, index + 1):
                yield (self.slips[index], *rest), self.cents[index] + cents

    def summing_to(self, size: int, target: int, budget: _Budget, start: int = 0) -> Iterator[tuple[Slip, ...]]:
        """Every subset of *size* (at least one) slips from *start* on whose amounts sum to *target*."""
        end = len(self.slips)
        if size == 1:
            index = bisect_left(self.cents, target, start)
            while index < end and self.cents[index] == target and budget.step():
                yield (self.slips[index],)
                index += 1
            return
        if end - start < size or self.sums[end] - self.sums[end - size] < target:
            return  # even the largest do not reach it
        for index in range(start, end - size + 1):
            if self.sums[index + size] - self.sums[index] > target or not budget.step():
                return  # from here on even the smallest are too much
            for rest in self.summing_to(size - 1, target - self.cents[index], budget, index + 1):
                yield (self.slips[index], *rest)
