"""The rules on the paper found in the drawer: every kept check is there, no other is, and nothing else."""

from __future__ import annotations

from collections.abc import Sequence

from checkface.amounts import money
from checkface.audit.across.book import rule
from checkface.audit.across.found import NAMED, Place, listed
from checkface.audit.across.sight import Sight
from checkface.findings import Effect

_NEEDS = "what the lane did (taken_as), a check number or an amount"
#: Which rule asks of a check, by what the lane did with it.
ASKED = {"kept": "kept-check-missing", "converted": "converted-check-in-drawer", "returned": "returned-check-in-drawer"}


@rule("kept-check-missing", Effect.REFER, by="common-practice", needs=_NEEDS)
def kept_check_missing(checks: Sequence[Sight], number: int, *, at_least: bool = False) -> str:
    """A check the lane kept is not in the drawer: the till is short by it.

    What it asks: Is every check that was kept among the papers found in the drawer?
    Why it matters: A kept check that was handed back, lost or taken is money for which there is neither a debit nor
        paper.
    Example: Check 1044 over $19.99 was kept at noon; the drawer of the evening holds every other one.
    What to do: Look beside the drawer and in the next one; ask the lane whether it was handed back; reconstruct it from
        the image, or tell the customer.
    """
    least = "at least " if at_least else ""
    short = "it" if number == 1 else "them"
    return f"Kept and not in the drawer: {least}{_these(checks, number)}. The till is short by {short}."


@rule("converted-check-in-drawer", Effect.REFER, by="nacha-single-use", needs=_NEEDS)
def converted_check_in_drawer(checks: Sequence[Sight], number: int, papers: Sequence[Place]) -> str:
    """A check that was converted lies in the drawer: deposited, it would be paid twice.

    What it asks: Is every check that was converted absent from the drawer?
    Why it matters: The debit is on its way. The paper should have been voided and handed back; with the deposit it
        would take the amount from the account a second time.
    Example: Check 1043 was converted, and lies between the kept ones.
    What to do: Take it out before the deposit is made up, void it, and send it back to the customer.
    """
    return f"Converted and in the drawer{_at(papers)}: {_these(checks, number)}. Deposited, it would be paid twice."


@rule("returned-check-in-drawer", Effect.REFER, by="common-practice", needs=_NEEDS)
def returned_check_in_drawer(checks: Sequence[Sight], number: int, papers: Sequence[Place]) -> str:
    """A check recorded as handed back lies in the drawer.

    What it asks: Is every check that was handed back untaken absent from the drawer, unless it came again and was kept?
    Why it matters: Either the record is wrong and the goods were paid for with it, or a customer's check is held
        without a reason and must not be deposited.
    Example: Check 207 was declined and recorded as returned, and is in the drawer.
    What to do: Ask the lane; correct the record, or give the check back.
    """
    return f"Recorded as handed back and in the drawer{_at(papers)}: {_these(checks, number)}."


@rule("drawer-amount-differs", Effect.REFER, by="common-practice", needs="the amount of both")
def drawer_amount_differs(check: Sight, paper: Sight) -> str | None:
    """The paper in the drawer has another amount than was recorded.

    What it asks: Do the record and the paper of one check, known by its numbers, have one amount?
    Why it matters: The bank pays what the paper says; the drawer adds up to what was recorded.
    Example: Recorded with $45.10, and the check in the drawer says $54.10.
    What to do: Read the paper again; correct the record or the sum of the drawer.
    """
    if check.amount is None or paper.amount is None or check.amount == paper.amount:
        return None
    recorded, there = money(check.amount), money(paper.amount)
    return f"Recorded with {recorded}; the paper in the drawer ({paper.place.text}) says {there}."


def perhaps_the_same(check: Sight, paper: Sight) -> str:
    """What ``drawer-amount-differs`` says where only the check number makes both one."""
    recorded, there = money(check.amount or 0), money(paper.amount or 0)
    at = paper.place.text
    return f"Check {check.number}, recorded with {recorded}, listed with {there} ({at}): perhaps the same."


@rule("drawer-check-unexplained", Effect.REFER, by="common-practice", needs="a check number or an amount")
def drawer_check_unexplained(paper: Sight, first: Place | None) -> str:
    """A paper in the drawer is no check of the file.

    What it asks: Is there, for each paper in the drawer, a check of the file that it is?
    Why it matters: A paper nobody recorded was taken past the lane, belongs to another drawer or day, was listed twice,
        or was misread, then or now.
    Example: The drawer holds a check of $12.00 that no lane recorded.
    What to do: Look at the paper; find its sale. It is deposited only when somebody knows where it came from.
    """
    if first is not None:
        return f"In the drawer a second time, after {first.text}: {paper.name}. No other check of the file explains it."
    return f"In the drawer, and no check of the file explains it: {paper.name}."


def some_unexplained(papers: Sequence[Place], number: int, skipped: int) -> str:
    """What ``drawer-check-unexplained`` says where *skipped* rows of the file may be some of the *papers*."""
    rows = f"{skipped:,} row{'s' * (skipped != 1)} of the file {'was' if skipped == 1 else 'were'} skipped"
    least = f"at least {number} of these {len(papers)}"
    return f"In the drawer, and no check of the file explains {least}; {rows}: {listed(papers)}."


@rule("drawer-check-ambiguous", Effect.REFER, by="common-practice", needs=_NEEDS)
def drawer_check_ambiguous(checks: Sequence[Sight], number: int) -> str:
    """Several checks fit the papers in the drawer, and not all of them should be there.

    What it asks: Where too little is known of a paper to say which check it is, does the choice make no difference?
    Why it matters: If it is the kept check, all is well; if it is the converted one, it must not be deposited and
        another paper is missing. A list cannot say which.
    Example: The list has only $20.00, and of two checks over $20.00 one was kept and one converted.
    What to do: Look at the paper and list its check number or its line.
    """
    these = ", ".join(f"{check.place.text} ({check.taken or 'nothing says how taken'})" for check in checks[:NAMED])
    more = f" and {len(checks) - NAMED} more" if len(checks) > NAMED else ""
    return f"In the drawer {'is' if number == 1 else 'are'} {number} of these, and nothing tells which: {these}{more}."


def _at(papers: Sequence[Place]) -> str:
    return f" ({listed(papers)})" if papers else ""


def _these(checks: Sequence[Sight], number: int) -> str:
    if len(checks) == number == 1:
        return checks[0].name
    these = listed(check.place for check in checks)
    return f"{number} of these {len(checks)}, which nothing on the papers tells: {these}"
