"""What the MICR line says of the kind of paper.

Sources: 12 CFR 229 Appendix A (series), 12 CFR 229.31(a)(3) and published descriptions of the External Processing
Code, ASC X9 TR 100-2013 (auxiliary field), Treasury Financial Manual (postal money orders).
"""

from __future__ import annotations

from collections.abc import Iterator

from checkface.instruments.kinds import Evidence, Kind, LineFacts, Weight

_CODES = {
    "4": (Kind.SUBSTITUTE_CHECK, "the code 4 of a substitute check"),
    "5": (Kind.SUBSTITUTE_CHECK, "the code 5 of a returned substitute check"),
    "6": (Kind.REMOTELY_CREATED_CHECK, "the code 6 of a remotely created check"),
}
_OWNERS = {
    "treasury-check": Kind.TREASURY_CHECK,
    "postal-money-order": Kind.POSTAL_MONEY_ORDER,
    "savings-bond": Kind.SAVINGS_BOND,
    "federal-reserve-bank": Kind.FEDERAL_BANK_ITEM,
    "federal-home-loan-bank": Kind.FEDERAL_BANK_ITEM,
    "us-treasury": Kind.FEDERAL_BANK_ITEM,
}


def evidence(line: LineFacts) -> Iterator[Evidence]:
    """What each field says. An owner known from memory only is a hint: it can put other kinds in doubt, no more."""
    if line.epc in _CODES:
        kind, words = _CODES[line.epc]
        yield Evidence(kind, Weight.DECISIVE, "micr.epc", None, words)
    owner = _OWNERS.get(line.government_kind or "")
    if owner:
        weight = Weight.DECISIVE if line.government_confirmed else Weight.HINT
        words = f"a routing number {'known' if line.government_confirmed else 'remembered'} as that of a {owner}"
        yield Evidence(owner, weight, "micr.routing", None, words)
    if line.series == "government" and not line.government_confirmed:
        for kind in (Kind.TREASURY_CHECK, Kind.POSTAL_MONEY_ORDER):
            words = "a routing number of the United States Government"
            yield Evidence(kind, Weight.STRONG, "micr.routing", None, words)
    if line.series == "travelers":
        words = "a routing number of the traveler's check series"
        yield Evidence(Kind.TRAVELERS_CHECK, Weight.DECISIVE, "micr.routing", None, words)
    if line.auxiliary:
        words = "an auxiliary field, which only paper of business size holds"
        yield Evidence(Kind.BUSINESS, Weight.HINT, "micr.auxiliary", None, words)
    if line.country not in (None, "US"):
        words = "a line of another country"
        yield Evidence(Kind.FOREIGN_CURRENCY_CHECK, Weight.HINT, "micr.line", None, words)


def is_ordinary(line: LineFacts) -> bool:
    """Whether the line is a plain one of a customer's account: nothing left of the routing number, an account right."""
    return (
        line.country == "US"
        and line.series in ("primary", "thrift")
        and line.auxiliary is False
        and bool(line.account)
        and not (line.epc or "").strip()
        and line.government_kind is None
    )
