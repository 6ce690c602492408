"""Image cash letters: the file of scanned checks that banks exchange, DSTU X9.37-2003 and ANSI X9.100-187.

:func:`read` gives the records of any binary stream and what is wrong between them; :func:`items` the checks, returns
and credits they make, the totals of every bundle, cash letter and file held against what was declared, and every flaw
with its byte. Files of gigabytes are read in the memory of one item. :func:`write` writes records as they were read, or
those that :func:`compose` makes of items.

>>> import io
>>> from datetime import date
>>> check = make_item("check", routing="071098973", on_us="45601122/1043", cents=4510, sequence="1")
>>> letter = Letter(origin="071098973", destination="031097765", day=date(2026, 11, 25))
>>> file = io.BytesIO()
>>> write(compose([check], letter), file)
588
>>> for entry in items(read(io.BytesIO(file.getvalue()))):
...     print(entry if isinstance(entry, Item) else f"{entry.part}: {entry.items} for {entry.cents} cents")
Item(check, number=4, offset=256, 1 records)
bundle: 1 for 4510 cents
letter: 1 for 4510 cents
file: 1 for 4510 cents
>>> for entry in items(read(io.BytesIO(file.getvalue().replace("0000004510".encode("cp037"), b"\\xf9" * 10, 1)))):
...     if isinstance(entry, Flaw):
...         print(entry.message.partition(", read")[0])
Byte 346, record 5 (type 70, Bundle Total Amount): Expected $45.10 as declared for the bundle
Byte 440, record 6 (type 90, Cash Letter Total Amount): Expected $45.10 as declared for the cash letter
Byte 532, record 7 (type 99, File Total Amount): Expected $45.10 as declared for the file
"""

from typing import TYPE_CHECKING

from checkface.ondemand import names_of

if TYPE_CHECKING:
    from checkface.cashletter.form import HEAD, Encoding, Form, Framing, detect, is_letter
    from checkface.cashletter.item import Endorsement, Image, Item
    from checkface.cashletter.layout import LEVELS, Reason, layouts, return_reasons
    from checkface.cashletter.order import items
    from checkface.cashletter.reader import Reader, read
    from checkface.cashletter.record import Flaw, Place, Record
    from checkface.cashletter.totals import Totals
    from checkface.cashletter.writer import Letter, compose, encoded, make_item, make_record, write

__all__ = [
    "HEAD", "LEVELS", "Encoding", "Endorsement", "Flaw", "Form", "Framing", "Image", "Item", "Letter", "Place",
    "Reader", "Reason", "Record", "Totals", "compose", "detect", "encoded", "is_letter", "items", "layouts",
    "make_item", "make_record", "read", "return_reasons", "write",
]  # fmt: skip

__getattr__ = names_of(
    __name__,
    {
        **dict.fromkeys(("HEAD", "Encoding", "Form", "Framing", "detect", "is_letter"), "form"),
        **dict.fromkeys(("Endorsement", "Image", "Item"), "item"),
        **dict.fromkeys(("LEVELS", "Reason", "layouts", "return_reasons"), "layout"),
        "items": "order",
        **dict.fromkeys(("Reader", "read"), "reader"),
        **dict.fromkeys(("Flaw", "Place", "Record"), "record"),
        "Totals": "totals",
        **dict.fromkeys(("Letter", "compose", "encoded", "make_item", "make_record", "write"), "writer"),
    },
)
