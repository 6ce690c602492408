"""The papers of one drawer held against the checks of a file.

Papers are listed like checks, with whatever was read on them. A paper whose routing, account and check number are those
of a check is that check; all others are paired by what there is (:mod:`checkface.audit.across.pairing`), and where
several checks fit and the choice matters, a finding names them all. A row that was skipped, of the list or of the file,
may be any check: what it may be is accused of nothing. Only kept checks, and those a paper may be, are remembered.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence

from checkface.audit.across import drawer as say
from checkface.audit.across.found import AuditFinding, Counts, Place, found
from checkface.audit.across.pairing import SURE, WEAK, Pairing, grade, key, may_be, pair
from checkface.audit.across.sight import UNKNOWN, Sight, sight
from checkface.audit.placed import Item
from checkface.micr.layouts import Layout
from checkface.reading import read

_SEVERAL = "a paper in the drawer may be one of several"
_NUMBERLESS = "neither their check number nor their amount was read"
_OPEN = "a paper in the drawer of which too little is known may be theirs"
_SKIPPED_PAPER = "a row of the drawer was skipped"
_SKIPPED_ROW = "a row of the file was skipped"
_MISSING, _STRANGE, _AMOUNT = "kept-check-missing", "drawer-check-unexplained", "drawer-amount-differs"
#: Grades at which the check numbers agree: without, a row that was skipped may as well be the paper.
_BY_NUMBER = frozenset({2, 3, 5})
_Key = tuple[str, str, str, int]


class Drawer:
    """What lay in the drawer, and what of the file may have lain there. ``layouts`` are the house's, for the lines.

    ``skipped``: rows of its list that could not be read. Papers and checks alike share one node.
    """

    def __init__(self, layouts: Mapping[str, Layout] | None = None) -> None:
        self.skipped = 0
        self._layouts = layouts
        self._papers: list[list[Sight]] = []
        self._checks: list[list[Sight]] = []
        self._paper_nodes: dict[_Key, int] = {}
        self._check_nodes: dict[tuple[_Key, bool], int | None] = {}
        self._grades: defaultdict[int, dict[int, int]] = defaultdict(dict)
        self._by_serial: defaultdict[str, list[int]] = defaultdict(list)
        self._by_amount: defaultdict[int, list[int]] = defaultdict(list)
        self._unnumbered: defaultdict[int, list[int]] = defaultdict(list)
        self._numbered: Counter[str] = Counter()
        self._skipped_rows = 0

    def add_paper(self, file: str, item: Item) -> None:
        """One more paper, listed in *file*; all of them come before the first check."""
        self._add(sight(Place(file, item.line, item.tender.id, item.sheet), read(item.tender, self._layouts)))

    def _add(self, paper: Sight) -> None:
        node = self._paper_nodes.setdefault(key(paper), len(self._papers))
        if node < len(self._papers):
            self._papers[node].append(paper)
            return
        self._papers.append([paper])
        if paper.serial is not None:
            self._by_serial[paper.serial].append(node)
        if paper.amount is not None:
            self._by_amount[paper.amount].append(node)
            if paper.serial is None:
                self._unnumbered[paper.amount].append(node)

    def add_skipped_row(self) -> None:
        """One row of the file could not be read: it may be any paper of the drawer."""
        self._skipped_rows += 1

    def add_check(self, check: Sight, counts: Counts) -> None:
        """One more check of the file."""
        numberless = check.serial is None and check.amount is None
        if check.taken is None:
            for name in say.ASKED.values():
                counts.unread[name][UNKNOWN] += 1
        elif numberless:
            counts.unread[say.ASKED[check.taken]][_NUMBERLESS] += 1
        else:
            counts.asked[say.ASKED[check.taken]] += 1
        if check.serial in self._by_serial:
            self._numbered[check.serial or ""] += 1
        kept = check.taken == "kept"
        known = (key(check), kept)
        if known not in self._check_nodes:
            self._check_nodes[known] = self._node(check, remember=kept and not numberless)
        node = self._check_nodes[known]
        if node is not None:
            self._checks[node].append(check)

    def _node(self, check: Sight, *, remember: bool) -> int | None:
        """A new node for *check*, if a paper may be it or it is to be remembered anyway."""
        near: set[int] = set()
        if check.serial is not None:
            near.update(self._by_serial.get(check.serial, ()))
        if check.amount is not None:
            near.update((self._by_amount if check.serial is None else self._unnumbered).get(check.amount, ()))
        grades = {paper: step for paper in near if (step := grade(self._papers[paper][0], check))}
        if not grades and not remember:
            return None
        for paper, step in grades.items():
            self._grades[paper][len(self._checks)] = step
        self._checks.append([])
        return len(self._checks) - 1

    def findings(self, counts: Counts) -> Iterator[AuditFinding]:
        """What the drawer shows, once every check of the file was added."""
        self._in_order()
        counts.asked[_STRANGE] += sum(map(len, self._papers))
        seen: set[int] = set()
        settled: set[int] = set()
        left: list[tuple[Sight, Sight | None]] = []
        for nodes, checks in self._by_numbers():
            seen |= set(nodes)
            settled |= set(checks)
            papers = sorted((one for node in nodes for one in self._papers[node]), key=lambda one: one.place)
            there = [one for check in checks for one in self._checks[check]]
            yield from self._known(papers, there, counts)
            # A check that was handed back and came again is one paper.
            expected = max(1, sum(check.taken != "returned" for check in there))
            left += [(paper, papers[0]) for paper in papers[expected:]]
        result, grades = self._paired(seen, settled)
        over = [one for node, number in result.left.items() for one in self._papers[node][-number:]]
        for check, own in result.paired.items():
            yield from self._there(check, own, grades, counts)
        missing: list[tuple[list[Sight], int, bool]] = []
        for group, number in result.groups:
            members = sorted((one for check in group for one in self._checks[check]), key=lambda one: one.place)
            if {one.taken for one in members} != {"kept"}:
                yield from self._group(members, number, counts)
            elif number == len(members):
                missing += [([one], 1, False) for one in members]
            else:
                weak = any(step == WEAK for at in grades.values() for check in group if (step := at.get(check)))
                missing.append((members, number, weak))
        yield from self._missing(missing, over, counts)
        yield from self._unexplained(left + [(paper, None) for paper in over], counts)

    def _in_order(self) -> None:
        """Number the checks so that the order of the file makes no difference.

        Kept checks with no line, of which no paper agrees with anything, may all be the same papers: they are one node.
        """
        graded = {check for grades in self._grades.values() for check in grades}
        alike: defaultdict[object, list[int]] = defaultdict(list)
        for at, (one, *_) in enumerate(self._checks):
            is_open = at not in graded and one.routing is None and one.account is None
            alike[(one.serial is None, one.amount is None) if is_open else at].append(at)
        known = [(key(same[0]), same[0].taken == "kept") for same in self._checks]
        order = sorted(alike.values(), key=lambda nodes: min(known[at] for at in nodes))
        now = {old: new for new, nodes in enumerate(order) for old in nodes}
        self._checks = [
            sorted((one for at in nodes for one in self._checks[at]), key=lambda one: one.place) for nodes in order
        ]
        for paper, grades in self._grades.items():
            self._grades[paper] = {now[check]: step for check, step in grades.items()}

    def _by_numbers(self) -> list[tuple[list[int], list[int]]]:
        """Papers and checks that are one by their numbers."""
        papers: defaultdict[tuple[int, ...], list[int]] = defaultdict(list)
        for paper, grades in sorted(self._grades.items()):
            checks = tuple(sorted(check for check, step in grades.items() if step == SURE))
            if checks:
                papers[checks].append(paper)
        return [(same, list(checks)) for checks, same in papers.items()]

    def _paired(self, seen: set[int], settled: set[int]) -> tuple[Pairing, dict[int, dict[int, int]]]:
        """The papers and checks that no numbers make one, paired; a kept check may be any paper not unlike it."""
        papers = {node: len(same) for node, same in enumerate(self._papers) if node not in seen}
        checks = {node: len(same) for node, same in enumerate(self._checks) if node not in settled}
        grades = {
            paper: {check: step for check, step in self._grades.get(paper, {}).items() if check not in settled}
            for paper in papers
        }
        unnumbered = [node for node in papers if self._papers[node][0].serial is None]
        amountless = [node for node in papers if self._papers[node][0].amount is None]
        neither = [node for node in unnumbered if self._papers[node][0].amount is None]
        for node in checks:
            check = self._checks[node][0]
            if check.taken != "kept":
                continue
            near = amountless if check.serial is None else unnumbered if check.amount is None else neither
            for paper in near:
                if node not in grades[paper] and may_be(self._papers[paper][0], check):
                    grades[paper][node] = WEAK
        return pair(grades, papers, checks), grades

    def _there(
        self, node: int, own: Mapping[int, int], grades: Mapping[int, Mapping[int, int]], counts: Counts
    ) -> Iterator[AuditFinding]:
        """Every check of *node* has its paper, as many of each node of papers as *own* says."""
        checks = self._checks[node]
        weak = sum(number for paper, number in own.items() if grades[paper][node] == WEAK)
        if weak:
            self._not_asked(checks[:weak], _OPEN, counts)
            counts.asked[_STRANGE] -= weak
            counts.unread[_STRANGE]["it may be a check of which too little is known"] += weak
        if self._skipped_rows and not any(grades[paper][node] in _BY_NUMBER for paper in own):
            self._not_asked([check for check in checks if check.taken != "kept"], _SKIPPED_ROW, counts)
            return
        (first, *others) = own
        is_plain = not others and len(self._papers[first]) == len(checks) == len(grades[first]) == 1
        for check in checks:
            yield from self._in_drawer([check], 1, self._papers[first] if is_plain else (), counts)

    def _known(self, papers: Sequence[Sight], checks: Sequence[Sight], counts: Counts) -> Iterator[AuditFinding]:
        taken = any(check.taken in {"kept", "converted"} for check in checks)
        amounts = {paper.amount for paper in papers}
        for check in checks:
            if check.taken == "returned" and taken:
                continue  # It came again, perhaps with another amount: the paper is the one that was taken.
            yield from self._in_drawer([check], 1, papers, counts)
            if check.amount is not None and None not in amounts:
                counts.asked[_AMOUNT] += 1
            if check.amount not in amounts and (message := say.drawer_amount_differs(check, papers[0])):
                yield counts.add(found(_AMOUNT, message, [check.place], [papers[0].place]))

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

    def _group(self, checks: Sequence[Sight], missing: int, counts: Counts) -> Iterator[AuditFinding]:
        """Of *checks*, not all of them kept, so many have no paper, and nothing tells which."""
        if len(checks) == missing:
            return
        if len({check.taken for check in checks}) > 1:
            self._not_asked(checks, _SEVERAL, counts)
            message = say.drawer_check_ambiguous(checks, len(checks) - missing)
            yield counts.add(found("drawer-check-ambiguous", message, [check.place for check in checks]))
        else:
            yield from self._in_drawer(checks, len(checks) - missing, (), counts)

    def _missing(
        self, groups: list[tuple[list[Sight], int, bool]], over: list[Sight], counts: Counts
    ) -> Iterator[AuditFinding]:
        """Of each group of kept checks so many are missing; a paper that is one of them after all leaves *over*."""
        still = []
        for checks, number, weak in groups:
            paper = self._other_amount(checks[0], over) if len(checks) == 1 else None
            if paper is None:
                still.append((checks, number, weak))
                continue
            over.remove(paper)
            self._not_asked(checks, "a paper with their check number and another amount may be theirs", counts)
            counts.asked[_AMOUNT] += 1
            message = say.perhaps_the_same(checks[0], paper)
            yield counts.add(found(_AMOUNT, message, [checks[0].place], [paper.place]))
        total = sum(number for _, number, _ in still)
        every = sorted((check for checks, _, _ in still for check in checks), key=lambda one: one.place)
        if self.skipped >= total:
            self._not_asked(every, _SKIPPED_PAPER, counts)
            return
        if self.skipped:
            self._not_asked(every[: self.skipped], _SKIPPED_PAPER, counts)
            still = [(every, total - self.skipped, True)]
        for checks, number, at_least in still:
            message = say.kept_check_missing(checks, number, at_least=at_least)
            yield counts.add(found(_MISSING, message, [check.place for check in checks]))

    def _other_amount(self, check: Sight, over: Sequence[Sight]) -> Sight | None:
        """The one paper left over that has the number of *check*, which no other check has, and another amount."""
        if check.serial is None or check.amount is None or self._numbered[check.serial] != 1:
            return None
        alike = [self._papers[node] for node in self._by_serial.get(check.serial, ())]
        if len(alike) != 1 or len(alike[0]) != 1 or alike[0][0] not in over:
            return None
        paper = alike[0][0]
        return paper if paper.amount is not None and may_be(paper._replace(amount=None), check) else None

    def _unexplained(self, left: Sequence[tuple[Sight, Sight | None]], counts: Counts) -> Iterator[AuditFinding]:
        """One finding for each paper that is *left*, unless a row of the file that was skipped may be it."""
        skipped = min(self._skipped_rows, len(left))
        if skipped:
            counts.asked[_STRANGE] -= skipped
            counts.unread[_STRANGE][_SKIPPED_ROW] += skipped
            if skipped < len(left):
                places = [paper.place for paper, _ in left]
                message = say.some_unexplained(places, len(left) - skipped, skipped)
                yield counts.add(found(_STRANGE, message, places))
            return
        for paper, first in left:
            message = say.drawer_check_unexplained(paper, first.place if first else None)
            yield counts.add(found(_STRANGE, message, [paper.place]))

    @staticmethod
    def _not_asked(checks: Sequence[Sight], reason: str, counts: Counts) -> None:
        for check in checks:
            if check.taken is not None:
                counts.asked[say.ASKED[check.taken]] -= 1
                counts.unread[say.ASKED[check.taken]][reason] += 1
