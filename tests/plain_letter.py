"""Cash letters put together by hand: positions from the published field tables, nothing of checkface.

Every function pads with ``str.ljust`` and ``str.rjust`` to the positions named beside it (public field tables of
X9.100-187-2013/2016 and a bank's published X9.37 specification); lengths are packed with ``struct``.
"""

from __future__ import annotations

import struct
from dataclasses import dataclass, field

TIFF = b"II*\0" + bytes(range(256)) * 2
"""Not a picture: bytes that begin as little-endian TIFF does and hold every value there is."""

#: A record: its characters, and binary data behind them.
Plain = tuple[str, bytes]


def header(level: str = "03") -> Plain:
    """Record 01: level 3-4, test 5, destination 6-14, origin 15-23, date 24-31, time 32-35, resend 36, names 37-72."""
    text = "01" + level + "T" + "031097765" + "071098973" + "20261125" + "1530" + "N" + "SPECIMEN DEST".ljust(18)
    return (text + "SPECIMEN ORIGIN".ljust(18) + "A" + "US" + "    " + " ", b"")


def letter(name: str = "LETTER01") -> Plain:
    """Record 10: collection 3-4, routing 5-13 and 14-22, dates 23-30 and 31-38, time 39-42, kind 43, 44, id 45-52."""
    text = "10" + "01" + "031097765" + "071098973" + "20261125" + "20261125" + "1530" + "I" + "G" + name.ljust(8)
    return (text + "DESK".ljust(14) + "0000000000" + "C" + " " + " " + " ", b"")


def bundle(number: int) -> Plain:
    """Record 20: as 10 up to 38, id 39-48, sequence 49-52, cycle 53-54."""
    text = "20" + "01" + "031097765" + "071098973" + "20261125" + "20261125" + str(number).ljust(10)
    return (text + str(number).rjust(4) + "01" + " " * 9 + " " * 5 + " " * 12, b"")


@dataclass
class Check:
    """What is told of one check or return."""

    cents: int
    routing: str = "071098973"
    on_us: str = "45601122/1043"
    auxiliary: str = ""
    epc: str = " "
    sequence: str = "1"
    valid: str = "1"
    correction: str = "0"
    reason: str = ""
    endorsers: list[str] = field(default_factory=list)
    images: list[bytes] = field(default_factory=list)
    key: str = ""
    signature: bytes = b""

    def records(self) -> list[Plain]:
        """25 with 26 and 28, or 31 with 32, 33 and 35; then 50 and 52 for each image."""
        found = self._return() if self.reason else self._check()
        for side, image in enumerate(self.images):
            # 50: indicator 3, creator 4-12, date 13-20, format 21-22, compression 23-24, size 25-31, side 32, 33-34 ...
            view = "50" + "1" + "071098973" + "20261125" + "00" + "00" + "0000000" + str(side) + "00" + "0"
            found.append((view.ljust(80), b""))
            found.append(self._data(image))
        return found

    def _check(self) -> list[Plain]:
        # auxiliary 3-17, EPC 18, routing 19-26, check digit 27, On-Us 28-47, amount 48-57, sequence 58-72,
        # documentation 73, acceptance 74, MICR valid 75, BOFD 76, addenda 77-78, correction 79, archive 80
        count = str(len(self.endorsers)).rjust(2, "0")
        text = "25" + self.auxiliary.rjust(15) + self.epc + self.routing[:8] + self.routing[8] + self.on_us.rjust(20)
        text += str(self.cents).rjust(10, "0") + self.sequence.rjust(15) + "G" + " " + self.valid + "Y" + count
        return [(text + self.correction + " ", b""), *self._addenda("26", "28")]

    def _return(self) -> list[Plain]:
        # routing 3-10, 11; On-Us 12-31, amount 32-41, reason 42, addenda 43-44, documentation 45, forward date 46-53,
        # sequence 54-68, EPC 69, notification 70, archive 71, times 72
        addenda = [*self._addenda("32", "35")]
        # 33: bank name 3-20, auxiliary 21-35, sequence 36-50, date 51-58, account name 59-80
        aux = "33" + "SPECIMEN BANK".ljust(18) + self.auxiliary.rjust(15) + self.sequence.rjust(15) + "20261125"
        addenda.insert(min(1, len(addenda)), (aux.ljust(80), b""))
        text = "31" + self.routing + self.on_us.rjust(20) + str(self.cents).rjust(10, "0") + self.reason
        text += (
            str(len(addenda)).rjust(2, "0") + "G" + "20261120" + self.sequence.rjust(15) + self.epc + "2" + " " + "1"
        )
        return [(text.ljust(80), b""), *addenda]

    def _addenda(self, first: str, other: str) -> list[Plain]:
        found = []
        for number, bank in enumerate(self.endorsers):
            if not number:
                # number 3, return location 4-12, date 13-20, sequence 21-35, account 36-53, branch 54-58, payee 59-73,
                # truncation 74, conversion 75, correction 76, user 77
                text = first + "1" + bank + "20261124" + "77".rjust(15) + " " * 18 + " " * 5 + "SPECIMEN".ljust(15)
                found.append(((text + "Y" + "2" + "0").ljust(80), b""))
            else:
                # number 3-4, bank 5-13, date 14-21, sequence 22-36, truncation 37, conversion 38, correction 39, reason 40
                text = other + str(number).rjust(2, "0") + bank + "20261125" + "78".rjust(15) + "N" + "7" + "0" + " "
                found.append((text.ljust(80), b""))
        return found

    def _data(self, image: bytes) -> Plain:
        # routing 3-11, date 12-19, cycle 20-21, sequence 22-36, names 37-84, clipping 85-101, key length 102-105, key,
        # signature length 5, signature, image length 7, image
        text = "52" + "071098973" + "20261125" + "01" + self.sequence.rjust(15) + " " * 48 + "0" + " " * 16
        text += str(len(self.key)).rjust(4, "0") + self.key + str(len(self.signature)).rjust(5, "0")
        assert len(text) == 110 + len(self.key)
        return (text, self.signature + (b"\0LENGTH\0" + image))


