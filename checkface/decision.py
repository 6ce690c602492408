"""From findings to one answer: convert, keep, refer or decline, with its reasons and what would change it.

The answer is the highest effect found, so one more defect can never make it milder; and ``convert`` is earned: each
pillar of it was seen and speaks for it, or the check is kept. The sentence for the customer is neutral and short; the
one for the house is exact.
"""

from typing import NamedTuple

from checkface.findings import Disposition, Finding, Remedy, disposition_of
from checkface.policy import Policy
from checkface.rules import PILLARS, Examination, Rest, earned

_CUSTOMER = {
    Disposition.CONVERT: "Your check will be processed electronically and handed back to you.",
    Disposition.KEEP: "Thank you. We will deposit your check.",
    Disposition.REFER: "One moment, please: a manager will look at this check.",
    Disposition.DECLINE: "We cannot take this check as it is. May we ask for another form of payment?",
}
_HOUSE = {
    Disposition.KEEP: "Keep in the till, do not convert: ",
    Disposition.REFER: "Refer to a manager: ",
    Disposition.DECLINE: "Decline and hand back: ",
}


class Change(NamedTuple):
    """What it takes to reach a better *disposition*: every finding of *cures* must be cured.

    ``curable`` says whether the counter has a remedy for each of them.
    """

    disposition: Disposition
    cures: tuple[Finding, ...]

    @property
    def curable(self) -> bool:
        """Whether every one of the cures has a remedy."""
        return all(finding.remedy is not Remedy.NONE for finding in self.cures)


class Decision(NamedTuple):
    """The answer. ``because``: the findings that bring it about; ``policy``: digest of the policy it rests on."""

    disposition: Disposition
    examination: Examination
    policy: str

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Everything found, in the order of the rule book."""
        return self.examination.findings

    @property
    def unread(self) -> tuple[str, ...]:
        """Rules that did not run."""
        return self.examination.unread

    @property
    def rests_on(self) -> tuple[Rest, ...]:
        """The pillars of conversion that stand, in their order: all of them where the answer is ``convert``."""
        return self.examination.rests_on

    @property
    def because(self) -> tuple[Finding, ...]:
        """The findings above a note, strictest first, in the order of the rule book within one effect."""
        serious = [finding for finding in self.findings if finding.effect.rank]
        return tuple(sorted(serious, key=lambda finding: -finding.effect.rank))

    @property
    def would_change(self) -> tuple[Change, ...]:
        """For each better disposition that can be reached, nearest first, the findings that must all be cured."""
        changes: list[Change] = []
        for better in reversed(list(Disposition)[: self.disposition.rank]):
            cures = tuple(finding for finding in self.because if finding.effect.rank > better.rank)
            if not cures:
                continue  # only a look nobody took stands in the way
            if changes and changes[-1].cures == cures:
                changes.pop()  # the same cures reach further: only the better disposition is true
            changes.append(Change(better, cures))
        return tuple(changes)

    @property
    def for_customer(self) -> str:
        """What may be said to the customer: no reason that accuses, no word about funds."""
        return _CUSTOMER[self.disposition]

    @property
    def for_house(self) -> str:
        """What is written down: the exact reasons."""
        if self.disposition is Disposition.CONVERT:
            by_eyes = sum(rest.by in ("clerk", "confirmed") for rest in self.rests_on)
            eyes = f", {by_eyes} of them by the clerk's eyes" if by_eyes else ""
            unread = len(self.unread)
            rules = {0: "", 1: " 1 rule could not run."}.get(unread, f" {unread} rules could not run.")
            return f"Convert: all {len(PILLARS)} things it rests on are in order{eyes}.{rules}"
        if not self.because:
            stand = {rest.pillar for rest in self.rests_on}
            missing = ", ".join(pillar.what for pillar in PILLARS if pillar.name not in stand)
            return f"{_HOUSE[self.disposition]}Not everything it must rest on is in order: {missing}."
        return _HOUSE[self.disposition] + " ".join(finding.message for finding in self.because)


def decide(examination: Examination, policy: Policy) -> Decision:
    """The decision that *examination* brings about. The policy has had its say in the effects; its digest is kept."""
    disposition = disposition_of([finding.effect for finding in examination.findings])
    if disposition is Disposition.CONVERT and not earned(examination.read, policy):
        disposition = Disposition.KEEP  # the closed door: whatever no rule has found, nothing unearned converts
    return Decision(disposition, examination, policy.digest)
