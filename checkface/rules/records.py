"""What passed the counter before: the item, the account, the document. Asked only where the house keeps a history."""

from __future__ import annotations

from datetime import date, timedelta
from functools import partial

from checkface import identity, policy
from checkface.amounts import money
from checkface.findings import Effect, Label, Outcome, Remedy
from checkface.micr import MicrLine
from checkface.reading import ReadTender, known_by
from checkface.routing import RoutingNumber
from checkface.rules.history import AccountPast, History
from checkface.rules.registry import NOT_APPLICABLE, UNREAD, Answer, Case, Hit, at, rule

_DID = {"converted": "converted to a debit", "kept": "kept for deposit", "returned": "handed back"}


def _no_history(case: Case) -> Outcome | None:
    """Where the house keeps no history, nothing can be asked of it; the rules below always get one."""
    return Outcome.NOT_APPLICABLE if case.history is None else None


_rule = partial(rule, gate=_no_history)


def _bank(line: MicrLine) -> str | None:
    """The routing number, where its sum holds: what may be misread is not looked up."""
    return line.routing if line.checksum else None


def _past(line: MicrLine, account: str, on: date, house: policy.History, history: History) -> AccountPast | None:
    """What is known of the account within the policy's days, where bank and account were read for certain."""
    bank = _bank(line)
    return None if bank is None else history.account_past(bank, account, on - timedelta(days=house.days - 1), on)


@_rule("item-seen-before", Effect.DECLINE, by="nacha-single-use common-practice", remedy=Remedy.NEW_CHECK)
def item_seen_before(line: MicrLine, routing: RoutingNumber, read: ReadTender, history: History) -> Answer:
    """This very check has been taken before.

    What it asks: Does the history know the same routing number, account and serial, or where a line has no account,
        its own digits?
    Why it matters: A check is paid once. One that was converted has been voided and must not come back; one that was
        kept is at the bank.
    Example: The check of last Tuesday, converted and handed back, is tendered again with the void rubbed out.
    What to do: Hand it back; ask for another form of payment.
    """
    numbers = known_by(read)
    if numbers is None or not routing.checksum:
        return UNREAD
    seen = history.item_seen(*numbers)
    if seen is None:
        return None
    # A check handed back untaken and tendered again may have been cured: look, but do not refuse it for that.
    return Hit(
        f"This check was here before: {_DID[seen.taken_as]} on {seen.on:%m/%d/%Y}.",
        _at(line, "serial"),
        Effect.NOTE if seen.taken_as == "returned" else None,
    )


@_rule("account-on-house-list", Effect.DECLINE, by="house-policy", remedy=Remedy.MANAGER)
def account_on_house_list(line: MicrLine, account: str, history: History) -> Answer:
    """The account is on the house's list of unpaid accounts.

    What it asks: Has a check of this account come back unpaid, and not been settled since?
    Why it matters: The house has its own experience with this account. It is not a word about what is in it today.
    Example: A check of last month was returned, and the fee is still open.
    What to do: Hand it back without the reason; a manager settles what is open and clears the entry.
    """
    bank = _bank(line)
    if bank is None:
        return UNREAD
    if not history.is_listed(bank, account):
        return None
    return Hit("The account is on the house's list of unpaid accounts.", _at(line))


@_rule("velocity-count", Effect.REFER, by="house-policy", remedy=Remedy.MANAGER)
def velocity_count(line: MicrLine, account: str, on: date, house_history: policy.History, history: History) -> Answer:
    """More checks of one account within a few days than the house takes.

    What it asks: Counting this one, is the number of checks of this account within the policy's days above its limit?
    Why it matters: Many checks in a few days are often not paid, and the house learns of each of them late.
    Example: The sixth check in a week where the house takes five.
    What to do: Call the manager.
    """
    most, days = house_history.count, house_history.days
    if most is None:
        return NOT_APPLICABLE
    past = _past(line, account, on, house_history, history)
    if past is None:
        return UNREAD
    number = past.taken + 1
    if number <= most:
        return None
    return Hit(f"{number} checks of this account in {_within(days)}, with this one; the house takes {most}.", _at(line))


