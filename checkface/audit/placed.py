"""What stands on one line of a file or in one row of a sheet: a tender, or what was skipped and why.

A fault of checkface itself over one row is that row's own and costs no other:

>>> import checkface
>>> guarded(7, lambda: 1 // 0)
Skipped(line=7, reason='A fault in checkface itself, please report it: ZeroDivisionError in <lambda>, line 1', ...)
>>> guarded(7, lambda: checkface.parse({"face": 1}))
Skipped(line=7, reason='face: Expected keys and values, read a number', sheet='', flaw=False)
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Final, NamedTuple, Protocol, TypeVar

from checkface.assessment import TenderError
from checkface.audit.source import InputError
from checkface.mistakes import unforeseen
from checkface.policy import PolicyError
from checkface.rules.history import HistoryError
from checkface.tender import Tender

_T = TypeVar("_T")
#: What is no fault of one row: the file, the house policy, the past, and the disk or the pipe that is written to.
_OF_ALL: Final = (InputError, PolicyError, HistoryError, OSError)


class Placed(Protocol):
    """Whatever stands on a line of a file, or in a row of a sheet."""

    @property
    def line(self) -> int: ...
    @property
    def sheet(self) -> str: ...


class Item(NamedTuple):
    """One tender and the line of the file it starts on, or the row of the ``sheet`` of a workbook."""

    line: int
    tender: Tender
    sheet: str = ""


class Skipped(NamedTuple):
    """One row that is no tender: its line and one sentence saying why. It quotes no account or document number.

    A ``flaw`` of a cash letter is no row: the check it stands in, if any, has an answer of its own.
    """

    line: int
    reason: str
    sheet: str = ""
    flaw: bool = False

    @property
    def is_file(self) -> bool:
        """Whether no single row was skipped but the file, or all of it behind the rows before: its line is 0."""
        return self.line == 0 and not self.flaw


def place(row: Placed) -> str:
    """Where *row* stands in its file: the number of its line or row, behind the name of its sheet if it has one."""
    return f"{row.sheet}!{row.line}" if row.sheet else str(row.line)


def guarded(line: int, make: Callable[[], _T], sheet: str = "") -> _T | Skipped:
    """What *make* gives for the row at *line*; the row skipped if it is no tender, or by a fault of checkface itself.

    What concerns every row is raised: :class:`InputError`, ``PolicyError``, ``HistoryError`` and ``OSError``.
    """
    try:
        return make()
    except TenderError as error:
        return Skipped(line, str(error), sheet)
    except _OF_ALL:
        raise
    except Exception as error:
        return Skipped(line, unforeseen(error), sheet)


def with_day(tender: Tender, on: date | None) -> Tender:
    """*tender* with *on* as its day if it carries none."""
    if on is None or tender.counter.on is not None:
        return tender
    counter = tender.counter.model_copy(update={"on": on})
    return tender.model_copy(update={"counter": counter})
