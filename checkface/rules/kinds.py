"""The kinds of paper that are never converted, each by its own rule.

Each row of ``data/kinds.toml`` that is not convertible without leave has its rule here, made from the row. It finds its
kind when anything positive says so: what the clerk declared, the line, or wording on the face. Evidence for one kind
never silences another, so more evidence can only make the answer stricter.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import partial

from checkface.findings import Effect, Label, Outcome, Remedy
from checkface.instruments import Inference, Weight
from checkface.kinds import Kind, where
from checkface.policy import Kinds
from checkface.reading import ReadTender
from checkface.rules.parties import legends_seen
from checkface.rules.registry import HEADINGS, NOT_APPLICABLE, UNREAD, Answer, Case, Hit, at, rule
from checkface.span import Span


def _labels(read: ReadTender, kind: Kind) -> tuple[Label, ...]:
    labels: list[Label] = []
    for piece in read.kind.evidence:
        if piece.kind is kind:
            reading, span = read.place(piece.reading, piece.span)
            labels.append(at(reading, span, piece.words, primary=not labels))
    if read.counter.declared_kind is kind:
        labels.append(at("counter.declared_kind", None, "declared", primary=not labels))
    return tuple(labels)


#: Kinds that are made out to the customer: their payee is the person to compare, and no third party.
PAID_TO_CUSTOMER = where(lambda row: row.paid_to == "customer")

#: What a personal check looks like: nothing speaks for any other kind.
ONLY_PERSONAL = frozenset({Kind.PERSONAL})


def _personal(case: Case) -> Outcome | None:
    """Where the one kind in evidence is personal, no rule for another kind has anything to find."""
    if case.read.kinds != ONLY_PERSONAL:
        return None
    return UNREAD if legends_seen(case.read.face) else Outcome.HELD


def is_open(kind: Kind, inference: Inference, declared: Kind | None) -> bool:
    """Whether each mark that speaks for the kind leaves others open too, so that it may be this one and need not."""
    if kind is inference.kind or kind is declared:
        return False
    marks: dict[bool, set[tuple[str, Span | None]]] = {True: set(), False: set()}
    for piece in inference.evidence:
        if piece.weight is not Weight.HINT:
            marks[piece.kind is kind].add((piece.reading, piece.span))
    return marks[True] <= marks[False]


#: What stands before each page of a row in the explanation of its rule.
_PAGES = ("", *(f"{heading}: " for heading in HEADINGS))


def _asks_for(kind: Kind) -> Callable[[ReadTender, Kinds], Answer]:
    row = kind.row
    do = "call the manager." if row.effect == Effect.REFER else "keep it."
    sure, unsure = f"{row.name[0].upper()}{row.name[1:]}: {do}", f"Perhaps a {row.name}: {do}"

    def ask(read: ReadTender, house_kinds: Kinds) -> Answer:
        if kind not in read.kinds:
            return legends_seen(read.face)  # what a kind is called stands there, and nobody may have read it yet
        if row.convertible == "house" and kind in house_kinds.convertible:
            return None
        open_ = is_open(kind, read.kind, read.counter.declared_kind)
        return Hit(unsure if open_ else sure, _labels(read, kind))

    ask.__module__ = __name__
    return ask


for _kind in Kind:
    _row = _kind.row
    if _row.rule:
        _effect = Effect(_row.effect)
        rule(
            _row.rule,
            _effect,
            by=" ".join(_row.authority),
            floor=None if _row.convertible == "house" else _effect,
            gate=_personal,
            remedy=Remedy.MANAGER if _effect is Effect.REFER else Remedy.NONE,
            explanation="\n".join(f"{head}{text}" for head, text in zip(_PAGES, _row.pages.values(), strict=True)),
        )(_asks_for(_kind))


def _as_declared(case: Case) -> Outcome | None:
    """Declared personal, nothing speaking for another kind, and taken here: nothing is left to ask of the kind."""
    read = case.read
    plain = read.counter.declared_kind is Kind.PERSONAL and read.kinds == ONLY_PERSONAL
    return Outcome.HELD if plain and Kind.PERSONAL in case.policy.kinds.taken else None


_of_kind = partial(rule, gate=_as_declared)


@_of_kind(
    "kind-undetermined", Effect.KEEP, by="nacha-ineligible common-practice", remedy=Remedy.REREAD, floor=Effect.KEEP
)
def kind_undetermined(kinds: frozenset[Kind]) -> Answer:
    """Nothing says what kind of check this is.

    What it asks: Does the clerk, the line, the printed name or the wording say what kind it is?
    Why it matters: A check is not a personal check because nobody said otherwise, and only some kinds may be converted.
    Example: The line is ordinary, no drawer was read, and the clerk declared nothing.
    What to do: Look at the drawer's name and the legends and declare the kind; otherwise keep the check.
    """
    if kinds:
        return None
    return Hit("Nothing says what kind of check it is. Keep it.", (at("counter.declared_kind"),))


@_of_kind("kind-contradicts-declared", Effect.REFER, by="common-practice", remedy=Remedy.MANAGER)
def kind_contradicts_declared(read: ReadTender) -> Answer:
    """The paper says another kind than the clerk declared.

    What it asks: Declared personal, does the line or the wording say otherwise?
    Why it matters: The button pressed at the lane decides whether the check is voided and handed back. A money order
        declared personal is a loss that no debit makes good.
    Example: Declared personal, and the legend says PAYROLL.
    What to do: Call the manager, who declares the kind again with the paper in hand.
    """
    declared = read.counter.declared_kind
    if declared is None:
        return NOT_APPLICABLE
    if declared is not Kind.PERSONAL or read.kinds == ONLY_PERSONAL:
        return None
    others = read.kinds - ONLY_PERSONAL
    marks: dict[tuple[str, int, int], Label] = {}
    for label in (label for kind in sorted(others) for label in _labels(read, kind)):
        # One mark may speak for two kinds: it is shown once, and only the first of all is primary.
        marks.setdefault((label.reading, label.start, label.end), label._replace(primary=not marks))
    evidence = tuple(marks.values())
    return Hit(
        f"Declared a personal check, but the paper says {_named(others)}.", evidence or (at("counter.declared_kind"),)
    )


@_of_kind("kind-not-accepted", Effect.DECLINE, by="house-policy")
def kind_not_accepted(read: ReadTender, house_kinds: Kinds) -> Answer:
    """The house does not take this kind of check.

    What it asks: Is every kind in evidence among the kinds the policy accepts? Where a mark leaves it open, a manager
        decides.
    Why it matters: A house may refuse any kind, if it refuses it to everyone alike.
    Example: The policy takes personal and payroll checks only, and a traveler's check is tendered.
    What to do: Hand it back, ask for another form of payment.
    """
    if read.kinds <= house_kinds.taken:
        return None
    refused = sorted(read.kinds - house_kinds.taken)
    unsure = all(is_open(kind, read.kind, read.counter.declared_kind) for kind in refused)
    message = f"This house does not take: {_named(refused)}."
    return Hit(message, _labels(read, refused[0]), Effect.REFER if unsure else None)


def _named(kinds: Iterable[Kind]) -> str:
    return ", ".join(kind.row.name for kind in sorted(kinds))
