"""The package a workbook comes in: a ZIP archive of XML parts, held to bounds before anything is unpacked.

Nothing outside the archive is ever followed, and no part may declare entities: the Open Packaging Conventions
(ISO/IEC 29500-2) forbid document type declarations. Part names and elements: ISO/IEC 29500-1.
"""

from __future__ import annotations

import struct
import zipfile
import zlib
from collections.abc import Callable, Iterator, Mapping
from typing import BinaryIO, Final
from xml.parsers import expat

from checkface.audit.source import InputError

WORKBOOK: Final = "xl/workbook.xml"
#: Most bytes unpacked: of a sheet, which is read as it comes; of any other part, which is held; of the whole.
SHEET, PART, WHOLE = 1 << 28, 1 << 26, 1 << 29
#: How far into a part its first element may stand.
_PROLOG: Final = 1 << 16
_STEP: Final = 1 << 16

#: What broken archives and broken XML raise.
ERRORS: Final = (
    zipfile.BadZipFile, zlib.error, struct.error, expat.ExpatError, EOFError, OSError, ValueError, LookupError,
    OverflowError, NotImplementedError,
)  # fmt: skip
#: Called with the local name of an element and its attributes.
Started = Callable[[str, Mapping[str, str]], None]


def opened(stream: BinaryIO) -> zipfile.ZipFile:
    """The archive *stream*, within bounds. Raises :class:`InputError` for what is no workbook or no safe one."""
    try:
        archive = zipfile.ZipFile(stream)
    except ERRORS:
        raise InputError("Expected a workbook, read a damaged or cut off ZIP archive.") from None
    names = archive.namelist()
    if WORKBOOK not in names:
        what = "a binary workbook (.xlsb); save it as .xlsx" if "xl/workbook.bin" in names else "another ZIP archive"
        if "content.xml" in names:
            what = "an OpenDocument file; save it as .xlsx"
        raise InputError(f"Expected a workbook (.xlsx), read {what}.")
    if len(set(names)) < len(names):
        raise InputError("Expected each part of the workbook once, read one twice.")
    whole = 0
    for part in archive.infolist():
        whole += part.file_size
        limit = SHEET if part.filename.startswith("xl/worksheets/") else PART
        if part.file_size > limit or whole > WHOLE:
            raise InputError(f"Expected a workbook part of at most {limit:,} bytes unpacked, read a larger: a bomb?")
        if part.flag_bits & 1:
            raise InputError("Expected a workbook without a password, read an encrypted one.")
        if part.compress_type not in {zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED}:
            raise InputError("Expected a workbook packed by deflation, read another method.")
    for part in archive.infolist():
        _check_prolog(archive, part)
    return archive


class Enough(Exception):  # noqa: N818 - it says that all is well
    """Raised by a handler of :func:`scan` that has seen all it wanted."""


def chunks(archive: zipfile.ZipFile, part: str) -> Iterator[bytes]:
    """The bytes of *part*, unpacked as they are asked for."""
    with archive.open(part) as stream:
        while step := stream.read(_STEP):
            yield step


def scan(archive: zipfile.ZipFile, part: str, started: Started) -> None:
    """Read *part* as it comes, telling *started* of each element, until it raises :class:`Enough`."""
    parser = expat.ParserCreate()
    parser.StartElementHandler = lambda name, given: started(name.rpartition(":")[2], given)
    try:
        for step in chunks(archive, part):
            parser.Parse(step)
        parser.Parse(b"", True)
    except Enough:
        return


def _check_prolog(archive: zipfile.ZipFile, part: zipfile.ZipInfo) -> None:
    """Refuse *part* if it declares a document type before its first element. What is no XML is left to be found out."""
    parser = expat.ParserCreate()
    seen: list[str] = []

    def saw(what: str) -> None:
        seen.append(what)
        raise Enough

    parser.StartDoctypeDeclHandler = lambda *_: saw("declaration")
    parser.StartElementHandler = lambda *_: saw("element")
    try:
        with archive.open(part) as stream:
            start = stream.read(_PROLOG)
        parser.Parse(start)
    except (Enough, expat.ExpatError):
        pass
    except ERRORS:
        raise InputError("Expected a workbook, read a damaged or cut off ZIP archive.") from None
    else:
        if len(start) == _PROLOG:
            raise InputError("Expected a workbook of XML parts, read one whose first element never comes.")
    if "declaration" in seen:
        raise InputError("Expected a workbook without document type declarations, read one: it may be a bomb.")
