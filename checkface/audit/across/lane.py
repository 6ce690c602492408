"""What the lane did with each check, against the answer: asked of every check by itself, as it comes."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from checkface.assessment import Assessment
from checkface.audit.across.book import rule
from checkface.audit.across.found import AuditFinding, Counts, Place, found
from checkface.audit.across.sight import UNKNOWN
from checkface.findings import Disposition, Effect

_NEEDS = "what the lane did (taken_as)"


@rule("converted-though-barred", Effect.REFER, by="house-policy nacha-ineligible nacha-authorization", needs=_NEEDS)
def converted_though_barred(seen: Assessment) -> str | None:
    """The lane converted a check that must not be converted.

    What it asks: Of a check that was converted, is the answer under this policy convert?
    Why it matters: A debit for a check that is not eligible can be sent back by the bank, weeks later, and the voided
        paper is with the customer. The rules that bar it are named, each with its own authority.
    Example: A payroll check was converted; the answer is keep, by payroll-check.
    What to do: Ask the lane who decided and on what ground; where nobody did, have the debit reversed in time.
    """
    if seen.disposition is Disposition.CONVERT:
        return None
    return f"Converted, but the answer is {seen.disposition}: {_barring(seen, Effect.KEEP)}."


@rule("kept-though-convertible", Effect.NOTE, by="house-policy", needs=_NEEDS)
def kept_though_convertible(seen: Assessment) -> str | None:
    """The lane kept a check that could have been converted.

    What it asks: Of a check that was kept, is the answer under this policy another than convert?
    Why it matters: Nothing is lost, but paper costs a deposit and comes back later if it is not paid. Many of them on
        one lane point to a reader that fails or to a clerk who was not shown how.
    Example: A sound personal check went into the till while the network was up.
    What to do: Look for a pattern by lane and hour; a single one means nothing.
    """
    if seen.disposition is not Disposition.CONVERT:
        return None
    missing = len(seen.unread)
    unless = f", though {missing} rule{'s' * (missing != 1)} could not run" if missing else ""
    return f"Kept, but the answer is convert{unless}."


@rule("taken-though-declined", Effect.REFER, by="house-policy", needs=_NEEDS)
def taken_though_declined(seen: Assessment) -> str | None:
    """The lane took a check that should have been handed back.

    What it asks: Of a check that was converted or kept, is the answer under this policy another than decline?
    Why it matters: Whatever declines a check makes it likely that nobody will pay it, and the goods have left.
    Example: A check without a signature was kept and deposited.
    What to do: Ask who decided; have the check completed or replaced while the customer can still be found.
    """
    if seen.disposition is not Disposition.DECLINE:
        return None
    did = str(seen.read.tender.taken_as).capitalize()
    return f"{did}, but the answer is decline: {_barring(seen, Effect.DECLINE)}."


_ASKED: dict[str, dict[str, Callable[[Assessment], str | None]]] = {
    "converted": {
        "converted-though-barred": converted_though_barred, "taken-though-declined": taken_though_declined,
    },
    "kept": {"kept-though-convertible": kept_though_convertible, "taken-though-declined": taken_though_declined},
    "returned": {},
}  # fmt: skip
RULES_OF_THE_LANE = ("converted-though-barred", "kept-though-convertible", "taken-though-declined")


def held(place: Place, seen: Assessment, counts: Counts) -> Iterator[AuditFinding]:
    """Hold one check's answer against what the lane did with it."""
    taken = seen.read.tender.taken_as
    if taken is None:
        for name in RULES_OF_THE_LANE:
            counts.unread[name][UNKNOWN] += 1
        return
    for name, ask in _ASKED[taken].items():
        counts.asked[name] += 1
        message = ask(seen)
        if message is not None:
            yield counts.add(found(name, message, [place]))


def _barring(seen: Assessment, least: Effect) -> str:
    return ", ".join(dict.fromkeys(finding.rule for finding in seen.findings if finding.effect >= least))
