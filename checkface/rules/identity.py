"""Whether the document shown is one the house accepts, is current, is the bearer's, and says what it should.

Of several documents the accepted ones count; what must not be written down is looked for in all of them. A barcode does
not show that a card is genuine: it is not signed. Sources: AAMVA DL/ID Card Design Standard, INCITS 38, the
state laws of ``data/id_retention.toml``.
"""

from __future__ import annotations

from datetime import date
from functools import partial

from checkface import identity
from checkface.findings import Effect, Label, Outcome, Remedy
from checkface.policy import Identity
from checkface.reading import Shown
from checkface.rules.registry import NOT_APPLICABLE, UNREAD, Answer, Case, Hit, at, rule
from checkface.span import Fault
from checkface.tender import Document

#: So many characters of what was keyed are searched; no number is longer.
_LOOKED_AT = 200


def no_document(case: Case) -> Outcome | None:
    """Without a document nothing is asked of one: nobody looked, or none was shown."""
    if case.read.shown:
        return None
    return Outcome.UNREAD if case.read.tender.documents is None else Outcome.NOT_APPLICABLE


_rule = partial(rule, gate=no_document)


def _kind_of(one: Shown) -> str | None:
    """The stable name of the document's kind; what the barcode says goes before what was keyed."""
    return one.best.kind if one.best else identity.kind_named(one.document.kind)


def accepted(shown: tuple[Shown, ...], house: Identity) -> list[tuple[int, Shown, identity.Identification]]:
    """The documents of a kind that the house accepts, each with its number."""
    kinds = house.accepted_kinds
    return [(n, s, s.best) for n, s in enumerate(shown) if s.best is not None and s.best.kind in kinds]


def _at(field: str, *numbers: int) -> tuple[Label, ...]:
    """Labels on *field* of the documents with these numbers, the first the primary one."""
    return tuple(at(f"documents.{number}.{field}", primary=place == 0) for place, number in enumerate(numbers))


@rule("id-missing", Effect.REFER, by="house-policy nacha-authorization", remedy=Remedy.SHOW_ID)
def id_missing(documents: tuple[Document, ...], house_identity: Identity) -> Answer:
    """No identification was shown.

    What it asks: Where the house asks for identification, was any shown?
    Why it matters: Nobody can say that the writer is the drawer. The same is asked of everyone, whatever the name,
        the accent or the neighborhood.
    Example: The customer has left the wallet in the car.
    What to do: Ask for a document with a picture; otherwise call the manager.
    """
    if not house_identity.required:
        return NOT_APPLICABLE
    return None if documents else Hit("No identification was shown.", (at("documents"),))


@_rule("id-kind-not-accepted", Effect.REFER, by="house-policy", remedy=Remedy.SHOW_ID)
def id_kind_not_accepted(shown: tuple[Shown, ...], house_identity: Identity) -> Answer:
    """None of the documents shown is of a kind the house accepts.

    What it asks: Is at least one document of a kind on the policy's list?
    Why it matters: Not every card was made to identify its holder.
    Example: A library card.
    What to do: Ask for a document of an accepted kind.
    """
    if accepted(shown, house_identity):
        return None
    named = dict.fromkeys(_said(_kind_of(one)) for one in shown)
    return Hit(f"This house does not accept: {', '.join(named)}.", _at("kind", 0))


def _said(kind: str | None) -> str:
    return "an unknown kind" if kind is None else kind.replace("drivers", "driver's").replace("-", " ")


@_rule("id-not-photo", Effect.REFER, by="house-policy common-practice", remedy=Remedy.SHOW_ID)
def id_not_photo(shown: tuple[Shown, ...]) -> Answer:
    """No document shown carries a picture.

    What it asks: Does at least one document show its holder?
    Why it matters: Without a picture the clerk cannot see whose it is.
    Example: A social security card, which also carries a number that must not be written down.
    What to do: Ask for a document with a picture; hand the other one back without noting anything.
    """
    if any(kind is not None and identity.KINDS[kind].photo for kind in map(_kind_of, shown)):
        return None
    return Hit("No document with a picture was shown.", _at("kind", 0))


