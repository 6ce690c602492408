"""The nine digits between the transit symbols: their sum, their prefix, whose they are.

Every rule asks on its own; a number with two faults has two findings, and one in order is asked once for all. The form
of the whole line is the business of :mod:`checkface.rules.micr_line`, and the fraction that repeats the number of
:mod:`checkface.rules.fraction`.
"""

from __future__ import annotations

from functools import partial

from checkface.findings import Effect, Outcome, Remedy
from checkface.micr import MicrLine
from checkface.routing import check_digit
from checkface.rules.registry import NOT_APPLICABLE, Answer, Case, Hit, at, rule
from checkface.span import Span

#: Series of numbers that banks and thrifts have on their customers' checks.
_SERIES = frozenset({"primary", "thrift"})
_BANKS = frozenset({"federal-reserve-bank", "federal-home-loan-bank"})


def _span(case: Case) -> Span | None:
    line = case.read.micr
    return line.spans.get("routing") if isinstance(line, MicrLine) else None


def _ordinary(case: Case) -> Outcome | None:
    """A number in order, of a bank's own series and listed for nobody else: nothing is left to ask of it."""
    found, line = case.read.routing, case.read.line
    if found is None or line is None or not found.checksum or found.series not in _SERIES:
        return None
    return Outcome.HELD if found.government is None and line.routing_old_form is None else None


_rule = partial(rule, gate=_ordinary)


@_rule("routing-checksum", Effect.REFER, by="aba-routing", needs="routing", remedy=Remedy.REREAD)
def routing_checksum(case: Case) -> Answer:
    """The check digit of the routing number does not fit its first eight digits.

    What it asks: Is three times the first, fourth and seventh digit, plus seven times the second, fifth and
        eighth, plus the third, sixth and ninth, a multiple of ten?
    Why it matters: A number that fails the sum belongs to no bank. Either the reader took one digit for
        another, or whoever printed the line made the number up.
    Example: 111000026 sums to 31; the eight digits before the last call for a 5.
    What to do: Pass the check through the reader again and compare the number with the fraction at the upper
        right. If it still fails, a manager looks at the paper.
    """
    found = case.read.routing
    if found is None or found.checksum:
        return None
    fits, read = check_digit(found.number[:8]), found.number[8]
    span = _span(case)
    last = span and Span(span.end - 1, span.end)
    return Hit(f"Expected the check digit {fits} after the first eight digits, read {read}.", (at("micr", last),))


@_rule("routing-all-zero", Effect.DECLINE, by="aba-routing", needs="routing", remedy=Remedy.REREAD)
def routing_all_zero(case: Case) -> Answer:
    """The routing number is nine zeros.

    What it asks: Is any digit of the number other than zero?
    Why it matters: Nine zeros pass the sum and are nobody's number. Sample sheets and home-made checks carry
        them.
    Example: The line reads 000000000 between its transit symbols, and the sum, being zero, is in order.
    What to do: Hand the check back. It names no bank that could pay it.
    """
    found = case.read.routing
    if found is None or found.number != "000000000":
        return None
    return Hit("Expected a routing number, read nine zeros.", (at("micr", _span(case)),))


@_rule("routing-old-form", Effect.KEEP, by="aba-routing x9-100-160", needs="micr", remedy=Remedy.NEW_CHECK)
def routing_old_form(case: Case) -> Answer:
    """The routing number stands in the old form, four digits, a dash and four digits.

    What it asks: Are there nine digits between the transit symbols, the last a check digit?
    Why it matters: The old form fills the same nine places but has no check digit, so a misread digit cannot
        be noticed, and an electronic entry needs all nine.
    Example: 0710-9897 on a check from the back of a drawer.
    What to do: Keep it on paper, or ask for a check of a newer print.
    """
    line = case.read.micr
    if not isinstance(line, MicrLine) or line.routing_old_form is None:
        return None
    message = "Expected nine digits, read the old form of four digits, a dash and four digits."
    return Hit(message, (at("micr", _span(case)),))


