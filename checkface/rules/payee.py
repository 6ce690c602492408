"""To whom the check is made out: the house, the house and somebody else, or another.

A payroll, Treasury or government check, nothing speaking for another kind and nobody having declared one, is made out
to the customer and is not asked. How names compare: :mod:`checkface.instruments.housename`.
"""

from __future__ import annotations

from functools import partial

from checkface import instruments
from checkface.findings import Effect, Outcome, Remedy
from checkface.instruments import PayeeMatch
from checkface.kinds import Kind
from checkface.policy import Kinds, Payee
from checkface.rules.kinds import PAID_TO_CUSTOMER
from checkface.rules.registry import NOT_APPLICABLE, UNREAD, Answer, Case, Hit, at, rule
from checkface.span import Fault
from checkface.tender import Counter, Face, State

_QUESTION = "Is it made out to us?"
#: Without any of these no second name can follow: most payees are settled by one look.
_JOINING = frozenset({"and", "or", "y", "o", "e", "u"})
_JOINTS = frozenset("&+/\n\r;,")


def _own(counter: Counter, kinds: frozenset[Kind]) -> bool:
    """Whether clerk and paper agree that this is a kind made out to the customer, who hands it over."""
    # An employer's check is a business check by its drawer.
    own = kinds <= PAID_TO_CUSTOMER | {Kind.BUSINESS} and not kinds.isdisjoint(PAID_TO_CUSTOMER)
    return own and counter.declared_kind in (None, *PAID_TO_CUSTOMER)


def _compared(payee: str, house: Payee, counter: Counter, kinds: frozenset[Kind]) -> PayeeMatch | None:
    """How the payee compares with the house's names; ``None`` of a check that is the customer's by clerk and paper."""
    if _own(counter, kinds):
        return None
    return instruments.payee_match(payee, house.names)


def _hit(match: PayeeMatch, message: str, question: str = "") -> Hit:
    return Hit(message, (at("payee", match.span),), question=question)


def _ours(case: Case) -> Outcome | None:
    """Made out to the house by a name of its own: nothing is left to ask of it."""
    payee, policy = case.read.face.payee.text, case.policy
    if not payee or _own(case.read.counter, case.read.kinds):
        return None
    return Outcome.HELD if instruments.payee_match(payee, policy.payee.names).verdict == "same" else None


_rule = partial(rule, gate=_ours)


@_rule("payee-blank", Effect.NOTE, by="ucc-3-115 common-practice", remedy=Remedy.COMPLETE)
def payee_blank(face: Face, house_payee: Payee) -> Answer:
    """The payee's line is blank or cannot be read.

    What it asks: Was the payee's line looked at and found empty?
    Why it matters: A blank may be completed as the signer meant; until it is, whoever finds the check can fill it in.
    Example: The customer signed and left the printer to fill in the rest.
    What to do: Print the house's name, or ask the customer to write it.
    """
    match face.payee.state:
        case State.ABSENT:
            return NOT_APPLICABLE
        case State.ILLEGIBLE:
            return Hit("The payee cannot be read.", (at("payee"),), Effect.REFER, Remedy.REREAD)
        case State.BLANK:
            return Hit("The payee's line is blank.", (at("payee"),))
    match = instruments.payee_match(face.payee.text, house_payee.names)
    return _hit(match, "Nobody is named on the payee's line, only strokes.") if match.verdict == "blank" else None


@_rule("payee-not-house", Effect.DECLINE, by="house-policy", remedy=Remedy.NEW_CHECK)
def payee_not_house(payee: str, house_payee: Payee, counter: Counter, kinds: frozenset[Kind]) -> Answer:
    """The check is made out to somebody else.

    What it asks: Does the payee's line name a person or a firm that shares no word of its own with the house's names?
    Why it matters: A third party's check is worth only what an endorsement makes of it, and the endorser may not be
        the payee.
    Example: Payable to a neighbour, tendered for groceries.
    What to do: Hand it back, ask for a check made out to the house.
    """
    match = _compared(payee, house_payee, counter, kinds)
    if match is None:
        return NOT_APPLICABLE
    return _hit(match, "Made out to somebody else.") if match.verdict == "another" else None


