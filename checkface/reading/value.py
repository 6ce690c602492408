"""A tender and what every part made of it."""

from enum import StrEnum
from functools import cache
from typing import Literal, NamedTuple

from checkface import amounts, dates, identity, instruments
from checkface.micr import MicrLine
from checkface.routing import Fraction, RoutingNumber
from checkface.span import Fault, Span
from checkface.tender import Counter, Document, Face, Kind, Mark, Reading, Tender

#: What a rule can need, each a bit of ``ReadTender.known`` and ``ReadTender.blank``.
NEEDS = {
    name: 1 << bit
    for bit, name in enumerate(
        (
            # readings of the face: known when text was read
            "micr_text", "fraction_text", "serial", "date_text", "payee", "figures_text", "words_text", "drawer",
            "drawee", "legends", "memo", "endorsements",
            # marks: known when seen or seen to be missing
            "signature", "countersignature", "alterations",
            # values: known when a part made sense of the reading
            "micr", "routing", "account", "fraction", "date", "figures", "words", "kind", "amount",
            # circumstances
            "on", "network", "micr_by", "authorization", "keyed_amount", "purchase", "documents", "document",
            # known when any reading carries a figure of its own reader
            "confidence",
        )
    )
}  # fmt: skip


#: Who saw a thing: a machine, the clerk, the till's own record, or the clerk again to whom a question was put.
By = Literal["reader", "clerk", "record", "confirmed"]
#: What a reading says of its own maker where that was a hand.
BY_HAND = frozenset({"keyed", "corrected", "hand", "clerk", "cashier", "manual", "operator", "typed"})


class Became(StrEnum):
    """What became of looking at one reading. Only ``text`` is something a rule can be asked about."""

    ABSENT = "absent"
    BLANK = "blank"
    ILLEGIBLE = "illegible"
    FAULT = "fault"
    TEXT = "text"


class Look(NamedTuple):
    """What became of looking at one reading: who looked, how surely from 0 to 1, and the part's value or fault.

    ``value`` is the text itself where no part reads it, ``None`` where there is none.
    """

    became: Became
    by: By
    confidence: float | None
    value: object


class Shown(NamedTuple):
    """One document shown: as keyed, and what a part made of its barcode or, without one, of what was keyed.

    ``card`` is what was read off the card itself, ``None`` when no barcode was given; ``keyed`` is ``None`` when only
    a barcode was. ``best`` is the card if it could be read, else what was keyed, else ``None``.
    """

    document: Document
    card: "identity.Card | Fault | None"
    keyed: "identity.Document | Fault | None"
    best: "identity.Identification | None"


