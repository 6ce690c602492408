"""The fraction at the upper right, which says the routing number a second time."""

from __future__ import annotations

from checkface.findings import Effect, Remedy
from checkface.micr import MicrLine
from checkface.routing import Fraction
from checkface.rules.registry import NOT_APPLICABLE, UNREAD, Answer, Hit, at, rule
from checkface.span import Fault


@rule("fraction-differs", Effect.REFER, by="aba-fraction common-practice", remedy=Remedy.REREAD, floor=Effect.KEEP)
def fraction_differs(fraction: Fraction, line: MicrLine) -> Answer:
    """The fraction and the magnetic-ink line name different banks.

    What it asks: Are the eight digits of the fraction the first eight of the routing number?
    Why it matters: Both were printed from one order. Where they differ the reader took a digit for another, or the line
        was changed, which sends the check on a longer way.
    Example: 11-3167/1210 beside a line that reads 129131673.
    What to do: Pass the check again and read the fraction again. If both stand, a manager calls the bank, at a number
        that is not taken from the check.
    """
    number = line.routing or line.routing_repaired or (line.routing_old_form or "").replace("-", "")
    if number[:8] == fraction.first_eight:
        return None
    if line.returned:
        return NOT_APPLICABLE  # the line holds the number of the bank of first deposit
    if not number:
        return UNREAD
    other = at("micr", line.spans.get("routing"), "the line", primary=False)
    return tuple(
        Hit(f"The fraction does not match the bottom line: {read}, not {wanted}.", (at("fraction", span), other))
        for read, wanted, span in (
            (fraction.symbol, number[:4], fraction.spans["symbol"]),
            (fraction.institution, number[4:8], fraction.spans["institution"]),
        )
        if read != wanted
    )


@rule(
    "fraction-outside-district", Effect.REFER, by="aba-fraction 12-cfr-229-app-a", remedy=Remedy.REREAD,
    floor=Effect.KEEP,
)  # fmt: skip
def fraction_outside_district(fraction: Fraction) -> Answer:
    """The two parts of the fraction lie in different parts of the country.

    What it asks: Does the city or state of the prefix lie in the Federal Reserve district of the routing symbol?
    Why it matters: The prefix was given out by place and the symbol by district, so a bank's two always meet. In a
        fraction that somebody made up they often do not.
    Example: Prefix 90, California, over a symbol of the Boston district.
    What to do: Read the fraction again; if it stands, a manager decides.
    """
    place, district = fraction.place, fraction.district
    if place is None or district is None:
        return NOT_APPLICABLE
    if district in place.districts:
        return None
    lies = " or ".join(map(str, place.districts))
    labels = (
        at("fraction", fraction.spans["prefix"]),
        at("fraction", fraction.spans["symbol"], "the district", primary=False),
    )
    return Hit(f"The fraction's {fraction.prefix} is {place.place}, district {lies}, not district {district}.", labels)


@rule("fraction-malformed", Effect.NOTE, by="aba-fraction", remedy=Remedy.REREAD)
def fraction_malformed(fraction_or_fault: Fraction | Fault) -> Answer:
    """What stands at the upper right is not a fraction.

    What it asks: Is there a known prefix, a dash, the institution, a bar and the routing symbol?
    Why it matters: Small print misreads easily and some checks carry no fraction, so this alone says little. But the
        routing number cannot be compared with it.
    Example: 53-9477 with the lower half lost.
    What to do: Read it again if the line is in doubt.
    """
    if isinstance(fraction_or_fault, Fault):
        said = _SAID.get(fraction_or_fault.kind, "The parts of the fraction are missing or out of order.")
        return Hit(said.format(fraction_or_fault.read), (at("fraction", fraction_or_fault.span),))
    if fraction_or_fault.place is not None or fraction_or_fault.prefix is None:
        return None
    message = f"The fraction begins with {fraction_or_fault.prefix}; only 1 to 99 and 101 are in use."
    return Hit(message, (at("fraction", fraction_or_fault.spans["prefix"]),))


_SAID = {
    "fraction-length": "The fraction is too long: {}.",
    "fraction-characters": "The fraction has {} in it.",
    "fraction-symbol": "The lower half of the fraction should have three or four digits, and has {}.",
}