@_rule(
    "third-party-check",
    Effect.KEEP,
    by="nacha-ineligible ucc-3-109",
    remedy=Remedy.NEW_CHECK,
    floor=Effect.KEEP,
)
def third_party_check(
    payee: str, house_payee: Payee, counter: Counter, kinds: frozenset[Kind], house_kinds: Kinds
) -> Answer:
    """The payee is not the merchant.

    What it asks: Is the merchant itself the payee, and neither somebody else nor whoever bears the check?
    Why it matters: The customer can authorize a debit to the customer's own account only for a check paid to the
        merchant.
    Example: A check from a relative to the customer, endorsed over to the store.
    What to do: Never convert it; the house decides whether it is taken at all.
    """
    match = _compared(payee, house_payee, counter, kinds)
    if match is None:
        if kinds.isdisjoint(house_kinds.convertible):
            return NOT_APPLICABLE  # kept whoever is paid
        match = instruments.payee_match(payee, house_payee.names)
    if match.verdict == "unknown-house":
        return UNREAD  # nobody has said who the merchant is
    if match.verdict == "bearer":
        return _hit(match, "Made out to cash, not to the house: keep it.")
    return _hit(match, "Made out to a third party: never converted.") if match.verdict == "another" else None


@_rule(
    "payee-near-house", Effect.REFER, by="nacha-ineligible ucc-3-110 house-policy",
    remedy=Remedy.CONFIRM, floor=Effect.KEEP, asks_clerk=True,
)  # fmt: skip
def payee_near_house(payee: str, house_payee: Payee, counter: Counter, kinds: frozenset[Kind]) -> Answer:
    """The payee is nearly the house's name.

    What it asks: Is the payee a part of one of the house's names, an extension of it, spelled nearly alike, or
        another name with a word in common?
    Why it matters: People shorten a shop's name and add to it, and the check is good for whom they meant. But one
        letter can also make it the shop across the street, and only a check made out to this house becomes its debit.
    Example: Quillfeather Foods, where the house is Quillfeather Grocery.
    What to do: Look at the payee's line. If the customer meant this house, say yes; otherwise call the manager.
    """
    match = _compared(payee, house_payee, counter, kinds)
    if match is None:
        return NOT_APPLICABLE
    return _hit(match, match.why, _QUESTION) if match.verdict in ("near", "other-name") else None


@_rule(
    "payee-house-unknown", Effect.REFER, by="nacha-ineligible house-policy",
    remedy=Remedy.CONFIRM, floor=Effect.KEEP, asks_clerk=True,
)  # fmt: skip
def payee_house_unknown(payee: str, house_payee: Payee, counter: Counter, kinds: frozenset[Kind]) -> Answer:
    """The policy does not say what the house is called.

    What it asks: Does the policy list the names under which the house takes checks?
    Why it matters: Only a check made out to the house can become its debit, and without its names no payee can be
        compared.
    Example: The policy has no [payee] names, and the check is made out to Quillfeather Grocery.
    What to do: Look at the payee's line and say whether it is this house. Have the names written into the policy.
    """
    match = _compared(payee, house_payee, counter, kinds)
    if match is None:
        return NOT_APPLICABLE
    return _hit(match, "The policy does not name the house.", _QUESTION) if match.verdict == "unknown-house" else None


@_rule(
    "payee-shared", Effect.KEEP, by="nacha-ineligible ucc-3-110",
    remedy=Remedy.NEW_CHECK, floor=Effect.KEEP,
)  # fmt: skip
def payee_shared(payee: str, house_payee: Payee, counter: Counter, kinds: frozenset[Kind]) -> Answer:
    """Made out to the house and to somebody else.

    What it asks: Does the payee's line name somebody beside the house?
    Why it matters: Joined by "and", both must endorse. A debit would collect for the house alone what belongs to both.
    Example: Quillfeather Grocery and Ben Example.
    What to do: Keep it as paper, endorsed by everyone who must, or ask for a check made out to the house alone.
    """
    match = _compared(payee, house_payee, counter, kinds)
    if match is None:
        return NOT_APPLICABLE
    return _hit(match, match.why) if match.verdict == "shared" else None


@rule("several-payees", Effect.NOTE, by="ucc-3-110 ny-ucc-3-116")
def several_payees(payee: str, laws: frozenset[str]) -> Answer:
    """More than one payee.

    What it asks: Does the payee's line name more than one?
    Why it matters: Joined by "and", all must endorse; joined by "or", any one may. Joined otherwise, any one may,
        except under New York's older law, by which all must.
    Example: Payable to the store and a landlord.
    What to do: See that everyone who must endorse has done so.
    """
    words = payee.split()
    if ("".join(words).isalpha() or _JOINTS.isdisjoint(payee)) and _JOINING.isdisjoint(map(str.lower, words)):
        return None
    named = instruments.payees(payee)
    if isinstance(named, Fault) or len(named.names) < 2:
        return None
    every = named.joined == "and" or (named.ambiguous and "NY" in laws)
    who = "all of them must" if every else "any one of them may"
    return Hit(f"Made out to {len(named.names)} payees: {who} endorse.", (at("payee", named.span),))