class ReadTender(NamedTuple):
    """A tender and what every part made of it.

    ``face`` and ``counter`` are the tender's own; ``line`` is ``micr`` if a part made a line of it.
    A part's value is ``None`` when its reading was absent, blank or illegible, and a :class:`Fault` when there was text
    of which the part made nothing. ``routing`` describes the digits of the line whether or not their sum holds.
    ``kinds`` are all kinds for which something positive speaks: what was declared, and every strong piece of evidence.
    ``drawer`` and ``drawee`` are what the printed names are taken for, ``unsettled`` the print nobody understood, each
    with its reading. ``amount_cents`` is the amount the tender is for: as keyed, else as the face settles it.
    ``known``, ``blank`` and ``looked`` (at in any way, read or not) are bit sets over :data:`NEEDS`.
    """

    tender: Tender
    face: Face
    counter: Counter
    micr: MicrLine | Fault | None
    line: MicrLine | None
    routing: RoutingNumber | None
    fraction: Fraction | Fault | None
    serial: str | None
    words: amounts.WordsAmount | Fault | None
    figures: amounts.FiguresAmount | Fault | None
    comparison: amounts.Comparison | None
    date: dates.CheckDate | Fault | None
    kind: instruments.Inference
    kinds: frozenset[Kind]
    drawer: instruments.DrawerLines
    drawee: instruments.Drawee
    unsettled: tuple[tuple[str, instruments.Unsettled], ...]
    amount_cents: int | None
    shown: tuple[Shown, ...]
    known: int
    blank: int
    looked: int

    def __repr__(self) -> str:
        """What was read, by the names of :data:`NEEDS`: no reading stands in a log."""
        return f"ReadTender({', '.join(name for name, bit in NEEDS.items() if self.known & bit)})"

    def look(self, name: str) -> Look:
        """What became of looking at the reading *name* of the face, such as ``date``."""
        reading: Reading | Mark = getattr(self.face, name)
        if isinstance(reading, Mark):  # what is seen or not seen is seen by eyes
            became = Became(reading) if reading in (Mark.ABSENT, Mark.ILLEGIBLE) else Became.TEXT
            return Look(became, "clerk", None, reading)
        part = getattr(self, name) if name in _PARTS else reading.text or None
        became = Became.FAULT if isinstance(part, Fault) else Became(reading.state)
        by: By = "clerk" if reading.by is None or reading.by.strip().lower() in BY_HAND else "reader"
        return Look(became, by, reading.confidence, part)

    @property
    def largest_amount_cents(self) -> int | None:
        """The largest amount that anything states, keyed, encoded or written.

        Words that agree with the figures have settled them; until then every value either can have counts, so that a
        limit cannot be slipped by writing or keying less elsewhere.
        """
        together, line = self.comparison, self.line
        keyed, encoded = self.counter.amount, line.amount_cents if line is not None else None
        if together is not None and together.outcome == "agree" and keyed is not None and encoded is None:
            return max(keyed, together.ruling_cents or 0)
        found = [keyed, encoded]
        if together is not None and together.outcome == "agree":
            found.append(together.ruling_cents)
        else:
            for reading in (self.words, self.figures):
                if reading is not None and not isinstance(reading, Fault):
                    found += [reading.cents, *(candidate.cents for candidate in reading.candidates)]
        return max((cents for cents in found if cents is not None), default=None)

    @property
    def document_numbers(self) -> tuple[str, ...]:
        """Numbers of the documents shown, as far as they may be recorded: for looking up, never for print."""
        found = (shown.best.reveal_number() for shown in self.shown if shown.best is not None)
        return tuple(number for number in found if number)

    def legends(self, *families: str) -> tuple[instruments.Legend, ...]:
        """Wording on the face of one of these *families* (``void``, ``copy``, ``conditional`` ...)."""
        found = self.kind.legends
        return tuple(legend for legend in found if legend.family in families) if found else ()

    def place(self, reading: str, span: Span | None) -> tuple[str, Span | None]:
        """Where a piece of evidence stands: a reading of the face, and its span there."""
        name, _, field = reading.partition(".")
        return name, self.line.spans.get(field, span) if field and self.line else span

    def not_looked_at(self, names: tuple[str, ...]) -> tuple[str, ...]:
        """Those of *names*, readings of :data:`checkface.policy.REQUIRABLE`, that nobody took."""
        every, amount, looks = _looks(names)
        if not every & ~self.looked and (not amount or self.looked & _AMOUNTS):
            return ()
        return tuple(name for name, looked in zip(names, looks, strict=True) if not looked & self.looked)

    @staticmethod
    def path_of(name: str) -> str:
        """The dotted path of the reading *name* on the wire."""
        return _PATHS.get(name, f"face.{name}")


#: Readings of which a part makes a value or a fault.
_PARTS = frozenset({"micr", "fraction", "date", "words", "figures"})
_PATHS = {
    "amount": "counter.amount", "on": "counter.on", "micr_by": "counter.micr_by", "network": "counter.network",
    "authorization": "counter.authorization_signed", "documents": "documents",
}  # fmt: skip
#: Readings under another name than the need they fill; an amount may be keyed, or stand in figures or in words.
_FILLS = {
    "micr": "micr_text", "fraction": "fraction_text", "date": "date_text", "figures": "figures_text",
    "words": "words_text",
}  # fmt: skip
_AMOUNTS = NEEDS["keyed_amount"] | NEEDS["figures_text"] | NEEDS["words_text"]


@cache
def _looks(names: tuple[str, ...]) -> tuple[int, bool, tuple[int, ...]]:
    """The bits that must all be there, whether an amount must be, and the bits by name."""
    looks = tuple(_AMOUNTS if name == "amount" else NEEDS[_FILLS.get(name, name)] for name in names)
    every = 0
    for name, bits in zip(names, looks, strict=True):
        every |= 0 if name == "amount" else bits
    return every, "amount" in names, looks
