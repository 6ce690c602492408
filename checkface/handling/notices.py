"""What the customer reads: notices in the project's own words, each with the regulation it answers to.

Source: ``data/notices.toml``. Every notice carries the advice to have counsel settle it. The reporting agency's block
(15 USC 1681m(a)) exists only when a report was used.
"""

from typing import NamedTuple

from checkface import tables
from checkface.findings import Disposition
from checkface.handling.plan import fill
from checkface.handling.values import Values


class Notice(NamedTuple):
    """``text``: ready to print; ``regulation``: what it answers to; ``cite``: authority ids; ``advice``: to a house."""

    id: str
    title: str
    text: str
    regulation: str
    cite: tuple[str, ...]
    advice: str


def notices_of(values: Values, disposition: Disposition | None = None) -> tuple[Notice, ...]:
    """The notices of the decision behind *values*, or of another *disposition*, in the order of the table."""
    disposition = disposition or values.decision.disposition
    data = tables.load("notices").data
    held = {"fee": values.policy.house.return_fee is not None, "report": values.agency is not None, None: True}
    return tuple(
        notice(key, values)
        for key, entry in data["notice"].items()
        if disposition in entry["for"] and held[entry.get("when")]
    )


def notice(key: str, values: Values) -> Notice:
    """The notice called *key*, filled in."""
    data = tables.load("notices").data
    entry = data["notice"][key]
    text = fill(entry["text"].strip(), values)
    advice = f"{data['advice']} {entry.get('advice', '')}".strip()
    return Notice(key, entry["title"], text, entry["regulation"], tuple(entry["cite"]), advice)
