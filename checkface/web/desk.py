"""Where checks are judged for whoever asks: the house policy, the past and the clock, chosen when the server starts."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import NamedTuple

from checkface.assessment import Assessment, assess
from checkface.audit import with_day
from checkface.policy import Policy
from checkface.rules.history import History
from checkface.tender import Tender
from checkface.web.refusal import LOG, Refused


class Judged(NamedTuple):
    """An assessment, and the day the server put in because the tender carried none."""

    assessment: Assessment
    day: date | None


class Desk(NamedTuple):
    """``unavailable``: errors of *history* that mean that it cannot be asked at the moment."""

    policy: Policy
    history: History | None
    today: Callable[[], date]
    unavailable: tuple[type[Exception], ...] = ()

    def judge(self, tender: Tender) -> Judged:
        """The assessment of *tender*, on its own day or else today. Raises :class:`Refused` without the past."""
        day = self.today() if tender.counter.on is None else None
        try:
            return Judged(assess(with_day(tender, day), self.policy, self.history), day)
        except self.unavailable as error:
            LOG.error("The ledger could not be asked: %s", error)
            problem = "Expected the ledger to answer, read nothing from it; nothing was judged"
            raise Refused(503, [problem]) from None
