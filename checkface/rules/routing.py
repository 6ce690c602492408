"""The nine digits between the transit symbols: their sum, their prefix, whose they are.

A number with two faults has two findings. The form of the whole line is asked in :mod:`checkface.rules.micr_line`, the
fraction that repeats the number in :mod:`checkface.rules.fraction`.
"""

from __future__ import annotations

from functools import partial

from checkface.findings import Effect, Label, Outcome, Remedy
from checkface.micr import MicrLine
from checkface.policy import Routing
from checkface.routing import RoutingNumber, check_digit
from checkface.rules.registry import NOT_APPLICABLE, Answer, Case, Hit, at, rule

#: Series of numbers that banks and thrifts have on their customers' checks.
_SERIES = frozenset({"primary", "thrift"})
_BANKS = frozenset({"federal-reserve-bank", "federal-home-loan-bank"})


def _ordinary(case: Case) -> Outcome | None:
    """A number in order, of a bank's own series and listed for nobody else: nothing is left to ask of it."""
    found, line = case.read.routing, case.read.line
    if found is None or line is None or not found.checksum or found.series not in _SERIES:
        return None
    return Outcome.HELD if found.government is None and line.routing_old_form is None else None


_rule = partial(rule, gate=_ordinary)


def _at(line: MicrLine, digits: slice = slice(None)) -> tuple[Label]:
    """A label on the number, or on these of its places."""
    places = range(*line.spans["routing"])[digits]
    return (at("micr", (places[0], places[-1] + 1)),)


@_rule("routing-checksum", Effect.REFER, by="aba-routing", remedy=Remedy.REREAD)
def routing_checksum(line: MicrLine, routing: RoutingNumber) -> Answer:
    """The check digit of the routing number does not fit its first eight digits.

    What it asks: Is three times the first, fourth and seventh digit, plus seven times the second, fifth and eighth,
        plus the third, sixth and ninth, a multiple of ten?
    Why it matters: A number that fails the sum belongs to no bank. Either the reader took one digit for another, or
        whoever printed the line made the number up.
    Example: 111000026 sums to 31; the eight digits before the last call for a 5.
    What to do: Pass the check through the reader again and compare the number with the fraction at the upper right. If
        it still fails, a manager looks at the paper.
    """
    if routing.checksum:
        return None
    fits, read = check_digit(routing.number[:8]), routing.number[8]
    return Hit(
        f"The routing number ends in {read}; its first eight digits call for {fits}.", _at(line, slice(-1, None))
    )


@_rule("routing-all-zero", Effect.DECLINE, by="aba-routing", remedy=Remedy.REREAD)
def routing_all_zero(line: MicrLine, routing: RoutingNumber) -> Answer:
    """The routing number is nine zeros.

    What it asks: Is any digit of the number other than zero?
    Why it matters: Nine zeros pass the sum and are nobody's number. Sample sheets and home-made checks carry them.
    Example: The line reads 000000000 between its transit symbols, and the sum, being zero, is in order.
    What to do: Hand the check back. It names no bank that could pay it.
    """
    return None if routing.number.strip("0") else Hit("The routing number is nine zeros.", _at(line))


@_rule("routing-old-form", Effect.KEEP, by="aba-routing x9-100-160", remedy=Remedy.NEW_CHECK)
def routing_old_form(line: MicrLine) -> Answer:
    """The routing number stands in the old form, four digits, a dash and four digits.

    What it asks: Are there nine digits between the transit symbols, the last a check digit?
    Why it matters: The old form fills the same nine places but has no check digit, so a misread digit cannot be
        noticed, and an electronic entry needs all nine.
    Example: 0710-9897 on a check from the back of a drawer.
    What to do: Keep it on paper, or ask for a check of a newer print.
    """
    if line.routing_old_form is None:
        return None
    message = f"The routing number {line.routing_old_form} is in the old form, without a check digit."
    return Hit(message, _at(line))


