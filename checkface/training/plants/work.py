"""A clean check on the bench, and the register of what can be done to it."""

from __future__ import annotations

import random
from collections.abc import Callable
from datetime import date
from typing import Any, NamedTuple

from checkface import micr
from checkface.training import invented, specimens


class Work:
    """The wire form of a check that is being spoilt; ``dice`` choose where several ways are as good."""

    def __init__(self, wire: dict[str, Any], dice: random.Random) -> None:
        self.wire = wire
        self.dice = dice
        self.face: dict[str, Any] = wire["face"]
        self.counter: dict[str, Any] = wire["counter"]
        self.documents: list[dict[str, Any]] = wire["documents"]
        line = micr.read(self.face["micr"], None, None, self.face["serial"] or None)
        found = line if isinstance(line, micr.MicrLine) else None
        self.routing = (found.routing if found else None) or ""
        self.account = (found.account if found else None) or ""
        self.serial: str = self.face["serial"]
        self.drawer: str = self.face["drawer"][0] if self.face["drawer"] else ""

    @property
    def on(self) -> date:
        """The day of tender."""
        return date.fromisoformat(self.counter["on"])

    @property
    def cents(self) -> int:
        """The amount, as it was keyed."""
        dollars, _, rest = self.counter["amount"].partition(".")
        return int(dollars) * 100 + int(rest)

    def line(self, layout: str = "personal", **fields: Any) -> None:
        """Print the magnetic-ink line anew."""
        given = {"routing": self.routing, "account": self.account, "serial": self.serial, **fields}
        self.face["micr"] = micr.format(layout, **given)

    def pays(self, cents: int, purchase: int | None = None) -> None:
        """Write and key another amount, the same on every reading."""
        self.face |= specimens.amount(cents)
        self.counter |= specimens.keyed(cents)
        if purchase is not None:
            self.counter["purchase"] = specimens.keyed(purchase)["purchase"]

    def dated(self, text: str, on: date | None = None) -> None:
        """Write another date, and bring the check another day."""
        self.face["date"] = text
        if on is not None:
            self.counter["on"] = on.isoformat()

    def another_bank(self) -> invented.Bank:
        """A specimen bank of another district."""
        others = [bank for bank in invented.banks() if bank.routing[:2] != self.routing[:2]]
        return self.dice.choice(others)


class Plant(NamedTuple):
    """One way to spoil a check.

    ``rule`` is what it must trigger, ``also`` what comes with it by nature; ``kind`` is the paper it starts from, and
    ``part`` what it spoils: two faults of one check spoil two parts.
    """

    name: str
    rule: str
    also: frozenset[str]
    kind: str
    part: str
    do: Callable[[Work], None]


#: Every plant by name, in the order of the modules.
PLANTS: dict[str, Plant] = {}


Do = Callable[[Work], None]


def plants(rule: str, also: str = "", kind: str = "personal") -> Callable[[Do], Do]:
    """Register a function as the plant that bears its name."""

    def register(do: Do) -> Do:
        name = do.__name__.replace("_", "-")
        PLANTS[name] = Plant(name, rule, frozenset(also.split()), kind, do.__module__.rpartition(".")[2], do)
        return do

    return register


def plants_line(rule: str, also: str = "") -> Callable[[Do], Do]:
    """As :func:`plants`, for what spoils the magnetic-ink line: it leaves the kind open where nobody declares it."""
    return plants(rule, f"{also} kind-undetermined")
