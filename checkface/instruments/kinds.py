"""The kinds of paper, the evidence for them, and what an inference says."""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple

from checkface.span import Span


class Kind(StrEnum):
    """What kind of paper a check is. Definitions: UCC 3-104, 3-409; 12 CFR 229.2; 12 USC 5002, 5003."""

    PERSONAL = "personal"
    BUSINESS = "business"
    PAYROLL = "payroll"
    CASHIERS_CHECK = "cashiers-check"
    TELLERS_CHECK = "tellers-check"
    CERTIFIED_CHECK = "certified-check"
    TRAVELERS_CHECK = "travelers-check"
    MONEY_ORDER = "money-order"
    POSTAL_MONEY_ORDER = "postal-money-order"
    TREASURY_CHECK = "treasury-check"
    GOVERNMENT_CHECK = "government-check"
    FEDERAL_BANK_ITEM = "federal-bank-item"
    CREDIT_LINE_DRAFT = "credit-line-draft"
    INVESTMENT_DRAFT = "investment-draft"
    REMOTELY_CREATED_CHECK = "remotely-created-check"
    SUBSTITUTE_CHECK = "substitute-check"
    FOREIGN_CURRENCY_CHECK = "foreign-currency-check"
    COUNTER_CHECK = "counter-check"
    SAVINGS_BOND = "savings-bond"
    OTHER = "other"


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


class Legend(NamedTuple):
    """Wording that is no kind: ``family`` is ``void``, ``copy``, ``non-negotiable``, ``conditional`` or
    ``bank-name``; ``id`` the phrase of the table, ``source`` its source."""

    family: str
    id: str
    reading: str
    span: Span
    source: str


class Inference(NamedTuple):
    """The kind, or None where the evidence does not settle one; ``rivals`` are the other kinds it speaks for."""

    kind: Kind | None
    evidence: tuple[Evidence, ...]
    rivals: tuple[Kind, ...]
    legends: tuple[Legend, ...]

    def against(self, kind: Kind) -> tuple[Evidence, ...]:
        """The evidence that speaks for another kind than *kind*."""
        return tuple(found for found in self.evidence if found.kind is not kind)
