"""Which paper in the drawer is which check of the file, as far as the numbers tell; nothing here guesses.

Two checks may be one if nothing known of both contradicts it. How surely they are depends on what agrees; of the checks
a paper may be, it is held to those that agree with it best. Where that still leaves a choice, as many papers as
possible are paired (augmenting paths, surest papers first), and a check counts as found or as missing only if it is so
in *every* such pairing; the others come back in groups (the decomposition of Dulmage and Mendelsohn, 1958).

>>> pair({0: {10: 1}, 1: {11: 3, 12: 3}}, [10, 11, 12, 13])
Pairing(paired={10: 0}, groups=[((11, 12), 1), ((13,), 1)], left=[])
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from typing import Final, NamedTuple

from checkface.audit.across.sight import Sight

#: The one grade at which the numbers alone say that both are one paper.
SURE: Final = 1


def grade(paper: Sight, check: Sight) -> int | None:
    """How surely *paper* is *check*, 1 the surest; ``None`` if it is not, or if too little is known of both.

    The amount is not asked where routing, account and check number agree: one paper may be written down wrongly.
    """
    routing, account = _agree(paper.routing, check.routing), _agree(paper.account, check.account)
    serial, amount = _agree(paper.serial, check.serial), _agree(paper.amount, check.amount)
    if routing and account and serial:
        return SURE
    if False in (routing, account, serial, amount):
        return None
    steps = ((account and serial, 2), (serial and amount, 3), (account and amount, 4), (serial, 5), (amount, 6))
    return next((step for agrees, step in steps if agrees), None)


def may_be(paper: Sight, check: Sight) -> bool:
    """Whether nothing known of both says that *paper* is another than *check*."""
    known = (paper.routing, paper.account, paper.serial, paper.amount)
    return all(map(_not_unlike, known, (check.routing, check.account, check.serial, check.amount)))


def _agree(one: object, other: object) -> bool | None:
    return None if one is None or other is None else one == other


def _not_unlike(one: object, other: object) -> bool:
    return _agree(one, other) is not False


class Pairing(NamedTuple):
    """Papers and checks by number: checks that have their paper in every pairing, with the one they have in this one;

    groups of checks of which so many have none, no telling which; and papers that are left over.
    """

    paired: dict[int, int]
    groups: list[tuple[tuple[int, ...], int]]
    left: list[int]


def pair(grades: Mapping[int, Mapping[int, int]], checks: Iterable[int]) -> Pairing:
    """Pair papers with *checks*; ``grades`` has for each paper the grade of every check it may be."""
    surest = {paper: min(options.values(), default=0) for paper, options in grades.items()}
    best = {
        paper: sorted(check for check, step in options.items() if step == surest[paper])
        for paper, options in grades.items()
    }
    of_check, left = _matched(best, sorted(best, key=lambda paper: (surest[paper], paper)))
    groups = _groups(best, of_check, checks)
    open_checks = {check for group, _ in groups for check in group}
    return Pairing({check: paper for check, paper in of_check.items() if check not in open_checks}, groups, left)


def _matched(best: Mapping[int, list[int]], order: Iterable[int]) -> tuple[dict[int, int], list[int]]:
    """A largest pairing as check to paper, earlier papers first; and the papers it leaves out."""
    of_check: dict[int, int] = {}
    of_paper: dict[int, int] = {}
    dead: set[int] = set()  # checks from which no free one can be reached: that stays so
    left = []
    for paper in order:
        came: dict[int, int] = {}  # check to the paper it was reached from
        queue, free = [paper], None
        while queue and free is None:
            at = queue.pop()
            for check in best[at]:
                if check in came or check in dead:
                    continue
                came[check] = at
                if check not in of_check:
                    free = check
                    break
                queue.append(of_check[check])
        if free is None:
            dead.update(came)
            left.append(paper)
        while free is not None:
            at = came[free]
            given_up = of_paper.get(at)
            of_check[free], of_paper[at] = at, free
            free = given_up
    return of_check, left


def _groups(
    best: Mapping[int, list[int]], of_check: Mapping[int, int], checks: Iterable[int]
) -> list[tuple[tuple[int, ...], int]]:
    """Every check without a paper, with all that could be without one in its place, and how many of them are."""
    wanting: defaultdict[int, list[int]] = defaultdict(list)
    for paper, options in best.items():
        for check in options:
            wanting[check].append(paper)
    of_paper = {paper: check for check, paper in of_check.items()}
    group_of: dict[int, int] = {}
    members: dict[int, list[int]] = {}
    missing: dict[int, int] = {}
    for check in sorted(checks):
        if check in of_check:
            continue
        # Reached from a check without paper: what could change places with it.
        members[check], missing[check] = [], 1
        queue = [check]
        group_of[check] = check
        while queue:
            at = queue.pop()
            members[check].append(at)
            for paper in wanting[at]:
                other = of_paper[paper]
                if other not in group_of:
                    group_of[other] = check
                    queue.append(other)
                elif (old := group_of[other]) != check:
                    for moved in members[old]:
                        group_of[moved] = check
                    members[check] += members.pop(old)
                    missing[check] += missing.pop(old)
    return sorted((tuple(sorted(group)), missing[start]) for start, group in members.items())
