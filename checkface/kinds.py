"""The kinds of paper a counter is handed: a row of ``data/kinds.toml`` each, closed by default.

A kind that no row calls convertible is kept. Sources: UCC 3-104, 3-409; 12 CFR 229.2; 12 USC 5002, 5003; the authority
of each row.

>>> Kind("cashiers-check").row.convertible
'never'
>>> Kind("personal").row.convertible
'yes'
>>> Kind("barter")
Traceback (most recent call last):
ValueError: 'barter' is not a valid Kind
"""

from collections.abc import Callable
from enum import StrEnum
from functools import cached_property
from typing import TYPE_CHECKING, Any, Literal, NamedTuple, get_args

from checkface import tables

Convertible = Literal["never", "house", "yes"]
Term = Literal["account", "own", "line", "state"]


class Specimen(NamedTuple):
    """How a specimen of a kind is made up and drawn; see the head of ``kinds.toml``."""

    size: str
    line: str
    drawer: str
    drawee: str
    legends: tuple[str, ...]
    routing: str
    serial: tuple[int, int]
    payer: str
    two_signatures: bool


class Row(NamedTuple):
    """What the table says of one kind. ``pages`` are the title and the headed texts of its rule in the book.

    ``rule`` is empty where no rule bars the kind; ``effect`` is that rule's. ``denominations`` are whole dollars.
    ``term`` is ``account`` where the six months of UCC 4-404 hold.
    """

    name: str
    also: tuple[str, ...]
    rule: str
    pages: dict[str, str]
    authority: tuple[str, ...]
    effect: str
    convertible: Convertible
    paid_to: Literal["house", "customer"]
    drawer: bool
    term: Term
    fill: bool
    denominations: tuple[int, ...]
    specimen: Specimen | None


def _specimen(given: dict[str, Any]) -> Specimen:
    return Specimen(
        given["size"],
        given["line"],
        given["drawer"],
        given["drawee"],
        tuple(given.get("legends", ())),
        given.get("routing", ""),
        (given["serial"][0], given["serial"][1]),
        given.get("payer", ""),
        given.get("two_signatures", False),
    )


def row_of(given: dict[str, Any]) -> Row:
    """The row that the mapping *given* states. Raises :class:`~checkface.tables.TableError` for one that does not say
    what a kind without leave to convert must say: its rule and that rule's pages, effect and authority."""
    convertible = given.get("convertible", "never")
    paid_to = given.get("paid_to", "house")
    needed = ["id", "name"] + (
        [] if convertible == "yes" else ["rule", "title", "asks", "why", "example", "do", "authority", "effect"]
    )
    missing = [key for key in needed if not given.get(key)]
    term = given.get("term", "account")
    known = convertible in get_args(Convertible) and paid_to in ("house", "customer") and term in get_args(Term)
    if missing or not known:
        wrong = ", ".join(missing) or f"convertible {convertible!r}, paid_to {paid_to!r}, term {term!r}"
        raise tables.TableError(
            f"kinds: Expected a whole row for {given.get('id', 'a kind')!r}, missing or wrong: {wrong}"
        )
    return Row(
        given["name"],
        tuple(given.get("also", ())),
        given.get("rule", ""),
        {key: given.get(key, "") for key in ("title", "asks", "why", "example", "do")},
        tuple(given.get("authority", ())),
        given.get("effect", ""),
        convertible,
        paid_to,
        given.get("drawer", True),
        term,
        given.get("fill", True),
        tuple(given.get("denominations", ())),
        _specimen(given["specimen"]) if "specimen" in given else None,
    )


_ROWS = {given["id"]: row_of(given) for given in tables.load("kinds").data["kind"]}


class _Named(StrEnum):
    @cached_property
    def row(self) -> Row:
        """What the table says of this kind."""
        return _ROWS[self.value]


if TYPE_CHECKING:

    class Kind(_Named):
        """One kind of paper. The members are the rows of the table; those named here are the ones the code names."""

        PERSONAL = "personal"
        BUSINESS = "business"
        PAYROLL = "payroll"
        CASHIERS_CHECK = "cashiers-check"
        TELLERS_CHECK = "tellers-check"
        CERTIFIED_CHECK = "certified-check"
        TRAVELERS_CHECK = "travelers-check"
        MONEY_ORDER = "money-order"
        POSTAL_MONEY_ORDER = "postal-money-order"
        TREASURY_CHECK = "treasury-check"
        GOVERNMENT_CHECK = "government-check"
        FEDERAL_BANK_ITEM = "federal-bank-item"
        REMOTELY_CREATED_CHECK = "remotely-created-check"
        SUBSTITUTE_CHECK = "substitute-check"
        FOREIGN_CURRENCY_CHECK = "foreign-currency-check"
        COUNTER_CHECK = "counter-check"
        SAVINGS_BOND = "savings-bond"

else:
    Kind = _Named("Kind", {name.upper().replace("-", "_"): name for name in _ROWS})
    Kind.__doc__ = "One kind of paper, as a row of ``data/kinds.toml`` describes it."
    Kind.__module__ = __name__


def where(test: Callable[[Row], bool]) -> frozenset[Kind]:
    """The kinds whose row passes *test*."""
    return frozenset(kind for kind in Kind if test(kind.row))
