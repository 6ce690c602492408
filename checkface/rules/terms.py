"""Which term a check has: the six months of a customer's account, or one of its own.

UCC 4-404 frees a bank from paying an old check of *a customer having a checking account*, certified checks apart; it
says nothing of what a bank, the post office or the Treasury owes itself, nor of warrants. A kind's row says which.
A word of the clerk alone gives no longer term: the paper must show the kind, and nothing may speak for another.
"""

from __future__ import annotations

from enum import StrEnum

from checkface.instruments import Inference, Weight
from checkface.kinds import Kind, where
from checkface.routing import RoutingNumber
from checkface.tender import Face

STALE_MONTHS = 6
"""UCC 4-404: a bank need not pay a check presented more than six months after its date."""

_LONGER = where(lambda row: row.term != "account")
_LINE = where(lambda row: row.term == "line")
_GENERAL = frozenset({Kind.MONEY_ORDER, Kind.GOVERNMENT_CHECK})
"""What a clerk may call a postal money order or a Treasury check, and be right."""


class Term(StrEnum):
    """``DOUBT``: the kind has a term of its own that nothing on the paper settles; a manager decides."""

    ACCOUNT = "account"
    OWN = "own"
    DOUBT = "doubt"


def term(
    kinds: frozenset[Kind], inference: Inference, number: RoutingNumber | None, face: Face, laws: frozenset[str]
) -> Term:
    """The term of the check, by its *kinds* in evidence, the *number* in its line and the *laws* that may hold."""
    if not kinds or not kinds <= _LONGER:
        return Term.ACCOUNT
    shown = {piece.kind for piece in inference.evidence if piece.weight is not Weight.HINT}
    if not kinds <= (shown if _LINE.isdisjoint(shown) else shown | _GENERAL):
        return Term.ACCOUNT
    if not kinds.isdisjoint(_LINE):
        return _by_line(number, kinds)
    if Kind.GOVERNMENT_CHECK not in kinds:
        return Term.OWN
    if not is_warrant(inference):
        return Term.ACCOUNT  # a county's check on its bank is a customer's
    return Term.OWN if of_california(face, laws) else Term.DOUBT


def _by_line(number: RoutingNumber | None, kinds: frozenset[Kind]) -> Term:
    """A Treasury check or a postal money order must have a number of the government.

    The prefix 00 is published. A listed number that may rest on memory excuses nothing and declines nothing: where it
    speaks for another kind, the term is in doubt.
    """
    if number is None:
        return Term.DOUBT
    if not number.checksum or number.series != "government":
        return Term.ACCOUNT
    owner = number.government
    if owner is None or owner.kind in kinds:
        return Term.OWN
    return Term.ACCOUNT if owner.confirmed else Term.DOUBT


def is_warrant(inference: Inference) -> bool:
    """Whether the wording that names the kind calls the paper a warrant, an order on a treasurer."""
    return any(p.kind is Kind.GOVERNMENT_CHECK and "warrant" in p.words.lower() for p in inference.evidence)


def of_california(face: Face, laws: frozenset[str]) -> bool:
    """Whether a government's paper is California's: by its wording, else by the states whose *laws* may hold."""
    return says(face, "california") or "CA" in laws


def says(face: Face, word: str) -> bool:
    """Whether the *word*, in small letters, stands in the wording, the name of the drawer or that of the drawee."""
    return word in f"{face.legends.text} {face.drawer.text} {face.drawee.text}".lower()
