"""Set the words against the figures: do they agree, and which of them does the law follow?

The sum an instrument is worth is that of its words (UCC 3-114); in New York, the figures' where the words are
ambiguous (N.Y. UCC 3-118(c)). A check whose words are blank is incomplete (UCC 3-115), not contradictory, and one
whose figures are blank states its sum in the words.

>>> from checkface.amounts.words import read_words
>>> from checkface.amounts.figures import read_figures
>>> result = compare(read_words("Twelve and 50/100"), read_figures("$15.20"))
>>> result.outcome, result.difference, result.ruling_cents, result.law
('disagree', 270, 1250, 'UCC 3-114')
>>> compare(read_words("Twelve and 50/100"), read_figures("1250")).settled
'the words settle the figures at $12.50: if the point before the cents is missing'
"""

from typing import Literal, NamedTuple

from checkface.amounts.model import FiguresAmount, WordsAmount, money
from checkface.amounts.slips import Slip, likely
from checkface.digits import discreet
from checkface.span import Fault

Outcome = Literal["agree", "disagree", "undecided", "incomplete"]

UCC_WORDS = "UCC 3-114"
NEW_YORK = "N.Y. UCC 3-118(c)"
UCC_INCOMPLETE = "UCC 3-115"


class Comparison(NamedTuple):
    """Words against figures, all amounts in cents.

    ``ruling_cents`` is the sum the law follows, by ``law``; None when it follows
    neither yet. ``settled`` says how the words chose among several readings of the figures. ``reason`` says in a
    sentence why the outcome is what it is.
    """

    outcome: Outcome
    words_cents: int | None = None
    figures_cents: int | None = None
    ruling_cents: int | None = None
    law: str = UCC_WORDS
    settled: str = ""
    reason: str = ""

    def __repr__(self) -> str:
        return discreet(self)

    @property
    def difference(self) -> int | None:
        """Cents between figures and words."""
        if self.words_cents is None or self.figures_cents is None:
            return None
        return abs(self.figures_cents - self.words_cents)

    @property
    def slip(self) -> Slip | None:
        """The likeliest slip when two values disagree."""
        if self.outcome != "disagree" or self.words_cents is None or self.figures_cents is None:
            return None
        return likely(self.words_cents, self.figures_cents)


def compare(words: WordsAmount | Fault, figures: FiguresAmount | Fault, state: str | None = None) -> Comparison:
    """Compare the two readings; *state* is the drawee's two-letter code, which decides the law.

    ``agree`` needs one definite value on each side, or words with one value and without repair that are one of the
    values the figures can have. A repaired amount in words agrees only with definite figures; otherwise the outcome
    is ``undecided``, as it is for words or figures that cannot be read. Two sides that are each open never settle
    one another: digits without a point on both prove nothing. Two definite, different values always ``disagree``. A
    blank on either side is ``incomplete``.
    """
    law = NEW_YORK if state is not None and state.upper() == "NY" else UCC_WORDS
    if isinstance(words, Fault) or isinstance(figures, Fault):
        return _unread(words, figures, law)
    said, shown = words.cents, figures.cents
    if said is None:
        return _ambiguous(words, figures, law)
    if said == shown and figures.verdict == "clear":
        return Comparison("agree", said, shown, said, law, "", "Words and figures are equal.")
    if len(words.candidates) > 1 and {c.cents for c in words.candidates} & {c.cents for c in figures.candidates}:
        reason = "The words have several readings, and the figures do not settle which."
        return Comparison("undecided", words_cents=said, figures_cents=shown, law=law, reason=reason)
    if words.repairs:
        reason = (
            "The words were repaired and do not equal the figures."
            if figures.verdict == "clear"
            else "The words were repaired and the figures are not definite."
        )
        return Comparison("undecided", words_cents=said, figures_cents=shown, law=law, reason=reason)
    for candidate in figures.candidates:
        if candidate.cents == said:
            settled = f"the words settle the figures at {money(said)}: {candidate.reason}"
            return Comparison(
                "agree",
                words_cents=said,
                figures_cents=said,
                ruling_cents=said,
                law=law,
                settled=settled,
                reason="The words are one reading of the figures.",
            )
    if figures.repairs:
        reason = "The figures were repaired and no reading of them equals the words."
        return Comparison("undecided", words_cents=said, figures_cents=shown, ruling_cents=said, law=law, reason=reason)
    if shown is None:
        reason = f"The words say {money(said)}, and no reading of the figures does."
    else:
        reason = f"The words say {money(said)}, the figures {money(shown)}."
    return Comparison("disagree", words_cents=said, figures_cents=shown, ruling_cents=said, law=law, reason=reason)


def _ambiguous(words: WordsAmount, figures: FiguresAmount, law: str) -> Comparison:
    """Words with several readings decide nothing; New York turns to the figures, if those are definite."""
    shown = figures.cents
    ruling = shown if law == NEW_YORK and figures.verdict == "clear" else None
    among = shown is not None and any(candidate.cents == shown for candidate in words.candidates)
    reason = (
        "The words are ambiguous; the figures are one of their readings."
        if among
        else "The words are ambiguous, and the figures are none of their readings."
    )
    return Comparison("undecided", figures_cents=shown, ruling_cents=ruling, law=law, reason=reason)


def _unread(words: WordsAmount | Fault, figures: FiguresAmount | Fault, law: str) -> Comparison:
    said = words.cents if isinstance(words, WordsAmount) and words.verdict == "clear" else None
    shown = None if isinstance(figures, Fault) else figures.cents
    words_blank = isinstance(words, Fault) and words.kind == "words-blank"
    figures_blank = isinstance(figures, Fault) and figures.kind == "figures-blank"
    if words_blank and figures_blank:
        return Comparison("incomplete", law=UCC_INCOMPLETE, reason="Neither amount is written.")
    if words_blank:
        return Comparison("incomplete", figures_cents=shown, law=UCC_INCOMPLETE, reason="The amount in words is blank.")
    if figures_blank:
        return Comparison(
            "incomplete", words_cents=said, ruling_cents=said, law=law, reason="The amount in figures is blank."
        )
    reason = "The words cannot be read." if isinstance(words, Fault) else "The figures cannot be read."
    return Comparison("undecided", words_cents=said, figures_cents=shown, ruling_cents=said, law=law, reason=reason)
