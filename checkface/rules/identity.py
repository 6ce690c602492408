"""Whether the document shown is one the house accepts, is current, is the bearer's, and says what it should.

Of several documents the accepted ones count; what must not be written down is looked for in all of them. A barcode
proves nothing about a card being genuine: it is not signed. Sources: AAMVA DL/ID Card Design Standard, INCITS 38, the
state laws of ``data/id_retention.toml``.
"""

from __future__ import annotations

from functools import partial

from checkface import identity
from checkface.findings import Effect, Label, Outcome, Remedy
from checkface.reading import Shown
from checkface.rules.registry import NOT_APPLICABLE, UNREAD, Answer, Case, Hit, at, rule
from checkface.span import Fault

#: So many characters of what was keyed are searched; no number is longer.
_LOOKED_AT = 200


def no_document(case: Case) -> Outcome | None:
    """Without a document nothing is asked of one: nobody looked, or none was shown."""
    if case.read.shown:
        return None
    return Outcome.UNREAD if case.read.tender.documents is None else Outcome.NOT_APPLICABLE


_rule = partial(rule, gate=no_document)


def _kind_of(shown: Shown) -> str | None:
    """The stable name of the document's kind; what the barcode says goes before what was keyed."""
    return shown.best.kind if shown.best else identity.kind_named(shown.document.kind)


def _accepted(case: Case) -> list[tuple[int, Shown, identity.Identification]]:
    kinds = case.policy.identity.accepted_kinds
    return [(n, s, s.best) for n, s in enumerate(case.read.shown) if s.best is not None and s.best.kind in kinds]


def _at(number: int, field: str, *, primary: bool = True) -> Label:
    return at(f"documents.{number}.{field}", primary=primary)


@rule("id-missing", Effect.REFER, by="house-policy nacha-authorization", needs="documents", remedy=Remedy.SHOW_ID)
def id_missing(case: Case) -> Answer:
    """No identification was shown.

    What it asks: Where the house asks for identification, was any shown?
    Why it matters: Nobody can say that the writer is the drawer. The same is asked of everyone, whatever the name,
        the accent or the neighbourhood.
    Example: The customer has left the wallet in the car.
    What to do: Ask for a document with a picture; otherwise call the manager.
    """
    if not case.policy.identity.required:
        return NOT_APPLICABLE
    if case.read.shown:
        return None
    return Hit("Expected an identification document, none was shown.", (at("documents"),))


@_rule("id-kind-not-accepted", Effect.REFER, by="house-policy", needs="document", remedy=Remedy.SHOW_ID)
def id_kind_not_accepted(case: Case) -> Answer:
    """None of the documents shown is of a kind the house accepts.

    What it asks: Is at least one document of a kind on the policy's list?
    Why it matters: Not every card was made to identify its holder.
    Example: A library card.
    What to do: Ask for a document of an accepted kind.
    """
    if _accepted(case):
        return None
    named = ", ".join(_kind_of(shown) or "a kind not known" for shown in case.read.shown)
    return Hit(f"Expected a document of an accepted kind, read {named}.", (_at(0, "kind"),))


@_rule("id-not-photo", Effect.REFER, by="house-policy common-practice", needs="document", remedy=Remedy.SHOW_ID)
def id_not_photo(case: Case) -> Answer:
    """No document shown carries a picture.

    What it asks: Does at least one document show its holder?
    Why it matters: Without a picture the clerk cannot see whose it is.
    Example: A social security card, which also carries a number that must not be written down.
    What to do: Ask for a document with a picture; hand the other one back without noting anything.
    """
    kinds = [_kind_of(shown) for shown in case.read.shown]
    if any(kind is not None and identity.KINDS[kind].photo for kind in kinds):
        return None
    return Hit("Expected a document with a picture, read none.", (_at(0, "kind"),))


