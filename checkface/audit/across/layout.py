"""The On-Us field of one check against those of the other accounts of its bank in the same file.

Banks lay the field out as they like (ASC X9 TR 100-2013), and each in one way: the order of account and check number,
and mostly their lengths. Each account is one witness, however many of its checks are there. Nine in ten accounts of a
bank must agree on the order before one that does not is named. On a length it takes nineteen in twenty: of numbers that
are not filled up with zeros, nine in ten are as long as the longest, and the others are no fault.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from checkface.audit.across.book import rule
from checkface.audit.across.found import AuditFinding, Counts, found
from checkface.audit.across.index import Index
from checkface.findings import Effect

_FEW = "too few other accounts of their bank are in the file, or they do not agree"


class Unlike(NamedTuple):
    """How one check differs: in what, its value and the usual one, and how many of how many accounts have that."""

    feature: str
    value: str
    usual: str
    agree: int
    accounts: int


_WORDS = {
    "account": "{} digits in the account number", "serial": "{} digits in the check number", "order": "the order {}",
}  # fmt: skip


@rule("layout-unlike-its-bank", Effect.NOTE, by="common-practice x9-100-160", needs="the On-Us field, several accounts")
def layout_unlike_its_bank(routing: str, ways: list[Unlike]) -> str:
    """The line is laid out unlike those of the same bank.

    What it asks: Are account and check number where the bank's other checks in this file have them, and as long?
    Why it matters: On checks printed at home the numbers are copied, and often not their places. Or the reader took one
        field for another.
    Example: Of 24 accounts of one bank 23 have ten digits; this one has nine.
    What to do: Look at the image. Accounts of a bank that another bought may keep their old form: that is no fault.
    """
    said = "; ".join(
        f"{way.agree} of {way.accounts} accounts have {_WORDS[way.feature].format(way.usual)}; "
        f"this check has {way.value}"
        for way in ways
    )
    return f"At routing number {routing}, {said}."


_FEATURES = """
CREATE OR REPLACE TEMP TABLE feature AS
WITH asked AS (
  SELECT * FROM item WHERE routing IS NOT NULL AND account IS NOT NULL AND fields IS NOT NULL)
SELECT n, routing, account, 'order' AS feature, fields AS value, true AS fixed FROM asked
UNION ALL SELECT n, routing, account, 'account', digits::VARCHAR, true FROM asked
UNION ALL SELECT n, routing, account, 'serial', width::VARCHAR, padded FROM asked WHERE width > 0
"""
# A check number has one width at banks that fill it up with zeros; elsewhere it grows from 998 to 1002.
_USUAL = """
CREATE OR REPLACE TEMP TABLE usual AS
WITH accounts AS (SELECT routing, feature, count(DISTINCT account) AS accounts FROM feature GROUP BY routing, feature)
SELECT routing, feature, value, count(DISTINCT account) AS agree, any_value(accounts) AS accounts
FROM feature JOIN accounts USING (routing, feature)
GROUP BY routing, feature, value
HAVING agree >= ? AND agree * 20 >= any_value(accounts) * if(feature = 'order', 18, 19)
  AND count(DISTINCT account) FILTER (fixed) * 2 >= agree
"""
_UNLIKE = """
SELECT n, routing, feature, feature.value, usual.value, agree, accounts
FROM feature JOIN usual USING (routing, feature) WHERE feature.value <> usual.value ORDER BY n, feature
"""
_ASKED = "SELECT count(DISTINCT n), (SELECT count(DISTINCT n) FROM feature) FROM feature JOIN usual USING (routing)"


def ask(index: Index, counts: Counts, *, witnesses: int) -> Iterator[AuditFinding]:
    """One finding for each check unlike at least so many *witnesses*, each another account."""
    index.ask(_FEATURES)
    index.ask(_USUAL, witnesses)
    ((asked, readable),) = index.ask(_ASKED)
    counts.asked["layout-unlike-its-bank"] += asked
    counts.unread["layout-unlike-its-bank"][_FEW] += readable - asked
    ways: dict[tuple[int, int], list[Unlike]] = {}
    for number, routing, *way in index.ask(_UNLIKE):
        ways.setdefault((number, routing), []).append(Unlike(*way))
    for (number, routing), unlike in ways.items():
        message = layout_unlike_its_bank(f"{routing:09d}", unlike)
        yield counts.add(found("layout-unlike-its-bank", message, index.places([number])))
