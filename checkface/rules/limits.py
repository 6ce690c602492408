"""How much: the network's limit, the house's limits, the limit printed on the face, and the amount that was keyed.

A limit is held against the largest amount that anything states, keyed, encoded, in words or in figures, and while those
two do not agree, against every value they can have, so that no reading can hide another.
"""

from __future__ import annotations

from checkface import instruments
from checkface.amounts import Comparison, FiguresAmount, WordsAmount, money
from checkface.findings import Effect, Remedy
from checkface.kinds import Kind
from checkface.micr import MicrLine
from checkface.policy import NETWORK_LIMIT, Limits
from checkface.rules.kinds import PAID_TO_CUSTOMER
from checkface.rules.registry import NOT_APPLICABLE, UNREAD, Answer, Hit, at, rule
from checkface.span import Fault
from checkface.tender import Face, State

#: Cents of currency for checks that make a house a check casher when one person is handed more in a day: 31 CFR
#: 1010.100(ff)(2)(i); (ii)(C) excepts the verified maker of the check who is buying goods.
CASHER_THRESHOLD = 100_000


@rule("amount-undetermined", Effect.REFER, by="common-practice ucc-3-104", remedy=Remedy.COMPLETE, floor=Effect.KEEP)
def amount_undetermined(cents: int | None) -> Answer:
    """Nobody knows the amount: it was not keyed, and the face does not settle it.

    What it asks: Does the clerk, the words or the figures give one amount?
    Why it matters: A check is an order for a fixed amount of money. Without one there is nothing to debit,
        and no limit can be held against it.
    Example: Signed, made out to the house, both amounts left blank, nothing keyed.
    What to do: Key the amount and have the check filled in.
    """
    if cents is not None:
        return None
    return Hit("No amount is keyed, and the check does not settle one.", (at("counter.amount"),))


@rule("amount-zero", Effect.DECLINE, by="ucc-3-104 common-practice", remedy=Remedy.NEW_CHECK)
def amount_zero(
    words_read: WordsAmount | Fault | None, figures_read: FiguresAmount | Fault | None, cents: int | None
) -> Answer:
    """The amount is zero.

    What it asks: Does the clerk, the line of words or the box of figures say nothing and no cents?
    Why it matters: A check for nothing pays nothing. Samples and voided checks are written so.
    Example: $0.00 and Zero dollars.
    What to do: Hand it back; key the amount again if that was the slip.
    """
    for name, found in (("words", words_read), ("figures", figures_read)):
        if isinstance(found, Fault) and found.kind == f"{name}-zero":
            return Hit("The amount is zero.", (at(name, found.span),))
    if cents is None:
        return UNREAD
    return None if cents else Hit("Zero is keyed as the amount.", (at("counter.amount"),))


@rule("amount-over-conversion-limit", Effect.KEEP, by="nacha-limit")
def amount_over_conversion_limit(largest_cents: int | None, house_limits: Limits, amount_at: str) -> Answer:
    """The amount is above what may be converted.

    What it asks: Is the largest amount that anything states at most $25,000.00, or the lower limit of the
        policy?
    Why it matters: The network does not take a larger debit from a check at the point of purchase. A house
        may set the limit lower, never higher.
    Example: $25,000.01. One cent less may be converted.
    What to do: Keep the check.
    """
    most = house_limits.conversion
    limit = NETWORK_LIMIT if most is None else most
    if largest_cents is None or largest_cents <= limit:
        return UNREAD if largest_cents is None else None
    message = f"{money(largest_cents)}, and at most {money(limit)} may be converted. Keep it."
    return Hit(message, (at(amount_at),))


@rule("amount-over-house-limit", Effect.REFER, by="house-policy", remedy=Remedy.MANAGER)
def amount_over_house_limit(largest_cents: int | None, house_limits: Limits, amount_at: str) -> Answer:
    """The amount is above what this house takes without a manager.

    What it asks: Where the policy sets a limit, is the largest amount that anything states within it?
    Why it matters: The limit is what the house is ready to lose on one check.
    Example: $640.00 where the policy says $500.00.
    What to do: Call the manager.
    """
    most = house_limits.house
    if most is None:
        return NOT_APPLICABLE
    if largest_cents is None or largest_cents <= most:
        return UNREAD if largest_cents is None else None
    return Hit(f"{money(largest_cents)} is above this house's limit of {money(most)}.", (at(amount_at),))


@rule("amount-over-printed-limit", Effect.DECLINE, by="common-practice", remedy=Remedy.NEW_CHECK)
def amount_over_printed_limit(legends: str, largest_cents: int | None, amount_at: str) -> Answer:
    """The amount is above the limit printed on the face.

    What it asks: Where the face says that it is not good over so many dollars, is the largest amount that
        anything states within that?
    Why it matters: The drawer told the bank and everyone else how far the check goes. Above the limit it was
        raised, and the bank may refuse it. A limit whose figure cannot be read calls for a manager.
    Example: NOT VALID OVER $500.00, and the amount is $640.00.
    What to do: Hand it back.
    """
    limits = [limit for limit in instruments.legend_limits(legends) if limit.kind == "amount"]
    if not limits:
        return NOT_APPLICABLE
    if largest_cents is None:
        return UNREAD
    stated = money(largest_cents)
    hits = []
    for limit in limits:
        label = at("legends", limit.span, "the printed limit")
        if not isinstance(limit.value, int):
            hits.append(Hit("The printed limit cannot be read.", (label,), Effect.REFER, Remedy.MANAGER))
        elif largest_cents > limit.value:
            message = f"{stated} is above the printed limit of {money(limit.value)}."
            hits.append(Hit(message, (label, at(amount_at, None, stated, primary=False))))
    return tuple(hits) or None