@_rule("id-expired", Effect.REFER, by="house-policy aamva-card", needs="document on", remedy=Remedy.SHOW_ID)
def id_expired(case: Case) -> Answer:
    """Every accepted document has expired.

    What it asks: Is an accepted document current on the day of tender? On the printed day itself it is, unless the
        policy says otherwise.
    Why it matters: An expired document may have been replaced, and the old one lost. Many states extend the licences of
        those who serve, and some extended everybody's for a time: whether that applies is for a manager.
    Example: A licence that ran out last March.
    What to do: Ask for a current document; if it may have been extended, call the manager.
    """
    on = case.read.counter.on
    accepted = _accepted(case)
    if not accepted or on is None:
        return NOT_APPLICABLE
    good = case.policy.identity.day_of_expiry_good
    states = [(number, identity.currency_on(found.expires, on, good)) for number, _, found in accepted]
    if any(state in ("current", "never-expires") for _, state in states):
        return None
    if any(state == "unknown" for _, state in states):
        return UNREAD
    labels = tuple(_at(number, "expires", primary=place == 0) for place, (number, _) in enumerate(states))
    return Hit("Expected a current document, read one that has expired; it may have been extended.", labels)


@_rule("id-not-bearer", Effect.DECLINE, by="house-policy common-practice", needs="document", remedy=Remedy.SHOW_ID)
def id_not_bearer(case: Case) -> Answer:
    """The picture is not of the person at the counter.

    What it asks: Did the clerk look, and find that the document is not the bearer's?
    Why it matters: A document of somebody else identifies somebody else.
    Example: The card of the customer's sister.
    What to do: Hand both back; ask for the customer's own document.
    """
    others = [n for n, shown in enumerate(case.read.shown) if shown.document.is_bearer is False]
    if others:
        labels = tuple(_at(n, "is_bearer", primary=place == 0) for place, n in enumerate(others))
        return Hit("Expected the bearer's own document, the clerk saw somebody else's.", labels)
    return UNREAD if all(shown.document.is_bearer is None for shown in case.read.shown) else None


@_rule("id-barcode-unreadable", Effect.NOTE, by="aamva-card", needs="document", remedy=Remedy.REREAD)
def id_barcode_unreadable(case: Case) -> Answer:
    """The barcode of a card could not be read.

    What it asks: Did a part make sense of every payload that was scanned?
    Why it matters: What is keyed instead is as good as the clerk's eye.
    Example: The scanner lost the separators, and the elements can be cut apart in more than one way.
    What to do: Scan again, or key what the card says.
    """
    faults = [(n, shown.card) for n, shown in enumerate(case.read.shown) if isinstance(shown.card, Fault)]
    if not faults:
        return None if any(shown.card for shown in case.read.shown) else NOT_APPLICABLE
    return Hit(
        faults[0][1].message,
        tuple(_at(number, "barcode", primary=place == 0) for place, (number, _) in enumerate(faults)),
    )


def _checked(case: Case, kinds: tuple[str, ...], field: str) -> Hit | None:
    """A hit for the first check of *kinds* that failed on an accepted document."""
    for number, _, found in _accepted(case):
        for check in found.checks:
            if check.kind in kinds:
                return Hit(f"On the document: {check.words}.", (_at(number, field),))
    return None


@_rule("id-state-unknown", Effect.REFER, by="incits-38 aamva-card", needs="document", remedy=Remedy.REREAD)
def id_state_unknown(case: Case) -> Answer:
    """The issuer of the document is not in any table.

    What it asks: Does the state code, or the issuer number of the card, name a state, province or territory?
    Why it matters: Reserved and retired codes are keyed by slip, and invented issuers are printed on purpose.
    Example: State 43, which was reserved for Puerto Rico and is 72 today.
    What to do: Look at the card and key the state again; otherwise call the manager.
    """
    return _checked(case, ("state-unknown", "issuer-unknown"), "state")


@_rule("id-state-differs", Effect.NOTE, by="aamva-card", needs="document")
def id_state_differs(case: Case) -> Answer:
    """The state of the issuer and another state on the document differ.

    What it asks: Do issuer, country and address, and what was keyed, name one state?
    Why it matters: People move and keep a card for a while; a keyed state that differs from the barcode is a slip.
    Example: A Texas card with an address in Louisiana.
    What to do: Look again; nothing more.
    """
    for number, shown, found in _accepted(case):
        keyed = identity.find_place(shown.document.state)
        if keyed and found.issuer and keyed.code != found.issuer:
            message = f"Expected {found.issuer}, the issuer of the card, read {keyed.code} as keyed."
            return Hit(message, (_at(number, "state"),))
    return _checked(case, ("state-differs", "country-differs", "issuer-unconfirmed"), "state")


