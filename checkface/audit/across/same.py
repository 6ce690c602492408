"""One paper seen twice: the same routing number, account and check number on several items."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from checkface.amounts import money
from checkface.audit.across.book import rule
from checkface.audit.across.found import AuditFinding, Counts, Place, found, listed
from checkface.audit.across.index import Index
from checkface.findings import Effect

_NEEDS = "routing number, account, check number"


@rule("same-item-twice", Effect.REFER, by="common-practice nacha-single-use", needs=_NEEDS)
def same_item_twice(places: Sequence[Place], amounts: set[int]) -> str:
    """One check stands in the file more than once.

    What it asks: Do routing number, account and check number together occur once, but for checks handed back untaken?
    Why it matters: A check is paid once. Two records of it become two debits, or a debit and a deposit; or one of two
        papers with the same numbers is a copy.
    Example: The last check of the morning file is the first of the afternoon file.
    What to do: Look for the paper. One paper: strike one record before it is sent. Two papers: stop both.
    """
    if len(amounts) > 1:
        shown = sorted(amounts)
        amount = f", with different amounts: {', '.join(map(money, shown[:4]))}{', ...' if len(shown) > 4 else ''}"
    else:
        amount = "".join(f", with the same amount of {money(cents)}" for cents in amounts)
    return f"The same routing number, account and check number {_times(len(places))}{amount}: {listed(places)}."


@rule("same-item-converted-and-kept", Effect.REFER, by="nacha-single-use", needs=f"{_NEEDS}, what the lane did")
def same_item_converted_and_kept(converted: Sequence[Place], kept: Sequence[Place]) -> str:
    """One check was converted, and kept as well.

    What it asks: Of the items with one routing number, account and check number, was none converted while another was
        kept?
    Why it matters: The debit takes the amount, and the deposit of the paper takes it again.
    Example: The debit went out, the printer jammed before it printed the void, and the clerk kept the check instead.
    What to do: Take the paper out of the deposit, or have the debit reversed; never leave both.
    """
    return f"One check converted and kept, to be paid twice: converted at {listed(converted)}, kept at {listed(kept)}."


_QUERY = """
SELECT list(n ORDER BY n), list(taken ORDER BY n), list(amount ORDER BY n) FROM item
WHERE taken IS DISTINCT FROM 'returned' AND routing IS NOT NULL AND account IS NOT NULL AND serial IS NOT NULL
GROUP BY routing, account, serial HAVING count(*) > 1
"""


def ask(index: Index, counts: Counts) -> Iterator[AuditFinding]:
    """What both rules find."""
    for numbers, ways, cents in index.ask(_QUERY):
        places = index.places(numbers)
        converted, kept = ([p for p, way in zip(places, ways, strict=True) if way == wanted] for wanted in _WAYS)
        if converted and kept:
            message = same_item_converted_and_kept(converted, kept)
            yield counts.add(found("same-item-converted-and-kept", message, [*converted, *kept]))
        # One converted and one kept are named by the rule above already; a third sight is more than that.
        if len(places) > 1 + bool(converted and kept):
            yield counts.add(found("same-item-twice", same_item_twice(places, set(cents) - {None}), places))


_WAYS = ("converted", "kept")


def _times(number: int) -> str:
    return "twice" if number == 2 else f"{number} times"