@_rule("id-expired", Effect.REFER, by="house-policy aamva-card", remedy=Remedy.SHOW_ID)
def id_expired(shown: tuple[Shown, ...], house_identity: Identity, on: date) -> Answer:
    """Every accepted document has expired.

    What it asks: Is an accepted document current on the day of tender? On the printed day itself it is, unless the
        policy says otherwise.
    Why it matters: An expired document may have been replaced, and the old one lost. Many states extend the licenses of
        those who serve, and some extended everybody's for a time: whether that applies is for a manager.
    Example: A license that ran out last March.
    What to do: Ask for a current document; if it may have been extended, call the manager.
    """
    good = house_identity.day_of_expiry_good
    states = {n: identity.currency_on(found.expires, on, good) for n, _, found in accepted(shown, house_identity)}
    if not states:
        return NOT_APPLICABLE
    if not {"current", "never-expires"}.isdisjoint(states.values()):
        return None
    if "unknown" in states.values():
        return UNREAD
    return Hit("The document has expired; it may have been extended.", _at("expires", *states))


@_rule("id-not-bearer", Effect.DECLINE, by="house-policy common-practice", remedy=Remedy.SHOW_ID)
def id_not_bearer(shown: tuple[Shown, ...]) -> Answer:
    """The picture is not of the person at the counter.

    What it asks: Did the clerk look, and find that the document is not the bearer's?
    Why it matters: A document of somebody else identifies somebody else.
    Example: The card of the customer's sister.
    What to do: Hand both back; ask for the customer's own document.
    """
    seen = [one.document.is_bearer for one in shown]
    others = [n for n, is_ in enumerate(seen) if is_ is False]
    if others:
        return Hit("The photo is not the customer.", _at("is_bearer", *others))
    return None if True in seen else UNREAD


@_rule("id-barcode-unreadable", Effect.NOTE, by="aamva-card", remedy=Remedy.REREAD)
def id_barcode_unreadable(shown: tuple[Shown, ...]) -> Answer:
    """The barcode of a card could not be read.

    What it asks: Did a part make sense of every payload that was scanned?
    Why it matters: What is keyed instead may hold a slip of the keys.
    Example: The scanner lost the separators, and the elements can be cut apart in more than one way.
    What to do: Scan again, or key what the card says.
    """
    faults = {n: one.card for n, one in enumerate(shown) if isinstance(one.card, Fault)}
    if not faults:
        return None if any(one.card for one in shown) else NOT_APPLICABLE
    fault = next(iter(faults.values()))
    after = f" after {fault.after}" if fault.after else ""
    message = f"The barcode should hold {fault.expected}{after}, and holds {fault.read}."
    return Hit(message, _at("barcode", *faults))


def _checked(shown: tuple[Shown, ...], house: Identity, kinds: tuple[str, ...], field: str) -> Hit | None:
    """A hit for the first check of *kinds* that failed on an accepted document."""
    for number, _, found in accepted(shown, house):
        for check in found.checks:
            if check.kind in kinds:
                return Hit(f"On the document: {check.words}.", _at(field, number))
    return None


@_rule("id-state-unknown", Effect.REFER, by="incits-38 aamva-card", remedy=Remedy.REREAD)
def id_state_unknown(shown: tuple[Shown, ...], house_identity: Identity) -> Answer:
    """The issuer of the document is not in any table.

    What it asks: Does the state code, or the issuer number of the card, name a state, province or territory?
    Why it matters: Reserved and retired codes are keyed by slip, and invented issuers are printed on purpose.
    Example: State 43, which was reserved for Puerto Rico and is 72 today.
    What to do: Look at the card and key the state again; otherwise call the manager.
    """
    return _checked(shown, house_identity, ("state-unknown", "issuer-unknown"), "state")


@_rule("id-state-differs", Effect.NOTE, by="aamva-card")
def id_state_differs(shown: tuple[Shown, ...], house_identity: Identity) -> Answer:
    """The state of the issuer and another state on the document differ.

    What it asks: Do issuer, country and address, and what was keyed, name one state?
    Why it matters: People move and keep a card for a while; a keyed state that differs from the barcode is a slip.
    Example: A Texas card with an address in Louisiana.
    What to do: Look again; nothing more.
    """
    for number, one, found in accepted(shown, house_identity):
        keyed = identity.find_place(one.document.state)
        if keyed and found.issuer and keyed.code != found.issuer:
            return Hit(f"The card is from {found.issuer}, and {keyed.code} was keyed.", _at("state", number))
    return _checked(shown, house_identity, ("state-differs", "country-differs", "issuer-unconfirmed"), "state")


