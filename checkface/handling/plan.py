"""Which steps are done, in which order: ``data/handling.toml`` narrowed down to the circumstances.

A circumstance has three answers. *No* drops a step, *yes* leaves it in, and *nobody has told us* leaves it in with the
circumstance as its condition, for the clerk to look at. Official source: the authorities cited step by step.

>>> [step.does for step in plan(Circumstances(Disposition.REFER))]
['hold-check', 'say-answer', 'call-manager', 'read-findings', 'decide']
>>> unseen = Circumstances(Disposition.KEEP, payee_known=True)  # nobody has said whether the payee line is blank
>>> [(step.who, step.only_if) for step in plan(unseen) if step.does == "print-payee"]
[('printer', 'the payee line is blank')]
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import lru_cache
from typing import Any, Literal, NamedTuple, Protocol

from checkface import tables
from checkface.findings import Disposition, Remedy
from checkface.patterns import lazily
from checkface.tender import State

Who = Literal["clerk", "printer", "customer", "manager"]
_FIELD = lazily(r"\{([a-z_]+)\}")


class Fields(Protocol):
    """Texts by the name of their field."""

    def __getitem__(self, name: str, /) -> str:
        """The text of the field called *name*."""


class Step(NamedTuple):
    """One thing to do. ``text`` is exactly what is printed, written or said; ``why`` tells the clerk how and why.

    ``where`` is a place on the paper (``"back: endorsement area"``) or off it (``"till"``); ``cite`` holds ids of
    ``data/authorities.toml``; ``only_if``, when not empty, is a condition to look at. ``order`` counts from 1.
    """

    order: int
    who: Who
    does: str
    where: str
    text: str
    why: str
    cite: tuple[str, ...]
    only_if: str

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

    ``cures``: the remedies that lead to a better disposition; ``to_customer``: the kind of paper is usually made out to
    the customer, who must endorse it; ``report``: the answer rests on a consumer report.
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
    to_customer: bool = False
    travelers: bool = False
    receipt_incomplete: bool = False
    cures: tuple[Remedy, ...] = ()
    report: bool = False


def _blank(state: State) -> bool | None:
    # An illegible line is not blank: nothing is printed over it.
    return None if state is State.ABSENT else state is State.BLANK


def _customer_fills(case: Circumstances) -> bool | None:
    open_lines = [
        _blank(state)
        for state, known in (
            (case.payee, case.payee_known),
            (case.date, case.date_known),
            (case.figures, case.amount_known),
            (case.words, case.amount_known),
        )
        if not known
    ]
    return True if True in open_lines else None if None in open_lines else False


def _pad(case: Circumstances, state: str) -> bool | None:
    return None if case.pad is None else case.pad == state


#: Each circumstance a step may name under ``when``: how it reads as a condition, and whether it holds.
CIRCUMSTANCES: dict[str, tuple[str, Callable[[Circumstances], bool | None]]] = {
    "signed": ("", lambda case: case.signed is True),
    "not-signed": ("", lambda case: case.signed is not True),
    "pad-up": ("the signature pad works", lambda case: _pad(case, "up")),
    "pad-down": ("the signature pad is down", lambda case: _pad(case, "down")),
    "payee-blank": ("the payee line is blank", lambda case: _blank(case.payee)),
    "date-blank": ("the date line is blank", lambda case: _blank(case.date)),
    "figures-blank": ("the amount box is blank", lambda case: _blank(case.figures)),
    "words-blank": ("the legal line is blank", lambda case: _blank(case.words)),
    "payee-known": ("", lambda case: case.payee_known),
    "date-known": ("", lambda case: case.date_known),
    "amount-known": ("", lambda case: case.amount_known),
    "customer-fills": ("a line is blank", _customer_fills),
    "front-filled": (
        "",
        lambda case: all(s is State.TEXT for s in (case.payee, case.date, case.figures, case.words)),
    ),
    "to-customer": ("the check is made out to the customer", lambda case: None if case.to_customer else False),
    "travelers": ("", lambda case: case.travelers),
    "receipt-incomplete": ("", lambda case: case.receipt_incomplete),
    "report-used": ("", lambda case: case.report),
    "cure-reread": ("", lambda case: Remedy.REREAD in case.cures),
    "cure-complete": ("", lambda case: Remedy.COMPLETE in case.cures),
    "cure-sign": ("", lambda case: Remedy.SIGN in case.cures),
    "cure-show-id": ("", lambda case: Remedy.SHOW_ID in case.cures),
    "cure-new-check": ("", lambda case: Remedy.NEW_CHECK in case.cures),
}


@lru_cache(maxsize=512)
def plan(case: Circumstances) -> tuple[Step, ...]:
    """The steps for *case*, numbered, their texts still holding ``{fields}``."""
    return narrowed(tables.load("handling").data["step"], case)


def narrowed(entries: Iterable[Mapping[str, Any]], case: Circumstances) -> tuple[Step, ...]:
    """The steps among *entries* of the table that belong to *case*, numbered from 1."""
    steps: list[Step] = []
    for entry in entries:
        answers = [(phrase, holds(case)) for phrase, holds in map(CIRCUMSTANCES.__getitem__, entry.get("when", ()))]
        if case.disposition not in entry.get("for", tuple(Disposition)) or any(holds is False for _, holds in answers):
            continue
        cite = tuple(entry.get("cite", ("common-practice",)))
        only_if = " and ".join(phrase for phrase, holds in answers if holds is None)
        steps.append(
            Step(
                len(steps) + 1,
                entry["who"],
                entry["does"],
                entry["where"],
                entry.get("text", ""),
                entry["why"],
                cite,
                only_if,
            )
        )
    return tuple(steps)
