"""Sums that somebody declared, such as the tapes of the lanes, against the items of the file.

A declaration is ``kept=1234.50``, ``kept@7=1234.50`` for store 7, ``kept@7/3=1234.50`` for its lane 3 and
``kept@/3=1234.50`` for every lane called 3; ``converted`` and ``returned`` likewise. A count is declared in the same
way, with a number of checks instead of dollars.

>>> declared("kept@7/3=1,234.50")
Declared(way='kept', store='7', lane='3', cents=123450, checks=None)
>>> declared("kept=12", is_count=True).checks
12
>>> declared("kep=12")
Traceback (most recent call last):
ValueError: Expected kept, converted or returned, read 'kep'
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache
from typing import NamedTuple

from pydantic import TypeAdapter, ValidationError

from checkface import digits
from checkface.amounts import money
from checkface.audit.across.book import rule
from checkface.findings import Effect
from checkface.mistakes import quoted
from checkface.tender import Cents

_CALLED = {"cents": "total", "checks": "count"}
WAYS = ("kept", "converted", "returned")
_FORM = re.compile(r"(?P<way>[^@=]*)(?:@(?P<store>[^/=]*)(?:/(?P<lane>[^=]*))?)?=(?P<value>[^=]*)")


def plain(name: str) -> str:
    """A store or lane for comparing: a number without the zeros before it."""
    name = name.strip()
    return name.lstrip("0") or "0" if name.isascii() and name.isdigit() else name


class Declared(NamedTuple):
    """What somebody says: the checks of one ``way``, of one store and lane or of all (empty), and their sum."""

    way: str
    store: str
    lane: str
    cents: int | None
    checks: int | None

    @property
    def scope(self) -> str:
        """``kept``, ``kept in store 7, lane 3``."""
        return f"{self.way} in {self.where}" if self.where else self.way

    @property
    def where(self) -> str:
        """``store 7, lane 3``; a number too long for either is masked."""
        parts = (("store", self.store), ("lane", self.lane))
        return ", ".join(f"{what} {digits.hide(name, 'counter')}" for what, name in parts if name)


def declared(text: str, *, is_count: bool = False) -> Declared:
    """The declaration in *text*. Raises ``ValueError`` with what was expected and what was read."""
    form = _FORM.fullmatch(text.strip())
    if form is None:
        raise ValueError(f"Expected {'kept=12' if is_count else 'kept=1234.50'} or the like, read {quoted(text)}")
    way = form["way"].strip()
    if way not in WAYS:
        raise ValueError(f"Expected kept, converted or returned, read {quoted(way)}")
    value = form["value"].strip()
    store, lane = ((form[name] or "").strip() for name in ("store", "lane"))
    if is_count:
        if not re.fullmatch("[0-9]{1,9}", value, re.ASCII):
            raise ValueError(f"Expected a number of checks, read {quoted(value)}")
        return Declared(way, store, lane, None, int(value))
    try:
        cents = _money().validate_python(value)
    except ValidationError:
        cents = None
    if cents is None:
        raise ValueError(f"Expected dollars such as 1234.50, read {quoted(value)}")
    return Declared(way, store, lane, cents, None)


@cache
def _money() -> TypeAdapter[int | None]:
    """Reads dollars as a tender does; made when a declaration is first read, since that takes a while."""
    return TypeAdapter(Cents)


def together(declarations: Iterable[Declared]) -> list[Declared]:
    """Sum and count of one scope made one. Raises ``ValueError`` where one of them is declared twice."""
    every: dict[tuple[str, str, str], Declared] = {}
    for one in declarations:
        scope = (one.way, plain(one.store), plain(one.lane))
        before = every.setdefault(scope, one)
        if before is one:
            continue
        for what in ("cents", "checks"):
            value = getattr(one, what)
            if value is not None:
                if getattr(before, what) is not None:
                    raise ValueError(f"Expected one {_CALLED[what]} of {one.scope}, read another")
                every[scope] = before = before._replace(**{what: value})
    return list(every.values())


@rule("totals-disagree", Effect.REFER, by="common-practice", needs="what the lane did (taken_as), the amount")
def totals_disagree(said: Declared, checks: int, cents: int, why: str) -> str | None:
    """A declared sum is not the sum of the items.

    What it asks: Do the checks of the file add up, to the cent and by number, to what was declared for them?
    Why it matters: The tape, the deposit and the file speak of the same checks. A difference is a check that one of
        them lacks, has twice, or has with another amount.
    Example: Kept checks of $1,234.50 were declared; those of the file make $1,214.51, and one over $19.99 was recorded
        as converted.
    What to do: Begin with the check named, if there is one; else go through the checks of the lane one by one.
    """
    parts = []
    if said.cents is not None and said.cents != cents:
        side = "more" if said.cents > cents else "less"
        parts.append(
            f"declared {money(said.cents)}, the {_items(checks)} of the file make {money(cents)}: "
            f"{money(abs(said.cents - cents))} {side} declared"
        )
    if said.checks is not None and said.checks != checks:
        parts.append(f"declared {_items(said.checks)}, the file has {checks}")
    if not parts:
        return None
    return f"{said.scope.capitalize()}: {'; '.join(parts)}. {why}".rstrip()


def _items(number: int) -> str:
    return f"{number} check{'s' * (number != 1)}"
