"""A binary stream read once, forwards, with a look ahead: nothing is kept that was passed."""

from __future__ import annotations

from typing import Protocol

_CHUNK = 1 << 16


class Stream(Protocol):
    """Anything that gives bytes, such as a file opened in binary mode, a pipe or an upload."""

    def read(self, size: int = -1, /) -> bytes:
        """At most *size* bytes; empty at the end."""
        ...


class Source:
    """*stream* from where it stands. ``offset`` counts the bytes taken."""

    def __init__(self, stream: Stream) -> None:
        self.offset = 0
        self._stream = stream
        self._ahead = bytearray()
        self._ended = False

    def at(self, start: int, size: int) -> bytes:
        """*size* bytes from *start* bytes ahead; fewer at the end of the stream."""
        self._fill(start + size)
        return bytes(self._ahead[start : start + size])

    def take(self, size: int) -> bytes:
        """The next *size* bytes; fewer at the end of the stream."""
        taken = self.at(0, size)
        del self._ahead[: len(taken)]
        self.offset += len(taken)
        return taken

    def skip(self, size: int) -> int:
        """Pass over *size* bytes without keeping them; how many there were."""
        passed = min(size, len(self._ahead))
        del self._ahead[:passed]
        while passed < size and (chunk := self._read(min(_CHUNK, size - passed))):
            passed += len(chunk)
        self.offset += passed
        return passed

    def _fill(self, size: int) -> None:
        while len(self._ahead) < size and (chunk := self._read(_CHUNK)):
            self._ahead += chunk

    def _read(self, size: int) -> bytes:
        # A terminal may go on after its end: the end once seen stays.
        chunk = b"" if self._ended else self._stream.read(size)
        self._ended = not chunk
        return chunk
