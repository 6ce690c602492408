"""What passed the counter before: the item, the account, the document. Asked only where the house keeps a history."""

from __future__ import annotations

from datetime import timedelta
from functools import partial

from checkface import identity
from checkface.findings import Effect, Outcome, Remedy
from checkface.reading import known_by
from checkface.rules.history import AccountPast, History
from checkface.rules.registry import NOT_APPLICABLE, UNREAD, Answer, Case, Hit, at, rule

_DID = {"converted": "converted to a debit", "kept": "kept for deposit", "returned": "handed back"}


def _no_history(case: Case) -> Outcome | None:
    """Where the house keeps no history, nothing can be asked of it."""
    return Outcome.NOT_APPLICABLE if case.history is None else None


_rule = partial(rule, gate=_no_history)


def _asked(case: Case) -> History:
    assert case.history is not None  # the gate has seen to it
    return case.history


def _money(cents: int) -> str:
    return f"${cents // 100:,}.{cents % 100:02d}"


def _account(case: Case) -> tuple[str, str] | None:
    """Routing and account number, where both were read for certain."""
    line = case.read.line
    if line is None or line.routing is None or line.account is None or not line.checksum:
        return None
    return line.routing, line.account


def _past(case: Case) -> AccountPast | None:
    numbers, on = _account(case), case.read.counter.on
    if numbers is None or on is None:
        return None
    return _asked(case).account_past(*numbers, on - timedelta(days=case.policy.history.days - 1), on)


@_rule(
    "item-seen-before", Effect.DECLINE, by="nacha-single-use common-practice", needs="routing", remedy=Remedy.NEW_CHECK
)
def item_seen_before(case: Case) -> Answer:
    """This very check has been taken before.

    What it asks: Does the history know the same routing number, account and serial, or where a line has no account,
        its own digits?
    Why it matters: A check is paid once. One that was converted has been voided and must not come back; one that was
        kept is at the bank.
    Example: The check of last Tuesday, converted and handed back, is tendered again with the void rubbed out.
    What to do: Hand it back; ask for another form of payment.
    """
    numbers, line = known_by(case.read), case.read.line
    if numbers is None or line is None or not line.checksum:
        return UNREAD
    seen = _asked(case).item_seen(*numbers)
    if seen is None:
        return None
    message = f"Expected a check not seen before, read one that was {_DID[seen.taken_as]} on {seen.on:%m/%d/%Y}."
    # A check handed back untaken and tendered again may have been cured: look, but do not refuse it for that.
    if seen.taken_as == "returned":
        return Hit(message, (at("micr", line.spans.get("serial")),), Effect.NOTE)
    return Hit(message, (at("micr", line.spans.get("serial")),))


@_rule("account-on-house-list", Effect.DECLINE, by="house-policy", needs="account", remedy=Remedy.MANAGER)
def account_on_house_list(case: Case) -> Answer:
    """The account is on the house's list of unpaid accounts.

    What it asks: Has a check of this account come back unpaid, and not been settled since?
    Why it matters: The house has its own experience with this account. It is not a word about what is in it today.
    Example: A check of last month was returned, and the fee is still open.
    What to do: Hand it back without the reason; a manager settles what is open and clears the entry.
    """
    numbers = _account(case)
    if numbers is None:
        return UNREAD
    if not _asked(case).is_listed(*numbers):
        return None
    return Hit("Expected an account with nothing open, read one on the house's list.", (at("micr", _span(case)),))


@_rule("velocity-count", Effect.REFER, by="house-policy", needs="account on", remedy=Remedy.MANAGER)
def velocity_count(case: Case) -> Answer:
    """More checks of one account within a few days than the house takes.

    What it asks: Counting this one, is the number of checks of this account within the policy's days above its limit?
    Why it matters: Many checks in a few days are often not paid, and the house learns of each of them late.
    Example: The sixth check in a week where the house takes five.
    What to do: Call the manager.
    """
    most = case.policy.history.count
    if most is None:
        return NOT_APPLICABLE
    past = _past(case)
    if past is None:
        return UNREAD
    if past.taken + 1 <= most:
        return None
    days = case.policy.history.days
    message = f"Expected at most {most} checks of one account in {days} days, read number {past.taken + 1}."
    return Hit(message, (at("micr", _span(case)),))