@_rule("id-number-shape", Effect.NOTE, by="common-practice", needs="document", remedy=Remedy.REREAD)
def id_number_shape(case: Case) -> Answer:
    """The number has no shape that its issuer uses.

    What it asks: Does the number fit the published shapes of the issuing state, or its own check digits?
    Why it matters: It catches slips of the keys. It does not catch forgery, and tables of shapes grow old.
    Example: Seven digits where the state prints a letter and seven.
    What to do: Compare with the card.
    """
    return _checked(case, ("number-shape", "number-doubtful", "check-digit"), "number")


@_rule(
    "id-number-forbidden", Effect.DECLINE, by="common-practice cal-civ-1725", needs="document", remedy=Remedy.SHOW_ID,
    floor=Effect.REFER,
)  # fmt: skip
def id_number_forbidden(case: Case) -> Answer:
    """A payment card's or social security number was given as identification.

    What it asks: Is anything keyed or scanned one of the numbers that must not be recorded on a check?
    Why it matters: Several states forbid it, and a list of such numbers beside names and accounts is what thieves
        look for. The number has been dropped and is stored nowhere.
    Example: Sixteen digits with a right check digit, keyed in the field of the licence number.
    What to do: Do not write it down. Ask for another document, or go on without a number.
    """
    for number, shown in enumerate(case.read.shown):
        for found in (shown.card, shown.keyed):
            if isinstance(found, identity.Identification):
                forbidden = found.forbidden[0] if found.forbidden else None
            else:
                forbidden = _forbidden(shown) if isinstance(found, Fault) else None
            if forbidden:
                kind = forbidden.kind.replace("-", " ")
                return Hit(
                    f"Expected no number that must not be recorded, read a {kind} number.", (_at(number, "number"),)
                )
    return None


def _forbidden(shown: Shown) -> identity.Forbidden | None:
    """What a document of which nothing was made holds all the same: its number is to be dropped whatever its kind."""
    document = shown.document
    texts = (document.number, document.kind, document.state, document.expires)
    found = (identity.forbidden_number(text[:_LOOKED_AT]) for text in texts)
    return next((one for one in found if one is not None and one.certainty == "certain"), None)


@_rule("id-dates-inconsistent", Effect.REFER, by="aamva-card icao-9303", needs="document", remedy=Remedy.SHOW_ID)
def id_dates_inconsistent(case: Case) -> Answer:
    """The dates on the document contradict each other.

    What it asks: Is birth before issue, issue before expiry, and each birthday the card names a birthday?
    Why it matters: An issuer's own system does not print such a card.
    Example: Issued after it expires.
    What to do: Call the manager; ask for another document.
    """
    return _checked(case, ("dates-inconsistent", "expiry-unreadable"), "expires")


@_rule("id-under-age", Effect.REFER, by="house-policy", needs="document on", remedy=Remedy.MANAGER)
def id_under_age(case: Case) -> Answer:
    """The holder is younger than the house asks.

    What it asks: Where a card tells, has its holder reached the age the policy sets?
    Why it matters: A minor may disown a contract. The birth date itself is neither shown nor kept.
    Example: A card of a seventeen-year-old.
    What to do: Call the manager.
    """
    on, age = case.read.counter.on, case.policy.identity.minimum_age
    cards = [(n, found) for n, _, found in _accepted(case) if isinstance(found, identity.Card)]
    if not cards or on is None:
        return NOT_APPLICABLE
    for number, card in cards:
        if card.is_adult(on, age) is False:
            return Hit(f"Expected a holder of {age} or over, read a younger one.", (_at(number, "barcode"),))
    return None if any(card.is_adult(on, age) for _, card in cards) else UNREAD


@_rule("id-limited-duration", Effect.NOTE, by="aamva-card", needs="document")
def id_limited_duration(case: Case) -> Answer:
    """The card is marked as issued for a limited time.

    What it asks: Does the card carry the mark of limited duration?
    Why it matters: It is as good as any other until the day it expires; the mark says only to look at that day.
    Example: A licence issued for the length of a stay.
    What to do: Look at the expiry; nothing more.
    """
    for number, _, found in _accepted(case):
        if isinstance(found, identity.Card) and found.limited_duration:
            return Hit("The card is of limited duration: look at its expiry.", (_at(number, "barcode"),))
    return None
