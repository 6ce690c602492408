"""A decision becomes instructions: who does what, in which order, with which exact words.

>>> from checkface.findings import Disposition
>>> [step.does for step in plan(Circumstances(Disposition.DECLINE))]
['say-answer', 'hand-back-check', 'print-decline-slip', 'ask-other-payment', 'record-reason']
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from checkface.decision import Decision
from checkface.findings import Disposition
from checkface.handling.notices import Notice, notice, notices_of
from checkface.handling.plan import Circumstances, Step, plan
from checkface.handling.printing import Agency, Printing
from checkface.handling.receipt import ReceiptLines, receipt_of
from checkface.handling.todo import Todo, todo
from checkface.handling.values import Values, house_name, spellable
from checkface.kinds import Kind, where
from checkface.policy import Policy
from checkface.reading import ReadTender
from checkface.rules.kinds import PAID_TO_CUSTOMER
from checkface.tender import Mark

if TYPE_CHECKING:
    from checkface.handling.recovery import Recovery

_UNTOLD = Printing()
_CONVERT = Disposition.CONVERT
#: Kinds that somebody else issued: the house's printer puts nothing on their faces.
_ISSUED = where(lambda row: not row.fill)
#: Of these, the ones whose purchaser fills them in.
_PURCHASED = frozenset({Kind.MONEY_ORDER, Kind.POSTAL_MONEY_ORDER, Kind.TRAVELERS_CHECK})

# A kept check handed back leaves the till short; a converted one left in the till is collected twice.
_GOES_TO_CUSTOMER = {
    Disposition.CONVERT: ("voided check", "receipt", "authorization copy", "notice copy"),
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
        converted, kinds, still = self.disposition is _CONVERT, self.read.kinds, self.todo
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
            own=self._own,
            treasury=Kind.TREASURY_CHECK in kinds,
            purchased=bool(kinds) and kinds <= _PURCHASED,
            to_customer=not PAID_TO_CUSTOMER.isdisjoint(kinds),
            countersign=Kind.TRAVELERS_CHECK in kinds and face.countersignature is not Mark.YES,
            receipt_incomplete=converted and bool(receipt_of(self.values).missing),
            todo=still.codes,
            judge_again=still.judge_again,
            report=self.report_agency is not None,
        )

    @property
    def todo(self) -> Todo:
        """What is still to be done before the answer counts."""
        return todo(self.decision, self.read, self.policy)

    @property
    def _own(self) -> bool | None:
        """Whether it is the customer's own check; ``None`` where nothing says what it is."""
        return _ISSUED.isdisjoint(self.read.kinds) if self.read.kinds else None

    @property
    def values(self) -> Values:
        """The words for the fields of the texts."""
        return Values(self.decision, self.read, self.policy, self.printing, self.report_agency)

    @property
    def steps(self) -> tuple[Step, ...]:
        """Everything to do, in order."""
        return self.filled(plan(self.circumstances))

    def filled(self, steps: Iterable[Step]) -> tuple[Step, ...]:
        """*steps* with the words of this tender in their ``{fields}``, and one step for each question to the clerk."""
        fields = _Texts(self.values)
        found: list[Step] = []
        for step in steps:
            if step.does == "answer-question":
                found += [step.filled({"question": one.question, "rule": one.rule}) for one in self.todo.questions]
            else:
                found.append(step.filled(fields))
        return tuple(step._replace(order=order) for order, step in enumerate(found, 1))

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

        every = (recover(self, mishap) for mishap in fitting(self.disposition))
        return tuple(recovery for recovery in every if recovery.steps)

    @property
    def to_customer(self) -> tuple[str, ...]:
        """What goes to the customer."""
        goes = _GOES_TO_CUSTOMER[self.disposition]
        report = self.report_agency is not None and self.disposition is Disposition.DECLINE
        return (*goes, "report notice") if report else goes

    @property
    def to_till(self) -> tuple[str, ...]:
        """What goes in the till: a kept check always, a converted one never."""
        sheet = ("signed sheet",) if self.printing.pad == "down" else ()
        match self.disposition:
            case Disposition.KEEP:
                return ("check", *(("notation slip",) if self._own is False else ()), *sheet)
            case Disposition.CONVERT:
                return sheet
        return ()

    def wire(self) -> list[dict[str, Any]]:
        """The steps, JSON-ready: ``when`` as codes, and the same conditions in words as ``only_if``."""
        return [
            {**step._asdict(), "cite": list(step.cite), "when": list(map(str, step.when)), "only_if": step.only_if}
            for step in self.steps
        ]


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
                return "\n".join(each.text for each in notices_of(self.values, _CONVERT) if each.id != "authorization")
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
