"""What a typed cell of a table file says, as the text that the same cell of a CSV file would hold.

What a cell cannot say exactly is refused, never guessed: an amount of parts of cents, a day that is a bare number, a
magnetic-ink line that a spreadsheet has taken for a number and so robbed of its first noughts.

>>> from decimal import Decimal
>>> text("counter.amount", 45.1), text("counter.amount", Decimal("45")), text("face.serial", 1043.0)
('45.10', '45.00', '1043')
>>> text("counter.amount", 45.105)
Traceback (most recent call last):
checkface.audit.typed.CellError: Expected dollars and whole cents, read 45.105.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date, datetime, time, timedelta
from decimal import Decimal, InvalidOperation
from typing import Final, NamedTuple
from uuid import UUID

from checkface.audit import columns
from checkface.audit.rows import CELL
from checkface.digits import discreet
from checkface.tender import Face, Mark

MONEY: Final = frozenset({"face.figures", "counter.amount", "counter.purchase"})
#: Columns of days; a day at which something happened may carry the time of day, one on paper may not.
DAYS: Final = frozenset({"face.date", "counter.on", "documents.expires"})
MARKS: Final = frozenset(
    {f"face.{name}" for name, field in Face.model_fields.items() if field.default is Mark.ABSENT}
    | {"counter.authorization_signed", "documents.is_bearer"}
)
#: What is never a number, though every character of it may be a digit.
NEVER_NUMBERS: Final = frozenset({"face.micr", "face.fraction", "documents.barcode"})
#: Digits that may begin with noughts, which a number does not keep.
LABELS: Final = frozenset(
    {"id", "face.serial", "documents.number", "counter.store", "counter.lane", "counter.employee"}
)
#: Most digits of an amount that are quoted: what has more may be another number in the wrong column.
_QUOTED: Final = 6
#: An amount has at most nine digits before its point, as on the wire.
DOLLARS: Final = 10**9
#: Numbers from here on are not exact in a workbook, which keeps fifteen digits.
EXACT: Final = 10**15

#: Told what a reader of the file should know of it, in one sentence.
Tell = Callable[[str], None]


class CellError(ValueError):
    """A cell that says nothing usable: one sentence, quoting no account or document number."""


class TypedRow(NamedTuple):
    """One row: its ``line``, its ``cells`` as text, or the ``fault`` for which there are none.

    ``documents`` are those of a column that holds whole lists of them; ``None`` where there is no such column, or
    nobody asked.
    """

    line: int
    cells: tuple[str, ...] = ()
    fault: str = ""
    documents: tuple[Mapping[str, str], ...] | None = None

    def __repr__(self) -> str:
        return discreet(self)


class Batch(NamedTuple):
    """A table file, opened: the path of each column, the rows, and the sheet where there are several."""

    paths: tuple[str | None, ...]
    rows: Iterator[TypedRow]
    sheet: str = ""


class Headings(NamedTuple):
    """What the caller says of the headings; see :func:`checkface.audit.columns.resolve`."""

    renames: Mapping[str, str]
    ignored: Iterable[str]

    def known(self, heading: str) -> bool:
        """Whether *heading* names a column, by itself or because the caller says so."""
        return heading.strip() in {*self.renames.values(), *self.ignored} or columns.is_known(heading)

    def resolve(self, headings: list[str]) -> tuple[str | None, ...]:
        """The path of each heading, ``None`` for an ignored one. Raises :class:`InputError`."""
        return columns.resolve(headings, self.renames, self.ignored)


def texts(cells: Iterable[tuple[str, object]]) -> tuple[tuple[str, ...], list[str]]:
    """What each of *cells*, pairs of path and value, says; and a sentence for each that says nothing usable."""
    found, faults = [], []
    for path, value in cells:
        try:
            found.append(text(path, value))
        except CellError as error:
            found.append("")
            faults.append(f"{path}: {error}")
    return tuple(found), faults


def text(path: str, value: object) -> str:
    """What the cell *value* of the column *path* says. Raises :class:`CellError`."""
    if isinstance(value, bytes):
        value = _decoded(value)
    if isinstance(value, str):
        if len(value) > CELL:
            raise CellError(f"Expected at most {CELL:,} characters, read {len(value):,}.")
        return value
    if value is None:
        return ""
    if isinstance(value, bool) and path in MARKS:
        return "yes" if value else "no"
    if isinstance(value, (int, float, Decimal)) and not isinstance(value, bool):
        return _number(path, value)
    if isinstance(value, date) and path in DAYS:
        return _day(path, value)
    if isinstance(value, list) and path in columns.OF_LINES:
        return text(path, "\n".join(text(path, line) for line in value))
    if isinstance(value, UUID) and path in LABELS:
        return str(value)
    what = next((name for kind, name in _NAMES if isinstance(value, kind)), "something else")
    raise CellError(f"Expected {_wanted(path)}, read {what}.")


_NAMES: Final = (
    (bool, "a yes or no"), (datetime, "a day and time"), (date, "a day"), (time, "a time of day"),
    (timedelta, "a length of time"), (list, "a list"),
)  # fmt: skip


def _wanted(path: str) -> str:
    if path in MONEY:
        return "dollars and cents"
    if path in DAYS:
        return "a day"
    return "yes or no" if path in MARKS else "text"


def _number(path: str, value: float | Decimal) -> str:
    if path in MONEY:
        return _cents(value, signed=path.startswith("face."))
    if path in NEVER_NUMBERS:
        raise CellError("Expected text, read a number, which keeps no leading noughts; keep the column as text.")
    if path in DAYS:
        raise CellError("Expected a day, read a bare number; give the column the form of a date.")
    if isinstance(value, float) and not abs(value) < EXACT:
        raise CellError("Expected digits, read a number too long to be exact; keep the column as text.")
    if value != int(value):
        raise CellError(f"Expected {_wanted(path)}, read a number with a fraction.")
    # The number of a state has two digits (INCITS 38), so that its nought is not lost.
    return f"{int(value):02d}" if path == "documents.state" else str(int(value))


def _cents(value: float | Decimal, *, signed: bool) -> str:
    # The shortest text that names the number, as every spreadsheet shows it: 45.1, not 45.10000000000000142.
    exact = Decimal(str(value))
    # On paper anything may stand.
    if not signed and exact.is_finite() and not 0 <= exact < DOLLARS:
        wanted = "dollars of 0.00 or more" if exact < 0 else f"dollars below {DOLLARS:,}"
        raise CellError(f"Expected {wanted}, read {'a negative number' if exact < 0 else 'more'}.")
    try:
        cents = exact.quantize(Decimal("0.01"))
    except InvalidOperation:
        cents = None
    if cents is None or cents != exact:
        name = str(value)
        what = name if sum(map(str.isdigit, name)) <= _QUOTED else "parts of a cent; round it"
        raise CellError(f"Expected dollars and whole cents, read {what}.")
    return f"{cents or abs(cents):f}"


def _day(path: str, value: date) -> str:
    if not isinstance(value, datetime):
        return value.isoformat()
    # A moment of the tender has its day; a day on paper has no time, and one that has is something else.
    if path != "counter.on" and value.time() != time():
        raise CellError(f"Expected a day, read one with a time of day, {value:%H:%M:%S}.")
    return value.date().isoformat()


def _decoded(value: bytes) -> str:
    try:
        return value.decode("utf-8")
    except UnicodeDecodeError:
        raise CellError("Expected text in UTF-8, read other bytes.") from None
