"""Whether the address printed on a check is the one on the card. People move: this is a note, never a
reason to refuse.

>>> card = Address("2300 WEST BROAD STREET", "RICHMOND", "VA", "23269")
>>> addresses_agree(["MICHAEL SAMPLE", "2300 W. Broad St", "Richmond, VA 23269-0001"], card)
AddressAgreement(verdict='same', reason='house number and postal code agree')
>>> addresses_agree(["MICHAEL SAMPLE", "PO BOX 12", "RICHMOND VA 23269"], card).verdict
'compatible'
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, NamedTuple

from checkface.patterns import lazily

from .card import Address, Card

_LONGEST = 2_000
_POSTAL = lazily(r"\b([0-9]{5})(?:-?[0-9]{4})?\s*$|\b([A-Z][0-9][A-Z]) ?([0-9][A-Z][0-9])\s*$")
_HOUSE = lazily(r"\s*([0-9]+)\b(?! *(?:ST|ND|RD|TH)\b)")
_BOX = lazily(r"\bP\.? ?O\.? BOX\b")


class AddressAgreement(NamedTuple):
    """How far two addresses agree and why."""

    verdict: Literal["same", "compatible", "different", "unclear"]
    reason: str


def addresses_agree(drawer: str | Sequence[str], holder: Card | Address) -> AddressAgreement:
    """Compare house number and postal code of the printed lines with the card's.

    Street words are not compared: both sides shorten them in their own ways.
    """
    if sum(map(len, [drawer] if isinstance(drawer, str) else drawer)) > _LONGEST:
        return AddressAgreement("unclear", "too long for an address")
    lines = [line.upper() for line in (drawer.splitlines() if isinstance(drawer, str) else drawer)]
    card = holder.address if isinstance(holder, Card) else holder
    codes = [match[1] or match[2] + match[3] for line in lines if (match := _POSTAL.search(line))]
    if not codes or not card.postal:
        return AddressAgreement("unclear", "no postal code to compare")
    own = card.postal[:5] if card.postal[:5].isdigit() else card.postal
    if own not in codes:
        return AddressAgreement("different", "the postal codes differ")
    houses = {match[1].lstrip("0") for line in lines if (match := _HOUSE.match(line)) and not _POSTAL.fullmatch(line)}
    house = _HOUSE.match(card.street)
    if not houses or house is None or any(map(_BOX.search, lines)):
        return AddressAgreement("compatible", "the postal codes agree, house numbers were not compared")
    if house[1].lstrip("0") in houses:
        return AddressAgreement("same", "house number and postal code agree")
    return AddressAgreement("different", "the house numbers differ")
