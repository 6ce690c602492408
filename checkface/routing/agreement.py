"""Whether a fraction and the nine digits of the MICR line speak of the same bank.

The first eight digits must be equal, and the state of the prefix must lie in the Federal Reserve district of
the number (12 CFR 229 Appendix A paragraph B). The prefix itself cannot be had from the nine digits.

>>> from checkface.routing.fraction import read_fraction
>>> fraction = read_fraction("11-3167/1210")
>>> agree(fraction, "121031673")
()
>>> [fault.message for fault in agree(fraction, "129131673")]
['Expected the routing symbol 1291 of the routing number, read 1210.']
"""

from __future__ import annotations

from checkface.routing import reference
from checkface.routing.fraction import Fraction
from checkface.span import Fault


def agree(fraction: Fraction, number: str) -> tuple[Fault, ...]:
    """What in *fraction* contradicts nine digits; empty when nothing does. Spans are into the fraction's text.

    Kinds of fault: ``fraction-differs`` (routing symbol or institution identifier),
    ``fraction-outside-district`` (the state of the prefix) and ``fraction-prefix-unknown``. Raises
    :class:`ValueError` if *number* is not nine digits; whether its sum holds does not matter here.
    """
    if len(number) != 9 or not (number.isascii() and number.isdigit()):
        raise ValueError("Expected nine digits.")
    faults = []
    for part, name, wanted, read in (
        ("symbol", "routing symbol", number[:4], fraction.symbol),
        ("institution", "institution identifier", number[4:8], fraction.institution),
    ):
        if read != wanted:
            expected = f"the {name} {wanted} of the routing number"
            faults.append(Fault("fraction-differs", fraction.spans[part], expected, read))
    if fraction.prefix is None:
        return tuple(faults)
    span = fraction.spans["prefix"]
    place, district = fraction.place, reference.series()[number[:2]].district
    if place is None:
        faults.append(Fault("fraction-prefix-unknown", span, "a prefix from 1 to 99 or 101", fraction.prefix))
    elif district is not None and district not in place.districts:
        expected = f"a prefix of Federal Reserve district {district}"
        read = f"{fraction.prefix} ({place.place}, district {' or '.join(map(str, place.districts))})"
        faults.append(Fault("fraction-outside-district", span, expected, read))
    return tuple(faults)
