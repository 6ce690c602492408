"""What single fields of the line say: auxiliary field, processing code, account, serial, encoded amount."""

from __future__ import annotations

from functools import partial

from checkface.findings import Effect, Outcome, Remedy
from checkface.micr import MicrLine
from checkface.rules.micr_line import FEDERAL
from checkface.rules.registry import NOT_APPLICABLE, UNREAD, Answer, Case, Hit, at, rule

#: Accounts with fewer digits are taken for misread; from common practice, no standard says.
_SHORT = 4
_MARKS = frozenset({"auxiliary", "epc", "amount"})


def _unmarked(case: Case) -> Outcome | None:
    """A line in order without auxiliary field, processing code or amount: nothing to ask of any of them."""
    line = case.read.line
    if line is None or line.unread or line.faults:
        return None
    return None if any(field in _MARKS for field, _, _ in line.places) else Outcome.HELD


_rule = partial(rule, gate=_unmarked)


@_rule("micr-auxiliary-on-us", Effect.KEEP, by="nacha-auxiliary")
def micr_auxiliary_on_us(line: MicrLine) -> Answer:
    """An auxiliary field stands left of the routing number.

    What it asks: Is there anything between On-Us symbols left of the transit field?
    Why it matters: The field marks the longer check of a business, and the network bars such checks from conversion
        whoever signed them. A six-inch personal check has no room for it.
    Example: A serial number between two On-Us symbols at the far left of the line.
    What to do: Keep the check.
    """
    span = line.spans.get("auxiliary")
    if span is None:
        return None  # what stands there is no such field; micr-malformed says so
    return Hit("An auxiliary field stands left of the routing number, as on business checks.", (at("micr", span),))


@_rule("micr-qualified-return", Effect.DECLINE, by="12-cfr-229-31 x9-epc", remedy=Remedy.NEW_CHECK)
def micr_qualified_return(line: MicrLine) -> Answer:
    """The line is that of a returned check.

    What it asks: Is the digit left of the routing number a 2 or a 5?
    Why it matters: A bank that sends a check back encodes it so, and the number behind the digit is then the bank of
        first deposit and not the one the check is drawn on. The check was not paid.
    Example: 2 before the left transit symbol, on a strip taped to the lower edge.
    What to do: Hand it back. It was presented before and was not paid.
    """
    return _coded(line, "a returned check") if line.returned else None


@_rule("micr-substitute-check", Effect.REFER, by="12-usc-5003 x9-epc", remedy=Remedy.MANAGER, floor=Effect.KEEP)
def micr_substitute_check(line: MicrLine) -> Answer:
    """The line is that of a substitute check.

    What it asks: Is the digit left of the routing number a 4?
    Why it matters: A substitute check is a bank's printed picture of a check that is already on its way. In law it is
        as good as the original, but nobody writes one out at a counter.
    Example: 4 before the left transit symbol, and the check on the paper is smaller than the paper.
    What to do: A manager asks where it comes from. It is never converted.
    """
    return _coded(line, "a substitute check") if line.epc == "4" else None


@_rule("micr-remotely-created", Effect.DECLINE, by="12-cfr-229-2-fff x9-epc nacha-ineligible")
def micr_remotely_created(line: MicrLine) -> Answer:
    """The line is that of a remotely created check.

    What it asks: Is the digit left of the routing number a 6?
    Why it matters: The account holder has not signed such a check: a seller or a caller printed it from an account
        number. It is barred from conversion, and no customer has one to hand over.
    Example: 6 before the left transit symbol, and a line of type where the signature should be.
    What to do: Hand it back and ask for another form of payment.
    """
    return _coded(line, "a remotely created check") if line.epc == "6" else None


def _coded(line: MicrLine, whose: str) -> Hit:
    return Hit(f"The line is that of {whose}: processing code {line.epc}.", (at("micr", line.spans.get("epc")),))


