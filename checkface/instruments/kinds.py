"""The kinds of paper, the evidence for them, and what an inference says."""

from enum import StrEnum
from typing import NamedTuple

from checkface.digits import discreet
from checkface.span import Span
from checkface.tender import Kind as Kind


class Weight(StrEnum):
    """How much one piece of evidence settles: ``decisive`` names the kind, ``strong`` speaks for it, ``hint`` only
    keeps other kinds in doubt."""

    DECISIVE = "decisive"
    STRONG = "strong"
    HINT = "hint"


class LineFacts(NamedTuple):
    """What the MICR line says that bears on the kind; None where the line does not tell.

    ``series`` and ``government_kind`` are those of the routing number; ``auxiliary``, ``account`` and ``serial``
    say whether the field is there; ``country`` is ``"US"``, ``"CA"`` or ``"other"``.
    """

    series: str | None = None
    government_kind: str | None = None
    government_confirmed: bool = False
    epc: str | None = None
    auxiliary: bool | None = None
    account: bool | None = None
    serial: bool | None = None
    country: str | None = None


class Evidence(NamedTuple):
    """One thing that speaks for a kind. ``reading`` is the reading it stands in, or ``micr.FIELD`` with no span."""

    kind: Kind
    weight: Weight
    reading: str
    span: Span | None
    words: str

    def __repr__(self) -> str:
        return discreet(self)


class Legend(NamedTuple):
    """Wording that is no kind: ``family`` is ``void``, ``converted``, ``returned``, ``copy``, ``non-negotiable``,
    ``conditional``, ``not-before``, ``not-convertible``, ``second-signature`` or ``bank-name``; ``id`` the phrase of
    the table, ``source`` its source."""

    family: str
    id: str
    reading: str
    span: Span
    source: str

    def __repr__(self) -> str:
        return discreet(self)


class Inference(NamedTuple):
    """The kind, or None where the evidence does not settle one; ``rivals`` are the other kinds it speaks for."""

    kind: Kind | None
    evidence: tuple[Evidence, ...]
    rivals: tuple[Kind, ...]
    legends: tuple[Legend, ...]

    def wording(self, *families: str) -> tuple[Legend, ...]:
        """Wording on the face of one of these *families* (``void``, ``copy``, ``conditional`` ...)."""
        return tuple(legend for legend in self.legends if legend.family in families) if self.legends else ()

    def against(self, kind: Kind) -> tuple[Evidence, ...]:
        """The evidence that speaks for another kind than *kind*."""
        return tuple(found for found in self.evidence if found.kind is not kind)