@_rule("routing-unassigned-prefix", Effect.REFER, by="aba-routing", needs="routing", remedy=Remedy.REREAD)
def routing_unassigned_prefix(case: Case) -> Answer:
    """The routing number begins with two digits that were never given out.

    What it asks: Do the first two digits lie in 00 to 12, 21 to 32, 61 to 72, or are they 80?
    Why it matters: The first two digits name a Federal Reserve district or a special series. A number outside
        them passes the sum by arithmetic alone.
    Example: 450000004 passes the sum, and there is no forty-fifth district.
    What to do: Read the line again; if the digits stand, a manager decides.
    """
    found = case.read.routing
    if found is None or found.series != "unassigned":
        return None
    message = f"Expected 00 to 12, 21 to 32, 61 to 72 or 80 at the head of the routing number, read {found.number[:2]}."
    return Hit(message, (at("micr", _head(case)),))


@_rule("routing-electronic-only", Effect.REFER, by="aba-routing", needs="routing", remedy=Remedy.REREAD)
def routing_electronic_only(case: Case) -> Answer:
    """The routing number is of a series that is used for electronic entries and never printed on checks.

    What it asks: Are the first two digits between 61 and 72?
    Why it matters: These numbers are given out for electronic transactions. On paper they mean that somebody
        copied a number from a statement or a web page, or that the line was misread.
    Example: 612000021 stands where 012000027 or 212000027 would name a bank.
    What to do: Read the line again; if the digits stand, a manager decides.
    """
    found = case.read.routing
    if found is None or found.series != "electronic":
        return None
    read = f"{found.number[:2]}, kept for electronic entries"
    return Hit(f"Expected a routing number of a series printed on checks, read {read}.", (at("micr", _head(case)),))


@_rule("routing-government", Effect.KEEP, by="nacha-ineligible 12-cfr-229-app-a", needs="routing")
def routing_government(case: Case) -> Answer:
    """The routing number is the United States Government's.

    What it asks: Does the number begin with 00, or is it listed for the Treasury or the Postal Service?
    Why it matters: Government items are barred from conversion: there is no consumer's account behind the
        line. On paper they are good while their own term runs.
    Example: 000000518 on a Treasury check, 000000204 on a postal money order.
    What to do: Keep the check. Compare the payee with the identification and look for the marks of genuine
        paper.
    """
    found = case.read.routing
    if found is None:
        return None
    owner = found.government
    if found.series != "government" and (owner is None or owner.kind in _BANKS):
        return None
    if owner is None:
        message = "Expected the routing number of a bank, read the prefix 00 of the United States Government."
    else:
        message = f"Expected the routing number of a bank, read one of the United States Government: {owner.entity}."
    return Hit(message, (at("micr", _span(case)),))


@_rule("routing-federal-bank", Effect.KEEP, by="nacha-ineligible 12-cfr-229-app-a", needs="routing")
def routing_federal_bank(case: Case) -> Answer:
    """The routing number is that of a Federal Reserve Bank or a Federal Home Loan Bank.

    What it asks: Is the number listed for one of these banks?
    Why it matters: Items drawn on or payable through them are barred from conversion by name.
    Example: 011000015, the Federal Reserve Bank of Boston.
    What to do: Keep the check.
    """
    found = case.read.routing
    if found is None or (owner := found.government) is None or owner.kind not in _BANKS:
        return None
    message = f"Expected the routing number of a commercial bank, read one of the federal banks: {owner.entity}."
    return Hit(message, (at("micr", _span(case)),))


@rule("routing-not-in-directory", Effect.REFER, by="house-policy", needs="routing", remedy=Remedy.REREAD)
def routing_not_in_directory(case: Case) -> Answer:
    """The routing number is not in the directory the house keeps.

    What it asks: Where the policy lists the numbers in use, is this one of them?
    Why it matters: The sum and the prefix show that a number could exist; only a directory shows that it
        does. A bank that merged leaves its old numbers on years of printed checks, so absence is a reason to
        look, not proof.
    Example: 071098973 passes every rule of form and no bank has it.
    What to do: Read the line again, look the bank up, or have a manager decide.
    """
    directory = case.policy.routing
    if not directory.directory:
        return NOT_APPLICABLE
    found = case.read.routing
    if found is None or found.number in directory.numbers:
        return None
    return Hit(
        "Expected a routing number of the house's directory, read one that is not in it.", (at("micr", _span(case)),)
    )


def _head(case: Case) -> Span | None:
    """The first two digits, where they stand side by side."""
    span = _span(case)
    return span and Span(span.start, span.start + 2)
