"""What the clerk does next: a decision as ordered instructions, with the texts to print, to write and to say."""

from __future__ import annotations

from checkface.handling.drawing import preview_svg
from checkface.handling.instructions import Instructions, handle
from checkface.handling.notices import Notice
from checkface.handling.plan import Step
from checkface.handling.preview import preview_text
from checkface.handling.printing import Agency, Printing
from checkface.handling.receipt import Item, ReceiptLines
from checkface.handling.recovery import Recovery, recover
from checkface.handling.spelled import spelled

__all__ = [
    "Agency",
    "Instructions",
    "Item",
    "Notice",
    "Printing",
    "ReceiptLines",
    "Recovery",
    "Step",
    "handle",
    "preview_svg",
    "preview_text",
    "recover",
    "spelled",
]
