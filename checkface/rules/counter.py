"""The counter's circumstances: the line to the network, the customer's authorization, what this house converts."""

from __future__ import annotations

from checkface.findings import Effect, Remedy
from checkface.kinds import Kind
from checkface.policy import Conversion, Kinds, Readings
from checkface.reading import ReadTender
from checkface.rules.registry import Answer, Hit, at, rule, whole
from checkface.tender import Counter, Face, Reading

_READING_NAMES = {
    "micr": "the magnetic-ink line", "micr_by": "how the line was captured", "network": "the state of the network",
    "amount": "an amount", "on": "the day of tender", "authorization": "the signed authorization",
}  # fmt: skip


@rule("reading-not-taken", Effect.REFER, by="house-policy", remedy=Remedy.REREAD, floor=Effect.KEEP)
def reading_not_taken(read: ReadTender, house_readings: Readings) -> Answer:
    """A reading the house demands was never taken.

    What it asks: Was every reading that the policy requires looked at?
    Why it matters: A check nobody looked at has not passed. A blank that was seen is a fact; a blank that was
        never looked for is not, and the rules that needed it could not run.
    Example: The tender has no "signature" key, so nobody can say whether the check is signed.
    What to do: Look again and give the reading, or have the manager decide without it.
    """
    missing = read.not_looked_at(house_readings.required)
    if not missing:
        return None
    *some, last = (_READING_NAMES.get(name, f"the {name}") for name in missing)
    named = f"{', '.join(some)} and {last}" if some else last
    labels = tuple(at(read.path_of(name), primary=index == 0) for index, name in enumerate(missing))
    return Hit(f"Nobody looked at {named}.", labels)


@rule("reading-uncertain", Effect.REFER, by="house-policy", remedy=Remedy.REREAD)
def reading_uncertain(rated: Face, house_readings: Readings) -> Answer:
    """A reader was not sure of what it read.

    What it asks: Where a reader gives a figure for its own confidence, is it at least what the policy asks, one half
        unless it says otherwise?
    Why it matters: A program that reads handwriting always answers something. Below a certain figure its answer is
        a guess, and a check must not be converted on one.
    Example: The box of figures reads 45.10, with a confidence of 0.2.
    What to do: Take the reading again, or look at the paper and key what stands there.
    """
    least = house_readings.least_confidence
    hits = []
    for name in type(rated).model_fields:
        reading = getattr(rated, name)
        if isinstance(reading, Reading) and reading.confidence is not None and reading.confidence < least:
            message = f"The reader was {reading.confidence:.0%} sure of the {name}: at least {least:.0%} is asked."
            hits.append(Hit(message, (whole(name, reading.text),)))
    return tuple(hits) or None


@rule("network-down", Effect.KEEP, by="common-practice", remedy=Remedy.NONE, floor=Effect.KEEP)
def network_down(network: str) -> Answer:
    """The network or the authorization line is down.

    What it asks: Could the electronic debit be sent and answered at this moment?
    Why it matters: A check handed back as converted without an answer from the network is money nobody has asked for.
        On paper it can still be deposited.
    Example: The lane's line to the network has been silent since noon; every check of the afternoon is kept.
    What to do: Complete, endorse and keep every check, whatever its kind, until the line is up again.
    """
    if network != "down":
        return None
    return Hit("The network is down: nothing can be converted.", (at("counter.network"),))


@rule(
    "authorization-not-signed", Effect.KEEP, by="nacha-authorization 12-cfr-1005-3-b",
    remedy=Remedy.SIGN,
)  # fmt: skip
def authorization_not_signed(authorization: bool) -> Answer:
    """The customer has not signed the authorization for an electronic debit.

    What it asks: Did the customer, after notice, sign for this one conversion?
    Why it matters: The regulation asks for notice and the network for a signature. Without them the debit is
        unauthorized and can be returned. The paper itself is as good as before.
    Example: The customer reads the notice, prefers not to sign, and asks that the check be deposited.
    What to do: Offer the notice and the signature once more, or keep the check as paper.
    """
    if authorization:
        return None
    return Hit("The authorization is not signed.", (at("counter.authorization_signed"),))


@rule("conversion-not-accepted-here", Effect.KEEP, by="house-policy")
def conversion_not_accepted_here(
    house_conversion: Conversion, house_kinds: Kinds, counter: Counter, kinds: frozenset[Kind]
) -> Answer:
    """This house, or this store, does not convert checks.

    What it asks: Does the policy offer conversion at the store the tender came from, and for personal checks?
    Why it matters: A store without a conversion agreement cannot send the debit; its checks go to the bank on paper.
    Example: The policy lists two stores that convert, and the tender comes from a third.
    What to do: Keep the check.
    """
    if not house_conversion.offered or (house_conversion.stores and counter.store not in house_conversion.stores):
        return Hit("Checks are not converted here.", (at("counter.store"),))
    if Kind.PERSONAL in kinds and Kind.PERSONAL not in house_kinds.convertible:
        return Hit("Personal checks are not converted here.", (at("counter.store"),))
    return None
