"""The counter's circumstances: the line to the network, the customer's authorization, what this house converts."""

from __future__ import annotations

from checkface.findings import Effect, Remedy
from checkface.rules.registry import Answer, Case, Hit, at, rule
from checkface.tender import Reading

_READING_NAMES = {
    "micr": "the magnetic-ink line", "micr_by": "how the line was captured", "network": "the state of the network",
    "amount": "an amount", "on": "the day of tender", "authorization": "the signed authorization",
}  # fmt: skip


@rule("reading-not-taken", Effect.REFER, by="house-policy", remedy=Remedy.REREAD, floor=Effect.KEEP)
def reading_not_taken(case: Case) -> Answer:
    """A reading the house demands was never taken.

    What it asks: Was every reading that the policy requires looked at?
    Why it matters: A check nobody looked at has not passed. A blank that was seen is a fact; a blank that was
        never looked for is not, and the rules that needed it could not run.
    Example: The tender has no "signature" key, so nobody can say whether the check is signed.
    What to do: Look again and give the reading, or have the manager decide without it.
    """
    missing = case.read.not_looked_at(case.policy.readings.required)
    if not missing:
        return None
    *some, last = (_READING_NAMES.get(name, f"the {name}") for name in missing)
    named = f"{', '.join(some)} and {last}" if some else last
    labels = tuple(at(case.read.path_of(name), primary=index == 0) for index, name in enumerate(missing))
    return Hit(f"Nobody looked at {named}.", labels)


@rule("reading-uncertain", Effect.REFER, by="house-policy", needs="confidence", remedy=Remedy.REREAD)
def reading_uncertain(case: Case) -> Answer:
    """A reader was not sure of what it read.

    What it asks: Where a reader gives a figure for its own confidence, is it at least what the policy asks, one half
        unless it says otherwise?
    Why it matters: A program that reads handwriting always answers something. Below a certain figure its answer is
        a guess, and a check must not be converted on one.
    Example: The box of figures reads 45.10, with a confidence of 0.2.
    What to do: Take the reading again, or look at the paper and key what stands there.
    """
    least = case.policy.readings.least_confidence
    doubted = [
        (name, reading)
        for name in type(case.read.face).model_fields
        if isinstance(reading := getattr(case.read.face, name), Reading)
        and reading.confidence is not None
        and reading.confidence < least
    ]
    return (
        tuple(
            Hit(
                f"Expected a confidence of at least {least:g} in the {name}, read {reading.confidence:g}.",
                (at(name, (0, len(reading.text))),),
            )
            for name, reading in doubted
        )
        or None
    )


@rule("network-down", Effect.KEEP, by="common-practice", needs="network", remedy=Remedy.NONE, floor=Effect.KEEP)
def network_down(case: Case) -> Answer:
    """The network or the authorization line is down.

    What it asks: Could the electronic debit be sent and answered at this moment?
    Why it matters: A check handed back as converted without an answer from the network is money nobody has asked for.
        On paper it can still be deposited.
    Example: The lane's line to the network has been silent since noon; every check of the afternoon is kept.
    What to do: Complete, endorse and keep every check, whatever its kind, until the line is up again.
    """
    if case.read.counter.network != "down":
        return None
    return Hit("The network is down: nothing can be converted.", (at("counter.network"),))


@rule(
    "authorization-not-signed", Effect.KEEP, by="nacha-authorization 12-cfr-1005-3-b", needs="authorization",
    remedy=Remedy.SIGN,
)  # fmt: skip
def authorization_not_signed(case: Case) -> Answer:
    """The customer has not signed the authorization for an electronic debit.

    What it asks: Did the customer, after notice, sign for this one conversion?
    Why it matters: The regulation asks for notice and the network for a signature. Without them the debit is
        unauthorized and can be returned. The paper itself is as good as before.
    Example: The customer reads the notice, prefers not to sign, and asks that the check be deposited.
    What to do: Offer the notice and the signature once more, or keep the check as paper.
    """
    if case.read.counter.authorization_signed is not False:
        return None
    return Hit("The authorization was not signed.", (at("counter.authorization_signed"),))


@rule("conversion-not-accepted-here", Effect.KEEP, by="house-policy")
def conversion_not_accepted_here(case: Case) -> Answer:
    """This house, or this store, does not convert checks.

    What it asks: Does the policy offer conversion at the store the tender came from?
    Why it matters: A store without a conversion agreement cannot send the debit; its checks go to the bank on paper.
    Example: The policy lists two stores that convert, and the tender comes from a third.
    What to do: Keep the check.
    """
    offer = case.policy.conversion
    if offer.offered and (not offer.stores or case.read.counter.store in offer.stores):
        return None
    return Hit("Checks are not converted here.", (at("counter.store"),))
