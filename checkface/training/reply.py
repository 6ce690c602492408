"""What a cashier answers: one of four words, and if they know it, the rule that decides.

>>> parse("k serial-not-printed")
Answer(disposition=<Disposition.KEEP: 'keep'>, reason='serial-not-printed')
>>> parse("Decline because it is old").reason
'because it is old'
>>> parse("perhaps") is None
True
"""

from __future__ import annotations

from typing import NamedTuple

from checkface.assessment import Assessment
from checkface.findings import Disposition, Effect
from checkface.rules import rules


class Answer(NamedTuple):
    """An answer; ``reason`` is the name of a rule, or whatever else was said."""

    disposition: Disposition
    reason: str


class Verdict(NamedTuple):
    """An answer held against the rule book. ``reason_right`` is ``None`` where no rule was named or none decides."""

    right: bool
    reason_right: bool | None


_WORDS = {str(disposition): disposition for disposition in Disposition}
_WORDS |= {word[0]: disposition for word, disposition in _WORDS.items()}


def parse(text: str) -> Answer | None:
    """The answer in *text*: a word or its first letter, then the reason. ``None`` where it starts with neither."""
    word, _, reason = " ".join(text.replace(",", " ", 1).split()).partition(" ")
    disposition = _WORDS.get(word.strip(".:;").lower())
    return None if disposition is None else Answer(disposition, reason.strip(" .-"))


def deciding(assessment: Assessment) -> tuple[str, ...]:
    """The rules that decide: those of the strictest effect, none where nothing bars a debit."""
    top = max((finding.effect for finding in assessment.findings), default=Effect.NOTE)
    if top is Effect.NOTE:
        return ()
    return tuple(dict.fromkeys(finding.rule for finding in assessment.findings if finding.effect == top))


def hold(answer: Answer, assessment: Assessment) -> Verdict:
    """Whether the answer is right, and the reason, where it names a rule and one decides."""
    causes = deciding(assessment)
    named = answer.reason.lower().replace(" ", "-").replace("_", "-")
    known = {rule.id for rule in rules()}
    reason_right = named in causes if causes and named in known else None
    return Verdict(answer.disposition == assessment.disposition, reason_right)
