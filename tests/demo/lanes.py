"""What the rules of the demo day ask for, as it was typed here by hand, and what its lanes did.

Nothing of checkface is imported: a test holds its answers to those that are planned here.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from invented import Day, Row

#: Rules whose checks are handed back.
DECLINE = """
already-converted already-endorsed amount-over-printed-limit amount-zero amounts-disagree
date-in-future date-past-printed-limit date-stale id-not-bearer id-number-forbidden legend-void micr-foreign
micr-qualified-return micr-remotely-created payee-not-house postal-money-order-over-maximum routing-all-zero signature-missing
travelers-countersignature
"""
#: Rules that ask a manager: those whose checks the manager of this Saturday took, and those whose checks went back.
MANAGER_TOOK = """
amount-over-house-limit cash-back-over-house-limit conditional-wording counter-check date-last-january drawee-unclear drawer-not-printed fraction-differs
fraction-outside-district id-expired kind-contradicts-declared micr-malformed micr-not-read micr-substitute-check micr-unread-character
reading-not-taken serial-differs
"""
MANAGER_REFUSED = """
altered amount-differs-from-keyed date-unreadable drawer-differs-from-id encoded-amount-differs id-kind-not-accepted id-missing id-not-photo
id-state-unknown micr-amount-encoded micr-no-account routing-checksum routing-electronic-only
routing-unassigned-prefix words-unclear
"""
#: Rules whose checks are not converted, whatever else is right with them.
KEEP = """
amount-over-conversion-limit authorization-not-signed business-check cashiers-check certified-check federal-bank-item
government-check kind-undetermined micr-auxiliary-on-us micr-keyed micr-layout-ambiguous micr-no-serial money-order
network-down payroll-check postal-money-order remotely-created-check routing-federal-bank routing-government
pillar-not-seen routing-old-form serial-not-printed substitute-check tellers-check third-party-check travelers-check
treasury-check
"""
#: The answers from the strictest down, and what a lane does with a check of each.
_DOES = {
    "decline": "returned", "refer": "returned", "refer, and the manager takes it": "kept", "keep": "kept",
    "convert": "converted",
}  # fmt: skip
TAKEN = list(_DOES)[2]


def strictest(rules: list[str]) -> str:
    """The answer to a check in which these *rules* find something."""
    for answer, its in zip(_DOES, (DECLINE, MANAGER_REFUSED, MANAGER_TOOK, KEEP), strict=False):
        if set(rules) & set(its.split()):
            return answer
    return "convert"


def serve(day: Day) -> None:
    """What the lanes did: as the answers say, but for twelve checks."""
    for row in day.rows:
        row["taken_as"] = _DOES[row["answer"]]
    business = [row for row in day.having("business-check") if row["counter.declared_kind"] == "business"]
    untold = [day.having("payroll-check")[0], *business[:2]]
    in_turn(day, untold, "4", after=17)
    for row in untold:
        _mistake(day, row, "converted", "converted-though-barred", "a new cashier, not told what a firm's check is")
    for rule, found, why in (
        ("authorization-not-signed", "converted-though-barred", "the slip was printed, and never signed"),
        ("altered", "converted-though-barred", "no manager was asked"),
        ("already-converted", "converted-though-barred taken-though-declined", "the old debit's print was overlooked"),
    ):
        _mistake(day, day.having(rule)[0], "converted", found, why)
    paperless = day.having_nothing()[20:23]
    in_turn(day, paperless, "6", after=5)
    for row in paperless:
        _mistake(day, row, "kept", "kept-though-convertible", "an hour without paper for the print of the void")
    for rule, why in (
        ("signature-missing", "nobody looked at the signature"),
        ("date-past-printed-limit", "VOID AFTER 60 DAYS was overlooked"),
        ("id-not-bearer", "a regular, who showed the card of a relative"),
    ):
        _mistake(day, day.having(rule)[0], "kept", "taken-though-declined", why)


def _mistake(day: Day, row: Row, taken: str, rules: str, why: str) -> None:
    row["taken_as"] = taken
    for rule in rules.split():
        day.fact(rule, [row], why)


def in_turn(day: Day, rows: list[Row], lane: str, after: int) -> None:
    """Let *rows* come one after another on one *lane*."""
    rows[0]["counter.lane"] = lane
    for first, second in pairwise(rows):
        day.follow(first, second, after)
