"""The papers of one drawer held against the checks of a file.

Papers are listed like checks, with whatever was read on them. A paper whose routing, account and check number are those
of a check is that check; all others are paired by what there is (:mod:`checkface.audit.across.pairing`), and where
several checks fit and the choice matters, a finding names them all. Only kept checks, and those a paper may be, are
remembered.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from checkface.audit.across import drawer as say
from checkface.audit.across.found import AuditFinding, Counts, Place, found
from checkface.audit.across.pairing import SURE, grade, may_be, pair
from checkface.audit.across.sight import UNKNOWN, Sight, sight
from checkface.audit.items import Item
from checkface.micr.layouts import Layout
from checkface.reading import read

_SEVERAL = "a paper in the drawer may be one of several"
_NUMBERLESS = "neither their check number nor their amount was read"
_OPEN = "a paper in the drawer that no check explains may be theirs"


class Drawer:
    """What lay in the drawer, and what of the file may have lain there. ``layouts`` are the house's, for the lines."""

    def __init__(self, layouts: Mapping[str, Layout] | None = None) -> None:
        self._layouts = layouts
        self._papers: list[Sight] = []
        self._checks: list[Sight] = []
        self._grades: defaultdict[int, dict[int, int]] = defaultdict(dict)
        self._by_serial: defaultdict[str | None, list[int]] = defaultdict(list)
        self._by_amount: defaultdict[int | None, list[int]] = defaultdict(list)

    def add_paper(self, file: str, item: Item) -> None:
        """One more paper, listed in *file*; all of them come before the first check."""
        self._add(sight(Place(file, item.line, item.tender.id, item.sheet), read(item.tender, self._layouts)))

    def _add(self, paper: Sight) -> None:
        self._by_serial[paper.serial].append(len(self._papers))
        self._by_amount[paper.amount].append(len(self._papers))
        self._papers.append(paper)

    def add_check(self, check: Sight, counts: Counts) -> None:
        """One more check of the file."""
        if check.taken is None:
            for name in say.ASKED.values():
                counts.unread[name][UNKNOWN] += 1
        elif check.serial is None and check.amount is None:
            counts.unread[say.ASKED[check.taken]][_NUMBERLESS] += 1
        else:
            counts.asked[say.ASKED[check.taken]] += 1
        near = set(self._by_serial.get(check.serial, ()) if check.serial else ())
        near |= set(self._by_amount.get(check.amount, ()) if check.amount is not None else ())
        grades = {paper: step for paper in near if (step := grade(self._papers[paper], check))}
        for paper, step in grades.items():
            self._grades[paper][len(self._checks)] = step
        if grades or (check.taken == "kept" and not (check.serial is None and check.amount is None)):
            self._checks.append(check)

    def findings(self, counts: Counts) -> Iterator[AuditFinding]:
        """What the drawer shows, once every check of the file was added."""
        counts.asked["drawer-check-unexplained"] += len(self._papers)
        seen: set[int] = set()
        settled: set[int] = set()
        left: dict[int, int | None] = {}
        for papers, checks in self._by_numbers():
            seen |= set(papers)
            settled |= set(checks)
            there = [self._checks[check] for check in checks]
            yield from self._known([self._papers[paper] for paper in papers], there, counts)
            # A check that was handed back and came again is one paper.
            expected = max(1, sum(check.taken != "returned" for check in there))
            left |= dict.fromkeys(papers[expected:], papers[0])
        grades = {
            paper: {check: step for check, step in self._grades.get(paper, {}).items() if check not in settled}
            for paper in range(len(self._papers))
            if paper not in seen
        }
        result = pair(grades, set(range(len(self._checks))) - settled)
        left |= dict.fromkeys(result.left)
        for check, paper in result.paired.items():
            alone = [self._papers[paper]] if len(grades[paper]) == 1 else []
            yield from self._in_drawer([self._checks[check]], 1, alone, counts)
        for group, missing in result.groups:
            yield from self._group([self._checks[check] for check in group], missing, left, counts)
        for paper, first in left.items():
            name = say.drawer_check_unexplained(
                self._papers[paper], None if first is None else self._papers[first].place
            )
            yield counts.add(found("drawer-check-unexplained", name, [self._papers[paper].place]))

    def _by_numbers(self) -> list[tuple[list[int], list[int]]]:
        """Papers and checks that are one by their numbers."""
        papers: defaultdict[tuple[int, ...], list[int]] = defaultdict(list)
        for paper, grades in sorted(self._grades.items()):
            checks = tuple(sorted(check for check, step in grades.items() if step == SURE))
            if checks:
                papers[checks].append(paper)
        return [(same, list(checks)) for checks, same in papers.items()]

    def _known(self, papers: Sequence[Sight], checks: Sequence[Sight], counts: Counts) -> Iterator[AuditFinding]:
        taken = any(check.taken in {"kept", "converted"} for check in checks)
        for check in checks:
            if not (check.taken == "returned" and taken):
                yield from self._in_drawer([check], 1, papers, counts)
            amounts = {paper.amount for paper in papers}
            if check.amount is not None and None not in amounts:
                counts.asked["drawer-amount-differs"] += 1
            if check.amount not in amounts and (message := say.drawer_amount_differs(check, papers[0])):
                yield counts.add(found("drawer-amount-differs", message, [check.place], [papers[0].place]))

    def _in_drawer(
        self, checks: Sequence[Sight], number: int, papers: Sequence[Sight], counts: Counts
    ) -> Iterator[AuditFinding]:
        """Of *checks*, all taken alike, *number* lie in the drawer."""
        sayings = {"converted": say.converted_check_in_drawer, "returned": say.returned_check_in_drawer}
        taken = checks[0].taken
        if taken in sayings and number:
            places = [paper.place for paper in papers]
            message = sayings[taken](checks, number, places)
            yield counts.add(found(say.ASKED[taken], message, [check.place for check in checks], places))

    def _group(
        self, checks: Sequence[Sight], missing: int, left: dict[int, int | None], counts: Counts
    ) -> Iterator[AuditFinding]:
        """Of *checks*, so many are *missing* from the drawer, and nothing tells which."""
        checks = sorted(checks, key=lambda check: check.place)
        ways = {check.taken for check in checks}
        places = [check.place for check in checks]
        if len(ways) > 1:
            self._not_asked(checks, _SEVERAL, counts)
            message = say.drawer_check_ambiguous(checks, len(checks) - missing)
            yield counts.add(found("drawer-check-ambiguous", message, places))
        elif ways != {"kept"}:
            yield from self._in_drawer(checks, len(checks) - missing, (), counts)
        elif any(
            may_be(self._papers[paper], check) for paper, first in left.items() if first is None for check in checks
        ):
            self._not_asked(checks, _OPEN, counts)
        else:
            message = say.kept_check_missing(checks, missing)
            yield counts.add(found("kept-check-missing", message, places))

    @staticmethod
    def _not_asked(checks: Sequence[Sight], reason: str, counts: Counts) -> None:
        for check in checks:
            if check.taken is not None:
                counts.asked[say.ASKED[check.taken]] -= 1
                counts.unread[say.ASKED[check.taken]][reason] += 1
