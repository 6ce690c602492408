"""Where a rule comes from, and with what force.

Five forces, strongest first. A house may raise what any rule does, but may lower only ``house`` and ``practice``
rules: nobody configures a law away, and a counter habit never wears the dress of a law. ``basis`` says how the
text was known when the entry was written: ``text`` (the provision itself), ``public summary`` (a published account
of rules whose book is sold, not printed openly) or ``memory`` (not confirmed; such an authority may make an answer
stricter, never milder). Source of the entries: ``data/authorities.toml``.

>>> get("ucc-3-114").citation
'UCC 3-114'
>>> get("ucc-3-114").force
<Force.LAW: 'law'>
"""

from collections.abc import Mapping
from enum import StrEnum
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from checkface import tables


class Force(StrEnum):
    """With what weight an authority binds the counter."""

    LAW = "law"
    NETWORK = "network"
    STANDARD = "standard"
    HOUSE = "house"
    PRACTICE = "practice"


#: The forces a house policy may lower; the others it can only raise.
LOWERABLE = frozenset({Force.HOUSE, Force.PRACTICE})

BASES = ("text", "public summary", "memory")


class Authority(NamedTuple):
    """One provision: ``citation`` is how a lawyer would cite it, ``title`` what it says in our words."""

    id: str
    citation: str
    title: str
    edition: str
    force: Force
    basis: str


def get(identifier: str) -> Authority:
    """The authority called *identifier*. Raises ``KeyError`` for a name that is not in the table."""
    return catalogue()[identifier]


@cache
def catalogue() -> Mapping[str, Authority]:
    """Every authority by id, in the order of the table. Raises :class:`tables.TableError` for a broken entry."""
    entries = tables.load("authorities").data
    return MappingProxyType({key: _entry(key, value) for key, value in entries["authority"].items()})


def _entry(key: str, value: Mapping[str, str]) -> Authority:
    try:
        force, basis = Force(value["force"]), value["basis"]
        entry = Authority(key, value["citation"], value["title"], value["edition"], force, basis)
    except (KeyError, ValueError) as error:
        wanted = "citation, title, edition, force and basis"
        raise tables.TableError(f"Table authorities, entry {key}: expected {wanted}, read {error}.") from error
    if basis not in BASES:
        wanted = ", ".join(BASES)
        raise tables.TableError(f"Table authorities, entry {key}: expected a basis of {wanted}, read {basis!r}.")
    return entry
