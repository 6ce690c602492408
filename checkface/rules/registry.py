"""One rule, one place: its id, effect, authority, remedy, explanation and the function that asks.

A rule is a pure function, and its parameters are its needs: it is asked only when the readings they name were taken,
gets those and sees nothing else (:data:`PARAMETERS`). A needed reading that is absent, illegible or malformed gives
the outcome ``unread``, one that is blank gives ``not_applicable``; neither is a pass. A parameter that may be ``None``
is no need. It returns ``None`` (held), one :class:`Hit` or several (found), :data:`NOT_APPLICABLE`, or :data:`UNREAD`
where only its own look at the kind of paper shows that a reading is missing. The docstring is the explanation, under
four fixed headings; the authority is the fifth and comes from the registry.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from operator import attrgetter
from typing import TYPE_CHECKING, Final, NamedTuple

from checkface.amounts import FiguresAmount
from checkface.authority import LOWERABLE, Force, get
from checkface.findings import Effect, Label, Outcome, Remedy
from checkface.reading import NEEDS, ReadTender
from checkface.routing import Fraction
from checkface.rules.terms import Term, term
from checkface.tender import Reading, State

if TYPE_CHECKING:
    from checkface.policy import Policy
    from checkface.rules.history import History

HEADINGS = ("What it asks", "Why it matters", "Example", "What to do")


class Case(NamedTuple):
    """All a rule may look at: what was read, the house policy and what passed the counter before."""

    read: ReadTender
    policy: Policy
    history: History | None

    @property
    def bank_states(self) -> tuple[str, ...]:
        """The states in which the fraction says the bank may be, as letters; without any, where the counter stands."""
        fraction = self.read.fraction
        states = fraction.states if isinstance(fraction, Fraction) else ()
        return states or (self.policy.place(self.read.counter.store).state,)

    @property
    def laws(self) -> frozenset[str]:
        """States whose law may hold, as letters: where the counter stands, and where the fraction says the bank is."""
        bank = self.bank_states
        there = bank if len(bank) == 1 else ()
        return frozenset((self.policy.place(self.read.counter.store).state, *there)) - {""}

    @property
    def term(self) -> Term:
        """Which term the check has."""
        read = self.read
        return term(read.kinds, read.kind, read.routing, read.face, self.laws)

    @property
    def amount_at(self) -> str:
        """The reading in which the amount stands: as keyed, else the figures, else the words."""
        if self.read.counter.amount is not None:
            return "counter.amount"
        return "figures" if isinstance(self.read.figures, FiguresAmount) else "words"


class Hit(NamedTuple):
    """What a rule found. ``effect`` and ``remedy`` replace the rule's own where one fault has two grades.

    A ``question`` that the clerk answers with one look goes with the effect ``refer``; confirmed, the fault is a note.

    ``message`` names what was read and never the person; it quotes no account or identification number.
    """

    message: str
    labels: tuple[Label, ...] = ()
    effect: Effect | None = None
    remedy: Remedy | None = None
    question: str = ""


class Parameter(NamedTuple):
    """What a rule may ask for by name: where it stands in a :class:`Case`, and the need of it, empty where it is always
    there (a reading's state is, too)."""

    path: str
    need: str = ""


#: Everything a rule may ask for. Sections of the house's policy begin with ``house_``.
PARAMETERS: dict[str, Parameter] = {
    # what a part made of a reading: asked only where it made something
    "line": Parameter("read.line", "micr"),
    "routing": Parameter("read.routing", "routing"),
    "fraction": Parameter("read.fraction", "fraction"),
    "words": Parameter("read.words", "words"),
    "figures": Parameter("read.figures", "figures"),
    "date": Parameter("read.date", "date"),
    "cents": Parameter("read.amount_cents", "amount"),
    "account": Parameter("read.line.account", "account"),
    # the same, or the fault a part found: asked wherever there was text
    "line_or_fault": Parameter("read.micr", "micr_text"),
    "fraction_or_fault": Parameter("read.fraction", "fraction_text"),
    # texts, marks and circumstances: asked only where they were taken
    "micr_text": Parameter("read.face.micr.text", "micr_text"),
    "serial_text": Parameter("read.face.serial.text", "serial"),
    "payee": Parameter("read.face.payee.text", "payee"),
    "drawer_text": Parameter("read.face.drawer.text", "drawer"),
    "drawer": Parameter("read.drawer", "drawer"),
    "drawee": Parameter("read.drawee", "drawee"),
    "legends": Parameter("read.face.legends.text", "legends"),
    "signature": Parameter("read.face.signature", "signature"),
    "alterations": Parameter("read.face.alterations", "alterations"),
    "on": Parameter("read.counter.on", "on"),
    "network": Parameter("read.counter.network", "network"),
    "micr_by": Parameter("read.counter.micr_by", "micr_by"),
    "authorization": Parameter("read.counter.authorization_signed", "authorization"),
    "keyed_cents": Parameter("read.counter.amount", "keyed_amount"),
    "purchase_cents": Parameter("read.counter.purchase", "purchase"),
    "documents": Parameter("read.tender.documents", "documents"),
    "shown": Parameter("read.shown", "document"),
    "rated": Parameter("read.face", "confidence"),
    "document_numbers": Parameter("read.document_numbers", "document"),
    "known_kinds": Parameter("read.kinds", "kind"),
    # what is always there; what a part made of a reading may be a fault, or nothing
    "micr": Parameter("read.face.micr"),
    "kinds": Parameter("read.kinds"),
    "serial": Parameter("read.serial"),
    "inference": Parameter("read.kind"),
    "date_read": Parameter("read.date"),
    "words_read": Parameter("read.words"),
    "figures_read": Parameter("read.figures"),
    "comparison": Parameter("read.comparison"),
    "largest_cents": Parameter("read.largest_amount_cents"),
    "amount_at": Parameter("amount_at"),
    "declared": Parameter("read.counter.declared_kind"),
    "unsettled": Parameter("read.unsettled"),
    "bank_states": Parameter("bank_states"),
    "laws": Parameter("laws"),
    "term": Parameter("term"),
    "face": Parameter("read.face"),
    "counter": Parameter("read.counter"),
    "read": Parameter("read"),
    "policy": Parameter("policy"),
    "history": Parameter("history"),
    **{f"house_{section}": Parameter(f"policy.{section}") for section in (
        "kinds", "limits", "dates", "readings", "unseen", "payee", "routing", "conversion", "identity", "history",
    )},
}  # fmt: skip

NOT_APPLICABLE: Final = Outcome.NOT_APPLICABLE
UNREAD: Final = Outcome.UNREAD
Answer = Hit | tuple[Hit, ...] | Outcome | None


#: A rule as it is written: its parameters are names of :data:`PARAMETERS`.
Asks = Callable[..., Answer]
#: A question asked once for all rules that share it: the outcome of them all, or ``None`` to ask each.
Gate = Callable[[Case], Outcome | None]


class Rule(NamedTuple):
    """One entry of the rule book. ``floor``: the least effect a house may set, where a bar is absolute.

    ``asks_clerk``: some of its findings carry a question that ``counter.confirmed`` may answer.
    """

    id: str
    family: str
    effect: Effect
    authority: tuple[str, ...]
    needs: tuple[str, ...]
    remedy: Remedy
    explanation: dict[str, str]
    ask: Callable[[Case], Answer]
    mask: int
    floor: Effect | None
    gate: Gate | None
    asks_clerk: bool

    @property
    def title(self) -> str:
        """The first sentence: the fault the rule is named after."""
        return self.explanation["title"]

    @property
    def force(self) -> Force:
        """The force of the first authority, on which the effect rests; the others define or support."""
        return get(self.authority[0]).force

    @property
    def lowest_effect(self) -> Effect:
        """The least effect a house policy may give this rule."""
        if self.floor is not None:
            return self.floor
        return Effect.NOTE if self.force in LOWERABLE else self.effect


RULES: dict[str, Rule] = {}


def rule(
    identifier: str,
    effect: Effect,
    *,
    by: str,
    remedy: Remedy = Remedy.NONE,
    floor: Effect | None = None,
    gate: Gate | None = None,
    explanation: str | None = None,
    asks_clerk: bool = False,
) -> Callable[[Asks], Asks]:
    """Register the decorated function as the rule *identifier*.

    ``by`` are blank-separated ids of authorities. Raises ``ValueError`` for an id used twice or an explanation without
    its headings, ``KeyError`` for a parameter that is not one.
    """

    def register(asks: Asks) -> Asks:
        if identifier in RULES:
            raise ValueError(f"Expected a new rule id, read {identifier!r} a second time.")
        family = asks.__module__.rpartition(".")[2]
        takes = taken_by(asks)
        needed = tuple(need for name in takes if (need := PARAMETERS[name].need) and not _may_be_none(asks, name))
        mask = 0
        for need in needed:
            mask |= NEEDS[need]
        words = parse_explanation(identifier, explanation or asks.__doc__ or "")
        authorities = tuple(by.split())
        RULES[identifier] = Rule(
            identifier, family, effect, authorities, needed, remedy, words, _asked(asks, takes), mask, floor, gate,
            asks_clerk,
        )  # fmt: skip
        return asks

    return register


def taken_by(asks: Asks) -> tuple[str, ...]:
    """The names of the parameters of a rule's function."""
    code = asks.__code__
    return code.co_varnames[: code.co_argcount]


def _may_be_none(asks: Asks, name: str) -> bool:
    return str(asks.__annotations__.get(name, "")).endswith("| None")


def _asked(asks: Asks, takes: tuple[str, ...]) -> Callable[[Case], Answer]:
    """The function that hands a rule what it asks for out of a case."""
    get = attrgetter(*(PARAMETERS[name].path for name in takes))
    if len(takes) == 1:
        return lambda case: asks(get(case))
    return lambda case: asks(*get(case))


def parse_explanation(identifier: str, docstring: str) -> dict[str, str]:
    """The title and the headed paragraphs of a rule's docstring. Raises ``ValueError`` when a heading is missing."""
    pattern = "|".join(map(re.escape, HEADINGS))
    parts = re.split(rf"(?m)^\s*({pattern}):", docstring)
    found = {"title": parts[0], **dict(zip(parts[1::2], parts[2::2], strict=True))}
    words = {heading: " ".join(text.split()) for heading, text in found.items()}
    if tuple(words) != ("title", *HEADINGS) or not all(words.values()):
        raise ValueError(f"Rule {identifier}: expected a title and the headings {', '.join(HEADINGS)}, in this order.")
    return words


def at(reading: str, span: tuple[int, int] | None = None, words: str = "", *, primary: bool = True) -> Label:
    """A label on ``face.<reading>`` (or a dotted path as given)."""
    start, end = span or (0, 0)
    return Label(reading if "." in reading else f"face.{reading}", start, end, words, primary)


def whole(name: str, text: str) -> Label:
    """A label on all of the *text* of the reading *name* of the face."""
    return at(name, (0, len(text)))


def left_blank(name: str, reading: Reading, message: str) -> Answer:
    """Whether the *reading* called *name* was looked at and found blank: then a hit that says *message*."""
    match reading.state:
        case State.BLANK:
            return Hit(message, (at(name),))
        case State.TEXT:
            return None
        case _:
            return UNREAD
