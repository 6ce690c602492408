"""People, shops, banks and numbers that belong to nobody: all that may stand on a drawn face.

Official sources: ``data/specimen_papers.toml``, ``data/kinds.toml`` and ``data/specimen_routing.csv``. The account is
worked out from the rest of the line, so that no account anybody has given can come out of here.

>>> is_drawable("071098973"), is_drawable("071098974"), is_drawable("111000025")
(True, True, False)
>>> stream("071098973 1043", 8) == stream("071098973 1043", 12)[:8]
True
"""

from __future__ import annotations

import random
import re
from collections.abc import Iterator, Mapping
from functools import cache
from itertools import count
from typing import NamedTuple

from checkface import routing, tables
from checkface.kinds import Kind, Specimen
from checkface.patterns import lazily


class Bank(NamedTuple):
    """A bank that does not exist: its routing number and fraction, and the letters of its state."""

    routing: str
    fraction: str
    state: str


class Paper(NamedTuple):
    """One kind of paper as it is printed: how it is made up, and its size in thousandths of an inch."""

    kind: Kind
    width: int
    height: int
    made: Specimen


@cache
def banks() -> tuple[Bank, ...]:
    """Every specimen bank, in the order of the table."""
    rows = tables.load("specimen_routing").rows
    return tuple(Bank(row["routing"], row["fraction"], row["state"]) for row in rows)


@cache
def papers() -> Mapping[str, Paper]:
    """Every paper there is, by kind."""
    sizes = tables.load("specimen_papers").data["size"]
    return {kind: _paper(kind, made, sizes[made.size]) for kind in Kind if (made := kind.row.specimen) is not None}


def _paper(kind: Kind, made: Specimen, size: Mapping[str, int]) -> Paper:
    return Paper(kind, size["width"], size["height"], made)


def names(group: str) -> list[str]:
    """The invented names of a *group*: given, family, streets, places, firms, banks, officers or others."""
    return list(tables.load("specimen_papers").data["names"][group])


def house() -> str:
    """The shop to which specimens are made out where the house has given no name of its own."""
    return str(tables.load("specimen_papers").data["names"]["house"])


def dice(key: object) -> random.Random:
    """Dice that fall alike for the same *key*."""
    return random.Random(str(key))  # noqa: S311 - nothing secret hangs on them


def person(dice: random.Random) -> str:
    """A name that is nobody's."""
    return f"{dice.choice(names('given'))} {dice.choice(names('family'))}"


def address(dice: random.Random, state: str) -> list[str]:
    """Street and town, in two lines."""
    return [f"{dice.randint(1, 999)} {dice.choice(names('streets'))}", f"{dice.choice(names('places'))}, {state}"]


def stream(key: str, length: int) -> str:
    """*length* digits that hang on *key* alone; the first is never zero."""
    import hashlib  # only who draws needs it

    digits: list[str] = []
    for number in count():
        digits += str(int(hashlib.sha256(f"{key} {number}".encode()).hexdigest(), 16))
        if len(digits) >= length:
            break
    return ("4" if length and digits[0] == "0" else digits[0]) + "".join(digits[1:length]) if length else ""


@cache
def special() -> frozenset[str]:
    """Routing numbers besides the specimens that may be drawn: no customer's bank stands behind them."""
    return frozenset(tables.load("specimen_papers").data["special"])


@cache
def _specimens() -> frozenset[str]:
    return frozenset(bank.routing for bank in banks())


@cache
def _slips(number: str) -> frozenset[str]:
    """*number* after one slip of the hand: a digit replaced, lost, or exchanged with its neighbour."""
    found = {number[:at] + number[at + 1 :] for at in range(len(number))}
    found |= {number[:at] + digit + number[at + 1 :] for at in range(len(number)) for digit in "0123456789"}
    found |= {number[:at] + number[at + 1] + number[at] + number[at + 2 :] for at in range(len(number) - 1)}
    return frozenset(found)


@cache
def _spoilt() -> frozenset[str]:
    """Specimens after one slip, as far as the slip shows: a sum that still holds might be somebody's number."""
    slips = {slip for number in _specimens() for slip in _slips(number)}
    return frozenset(slip for slip in slips if len(slip) != 9 or not routing.describe(slip).checksum)


def is_drawable(number: str) -> bool:
    """Whether digits between the transit symbols may be drawn: a specimen, one spoilt by a slip, or a special number.

    ``?`` stands for an unread digit and must leave a specimen possible; ``dddd-dddd`` is the old form.
    """
    if number in _specimens() or number in special() or number in _spoilt():
        return True
    if "-" in number:
        return number.replace("-", "") in {known[:8] for known in _specimens()} and len(number) == 9
    if "?" in number:
        pattern = lazily(re.escape(number).replace(r"\?", "[0-9]"))
        return any(pattern.fullmatch(known) for known in _specimens())
    return False


@cache
def drawable_eights() -> frozenset[str]:
    """The first eight digits that a drawn fraction may stand for."""
    eights = {bank.routing[:8] for bank in banks()}
    return frozenset(slip for eight in eights for slip in _slips(eight) if len(slip) == 8)


@cache
def lines_of_ours() -> re.Pattern[str]:
    """What one printed line of a name or an address may be; anything else is not ours and is replaced."""

    def one_of(texts: Iterator[str] | list[str]) -> str:
        return "(?:" + "|".join(re.escape(text) for text in texts) + ")"

    who = f"{one_of(names('given'))} (?:[A-Z]\\.? )?{one_of(names('family'))}"
    groups = ("firms", "banks", "officers", "others", "lookalikes", "doubtful", "obligors")
    given = [text for group in groups for text in names(group)]
    wording = [text for paper in papers().values() for text in paper.made.legends]
    place = f"{one_of(names('places'))},? [A-Z]{{2}}"
    return re.compile(
        f"{who}(?: (?:and|or) {who}|, Trustee)?|[0-9]{{1,3}} {one_of(names('streets'))}|{place}"
        f"|{one_of([house(), *given, *wording])}|cash",
        re.IGNORECASE,
    )
