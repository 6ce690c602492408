"""What can be wrong with the magnetic-ink line as a whole, and with its single fields."""

from __future__ import annotations

from checkface.training.plants.work import Work
from checkface.training.plants.work import plants_line as plants


@plants("micr-not-read")
def line_missing(work: Work) -> None:
    """The band at the bottom is empty."""
    work.face["micr"] = ""


@plants("micr-not-read")
def line_worn(work: Work) -> None:
    """The line is worn off."""
    work.face["micr"] = None


@plants("micr-unread-character")
def account_digit_unread(work: Work) -> None:
    """One digit of the account is blotted."""
    at = work.dice.randrange(1, len(work.account) - 1)
    work.face["micr"] = work.face["micr"].replace(work.account, work.account[:at] + "?" + work.account[at + 1 :])


@plants("micr-unread-character")
def bank_digit_unread(work: Work) -> None:
    """One digit of the routing number is blotted: the others give it away, and still it was not read."""
    at = work.dice.randrange(9)
    work.face["micr"] = work.face["micr"].replace(work.routing, work.routing[:at] + "?" + work.routing[at + 1 :])


@plants("micr-unread-character")
def two_bank_digits_unread(work: Work) -> None:
    """Two digits of the routing number are blotted: nobody knows the bank."""
    work.face["micr"] = work.face["micr"].replace(work.routing, work.routing[:3] + "??" + work.routing[5:])


@plants("micr-malformed")
def bank_digit_lost(work: Work) -> None:
    """Eight digits between the transit symbols."""
    at = work.dice.randrange(9)
    work.face["micr"] = work.face["micr"].replace(work.routing, work.routing[:at] + work.routing[at + 1 :])


@plants("micr-keyed")
def line_keyed(work: Work) -> None:
    """The clerk typed the line."""
    work.counter["micr_by"] = "keyed"


@plants("micr-keyed")
def line_corrected(work: Work) -> None:
    """The clerk mended the line."""
    work.counter["micr_by"] = "corrected"


@plants("micr-foreign", "foreign-currency-check")
def line_of_canada(work: Work) -> None:
    """Branch, dash and institution between the transit symbols."""
    work.face["micr"] = f"\u24461{work.account[:4]}\u2449{work.account[4:7]}\u2446 {work.account}\u2448 {work.serial}"
    work.face["fraction"] = ""


@plants("micr-layout-ambiguous", "micr-no-serial")
def number_before_the_account(work: Work) -> None:
    """A group, a dash and a longer group; nobody looked at the printed number."""
    work.line("leading-dash")
    del work.face["serial"]


@plants("micr-field-too-long")
def account_without_end(work: Work) -> None:
    """More digits than the field has places for."""
    work.line(account=(work.account * 4)[:24])


@plants("micr-auxiliary-on-us", "business-check")
def number_at_the_left(work: Work) -> None:
    """The number stands left of the bank's, where only long paper has room."""
    work.line("business", serial=work.serial.zfill(6))


@plants("micr-qualified-return", "micr-no-account micr-no-serial")
def returned_code(work: Work) -> None:
    """A 2 left of the bank's number: it has come back once."""
    work.line("transit-only", account="", serial="", epc="2")


@plants("micr-substitute-check", "substitute-check")
def copy_code(work: Work) -> None:
    """A 4 left of the bank's number: it is a picture of a check."""
    work.line(epc="4")


@plants("micr-remotely-created", "remotely-created-check")
def unsigned_code(work: Work) -> None:
    """A 6 left of the bank's number: nobody signed it."""
    work.line(epc="6")


@plants("micr-amount-encoded")
def amount_on_the_line(work: Work) -> None:
    """The amount is printed at the right: a bank has had it."""
    work.line(amount_cents=work.cents)


@plants("encoded-amount-differs", "micr-amount-encoded")
def other_amount_on_the_line(work: Work) -> None:
    """Another amount is printed at the right."""
    work.line(amount_cents=work.cents + 90_00)


@plants("micr-no-account", "micr-no-serial")
def no_account(work: Work) -> None:
    """The line ends behind the bank's number."""
    work.line("transit-only", account="", serial="")


@plants("micr-zero-account")
def account_of_zeros(work: Work) -> None:
    """The account is a row of zeros."""
    work.line(account="0" * len(work.account))


@plants("micr-no-serial")
def no_number_on_the_line(work: Work) -> None:
    """The printed number is missing on the line."""
    work.line("account-only")


@plants("micr-account-short")
def account_cut_short(work: Work) -> None:
    """Hardly anything is left of the account."""
    work.line(account=work.account[-2:])
