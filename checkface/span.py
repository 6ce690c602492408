"""Where something stands in a reading, and what is wrong there.

A reading is kept exactly as it was captured; everything a part finds in it is given as a
:class:`Span` into that raw text, so that a caret can be put under the very characters.
"""

from dataclasses import dataclass
from typing import NamedTuple


class Span(NamedTuple):
    """Half-open range of character offsets into the raw text of one reading."""

    start: int
    end: int

    def of(self, text: str) -> str:
        """The characters of *text* that the span covers."""
        return text[self.start : self.end]


@dataclass(frozen=True, slots=True)
class Fault:
    """A reading that could not be taken as what it should be. Bad paper is a value, never an exception.

    ``kind`` is a stable name of what is wrong (``"micr-transit-length"``); ``expected`` and ``read`` are noun
    phrases that complete "Expected ..., read ...". ``read`` counts or describes characters and never quotes an
    account, card or identification number.
    """

    kind: str
    span: Span
    expected: str
    read: str
    after: str = ""

    def __repr__(self) -> str:
        """What is wrong and where; what was read never stands in a log."""
        return f"Fault({self.kind!r}, {self.span})"

    @property
    def message(self) -> str:
        """One sentence: ``Expected X after Y, read Z.``"""
        place = f" after {self.after}" if self.after else ""
        return f"Expected {self.expected}{place}, read {self.read}."
