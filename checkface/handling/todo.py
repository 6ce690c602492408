"""What is still to be done before an answer counts: looks nobody took, things nobody keyed, and what can be put right.

Each is a code that steps of ``data/handling.toml`` name under ``todo``: a reading of
:data:`checkface.policy.REQUIRABLE`, a :class:`~checkface.findings.Remedy`, or one of :data:`MORE`. Official source:
what a house demands is its policy's; what conversion rests on, :mod:`checkface.rules.pillars`.
"""

from collections.abc import Iterable
from typing import NamedTuple

from checkface.decision import Change, Decision
from checkface.findings import Disposition, Effect, Finding, Remedy
from checkface.policy import REQUIRABLE, Policy
from checkface.reading import ReadTender
from checkface.rules import PILLARS

#: What is done besides looking at a reading: the line put through the reader, the kind chosen, the document asked for,
#: looked at and scanned or keyed, the amount keyed.
MORE = ("reader", "kind", "document", "document-look", "document-number", "keyed-amount")
#: Every code a step may name.
CODES = frozenset((*REQUIRABLE, *Remedy, *MORE))
#: Rules that speak of a look nobody took; the steps for that reading cure them.
NOT_YET = frozenset({"pillar-not-seen", "reading-not-taken"})

_OF_CARD = frozenset({"document", "document-look", "document-number"})


class Todo(NamedTuple):
    """What is still to be done: the ``codes``, and the findings of which the lane tries to be rid (``curing``)."""

    codes: frozenset[str]
    curing: tuple[Finding, ...]

    @property
    def judge_again(self) -> bool:
        """Whether the lane itself can do something that may better the answer."""
        return any(finding.remedy is not Remedy.MANAGER for finding in self.curing)

    @property
    def questions(self) -> tuple[Finding, ...]:
        """The findings that put a question to the clerk."""
        asked = "confirm" in self.codes
        return tuple(finding for finding in self.curing if finding.remedy is Remedy.CONFIRM) if asked else ()


def todo(decision: Decision, read: ReadTender, policy: Policy) -> Todo:
    """What is still to be done for *decision*. Nothing where the answer stands whatever is looked at."""
    changes = decision.would_change
    curing = _curing(changes)
    codes = {code for finding in curing if finding.rule not in NOT_YET for code in _cure(finding)}
    if Remedy.NEW_CHECK in codes:
        codes = {str(Remedy.NEW_CHECK)}  # the new one is judged from the start
    elif decision.disposition <= Disposition.KEEP or any(finding.rule in NOT_YET for finding in curing):
        unseen = _unseen(read, policy, not changes or changes[-1].curable)
        if not all(finding.rule in NOT_YET or unseen.issuperset(_cure(finding)) for finding in decision.because):
            unseen.discard("authorization")  # nobody signs for a debit while something else stands in its way
        codes |= unseen
    return Todo(frozenset(codes), curing)


def _curing(changes: tuple[Change, ...]) -> tuple[Finding, ...]:
    """What the lane puts right in one go: all that leads to the best answer it can reach by itself.

    A manager is called only for the nearest better answer, and a check that may be kept is not written once more.
    """
    found: tuple[Finding, ...] = ()
    for change in changes:  # nearest first, each with the cures of the one before
        remedies = {finding.remedy for finding in change.cures}
        anew = any(f.effect is Effect.KEEP and f.remedy is Remedy.NEW_CHECK for f in change.cures)
        if not change.curable or anew or (found and Remedy.MANAGER in remedies):
            break
        found = change.cures
    return found


def _cure(finding: Finding) -> Iterable[str]:
    readings = {label.reading for label in finding.labels}
    match finding.remedy:
        case Remedy.SIGN if "counter.authorization_signed" in readings:
            return ("authorization",)
        case Remedy.REREAD if readings & {"face.micr", "counter.micr_by"}:
            return ("reader",)
        case Remedy.REREAD if readings == {"counter.declared_kind"}:
            return ("kind",)
        case Remedy.COMPLETE if "counter.amount" in readings:
            return ("keyed-amount",)
        case Remedy.SHOW_ID:
            return _OF_CARD
    return (str(finding.remedy),)


def _unseen(read: ReadTender, policy: Policy, open_to_conversion: bool) -> set[str]:
    codes = set(read.not_looked_at(policy.readings.required))
    if open_to_conversion:
        codes |= {pillar.required for pillar in PILLARS if pillar.unseen(read, policy)}
    if policy.identity.required or "documents" in codes:
        codes |= _card(read, record_number=policy.identity.record_number)
    if read.counter.declared_kind is None:
        codes.add("kind")
    if read.counter.amount is None:
        codes.add("keyed-amount")
    if codes & {"micr", "micr_by"}:
        codes.add("reader")
    return codes - {"documents", "amount", "micr", "micr_by"}


def _card(read: ReadTender, *, record_number: bool) -> frozenset[str]:
    """What is still to be done about the customer's document; nothing where it was asked for and none shown."""
    if read.tender.documents is None:
        return _OF_CARD
    if not read.shown:
        return frozenset()
    shown = next((one for one in read.shown if one.document.is_bearer is not False), read.shown[0])
    document, best = shown.document, shown.best
    codes = {
        "document": best is None and not document.kind,
        "document-look": document.is_bearer is None
        or not (document.name or getattr(shown.card, "name", None))
        or (best is not None and best.expires.kind == "unknown"),
        "document-number": not (document.barcode or document.number or (document.state and not record_number)),
    }
    return frozenset(code for code, missing in codes.items() if missing)
