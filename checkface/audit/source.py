"""The lines of a file of tenders, guarded: a file that is not text is refused in one sentence.

Lines are taken one at a time and never beyond a limit, so a hostile file costs no memory. A byte-order mark and both
line ends are taken as they come.
"""

from __future__ import annotations

import codecs
from collections import deque
from typing import Protocol

#: Most bytes one line, or one row of several lines, may have; a check with everything on it has about a thousand.
LIMIT = 1 << 20


class InputError(ValueError):
    """A file that cannot be read on as a whole: one sentence, naming the line where there is one."""


class Stream(Protocol):
    """Anything that gives bytes line by line, such as a file opened in binary mode."""

    def readline(self, limit: int = -1, /) -> bytes:
        """The next line with its end, at most *limit* bytes of it; empty at the end."""
        ...


class Lines:
    """The numbered lines of *stream*; lines can be given back. Raises :class:`InputError` for what is not text.

    ``start`` are bytes of the first line that have been taken from the stream already.
    """

    def __init__(self, stream: Stream, start: bytes = b"") -> None:
        self._stream = stream
        self._start = start
        self._back: deque[tuple[int, str]] = deque()
        self._number = 0

    def take(self) -> tuple[int, str] | None:
        """Number and text of the next line, its end made ``\\n``; ``None`` at the end of the file."""
        if self._back:
            return self._back.popleft()
        raw, self._start = self._start, b""
        if not raw.endswith(b"\n"):
            raw += self._stream.readline(LIMIT + 1 - len(raw))
        if not raw:
            return None
        self._number += 1
        return self._number, _text(self._number, raw)

    def give_back(self, lines: list[tuple[int, str]]) -> None:
        """Put *lines* back, to be taken again in the same order."""
        self._back.extendleft(reversed(lines))


def _text(number: int, raw: bytes) -> str:
    if number == 1:
        if raw.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
            raise InputError("Expected text in UTF-8, read UTF-16; save the file as UTF-8.")
        raw = raw.removeprefix(codecs.BOM_UTF8)
    if b"\0" in raw:
        raise InputError(f"Line {number}: Expected text in UTF-8, read a zero byte; this looks like a binary file.")
    if len(raw) > LIMIT:
        raise InputError(f"Line {number}: Expected at most {LIMIT:,} bytes, read a longer line.")
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError as error:
        byte = raw[error.start]
        wanted = "Expected text in UTF-8"
        raise InputError(f"Line {number}: {wanted}, read the byte 0x{byte:02X}; save the file as UTF-8.") from None
    return text[:-2] + "\n" if text.endswith("\r\n") else text
