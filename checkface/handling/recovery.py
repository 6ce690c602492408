"""What to do when something goes wrong after the decision: the printer did not void, the answer did not come.

Official source: the authorities cited step by step in ``data/recovery.toml``. Two thoughts run through all of it: a
check is collected once, and a converted check leaves the counter voided or not at all.

>>> fitting(Disposition.KEEP)
('front-not-printed', 'kept-check-handed-back', 'void-on-kept-check', 'back-not-printed')
"""

from __future__ import annotations

from collections.abc import Mapping
from difflib import get_close_matches
from typing import TYPE_CHECKING, Any, NamedTuple

from checkface import tables
from checkface.findings import Disposition
from checkface.handling.plan import Step, narrowed
from checkface.mistakes import quoted

if TYPE_CHECKING:
    from checkface.handling.instructions import Instructions


class Recovery(NamedTuple):
    """The way out of one ``mishap``; ``title`` says in a clause what has happened."""

    mishap: str
    title: str
    steps: tuple[Step, ...]


def mishaps() -> Mapping[str, Mapping[str, Any]]:
    """Every mishap of the table by id."""
    return {entry["id"]: entry for entry in tables.load("recovery").data["mishap"]}


def fitting(disposition: Disposition) -> tuple[str, ...]:
    """The mishaps that can befall a check of *disposition*."""
    return tuple(key for key, entry in mishaps().items() if disposition in entry["for"])


def recover(instructions: Instructions, mishap: str) -> Recovery:
    """The way out of *mishap* for the check of *instructions*.

    Raises ``ValueError``, naming the nearest one, for a mishap that is unknown or can not befall this check.
    """
    known = fitting(instructions.disposition)
    entry = mishaps().get(mishap)
    if entry is None or mishap not in known:
        near = get_close_matches(mishap, known, 1)
        hint = f"; the nearest is {near[0]!r}" if near else f", one of {', '.join(known)}"
        if entry is not None:
            hint = f", which befalls one to {' or '.join(entry['for'])}"
        raise ValueError(f"Expected a mishap of a check to {instructions.disposition}, read {quoted(mishap)}{hint}.")
    return Recovery(mishap, entry["title"], instructions.filled(narrowed(entry["step"], instructions.circumstances)))
