"""The ledger: what passed the counter, the house list of unpaid accounts, and the till that must add up at night.

Account and document numbers are never stored, only keyed tokens and the last four. Needs the ``ledger`` extra.
"""

from __future__ import annotations

from checkface.ledger.entries import Done, Entry, Item, Override, Recorded, entry_of
from checkface.ledger.errors import LedgerError
from checkface.ledger.store import Ledger

__all__ = ["Done", "Entry", "Item", "Ledger", "LedgerError", "Override", "Recorded", "entry_of"]
