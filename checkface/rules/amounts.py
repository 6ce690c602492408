"""The amount in words and in figures: are both there, can they be read, do they say the same.

How large the amount may be is asked in :mod:`checkface.rules.limits`.
"""

from __future__ import annotations

from functools import partial

from checkface.amounts import FiguresAmount, WordsAmount, money
from checkface.amounts.model import Candidate
from checkface.findings import Effect, Label, Outcome, Remedy
from checkface.kinds import Kind
from checkface.routing import Fraction
from checkface.rules.registry import NOT_APPLICABLE, UNREAD, Answer, Case, Hit, at, left_blank, rule
from checkface.span import Fault
from checkface.tender import Face, State

_ZERO = ("words-zero", "figures-zero")


def _among(candidates: tuple[Candidate, ...]) -> str:
    return " or ".join(money(candidate.cents) for candidate in candidates[:3])


def _span(found: WordsAmount | FiguresAmount) -> tuple[int, int]:
    """From the first to the last character that the value was read from."""
    spans = found.spans.values()
    return (min(s.start for s in spans), max(s.end for s in spans)) if spans else (0, 0)


def _agreed(case: Case) -> Outcome | None:
    """Words and figures that are clear, each by itself, and agree: nothing is left to ask of either."""
    words, figures, together = case.read.words, case.read.figures, case.read.comparison
    if together is None or together.outcome != "agree" or not isinstance(words, WordsAmount) or words.repairs:
        return None
    clear = words.verdict == "clear" and isinstance(figures, FiguresAmount) and figures.verdict == "clear"
    return Outcome.HELD if clear else None


_rule = partial(rule, gate=_agreed)


@_rule(
    "amounts-disagree", Effect.DECLINE, by="common-practice ucc-3-114 ny-ucc-3-118", needs="words figures",
    remedy=Remedy.NEW_CHECK, floor=Effect.REFER,
)  # fmt: skip
def amounts_disagree(case: Case) -> Answer:
    """The amount in words and the amount in figures are different.

    What it asks: Do words and figures, each read for itself, state one amount?
    Why it matters: In law the check is worth its words, in New York too unless the words are ambiguous. A
        house that took the figures would be paid the words, more or less by whatever lies between, and an
        altered check often shows in nothing else.
    Example: Fifty-four and 10/100 beside $45.10: the house rang up 45.10, the bank pays 54.10.
    What to do: Hand it back and ask for a new check. A change of either amount with initials is for a manager
        to accept.
    """
    found = case.read.comparison
    if found is None:
        return UNREAD
    if found.outcome != "disagree":
        return None
    words, figures = case.read.words, case.read.figures
    if not isinstance(words, WordsAmount) or not isinstance(figures, FiguresAmount) or words.cents is None:
        return UNREAD
    shown = money(figures.cents) if figures.cents is not None else _among(figures.candidates)
    slip = found.slip.sentence.partition(":")[0] if found.slip else ""
    likely = f" ({slip[0].lower()}{slip[1:]})" if slip else ""
    message = (
        f"Expected one amount, read {money(words.cents)} in words and {shown} in figures{likely}; the words govern."
    )
    labels = (
        at("figures", _span(figures), shown),
        at("words", _span(words), f"{money(words.cents)} governs", primary=False),
    )
    return Hit(message, labels)


@_rule("words-unclear", Effect.REFER, by="ucc-3-114 ucc-3-302 common-practice", remedy=Remedy.REREAD)
def words_unclear(case: Case) -> Answer:
    """The amount in words cannot be read, or can be read in more than one way.

    What it asks: Do the words state one amount without a guess? A mended misspelling or an unusual form
        counts only where the figures confirm it.
    Why it matters: The words are what the check is worth. Illegible words are no contradiction and no
        agreement either: nobody yet knows the amount.
    Example: Twenty ten, which may be $20.10 or $2,010.00.
    What to do: Have the customer say the amount and compare it with the figures; a manager accepts it or asks
        for a new check. In New York clear figures govern where the words are ambiguous.
    """
    found = case.read.words
    if isinstance(found, WordsAmount):
        if found.verdict == "clear":
            return None
        together = case.read.comparison
        if found.cents is not None and together is not None and together.outcome in ("agree", "disagree"):
            return None
        return Hit(_doubtful(case, found), (at("words", _span(found)),))
    if isinstance(found, Fault):
        if found.kind in _ZERO:
            return None
        return Hit(found.message, (at("words", found.span),))
    if case.read.face.words.state is State.ILLEGIBLE:
        return Hit("Expected an amount in words, could not read it.", (at("words"),))
    return UNREAD if case.read.face.words.state is State.ABSENT else None


def _in_new_york(case: Case) -> bool:
    """Whether the bank is in New York by the prefix of its fraction or, without one, the counter by the policy."""
    fraction = case.read.fraction
    states = fraction.states if isinstance(fraction, Fraction) else ()
    return states == ("NY",) if states else case.policy.place(case.read.counter.store).state == "NY"


