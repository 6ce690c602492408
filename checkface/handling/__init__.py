"""What the clerk does next: a decision as ordered instructions, with the texts to print, to write and to say.

Official sources: 12 CFR 1005.3(b) and 1005.9(a), 15 USC 1681m(a), published summaries of the network's rules; what no
provision says is common practice, and each step says which.

>>> from checkface.assessment import assess
>>> instructions = assess({"face": {"signature": False}}).instructions
>>> instructions.to_customer, instructions.to_till
(('check', 'decline slip'), ())
>>> instructions.steps[0].who, instructions.steps[0].does, instructions.steps[0].text
('customer', 'sign-check', 'Would you please sign here?')
>>> recover(instructions, "void-not-printed")
Traceback (most recent call last):
ValueError: Expected a mishap of a check to decline, read 'void-not-printed', which befalls one to convert.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from checkface.handling.instructions import Instructions, handle
from checkface.handling.notices import Notice
from checkface.handling.plan import Step, When
from checkface.handling.printing import Agency, Printing
from checkface.handling.receipt import Item, ReceiptLines
from checkface.handling.spelled import spelled
from checkface.ondemand import names_of

if TYPE_CHECKING:
    from checkface.handling.drawing import preview_svg
    from checkface.handling.preview import preview_text
    from checkface.handling.recovery import Recovery, recover

__all__ = [
    "Agency",
    "Instructions",
    "Item",
    "Notice",
    "Printing",
    "ReceiptLines",
    "Recovery",
    "Step",
    "When",
    "handle",
    "preview_svg",
    "preview_text",
    "recover",
    "spelled",
]

#: Previews and ways out of mishaps are wanted by few callers.
__getattr__ = names_of(
    __name__, {"preview_svg": "drawing", "preview_text": "preview", "Recovery": "recovery", "recover": "recovery"}
)
