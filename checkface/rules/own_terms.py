"""Kinds with terms of their own: postal money orders and traveler's checks."""

from __future__ import annotations

from functools import partial

from checkface import instruments
from checkface.amounts import money
from checkface.findings import Effect, Outcome, Remedy
from checkface.instruments import Inference
from checkface.rules.kinds import ONLY_PERSONAL, is_open
from checkface.rules.registry import NOT_APPLICABLE, UNREAD, Answer, Case, Hit, at, rule, whole
from checkface.tender import Face, Kind, Mark

#: Cents. USPS Domestic Mail Manual; Postal Bulletin 22249.
POSTAL_MAXIMUM = 100_000


def _personal(case: Case) -> Outcome | None:
    """Where the one kind in evidence is personal, no other kind's terms apply."""
    return NOT_APPLICABLE if case.read.kinds == ONLY_PERSONAL else None


_rule = partial(rule, gate=_personal)


@_rule("postal-money-order-over-maximum", Effect.DECLINE, by="usps-dmm", floor=Effect.DECLINE)
def postal_money_order_over_maximum(
    kinds: frozenset[Kind], largest_cents: int | None, inference: Inference, declared: Kind | None
) -> Answer:
    """A postal money order for more than is ever issued.

    What it asks: Is the amount of a postal money order above $1,000.00? Where the line leaves open whether it is
        one, a manager decides.
    Why it matters: The post office issues none for more, so a larger one has been altered or made up.
    Example: A postal money order for $1,950.00, the first digit in another ink.
    What to do: Hand it back and say nothing of the reason.
    """
    if Kind.POSTAL_MONEY_ORDER not in kinds:
        return NOT_APPLICABLE
    if largest_cents is None or largest_cents <= POSTAL_MAXIMUM:
        return UNREAD if largest_cents is None else None
    may_be = is_open(Kind.POSTAL_MONEY_ORDER, inference, declared)
    if may_be and declared is Kind.TREASURY_CHECK:
        return NOT_APPLICABLE
    message = f"{money(largest_cents)}, and a postal money order is for {money(POSTAL_MAXIMUM)} at most."
    return Hit(message, (at("figures"),), Effect.REFER if may_be else None, Remedy.MANAGER if may_be else None)


@_rule("postal-money-order-serial", Effect.NOTE, by="money-order-textbook", remedy=Remedy.REREAD)
def postal_money_order_serial(kinds: frozenset[Kind], serial_text: str, serial: str | None) -> Answer:
    """The serial of a postal money order does not fit the digit that textbooks give.

    What it asks: Is the eleventh digit the sum of the first ten, modulo nine?
    Why it matters: The post office has not published the rule and some published examples break it: a reason to look
        again, never a reason to refuse.
    Example: A serial whose last digit is 3 where 7 would fit.
    What to do: Read the serial again.
    """
    if Kind.POSTAL_MONEY_ORDER not in kinds:
        return NOT_APPLICABLE
    if instruments.postal_serial_ok(serial or ""):
        return None
    return Hit("The last digit of the serial does not fit the others.", (whole("serial", serial_text),))


@_rule("travelers-countersignature", Effect.DECLINE, by="ucc-3-104", remedy=Remedy.SIGN)
def travelers_countersignature(kinds: frozenset[Kind], face: Face) -> Answer:
    """A traveler's check without its second signature.

    What it asks: Was the countersignature seen, and written at the counter?
    Why it matters: A traveler's check is an order only once the person whose specimen signature it bears has
        countersigned.
    Example: One signature at the top, the line below it empty.
    What to do: Ask for the countersignature and watch it being written.
    """
    if Kind.TRAVELERS_CHECK not in kinds:
        return NOT_APPLICABLE
    match face.countersignature:
        case Mark.YES:
            return None
        case Mark.ABSENT:
            return UNREAD
        case _:
            return Hit("Not countersigned.", (at("countersignature"),))
