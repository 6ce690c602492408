"""Read a cash letter record by record, in the memory of one record, and go on behind what is wrong.

>>> import io
>>> header = "0103T07109897303109776520261125" + "1500N".ljust(49)
>>> reader = read(io.BytesIO(b"\\0\\0\\0P" + header.encode("cp037") + b"\\0\\0\\0P"))
>>> print(reader.form)
a length before each record, EBCDIC (code page 37)
>>> for entry in reader:
...     print(entry if isinstance(entry, Record) else entry.message)
Record('01', number=1, offset=4, 80 characters)
Byte 84: Expected a length and a record, read the end of the file; 4 bytes passed over.
>>> [flaw.message for flaw in read(io.BytesIO(b"%PDF-1.7"))]
['Byte 0: Expected a file header, record 01 in EBCDIC or ASCII, read something else.']
"""

from __future__ import annotations

from collections.abc import Generator, Iterator

from checkface.cashletter import check
from checkface.cashletter.form import HEAD, Encoding, Form, detect
from checkface.cashletter.frame import FRAMERS, Frame, Lost
from checkface.cashletter.layout import NEWEST, layouts
from checkface.cashletter.record import Flaw, Place, Record
from checkface.cashletter.source import Source, Stream
from checkface.span import Fault, Span


def read(stream: Stream, *, images: bool = False, ebcdic: Encoding = "cp037") -> Reader:
    """The records of the binary *stream*, to be iterated over once, with what is wrong between them.

    Image data are passed over and stand in the records as places in the file; with *images* each record 52 holds its
    own. *ebcdic* names the code page of files in EBCDIC. No bytes raise; the stream's own errors do.
    """
    return Reader(stream, images=images, ebcdic=ebcdic)


class Reader:
    """An iterator of :class:`Record` and :class:`Flaw`, in the order of the file."""

    form: Form | None
    """Framing and encoding; None for what is no cash letter."""
    header: Record | None
    """Record 01, once it was read."""

    def __init__(self, stream: Stream, *, images: bool, ebcdic: Encoding) -> None:
        self._source = Source(stream)
        self._images = images
        self._number = 0
        self.form = detect(self._source.at(0, HEAD), ebcdic)
        self.header = None
        self._entries = self._read()

    @property
    def level(self) -> str:
        """Level of the standard as the file header has it; empty before that was read."""
        return self.header.level if self.header else ""

    @property
    def offset(self) -> int:
        """How many bytes were read."""
        return self._source.offset

    def __iter__(self) -> Iterator[Record | Flaw]:
        return self._entries

    def __next__(self) -> Record | Flaw:
        return next(self._entries)

    def _read(self) -> Iterator[Record | Flaw]:
        source, form = self._source, self.form
        if form is None:
            found = "something else" if source.at(0, 1) else "an empty file"
            expected = "a file header, record 01 in EBCDIC or ASCII"
            yield Flaw(0, 0, "", "", Fault("letter-form", Span(0, 0), expected, found))
            return
        framer = FRAMERS[form.framing]
        lost: Flaw | None = None
        while source.at(0, 1):
            ahead = framer(source, form, self.level or NEWEST)
            if isinstance(ahead, Lost):
                lost = lost or Flaw(source.offset, 0, "", "", ahead.fault)
                self._pass(ahead.skip)
                continue
            if lost is not None:
                yield _told(lost, source.offset)
                lost = None
            source.skip(ahead.lead)
            if ahead.size and (yield from self._one(form, ahead)):
                return
            if ahead.trail:
                source.skip(ahead.trail)
        if lost is not None:
            yield _told(lost, source.offset)

    def _pass(self, size: int | None) -> None:
        while size is None and self._source.skip(1 << 20):
            pass
        self._source.skip(size or 0)

    def _one(self, form: Form, ahead: Frame) -> Generator[Record | Flaw, None, bool]:
        """The record ahead and its flaws; returns whether the file breaks off in it."""
        offset = self._source.offset
        self._number += 1
        kind = form.decode(self._source.at(0, 2))
        text, place, data = self._body(form, ahead, pictures=kind == "52")
        read = self._source.offset - offset
        if read < ahead.size:
            expected, found = f"a record of {ahead.size:,} bytes", f"{read:,} before the end of the file"
            fault = Fault("letter-truncated", Span(0, 0), expected, found)
            yield Flaw(offset, self._number, _shown(kind), "", fault)
            return True
        faults = list(ahead.faults)
        if kind not in layouts(self.level or NEWEST):
            faults.append(Fault("letter-type", Span(0, 2), "a record type of the standard", _type(kind)))
        elif (own := ahead.own.total) is not None and kind != "52" and own != len(text):
            text, filling = text[:own].ljust(own), text[own:]
            if form.framing == "fixed" and filling.strip(" "):
                faults.append(Fault("letter-length", Span(0, 0), "blanks up to 80 bytes", "other characters"))
        for fault in faults:
            yield Flaw(offset, self._number, _shown(kind), "", fault)
        level = text[2:4] if kind == "01" else self.level or NEWEST
        record = Record(kind, text, level, self._number, offset, ahead.size, place, data, form.encoding)
        if kind == "01":
            self.header = record
        # What a record is too short for is not there to be wrong.
        yield from (flaw for flaw in check.flaws(record) if flaw.offset < offset + ahead.size)
        yield record
        return False

    def _body(self, form: Form, ahead: Frame, *, pictures: bool) -> tuple[str, Place | None, bytes]:
        """The characters of the record ahead, where its image data stand, and these if they are wanted."""
        source = self._source
        if not pictures:
            return form.decode(source.take(ahead.size)), None, b""
        offset, head = source.offset, min(ahead.own.head, ahead.size)
        text = form.decode(source.take(head))
        length = min(ahead.size, ahead.own.total or 0) - head
        place = Place(source.offset, length) if length > 0 else None
        data = source.take(length) if place and self._images else b""
        source.skip(offset + ahead.size - source.offset)
        return text, place, data


def _shown(kind: str) -> str:
    return kind if kind.isascii() and kind.isalnum() else ""


def _type(kind: str) -> str:
    return repr(kind) if _shown(kind) else "another character than a digit or letter"


def _told(lost: Flaw, offset: int) -> Flaw:
    fault = lost.fault
    read = f"{fault.read}; {offset - lost.offset:,} bytes passed over"
    return lost._replace(fault=Fault(fault.kind, fault.span, fault.expected, read))
