"""Read a whole tender: every part reads its own thing, nothing is judged.

The result says for each need of the rules whether it is *known* (taken and readable), *blank* (looked at, nothing there) or
neither; :mod:`checkface.rules` runs a rule only on what is known.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from checkface import amounts, dates, instruments, micr, routing
from checkface.span import Fault, Span
from checkface.tender import Counter, Face, Mark, Reading, State, Tender

#: What a rule can need, each a bit of ``ReadTender.known`` and ``ReadTender.blank``.
NEEDS = {
    name: 1 << bit
    for bit, name in enumerate(
        (
            # readings of the face: known when text was read
            "micr_text", "fraction_text", "serial", "date_text", "payee", "figures_text", "words_text", "drawer", "drawee",
            "legends", "endorsements",
            # marks: known when seen or seen to be missing
            "signature", "countersignature", "alterations",
            # values: known when a part made sense of the reading
            "micr", "routing", "account", "fraction", "date", "figures", "words", "kind", "amount",
            # circumstances
            "on", "network", "micr_by", "authorization", "keyed_amount", "purchase", "documents", "document",
        )
    )
}  # fmt: skip

_TEXTS = {
    "micr": "micr_text", "fraction": "fraction_text", "serial": "serial", "date": "date_text", "payee": "payee",
    "figures": "figures_text", "words": "words_text", "drawer": "drawer", "drawee": "drawee", "legends": "legends",
    "endorsements": "endorsements",
}  # fmt: skip
_TEXT_BITS = tuple((name, NEEDS[need]) for name, need in _TEXTS.items())
_MARK_BITS = tuple((name, NEEDS[name]) for name in ("signature", "countersignature", "alterations"))
_VALUE_BITS = tuple((name, NEEDS[name]) for name in ("micr", "routing", "fraction", "date", "figures", "words"))


@dataclass(frozen=True, slots=True)
class ReadTender:
    """A tender and what every part made of it.

    A part's value is ``None`` when its reading was absent, blank or illegible, and a :class:`Fault` when there was text
    of which the part made nothing. ``amount_cents`` is the amount the tender is for: as keyed, else as the face settles it.
    ``known`` and ``blank`` are bit sets over :data:`NEEDS`.
    """

    tender: Tender
    micr: micr.MicrLine | Fault | None
    routing: routing.RoutingNumber | Fault | None
    fraction: routing.Fraction | Fault | None
    serial: str | None
    words: amounts.WordsAmount | Fault | None
    figures: amounts.FiguresAmount | Fault | None
    comparison: amounts.Comparison | None
    date: dates.CheckDate | Fault | None
    kind: instruments.Inference
    amount_cents: int | None
    known: int
    blank: int

    @property
    def face(self) -> Face:
        """The raw readings of the face."""
        return self.tender.face

    @property
    def counter(self) -> Counter:
        """The circumstances of the counter."""
        return self.tender.counter

    def is_absent(self, name: str) -> bool:
        """Whether nobody took the reading *name* (one of :data:`checkface.policy.REQUIRABLE`)."""
        match name:
            case "amount":
                face = self.face
                return self.counter.amount is None and all(r.state is State.ABSENT for r in (face.figures, face.words))
            case "on" | "micr_by" | "network":
                return getattr(self.counter, name) is None
            case "authorization":
                return self.counter.authorization_signed is None
            case "documents":
                return self.tender.documents is None
            case "signature" | "alterations":
                return getattr(self.face, name) is Mark.ABSENT
            case _:
                reading: Reading = getattr(self.face, name)
                return reading.state is State.ABSENT

    @staticmethod
    def path_of(name: str) -> str:
        """The dotted path of the reading *name* on the wire."""
        return _PATHS.get(name, f"face.{name}")


_PATHS = {
    "amount": "counter.amount", "on": "counter.on", "micr_by": "counter.micr_by", "network": "counter.network",
    "authorization": "counter.authorization_signed", "documents": "documents",
}  # fmt: skip
