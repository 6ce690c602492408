"""Who issues identification cards: states by numeric or letter code, and card issuers by their number.

A clerk keys a state by its two-digit numeric code (INCITS 38, formerly FIPS 5-2: 48 is Texas) or its
letters. A card names its issuer by a six-digit issuer identification number (ISO/IEC 7812) published by
AAMVA.

>>> find_place("48").name, find_place("tx").name, find_place("Ontario").code
('Texas', 'Texas', 'ON')
>>> find_place("43") is None    # reserved in FIPS 5-1 for Puerto Rico, which is 72
True
>>> issuer_of("636000").code
'VA'
>>> issuer_of("411111") is None
True
"""

from functools import cache
from typing import NamedTuple

from checkface import tables


class Place(NamedTuple):
    """A jurisdiction that issues cards.

    ``code`` is its letters (``"TX"``; empty for the Department of State), ``country`` the three letters on
    its cards. ``confirmed`` is False where no published list names it, so that nothing may rest on it
    alone.
    """

    code: str
    name: str
    country: str
    confirmed: bool = True


def find_place(text: str) -> Place | None:
    """The jurisdiction with this numeric code, letter code or full name; None if it is none of them."""
    word = text.strip().upper() if len(text) < 60 else ""
    return _places().get(word.zfill(2) if word.isascii() and word.isdigit() else word)


def issuer_of(number: str) -> Place | None:
    """The jurisdiction whose cards carry this six-digit issuer number; None if it is in no table."""
    return _issuers().get(number)


def issuers_near(five: str) -> set[Place]:
    """The jurisdictions whose issuer number gives these five digits when one digit is left out."""
    return {
        place
        for number, place in _issuers().items()
        if any(number[:at] + number[at + 1 :] == five for at in range(len(number)))
    }


@cache
def _issuers() -> dict[str, Place]:
    rows = tables.load("aamva_issuers").rows
    return {row["iin"]: Place(row["code"], row["name"], row["country"], "memory" not in row["source"]) for row in rows}


@cache
def _places() -> dict[str, Place]:
    places = {}
    for place in _issuers().values():
        if place.code and place.confirmed:
            places[place.code] = places[place.name.upper()] = place
    for row in tables.load("us_states").rows:
        if row["kind"] in {"state", "district", "territory", "freely-associated-state"}:
            place = Place(row["alpha"], row["name"], "USA")
            places[row["fips"]] = places[row["alpha"]] = places[row["name"].upper()] = place
    return places
