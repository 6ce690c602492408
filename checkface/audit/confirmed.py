"""Questions answered with yes, by lane and employee, and who answers unlike everyone else.

A question (:attr:`checkface.Finding.question`) is settled by one look of the clerk, and nothing but the clerk's word
stays of it. Somebody who presses yes without looking answers far more of them than the others, who see the same
customers. Compared are checks with at least one yes: those of one, against all others together. The chance is the upper
tail of the hypergeometric distribution (one-sided exact test of Fisher, The Design of Experiments, 1935): so many or
more, if the yeses of all had fallen among the checks without regard to who took them.

>>> f"{chance(4, 4, 4, 8):.6f}"  # the lady tasting tea: one of 70 ways
'0.014286'
>>> of = Confirmations()
>>> for number in range(400):
...     of.add("7", "3", "112" if number < 40 else "111", confirmed=number % 4 == 0 and number < 48)
>>> [(one.name, one.yes, one.checks, round(one.expected, 1), one.stands_out) for one in of.employees()]
[('store 7, employee 112', 10, 40, 0.2, True), ('store 7, employee 111', 2, 360, 90.0, False)]
"""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterator
from typing import NamedTuple

from checkface import masking
from checkface.cells import shown

#: So many checks with a yes make a pattern at the least.
LEAST = 5
#: How seldom an audit may mark somebody who answers like the others; shared by all who are compared.
SELDOM = 1 / 1000
#: Lines of a table, unless all are asked for; more digits than these in a name are masked.
MOST, LONGEST = 20, 10


class Share(NamedTuple):
    """One lane or employee: checks taken, those of them with a yes, and how many there would be by the others' share.

    ``stands_out``: there are at least :data:`LEAST`, and so many by chance less often than :data:`SELDOM` allows.
    """

    store: str
    who: str
    called: str
    checks: int
    yes: int
    expected: float
    stands_out: bool

    @property
    def name(self) -> str:
        """``store 7, employee 112``; a number too long for either is masked."""
        parts = (("store", self.store), (self.called, self.who))
        return ", ".join(f"{what} {_name(text)}" for what, text in parts if text)


def chance(yes: int, checks: int, all_yes: int, everything: int) -> float:
    """How likely at least *yes* of *checks* are, if *all_yes* fell among *everything* by lot."""
    most = min(checks, all_yes)
    if yes <= max(0, checks + all_yes - everything):
        return 1.0
    if yes > most:
        return 0.0
    term = math.exp(_ways(all_yes, yes) + _ways(everything - all_yes, checks - yes) - _ways(everything, checks))
    total = 0.0
    for number in range(yes, most + 1):
        total += term
        above = (all_yes - number) * (checks - number)
        term *= above / ((number + 1) * (everything - all_yes - checks + number + 1))
    return min(total, 1.0)


def _ways(of: int, some: int) -> float:
    """The logarithm of the ways to choose *some* of *of*."""
    return math.lgamma(of + 1) - math.lgamma(some + 1) - math.lgamma(of - some + 1)


class Confirmations:
    """Checks and yeses by lane and by employee, each within its store."""

    def __init__(self) -> None:
        self._checks: defaultdict[str, Counter[tuple[str, str]]] = defaultdict(Counter)
        self._yes: defaultdict[str, Counter[tuple[str, str]]] = defaultdict(Counter)

    def add(self, store: str, lane: str, employee: str, *, confirmed: bool) -> None:
        """Count one check; a lane or an employee that is not named is not counted."""
        for called, who in (("lane", lane.strip()), ("employee", employee.strip())):
            if who:
                self._checks[called][store.strip(), who] += 1
                self._yes[called][store.strip(), who] += confirmed

    def lanes(self) -> list[Share]:
        """The lanes that took a check with a yes, most of them first."""
        return self._shares("lane")

    def employees(self) -> list[Share]:
        """The employees who took a check with a yes, most of them first."""
        return self._shares("employee")

    def _shares(self, called: str) -> list[Share]:
        checks, yeses = self._checks[called], self._yes[called]
        everything, all_yes = checks.total(), yeses.total()
        shares = []
        for (store, who), yes in yeses.items():
            if not yes:
                continue
            number = checks[store, who]
            others = everything - number
            expected = number * (all_yes - yes) / others if others else math.nan
            stands_out = (
                yes >= LEAST and yes > expected and chance(yes, number, all_yes, everything) * len(checks) < SELDOM
            )
            shares.append(Share(store, who, called, number, yes, expected, stands_out))
        return sorted(shares, key=lambda one: (-one.yes, one.store, one.who))

    def text(self, *, verbose: bool = False) -> Iterator[str]:
        """A table of lanes and one of employees; of a long one only the first lines, unless *verbose*."""
        for called in ("lane", "employee"):
            shares = self._shares(called)
            if not shares:
                continue
            yield ""
            yield f"    yes  checks  expected  questions answered with yes, by {called}"
            told = shares if verbose else [one for i, one in enumerate(shares) if i < MOST or one.stands_out]
            for one in told:
                mark = "  far more than the others" if one.stands_out else ""
                yield f"{one.yes:7}  {one.checks:6}  {_expected(one):>8}  {one.name}{mark}"
            if len(told) < len(shares):
                yield f"{len(shares) - len(told):7}  more; --verbose lists them"


def _expected(one: Share) -> str:
    return "-" if math.isnan(one.expected) else f"{one.expected:.1f}"


def _name(text: str) -> str:
    return shown(masking.number(text) if sum(map(str.isdigit, text)) > LONGEST else text)
