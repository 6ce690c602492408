"""What is printed, stamped or written on the paper about what may be done with it, and when.

The phrases are those of ``instrument_phrases.toml``; wording that voids the paper, or says that it was converted, is
asked for in :mod:`checkface.rules.parties`.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from functools import partial

from checkface import instruments
from checkface.dates import CheckDate
from checkface.findings import Effect, Label, Remedy
from checkface.instruments import Inference, Legend, Unsettled
from checkface.reading import ReadTender
from checkface.rules.dates import shown
from checkface.rules.kinds import ONLY_PERSONAL
from checkface.rules.parties import legends_seen, marked, no_legend, said
from checkface.rules.registry import Answer, Hit, at, rule
from checkface.span import Fault
from checkface.tender import Face, Mark

_rule = partial(rule, gate=no_legend)

#: Characters from such wording to its day: "do not deposit this check at any time before December 1, 2026".
_NEAR = 80


@rule(
    "date-before-printed", Effect.DECLINE, by="common-practice ucc-3-113 ucc-4-401",
    remedy=Remedy.NEW_CHECK, floor=Effect.KEEP,
)  # fmt: skip
def date_before_printed(face: Face, on: date, inference: Inference, date_read: CheckDate | Fault | None) -> Answer:
    """The face says that the check is not good yet.

    What it asks: Where print, a stamp or the memo says not to cash the check before a day, or to hold it, has that day
        come? Where no day can be made of it, a manager decides.
    Why it matters: The drawer has told everyone that the money is not there yet. A debit takes it today all the same.
    Example: NOT VALID BEFORE 12/01/2026 on 24 November 2026.
    What to do: Hand it back and ask for a check that is good today.
    """
    written = date_read.date if isinstance(date_read, CheckDate) else None
    every = inference.wording("not-before")
    hits: list[Hit] = []
    for name in ("legends", "memo"):
        marks = [mark for mark in every if mark.reading == name]
        hits += _not_yet(name, getattr(face, name).text, marks, written, on)
    return tuple(hits) or legends_seen(face)


def _not_yet(name: str, text: str, marks: list[Legend], written: date | None, on: date) -> Iterator[Hit]:
    """What the *text* of one reading puts off: to a day that has not come, or to one that nobody can tell."""
    settled: list[int] = []
    for first in instruments.not_before(text) if text else ():
        if isinstance(first.value, date) or (first.value is not None and written is not None):
            settled.append(first.span.start)
            day = first.last_day(written or on)
            if day is not None and on < day:
                label = at("counter.on", None, "the day of tender", primary=False)
                yield Hit(
                    f"Not good before {shown(day)}, as it says.", (at(name, first.span, "the day it says"), label)
                )
        else:
            marks = [mark for mark in marks if not 0 <= first.span.start - mark.span.start <= _NEAR]
            yield _undated((at(name, first.span),))
    open_marks = [m for m in marks if not any(0 <= start - m.span.start <= _NEAR for start in settled)]
    if open_marks:
        yield _undated(marked(tuple(open_marks)))


def _undated(labels: tuple[Label, ...]) -> Hit:
    message = "It is not good yet, and nobody can tell from when on."
    return Hit(message, labels, Effect.REFER, Remedy.MANAGER)


@_rule("already-returned", Effect.DECLINE, by="nacha-single-use common-practice", remedy=Remedy.NEW_CHECK)
def already_returned(inference: Inference, face: Face) -> Answer:
    """A bank has returned this paper unpaid, or was told not to pay it.

    What it asks: Does a stamp name a return, its reason, or a stopped payment?
    Why it matters: A check that has been to its bank has been negotiated and is no source for a debit; and what came
        back once comes back again.
    Example: NSF or REFER TO MAKER, stamped across the front.
    What to do: Hand it back and ask for another form of payment.
    """
    if not (marks := inference.wording("returned")):
        return legends_seen(face)
    return Hit(f"A bank has returned it: {said(face, marks)}.", marked(marks))


@_rule("legend-not-convertible", Effect.KEEP, by="12-cfr-1005-3-b nacha-authorization")
def legend_not_convertible(inference: Inference, face: Face) -> Answer:
    """The drawer does not want this check converted.

    What it asks: Does the paper say that it is not to be converted, or is good as paper only?
    Why it matters: A transfer from a check rests on the consumer's authorization, and this one is refused in print.
    Example: NOT FOR ELECTRONIC CONVERSION below the amount.
    What to do: Keep it as paper.
    """
    if not (marks := inference.wording("not-convertible")):
        return legends_seen(face)
    return Hit("It says that it is not to be converted. Keep it.", marked(marks))


@_rule("second-signature-asked", Effect.REFER, by="common-practice ucc-3-401", remedy=Remedy.MANAGER)
def second_signature_asked(inference: Inference, face: Face, read: ReadTender) -> Answer:
    """The paper asks for a second signature.

    What it asks: Where the face says that two must sign, or that somebody must countersign, was the second signature
        seen? Other paper than a personal check may ask for it over so many dollars only.
    Why it matters: The bank may refuse a check that one of two has signed, and the other is not bound by it.
    Example: TWO SIGNATURES REQUIRED above a single line that is signed.
    What to do: Have the second signature made or show it to the manager.
    """
    if not (marks := inference.wording("second-signature")):
        return legends_seen(face)
    if not read.kinds <= ONLY_PERSONAL:  # on a person's check such print is strange whatever the amount
        marks = tuple(mark for mark in marks if not _below(mark, face, read.largest_amount_cents))
    if not marks or face.countersignature is Mark.YES:
        return None
    return Hit("It asks for a second signature, and there is none.", marked(marks))


def _below(mark: Legend, face: Face, cents: int | None) -> bool:
    """Whether the largest amount that anything states is within the one over which a second signature is asked."""
    asked = instruments.behind(face.legends.text, mark.span.end) if mark.reading == "legends" else None
    return asked is not None and isinstance(asked.value, int) and cents is not None and cents <= asked.value


@rule(
    "wording-not-understood", Effect.REFER, by="ucc-3-106 common-practice", remedy=Remedy.CONFIRM, floor=Effect.KEEP,
    asks_clerk=True,
)  # fmt: skip
def wording_not_understood(unsettled: tuple[tuple[str, Unsettled], ...], face: Face, read: ReadTender) -> Answer:
    """Print that may limit the check, in words the book does not know.

    What it asks: Is every line of print one the book knows, known to mean nothing for the check, or without a word
        that could limit it, such as if, until, only, void, hold, not, credit, loan, fund, deposit or copy? And where
        nothing tells of another kind, without a word of other paper, such as remitter, wages or pension?
    Why it matters: A limit the house has overlooked binds it all the same, and wording may be all that tells a kind
        that must be kept.
    Example: GOOD ONLY AT THE FALL FAIR.
    What to do: Read the line. If it sets no limit and names no other kind of paper, say yes; otherwise call the
        manager.
    """
    if not unsettled:
        return legends_seen(face)
    other = not read.kinds <= ONLY_PERSONAL  # what tells of other paper is answered where another kind is told
    return (
        tuple(
            Hit(
                f'Print with the word "{one.word}" in it that may limit the check.',
                (at(reading, one.span),),
                question="Is this print harmless, no limit and no other kind of paper?",
            )
            for reading, one in unsettled
            if not (one.paper and other)
        )
        or None
    )
