"""Which paper in the drawer is which check of the file, as far as the numbers tell; nothing here guesses.

Two checks may be one if nothing known of both contradicts it; that more agrees of one check than of another makes it
likelier, and no more. Of all pairings, those that pair as many papers as possible count, and a check is found or is
missing only if it is so in *every* one of them; the others come back in groups (the decomposition of Dulmage and
Mendelsohn, 1958). Papers of which the same is known are one node with a number, and so are checks: a thousand alike
cost what one costs.

>>> pair({0: {10: 1}, 1: {11: 3, 12: 3}}, {0: 1, 1: 1}, {10: 1, 11: 1, 12: 1, 13: 1})
Pairing(paired={10: {0: 1}}, groups=[((11, 12), 1), ((13,), 1)], left={})
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from itertools import pairwise
from typing import Final, NamedTuple

from checkface.audit.across.sight import Sight

#: The one grade at which the numbers alone say that both are one paper.
SURE: Final = 1
#: The grade at which nothing says that they are, and nothing that they are not.
WEAK: Final = 7


def key(one: Sight) -> tuple[str, str, str, int]:
    """What is known of *one* for pairing: equal for what pairs alike."""
    return one.routing or "", _plain(one.account) or "", one.serial or "", -1 if one.amount is None else one.amount


def grade(paper: Sight, check: Sight) -> int | None:
    """How surely *paper* is *check*, 1 the surest; ``None`` if it is not, or if too little is known of both.

    The amount is not asked where routing, account and check number agree: one paper may be written down wrongly.
    Accounts are one account with and without zeros before them.
    """
    routing, account = _agree(paper.routing, check.routing), _agree(_plain(paper.account), _plain(check.account))
    serial, amount = _agree(paper.serial, check.serial), _agree(paper.amount, check.amount)
    if routing and account and serial:
        return SURE
    if False in (routing, account, serial, amount):
        return None
    steps = ((account and serial, 2), (serial and amount, 3), (account and amount, 4), (serial, 5), (amount, 6))
    return next((step for agrees, step in steps if agrees), None)


def may_be(paper: Sight, check: Sight) -> bool:
    """Whether nothing known of both says that *paper* is another than *check*."""
    known = (paper.routing, _plain(paper.account), paper.serial, paper.amount)
    return all(map(_not_unlike, known, (check.routing, _plain(check.account), check.serial, check.amount)))


def _plain(account: str | None) -> str | None:
    return account and (account.lstrip("0") or "0")


def _agree(one: object, other: object) -> bool | None:
    return None if one is None or other is None else one == other


def _not_unlike(one: object, other: object) -> bool:
    return _agree(one, other) is not False


class Pairing(NamedTuple):
    """Nodes of checks that have a paper in every pairing, with how many of which papers they have in this one;

    groups of nodes of which so many checks have none, no telling which; and how many of which papers are left over.
    """

    paired: dict[int, dict[int, int]]
    groups: list[tuple[tuple[int, ...], int]]
    left: dict[int, int]


def pair(grades: Mapping[int, Mapping[int, int]], papers: Mapping[int, int], checks: Mapping[int, int]) -> Pairing:
    """Pair so many *papers* with so many *checks* of each node; ``grades`` has the checks that each paper may be."""
    options = {
        paper: [check for _, check in sorted((step, check) for check, step in grades.get(paper, {}).items())]
        for paper in papers
    }
    order = sorted(papers, key=lambda paper: (min(grades.get(paper, {}).values(), default=0), paper))
    has, left = _matched(options, order, papers, checks)
    groups = _groups(options, has, checks)
    open_checks = {check for group, _ in groups for check in group}
    return Pairing(
        {check: dict(has[check]) for check in checks if check not in open_checks and has[check]}, groups, left
    )


_Has = defaultdict[int, dict[int, int]]


def _matched(
    options: Mapping[int, list[int]], order: Iterable[int], papers: Mapping[int, int], checks: Mapping[int, int]
) -> tuple[_Has, dict[int, int]]:
    """How many of which papers each check has in a largest pairing, earlier papers first; and how many are left."""
    has: _Has = defaultdict(dict)
    free = dict(checks)
    dead: set[int] = set()  # checks from which no free one can be reached: that stays so
    left = {}
    for paper in order:
        supply = papers[paper]
        for check in options[paper]:
            if supply and free[check] and check not in dead:
                moved = min(supply, free[check])
                has[check][paper] = moved
                free[check] -= moved
                supply -= moved
        while supply:
            path = _path(paper, options, has, free, dead)
            if not path:
                left[paper] = supply
                break
            given_up = (has[check][after] for (_, check), (after, _) in pairwise(path))
            moved = min(supply, free[path[-1][1]], *given_up)
            for (at, check), after in zip(path, [*(step[0] for step in path[1:]), None], strict=True):
                has[check][at] = has[check].get(at, 0) + moved
                if after is None:
                    free[check] -= moved
                else:
                    has[check][after] -= moved
                    if not has[check][after]:
                        del has[check][after]
            supply -= moved
    return has, left


def _path(
    paper: int, options: Mapping[int, list[int]], has: _Has, free: Mapping[int, int], dead: set[int]
) -> list[tuple[int, int]]:
    """Papers, each with the check it moves on to, from *paper* to a free check; none if there is no such way."""
    came: dict[int, int] = {}  # check to the paper it was reached from
    by: dict[int, int | None] = {paper: None}  # paper to the check that would give it up
    queue = [paper]
    while queue:
        at = queue.pop()
        for check in options[at]:
            if check in came or check in dead:
                continue
            came[check] = at
            if free[check]:
                path = []
                step: int | None = check
                while step is not None:
                    path.append((came[step], step))
                    step = by[came[step]]
                return path[::-1]
            for other in has[check]:
                if other not in by:
                    by[other] = check
                    queue.append(other)
    dead.update(came)
    return []


def _groups(
    options: Mapping[int, list[int]], has: _Has, checks: Mapping[int, int]
) -> list[tuple[tuple[int, ...], int]]:
    """Every check without a paper, with all that could be without one in its place, and how many of them are."""
    wanting: defaultdict[int, list[int]] = defaultdict(list)
    for paper, possible in options.items():
        for check in possible:
            wanting[check].append(paper)
    owned: defaultdict[int, list[int]] = defaultdict(list)
    for check, own in has.items():
        for paper in own:
            owned[paper].append(check)
    missing = {check: number - sum(has[check].values()) for check, number in checks.items()}
    root = {check: check for check in checks}

    def top(check: int) -> int:
        while root[check] != check:
            root[check] = root[root[check]]
            check = root[check]
        return check

    # Reached from a check without paper: what could change places with it.
    queue = [check for check in checks if missing[check]]
    reached = set(queue)
    group_of: dict[int, int] = {}
    while queue:
        at = queue.pop()
        for paper in wanting[at]:
            if paper in group_of:
                root[top(at)] = top(group_of[paper])
                continue
            group_of[paper] = at
            for other in owned[paper]:
                root[top(other)] = top(at)
                if other not in reached:
                    reached.add(other)
                    queue.append(other)
    members: defaultdict[int, list[int]] = defaultdict(list)
    for check in sorted(reached):
        members[top(check)].append(check)
    return sorted((tuple(group), sum(missing[check] for check in group)) for group in members.values())
