"""The receipt of a converted check: what it must carry, and what it must not.

Required by published summaries of the network's rules: the originator's name and telephone number, the date, the
amount, the check's serial number, the merchant number or location id, and the terminal's city and state. Regulation E
adds the kind of transfer and the account, whose number or code need not exceed four characters (12 CFR 1005.9(a)(4)).
It asks for no receipt of $15 or less (1005.9(e)); the network makes no such exception, so there is always one. A full
account number or an identification number is on no receipt. Money is in cents until it is printed.
"""

from typing import NamedTuple

from checkface.handling.values import BLANK, Values
from checkface.micr import MicrLine


class Item(NamedTuple):
    """One line of the receipt. ``value`` is empty when nobody has told us."""

    name: str
    label: str
    value: str
    required: bool

    @property
    def printed(self) -> str:
        """The value, or a line to write on."""
        return self.value or BLANK


class ReceiptLines(NamedTuple):
    """The items of a receipt in the order of printing."""

    items: tuple[Item, ...]

    @property
    def missing(self) -> tuple[Item, ...]:
        """Required items without a value: they are written in by hand."""
        return tuple(item for item in self.items if item.required and not item.value)

    @property
    def shown(self) -> tuple[Item, ...]:
        """The items that are printed: all but the optional ones nobody has told us."""
        return tuple(item for item in self.items if item.value or item.required)

    @property
    def text(self) -> str:
        """One ``label: value`` a line, :data:`~checkface.handling.values.BLANK` for what is missing."""
        return "\n".join(f"{item.label}: {item.printed}" for item in self.shown)


#: name of the field, label, whether it is required.
_ITEMS = (
    ("house", "Paid to", True),
    ("telephone", "Telephone", True),
    ("location", "Location", True),
    ("city", "City", True),
    ("state", "State", True),
    ("date", "Date", True),
    ("time", "Time", False),
    ("lane", "Lane", False),
    ("amount", "Amount", True),
    ("serial", "Check number", True),
)


def receipt_of(values: Values) -> ReceiptLines:
    """The receipt for the tender behind *values*."""
    items = [Item(name, label, values.get(name), required) for name, label, required in _ITEMS]
    items.append(Item("transfer", "Kind", "one electronic transfer from your account", True))
    items.append(Item("account", "Account ending", ending(values.read.micr), False))
    return ReceiptLines(tuple(items))


def ending(line: object) -> str:
    """The last characters of the account on *line*: four at most, and never more than half of the number."""
    account = line.account if isinstance(line, MicrLine) else None
    return account[-min(4, len(account) // 2) :] if account and len(account) > 1 else ""
