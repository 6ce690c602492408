"""One audit across checks: takes each assessment as it comes, and says at the end what they show together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from checkface.audit.across import lane, layout, near, runs, same
from checkface.audit.across.answered import Answered
from checkface.audit.across.found import AuditFinding, Counts, Place
from checkface.audit.across.index import Index
from checkface.audit.across.papers import Drawer
from checkface.audit.across.sight import AMOUNTLESS, UNKNOWN, Sight, sight
from checkface.audit.across.sums import Sums
from checkface.audit.across.totals import Declared
from checkface.audit.placed import Skipped
from checkface.audit.run import Assessed
from checkface.findings import Disposition

_UNNUMBERED = "routing number, account or check number was not read"
_NO_RUN = "routing number or account was not read, or neither check number nor amount"
_NO_LAYOUT = "the On-Us field was not read or the check is of business size"


class Thresholds(NamedTuple):
    """From how many on something is named: accounts in a run, numbers in a row, accounts that bear out a layout."""

    accounts: int = 5
    sequence: int = 5
    witnesses: int = 10


class Across:
    """What is asked of an audit's checks together.

    Every check is held against what the lane did with it, and of all is asked who answers questions unlike the others;
    the rest is asked where it is given: ``index`` holds the checks against one another, ``drawer`` against the paper,
    ``totals`` against declared sums. The ``counts`` grow as it goes.
    """

    def __init__(
        self,
        *,
        index: Index | None = None,
        thresholds: Thresholds | None = None,
        drawer: Drawer | None = None,
        totals: Sequence[Declared] = (),
    ) -> None:
        self.counts = Counts()
        self._index, self._thresholds, self._drawer = index, thresholds or Thresholds(), drawer
        self._sums = Sums(totals) if totals else None
        self._answered = Answered()
        self._any_taken = False

    def add(self, file: str, result: Assessed | Skipped) -> list[AuditFinding]:
        """Take in one more assessment of *file*, and say what its own lane did wrong with it.

        A row that was skipped may be any check: what it may explain is no finding.
        """
        if isinstance(result, Skipped):
            if self._drawer is not None:
                self._drawer.add_skipped_row()
            if self._sums is not None:
                self._sums.skipped += 1
            return []
        seen = result.assessment
        place = Place(file, result.line, seen.id, result.sheet)
        self._any_taken |= seen.read.tender.taken_as is not None
        self._answered.add(place, seen.read.tender.counter)
        found = list(lane.held(place, seen, self.counts))
        if self._drawer is not None or self._sums is not None or self._index is not None:
            check = sight(place, seen.read)
            if self._drawer is not None:
                self._drawer.add_check(check, self.counts)
            if self._sums is not None:
                self._sums.add(check, self.counts)
            if self._index is not None:
                self._index.add(check)
                self._count(check)
        return found

    def finish(self) -> Iterator[AuditFinding]:
        """What the checks show together."""
        yield from self._answered.findings(self.counts)
        if self._drawer is not None:
            yield from sorted(self._drawer.findings(self.counts), key=_order)
        if self._index is not None:
            index, limits = self._index, self._thresholds
            for found in (
                same.ask(index, self.counts),
                near.ask(index, self.counts),
                runs.ask(index, self.counts, accounts=limits.accounts, sequence=limits.sequence),
                layout.ask(index, self.counts, witnesses=limits.witnesses),
            ):
                yield from sorted(found, key=_order)
        if self._sums is not None:
            yield from self._sums.findings(self.counts)

    @property
    def needs_every_file(self) -> bool:
        """Whether checks of a file that cannot be read would seem missing: from the drawer, or from a declared sum."""
        return self._drawer is not None or self._sums is not None

    @property
    def is_asked(self) -> bool:
        """Whether anything was asked: a file that says of no check what the lane did asks nothing by itself."""
        given = (self._drawer, self._sums, self._index)
        return self._any_taken or self._answered.any or any(one is not None for one in given)

    @property
    def worst(self) -> Disposition:
        """The strictest effect found, as the answer of one check would be called."""
        worst = self.counts.worst
        return Disposition.CONVERT if worst == "note" else Disposition(worst)

    def _count(self, check: Sight) -> None:
        """Of which rules across checks *check* can be asked."""
        counts = self.counts
        account = bool(check.routing and check.account)
        why = "" if account and check.serial else _UNNUMBERED
        for rule, reason in (
            ("same-item-twice", why),
            ("same-item-converted-and-kept", why or ("" if check.taken else UNKNOWN)),
            ("near-duplicate", why or ("" if check.amount is not None else AMOUNTLESS)),
            ("counterfeit-run", "" if account and (check.serial or check.amount is not None) else _NO_RUN),
        ):
            if reason:
                counts.unread[rule][reason] += 1
            else:
                counts.asked[rule] += 1
        if not (check.routing and check.account and check.layout):
            counts.unread["layout-unlike-its-bank"][_NO_LAYOUT] += 1


def _order(finding: AuditFinding) -> tuple[str, tuple[Place, ...], str]:
    return finding.rule, finding.places, finding.message
