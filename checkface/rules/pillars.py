"""The twelve things conversion rests on, and whether anybody looked at each.

``convert`` voids the paper and hands it back, so each of them must have been seen and must speak for it. What was seen
and speaks against it is found by the rules for that reading; here is asked what nobody saw.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import NamedTuple

from checkface.dates import CheckDate
from checkface.findings import Effect, Finding, Remedy
from checkface.kinds import Kind
from checkface.policy import Kinds, Policy
from checkface.reading import NEEDS, By, ReadTender
from checkface.rules.registry import Answer, Hit, at, rule
from checkface.tender import Mark, State

_SEEN = (State.TEXT, State.BLANK)


class Pillar(NamedTuple):
    """One thing conversion rests on.

    ``readings`` are its dotted paths, its own first; ``required`` is its name among the readings a policy may demand;
    ``what`` the clerk looks at, and ``remedy`` is how a look not taken is made up for. ``unseen`` gives the path of
    what nobody looked at, empty where somebody did; ``speaks`` whether what was seen is what conversion needs.
    """

    name: str
    readings: tuple[str, ...]
    required: str
    what: str
    remedy: Remedy
    unseen: Callable[[ReadTender, Policy], str]
    speaks: Callable[[ReadTender, Policy], bool]

    @property
    def reading(self) -> str:
        """The dotted path of its own reading."""
        return self.readings[0]

    def holds(self, path: str) -> bool:
        """Whether the reading at *path* is one of this pillar's, or part of one."""
        return any(path == own or path.startswith(own + ".") for own in self.readings)


def _face(name: str) -> Callable[[ReadTender, Policy], str]:
    return lambda read, _: f"face.{name}" if getattr(read.face, name).state is State.ABSENT else ""


def _told(name: str) -> Callable[[ReadTender, Policy], str]:
    return lambda read, _: f"counter.{name}" if getattr(read.counter, name) is None else ""


def _amount(read: ReadTender, _: Policy) -> str:
    seen = (read.counter.amount is not None, read.face.figures.state in _SEEN, read.face.words.state in _SEEN)
    return "" if any(seen) else "counter.amount"


def holder(read: ReadTender, policy: Policy) -> tuple[int, str]:
    """Which document identifies the customer, and what of it nobody looked at: its place, and a path or nothing.

    Of several accepted documents the one of which most was looked at counts. The place is -1 where none is accepted.
    """
    best = (-1, "")
    for number, shown in enumerate(read.shown):
        if shown.best is None or shown.best.kind not in policy.identity.accepted_kinds:
            continue
        named = bool(shown.document.name.strip()) or bool(getattr(shown.card, "name", None))
        missing = "name" if not named else "is_bearer" if shown.document.is_bearer is None else ""
        if best[0] < 0 or (best[1] and not missing):
            best = (number, f"documents.{number}.{missing}" if missing else "")
    return best


def _identification(read: ReadTender, policy: Policy) -> str:
    if not policy.identity.required:
        return ""
    return "documents" if read.tender.documents is None else holder(read, policy)[1]


def _identified(read: ReadTender, policy: Policy) -> bool:
    if not policy.identity.required:
        return True
    number, missing = holder(read, policy)
    return number >= 0 and not missing and read.shown[number].document.is_bearer is True


def _drawn_by_one_who_may(read: ReadTender, policy: Policy) -> bool:
    confirmed = "drawer-unclear" in read.counter.confirmed
    others = read.kinds - {Kind.PERSONAL}
    if others:
        return others <= frozenset(policy.kinds.convertible)
    return read.drawer.verdict == "person" or (read.drawer.verdict == "unclear" and confirmed)


def _drawn_on_a_bank(read: ReadTender, _: Policy) -> bool:
    confirmed = "drawee-unclear" in read.counter.confirmed
    return read.drawee.verdict == "bank" or (read.drawee.verdict == "unclear" and confirmed)


PILLARS = (
    Pillar(
        "line", ("face.micr", "face.fraction", "face.serial"), "micr", "the magnetic-ink line", Remedy.REREAD,
        _face("micr"),
        lambda read, _: read.line is not None and read.line.account is not None and not read.line.unread,
    ),
    Pillar(
        "capture", ("counter.micr_by",), "micr_by", "how the line was captured", Remedy.REREAD, _told("micr_by"),
        lambda read, _: read.counter.micr_by == "reader",
    ),
    Pillar(
        "payee", ("face.payee",), "payee", "the payee", Remedy.REREAD, _face("payee"),
        lambda read, _: read.face.payee.state in _SEEN,
    ),
    Pillar(
        "drawer", ("face.drawer",), "drawer", "the printed name", Remedy.REREAD, _face("drawer"), _drawn_by_one_who_may,
    ),
    Pillar(
        "drawee", ("face.drawee",), "drawee", "the name of the bank", Remedy.REREAD, _face("drawee"), _drawn_on_a_bank,
    ),
    Pillar(
        "identification", ("documents",), "documents", "the identification", Remedy.SHOW_ID, _identification,
        _identified,
    ),
    Pillar(
        "wording", ("face.legends",), "legends", "what else is printed or stamped", Remedy.REREAD, _face("legends"),
        lambda read, _: read.face.legends.state in _SEEN,
    ),
    Pillar(
        "amount", ("counter.amount", "face.words", "face.figures"), "amount", "the amount", Remedy.COMPLETE, _amount,
        lambda read, _: bool(read.amount_cents),
    ),
    Pillar(
        "date", ("face.date",), "date", "the date", Remedy.REREAD, _face("date"),
        lambda read, _: read.face.date.state is State.BLANK or isinstance(read.date, CheckDate),
    ),
    Pillar(
        "signature", ("face.signature",), "signature", "the signature", Remedy.REREAD,
        lambda read, _: "face.signature" if read.face.signature is Mark.ABSENT else "",
        lambda read, _: read.face.signature is Mark.YES,
    ),
    Pillar(
        "authorization", ("counter.authorization_signed",), "authorization", "the signed authorization", Remedy.SIGN,
        _told("authorization_signed"), lambda read, _: read.counter.authorization_signed is True,
    ),
    Pillar(
        "network", ("counter.network",), "network", "the network", Remedy.REREAD, _told("network"),
        lambda read, _: read.counter.network == "up",
    ),
)  # fmt: skip