def _doubtful(case: Case, found: WordsAmount) -> str:
    if found.cents is None:
        message = f"Expected one amount in words, read {_among(found.candidates)}"
        figures = case.read.figures
        if isinstance(figures, FiguresAmount) and figures.verdict == "clear" and figures.cents and _in_new_york(case):
            message += f"; in New York the figures then govern, {money(figures.cents)}"
        return message + "."
    why = "; ".join(found.reasons) or "a mended word"
    return f"Expected figures that confirm {money(found.cents)} in words ({why}), read none that do."


@_rule("words-repaired", Effect.NOTE, by="ucc-3-114 common-practice", needs="words")
def words_repaired(case: Case) -> Answer:
    """A word of the amount is misspelled and was taken for the one it must be; the figures say the same.

    What it asks: Was every word of the amount read as it stands?
    Why it matters: A mended word alone decides nothing: eight and eighty lie one letter apart. Together with
        equal figures it does, and that it was mended stays on record.
    Example: Fourty-five and 10/100 beside $45.10.
    What to do: Nothing.
    """
    found = case.read.words
    if not isinstance(found, WordsAmount) or not found.repairs:
        return None
    together = case.read.comparison
    if together is None or together.outcome != "agree":
        return NOT_APPLICABLE
    labels = tuple(at("words", mended.span, mended.taken, primary=n == 0) for n, mended in enumerate(found.repairs))
    mended = found.repairs[0]
    return Hit(
        f'Expected the amount in words as it is spelled, read "{mended.read[:40]}", taken for "{mended.taken}".', labels
    )


@_rule("words-blank", Effect.NOTE, by="ucc-3-115 ucc-3-114", remedy=Remedy.COMPLETE)
def words_blank(face: Face, kinds: frozenset[Kind]) -> Answer:
    """The amount in words is blank.

    What it asks: Was the line for the words looked at and found empty, or filled with a stroke only?
    Why it matters: A check need not state its amount twice. A blank line is incomplete and not contradictory;
        but whoever holds the check can fill it in, and then the words govern.
    Example: $45.10 in the box and a drawn line where the words go.
    What to do: Have the customer write the amount in words, or let the printer do it. Treasury checks carry
        figures only.
    """
    answer = left_blank("words", face.words, "The line for the amount in words is blank.")
    return NOT_APPLICABLE if isinstance(answer, Hit) and Kind.TREASURY_CHECK in kinds else answer


@_rule("figures-blank", Effect.NOTE, by="ucc-3-115 ucc-3-114", remedy=Remedy.COMPLETE)
def figures_blank(face: Face) -> Answer:
    """The amount in figures is blank.

    What it asks: Was the box for the figures looked at and found empty?
    Why it matters: The words alone make the check good. An empty box is an invitation to write another amount
        into it.
    Example: Forty-five and 10/100 on the line, and nothing in the box.
    What to do: Have the customer fill in the box, or let the printer do it.
    """
    return left_blank("figures", face.figures, "The box for the amount is blank.")


@_rule("figures-unclear", Effect.REFER, by="ucc-3-114 ucc-3-302 common-practice", remedy=Remedy.REREAD)
def figures_unclear(case: Case) -> Answer:
    """The amount in figures cannot be read, or can be read in more than one way.

    What it asks: Do the figures state one amount? Where they do not, are the words clear, and is theirs an
        amount that the figures can be?
    Why it matters: Figures carry no spare sign: a lost point makes a hundredfold. Clear words settle what the
        figures leave open, and then this is a note; a box that holds no amount at all is referred, whatever
        the words say.
    Example: 1250 with no point, which is $1,250.00 or $12.50.
    What to do: Read the words. If they do not settle it, have the figures written again or call the manager.
    """
    found = case.read.figures
    if isinstance(found, FiguresAmount):
        if found.verdict == "clear":
            return None
        together = case.read.comparison
        settled = together is not None and together.outcome == "agree"
        return Hit(
            _open(found, settled, together.ruling_cents if together else None),
            _labels(found),
            Effect.NOTE if settled else None,
        )
    if isinstance(found, Fault):
        return None if found.kind in _ZERO else Hit(found.message, (at("figures", found.span),))
    state = case.read.face.figures.state
    if state is not State.ILLEGIBLE:
        return UNREAD if state is State.ABSENT else None
    words = case.read.words
    settled = isinstance(words, WordsAmount) and words.verdict == "clear"
    return Hit("Expected an amount in figures, could not read it.", (at("figures"),), Effect.NOTE if settled else None)


def _open(found: FiguresAmount, settled: bool, ruling: int | None) -> str:
    if len(found.candidates) > 1:
        message = f"Expected one amount in figures, read {_among(found.candidates)}"
    else:
        message = f"Expected figures that need no mending, read {_among(found.candidates)}: {'; '.join(found.reasons)}"
    return message + (f"; the words settle it at {money(ruling)}." if settled and ruling is not None else ".")


def _labels(found: FiguresAmount) -> tuple[Label, ...]:
    return (at("figures", _span(found)),)