@rule(
    "amount-differs-from-keyed", Effect.REFER, by="common-practice ucc-3-114",
    remedy=Remedy.REKEY, floor=Effect.KEEP,
)  # fmt: skip
def amount_differs_from_keyed(
    keyed_cents: int,
    words_read: WordsAmount | Fault | None,
    figures_read: FiguresAmount | Fault | None,
    comparison: Comparison | None,
    face: Face,
) -> Answer:
    """The keyed amount is not the amount of the check.

    What it asks: Is the keyed amount that of the words, or where they do not settle it, one that the figures
        can be?
    Why it matters: The debit takes what was keyed, and the customer's record shows what was written: one of the
        two is charged wrongly.
    Example: 54.10 keyed for a check that says Forty-five and 10/100.
    What to do: Look at the words, key the amount again. If words and figures agree and it still differs, call the
        manager; if they do not agree, hand the check back.
    """
    values: tuple[int, ...]
    if isinstance(words_read, WordsAmount) and words_read.cents is not None:
        name, values = "words", (words_read.cents,)
    elif isinstance(figures_read, FiguresAmount):
        name, values = "figures", tuple(candidate.cents for candidate in figures_read.candidates)
    elif isinstance(words_read, WordsAmount):
        name, values = "words", tuple(candidate.cents for candidate in words_read.candidates)
    else:
        blank = face.words.state is State.BLANK and face.figures.state is State.BLANK
        return NOT_APPLICABLE if blank else UNREAD
    if keyed_cents in values:
        return None
    read = " or ".join(map(money, values[:3]))
    labels = (at("counter.amount"), at(name, None, read, primary=False))
    who = "words say" if name == "words" else "box says"
    # Where words and figures do not bear each other out, what was keyed may be the true amount, and no mere slip.
    effect = None if comparison is not None and comparison.outcome == "agree" else Effect.DECLINE
    remedy = None if len(values) == 1 else Remedy.REREAD
    return Hit(f"The {who} {read}, but {money(keyed_cents)} is keyed.", labels, effect, remedy)


@rule("cash-back-over-house-limit", Effect.REFER, by="house-policy", remedy=Remedy.MANAGER)
def cash_back_over_house_limit(cents: int, purchase_cents: int, house_limits: Limits, amount_at: str) -> Answer:
    """The check is written for more above the purchase than the house pays out.

    What it asks: Where the policy sets a limit, is the amount less the purchase within it?
    Why it matters: A check that will not be paid is often written for as much over the purchase as the house allows,
        and the cash is gone.
    Example: $95.10 for groceries of $45.10, where the policy pays out $20.00.
    What to do: Ask for a check nearer to the purchase, or call the manager.
    """
    most = house_limits.cash_back
    if most is None:
        return NOT_APPLICABLE
    over = cents - purchase_cents
    if over <= most:
        return None
    return Hit(f"{money(over)} above the purchase, and this house pays out at most {money(most)}.", (at(amount_at),))


@rule("cash-back-over-casher-threshold", Effect.NOTE, by="31-cfr-1010-100")
def cash_back_over_casher_threshold(cents: int, purchase_cents: int, kinds: frozenset[Kind], amount_at: str) -> Answer:
    """More than $1,000.00 in currency would be handed out on the check.

    What it asks: Is the amount less the purchase at most $1,000.00?
    Why it matters: Whoever hands out more than that to one person in one day for checks may be a check casher
        under the Bank Secrecy Act, with duties to register and report. A house that cashes the check of its verified
        maker, who is buying goods, is excepted; a payroll or government check is made by somebody else, and one
        without a purchase comes with no goods.
    Example: A check for $1,250.00 on groceries of $45.10.
    What to do: Stay within the house's limit on cash back. Whether the exception holds is for counsel.
    """
    over = cents - purchase_cents
    if over <= CASHER_THRESHOLD:
        return None
    by_maker = purchase_cents > 0 and kinds.isdisjoint(PAID_TO_CUSTOMER)
    excepted = (
        "only the check's verified maker is excepted" if by_maker else "the exception for its maker does not apply"
    )
    return Hit(f"{money(over)} above the purchase, more than {money(CASHER_THRESHOLD)}: {excepted}.", (at(amount_at),))


@rule(
    "encoded-amount-differs", Effect.REFER, by="x9-100-160 common-practice", remedy=Remedy.MANAGER, floor=Effect.KEEP,
)  # fmt: skip
def encoded_amount_differs(line: MicrLine, cents: int, amount_at: str) -> Answer:
    """The amount encoded in the line is not the amount of the check.

    What it asks: Where the line carries an amount, is it the amount keyed or written?
    Why it matters: A bank encoded it from the face as it was then. If the face says another amount now, the
        face was changed since.
    Example: 0000004510 in the line of a check for $450.10.
    What to do: Call the manager, who looks for traces of alteration and for a bank's stamp on the back.
    """
    span = line.spans.get("amount")
    if line.amount_cents is None:
        return UNREAD if span is not None and (line.unread or line.faults) else NOT_APPLICABLE
    if line.amount_cents == cents:
        return None
    labels = (at("micr", span), at(amount_at, None, money(cents), primary=False))
    return Hit(f"The bottom line says {money(line.amount_cents)}, but the check is for {money(cents)}.", labels)
