"""How much: the network's limit, the house's limits, the limit printed on the face, and the amount that was keyed.

A limit is held against the largest amount that anything states, keyed, encoded, in words or in figures, and while those
two do not agree, against every value they can have, so that no reading can hide another.
"""

from __future__ import annotations

from checkface import instruments
from checkface.amounts import FiguresAmount, WordsAmount, money
from checkface.findings import Effect, Label, Remedy
from checkface.policy import NETWORK_LIMIT
from checkface.rules.kinds import PAID_TO_CUSTOMER
from checkface.rules.registry import NOT_APPLICABLE, UNREAD, Answer, Case, Hit, at, rule
from checkface.span import Fault
from checkface.tender import State

#: Cents of currency for checks that make a house a check casher when one person is handed more in a day: 31 CFR
#: 1010.100(ff)(2)(i); (ii)(C) excepts the verified maker of the check who is buying goods.
CASHER_THRESHOLD = 100_000


def _label(case: Case, words: str = "", *, primary: bool = True) -> Label:
    """Where the amount stands: as keyed, else the figures, else the words."""
    if case.read.counter.amount is not None:
        return at("counter.amount", None, words, primary=primary)
    return at("figures" if isinstance(case.read.figures, FiguresAmount) else "words", None, words, primary=primary)


@rule("amount-undetermined", Effect.REFER, by="common-practice ucc-3-104", remedy=Remedy.COMPLETE, floor=Effect.KEEP)
def amount_undetermined(case: Case) -> Answer:
    """Nobody knows the amount: it was not keyed, and the face does not settle it.

    What it asks: Does the clerk, the words or the figures give one amount?
    Why it matters: A check is an order for a fixed amount of money. Without one there is nothing to debit,
        and no limit can be held against it.
    Example: Signed, made out to the house, both amounts left blank, nothing keyed.
    What to do: Key the amount and have the check filled in.
    """
    if case.read.amount_cents is not None:
        return None
    return Hit("Expected an amount, keyed or on the face, read none that is settled.", (at("counter.amount"),))


@rule("amount-zero", Effect.DECLINE, by="ucc-3-104 common-practice", remedy=Remedy.NEW_CHECK)
def amount_zero(case: Case) -> Answer:
    """The amount is zero.

    What it asks: Does the clerk, the line of words or the box of figures say nothing and no cents?
    Why it matters: A check for nothing pays nothing. Samples and voided checks are written so.
    Example: $0.00 and Zero dollars.
    What to do: Hand it back; key the amount again if that was the slip.
    """
    read = case.read
    words, figures = read.words, read.figures
    if isinstance(words, Fault) and words.kind == "words-zero":
        return Hit("Expected an amount above zero, read zero.", (at("words", words.span),))
    if isinstance(figures, Fault) and figures.kind == "figures-zero":
        return Hit("Expected an amount above zero, read zero.", (at("figures", figures.span),))
    if read.amount_cents:
        return None
    if read.amount_cents is None:
        return UNREAD
    return Hit("Expected an amount above zero, read zero as keyed.", (at("counter.amount"),))


@rule("amount-over-conversion-limit", Effect.KEEP, by="nacha-limit")
def amount_over_conversion_limit(case: Case) -> Answer:
    """The amount is above what may be converted.

    What it asks: Is the largest amount that anything states at most $25,000.00, or the lower limit of the
        policy?
    Why it matters: The network does not take a larger debit from a check at the point of purchase. A house
        may set the limit lower, never higher.
    Example: $25,000.01. One cent less may be converted.
    What to do: Keep the check.
    """
    cents, most = case.read.largest_amount_cents, case.policy.limits.conversion
    if cents is None:
        return UNREAD
    limit = NETWORK_LIMIT if most is None else most
    if cents <= limit:
        return None
    return Hit(f"Expected at most {money(limit)} for conversion, read {money(cents)}.", (_label(case),))


@rule("amount-over-house-limit", Effect.REFER, by="house-policy", remedy=Remedy.MANAGER)
def amount_over_house_limit(case: Case) -> Answer:
    """The amount is above what this house takes without a manager.

    What it asks: Where the policy sets a limit, is the largest amount that anything states within it?
    Why it matters: The limit is what the house is ready to lose on one check.
    Example: $640.00 where the policy says $500.00.
    What to do: Call the manager.
    """
    most = case.policy.limits.house
    if most is None:
        return NOT_APPLICABLE
    cents = case.read.largest_amount_cents
    if cents is None or cents <= most:
        return UNREAD if cents is None else None
    return Hit(f"Expected at most {money(most)} in this house, read {money(cents)}.", (_label(case),))


@rule("amount-over-printed-limit", Effect.DECLINE, by="common-practice", needs="legends", remedy=Remedy.NEW_CHECK)
def amount_over_printed_limit(case: Case) -> Answer:
    """The amount is above the limit printed on the face.

    What it asks: Where the face says that it is not good over so many dollars, is the largest amount that
        anything states within that?
    Why it matters: The drawer told the bank and everyone else how far the check goes. Above the limit it was
        raised, and the bank may refuse it. A limit whose figure cannot be read calls for a manager.
    Example: NOT VALID OVER $500.00, and the amount is $640.00.
    What to do: Hand it back.
    """
    text, cents = case.read.face.legends.text, case.read.largest_amount_cents
    limits = [limit for limit in instruments.legend_limits(text) if limit.kind == "amount"]
    if not limits:
        return NOT_APPLICABLE
    if cents is None:
        return UNREAD
    hits = []
    for limit in limits:
        label = at("legends", limit.span, "the printed limit")
        if not isinstance(limit.value, int):
            hits.append(
                Hit("Expected a printed limit in figures, read one without.", (label,), Effect.REFER, Remedy.MANAGER)
            )
        elif cents > limit.value:
            message = f"Expected at most {money(limit.value)} as printed on the face, read {money(cents)}."
            hits.append(Hit(message, (label, _label(case, money(cents), primary=False))))
    return tuple(hits) or None


