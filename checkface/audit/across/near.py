"""Two papers that differ by one digit: most likely one paper, captured twice or misread once.

Of two such checks, two of the three numbers and the amount agree, so DuckDB finds the few blocks in which a pair can
be. Within a block every number is filed under itself with one digit left open, and with two neighbours in order:
whatever differs by one digit or by one exchange meets there, without every number being held against every other.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations
from typing import NamedTuple

from checkface import digits, masking
from checkface.amounts import money
from checkface.audit.across.book import rule
from checkface.audit.across.found import AuditFinding, Counts, Place, found, listed
from checkface.audit.across.index import Index
from checkface.findings import Effect

#: Field to the words for it, and to the columns on which it is grouped.
_FIELDS = {
    "serial": ("check number", "routing, account"),
    "account": ("account number", "routing, serial"),
    "routing": ("routing number", "account, serial"),
}


class Pair(NamedTuple):
    """Two checks, by number, and how the one field that differs reads on each."""

    first: int
    second: int
    field: str
    one: str
    other: str


@rule(
    "near-duplicate", Effect.REFER, by="common-practice nacha-single-use",
    needs="routing number, account, check number, amount",
)  # fmt: skip
def near_duplicate(pair: Pair, amount: int, places: Sequence[Place]) -> str:
    """Two checks differ in one digit only: one paper captured twice, or one misread.

    What it asks: Is there no other check of the same amount, and not of another date, whose routing number, account and
        check number are the same but for one digit, or for two neighbouring digits exchanged?
    Why it matters: A reader that takes a 3 for an 8 makes a new check of the same paper, and no search for equal
        numbers finds it. Both would be sent for payment.
    Example: Checks 1043 and 1048 of one account, both over $45.10 and of one day.
    What to do: Look at both images. One paper: strike the record that is misread. Two: note that both were seen.
    """
    words, _ = _FIELDS[pair.field]
    width = max(len(pair.one), len(pair.other))
    one, other = pair.one.zfill(width), pair.other.zfill(width)
    at = [place + 1 for place in range(width) if one[place] != other[place]]
    differing = f"digit {at[0]}" if len(at) == 1 else f"the order of digits {at[0]} and {at[1]}"
    shown = sorted((pair.one, pair.other), key=lambda text: (len(text), text))
    if pair.field == "account":
        shown = sorted(map(masking.number, shown))
    elif pair.field == "serial":
        shown = [digits.hide(each, "serial") for each in shown]
    row = ", or two checks in a row" if pair.field == "serial" and abs(int(one) - int(other)) == 1 else ""
    return (
        f"Only {differing} of the {words} differs, {' and '.join(shown)}, both for {money(amount)}: "
        f"perhaps one paper captured twice{row} ({listed(places)})."
    )


def near_duplicates(amount: int, places: Sequence[Place]) -> str:
    """More than two numbers, each alike to another."""
    return (
        f"{len(places)} checks for {money(amount)}, each one digit from another: "
        f"perhaps one paper captured again and again, or a run of copies ({listed(places)})."
    )


_NODES = """
CREATE OR REPLACE TEMP TABLE node AS
SELECT min(n) AS n, routing, account, serial, amount, written FROM item
WHERE taken IS DISTINCT FROM 'returned' AND routing IS NOT NULL AND account IS NOT NULL AND serial IS NOT NULL
  AND amount IS NOT NULL
GROUP BY routing, account, serial, amount, written
"""
_MEMBERS = """
SELECT node.n, item.n, item.amount FROM node JOIN item USING (routing, account, serial, amount)
WHERE item.taken IS DISTINCT FROM 'returned' AND item.written IS NOT DISTINCT FROM node.written
  AND node.n IN (SELECT unnest(?::UINTEGER[]))
"""


def ask(index: Index, counts: Counts) -> Iterator[AuditFinding]:
    """One finding for each set of checks that are joined by one digit at a time."""
    index.ask(_NODES)
    joined = _Joined()
    for field in _FIELDS:
        for pair in _pairs(index, field):
            joined.add(pair)
    members: defaultdict[int, list[int]] = defaultdict(list)
    amounts: dict[int, int] = {}
    for node, number, amount in index.ask(_MEMBERS, list(joined)):
        top = joined.top(node)
        members[top].append(number)
        amounts[top] = amount
    for top, numbers in members.items():
        places = index.places(numbers)
        only = joined.only(top)
        message = near_duplicate(only, amounts[top], places) if only else near_duplicates(amounts[top], places)
        yield counts.add(found("near-duplicate", message, places))


class _Joined:
    """Checks that pairs join, however many steps apart; of each set its one pair, or that there are more."""

    def __init__(self) -> None:
        self._above: dict[int, int] = {}
        self._pair: dict[int, Pair | None] = {}

    def __iter__(self) -> Iterator[int]:
        return iter(self._above)

    def top(self, number: int) -> int:
        """The one check that stands for all that *number* is joined to."""
        above = self._above
        while above[number] != number:
            above[number] = above[above[number]]
            number = above[number]
        return number

    def only(self, top: int) -> Pair | None:
        """The pair that is the whole set of *top*."""
        return self._pair[top]

    def add(self, pair: Pair) -> None:
        """Join the two checks of *pair*."""
        is_new = pair.first not in self._above and pair.second not in self._above
        one, other = (self.top(self._above.setdefault(number, number)) for number in pair[:2])
        self._above[one] = other
        self._pair.pop(one, None)
        self._pair[other] = pair if is_new else None


def _pairs(index: Index, field: str) -> Iterator[Pair]:
    """All pairs of checks in which only *field* differs, by one digit or one exchange."""
    on = _FIELDS[field][1]
    blocks = index.ask(
        f"SELECT list(n), list({field}), list(written) FROM node "  # noqa: S608 - names of columns
        f"GROUP BY {on}, amount HAVING count(DISTINCT {field}) > 1"
    )
    for numbers, values, days in blocks:
        read = [_text(index, field, number, value) for number, value in zip(numbers, values, strict=True)]
        width = max(map(len, read)) if field == "serial" else 0
        nodes: defaultdict[str, list[tuple[int, int | None]]] = defaultdict(list)
        for number, text, day in zip(numbers, read, days, strict=True):
            nodes[text.zfill(width)].append((number, day))
        for one, other in neighbours(nodes):
            for first, day in nodes[one]:
                for second, another in nodes[other]:
                    if day is None or another is None or day == another:
                        shown = [text.lstrip("0") if width else text for text in (one, other)]
                        yield Pair(first, second, field, *shown)


def _text(index: Index, field: str, number: int, value: int | str) -> str:
    return index.account(number) if field == "account" else f"{value:09d}" if field == "routing" else str(value)


def neighbours(texts: Iterable[str]) -> Iterator[tuple[str, str]]:
    """All pairs of *texts* that differ in one character, or in the order of two that stand side by side.

    >>> sorted(neighbours(["1043", "1048", "1034", "1084", "143"]))
    [('1034', '1084'), ('1043', '1034'), ('1043', '1048'), ('1048', '1084')]
    """
    every = list(texts)
    for place in range(max(map(len, every), default=0)):
        # One place at a time: all of them together would take ten times the memory.
        filed: defaultdict[tuple[str, str, str], list[str]] = defaultdict(list)
        for text in every:
            left, here, right = text[:place], text[place : place + 1], text[place + 1 :]
            if here:
                filed[left, "?", right].append(text)
            if right and here != right[0]:
                filed[left, min(here + right[0], right[0] + here), right[1:]].append(text)
        for together in filed.values():
            yield from combinations(together, 2)
