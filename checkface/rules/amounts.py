"""The amount in words and in figures: are both there, can they be read, do they say the same.

How large the amount may be is asked in :mod:`checkface.rules.limits`.
"""

from __future__ import annotations

from functools import partial

from checkface.amounts import Comparison, FiguresAmount, WordsAmount, money
from checkface.amounts.model import Candidate, quoted
from checkface.findings import Effect, Outcome, Remedy
from checkface.kinds import Kind
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
    "amounts-disagree", Effect.DECLINE, by="common-practice ucc-3-114 ny-ucc-3-118",
    remedy=Remedy.NEW_CHECK, floor=Effect.REFER,
)  # fmt: skip
def amounts_disagree(words: WordsAmount, figures: FiguresAmount, comparison: Comparison) -> Answer:
    """The amount in words and the amount in figures are different.

    What it asks: Do words and figures, each read for itself, state one amount?
    Why it matters: In law the check is worth its words, in New York too unless the words are ambiguous. A
        house that took the figures is paid the words, and an altered check often shows in nothing else.
    Example: Fifty-four and 10/100 beside $45.10: the house rang up 45.10, the bank pays 54.10.
    What to do: Hand it back and ask for a new check. A change of either amount with initials is for a manager
        to accept.
    """
    if comparison.outcome != "disagree" or words.cents is None:
        return None
    said = money(words.cents)
    shown = _among(figures.candidates) if figures.cents is None else money(figures.cents)
    slip = comparison.slip.sentence.partition(":")[0] if comparison.slip else ""
    likely = f": {slip[0].lower()}{slip[1:]}" if slip else ""
    labels = (at("figures", _span(figures), shown), at("words", _span(words), f"{said} counts", primary=False))
    return Hit(f"Words say {said}, the box {shown}{likely}. The words count.", labels)


@_rule("words-unclear", Effect.REFER, by="ucc-3-114 ucc-3-302 common-practice", remedy=Remedy.REREAD)
def words_unclear(
    face: Face,
    words_read: WordsAmount | Fault | None,
    figures_read: FiguresAmount | Fault | None,
    comparison: Comparison | None,
    bank_states: tuple[str, ...],
) -> Answer:
    """The amount in words cannot be read, or can be read in more than one way.

    What it asks: Do the words state one amount without a guess? A mended misspelling or an unusual form
        counts only where the figures confirm it.
    Why it matters: The words are what the check is worth. As long as they are not read, nobody knows the amount.
    Example: Twenty ten, which may be $20.10 or $2,010.00.
    What to do: Have the customer say the amount and compare it with the figures; a manager accepts it or asks
        for a new check. In New York clear figures govern where the words are ambiguous.
    """
    if isinstance(words_read, WordsAmount):
        agreed = comparison is not None and comparison.outcome in ("agree", "disagree")
        if words_read.verdict == "clear" or (words_read.cents is not None and agreed):
            return None
        box = None
        if isinstance(figures_read, FiguresAmount) and figures_read.verdict == "clear" and bank_states == ("NY",):
            box = figures_read.cents
        return Hit(_doubtful(words_read, box), (at("words", _span(words_read)),))
    if isinstance(words_read, Fault):
        if words_read.kind in _ZERO:
            return None
        return Hit(f"No amount can be made of {quoted(face.words.text)}.", (at("words", words_read.span),))
    if face.words.state is State.ILLEGIBLE:
        return Hit("The amount in words cannot be read.", (at("words"),))
    return UNREAD if face.words.state is State.ABSENT else None


def _doubtful(words: WordsAmount, box: int | None) -> str:
    """What is in doubt; *box* are the cents of figures that count where the words are ambiguous."""
    if words.cents is not None:
        why = words.reasons[0] if words.reasons else "a word is misspelled"
        return f"The words seem to say {money(words.cents)}, and the box does not confirm it: {why}."
    message = f"The words may say {_among(words.candidates)}."
    return f"{message} In New York the box then counts: {money(box)}." if box else message


