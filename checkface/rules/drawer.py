"""Who draws the check and on whom: a person or several, on a bank.

A declaration never outvotes the paper: any sign of something other than a person keeps the check, whatever was pressed.
What the printed lines say of themselves: :mod:`checkface.instruments.drawer`, :mod:`checkface.instruments.drawee`.
"""

from __future__ import annotations

from functools import partial

from checkface.findings import Effect, Outcome, Remedy
from checkface.instruments import Drawee, DrawerLines, Inference, Weight
from checkface.kinds import Kind, where
from checkface.rules.kinds import ONLY_PERSONAL
from checkface.rules.registry import NOT_APPLICABLE, UNREAD, Answer, Case, Hit, at, rule
from checkface.tender import Face, State

#: Kinds whose issuer is named elsewhere: nothing has to stand at the upper left.
_NO_DRAWER = where(lambda row: not row.drawer)


def _plain(case: Case) -> Outcome | None:
    """A person's name above a bank's, and nothing speaking for another kind: nothing is left to ask of either."""
    read = case.read
    plain = read.kinds <= ONLY_PERSONAL and read.drawer.verdict == "person" and read.drawee.verdict == "bank"
    return Outcome.HELD if plain else None


_rule = partial(rule, gate=_plain)


@_rule("drawer-not-printed", Effect.REFER, by="common-practice", remedy=Remedy.MANAGER, floor=Effect.KEEP)
def drawer_not_printed(face: Face, drawer: DrawerLines | None, inference: Inference, kinds: frozenset[Kind]) -> Answer:
    """No drawer's name is printed on the face.

    What it asks: Was the upper left looked at and found empty, or without a name?
    Why it matters: Without a printed name nothing on the paper ties the account to the person who signs.
    Example: A starter check from a new account.
    What to do: Call the manager; compare name and address with the identification.
    """
    state = face.drawer.state
    if state is State.TEXT and drawer is not None and drawer.verdict != "none":
        return None
    # The wording or the line must show such a kind: the clerk's word alone does not excuse a missing name.
    # A clerk who declares a kind that has a drawer contradicts it.
    shown = any(piece.kind in _NO_DRAWER and piece.weight is not Weight.HINT for piece in inference.evidence)
    if shown and kinds <= _NO_DRAWER:
        return NOT_APPLICABLE
    match state:
        case State.ABSENT:
            return UNREAD
        case State.ILLEGIBLE:
            message = "The printed name cannot be read."
        case State.BLANK:
            message = "No name is printed on it."
        case _:
            message = "No name is printed above the address."
    return Hit(message, (at("drawer"),))


@_rule("drawer-not-a-person", Effect.KEEP, by="nacha-ineligible common-practice", floor=Effect.KEEP)
def drawer_not_a_person(drawer: DrawerLines, kinds: frozenset[Kind]) -> Answer:
    """The printed name is not a person's.

    What it asks: Where nothing else says what kind it is, does the printed name hold a sign of a business, an office, a
        congregation, a club, a trust or an estate, or of somebody who signs for another?
    Why it matters: Only a person can authorize a debit to a person's account. A business, an office or a trust draws on
        an account that is not the customer's own, whatever key the clerk pressed.
    Example: "Trustee" after the name, and the clerk pressed personal.
    What to do: Keep it.
    """
    if not kinds <= ONLY_PERSONAL:
        return NOT_APPLICABLE
    if drawer.verdict != "organization":
        return None
    return Hit(f"Not a person's check: {drawer.why}. Keep it.", (at("drawer", drawer.span),))


@_rule(
    "drawer-unclear", Effect.REFER, by="nacha-ineligible common-practice", remedy=Remedy.CONFIRM,
    floor=Effect.KEEP, asks_clerk=True,
)  # fmt: skip
def drawer_unclear(drawer: DrawerLines, kinds: frozenset[Kind]) -> Answer:
    """The printed name may be a person's or not.

    What it asks: Where nothing else says what kind it is, could the printed name be that of a shop or another body?
    Why it matters: A shop may carry nothing but a name, and then its checks look like a person's.
    Example: One word, or the name of a place, above the address.
    What to do: Look at the whole check and the card. If the account is the customer's own, say yes; otherwise call the
        manager.
    """
    if not kinds <= ONLY_PERSONAL:
        return NOT_APPLICABLE
    if drawer.verdict != "unclear":
        return None
    return Hit(
        f"The printed name may not be a person's: {drawer.why}.",
        (at("drawer", drawer.span),),
        question="Is this the customer's own personal check?",
    )


@_rule("drawee-not-a-bank", Effect.KEEP, by="nacha-ineligible ucc-3-104", floor=Effect.KEEP)
def drawee_not_a_bank(drawee: Drawee, kinds: frozenset[Kind]) -> Answer:
    """It is drawn on somebody who is no bank or credit union.

    What it asks: Does the printed name of the bank name a fund, a broker, a card issuer, an insurer, an office, or a
        bank abroad?
    Why it matters: A debit goes to an account at a bank. What such a body pays is no customer's deposit.
    Example: The name of a fund, and "payable through" a bank below it.
    What to do: Keep it.
    """
    if not kinds <= ONLY_PERSONAL:
        return NOT_APPLICABLE
    if drawee.verdict != "other":
        return None
    return Hit(f"Not drawn on a bank: {drawee.why}. Keep it.", (at("drawee", drawee.span),))


@_rule(
    "drawee-unclear", Effect.REFER, by="nacha-ineligible common-practice", remedy=Remedy.CONFIRM, floor=Effect.KEEP,
    asks_clerk=True,
)  # fmt: skip
def drawee_unclear(face: Face, drawee: Drawee | None, kinds: frozenset[Kind]) -> Answer:
    """It may be drawn on somebody who is no bank, or names no bank.

    What it asks: Could the printed name of the bank be that of another body or of a bank abroad, or is none to be read?
    Why it matters: Funds, brokers and card issuers print their names where a bank's would stand.
    Example: A name without any word of a bank in it.
    What to do: Look at the name of the bank. If it is a bank or a credit union of this country, say yes; otherwise call
        the manager.
    """
    if not kinds <= ONLY_PERSONAL:
        return NOT_APPLICABLE
    match face.drawee.state:
        case State.ABSENT:
            return UNREAD
        case State.BLANK:
            return Hit("No bank is named on it.", (at("drawee"),), remedy=Remedy.MANAGER)
        case State.ILLEGIBLE:
            return Hit("The bank's name cannot be read.", (at("drawee"),), remedy=Remedy.REREAD)
    if drawee is None or drawee.verdict == "none":
        return Hit("No bank is named on it.", (at("drawee"),), remedy=Remedy.MANAGER)
    if drawee.verdict != "unclear":
        return None
    return Hit(
        f"The bank's name may not be a bank's: {drawee.why}.",
        (at("drawee", drawee.span),),
        question="Is this the name of a bank or credit union?",
    )
