"""Which steps are done, in which order: ``data/handling.toml`` narrowed down to the circumstances.

The plan begins before the answer: what nobody has looked at or keyed is done first, and what can be put right is put
right; then the check is judged again, and everything after that is for the case that it could not be. A circumstance
has three answers. *No* drops a step, *yes* leaves it in, and *nobody has told us* leaves it in with the circumstance as
its condition, for the clerk to look at. Official source: the authorities cited step by step.

>>> [step.does for step in plan(Circumstances(Disposition.REFER))]
['hold-check', 'say-answer', 'call-manager', 'read-findings', 'decide']
>>> unseen = Circumstances(Disposition.KEEP, own=True, payee_known=True)  # nobody has looked at the payee line
>>> [(step.who, step.when, step.only_if) for step in plan(unseen) if step.does == "print-payee"]
[('printer', (<When.PAYEE_BLANK: 'payee-blank'>,), 'the payee line is blank')]
>>> unsigned = Circumstances(Disposition.DECLINE, todo=frozenset({"sign"}), judge_again=True)
>>> [(step.does, *step.when) for step in plan(unsigned)][:3]
[('sign-check',), ('judge-again',), ('say-answer', <When.NOT_CURED: 'not-cured'>)]
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from enum import StrEnum
from functools import lru_cache
from typing import Any, Literal, NamedTuple, Protocol

from checkface import tables
from checkface.findings import Disposition
from checkface.patterns import lazily
from checkface.tender import State

Who = Literal["clerk", "printer", "customer", "manager"]
Stage = Literal["before", "after"]
_FIELD = lazily(r"\{([a-z_]+)\}")


class When(StrEnum):
    """A condition of a step that somebody at the counter looks at; its sentence stands in ``[condition]``."""

    PAD_UP = "pad-up"
    PAD_DOWN = "pad-down"
    PAYEE_BLANK = "payee-blank"
    DATE_BLANK = "date-blank"
    FIGURES_BLANK = "figures-blank"
    WORDS_BLANK = "words-blank"
    LINE_BLANK = "line-blank"
    OWN_CHECK = "own-check"
    ISSUED = "issued"
    TO_CUSTOMER = "to-customer"
    NOT_CURED = "not-cured"


class Fields(Protocol):
    """Texts by the name of their field."""

    def __getitem__(self, name: str, /) -> str:
        """The text of the field called *name*."""


class Step(NamedTuple):
    """One thing to do. ``text`` is exactly what is printed, written or said; ``why`` tells the clerk how and why.

    ``stage``: before the answer that counts, or after it. ``where`` is a place on the paper
    (``"back: endorsement area"``) or off it (``"till"``); ``cite`` holds ids of ``data/authorities.toml``; ``when``
    the conditions to look at, all of which must hold. ``order`` counts from 1.
    """

    order: int
    stage: Stage
    who: Who
    does: str
    where: str
    text: str
    why: str
    cite: tuple[str, ...]
    when: tuple[When, ...]

    @property
    def only_if(self) -> str:
        """The conditions in words; empty where there are none."""
        sentences = tables.load("handling").data["condition"] if self.when else {}
        return " and ".join(sentences[code] for code in self.when)

    def filled(self, fields: Fields) -> Step:
        """The step with the ``{fields}`` of its texts filled in."""
        if len(_parts(self.text)) == len(_parts(self.why)) == 1:
            return self
        return self._replace(text=fill(self.text, fields), why=fill(self.why, fields))


def on_paper(step: Step) -> bool:
    """Whether the text of *step* is printed or written on a paper, as against said, read or entered."""
    return step.does.startswith(("print-", "write-")) or step.where == "signature sheet"


def fill(text: str, fields: Fields) -> str:
    """*text* with each ``{name}`` replaced; what is put in is not looked at again."""
    return "".join(fields[part] if place % 2 else part for place, part in enumerate(_parts(text)))


@lru_cache(maxsize=512)
def _parts(text: str) -> tuple[str, ...]:
    # Every second part is the name of a field.
    return tuple(_FIELD.split(text))


class Circumstances(NamedTuple):
    """All that the choice of steps hangs on. ``None`` and ``State.ABSENT``: nobody has told us.

    ``own``: the customer's own check, not one that somebody else issued, on whose face nothing is printed;
    ``treasury`` and ``purchased``: which of these others; ``to_customer``: the kind of paper is usually made out to
    the customer, who must endorse it; ``todo``: what is still to be done before the answer counts
    (:mod:`checkface.handling.todo`), and ``judge_again``: it can change the answer; ``report``: the answer rests on a
    consumer report.
    """

    disposition: Disposition
    signed: bool | None = None
    pad: Literal["up", "down"] | None = None
    payee: State = State.ABSENT
    date: State = State.ABSENT
    figures: State = State.ABSENT
    words: State = State.ABSENT
    payee_known: bool = False
    date_known: bool = False
    amount_known: bool = False
    own: bool | None = None
    treasury: bool = False
    purchased: bool = False
    to_customer: bool = False
    countersign: bool = False
    receipt_incomplete: bool = False
    todo: frozenset[str] = frozenset()
    judge_again: bool = False
    report: bool = False


def _blank(state: State) -> bool | None:
    # An illegible line is not blank: nothing is printed over it.
    return None if state is State.ABSENT else state is State.BLANK


def _customer_fills(case: Circumstances) -> bool | None:
    if case.own is False and not case.purchased:
        return False  # what an issuer left open is not the customer's to fill
    open_lines = [
        _blank(state)
        for state, known in (
            (case.payee, case.payee_known),
            (case.date, case.date_known),
            (case.figures, case.amount_known),
            (case.words, case.amount_known),
        )
        if not known or case.own is False
    ]
    return True if True in open_lines else None if None in open_lines else False


def _pad(case: Circumstances, state: str) -> bool | None:
    return None if case.pad is None else case.pad == state


#: Each circumstance a step may name under ``when``, and whether it holds; only members of :class:`When` may be unknown.
CIRCUMSTANCES: dict[str, Callable[[Circumstances], bool | None]] = {
    "signed": lambda case: case.signed is True,
    "pad-up": lambda case: _pad(case, "up"),
    "pad-down": lambda case: _pad(case, "down"),
    "payee-blank": lambda case: _blank(case.payee),
    "date-blank": lambda case: _blank(case.date),
    "figures-blank": lambda case: _blank(case.figures),
    "words-blank": lambda case: _blank(case.words),
    "payee-known": lambda case: case.payee_known,
    "date-known": lambda case: case.date_known,
    "amount-known": lambda case: case.amount_known,
    "line-blank": _customer_fills,
    "front-filled": lambda case: all(s is State.TEXT for s in (case.payee, case.date, case.figures, case.words)),
    "own-check": lambda case: case.own,
    "issued": lambda case: None if case.own is None else not case.own,
    "treasury": lambda case: case.treasury,
    "not-treasury": lambda case: not case.treasury,
    "to-customer": lambda case: None if case.to_customer else False,
    "countersign": lambda case: case.countersign,
    "receipt-incomplete": lambda case: case.receipt_incomplete,
    "judge-again": lambda case: case.judge_again,
    "report-used": lambda case: case.report,
}


@lru_cache(maxsize=512)
def plan(case: Circumstances) -> tuple[Step, ...]:
    """The steps for *case*, numbered, their texts still holding ``{fields}``."""
    return narrowed(tables.load("handling").data["step"], case)


def narrowed(entries: Iterable[Mapping[str, Any]], case: Circumstances) -> tuple[Step, ...]:
    """The steps among *entries* of the table that belong to *case*, numbered from 1.

    What follows a second judging is for the case that the fault could not be put right.
    """
    steps: list[Step] = []
    judged = False
    for entry in entries:
        todo = entry.get("todo")
        if case.disposition not in entry.get("for", _ALL) or (todo and case.todo.isdisjoint(todo)):
            continue
        answers = [(code, CIRCUMSTANCES[code](case)) for code in entry.get("when", ())]
        if any(holds is False for _, holds in answers):
            continue
        when = tuple(When(code) for code, holds in answers if holds is None)
        last = entry["does"] == "judge-again"
        stage: Stage = "before" if (todo or last) and not judged else "after"
        if judged:
            when = (When.NOT_CURED, *when)
        judged = judged or last
        steps.append(
            Step(
                len(steps) + 1,
                stage,
                entry["who"],
                entry["does"],
                entry["where"],
                entry.get("text", ""),
                entry["why"],
                tuple(entry.get("cite", ("common-practice",))),
                when,
            )
        )
    return tuple(steps)


_ALL = tuple(Disposition)
