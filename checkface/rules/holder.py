"""Whether the person on the document is the person on the check. Names are compared, never guessed at."""

from __future__ import annotations

from functools import partial

from checkface import identity
from checkface.findings import Effect, Remedy
from checkface.rules.identity import no_document
from checkface.rules.kinds import PAID_TO_CUSTOMER
from checkface.rules.registry import NOT_APPLICABLE, UNREAD, Answer, Case, Hit, at, rule
from checkface.tender import Kind

_rule = partial(rule, gate=no_document)


def _holders(case: Case) -> list[identity.Card | str]:
    """The names of the accepted documents, off the card where it was read."""
    names: list[identity.Card | str] = []
    for shown in case.read.shown:
        if shown.best is not None and shown.best.kind in case.policy.identity.accepted_kinds:
            if isinstance(shown.card, identity.Card) and any((shown.card.family, shown.card.name.unordered)):
                names.append(shown.card)
            elif shown.document.name.strip():
                names.append(shown.document.name)
    return names


@_rule(
    "drawer-differs-from-id", Effect.REFER, by="house-policy common-practice", needs="document kind",
    remedy=Remedy.SHOW_ID,
)  # fmt: skip
def drawer_differs_from_id(case: Case) -> Answer:
    """The name on the document is not the name on the check.

    What it asks: Is the holder of the document the drawer, or one of the drawers of a joint account? On a check made
        out to the customer, the payee?
    Why it matters: A check written by somebody else is somebody else's money. Order, initials, suffixes, hyphens,
        accents, usual short forms and names cut short by the card are understood. A changed family name, or letters
        that are easily misread, are a question.
    Example: The check is printed for one family name, the license for another.
    What to do: Ask for a document in the drawer's name; otherwise call the manager.
    """
    kinds = case.read.kinds
    reading = "payee" if kinds & PAID_TO_CUSTOMER else "drawer" if Kind.PERSONAL in kinds else ""
    if not reading:
        return NOT_APPLICABLE
    text: str = getattr(case.read.face, reading).text
    holders = _holders(case)
    if not text or not holders:
        return UNREAD
    found = [identity.names_agree(text, holder) for holder in holders]
    if any(agreement.verdict == "same" for agreement in found):
        return None
    best = next((agreement for agreement in found if agreement.verdict == "ask"), found[0])
    place = (best.spans[0].start, best.spans[-1].end) if best.spans else None
    labels = (at(reading, place), at("documents.0.name", primary=False))
    if best.verdict == "different":
        return Hit(f"Expected a document in the name of the {reading}, read another: {best.reason}.", labels)
    return Hit(f"Could not settle whether the document is in the name of the {reading}: {best.reason}.", labels)


@_rule("id-address-differs", Effect.NOTE, by="common-practice", needs="document drawer")
def id_address_differs(case: Case) -> Answer:
    """The address on the card is not the address on the check.

    What it asks: Do house number and postal code agree, where both are there?
    Why it matters: People move. It is a reason to ask for the present address, and none to refuse.
    Example: The check shows a box at the post office, the card a street.
    What to do: Ask which is current, if the house notes it.
    """
    cards = [shown.card for shown in case.read.shown if isinstance(shown.card, identity.Card)]
    if not cards or Kind.PERSONAL not in case.read.kinds:
        return NOT_APPLICABLE
    found = [identity.addresses_agree(case.read.face.drawer.text, card) for card in cards]
    if any(agreement.verdict == "different" for agreement in found):
        reason = next(agreement.reason for agreement in found if agreement.verdict == "different")
        return Hit(f"The address on the card differs from the check's: {reason}.", (at("drawer"),))
    return None if any(agreement.verdict in ("same", "compatible") for agreement in found) else UNREAD
