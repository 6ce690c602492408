"""Write a cash letter: records as bytes in any form, and whole letters made of items with their totals worked out.

For tests, and for specimen files that trainers hand out; bytes that were read are written again as they were.

>>> item = make_item("check", routing="071098973", on_us="45601122/1043", cents=4510, sequence="1")
>>> letter = Letter(origin="071098973", destination="031097765", day=date(2026, 11, 25), time="1500")
>>> [record.type for record in compose([item], letter)]
['01', '10', '20', '25', '70', '90', '99']
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from itertools import islice
from typing import Final, Protocol

from checkface.cashletter.form import PREFIX, Form, decode, encode
from checkface.cashletter.item import Item, Kind
from checkface.cashletter.layout import IMAGE_DATA, Field, layouts
from checkface.cashletter.record import Record, spread
from checkface.cashletter.totals import Count

Value = str | int | date | bytes
STANDARD: Final = Form("prefixed", "cp037")


class Sink(Protocol):
    """Anything that takes bytes, such as a file opened for writing in binary mode."""

    def write(self, content: bytes, /) -> object:
        """Take *content*."""
        ...


def write(records: Iterable[Record], sink: Sink, form: Form = STANDARD) -> int:
    """Write *records* to *sink* in *form*; how many bytes that were.

    Raises ValueError for a character that the encoding does not have, and for a record that knows its image data only
    as a place in another file (read it with ``images=True``).
    """
    return sum(_put(sink, encoded(record, form)) for record in records)


def _put(sink: Sink, content: bytes) -> int:
    sink.write(content)
    return len(content)


def encoded(record: Record, form: Form = STANDARD) -> bytes:
    """One record in *form*, with its length or line end. Raises ValueError as :func:`write` does."""
    if record.image is not None and len(record.data) != record.image.length:
        raise ValueError(f"Record {record.number}: Expected image data to write, read only where they stand.")
    try:
        raw = _raw(record, form) + record.data
    except UnicodeEncodeError:
        raise ValueError(f"Record {record.number}: Expected characters of {form.encoding}, read others.") from None
    match form.framing:
        case "prefixed":
            return len(raw).to_bytes(PREFIX, "big") + raw
        case "fixed":
            return raw.ljust(80, form.encode(" "))
        case "lines":
            return raw + (form.ending or form.encode("\n"))


def _raw(record: Record, form: Form) -> bytes:
    """The characters in *form*; binary fields keep their bytes whatever the encoding around them."""
    if record.encoding == form.encoding or record.layout is None or not record.layout.varies:
        return form.encode(record.text)
    parts, last = [], 0
    for field, start, end in spread(record.layout, record.text):
        if field.kind == "binary":
            parts += [form.encode(record.text[last:start]), encode(record.text[start:end], record.encoding)]
            last = end
    return b"".join((*parts, form.encode(record.text[last:])))


def make_record(kind: str, values: Mapping[str, Value] | None = None, level: str = "03") -> Record:
    """A record of type *kind* with *values* by field name; what is left out is zeros or blanks.

    Numbers are cents or counts, dates become YYYYMMDD; digits are set to the right, names to the left; length fields
    follow from what they measure. Raises ValueError for a field that is not there, or a value that does not fit it.
    """
    given = dict(values or {})
    layout = layouts(level)[kind]
    data = given.pop(IMAGE_DATA, b"")
    assert isinstance(data, bytes)
    parts: list[str] = []
    following = [*layout.fields[1:], None]
    for field, behind in zip(layout.fields, following, strict=True):
        value = given.pop(field.name, "") if field.number > 1 else kind
        if behind is not None and behind.length is None:
            measured = data if behind.name == IMAGE_DATA else given.get(behind.name, "")
            value = len(measured) if isinstance(measured, (str, bytes)) else 0
        if field.name != IMAGE_DATA:
            parts.append(_set(field, value))
    if given:
        raise ValueError(f"Expected fields of record {kind}, read {', '.join(map(repr, given))}.")
    return Record(kind, "".join(parts), level, data=data)


def _set(field: Field, value: Value) -> str:
    if isinstance(value, bytes):
        text = decode(value, STANDARD.encoding)
    else:
        text = f"{value:%Y%m%d}" if isinstance(value, date) else str(value)
    if field.length is None:
        return text
    if len(text) > field.length:
        raise ValueError(f"Expected at most {field.length} characters for {field.name}, read {len(text)}.")
    if field.kind == "N":
        return text.rjust(field.length, "0") if text or field.mandatory else " " * field.length
    return text.rjust(field.length) if field.kind.startswith("NB") else text.ljust(field.length)


def make_item(
    kind: Kind,
    *,
    routing: str,
    on_us: str = "",
    auxiliary: str = "",
    epc: str = "",
    cents: int = 0,
    sequence: str = "",
    values: Mapping[str, Value] | None = None,
    addenda: Iterable[Record] = (),
    images: Iterable[bytes] = (),
    scanned: tuple[str, date] | None = None,
    level: str = "03",
) -> Item:
    """A check, a return or a credit (record 61). *values* sets further fields of its own record.

    *images* are the front, then the rear; each gets its records 50 and 52, with the bank and the day of *scanned*.
    The addendum count follows from *addenda*; the auxiliary On-Us field of a return goes into an addendum B (record
    33) that is made for it. Raises ValueError as :func:`make_record` does.
    """
    further = list(addenda)
    own: dict[str, Value] = {"Item Amount": cents, "ECE Institution Item Sequence Number": sequence or "1"}
    own["External Processing Code"] = epc
    if kind == "credit":
        own |= {
            "Payor Bank Routing Number": routing,
            "Credit Account Number On-Us": on_us,
            "Auxiliary On-Us": auxiliary,
        }
    else:
        own |= {"Payor Bank Routing Number": routing[:8], "Payor Bank Routing Number Check Digit": routing[8:]}
        own["On-Us"] = on_us
    if kind == "check":
        own |= {"Auxiliary On-Us": auxiliary, "BOFD Indicator": "Y", "Check Detail Record Addendum Count": len(further)}
    elif kind == "return":
        if auxiliary:
            further.append(make_record("33", {"Auxiliary On-Us": auxiliary}, level))
            further.sort(key=lambda record: record.type)
        own |= {"Return Reason": "A", "Return Record Addendum Count": len(further), "Return Notification Indicator": 2}
    number = {"check": "25", "return": "31", "credit": "61"}[kind]
    record = make_record(number, own | dict(values or {}), level)
    views: list[Record] = []
    for side, data in enumerate(images):
        if scanned is None:
            raise ValueError("Expected the bank and the day that the images were made, read none.")
        bank, day = scanned
        views.append(
            make_record(
                "50",
                {
                    "Image Indicator": 1,
                    "Image Creator Routing Number": bank,
                    "Image Creator Date": day,
                    "View Side Indicator": side,
                },
                level,
            )
        )
        views.append(
            make_record(
                "52",
                {
                    "ECE Institution Routing Number": bank,
                    "Bundle Business Date": day,
                    "ECE Institution Item Sequence Number": sequence,
                    IMAGE_DATA: data,
                },
                level,
            )
        )
    return Item((record, *further, *views))


@dataclass(frozen=True, slots=True)
class Letter:
    """What the headers of a file say. ``time`` is hhmm; routing numbers are nine digits."""

    origin: str
    destination: str
    day: date
    time: str = "0000"
    level: str = "03"
    test: bool = True
    collection: str = "01"
    """01 forward presentment, 03 returns."""
    origin_name: str = ""
    destination_name: str = ""
    bundle: int = 300
    """Most items of one bundle."""


def compose(items: Iterable[Item], letter: Letter) -> Iterator[Record]:
    """The records of a file of one cash letter that holds *items*, bundle by bundle, with their totals."""
    level, day = letter.level, letter.day
    path: dict[str, Value] = {
        "Collection Type Indicator": letter.collection, "Destination Routing Number": letter.destination,
        "ECE Institution Routing Number": letter.origin,
    }  # fmt: skip
    file, whole = Count(None), Count(None)
    yield make_record("01", {
        "Standard Level": level, "Test File Indicator": "T" if letter.test else "P",
        "Immediate Destination Routing Number": letter.destination, "Immediate Origin Routing Number": letter.origin,
        "File Creation Date": day, "File Creation Time": letter.time, "Resend Indicator": "N",
        "Immediate Destination Name": letter.destination_name, "Immediate Origin Name": letter.origin_name,
    }, level)  # fmt: skip
    yield make_record("10", path | {
        "Cash Letter Business Date": day, "Cash Letter Creation Date": day, "Cash Letter Creation Time": letter.time,
        "Cash Letter Record Type Indicator": "I", "Cash Letter Documentation Type Indicator": "G",
        "Cash Letter ID": "1",
    }, level)  # fmt: skip
    records, given = 2, iter(items)
    while batch := list(islice(given, letter.bundle)):
        number = whole.parts + 1
        yield make_record("20", path | {
            "Bundle Business Date": day, "Bundle Creation Date": day, "Bundle ID": str(number),
            "Bundle Sequence Number": str(number),
        }, level)  # fmt: skip
        bundle = Count(None)
        for item in batch:
            bundle.add_item(item)
            bundle.images += sum(record.type == "52" for record in item.records)
            yield from item.records
        whole.add_part(bundle)
        records += 2 + sum(len(item.records) for item in batch)
        yield make_record("70", {
            "Items Within Bundle Count": bundle.items, "Bundle Total Amount": bundle.cents,
            "MICR Valid Total Amount": bundle.valid_cents, "Images within Bundle Count": bundle.images,
        }, level)  # fmt: skip
    file.add_part(whole)
    yield make_record("90", {
        "Bundle Count": whole.parts, "Items Within Cash Letter Count": whole.items,
        "Cash Letter Total Amount": whole.cents, "Images Within Cash Letter Count": whole.images,
        "ECE Institution Name": letter.origin_name, "Settlement Date": day,
    }, level)  # fmt: skip
    yield make_record("99", {
        "Cash Letter Count": 1, "Total Record Count": records + 2, "Total Item Count": file.items,
        "File Total Amount": file.cents,
    }, level)  # fmt: skip
