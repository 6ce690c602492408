"""A clean check of any kind, made by dice: whoever throws the same numbers holds the same check.

>>> import random
>>> from datetime import date
>>> made = clean("personal", random.Random(7), date(2026, 11, 24))
>>> made["face"]["figures"], made["face"]["words"]
('$141.87', 'One hundred forty-one and 87/100')
"""

from __future__ import annotations

import random
from datetime import date, timedelta
from functools import cache
from typing import Any

from checkface import amounts, micr, tables
from checkface.handling.spelled import spelled
from checkface.kinds import Kind, where
from checkface.training import invented
from checkface.training.invented import Paper

#: Cents: what a basket costs.
CHEAPEST, DEAREST = 1_250, 24_999
#: Kinds that come to the counter made out to the customer.
PAID_TO_CUSTOMER = where(lambda row: row.paid_to == "customer")


def clean(kind: str, dice: random.Random, on: date, payee: str = "") -> dict[str, Any]:
    """The wire form of a clean tender of *kind* on the day *on*, made out to *payee*.

    Without one it is made out to the invented shop, and what is paid to customers to the customer. Nothing of it is
    real. The clerk has declared no kind. Raises ``KeyError`` for a kind that has no paper.
    """
    paper = invented.papers()[kind]
    bank = dice.choice(invented.banks())
    serial = _serial(paper, dice)
    issued = [whole for whole in Kind(kind).row.denominations if whole * 100 <= DEAREST]
    cents = dice.choice(issued) * 100 if issued else dice.randint(CHEAPEST, DEAREST)
    who = invented.person(dice)
    written = on - timedelta(days=dice.choice((0, 0, 0, 1)))
    account = invented.stream(f"{paper.made.routing or bank.routing} {serial}", dice.choice((8, 9, 10)))
    face: dict[str, Any] = {
        "micr": _line(paper, bank.routing, account, serial),
        "fraction": "" if paper.made.routing else bank.fraction,
        "serial": serial,
        "date": written.strftime(dice.choice(("%m/%d/%Y", "%m/%d/%y", "%b %d, %Y"))),
        "payee": payee or (who if kind in PAID_TO_CUSTOMER else invented.house()),
        **amount(cents),
        "drawer": _drawer(paper, who, bank.state, dice),
        "drawee": _drawee(paper, bank.state, dice),
        "legends": list(paper.made.legends),
        "signature": True,
        "endorsements": "",
        "alterations": False,
    }
    if paper.made.two_signatures:
        face["countersignature"] = True
    counter = {"on": on.isoformat(), "micr_by": "reader", "network": "up", "authorization_signed": True}
    return {
        "face": face,
        "counter": counter | keyed(cents),
        "documents": [
            {
                "kind": "drivers-license",
                "state": _codes()[bank.state],
                "expires": (on + timedelta(days=dice.randint(200, 2000))).isoformat(),
                "name": who,
                "is_bearer": True,
            }
        ],
    }


@cache
def _codes() -> dict[str, str]:
    """The number of each state by its letters."""
    return {row["alpha"]: row["fips"] for row in tables.load("us_states").rows}


def amount(cents: int) -> dict[str, str]:
    """An amount as it stands in the box and on the line."""
    return {"figures": amounts.money(cents), "words": spelled(cents)}


def keyed(cents: int) -> dict[str, str]:
    """An amount as the clerk keys it, all of it for goods."""
    text = f"{cents // 100}.{cents % 100:02d}"
    return {"amount": text, "purchase": text}


def _serial(paper: Paper, dice: random.Random) -> str:
    if not paper.made.serial[1]:
        return ""
    serial = str(dice.randint(*paper.made.serial))
    if paper.kind == Kind.POSTAL_MONEY_ORDER:
        return serial + str(sum(map(int, serial)) % 9)  # the eleventh digit that textbooks give
    return serial


def _line(paper: Paper, number: str, account: str, serial: str) -> str:
    if paper.made.line == "money-order":
        return micr.format(paper.made.line, routing=paper.made.routing, serial=serial)
    padded = serial.zfill(6) if paper.made.line == "business" else serial
    return micr.format(paper.made.line, routing=number, account=account, serial=padded)


def _drawer(paper: Paper, who: str, state: str, dice: random.Random) -> list[str] | str:
    match paper.made.drawer:
        case "person":
            return [who, *invented.address(dice, state)]
        case "firm":
            return [dice.choice(invented.names("firms")), *invented.address(dice, state)]
        case "bank":
            return [invented.names("banks")[0], *invented.address(dice, state)]
        case "officer":
            return [invented.names("officers")[0], *invented.address(dice, state)]
    return ""


def _drawee(paper: Paper, state: str, dice: random.Random) -> list[str] | str:
    match paper.made.drawee:
        case "bank":
            return [invented.names("banks")[0], f"{dice.choice(invented.names('places'))}, {state}"]
        case "treasury":
            return [invented.names("others")[0]]
        case "federal":
            return [invented.names("others")[2]]
    return ""
