"""One check, return or credit of a cash letter: its own record and those that belong to it.

Fields are given as they stand. ``*`` is an unread character and stays one; inner blanks of the On-Us field may have
been dropped by whoever wrote the file, so a leading serial and the account may run together: nothing is split here.
"""

from collections.abc import Iterator
from datetime import date
from typing import Final, Literal, NamedTuple

from checkface.cashletter.layout import Reason, return_reasons
from checkface.cashletter.record import Place, Record

Kind = Literal["check", "return", "credit"]
KINDS: Final[dict[str, Kind]] = {"25": "check", "31": "return", "61": "credit", "62": "credit"}
_ROUTING: Final = {"25": "Payor Bank Routing Number", "31": "Payor Bank Routing Number",
                   "61": "Payor Bank Routing Number", "62": "Posting Bank Routing Number"}  # fmt: skip
_SEQUENCE: Final = {"62": "Credit Item Sequence Number"}
#: The first two digits of every year that a field of days takes.
CENTURIES: Final = (19, 20)
#: Correction indicators of a line that was repaired, by whatever means: record 25 field 14.
REPAIRED: Final = frozenset("123")


class Endorsement(NamedTuple):
    """One bank through whose hands the item went, fields as they stand: records 26 and 28, 32 and 35."""

    routing: str
    date: date | None
    sequence: str
    truncated: str
    conversion: str
    correction: str
    return_reason: str
    first: bool
    """Whether it is the bank of first deposit, in an addendum A."""


class Image(NamedTuple):
    """One view of the item: record 50 with the 52 behind it."""

    side: str
    """0 front, 1 rear."""
    descriptor: str
    """00 the full view, else a part of it."""
    format: str
    """00 TIFF 6."""
    compression: str
    """00 Group 4."""
    place: Place | None
    """Where its bytes stand in the file; None where there are none."""
    data: bytes

    def __repr__(self) -> str:
        return f"Image(side={self.side!r}, format={self.format!r}, place={self.place})"


class Item(NamedTuple):
    """One item. ``records`` has its own record first, then addenda, images and user records in their order."""

    records: tuple[Record, ...]
    business_date: date | None = None
    """Of the bundle, or of the cash letter where the bundle has none; None where what it has is no day."""

    def __repr__(self) -> str:
        return f"Item({self.kind}, number={self.number}, offset={self.offset}, {len(self.records)} records)"

    @property
    def record(self) -> Record:
        """Its own record."""
        return self.records[0]

    @property
    def number(self) -> int:
        """Which record of the file its own is."""
        return self.record.number

    @property
    def offset(self) -> int:
        """Byte offset of its own record."""
        return self.record.offset

    @property
    def kind(self) -> Kind:
        """A check (record 25), a return (31) or a credit (61, 62)."""
        return KINDS[self.record.type]

    @property
    def routing(self) -> str:
        """The nine positions of the transit field: eight and the check digit."""
        first = self.record.field(_ROUTING[self.record.type])
        return first + (self._field("Payor Bank Routing Number Check Digit") if len(first) == 8 else "")

    @property
    def on_us(self) -> str:
        """Twenty positions; ``/`` the On-Us symbol, ``-`` the dash, ``*`` unread."""
        return self._field("On-Us") or self._field("Credit Account Number On-Us")

    @property
    def auxiliary(self) -> str:
        """Fifteen positions of the auxiliary On-Us field; those of a return stand in its addendum B."""
        own = self._field("Auxiliary On-Us")
        return own or next((r.field("Auxiliary On-Us") for r in self.records[1:] if r.type == "33"), "")

    @property
    def epc(self) -> str:
        """External Processing Code; a blank is none."""
        return self._field("External Processing Code")

    @property
    def cents(self) -> int | None:
        """The amount; None where the field holds anything but digits."""
        return self.record.number_in("Item Amount")

    @property
    def sequence(self) -> str:
        """The sequence number its institution gave it, without the blanks around it."""
        return self._field(_SEQUENCE.get(self.record.type, "ECE Institution Item Sequence Number")).strip()

    @property
    def micr_valid(self) -> str:
        """How the line was read: 1 well, 2 well with a field missing, 3 with an error, 4 both."""
        return self._field("MICR Valid Indicator").strip()

    @property
    def correction(self) -> str:
        """0 not repaired, 1 repaired somehow, 2 without an operator, 3 by an operator, 4 undetermined."""
        return self._field("Correction Indicator").strip()

    @property
    def return_reason(self) -> str:
        """Code of record 31."""
        return self._field("Return Reason").strip() if self.record.type == "31" else ""

    @property
    def returned_for(self) -> Reason | None:
        """What the code says; None where it is no known code."""
        return return_reasons().get(self.return_reason)

    @property
    def repaired(self) -> bool | None:
        """Whether any bank repaired the line; None where none says that it was not."""
        marks = {self.correction, *(each.correction for each in self.endorsements)}
        return True if marks & REPAIRED else False if self.correction == "0" else None

    @property
    def endorsements(self) -> tuple[Endorsement, ...]:
        """The banks that handled it, as the addenda have them."""
        return tuple(_endorsement(each) for each in self.records[1:] if each.type in {"26", "28", "32", "35"})

    @property
    def images(self) -> tuple[Image, ...]:
        """Its views, in their order."""
        return tuple(_images(self.records))

    def _field(self, name: str) -> str:
        layout = self.record.layout
        return self.record.field(name) if layout and name in layout.places else ""


def day(digits: str) -> date | None:
    """The day written YYYYMMDD, if it is one of the centuries that the fields of a cash letter take."""
    try:
        found = date(int(digits[:4]), int(digits[4:6]), int(digits[6:8])) if digits.isdigit() else None
    except ValueError:
        return None
    return found if found and found.year // 100 in CENTURIES else None


def _endorsement(record: Record) -> Endorsement:
    first = record.type in {"26", "32"}
    layout = record.layout
    assert layout is not None
    names = [field.name for field in layout.fields]

    def last(part: str) -> str:
        return record.field(next(name for name in names if name.endswith(part))).strip()

    bank = "Return Location Routing Number" if first else "Endorsing Bank Routing Number"
    return Endorsement(
        record.field(bank), day(last("Date")), last("Sequence Number"), last("Truncation Indicator"),
        last("Conversion Indicator"), last("Correction Indicator"), "" if first else last("Return Reason"), first,
    )  # fmt: skip


def _images(records: tuple[Record, ...]) -> Iterator[Image]:
    view: Record | None = None
    for record in records:
        if record.type == "50":
            if view is not None:
                yield _image(view, None)
            view = record
        elif record.type == "52" and view is not None:
            yield _image(view, record)
            view = None
    if view is not None:
        yield _image(view, None)


def _image(view: Record, shown: Record | None) -> Image:
    return Image(
        view.field("View Side Indicator"), view.field("View Descriptor"), view.field("Image View Format Indicator"),
        view.field("Image View Compression Algorithm Identifier"), shown.image if shown else None,
        shown.data if shown else b"",
    )  # fmt: skip