#: The readings of all pillars but the amount and the documents, as bits.
_NEEDED = sum(
    NEEDS[name]
    for name in (
        "micr_text", "micr_by", "payee", "drawer", "drawee", "legends", "date_text", "signature", "authorization",
        "network", "keyed_amount",
    )
)  # fmt: skip


@rule("pillar-not-seen", Effect.KEEP, by="nacha-ineligible house-policy", remedy=Remedy.REREAD, floor=Effect.KEEP)
def pillar_not_seen(read: ReadTender, policy: Policy) -> Answer:
    """Nobody looked at something that conversion rests on.

    What it asks: Did somebody look at each of the twelve: the line and how it was captured, the payee, the printed
        name, the bank, the identification and whether its photo is the customer, the other wording, the amount, the
        date, the signature, the signed authorization, the network? The policy says of some of them what follows
        without a look: keep, refer, or the clerk looks now.
    Why it matters: A converted check is voided and handed back, and nothing is left to collect if it should have been
        kept. What nobody looked at is not known to be in order.
    Example: The printed name was never looked at, and the clerk pressed personal.
    What to do: Look, and say what is there. Until then the check is kept.
    """
    if not _NEEDED & ~read.looked and read.tender.documents and not holder(read, policy)[1]:
        return None  # somebody looked at everything
    demanded = policy.readings.required
    hits = []
    for pillar in PILLARS:
        path = pillar.unseen(read, policy)
        if not path or (path == pillar.reading and pillar.required in demanded):
            continue  # what the house demands is asked for by reading-not-taken
        follows = getattr(policy.unseen, pillar.name, "keep")
        if follows == "clerk" or (follows == "keep" and _kept_anyway(read.kinds, policy.kinds)):
            continue
        effect = Effect.REFER if follows == "refer" else None
        hits.append(Hit(f"Nobody looked at {_what(pillar, path)}.", (at(path),), effect, pillar.remedy))
    return tuple(hits) or None


def _kept_anyway(kinds: frozenset[Kind], house: Kinds) -> bool:
    """Whether a kind in evidence is one that is never converted here: then nothing is lost by a look not taken."""
    return any(kind not in house.convertible for kind in kinds)


def _what(pillar: Pillar, path: str) -> str:
    match path.rpartition(".")[2]:
        case "name" if path.startswith("documents"):
            return "the name on the identification"
        case "is_bearer":
            return "whether the photo is the customer"
    return pillar.what


class Rest(NamedTuple):
    """One pillar that stands: by whom it was seen, and in which reading."""

    pillar: str
    by: By
    reading: str


def earned(read: ReadTender, policy: Policy) -> bool:
    """Whether every pillar was seen and speaks for conversion, or is left to the clerk's eyes and was not seen."""
    return all(
        pillar.speaks(read, policy) or (_left_to_the_clerk(pillar, policy) and pillar.unseen(read, policy) != "")
        for pillar in PILLARS
    )


def _left_to_the_clerk(pillar: Pillar, policy: Policy) -> bool:
    return getattr(policy.unseen, pillar.name, "keep") == "clerk"


def standing(read: ReadTender, policy: Policy, findings: Iterable[Finding]) -> tuple[Rest, ...]:
    """The pillars that stand: seen, speaking for conversion, and with no finding above a note in their reading."""
    against = {label.reading for finding in findings if finding.effect.rank for label in finding.labels}
    asked = read.counter.confirmed
    confirmed = {label.reading for finding in findings if finding.rule in asked for label in finding.labels}
    rests = []
    for pillar in PILLARS:
        if any(map(pillar.holds, against)):
            continue
        if path := pillar.unseen(read, policy):
            if _left_to_the_clerk(pillar, policy):
                rests.append(Rest(pillar.name, "clerk", path))
        elif pillar.speaks(read, policy):
            by, reading = _seen_by(pillar, read, policy)
            rests.append(Rest(pillar.name, "confirmed" if any(map(pillar.holds, confirmed)) else by, reading))
    return tuple(rests)


def _seen_by(pillar: Pillar, read: ReadTender, policy: Policy) -> tuple[By, str]:
    match pillar.name:
        case "line":
            return ("reader" if read.counter.micr_by == "reader" else "clerk"), pillar.reading
        case "identification":
            if not policy.identity.required:
                return "record", pillar.reading  # the house does not ask for any
            number, _ = holder(read, policy)
            return ("reader" if read.shown[number].card else "clerk"), f"documents.{number}"
        case "amount" if read.counter.amount is None:
            name = "words" if read.face.words.state is State.TEXT else "figures"
            return read.look(name).by, f"face.{name}"
        case "amount":
            return "clerk", pillar.reading
    branch, _, name = pillar.reading.partition(".")
    return (read.look(name).by if branch == "face" else "record"), pillar.reading
