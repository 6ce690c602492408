"""What was counted in a bundle, a cash letter and a file, held against what records 70, 90 and 99 declare.

Item counts and amounts leave out credits (records 61 and 62) where the credit total indicator is 0, take them in where
it is 1, and may do either where it is blank, as it is before X9.100-187.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Final, Literal, NamedTuple

from checkface.cashletter.item import Item
from checkface.cashletter.record import Flaw, Record
from checkface.span import Fault, Span

Part = Literal["bundle", "letter", "file"]
#: The record that opens a part, the one that closes it, and what is inside.
RECORDS: Final[dict[Part, tuple[str, str]]] = {"bundle": ("20", "70"), "letter": ("10", "90"), "file": ("01", "99")}
_WORDS: Final[dict[Part, str]] = {"bundle": "bundle", "letter": "cash letter", "file": "file"}


@dataclass(slots=True)
class Count:
    """What was read since the part was opened."""

    opened: Record | None
    items: int = 0
    cents: int = 0
    credits: int = 0
    credit_cents: int = 0
    images: int = 0
    parts: int = 0
    records: int = 0
    valid_cents: int = 0
    returns: int = field(default=0, repr=False)

    def add_item(self, item: Item) -> None:
        """Count one item."""
        cents = item.cents or 0
        if item.kind == "credit":
            self.credits, self.credit_cents = self.credits + 1, self.credit_cents + cents
            return
        self.items, self.cents = self.items + 1, self.cents + cents
        self.valid_cents += cents if item.micr_valid == "1" else 0
        self.returns += item.kind == "return"

    def add_part(self, part: Count) -> None:
        """Count a bundle within its cash letter, or a cash letter within its file."""
        self.parts += 1
        for name in ("items", "cents", "credits", "credit_cents", "images"):
            setattr(self, name, getattr(self, name) + getattr(part, name))


class Totals(NamedTuple):
    """One bundle, cash letter or file, read to its end. Amounts are cents, declared ones None if not readable."""

    part: Part
    name: str
    """Identifier of the bundle or cash letter; the origin's name of a file."""
    number: int
    """Of the record that closes it; 0 where there was none."""
    offset: int
    items: int
    cents: int
    credits: int
    images: int
    parts: int
    """Bundles of a cash letter, cash letters of a file."""
    declared_items: int | None
    declared_cents: int | None
    agrees: bool
    """Whether everything declared is what was read."""


class _Held(NamedTuple):
    """One total of a control record: its field, what it counts, and in what words."""

    field: str
    counts: str
    words: str


_HELD: Final[dict[Part, tuple[_Held, ...]]] = {
    "bundle": (
        _Held("Items Within Bundle Count", "items", "items"),
        _Held("Bundle Total Amount", "cents", "dollars"),
        _Held("MICR Valid Total Amount", "valid_cents", "dollars"),
        _Held("Images within Bundle Count", "images", "images"),
    ),
    "letter": (
        _Held("Bundle Count", "parts", "bundles"),
        _Held("Items Within Cash Letter Count", "items", "items"),
        _Held("Cash Letter Total Amount", "cents", "dollars"),
        _Held("Images Within Cash Letter Count", "images", "images"),
    ),
    "file": (
        _Held("Cash Letter Count", "parts", "cash letters"),
        _Held("Total Record Count", "records", "records"),
        _Held("Total Item Count", "items", "items"),
        _Held("File Total Amount", "cents", "dollars"),
    ),
}
_CREDIT: Final = {"items": "credits", "cents": "credit_cents"}


def held(part: Part, count: Count, control: Record) -> Iterator[Flaw]:
    """Each total of *control* that is not what was counted."""
    for total in _HELD[part]:
        declared = control.number_in(total.field)
        if declared is None:
            continue  # a flaw of its own already
        possible = _possible(total.counts, count, control)
        if declared not in possible and not (total.counts == "valid_cents" and (not declared or count.returns)):
            # The total of well-read lines is conditional, and no return says how its line was read.
            expected = f"{_amount(declared, total.words)} as declared for the {_WORDS[part]}"
            assert control.layout is not None
            start, end = control.layout.places[total.field]
            fault = Fault("letter-total", Span(0, end - start), expected, _amount(possible[0], total.words))
            yield Flaw(control.offset + start, control.number, control.type, total.field, fault)


def readable(part: Part, control: Record) -> bool:
    """Whether every total that *control* must have is a number."""
    return all(control.number_in(h.field) is not None for h in _HELD[part] if h.counts != "valid_cents")


def totals(part: Part, count: Count, control: Record | None, *, agrees: bool) -> Totals:
    """The part as it was read. *control* is the record that closes it, if there was one."""
    fields = {"bundle": "Bundle ID", "letter": "Cash Letter ID", "file": "Immediate Origin Name"}
    name = count.opened.field(fields[part]).strip() if count.opened else ""
    items, cents = (control.number_in(h.field) if control else None for h in _items_and_cents(part))
    return Totals(
        part, name, control.number if control else 0, control.offset if control else 0, count.items, count.cents,
        count.credits, count.images, count.parts, items, cents, agrees,
    )  # fmt: skip


def _items_and_cents(part: Part) -> tuple[_Held, _Held]:
    of = {total.counts: total for total in _HELD[part]}
    return of["items"], of["cents"]


def _possible(counts: str, count: Count, control: Record) -> tuple[int, ...]:
    without: int = getattr(count, counts)
    if counts not in _CREDIT:
        return (without,)
    with_credits = without + getattr(count, _CREDIT[counts])
    layout = control.layout
    known = layout is not None and "Credit Total Indicator" in layout.places
    indicator = control.field("Credit Total Indicator") if known else " "
    return {"0": (without,), "1": (with_credits,)}.get(indicator, (without, with_credits))


def _amount(value: int, words: str) -> str:
    if words == "dollars":
        return f"${value // 100:,}.{value % 100:02}"
    return f"{value:,} {words if value != 1 else words[:-1]}"