@_rule(
    "micr-amount-encoded", Effect.REFER, by="x9-100-160 nacha-single-use", remedy=Remedy.MANAGER, floor=Effect.KEEP,
)  # fmt: skip
def micr_amount_encoded(line: MicrLine) -> Answer:
    """The amount is already encoded in the line.

    What it asks: Is the amount field at the right end empty?
    Why it matters: The bank that first takes a check prints the amount there. A check that comes over a counter with
        the field filled has been through a bank before, or is a printed imitation of one that has.
    Example: Ten digits between amount symbols at the right end of the line.
    What to do: A manager looks at the back for a bank's stamp and asks where the check comes from.
    """
    span = line.spans.get("amount")
    return None if span is None else Hit("The amount is already encoded in the bottom line.", (at("micr", span),))


def _numbered(case: Case) -> Outcome | None:
    """An account and a check number, both whole and neither all zeros: nothing is left to ask of them."""
    line = case.read.line
    if line is None or line.account is None or line.serial is None or len(line.account) < _SHORT:
        return None
    return Outcome.HELD if line.account.strip("0") and line.serial.strip("0") else None


_numbers = partial(rule, gate=_numbered)


@_numbers("micr-no-account", Effect.REFER, by="x9-100-160", remedy=Remedy.REREAD)
def micr_no_account(line: MicrLine) -> Answer:
    """No account number stands in the line.

    What it asks: Is there an account number, closed by its On-Us symbol?
    Why it matters: Without it no debit and no bank can tell who is to pay. Treasury checks and postal money orders have
        none by design and are not asked, nor are returned items.
    Example: The transit field, and nothing right of it but a serial.
    What to do: Pass the check again; if nothing comes, a manager looks at the paper.
    """
    if line.account is not None:
        return None
    if line.returned or (line.routing or "").startswith(FEDERAL):
        return NOT_APPLICABLE
    if line.faults or "account" in line.spans or any(doubt.field == "account" for doubt in line.ambiguities):
        return UNREAD
    return Hit("The bottom line has no account number.", (at("micr"),))


@_numbers("micr-zero-account", Effect.REFER, by="x9-100-160 common-practice", remedy=Remedy.REREAD)
def micr_zero_account(line: MicrLine, account: str) -> Answer:
    """The account number is all zeros.

    What it asks: Is any digit of the account other than zero?
    Why it matters: No bank gives such a number out. It comes from a sample sheet, or from a reader that filled in what
        it did not read.
    Example: 00000000 before the closing On-Us symbol.
    What to do: Pass the check again; if the zeros stand, a manager looks at the paper.
    """
    if account.strip("0"):
        return None
    return Hit("The account number is all zeros.", (at("micr", line.spans.get("account")),))


@_numbers("micr-account-short", Effect.REFER, by="common-practice", remedy=Remedy.REREAD)
def micr_account_short(line: MicrLine, account: str) -> Answer:
    """The account number has hardly any digits.

    What it asks: Has the account at least four digits?
    Why it matters: Banks number their accounts with more digits than that. Two or three are what is left when a reader
        skips the rest, and a debit sent to them goes to nobody or to somebody else.
    Example: A single digit before the closing On-Us symbol.
    What to do: Pass the check again; if the number stays so short, a manager looks at the paper.
    """
    if len(account) >= _SHORT:
        return None
    digits = "1 digit" if len(account) == 1 else f"{len(account)} digits"
    return Hit(f"The account number has only {digits}.", (at("micr", line.spans.get("account")),))


@_numbers("micr-no-serial", Effect.KEEP, by="nacha-serial", remedy=Remedy.REREAD)
def micr_no_serial(line: MicrLine) -> Answer:
    """No serial number stands in the line.

    What it asks: Is there a check number in the line, other than zeros?
    Why it matters: The network demands a pre-printed serial, and the electronic entry carries it. Without one nothing
        tells this check from the next, for the house or for the account holder.
    Example: Account and On-Us symbol, and nothing behind them.
    What to do: Keep the check.
    """
    if line.serial is not None:
        if line.serial.strip("0"):
            return None
        return Hit("The check number in the bottom line is all zeros.", (at("micr", line.spans.get("serial")),))
    if line.returned or line.country != "US" or (line.routing or "").startswith(FEDERAL):
        return NOT_APPLICABLE
    settled = line.account is not None
    open_ = any(doubt.field == "serial" and (doubt.candidates or not settled) for doubt in line.ambiguities)
    if open_ or line.unread or line.faults:
        return UNREAD
    return Hit("The bottom line has no check number.", (at("micr"),))
