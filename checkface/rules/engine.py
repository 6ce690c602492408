"""Run the whole rule book on one read tender.

Every rule gets an outcome on every tender; a rule whose readings are missing is ``unread`` and says so.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import cache, lru_cache
from itertools import groupby
from typing import TYPE_CHECKING, NamedTuple

from checkface import masking
from checkface.findings import Effect, Finding, Outcome, Remedy
from checkface.mistakes import quoted
from checkface.policy import Policy, PolicyError
from checkface.reading import ReadTender
from checkface.rules.pillars import Rest, standing
from checkface.rules.registry import RULES, Answer, Case, Gate, Hit, Rule

if TYPE_CHECKING:
    from checkface.rules.history import History


class Examination(NamedTuple):
    """What the rule book says of one tender: findings in the order of the book, an outcome for every rule, and what
    they were asked about."""

    findings: tuple[Finding, ...]
    exceptions: Mapping[str, Outcome]
    read: ReadTender
    policy: Policy

    @property
    def rests_on(self) -> tuple[Rest, ...]:
        """The pillars of conversion that stand, in their order."""
        return standing(self.read, self.policy, self.findings)

    @property
    def outcomes(self) -> dict[str, Outcome]:
        """The outcome of every rule by id."""
        return {
            identifier: self.exceptions.get(identifier, Outcome.HELD) for identifier in (entry.id for entry in rules())
        }

    @property
    def unread(self) -> tuple[str, ...]:
        """Rules that could not run because a reading they need was not taken or could not be read."""
        exceptions = self.exceptions
        return tuple(entry.id for entry in rules() if exceptions.get(entry.id) is Outcome.UNREAD)


_FAMILIES = (
    "micr_line", "micr_marks", "routing", "fraction", "amounts", "limits", "dates", "age", "kinds", "own_terms",
    "drawer", "payee", "parties", "wording", "identity", "holder", "pillars", "records", "counter",
)  # fmt: skip


@cache
def rules() -> tuple[Rule, ...]:
    """Every rule, family by family from the line to the counter, in the order in which they are asked."""
    return tuple(sorted(RULES.values(), key=lambda entry: _FAMILIES.index(entry.family)))


@cache
def book_digest() -> str:
    """SHA-256 over ids, effects, authorities, needs and explanations: changes when the rule book does."""
    import hashlib

    book = "\n".join(repr((r.id, str(r.effect), r.authority, r.needs, str(r.remedy), r.explanation)) for r in rules())
    return hashlib.sha256(book.encode()).hexdigest()


def check_effects(effects: Mapping[str, Effect]) -> list[str]:
    """What is wrong with the ``[effects]`` of a policy: one sentence a mistake, empty when all are allowed."""
    mistakes = []
    for identifier, effect in effects.items():
        known = RULES.get(identifier)
        if known is None:
            mistakes.append(f"effects.{identifier}: Expected the id of a rule, read an unknown one{_near(identifier)}.")
        elif effect < known.lowest_effect:
            mistakes.append(
                f"effects.{identifier}: Expected {known.lowest_effect} or stricter ({known.force}: "
                f"{', '.join(known.authority)}), read {effect}."
            )
    return mistakes


def check_policy(policy: Policy) -> list[str]:
    """What is wrong with the effects of *policy* and of its states: one sentence a mistake."""
    mistakes = check_effects(policy.effects)
    for code, there in policy.by_state.items():
        mistakes += [f"states.{code}.{mistake}" for mistake in check_effects(there.effects) if mistake not in mistakes]
    return mistakes


def check_confirmed(confirmed: Iterable[str]) -> list[str]:
    """What is wrong with the ids in ``counter.confirmed``: one sentence a mistake."""
    mistakes = []
    for identifier in confirmed:
        known = RULES.get(identifier)
        if known is None:
            mistakes.append(f"Expected the id of a rule with a question, read {quoted(identifier)}{_near(identifier)}.")
        elif not known.asks_clerk:
            mistakes.append(f"Expected a rule that a clerk may confirm, read {quoted(identifier)}: it has no question.")
    return mistakes


def _near(identifier: str) -> str:
    from difflib import get_close_matches

    near = get_close_matches(identifier, RULES, 1)
    return f"; the nearest rule is {near[0]!r}" if near else ""


def examine(read: ReadTender, policy: Policy, history: History | None = None) -> Examination:
    """Ask every rule about *read*. Raises :class:`PolicyError` if the policy lowers what it may not."""
    effects = policy.effects
    case, held = Case(read, policy, history), Outcome.HELD
    findings: list[Finding] = []
    exceptions: dict[str, Outcome] = {}
    for gate, shut, idle, steps in _plan(tuple(effects.items()), read.known, read.blank):
        if gate is not None and (passed := gate(case)) is not None:
            if passed is not held:
                exceptions |= shut[passed]
            continue
        if idle:
            exceptions |= idle
        for identifier, ask, rule in steps:
            answer = ask(case)
            if answer is None:
                continue
            if isinstance(answer, Outcome):
                exceptions[identifier] = answer
                continue
            exceptions[identifier] = Outcome.FOUND
            hits = (answer,) if isinstance(answer, Hit) else answer
            findings.extend(_finding(rule, effects.get(identifier), hit, read) for hit in hits)
    return Examination(tuple(findings), exceptions, read, policy)


_Step = tuple[str, Callable[[Case], Answer], Rule]
_NOTED = (Outcome.NOT_APPLICABLE, Outcome.UNREAD)
_Outcomes = dict[str, Outcome]
_Section = tuple[Gate | None, Mapping[Outcome, _Outcomes], _Outcomes, tuple[_Step, ...]]


@lru_cache(maxsize=1024)
def _plan(effects: tuple[tuple[str, Effect], ...], known: int, blank: int) -> tuple[_Section, ...]:
    """The book in its order, cut into runs of rules behind one gate: what to note where the gate is shut, the outcomes
    of the rules that cannot run on such readings, and the rules that can.

    Tenders differ much less in what was looked at than in what was read, so one plan serves many. Raises
    :class:`PolicyError` for *effects* that may not be.
    """
    if mistakes := check_effects(dict(effects)):
        raise PolicyError(mistakes)
    plan: list[_Section] = []
    for gate, run in groupby(rules(), key=lambda entry: entry.gate):
        section = tuple(run)
        # A held rule is no exception: only what did not run, or does not apply, is noted.
        shut = {outcome: dict.fromkeys((r.id for r in section), outcome) for outcome in _NOTED}
        idle = {r.id: Outcome.NOT_APPLICABLE if r.mask & blank else Outcome.UNREAD for r in section if r.mask & ~known}
        plan.append((gate, shut, idle, tuple((r.id, r.ask, r) for r in section if r.id not in idle)))
    return tuple(plan)


def _finding(rule: Rule, override: Effect | None, hit: Hit, read: ReadTender) -> Finding:
    effect = hit.effect or rule.effect
    remedy = hit.remedy or rule.remedy
    if override is not None:
        # A raised effect holds for both grades of a rule; a lowered one replaces them.
        effect = max(effect, override) if override >= rule.effect else override
    message = masking.message(hit.message, read)  # a reading that is quoted may hold the account by mistake
    question = masking.message(hit.question, read) if hit.question else ""
    if question and effect is Effect.REFER:
        remedy = Remedy.CONFIRM
        if rule.id in read.counter.confirmed:
            effect = Effect.NOTE
    labels = tuple(
        label._replace(words=masking.message(label.words, read)) if label.words else label for label in hit.labels
    )
    return Finding(rule.id, effect, message, labels, rule.authority, remedy, question)
