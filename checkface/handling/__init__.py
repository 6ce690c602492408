"""What the clerk does next: a decision as ordered instructions, with the texts to print, to write and to say."""

from __future__ import annotations

from checkface.handling.instructions import Instructions, handle
from checkface.handling.notices import Notice
from checkface.handling.plan import Step
from checkface.handling.printing import Agency, Printing
from checkface.handling.receipt import ReceiptLines

__all__ = ["Agency", "Instructions", "Notice", "Printing", "ReceiptLines", "Step", "handle"]
