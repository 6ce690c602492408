"""What form a file has, told by how it begins and only then by its name; and the table files, opened.

Parquet and workbooks need to be read back and forth: they come from a seekable file, text from any stream of lines.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import PurePath
from typing import BinaryIO, Final, Literal, cast

from checkface.audit.source import InputError, Stream
from checkface.audit.typed import Batch, Headings, Tell

Form = Literal["csv", "jsonl", "parquet", "xlsx"]
TABLES: Final = ("parquet", "xlsx")

_NAMED: Final[dict[str, Form]] = {
    ".csv": "csv", ".tsv": "csv", ".txt": "csv", ".jsonl": "jsonl", ".ndjson": "jsonl",
    ".parquet": "parquet", ".pq": "parquet", ".xlsx": "xlsx", ".xlsm": "xlsx",
}  # fmt: skip
_ZIP: Final = (b"PK\x03\x04", b"PK\x05\x06")
#: The head of an OLE compound file: a workbook of before 2007, or a newer one behind a password.
_OLE: Final = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
#: Bytes from the start that tell a table file.
START: Final = 8
#: Bytes of a whole file that are held in memory before they go to a temporary one.
HELD: Final = 1 << 24
_STEP: Final = 1 << 16


def named(name: str) -> Form | None:
    """The form that the ending of a file's *name* stands for."""
    return _NAMED.get(PurePath(name).suffix.lower())


def told(start: bytes, form: Form | None) -> Form | None:
    """The form of a file that begins with *start* and is named as *form*. Raises :class:`InputError`."""
    if not start:
        return None
    if start.startswith(b"PAR1"):
        return "parquet"
    if start.startswith(_ZIP):
        return "xlsx"
    if start.startswith(b"PARE"):
        raise InputError("Expected Parquet in the clear, read an encrypted file.")
    if start.startswith(_OLE):
        what = "a workbook of before 2007 (.xls) or one with a password"
        raise InputError(f"Expected a workbook (.xlsx), read {what}; save it as .xlsx without a password.")
    if form in TABLES:
        raise InputError(f"Expected {'Parquet' if form == 'parquet' else 'a workbook (.xlsx)'}, read something else.")
    return form


def opened(table: BinaryIO, form: Form, headings: Headings, sheet: str | None, tell: Tell) -> Batch:
    """The rows of the table file *table*. Raises :class:`InputError`, also where the ``audit`` extra is missing."""
    require()
    if form == "parquet":
        from checkface.audit import parquet

        return parquet.read(table, headings, tell)
    from checkface.audit import workbook

    return workbook.read(table, headings, sheet, tell)


@contextmanager
def seekable(stream: Stream, start: bytes) -> Iterator[BinaryIO]:
    """*stream*, of which *start* has been taken, from its beginning: itself, or what a pipe carries, set down first."""
    if getattr(stream, "seekable", bool)():
        whole = cast(BinaryIO, stream)
        whole.seek(0)
        yield whole
        return
    from tempfile import SpooledTemporaryFile

    with SpooledTemporaryFile(HELD) as copy:
        copy.write(start)
        while part := stream.readline(_STEP):
            copy.write(part)
        copy.seek(0)
        yield cast(BinaryIO, copy)


def require() -> None:
    """Refuse in one sentence, an :class:`InputError`, where what table files need is not installed."""
    try:
        import openpyxl  # noqa: F401
        import pyarrow  # noqa: F401
    except ImportError:
        raise InputError("Expected the audit extra to be installed: pip install 'checkface[audit]'.") from None
