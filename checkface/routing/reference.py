"""What the tables say of the first two digits, of whole numbers and of the prefix of a fraction.

Each table becomes one dictionary at its first use. A row that rests on memory alone is marked
``confirmed=False``; a caller may let it make an answer stricter, never milder.

>>> series()["21"], series()["99"].name
(Series(name='thrift', district=1, on_paper=True), 'unassigned')
>>> owners()["000000204"].kind, owners().get("011394776")
('postal-money-order', None)
>>> prefixes()["53"].states, prefixes().get("100")
(('MA',), None)
"""

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from checkface import tables


class Series(NamedTuple):
    """The series that the first two digits name, its Federal Reserve district, and whether checks carry it."""

    name: str
    district: int | None
    on_paper: bool


class Owner(NamedTuple):
    """Whose number this is, for the numbers of the Federal Reserve, the Treasury and the Postal Service."""

    entity: str
    kind: str
    confirmed: bool


class Prefix(NamedTuple):
    """The prefix of a fraction: a city (1-49), a state (50-99) or the territories (101)."""

    number: str
    place: str
    states: tuple[str, ...]
    districts: tuple[int, ...]
    confirmed: bool


@cache
def series() -> Mapping[str, Series]:
    """First two digits to their series: 12 CFR 229 Appendix A paragraph B."""
    found: dict[str, Series] = {}
    for row in tables.load("routing_prefix").rows:
        first, _, last = row["range"].partition("-")
        district = int(row["district"]) if row["district"] else None
        for value in range(int(first), int(last or first) + 1):
            found[f"{value:02}"] = Series(row["series"], district, row["on_paper"] == "yes")
    return found


@cache
def owners() -> Mapping[str, Owner]:
    """Nine digits to their federal owner."""
    return {
        row["routing"]: Owner(row["entity"], row["kind"], "memory" not in row["source"])
        for row in tables.load("government_routing").rows
    }


@cache
def prefixes() -> Mapping[str, Prefix]:
    """Prefix of the fraction, without leading zeros, to its place."""
    return {
        row["prefix"]: Prefix(
            row["prefix"],
            row["place"],
            tuple(row["states"].split("|")),
            tuple(map(int, row["districts"].split("|"))),
            "memory" not in row["source"],
        )
        for row in tables.load("aba_prefix").rows
    }
