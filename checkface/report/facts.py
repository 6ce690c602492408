"""What a report says of one tender, before it is drawn or narrated: both renderers say this and nothing else.

Account and identification numbers are masked here; texts are made harmless where they are put on a terminal
(:mod:`checkface.cells`).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple, Protocol

from checkface import authority, masking
from checkface.decision import Decision
from checkface.findings import Disposition, Effect, Finding, Label, Remedy
from checkface.handling import Instructions, Step
from checkface.policy import UNNAMED
from checkface.reading import By, ReadTender
from checkface.tender import Face, Mark, State

#: What the parts of a tender are called in a report.
NAMES: Mapping[str, str] = {
    "face.micr": "MICR line", "face.fraction": "fraction", "face.serial": "check number", "face.date": "date",
    "face.payee": "payee", "face.figures": "figures", "face.words": "words", "face.drawer": "drawer",
    "face.drawee": "drawee", "face.legends": "legends", "face.memo": "memo", "face.signature": "signature",
    "face.countersignature": "countersignature", "face.endorsements": "endorsements", "face.alterations": "alterations",
    "counter.on": "day of tender", "counter.declared_kind": "declared kind", "counter.amount": "keyed amount",
    "counter.purchase": "purchase", "counter.micr_by": "line captured by", "counter.network": "network",
    "counter.authorization_signed": "authorization",
    "counter.confirmed": "confirmed", "counter.store": "store", "counter.lane": "lane",
    "counter.employee": "employee", "documents": "documents",
}  # fmt: skip

#: What each remedy asks of the counter.
REMEDIES: Mapping[Remedy, str] = {
    Remedy.REREAD: "take the reading once more",
    Remedy.REKEY: "key it again",
    Remedy.COMPLETE: "have the customer complete it",
    Remedy.SIGN: "have the customer sign",
    Remedy.CONFIRM: "answer the question after one look",
    Remedy.NEW_CHECK: "ask for a newly written check",
    Remedy.SHOW_ID: "ask for identification",
    Remedy.MANAGER: "have a manager decide",
    Remedy.NONE: "nothing at the counter cures this",
}

#: Who saw what conversion rests on.
SEEN_BY: Mapping[By, str] = {
    "reader": "by a reader", "clerk": "by the clerk", "record": "on record", "confirmed": "confirmed by the clerk",
}  # fmt: skip

#: What must be said of a source whose own text was not read.
BASES: Mapping[str, str] = {"text": "", "public summary": ", by its public summary", "memory": ", from memory"}

#: Up to so many rules that could not run are named unasked.
FEW = 3

NOT_LOOKED_AT, BLANK, ILLEGIBLE = "(not looked at)", "(blank)", "(illegible)"
_YES_NO: Mapping[object, str] = {True: "yes", False: "no", None: ""}
_MARKS = {Mark.ABSENT: NOT_LOOKED_AT, Mark.ILLEGIBLE: ILLEGIBLE, Mark.YES: "(seen)", Mark.NO: "(not seen)"}


class Judged(Protocol):
    """What there is to report: any :class:`checkface.Assessment` is one."""

    @property
    def read(self) -> ReadTender:
        """What was read."""
        ...

    @property
    def decision(self) -> Decision:
        """What was decided and why."""
        ...

    @property
    def instructions(self) -> Instructions:
        """What is to be done."""
        ...


class Pointed(NamedTuple):
    """A reading that a finding points at: ``text`` and the range in question, or its ``state`` where there is none."""

    reading: str
    text: str
    state: str
    start: int
    end: int
    words: str
    primary: bool

    @property
    def whole(self) -> bool:
        """Whether the finding points at all of the reading."""
        return (self.start, self.end) == (0, len(self.text))


class Found(NamedTuple):
    """One finding, in words."""

    rule: str
    effect: Effect
    message: str
    points: tuple[Pointed, ...]
    remedy: str
    question: str
    sources: tuple[str, ...]


class Opening(NamedTuple):
    """A better disposition and what must be cured for it: rule and remedy of each. ``open``: all can be cured."""

    disposition: Disposition
    cures: tuple[tuple[str, str], ...]
    open: bool


class Facts(NamedTuple):
    """Everything a report says of one tender. ``values`` are what the face was read as: name and value;
    ``rests_on`` the pillars of conversion that stand, each with who saw it; ``lacks`` what the policy does not say yet.
    """

    id: str
    disposition: Disposition
    found: tuple[Found, ...]
    openings: tuple[Opening, ...]
    rests_on: tuple[str, ...]
    unread: tuple[str, ...]
    values: tuple[tuple[str, str], ...]
    to_customer: str
    for_house: str
    steps: tuple[Step, ...]
    lacks: str


def facts(judged: Judged, *, reveal: bool = False) -> Facts:
    """The facts of one assessment; ``reveal`` leaves account and identification numbers unmasked."""
    read, decision = judged.read, judged.decision
    texts = masking.texts(read, reveal=reveal)
    return Facts(
        masking.identifier(read.tender.id, read),
        decision.disposition,
        tuple(_found(finding, read, texts, reveal) for finding in sorted(decision.findings, key=_strictest_first)),
        tuple(
            Opening(
                change.disposition,
                tuple(dict.fromkeys((cure.rule, REMEDIES[cure.remedy]) for cure in change.cures)),
                change.curable,
            )
            for change in decision.would_change
        ),
        tuple(f"{rest.pillar} ({SEEN_BY[rest.by]})" for rest in decision.rests_on),
        decision.unread,
        tuple(values(masking.summary(read, texts, reveal=reveal))),
        decision.for_customer,
        decision.for_house,
        judged.instructions.steps,
        "" if judged.instructions.policy.names_house else UNNAMED,
    )


def _strictest_first(finding: Finding) -> int:
    return -finding.effect.rank


def source(identifier: str) -> str:
    """One authority as it is cited under a finding, with its force and with what was read of it."""
    entry = authority.get(identifier)
    return f"{entry.citation} ({entry.force}{BASES[entry.basis]}): {entry.title}"


def money(cents: int) -> str:
    """Dollars and cents, ``$1,045.10``."""
    return f"${cents // 100:,}.{cents % 100:02d}"


def unread_words(unread: tuple[str, ...], verbose: bool) -> str:
    """How many rules could not run; which, where they are few or *verbose* asks for all."""
    count = "1 rule" if len(unread) == 1 else f"{len(unread)} rules"
    named = f": {', '.join(unread)}" if verbose or len(unread) <= FEW else "; --verbose names them"
    return f"{count} could not run, a reading is missing{named}"


def opening_words(opening: Opening) -> str:
    """What must be cured for a better disposition, in a line of words."""
    closed = "" if opening.open else "not at this counter, "
    return f"to {opening.disposition}: {closed}{'; '.join(f'{rule} ({remedy})' for rule, remedy in opening.cures)}"


def step_words(step: Step) -> str:
    """One step at the counter in a line of words."""
    condition = f", if {step.only_if}" if step.only_if else ""
    text = step.text.replace("\n", " / ")
    quoted = f' "{text}"' if text else ""
    return f"{step.who}: {step.does.replace('-', ' ')} ({step.where}{condition}).{quoted} {step.why}"


def _found(finding: Finding, read: ReadTender, texts: Mapping[str, str], reveal: bool) -> Found:
    points = tuple(_pointed(label, read, texts, reveal) for label in finding.labels)
    sources = tuple(map(source, finding.authority))
    remedy = REMEDIES[finding.remedy]
    return Found(finding.rule, finding.effect, finding.message, points, remedy, finding.question, sources)


def _pointed(label: Label, read: ReadTender, texts: Mapping[str, str], reveal: bool) -> Pointed:
    text, state = _shown(label.reading, read, texts, reveal)
    start, end = min(label.start, len(text)), min(label.end, len(text))
    if start == end == 0:
        end = len(text)
    return Pointed(name_of(label.reading), text, state, start, end, label.words, label.primary)


def name_of(path: str) -> str:
    """What the reading at a dotted *path* is called; a document by its place in the order shown."""
    head, _, rest = path.partition(".")
    if head != "documents" or not rest:
        return NAMES.get(path, path)
    number, _, field = rest.rpartition(".")
    place = f"document {int(number) + 1}" if number.isdecimal() else "document"
    return f"{place} {field}".replace("_", " ")


def _shown(path: str, read: ReadTender, texts: Mapping[str, str], reveal: bool) -> tuple[str, str]:
    """The text at a dotted *path*, or in its place the state it is in."""
    branch, _, rest = path.partition(".")
    if branch == "documents":
        return _document(rest, read, reveal)
    if branch == "face" and rest in Face.model_fields:
        value = getattr(read.face, rest)
        if isinstance(value, Mark):
            return "", _MARKS[value]
        if value.state is not State.TEXT:
            return "", {State.ABSENT: NOT_LOOKED_AT, State.BLANK: BLANK, State.ILLEGIBLE: ILLEGIBLE}[value.state]
    text = texts.get(path, "")
    return text, "" if text else NOT_LOOKED_AT


def _document(rest: str, read: ReadTender, reveal: bool) -> tuple[str, str]:
    documents = read.tender.documents
    if documents is None:
        return "", "(nobody asked)"
    number, _, field = rest.rpartition(".")
    place = int(number) if number.isdecimal() else 0
    if place >= len(documents):
        return "", "(none shown)"
    value = getattr(documents[place], field, "") if field else documents[place].kind
    text = _YES_NO.get(value, str(value))
    if not reveal:
        text = masking.number(text) if field in {"number", "barcode"} else masking.own(text, read)
    return text, "" if text else BLANK


def values(summary: Mapping[str, object]) -> list[tuple[str, str]]:
    """What the face was read as, name and value, from the summary of :func:`checkface.masking.summary`."""
    found: list[tuple[str, str]] = []
    line = summary["micr"]
    if isinstance(line, Mapping):
        for key, name in (("routing", "routing"), ("account", "account"), ("serial", "check number")):
            if line[key]:
                found.append((name, str(line[key])))
    amount = summary["amount_cents"]
    if isinstance(amount, int):
        found.append(("amount", money(amount)))
    if summary["date"]:
        found.append(("date", str(summary["date"])))
    kinds = summary["kinds"]
    if isinstance(kinds, list) and kinds:
        found.append(("kind", " or ".join(kinds)))
    return found
