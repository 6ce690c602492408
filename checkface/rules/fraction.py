"""The fraction at the upper right, which says the routing number a second time."""

from __future__ import annotations

from checkface import routing
from checkface.findings import Effect, Remedy
from checkface.micr import MicrLine
from checkface.routing import Fraction
from checkface.rules.registry import NOT_APPLICABLE, UNREAD, Answer, Case, Hit, at, rule
from checkface.span import Fault


@rule(
    "fraction-differs", Effect.REFER, by="aba-fraction common-practice", needs="fraction micr", remedy=Remedy.REREAD,
    floor=Effect.KEEP,
)  # fmt: skip
def fraction_differs(case: Case) -> Answer:
    """The fraction and the magnetic-ink line name different banks.

    What it asks: Are the eight digits of the fraction the first eight of the routing number?
    Why it matters: Both were printed from one order. Where they differ the reader took a digit for another,
        or the line was changed, which sends the check on a longer way.
    Example: 11-3167/1210 beside a line that reads 129131673.
    What to do: Pass the check again and read the fraction again. If both stand, a manager calls the bank, at
        a number that is not taken from the check.
    """
    fraction, line = case.read.fraction, case.read.micr
    if not isinstance(fraction, Fraction) or not isinstance(line, MicrLine):
        return None
    number = line.routing or line.routing_repaired or (line.routing_old_form or "").replace("-", "")
    if number[:8] == fraction.symbol + fraction.institution:
        return None
    if line.returned:
        return NOT_APPLICABLE  # the line holds the number of the bank of first deposit
    if not number:
        return UNREAD
    faults = [fault for fault in routing.agree(fraction, number.ljust(9, "0")) if fault.kind == "fraction-differs"]
    other = at("micr", line.spans.get("routing"), "the line", primary=False)
    return tuple(Hit(fault.message, (at("fraction", fault.span), other)) for fault in faults)


@rule(
    "fraction-outside-district", Effect.REFER, by="aba-fraction 12-cfr-229-app-a", needs="fraction",
    remedy=Remedy.REREAD, floor=Effect.KEEP,
)  # fmt: skip
def fraction_outside_district(case: Case) -> Answer:
    """The two parts of the fraction lie in different parts of the country.

    What it asks: Does the city or state of the prefix lie in the Federal Reserve district of the routing
        symbol?
    Why it matters: The prefix was given out by place and the symbol by district, so a bank's two always meet.
        Whoever makes a fraction up rarely knows that.
    Example: Prefix 90, California, over a symbol of the Boston district.
    What to do: Read the fraction again; if it stands, a manager decides.
    """
    fraction = case.read.fraction
    if not isinstance(fraction, Fraction):
        return None
    place, district = fraction.place, fraction.district
    if place is None or district is None:
        return NOT_APPLICABLE
    if district in place.districts:
        return None
    lies = " or ".join(map(str, place.districts))
    read = f"{fraction.prefix} ({place.place}, district {lies})"
    message = f"Expected a prefix of Federal Reserve district {district}, read {read}."
    labels = (
        at("fraction", fraction.spans["prefix"]),
        at("fraction", fraction.spans["symbol"], "the district", primary=False),
    )
    return Hit(message, labels)


@rule("fraction-malformed", Effect.NOTE, by="aba-fraction", needs="fraction_text", remedy=Remedy.REREAD)
def fraction_malformed(case: Case) -> Answer:
    """What stands at the upper right is not a fraction.

    What it asks: Is there a known prefix, a dash, the institution, a bar and the routing symbol?
    Why it matters: Small print misreads easily and some checks carry no fraction, so this alone says little.
        It does mean that the routing number has no second witness.
    Example: 53-9477 with the lower half lost.
    What to do: Read it again if the line is in doubt.
    """
    fraction = case.read.fraction
    if isinstance(fraction, Fraction):
        if fraction.place is not None or fraction.prefix is None:
            return None
        message = f"Expected a prefix from 1 to 99 or 101, read {fraction.prefix}."
        return Hit(message, (at("fraction", fraction.spans["prefix"]),))
    return Hit(fraction.message, (at("fraction", fraction.span),)) if isinstance(fraction, Fault) else UNREAD
