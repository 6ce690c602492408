"""Faults, planted one at a time in a clean check. Each names the rule it must trigger; the rule book decides the rest.

>>> len({plant.name for plant in PLANTS.values()}) == len(PLANTS)
True
>>> PLANTS["digits-exchanged"].rule
'amounts-disagree'
"""

from __future__ import annotations

from checkface.training.plants import amount, counter, dates, documents, face, kinds, line, numbers
from checkface.training.plants.work import PLANTS, Plant, Work

__all__ = [
    "PLANTS",
    "UNSHOWN",
    "Plant",
    "Work",
    "amount",
    "counter",
    "dates",
    "documents",
    "face",
    "kinds",
    "line",
    "numbers",
]

_HISTORY = "it hangs on what passed the counter before, which no face shows"
_BARCODE = "it hangs on the barcode of a card, which a machine reads and no eye"
#: Rules that nothing shown to a cashier can trigger, and why.
UNSHOWN = {
    "micr-notation-undecided": "it is a matter of how the reader writes the line, not of the paper",
    "micr-too-long-for-paper": "no paper has room for such a line",
    "routing-federal-bank": "only the number of a real bank would show it, and none is ever drawn",
    "routing-not-in-directory": "it hangs on the directory of the house, which no face shows",
    "savings-bond": "a bond is no check: it has no drawer, payee or account to draw",
    "warrant-past-term": "it hangs on the state that drew it, and a specimen is drawn by none",
    "payee-house-unknown": "it hangs on the policy, which no face shows",
    "pillar-not-seen": "it is about what nobody looked at",
    "reading-not-taken": "it is about what nobody looked at",
    "reading-uncertain": "it hangs on how sure a machine was, which no face shows",
    "conversion-not-accepted-here": "it hangs on the store, and is the same for every check",
    **dict.fromkeys(("id-barcode-unreadable", "id-state-differs", "id-under-age", "id-limited-duration",
                     "id-address-differs"), _BARCODE),
    **dict.fromkeys(("item-seen-before", "account-on-house-list", "velocity-count", "velocity-amount",
                     "serial-far-from-last", "drawer-changed", "id-many-accounts"), _HISTORY),
}  # fmt: skip
