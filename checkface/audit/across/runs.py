"""Runs: one check number or one amount on the checks of many accounts, or one account's numbers without a gap.

Large files hold chance meetings: every bank has its check 1001, and round amounts are common. So a run at one bank must
also be four times what the other banks' checks in the same file lead to expect, and more than chance brings about among
so many banks and values: by the Poisson distribution, one such run in a hundred files at most. Where the other banks
have too few checks to tell that a value is rarer with them, nobody can say; nor whether numbers in a row are of one
day, if the checks carry no day.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from datetime import date
from math import exp, lgamma, log
from typing import NamedTuple

from checkface import digits, masking
from checkface.amounts import money
from checkface.audit.across.book import rule
from checkface.audit.across.found import AuditFinding, Counts, Place, found, listed
from checkface.audit.across.index import Index
from checkface.findings import Effect

#: So many times what is usual at the other banks.
LIFT = 4
#: So many checks elsewhere should have a value as common as in its run before their having none says that it is rare
#: there: by chance none of three has it once in twenty times.
TELLING = 3
#: Runs by chance alone that a file may have, on average.
CHANCE = 0.01


class Run(NamedTuple):
    """One run: what it is of, how many accounts or numbers it has, and from how many on it is named."""

    words: str
    size: int
    least: int
    places: Sequence[Place]


@rule("counterfeit-run", Effect.REFER, by="common-practice", needs="routing number, account, check number or amount")
def counterfeit_run(run: Run) -> str:
    """Many checks look as if they were made from one.

    What it asks: At one bank, is no check number and no amount on the checks of unusually many accounts; and on one
        account, are there not unusually many check numbers without a gap on one day?
    Why it matters: Whoever prints checks changes what must differ and leaves the rest: one number on many accounts, one
        amount, or a stack of numbers spent at once.
    Example: Six checks over $487.33 on six accounts of one bank, where other banks have none.
    What to do: Lay the images side by side. A payday explains a run of one employer; ask the bank about any other.
    """
    return f"{run.words} ({run.least} or more are named): {listed(run.places)}."


_SAME = """
WITH asked AS (
  SELECT n, routing, account, {field} AS value FROM item
  WHERE routing IS NOT NULL AND account IS NOT NULL AND {field} IS NOT NULL),
bank AS (SELECT routing, count(*) AS checks FROM asked GROUP BY routing),
everywhere AS (SELECT value, count(*) AS checks FROM asked GROUP BY value),
run AS (
  SELECT routing, value, count(DISTINCT account) AS accounts, count(*) AS checks, list(n) AS numbers
  FROM asked GROUP BY routing, value HAVING count(DISTINCT account) >= ?)
SELECT run.routing, run.value, run.accounts, run.numbers, everywhere.checks - run.checks, bank.checks,
  (SELECT count(*) FROM asked) - bank.checks, (SELECT count(*) FROM bank) * (SELECT count(*) FROM everywhere)
FROM run JOIN bank USING (routing) JOIN everywhere ON everywhere.value = run.value
"""
_IN_A_ROW = """
WITH numbered AS (
  SELECT DISTINCT routing, account, day, serial, try_cast(serial AS HUGEINT) AS value FROM item
  WHERE routing IS NOT NULL AND account IS NOT NULL AND serial IS NOT NULL),
placed AS (
  SELECT *, value - row_number() OVER (PARTITION BY routing, account, day ORDER BY value) AS island
  FROM numbered WHERE value IS NOT NULL),
run AS (
  SELECT routing, account, day, island, min(value) AS first, max(value) AS last, count(*) AS size
  FROM placed GROUP BY routing, account, day, island HAVING count(*) >= ?)
SELECT run.routing, run.day, run.first, run.last, run.size, count(DISTINCT item.payee), list(item.n)
FROM run JOIN placed ON placed.routing = run.routing AND placed.account = run.account
  AND placed.island = run.island AND placed.day IS NOT DISTINCT FROM run.day
JOIN item
  ON item.routing = placed.routing AND item.account = placed.account AND item.serial = placed.serial
  AND item.day IS NOT DISTINCT FROM placed.day
GROUP BY run.routing, run.account, run.day, run.first, run.last, run.size
"""


def ask(index: Index, counts: Counts, *, accounts: int, sequence: int) -> Iterator[AuditFinding]:
    """One finding for each run of at least so many *accounts*, or of a *sequence* of so many numbers."""
    unasked: _Unasked = defaultdict(set)
    for run in (
        *_same(index, "serial", accounts, unasked),
        *_same(index, "amount", accounts, unasked),
        *_in_a_row(index, sequence, unasked),
    ):
        yield counts.add(found("counterfeit-run", counterfeit_run(run), run.places))
    for reason, numbers in unasked.items():
        counts.unread["counterfeit-run"][reason] += len(numbers)
    counts.asked["counterfeit-run"] -= len(set().union(*unasked.values()))


#: By reason, the checks that look like a run of which nobody can say whether it is one.
_Unasked = defaultdict[str, set[int]]
_ALONE = "too few checks of other banks are in the file to compare with"
_DAYLESS = "they carry no day (counter.on), and numbers without a gap may be of several"


def _same(index: Index, field: str, least: int, unasked: _Unasked) -> Iterator[Run]:
    for routing, value, size, numbers, alike, here, elsewhere, trials in index.ask(_SAME.format(field=field), least):
        if not alike and elsewhere * len(numbers) < TELLING * here:
            unasked[_ALONE].update(numbers)
            continue
        usual = alike * here / elsewhere
        if size < LIFT * usual or _at_least(size, usual) * trials > CHANCE:
            continue
        named = f"The amount {money(value)}" if field == "amount" else f"Check number {digits.hide(value, 'serial')}"
        words = f"{named} on the checks of {size} accounts of routing number {routing:09d}"
        yield Run(words, size, least, index.places(numbers))


def _in_a_row(index: Index, least: int, unasked: _Unasked) -> Iterator[Run]:
    for routing, day, first, last, size, payees, numbers in index.ask(_IN_A_ROW, least):
        if day is None:
            unasked[_DAYLESS].update(numbers)
            continue
        account = masking.number(index.account(numbers[0]))
        to = f" to {payees} payees" if payees > 1 else ""
        first, last = digits.hide(str(first), "serial"), digits.hide(str(last), "serial")
        words = f"Checks {first} to {last}, {size} without a gap, of account {account} of routing number {routing:09d}"
        yield Run(f"{words}{to} on {date.fromordinal(day)}", size, least, index.places(numbers))


def _at_least(number: int, mean: float) -> float:
    """How likely a Poisson variable of this *mean* is to be *number* or more; *number* is above the mean.

    >>> round(_at_least(5, 0.34), 6)
    2.9e-05
    """
    if mean == 0:
        return 0.0
    term = total = exp(number * log(mean) - mean - lgamma(number + 1))
    while term > total * 1e-12:
        number += 1
        term *= mean / number
        total += term
    return total