@_rule("id-number-shape", Effect.NOTE, by="common-practice", remedy=Remedy.REREAD)
def id_number_shape(shown: tuple[Shown, ...], house_identity: Identity) -> Answer:
    """The number has no shape that its issuer uses.

    What it asks: Does the number fit the published shapes of the issuing state, or its own check digits?
    Why it matters: It finds slips of the keys. It does not find a forgery, and a state may have changed its shapes.
    Example: Seven digits where the state prints a letter and seven.
    What to do: Compare with the card.
    """
    return _checked(shown, house_identity, ("number-shape", "number-doubtful", "check-digit"), "number")


@_rule(
    "id-number-forbidden", Effect.DECLINE, by="common-practice cal-civ-1725", remedy=Remedy.SHOW_ID,
    floor=Effect.REFER,
)  # fmt: skip
def id_number_forbidden(shown: tuple[Shown, ...]) -> Answer:
    """A payment card's or social security number was given as identification.

    What it asks: Is anything keyed or scanned one of the numbers that must not be recorded on a check?
    Why it matters: Several states forbid it, and a list of such numbers beside names and accounts is what thieves
        look for. The number has been dropped and is stored nowhere.
    Example: Sixteen digits with a right check digit, keyed in the field of the license number.
    What to do: Do not write it down. Ask for another document, or go on without a number.
    """
    for number, one in enumerate(shown):
        for found in (one.card, one.keyed):
            if isinstance(found, identity.Identification):
                forbidden = found.forbidden[0] if found.forbidden else None
            else:
                forbidden = _forbidden(one.document) if isinstance(found, Fault) else None
            if forbidden:
                kind = forbidden.kind.replace("-", " ")
                return Hit(f"A {kind} number was given; it must not be written down.", _at("number", number))
    return None


def _forbidden(document: Document) -> identity.Forbidden | None:
    """What a document of which nothing was made holds all the same: its number is to be dropped whatever its kind."""
    texts = (document.number, document.kind, document.state, document.expires)
    found = (identity.forbidden_number(text[:_LOOKED_AT]) for text in texts)
    return next((one for one in found if one is not None and one.certainty == "certain"), None)


@_rule("id-dates-inconsistent", Effect.REFER, by="aamva-card icao-9303", remedy=Remedy.SHOW_ID)
def id_dates_inconsistent(shown: tuple[Shown, ...], house_identity: Identity) -> Answer:
    """The dates on the document contradict each other.

    What it asks: Is birth before issue, issue before expiry, and each birthday the card names a birthday?
    Why it matters: An issuer's own system does not print such a card.
    Example: Issued after it expires.
    What to do: Call the manager; ask for another document.
    """
    return _checked(shown, house_identity, ("dates-inconsistent", "expiry-unreadable"), "expires")


@_rule("id-under-age", Effect.REFER, by="house-policy", remedy=Remedy.MANAGER)
def id_under_age(shown: tuple[Shown, ...], house_identity: Identity, on: date) -> Answer:
    """The holder is younger than the house asks.

    What it asks: Where a card tells, has its holder reached the age the policy sets?
    Why it matters: A minor may disown a contract. The birth date itself is neither shown nor kept.
    Example: A card of a seventeen-year-old.
    What to do: Call the manager.
    """
    age = house_identity.minimum_age
    old_enough = {
        n: found.is_adult(on, age)
        for n, _, found in accepted(shown, house_identity)
        if isinstance(found, identity.Card)
    }
    if not old_enough:
        return NOT_APPLICABLE
    for number, is_ in old_enough.items():
        if is_ is False:
            return Hit(f"The holder of the card is under {age}.", _at("barcode", number))
    return None if True in old_enough.values() else UNREAD


@_rule("id-limited-duration", Effect.NOTE, by="aamva-card")
def id_limited_duration(shown: tuple[Shown, ...], house_identity: Identity) -> Answer:
    """The card is marked as issued for a limited time.

    What it asks: Does the card carry the mark of limited duration?
    Why it matters: It is as good as any other until the day it expires; the mark says only to look at that day.
    Example: A license issued for the length of a stay.
    What to do: Look at the expiry; nothing more.
    """
    for number, _, found in accepted(shown, house_identity):
        if isinstance(found, identity.Card) and found.limited_duration:
            return Hit("The card was issued for a limited time: look at its expiry date.", _at("barcode", number))
    return None
