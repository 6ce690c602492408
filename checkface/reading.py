"""Read a whole tender: every part reads its own thing, nothing is judged.

The result says for each need of the rules whether it is *known* (taken and readable), *blank* (looked at, nothing
there) or neither; :mod:`checkface.rules` runs a rule only on what is known.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from checkface import amounts, dates, instruments, micr, routing
from checkface.micr import MicrLine
from checkface.routing import Fraction, RoutingNumber
from checkface.span import Fault, Span
from checkface.tender import Counter, Face, Kind, Mark, Reading, State, Tender

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
_ABSENT, _BLANK, _TEXT, _UNSEEN = State.ABSENT, State.BLANK, State.TEXT, Mark.ABSENT
_SETTLING = frozenset({instruments.Weight.DECISIVE, instruments.Weight.STRONG})
_NOTHING_SAID: frozenset[Kind] = frozenset()


@dataclass(frozen=True, slots=True)
class ReadTender:
    """A tender and what every part made of it.

    A part's value is ``None`` when its reading was absent, blank or illegible, and a :class:`Fault` when there was text
    of which the part made nothing. ``routing`` describes the digits of the line whether or not their sum holds.
    ``kinds`` are all kinds for which something positive speaks: what was declared, and every strong piece of evidence.
    ``amount_cents`` is the amount the tender is for: as keyed, else as the face settles it. ``known`` and ``blank``
    are bit sets over :data:`NEEDS`.
    """

    tender: Tender
    micr: MicrLine | Fault | None
    routing: RoutingNumber | None
    fraction: Fraction | Fault | None
    serial: str | None
    words: amounts.WordsAmount | Fault | None
    figures: amounts.FiguresAmount | Fault | None
    comparison: amounts.Comparison | None
    date: dates.CheckDate | Fault | None
    kind: instruments.Inference
    kinds: frozenset[Kind]
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

    @property
    def line(self) -> MicrLine | None:
        """The magnetic-ink line, if a part made one of the reading."""
        return self.micr if isinstance(self.micr, MicrLine) else None

    @property
    def largest_amount_cents(self) -> int | None:
        """The largest amount any reading can mean: a limit must not be slipped by keying or writing less elsewhere."""
        found = [] if self.counter.amount is None else [self.counter.amount]
        for reading in (self.words, self.figures):
            if reading is not None and not isinstance(reading, Fault):
                found += [candidate.cents for candidate in reading.candidates]
                if reading.cents is not None:
                    found.append(reading.cents)
        if self.line is not None and self.line.amount_cents is not None:
            found.append(self.line.amount_cents)
        return max(found, default=None)

    def legends(self, *families: str) -> tuple[instruments.Legend, ...]:
        """Wording on the face of one of these *families* (``void``, ``copy``, ``conditional`` ...)."""
        return tuple(legend for legend in self.kind.legends if legend.family in families)

    def place(self, reading: str, span: Span | None) -> tuple[str, Span | None]:
        """Where a piece of evidence stands: a reading of the face, and its span there."""
        name, _, field = reading.partition(".")
        return name, self.line.spans.get(field, span) if field and self.line else span

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


_KEYED_BITS = tuple(
    (name, NEEDS[need])
    for name, need in (
        ("on", "on"), ("network", "network"), ("micr_by", "micr_by"), ("amount", "keyed_amount"),
        ("purchase", "purchase"), ("authorization_signed", "authorization"),
    )
)  # fmt: skip
_WORDING = ("legends", "drawer", "drawee", "payee", "words", "endorsements")


def read(tender: Tender, layouts: Mapping[str, micr.Layout] | None = None) -> ReadTender:
    """Read every part of *tender*. Never raises; a part that makes nothing of its text leaves a :class:`Fault`.

    *layouts* are the house's own arrangements of the line by routing number (:func:`checkface.micr.parse_layouts`).
    """
    face, counter = tender.face, tender.counter
    known, blank = _states(tender)

    serial = _digits(face.serial.text) if face.serial.text else None
    line = micr.read(face.micr.text, None, layouts, serial) if face.micr.text else None
    number = None
    if isinstance(line, MicrLine):
        known |= NEEDS["micr"]
        if line.account is not None:
            known |= NEEDS["account"]
        if line.routing is not None:
            number = routing.describe(line.routing)
            known |= NEEDS["routing"]
    fraction = routing.read_fraction(face.fraction.text) if face.fraction.text else None
    words = amounts.read_words(face.words.text) if face.words.text else None
    figures = amounts.read_figures(face.figures.text) if face.figures.text else None
    comparison = None
    if words is not None and figures is not None:
        comparison = amounts.compare(words, figures, _drawee_state(fraction))
    date = dates.read(face.date.text, counter.on) if face.date.text and counter.on else None
    for value, need in ((fraction, "fraction"), (words, "words"), (figures, "figures"), (date, "date")):
        if value is not None and not isinstance(value, Fault):
            known |= NEEDS[need]
    amount = counter.amount if counter.amount is not None else _settled(words, figures, comparison)
    if amount is not None:
        known |= NEEDS["amount"]
    kind = instruments.infer(_line_facts(line, number), _wording(face))
    kinds = _kinds(kind, counter.declared_kind)
    if kinds:
        known |= NEEDS["kind"]
    return ReadTender(
        tender, line, number, fraction, serial, words, figures, comparison, date, kind, kinds, amount, known, blank
    )


def _states(tender: Tender) -> tuple[int, int]:
    face, counter = tender.face, tender.counter
    known = blank = 0
    for name, bit in _TEXT_BITS:
        state = getattr(face, name).state
        if state is _TEXT:
            known |= bit
        elif state is _BLANK:
            blank |= bit
    for name, bit in _MARK_BITS:
        if getattr(face, name) is not _UNSEEN:
            known |= bit
    for name, bit in _KEYED_BITS:
        if getattr(counter, name) is not None:
            known |= bit
    if tender.documents is not None:
        known |= NEEDS["documents"] if not tender.documents else NEEDS["documents"] | NEEDS["document"]
    return known, blank


def _digits(text: str) -> str | None:
    return "".join(c for c in text if c in "0123456789") or None


def _settled(
    words: amounts.WordsAmount | Fault | None,
    figures: amounts.FiguresAmount | Fault | None,
    comparison: amounts.Comparison | None,
) -> int | None:
    """The one amount the face states: both agree, or one alone is clear."""
    if comparison is not None:
        return comparison.ruling_cents
    return next((r.cents for r in (words, figures) if r is not None and not isinstance(r, Fault)), None)


def _drawee_state(fraction: Fraction | Fault | None) -> str | None:
    """The state whose law rules between words and figures, where the fraction's prefix names one."""
    if isinstance(fraction, Fraction) and len(fraction.states) == 1:
        return fraction.states[0]
    return None


def _line_facts(line: MicrLine | Fault | None, number: RoutingNumber | None) -> instruments.LineFacts | None:
    if not isinstance(line, MicrLine):
        return None
    owner = number.government if number else None
    return instruments.LineFacts(
        number.series if number else None,
        owner.kind if owner else None,
        owner.confirmed if owner else False,
        line.epc,
        line.auxiliary is not None,
        line.account is not None,
        line.serial is not None,
        line.country,
    )


def _wording(face: Face) -> dict[str, str]:
    return {name: text for name in _WORDING if (text := getattr(face, name).text)}


def _kinds(inference: instruments.Inference, declared: Kind | None) -> frozenset[Kind]:
    found = {evidence.kind for evidence in inference.evidence if evidence.weight in _SETTLING}
    if inference.kind is not None:
        found.add(inference.kind)
    if declared is not None:
        found.add(declared)
    return frozenset(found)
