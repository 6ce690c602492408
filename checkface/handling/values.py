"""The words that go into the ``{fields}`` of a step, each worked out when a text asks for it.

What nobody has told us is :data:`BLANK`, a line to write on. No field holds an account or identification number.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import TYPE_CHECKING, TypeGuard

from checkface import amounts, masking, tables
from checkface.findings import Disposition
from checkface.handling.layout import printable
from checkface.handling.notation import noted
from checkface.handling.spelled import LIMIT, spelled
from checkface.micr import MicrLine
from checkface.rules.registry import RULES

if TYPE_CHECKING:
    from checkface.decision import Decision
    from checkface.handling.printing import Agency, Printing
    from checkface.policy import Place, Policy
    from checkface.reading import ReadTender

#: A line to write on by hand.
BLANK = "________"
#: Digits of a serial number at most: a debit entry has no room for more (published summaries of the network's rules).
LONGEST_SERIAL = 15


class Values:
    """The fields of one tender, looked up by name as in a mapping."""

    __slots__ = ("_told", "agency", "decision", "place", "policy", "printing", "read")

    def __init__(
        self, decision: Decision, read: ReadTender, policy: Policy, printing: Printing, agency: Agency | None
    ) -> None:
        self.decision = decision
        self.read = read
        self.policy = policy
        self.printing = printing
        self.agency = agency
        self.place: Place = policy.place(read.counter.store)
        self._told: dict[str, str] = {}

    def __getitem__(self, name: str) -> str:
        return self.get(name) or BLANK

    def get(self, name: str) -> str:
        """The field called *name*; empty when nobody has told us."""
        if name not in self._told:
            # A reading may hold anything; no character of it steers a printer.
            self._told[name] = "\n".join(map(printable, FIELDS[name](self).split("\n")))
        return self._told[name]


def _money(cents: int | None) -> str:
    return "" if cents is None else amounts.money(cents)


def spellable(cents: int | None) -> TypeGuard[int]:
    """Whether an amount is known and small enough to be written in words."""
    return cents is not None and 0 <= cents < LIMIT


def house_name(policy: Policy) -> str:
    """The name the house goes by: its own, else the first under which it takes checks, else empty."""
    return policy.house.name or next(iter(policy.payee.names), "")


def code(values: Values) -> str:
    """The reason code of the slip: what the first deciding finding is about. It names a thing, never a person."""
    first = next(iter(values.decision.because), None)
    known = RULES.get(first.rule) if first else None
    return _codes().get(known.family, "house") if known else "house"


@cache
def _codes() -> dict[str, str]:
    reasons = tables.load("notices").data["reason"]
    return {family: name for name, entry in reasons.items() for family in entry["families"]}


def _reason(values: Values) -> str:
    text: str = tables.load("notices").data["reason"][code(values)]["text"]
    return text


def _identification(values: Values) -> str:
    document = next((shown for shown in values.read.tender.documents or () if shown.is_bearer is not False), None)
    if document is None:
        return ""
    return noted(document, values.place.state, values.read.counter.on, number=values.policy.identity.record_number)


def _date(values: Values) -> str:
    on = values.read.counter.on
    return f"{on:%m/%d/%Y}" if on else ""


def _serial(values: Values) -> str:
    line = values.read.micr
    serial = values.read.serial or (line.serial if isinstance(line, MicrLine) else None) or ""
    # More digits than any serial has are something else, and so is the account's number: both stay off the paper.
    fits = len(serial) <= LONGEST_SERIAL and masking.own(serial, values.read) == serial
    return serial if fits else ""


_TO = {Disposition.CONVERT: ("convert it", "converted"), Disposition.KEEP: ("keep it", "kept")}


def _openings(values: Values) -> str:
    lines = []
    for change in values.decision.would_change:
        if change.disposition in _TO:  # to call the manager is no choice of the manager's
            do, done = _TO[change.disposition]
            faults = " ".join(dict.fromkeys(finding.message for finding in change.cures))
            lines.append(f"To {do}, cure this: {faults}" if change.curable else f"Cannot be {done} here: {faults}")
    return "\n".join(lines)


def _feed(values: Values) -> str:
    counter = values.policy.counter
    how = [f"face {counter.face}"] if counter.face else []
    how += [f"{counter.edge} edge first"] if counter.edge else []
    return f"Put the check in the reader{''.join(f', {words}' for words in how)}."


FIELDS: dict[str, Callable[[Values], str]] = {
    "answer": lambda v: v.decision.for_customer,
    "reasons": lambda v: v.decision.for_house,
    "openings": _openings,
    "feed": _feed,
    "amount": lambda v: _money(masking.amount(v.read.amount_cents, masking.own_numbers(v.read))),
    "words": lambda v: spelled(v.read.amount_cents) if spellable(v.read.amount_cents) else "",
    "date": _date,
    "time": lambda v: f"{v.printing.at:%H:%M}" if v.printing.at else "",
    "serial": _serial,
    "payee": lambda v: house_name(v.policy),
    "house": lambda v: house_name(v.policy),
    "telephone": lambda v: v.place.telephone,
    "location": lambda v: v.place.location,
    "here": lambda v: " ".join(filter(None, (v.place.location, _date(v)))),
    "city": lambda v: v.place.city,
    "state": lambda v: v.place.state,
    "return_fee": lambda v: _money(v.policy.house.return_fee),
    "lane": lambda v: masking.own(v.read.counter.lane, v.read, "counter"),
    "employee": lambda v: masking.own(v.read.counter.employee, v.read, "counter"),
    "blank": lambda _: "",
    "initials": lambda v: v.printing.initials,
    "customer_telephone": lambda v: v.printing.customer_telephone,
    "identification": _identification,
    "reason": _reason,
    "code": code,
    "agency_name": lambda v: v.agency.name if v.agency else "",
    "agency_address": lambda v: v.agency.address if v.agency else "",
    "agency_telephone": lambda v: v.agency.telephone if v.agency else "",
}