@rule(
    "amount-differs-from-keyed", Effect.REFER, by="common-practice ucc-3-114", needs="keyed_amount",
    remedy=Remedy.REKEY, floor=Effect.KEEP,
)  # fmt: skip
def amount_differs_from_keyed(case: Case) -> Answer:
    """The keyed amount is not the amount of the check.

    What it asks: Is the keyed amount that of the words, or where they do not settle it, one that the figures
        can be?
    Why it matters: The debit would take what was keyed and the customer's record shows what was written;
        either somebody is charged wrongly or the drawer comes up short.
    Example: 54.10 keyed for a check that says Forty-five and 10/100.
    What to do: Look at the words, key the amount again. If words and figures agree and it still differs, call the
        manager; if they do not agree, hand the check back.
    """
    keyed = case.read.counter.amount
    if keyed is None:
        return UNREAD
    words, figures = case.read.words, case.read.figures
    values: tuple[int, ...]
    if isinstance(words, WordsAmount) and words.cents is not None:
        if words.cents == keyed:
            return None
        name, values = "words", (words.cents,)
    elif isinstance(figures, FiguresAmount):
        name, values = "figures", tuple(candidate.cents for candidate in figures.candidates)
    elif isinstance(words, WordsAmount):
        name, values = "words", tuple(candidate.cents for candidate in words.candidates)
    else:
        face = case.read.face
        looked = face.words.state is State.BLANK and face.figures.state is State.BLANK
        return NOT_APPLICABLE if looked else UNREAD
    if keyed in values:
        return None
    read = " or ".join(map(money, values[:3]))
    labels = (at("counter.amount"), at(name, None, read, primary=False))
    together = case.read.comparison
    # Where words and figures do not bear each other out, what was keyed may be the true amount, and no mere slip.
    effect = None if together is not None and together.outcome == "agree" else Effect.DECLINE
    remedy = None if len(values) == 1 else Remedy.REREAD
    return Hit(f"Expected {read} as the check says in {name}, keyed {money(keyed)}.", labels, effect, remedy)


@rule("cash-back-over-house-limit", Effect.REFER, by="house-policy", needs="amount purchase", remedy=Remedy.MANAGER)
def cash_back_over_house_limit(case: Case) -> Answer:
    """The check is written for more above the purchase than the house pays out.

    What it asks: Where the policy sets a limit, is the amount less the purchase within it?
    Why it matters: Goods can be taken back; cash cannot. A check that will not be paid is often written for as much
        over the purchase as the house allows.
    Example: $95.10 for groceries of $45.10, where the policy pays out $20.00.
    What to do: Ask for a check nearer to the purchase, or call the manager.
    """
    most = case.policy.limits.cash_back
    if most is None:
        return NOT_APPLICABLE
    cents, purchase = case.read.amount_cents, case.read.counter.purchase
    if cents is None or purchase is None or cents - purchase <= most:
        return None
    return Hit(f"Expected at most {money(most)} above the purchase, read {money(cents - purchase)}.", (_label(case),))


@rule("cash-back-over-casher-threshold", Effect.NOTE, by="31-cfr-1010-100", needs="amount purchase")
def cash_back_over_casher_threshold(case: Case) -> Answer:
    """More than $1,000.00 in currency would be handed out on the check.

    What it asks: Is the amount less the purchase at most $1,000.00?
    Why it matters: Whoever hands out more than that to one person in one day for checks may be a check casher
        under the Bank Secrecy Act, with duties to register and report. A house that cashes the check of its verified
        maker, who is buying goods, is excepted; a payroll or government check is made by somebody else, and one
        without a purchase comes with no goods.
    Example: A check for $1,250.00 on groceries of $45.10.
    What to do: Stay within the house's limit on cash back. Whether the exception holds is for counsel.
    """
    cents, purchase = case.read.amount_cents, case.read.counter.purchase
    if cents is None or purchase is None or cents - purchase <= CASHER_THRESHOLD:
        return None
    by_maker = purchase > 0 and case.read.kinds.isdisjoint(PAID_TO_CUSTOMER)
    excepted = (
        "excepted only for the verified maker of the check" if by_maker else "not excepted as a maker's own check"
    )
    return Hit(f"{money(cents - purchase)} above the purchase, more than $1,000.00: {excepted}.", (_label(case),))


@rule(
    "encoded-amount-differs",
    Effect.REFER,
    by="x9-100-160 common-practice",
    needs="micr amount",
    remedy=Remedy.MANAGER,
    floor=Effect.KEEP,
)
def encoded_amount_differs(case: Case) -> Answer:
    """The amount encoded in the line is not the amount of the check.

    What it asks: Where the line carries an amount, is it the amount keyed or written?
    Why it matters: A bank encoded it from the face as it was then. If the face says another amount now, the
        face was changed since.
    Example: 0000004510 in the line of a check for $450.10.
    What to do: Call the manager, who looks for traces of alteration and for a bank's stamp on the back.
    """
    line, cents = case.read.line, case.read.amount_cents
    if line is None:
        return None
    if line.amount_cents is None:
        lost = (line.unread or line.faults) and line.spans.get("amount") is not None
        return UNREAD if lost else NOT_APPLICABLE
    if cents is None or line.amount_cents == cents:
        return None
    labels = (at("micr", line.spans.get("amount")), _label(case, money(cents), primary=False))
    return Hit(f"Expected {money(cents)} in the amount field of the line, read {money(line.amount_cents)}.", labels)
