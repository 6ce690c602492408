"""What passed the counter before, as far as rules may ask. The ledger stands above and answers these questions."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple, Protocol


class Seen(NamedTuple):
    """One earlier sight of the same item."""

    on: date
    taken_as: str
    """``converted``, ``kept`` or ``returned`` (handed back untaken)."""


class AccountPast(NamedTuple):
    """What is known of one account within a window of days that ends on the day of tender, that day included."""

    taken: int
    amount_cents: int
    last_serial: str | None
    drawers: tuple[str, ...]


class HistoryError(Exception):
    """The past could not be asked. It is no fault of the check at hand, and the next one would meet it, too."""


class History(Protocol):
    """The questions. Every argument is as read; an implementation may store tokens only."""

    def item_seen(self, routing: str, account: str, serial: str) -> Seen | None:
        """The latest earlier sight of the item with these numbers, if any; one that was taken goes before others."""
        ...

    def is_listed(self, routing: str, account: str) -> bool:
        """Whether the account is on the house list of unpaid accounts."""
        ...

    def account_past(self, routing: str, account: str, since: date, until: date) -> AccountPast:
        """What was taken on the account from *since* to *until*, both included."""
        ...

    def accounts_of_document(self, document: str) -> int:
        """How many different accounts one identification document has been shown with."""
        ...
