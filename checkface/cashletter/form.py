"""How a cash letter is written down: what keeps its records apart, and in which characters they are.

Between banks each record follows a four-byte length, most significant byte first, and the characters are EBCDIC (code
page 37, some files 1047); by agreement ASCII. Files that went through other hands have records of 80 bytes on end, or
line ends. Every encoding here stands for each byte with one character and back, so binary fields survive it.

>>> detect(b"\\0\\0\\0P" + "0103T07109897303109776520261125".encode("cp037"))
Form(framing='prefixed', encoding='cp037', ending=b'')
>>> detect(b"id,micr,date")
"""

import re
from typing import Final, Literal, NamedTuple

from checkface.patterns import lazily

Framing = Literal["prefixed", "fixed", "lines"]
Encoding = Literal["cp037", "cp1047", "ascii"]

#: Bytes of the length before each record.
PREFIX: Final = 4
#: Enough of a file to tell its form by.
HEAD: Final = 96

_SWAPPED = bytes.maketrans(b"\xad\xba\xbd\xbb\x5f\xb0", b"\xba\xad\xbb\xbd\xb0\x5f")
"""Code page 1047 is code page 37 with brackets, caret and their partners exchanged: IBM code page charts."""
#: Line ends once decoded: in EBCDIC also new line (0x15), and the line feed of ASCII (0x0A).
_ENDS = {"ascii": lazily(r"\r?\n"), "cp037": lazily("\r?[\n\x85\x8e]"), "cp1047": lazily("\r?[\n\x85\x8e]")}
_EIGHTY = b"\0\0\0P"
"""The length before a record of 80 bytes."""
_START = lazily(r"01[0-9]{2}[A-Z][0-9]{3}")


class Form(NamedTuple):
    """Framing, encoding and, where lines end, with which bytes."""

    framing: Framing
    encoding: Encoding
    ending: bytes = b""

    def __str__(self) -> str:
        framing = {
            "prefixed": "a length before each record", "fixed": "records on end", "lines": "a line for each record",
        }[self.framing]  # fmt: skip
        page = {"cp037": "EBCDIC (code page 37)", "cp1047": "EBCDIC (code page 1047)", "ascii": "ASCII"}[self.encoding]
        return f"{framing}, {page}"

    def decode(self, raw: bytes) -> str:
        """One character for each byte."""
        return decode(raw, self.encoding)

    def encode(self, text: str) -> bytes:
        """One byte for each character. Raises ValueError for a character the encoding does not have."""
        return encode(text, self.encoding)

    def end(self, text: str) -> int:
        """How many characters at the start of *text* end a line; 0 if none does."""
        found = _ENDS[self.encoding].match(text)
        return found.end() if found else 0

    def next_end(self, text: str) -> tuple[int, int]:
        """Where the first line end of *text* starts and ends; both its length if there is none."""
        found = _ENDS[self.encoding].search(text)
        return found.span() if found else (len(text), len(text))


def decode(raw: bytes, encoding: Encoding) -> str:
    """One character for each byte; what ASCII has not is taken as Latin-1."""
    if encoding == "ascii":
        return raw.decode("latin-1")
    return (raw.translate(_SWAPPED) if encoding == "cp1047" else raw).decode("cp037")


def encode(text: str, encoding: Encoding) -> bytes:
    """What :func:`decode` read. Raises ValueError for a character that is none of its 256."""
    if encoding == "ascii":
        return text.encode("latin-1")
    raw = text.encode("cp037")
    return raw.translate(_SWAPPED) if encoding == "cp1047" else raw


def detect(head: bytes, ebcdic: Encoding = "cp037") -> Form | None:
    """The form of a file that starts with *head* (:data:`HEAD` bytes of it); None if it does not start with a record.

    Digits and letters do not tell the two code pages apart: *ebcdic* names the one to read EBCDIC by.
    """
    encodings: tuple[Encoding, ...] = ("ascii", ebcdic)
    for encoding in encodings:
        if decode(head[PREFIX : PREFIX + 2], encoding) == "01":
            return Form("prefixed", encoding)
    if head.startswith(_EIGHTY):
        # The header is damaged or missing; the type of the first or of the second record still tells the encoding.
        second = head[2 * PREFIX + 80 :] if head[PREFIX + 80 :].startswith(_EIGHTY) else b""
        for encoding in encodings:
            if any(re.match("[0-9]{2}", decode(each, encoding)) for each in (head[PREFIX:], second)):
                return Form("prefixed", encoding)
    for encoding in encodings:
        if decode(head[:2], encoding) == "01":
            form = Form("fixed", encoding)
            start, stop = form.next_end(decode(head, encoding))
            return Form("lines", encoding, head[start:stop]) if stop > start else form
    return None


def is_letter(head: bytes) -> bool:
    """Whether a file that starts with *head*, eight bytes or more, is meant to be a cash letter.

    No table and no text starts like one: with three zero bytes, or with a file header up to a routing number.
    """
    form = detect(head)
    if form is None or form.framing == "prefixed":
        return form is not None
    return bool(_START.match(form.decode(head)))
