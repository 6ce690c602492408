"""A decision becomes instructions: who does what, in which order, with which exact words.

>>> from checkface.findings import Disposition
>>> [step.does for step in plan(Circumstances(Disposition.DECLINE))]
['say-answer', 'hand-back-check', 'print-decline-slip', 'ask-other-payment', 'record-reason']
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from checkface.decision import Decision
from checkface.findings import Disposition, Remedy
from checkface.handling.notices import Notice, notice, notices_of
from checkface.handling.plan import Circumstances, Step, plan
from checkface.handling.printing import Agency, Printing
from checkface.handling.receipt import ReceiptLines, receipt_of
from checkface.handling.values import Values, house_name, spellable
from checkface.kinds import Kind, where
from checkface.policy import Policy
from checkface.reading import ReadTender

if TYPE_CHECKING:
    from checkface.handling.recovery import Recovery

_UNTOLD = Printing()
#: Kinds that are usually made out to the customer, who then endorses them to the house.
_TO_CUSTOMER = where(lambda row: row.paid_to == "customer")

# A kept check handed back leaves the till short; a converted one left in the till is collected twice.
_GOES_TO_CUSTOMER = {
    Disposition.CONVERT: ("voided check", "receipt", "notice copy"),
    Disposition.KEEP: ("register receipt",),
    Disposition.REFER: (),
    Disposition.DECLINE: ("check", "decline slip"),
}


@dataclass(frozen=True, slots=True)
class Instructions:
    """What to do with one tender. Creating it costs nothing; its texts are worked out when they are asked for."""

    decision: Decision
    read: ReadTender
    policy: Policy
    printing: Printing
    report_agency: Agency | None

    @property
    def disposition(self) -> Disposition:
        """Convert, keep, refer or decline."""
        return self.decision.disposition

    @property
    def circumstances(self) -> Circumstances:
        """What the choice of steps hangs on."""
        face, counter = self.read.face, self.read.counter
        converted = self.disposition is Disposition.CONVERT
        return Circumstances(
            self.disposition,
            signed=counter.authorization_signed,
            pad=self.printing.pad,
            payee=face.payee.state,
            date=face.date.state,
            figures=face.figures.state,
            words=face.words.state,
            payee_known=bool(house_name(self.policy)),
            date_known=counter.on is not None,
            amount_known=spellable(self.read.amount_cents),
            to_customer=not _TO_CUSTOMER.isdisjoint(self.read.kinds),
            travelers=Kind.TRAVELERS_CHECK in self.read.kinds,
            receipt_incomplete=converted and bool(receipt_of(self.values).missing),
            cures=self._cures,
            report=self.report_agency is not None,
        )

    @property
    def _cures(self) -> tuple[Remedy, ...]:
        nearest = next((change for change in self.decision.would_change if change.curable), None)
        return tuple(dict.fromkeys(finding.remedy for finding in nearest.cures)) if nearest else ()

    @property
    def values(self) -> Values:
        """The words for the fields of the texts."""
        return Values(self.decision, self.read, self.policy, self.printing, self.report_agency)

    @property
    def steps(self) -> tuple[Step, ...]:
        """Everything to do, in order."""
        return self.filled(plan(self.circumstances))

    def filled(self, steps: Iterable[Step]) -> tuple[Step, ...]:
        """*steps* with the words of this tender in their ``{fields}``."""
        fields = _Texts(self.values)
        return tuple(step.filled(fields) for step in steps)

    @property
    def receipt(self) -> ReceiptLines | None:
        """The receipt of a converted check; ``None`` otherwise: the register's own receipt is all there is."""
        return receipt_of(self.values) if self.disposition is Disposition.CONVERT else None

    @property
    def notices(self) -> tuple[Notice, ...]:
        """What the customer reads, in our words, with the regulation it answers to."""
        return notices_of(self.values)

    @property
    def recovery(self) -> "tuple[Recovery, ...]":
        """The ways out of what can go wrong with this check."""
        from checkface.handling.recovery import fitting, recover  # wanted only when something went wrong

        return tuple(recover(self, mishap) for mishap in fitting(self.disposition))

    @property
    def to_customer(self) -> tuple[str, ...]:
        """What goes to the customer."""
        goes = _GOES_TO_CUSTOMER[self.disposition]
        report = self.report_agency is not None and self.disposition is Disposition.DECLINE
        return (*goes, "report notice") if report else goes

    @property
    def to_till(self) -> tuple[str, ...]:
        """What goes in the till: a kept check always, a converted one never."""
        sheet = self.printing.pad == "down"
        if self.disposition is Disposition.KEEP:
            return ("check", "signed sheet") if sheet else ("check",)
        return ("signed sheet",) if sheet and self.disposition is Disposition.CONVERT else ()

    def wire(self) -> list[dict[str, Any]]:
        """The steps, JSON-ready."""
        return [{**step._asdict(), "cite": list(step.cite)} for step in self.steps]


class _Texts:
    """The fields of the steps: those of the tender, and the longer texts made from them."""

    __slots__ = ("values",)

    def __init__(self, values: Values) -> None:
        self.values = values

    def __getitem__(self, name: str) -> str:
        match name:
            case "receipt":
                return receipt_of(self.values).text
            case "missing":
                return "\n".join(item.label for item in receipt_of(self.values).missing)
            case "notice":
                return "\n".join(each.text for each in notices_of(self.values) if each.id != "authorization")
            case "authorization" | "sheet" | "slip" | "report":
                return notice(name, self.values).text
        return self.values[name]


def handle(
    decision: Decision,
    read: ReadTender,
    policy: Policy,
    printing: Printing = _UNTOLD,
    report_agency: Agency | None = None,
) -> Instructions:
    """What to do about *decision* for the tender that was *read*.

    *printing* is what only the lane knows (clock, initials, whether the signature pad works); *report_agency* is
    given only when the answer rests on a consumer report.
    """
    return Instructions(decision, read, policy, printing, report_agency)