@_rule("routing-unassigned-prefix", Effect.REFER, by="aba-routing", remedy=Remedy.REREAD)
def routing_unassigned_prefix(line: MicrLine, routing: RoutingNumber) -> Answer:
    """The routing number begins with two digits that were never given out.

    What it asks: Do the first two digits lie in 00 to 12, 21 to 32, 61 to 72, or are they 80?
    Why it matters: The first two digits name a Federal Reserve district or a special series. A number outside them may
        pass the sum and still be nobody's.
    Example: 450000004 passes the sum, and there is no forty-fifth district.
    What to do: Read the line again; if the digits stand, a manager decides.
    """
    if routing.series != "unassigned":
        return None
    return Hit(f"No routing number begins with {routing.number[:2]}.", _at(line, slice(2)))


@_rule("routing-electronic-only", Effect.REFER, by="aba-routing", remedy=Remedy.REREAD)
def routing_electronic_only(line: MicrLine, routing: RoutingNumber) -> Answer:
    """The routing number is of a series that is used for electronic entries and never printed on checks.

    What it asks: Are the first two digits between 61 and 72?
    Why it matters: These numbers are given out for electronic transactions. On paper they mean that somebody copied a
        number from a statement or a web page, or that the line was misread.
    Example: 612000021 stands where 012000027 or 212000027 would name a bank.
    What to do: Read the line again; if the digits stand, a manager decides.
    """
    if routing.series != "electronic":
        return None
    message = f"Routing numbers that begin with {routing.number[:2]} are for electronic entries, not for checks."
    return Hit(message, _at(line, slice(2)))


@_rule("routing-government", Effect.KEEP, by="nacha-ineligible 12-cfr-229-app-a")
def routing_government(line: MicrLine, routing: RoutingNumber) -> Answer:
    """The routing number is the United States Government's.

    What it asks: Does the number begin with 00, or is it listed for the Treasury or the Postal Service?
    Why it matters: Government items are barred from conversion: there is no consumer's account behind the line. On
        paper they are good while their own term runs.
    Example: 000000518 on a Treasury check, 000000204 on a postal money order.
    What to do: Keep the check. Compare the payee with the identification and look for the marks of genuine paper.
    """
    owner = routing.government
    if routing.series != "government" and (owner is None or owner.kind in _BANKS):
        return None
    whose = "it begins with 00" if owner is None else owner.entity
    return Hit(f"The routing number is the U.S. Government's: {whose}.", _at(line))


@_rule("routing-federal-bank", Effect.KEEP, by="nacha-ineligible 12-cfr-229-app-a")
def routing_federal_bank(line: MicrLine, routing: RoutingNumber) -> Answer:
    """The routing number is that of a Federal Reserve Bank or a Federal Home Loan Bank.

    What it asks: Is the number listed for one of these banks?
    Why it matters: Items drawn on or payable through them are barred from conversion by name.
    Example: 011000015, the Federal Reserve Bank of Boston.
    What to do: Keep the check.
    """
    owner = routing.government
    if owner is None or owner.kind not in _BANKS:
        return None
    return Hit(f"The routing number is a federal bank's: {owner.entity}.", _at(line))


@rule("routing-not-in-directory", Effect.REFER, by="house-policy", remedy=Remedy.REREAD)
def routing_not_in_directory(line: MicrLine, routing: RoutingNumber, house_routing: Routing) -> Answer:
    """The routing number is not in the directory the house keeps.

    What it asks: Where the policy lists the numbers in use, is this one of them?
    Why it matters: The sum and the prefix show that a number could exist; only a directory shows that it does. A bank
        that merged leaves its old numbers on years of printed checks, so absence is a reason to look, not proof.
    Example: 071098973 passes every rule of form and no bank has it.
    What to do: Read the line again, look the bank up, or have a manager decide.
    """
    if not house_routing.directory:
        return NOT_APPLICABLE
    if routing.number in house_routing.numbers:
        return None
    return Hit("The routing number is not in the house's directory.", _at(line))