@_rule("velocity-amount", Effect.REFER, by="house-policy", remedy=Remedy.MANAGER)
def velocity_amount(
    line: MicrLine, account: str, on: date, largest_cents: int | None, house_history: policy.History, history: History
) -> Answer:
    """More money of one account within a few days than the house takes.

    What it asks: With this one, is the sum of the checks of this account within the policy's days above its limit?
    Why it matters: Ten small checks may come to more than the one large check that the house would not take.
    Example: $1,050.00 in a week where the house takes $1,000.00.
    What to do: Call the manager.
    """
    most, days = house_history.amount, house_history.days
    if most is None:
        return NOT_APPLICABLE
    past = _past(line, account, on, house_history, history)
    if past is None or largest_cents is None:
        return UNREAD
    total = past.amount_cents + largest_cents
    if total <= most:
        return None
    return Hit(
        f"{money(total)} of this account in {_within(days)}, with this check; the house takes {money(most)}.",
        _at(line),
    )


def _within(days: int) -> str:
    return "one day" if days == 1 else f"{days} days"


@_rule("serial-far-from-last", Effect.NOTE, by="common-practice")
def serial_far_from_last(
    line: MicrLine, account: str, on: date, house_history: policy.History, history: History
) -> Answer:
    """The serial is far from the last one of this account.

    What it asks: Do more numbers than the policy says lie between this serial and the last one seen?
    Why it matters: People write checks in order. A jump is a new book, or somebody else's.
    Example: 1043 last week, 8112 today.
    What to do: Look again at the signature; nothing more.
    """
    past = _past(line, account, on, house_history, history)
    if past is None or line.serial is None:
        return UNREAD
    last = past.last_serial
    if last is None or not last.isdigit() or abs(int(line.serial) - int(last)) <= house_history.serial_gap:
        return None
    return Hit(f"Check number {line.serial} is far from {last}, the last of this account.", _at(line, "serial"))


@_rule("drawer-changed", Effect.REFER, by="common-practice", remedy=Remedy.MANAGER)
def drawer_changed(
    line: MicrLine, account: str, on: date, drawer_text: str, house_history: policy.History, history: History
) -> Answer:
    """The account has been seen with another drawer's name.

    What it asks: Does the printed name agree with a name the account was seen with?
    Why it matters: People marry and change their name. But another name may also have been printed on a copied line.
    Example: The account of last week's customer, printed for another family name.
    What to do: Call the manager; compare with the identification.
    """
    past = _past(line, account, on, house_history, history)
    if past is None:
        return UNREAD
    if not past.drawers or any(_may_be_one(drawer_text, earlier) for earlier in past.drawers):
        return None
    name = drawer_text.split("\n", 1)[0]
    return Hit("This account was here before with another name.", (at("drawer", (0, len(name))),))


def _may_be_one(drawer: str, earlier: str) -> bool:
    plain = [" ".join(text.split("\n", 1)[0].casefold().split()) for text in (drawer, earlier)]
    return plain[0] == plain[1] or identity.names_agree(drawer, earlier).verdict != "different"


@_rule("id-many-accounts", Effect.REFER, by="common-practice house-policy", remedy=Remedy.MANAGER)
def id_many_accounts(document_numbers: tuple[str, ...], house_history: policy.History, history: History) -> Answer:
    """One identification document has been shown with many accounts.

    What it asks: How many accounts has the history seen with this document?
    Why it matters: A person has an account or two; a document shown with many may have been copied.
    Example: The fourth account in a month with one license, where the house allows three.
    What to do: Call the manager.
    """
    if not document_numbers:
        return UNREAD
    most = house_history.accounts_per_document
    seen = max(map(history.accounts_of_document, document_numbers))
    if seen <= most:
        return None
    return Hit(f"This document was shown with {seen} accounts; the house allows {most}.", (at("documents.0.number"),))


def _at(line: MicrLine, field: str = "account") -> tuple[Label]:
    return (at("micr", line.spans.get(field)),)
