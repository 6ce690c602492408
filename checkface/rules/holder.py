"""Whether the person on the document is the person on the check."""

from __future__ import annotations

from functools import partial

from checkface import identity
from checkface.findings import Effect, Remedy
from checkface.instruments import DrawerLines
from checkface.policy import Identity
from checkface.reading import Shown
from checkface.rules.identity import accepted, no_document
from checkface.rules.kinds import PAID_TO_CUSTOMER
from checkface.rules.registry import NOT_APPLICABLE, UNREAD, Answer, Hit, at, rule
from checkface.tender import Face, Kind

_rule = partial(rule, gate=no_document)


def _holders(shown: tuple[Shown, ...], house: Identity) -> list[identity.Card | str]:
    """The names of the accepted documents, off the card where it was read."""
    names: list[identity.Card | str] = []
    for _, one, _ in accepted(shown, house):
        if isinstance(one.card, identity.Card) and any((one.card.family, one.card.name.unordered)):
            names.append(one.card)
        elif one.document.name.strip():
            names.append(one.document.name)
    return names


@_rule(
    "drawer-differs-from-id", Effect.REFER, by="house-policy common-practice", remedy=Remedy.SHOW_ID, asks_clerk=True,
)  # fmt: skip
def drawer_differs_from_id(
    shown: tuple[Shown, ...],
    known_kinds: frozenset[Kind],
    face: Face,
    drawer: DrawerLines | None,
    house_identity: Identity,
) -> Answer:
    """The name on the document is not the name on the check.

    What it asks: Is the holder of the document the drawer, or one of the drawers of a joint account? On a check made
        out to the customer, the payee?
    Why it matters: Somebody else's check pays with somebody else's money. Order, initials, suffixes, hyphens,
        accents, usual short forms and names cut short by the card are understood. A changed family name, or letters
        that are easily misread, are a question.
    Example: The card says Mary Jones, the check Mary Smith.
    What to do: Where there is a question, look at the customer and the card and answer it. Otherwise ask for a document
        in the name on the check, or call the manager.
    """
    reading = "payee" if known_kinds & PAID_TO_CUSTOMER else "drawer" if Kind.PERSONAL in known_kinds else ""
    if not reading or (reading == "drawer" and drawer is not None and drawer.verdict == "organization"):
        return NOT_APPLICABLE  # no card is in the name of a business
    text: str = getattr(face, reading).text
    holders = _holders(shown, house_identity)
    if not text or not holders:
        return UNREAD
    found = [identity.names_agree(text, holder) for holder in holders]
    if any(agreement.verdict == "same" and not agreement.capacity for agreement in found):
        return None
    number = min(range(len(found)), key=lambda n: _VERDICTS.index(found[n].verdict))
    best = found[number]
    place = (best.spans[0].start, best.spans[-1].end) if best.spans else None
    labels = (at(reading, place), at("documents.0.name", primary=False))
    match best.verdict:
        case "different":
            return Hit(f"The card does not fit the check: {best.reason}.", labels)
        case "none":
            return Hit(f"The check's name cannot be compared with the card's: {best.reason}.", labels)
        case "same":
            return Hit(f"The customer's name stands on the check as {_CAPACITIES[best.capacity]}.", labels)
    written = " ".join(" ".join(span.of(text).split()) for span in best.spans)
    question = f"The card says {_called(holders[number])}, the check {written}. Is this the same person?"
    return Hit(f"The names on card and check may differ: {best.reason}.", labels, question=question)


_VERDICTS = ("ask", "same", "different", "none")
#: What somebody is who stands on a check and is not its owner alone.
_CAPACITIES = {
    "attorney": "an attorney for somebody else", "business": "the name behind a business",
    "custodian": "a custodian for somebody else", "executor": "an executor", "guardian": "a guardian",
    "minor": "a minor", "payee": "a payee for somebody else", "trustee": "a trustee",
}  # fmt: skip


def _called(holder: identity.Card | str) -> str:
    """A document's name as it reads: given names first where the card tells them apart."""
    if isinstance(holder, str):
        return " ".join(holder.split())
    name = holder.name
    return name.unordered or " ".join(filter(None, (name.given, name.middle, name.family, name.suffix)))


@_rule("id-address-differs", Effect.NOTE, by="common-practice")
def id_address_differs(shown: tuple[Shown, ...], drawer_text: str, kinds: frozenset[Kind]) -> Answer:
    """The address on the card is not the address on the check.

    What it asks: Do house number and postal code agree, where both are there?
    Why it matters: People move. It is a reason to ask for the present address, and none to refuse.
    Example: The check shows a box at the post office, the card a street.
    What to do: Ask which is current, if the house notes it.
    """
    cards = [one.card for one in shown if isinstance(one.card, identity.Card)]
    if not cards or Kind.PERSONAL not in kinds:
        return NOT_APPLICABLE
    found = [identity.addresses_agree(drawer_text, card) for card in cards]
    for agreement in found:
        if agreement.verdict == "different":
            return Hit(f"The address on the card differs from the check's: {agreement.reason}.", (at("drawer"),))
    return None if any(agreement.verdict in ("same", "compatible") for agreement in found) else UNREAD