@_rule(
    "velocity-amount",
    Effect.REFER,
    by="house-policy",
    needs="account on amount",
    remedy=Remedy.MANAGER,
)
def velocity_amount(case: Case) -> Answer:
    """More money of one account within a few days than the house takes.

    What it asks: With this one, is the sum of the checks of this account within the policy's days above its limit?
    Why it matters: A limit on one check is no limit if ten are written.
    Example: $1,050.00 in a week where the house takes $1,000.00.
    What to do: Call the manager.
    """
    most = case.policy.history.amount
    if most is None:
        return NOT_APPLICABLE
    past, amount = _past(case), case.read.largest_amount_cents
    if past is None or amount is None:
        return UNREAD
    total = past.amount_cents + amount
    if total <= most:
        return None
    days = case.policy.history.days
    message = f"Expected at most {_money(most)} of one account in {days} days, read {_money(total)} with this check."
    return Hit(message, (at("micr", _span(case)),))


@_rule("serial-far-from-last", Effect.NOTE, by="common-practice", needs="account on")
def serial_far_from_last(case: Case) -> Answer:
    """The serial is far from the last one of this account.

    What it asks: Do more numbers than the policy says lie between this serial and the last one seen?
    Why it matters: People write checks in order. A jump is a new book, or somebody else's.
    Example: 1043 last week, 8112 today.
    What to do: Look again at the signature; nothing more.
    """
    past, line = _past(case), case.read.line
    if past is None or line is None or line.serial is None:
        return UNREAD
    if past.last_serial is None or not past.last_serial.isdigit():
        return None
    apart = abs(int(line.serial) - int(past.last_serial))
    if apart <= case.policy.history.serial_gap:
        return None
    message = f"Expected a serial near {past.last_serial}, the last of this account, read {line.serial}."
    return Hit(message, (at("micr", line.spans.get("serial")),))


@_rule(
    "drawer-changed",
    Effect.REFER,
    by="common-practice",
    needs="account on drawer",
    remedy=Remedy.MANAGER,
)
def drawer_changed(case: Case) -> Answer:
    """The account has been seen with another drawer's name.

    What it asks: Does the printed name agree with a name the account was seen with?
    Why it matters: People marry and move; but one account under two names is also how altered paper shows.
    Example: The account of last week's customer, printed for another family name.
    What to do: Call the manager; compare with the identification.
    """
    past = _past(case)
    if past is None:
        return UNREAD
    drawer = case.read.face.drawer.text
    if not past.drawers or any(_may_be_one(drawer, earlier) for earlier in past.drawers):
        return None
    message = "Expected a name this account was seen with, read another."
    return Hit(message, (at("drawer", (0, len(drawer.split(chr(10), 1)[0]))),))


def _may_be_one(drawer: str, earlier: str) -> bool:
    plain = [" ".join(text.split("\n", 1)[0].casefold().split()) for text in (drawer, earlier)]
    return plain[0] == plain[1] or identity.names_agree(drawer, earlier).verdict != "different"


@_rule(
    "id-many-accounts",
    Effect.REFER,
    by="common-practice house-policy",
    needs="document",
    remedy=Remedy.MANAGER,
)
def id_many_accounts(case: Case) -> Answer:
    """One identification document has been shown with many accounts.

    What it asks: How many accounts has the history seen with this document?
    Why it matters: A person has an account or two; a document shown with many may have been copied.
    Example: The fourth account in a month with one licence, where the house allows three.
    What to do: Call the manager.
    """
    numbers = case.read.document_numbers
    if not numbers:
        return UNREAD
    most = case.policy.history.accounts_per_document
    seen = max(_asked(case).accounts_of_document(number) for number in numbers)
    if seen <= most:
        return None
    return Hit(f"Expected at most {most} accounts with one document, read {seen}.", (at("documents.0.number"),))


def _span(case: Case) -> tuple[int, int] | None:
    line = case.read.line
    return line.spans.get("account") if line else None