def control(kind: str, *totals: tuple[int, int]) -> Plain:
    """Record 70, 90 or 99: zero-filled totals one after the other, then blanks."""
    return ((kind + "".join(str(value).rjust(width, "0") for value, width in totals)).ljust(80), b"")


def whole(bundles: list[list[Check]], level: str = "03") -> list[Plain]:
    """A file of one cash letter. 70: 3-6, 7-18, 19-30, 31-35; 90: 3-8, 9-16, 17-30, 31-39; 99: 3-8, 9-16, 17-24, 25-40."""
    records = [header(level), letter()]
    for number, checks in enumerate(bundles, 1):
        records.append(bundle(number))
        for check in checks:
            records += check.records()
        valid = sum(c.cents for c in checks if c.valid == "1" and not c.reason)
        images = sum(len(c.images) for c in checks)
        cents = sum(c.cents for c in checks)
        records.append(control("70", (len(checks), 4), (cents, 12), (valid, 12), (images, 5)))
    every = [check for checks in bundles for check in checks]
    cents, images = sum(c.cents for c in every), sum(len(c.images) for c in every)
    records.append(control("90", (len(bundles), 6), (len(every), 8), (cents, 14), (images, 9)))
    records.append(control("99", (1, 6), (len(records) + 1, 8), (len(every), 8), (cents, 16)))
    return records


CODECS = {"cp037": "cp037", "ascii": "ascii", "cp1047": "cp037"}
"""Python has no code page 1047; of the characters used here none differs from code page 37."""


def raw(records: list[Plain], encoding: str = "cp037") -> list[bytes]:
    """The bytes of each record, without what keeps them apart."""
    codec, found = CODECS[encoding], []
    for text, data in records:
        signature, mark, image = data.partition(b"\0LENGTH\0")
        found.append(
            text.encode(codec) + (signature + str(len(image)).rjust(7, "0").encode(codec) + image if mark else b"")
        )
    return found


def file(records: list[Plain], framing: str = "prefixed", encoding: str = "cp037", ending: bytes = b"\n") -> bytes:
    """The whole file."""
    parts = raw(records, encoding)
    if framing == "prefixed":
        return b"".join(struct.pack(">I", len(part)) + part for part in parts)
    if framing == "lines":
        return b"".join(part + ending for part in parts)
    return b"".join(parts)


SMALL = whole(
    [
        [
            Check(4510, endorsers=["071098973", "031097765"], images=[TIFF, TIFF[:300]], sequence="0001"),
            Check(123456, on_us="00*5601122/", auxiliary="001044", valid="3", correction="3", sequence="0002"),
        ],
        [
            Check(999, reason="A", auxiliary="77", endorsers=["071098973", "031097765"], images=[TIFF[:64]]),
            Check(1, epc="6", on_us="123-456-789/55", correction=" ", valid="2", sequence="0004"),
        ],
    ]
)
"""Two bundles: a check with everything, one that was repaired, a return, a remotely created check."""