@_rule("words-repaired", Effect.NOTE, by="ucc-3-114 common-practice")
def words_repaired(words: WordsAmount, comparison: Comparison | None) -> Answer:
    """A word of the amount is misspelled and was taken for the one it must be; the figures say the same.

    What it asks: Was every word of the amount read as it stands?
    Why it matters: A misspelled word by itself settles no amount: eight and eighty are one letter apart. With
        equal figures it does, and that it was misspelled stays on record.
    Example: Fourty-five and 10/100 beside $45.10.
    What to do: Nothing.
    """
    if not words.repairs:
        return None
    if comparison is None or comparison.outcome != "agree":
        return NOT_APPLICABLE
    labels = tuple(at("words", mended.span, mended.taken, primary=n == 0) for n, mended in enumerate(words.repairs))
    mended = words.repairs[0]
    return Hit(f'{quoted(mended.read)} is misspelled and was taken for "{mended.taken}".', labels)


@_rule("words-blank", Effect.NOTE, by="ucc-3-115 ucc-3-114", remedy=Remedy.COMPLETE)
def words_blank(face: Face, kinds: frozenset[Kind]) -> Answer:
    """The amount in words is blank.

    What it asks: Was the line for the words looked at and found empty, or filled with a stroke only?
    Why it matters: A check need not state its amount twice. A blank line says nothing against the figures;
        but whoever holds the check can fill it in, and then the words count.
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
    Why it matters: The words alone make the check good. But anyone may write another amount into an empty
        box.
    Example: Forty-five and 10/100 on the line, and nothing in the box.
    What to do: Have the customer fill in the box, or let the printer do it.
    """
    return left_blank("figures", face.figures, "The box for the amount is blank.")


@_rule("figures-unclear", Effect.REFER, by="ucc-3-114 ucc-3-302 common-practice", remedy=Remedy.REREAD)
def figures_unclear(
    face: Face,
    figures_read: FiguresAmount | Fault | None,
    words_read: WordsAmount | Fault | None,
    comparison: Comparison | None,
) -> Answer:
    """The amount in figures cannot be read, or can be read in more than one way.

    What it asks: Do the figures state one amount? Where they do not, are the words clear, and is theirs an
        amount that the figures can be?
    Why it matters: Without its point an amount reads a hundred times as large. Clear words settle what the
        figures leave open, and then this is a note; a box that holds no amount at all is referred, whatever
        the words say.
    Example: 1250 with no point, which is $1,250.00 or $12.50.
    What to do: Read the words. If they do not settle it, have the figures written again or call the manager.
    """
    if isinstance(figures_read, FiguresAmount):
        if figures_read.verdict == "clear":
            return None
        settled = comparison is not None and comparison.outcome == "agree"
        message = _open(figures_read, comparison.ruling_cents if comparison is not None and settled else None)
        return Hit(message, (at("figures", _span(figures_read)),), Effect.NOTE if settled else None)
    if isinstance(figures_read, Fault):
        if figures_read.kind in _ZERO:
            return None
        return Hit(f"No amount can be made of {quoted(face.figures.text)}.", (at("figures", figures_read.span),))
    if face.figures.state is not State.ILLEGIBLE:
        return UNREAD if face.figures.state is State.ABSENT else None
    settled = isinstance(words_read, WordsAmount) and words_read.verdict == "clear"
    return Hit("The amount in figures cannot be read.", (at("figures"),), Effect.NOTE if settled else None)


def _open(figures: FiguresAmount, ruling: int | None) -> str:
    """What the box may say, and the cents of the words that settle it."""
    if len(figures.candidates) > 1:
        message = f"The box may say {_among(figures.candidates)}"
    else:
        why = f": {figures.reasons[0]}" if figures.reasons else ""
        message = f"The box seems to say {_among(figures.candidates)}{why}"
    return f"{message}; the words say {money(ruling)}." if ruling is not None else f"{message}."
