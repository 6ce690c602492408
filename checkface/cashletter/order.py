"""The order of a cash letter: which record may follow which, and the items and totals that come of it.

A file (01 ... 99) holds cash letters (10 ... 90), which hold bundles (20 ... 70) of checks (25) and returns (31). A
check has its addenda 26, 27, 28, a return 32 to 35, in that order; then come the views, 50, 52 and perhaps 54. Credits
(61, 62) stand in a cash letter or a bundle, routing number summaries (85) behind the bundles, user records (68)
anywhere in the file.

A record out of place is reported and reading goes on: nothing that was read before or comes after is lost by it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from typing import Final

from checkface.cashletter.item import KINDS, Item, day
from checkface.cashletter.record import Flaw, Record
from checkface.cashletter.totals import RECORDS, Count, Part, Totals, held, readable, totals
from checkface.span import Fault, Span

Entry = Item | Totals | Flaw

_PARTS: Final[tuple[Part, ...]] = ("file", "letter", "bundle")
_OPENS: Final[dict[str, Part]] = {opens: part for part, (opens, _) in RECORDS.items()}
_CLOSES: Final[dict[str, Part]] = {closes: part for part, (_, closes) in RECORDS.items()}
_ADDENDA: Final = {"25": ("26", "27", "28"), "31": ("32", "33", "34", "35")}
_COUNTS: Final = {"25": "Check Detail Record Addendum Count", "31": "Return Record Addendum Count"}
_VIEWS: Final = {"50": ("50", "52", "54"), "52": ("50",), "54": ("50", "52")}
"""What may stand before each record of a view, besides the item and its addenda before the first 50."""
#: Most records, and most bytes, that are kept of one item: 99 addenda and some twenty views.
MOST_RECORDS: Final = 160
MOST_BYTES: Final = 1 << 26


def items(entries: Iterable[Record | Flaw]) -> Iterator[Entry]:
    """The items of a cash letter, the totals behind them, and every flaw: those of *entries* and those of the order.

    *entries* is what :func:`~checkface.cashletter.reader.read` gives. One item at a time is kept.
    """
    return _Walk().over(entries)


class _Walk:
    def __init__(self) -> None:
        self._open: dict[Part, Count] = {}
        self._flawed: set[Part] = set()
        self._item: list[Record] = []
        self._bytes = 0
        self._adrift = False
        self._last: Record | None = None
        self._ended = False

    def over(self, entries: Iterable[Record | Flaw]) -> Iterator[Entry]:
        for entry in entries:
            if isinstance(entry, Flaw):
                yield entry
                if not entry.type:
                    # Bytes were passed over: what follows may belong to an item among them.
                    yield from self._finish()
                    self._adrift = True
                continue
            if "file" in self._open:
                self._open["file"].records += 1
            yield from self._one(entry)
            self._last = entry
        yield from self._end_of_file()

    def _one(self, record: Record) -> Iterator[Entry]:
        kind = record.type
        if kind in _OPENS:
            yield from self._opened(_OPENS[kind], record)
        elif kind in _CLOSES:
            yield from self._closed(_CLOSES[kind], record)
        elif kind in KINDS:
            yield from self._finish()
            needed: tuple[Part, ...] = ("letter",) if KINDS[kind] == "credit" else ("bundle", "letter")
            if needed[0] not in self._open:
                yield _misplaced(record, f"an open {' in a '.join(map(_name, needed))}")
            self._item, self._bytes, self._adrift = [record], len(record.text), False
        elif kind == "85":
            yield from self._finish()
            if "letter" not in self._open or "bundle" in self._open:
                yield _misplaced(record, "a cash letter whose bundles are closed")
        elif kind == "68":
            if self._item:
                yield from self._keep(record)
            elif "file" not in self._open:
                yield _misplaced(record, "an open file")
        elif record.layout is None:
            # It may have been the item that what follows belongs to.
            yield from self._finish()
            self._adrift = True
        else:
            yield from self._belonging(record)

    def _belonging(self, record: Record) -> Iterator[Entry]:
        """An addendum, or a record of a view."""
        kind = record.type
        if kind == "52":
            self._count().images += 1
        if not self._item:
            if not self._adrift:
                yield _misplaced(record, "an item")
            return
        own = self._item[0].type
        before = next(each.type for each in reversed(self._item) if each.type != "68")
        addenda = _ADDENDA.get(own, ())
        if kind in addenda:
            fitting: tuple[str, ...] = (own, *(each for each in addenda if each <= kind))
        elif kind in _VIEWS:
            fitting = (own, *addenda, *_VIEWS[kind]) if kind == "50" else _VIEWS[kind]
        else:
            yield _misplaced(record, "an item of its own kind", f"record {own}")
            return
        if before not in fitting:
            yield _misplaced(record, f"record {' or '.join(fitting)}", f"record {before}")
        yield from self._keep(record)

    def _keep(self, record: Record) -> Iterator[Flaw]:
        self._bytes += len(record.text) + len(record.data)
        if len(self._item) < MOST_RECORDS and self._bytes <= MOST_BYTES:
            self._item.append(record)
        else:
            expected = f"at most {MOST_RECORDS} records of one item, and {MOST_BYTES:,} bytes"
            yield _flaw(record, Fault("letter-too-many", Span(0, 2), expected, "more; this one is left out"))

    def _finish(self) -> Iterator[Entry]:
        """The item that is open is complete."""
        if not self._item:
            return
        own, records = self._item[0], tuple(self._item)
        self._item = []
        if own.type in _COUNTS:
            declared = own.number_in(_COUNTS[own.type])
            read = sum(each.type in _ADDENDA[own.type] for each in records)
            if declared is not None and declared != read:
                fault = Fault("letter-addenda", Span(0, 2), f"{declared} addenda as declared for the item", f"{read}")
                assert own.layout is not None
                start = own.layout.places[_COUNTS[own.type]][0]
                yield Flaw(own.offset + start, own.number, own.type, _COUNTS[own.type], fault)
        item = Item(records, self._business_date())
        self._count().add_item(item)
        yield item

    def _count(self) -> Count:
        """Of the innermost open part."""
        for part in reversed(_PARTS):
            if part in self._open:
                return self._open[part]
        return Count(None)

    def _business_date(self) -> date | None:
        dated: tuple[tuple[Part, str], ...] = (
            ("bundle", "Bundle Business Date"), ("letter", "Cash Letter Business Date")
        )  # fmt: skip
        for part, name in dated:
            count = self._open.get(part)
            if count and count.opened and (digits := count.opened.field(name)).strip(" 0"):
                return day(digits)
        return None

    def _opened(self, part: Part, record: Record) -> Iterator[Entry]:
        yield from self._finish()
        self._adrift = False
        level = _PARTS.index(part)
        yield from self._close_down_to(level, record)
        if self._ended and part == "file":
            yield _flaw(record, Fault("letter-order", Span(0, 2), "the end of the file behind record 99", "record 01"))
        missing = [above for above in _PARTS[:level] if above not in self._open]
        if missing:
            yield _misplaced(record, f"an open {_name(missing[-1])}")
        for above in missing:
            self._open[above] = Count(None)
            self._flawed.add(above)
        self._open[part] = Count(record, records=int(part == "file"))
        self._flawed.discard(part)

    def _closed(self, part: Part, record: Record) -> Iterator[Entry]:
        yield from self._finish()
        self._adrift = False
        yield from self._close_down_to(_PARTS.index(part) + 1, record)
        if part not in self._open:
            yield _misplaced(record, f"an open {_name(part)}")
            return
        count = self._open.pop(part)
        wrong = list(held(part, count, record))
        yield from wrong
        yield from self._leave(
            part, count, record, agrees=not wrong and readable(part, record) and part not in self._flawed
        )
        self._ended = part == "file"

    def _leave(self, part: Part, count: Count, control: Record | None, *, agrees: bool) -> Iterator[Entry]:
        yield totals(part, count, control, agrees=agrees)
        above = _PARTS.index(part) - 1
        if above >= 0 and _PARTS[above] in self._open:
            self._open[_PARTS[above]].add_part(count)
            if not agrees:
                self._flawed.add(_PARTS[above])

    def _close_down_to(self, level: int, record: Record | None) -> Iterator[Entry]:
        """Close what should have been closed before *record*, or before the end of the file."""
        for part in reversed(_PARTS[level:]):
            if part in self._open:
                count = self._open.pop(part)
                closing = RECORDS[part][1]
                expected = f"record {closing} to close the {_name(part)}"
                if record is not None:
                    yield _flaw(record, Fault("letter-missing", Span(0, 2), expected, f"record {record.type}"))
                else:
                    assert self._last is not None
                    fault = Fault("letter-missing", Span(0, 0), expected, "the end of the file")
                    yield Flaw(self._last.end, self._last.number, "", "", fault)
                yield from self._leave(part, count, None, agrees=False)

    def _end_of_file(self) -> Iterator[Entry]:
        yield from self._finish()
        yield from self._close_down_to(0, None)


def _name(part: Part) -> str:
    return {"file": "file", "letter": "cash letter", "bundle": "bundle"}[part]


def _flaw(record: Record, fault: Fault) -> Flaw:
    return Flaw(record.offset, record.number, record.type, "", fault)


def _misplaced(record: Record, expected: str, read: str = "none") -> Flaw:
    return _flaw(record, Fault("letter-order", Span(0, 2), f"{expected} before record {record.type}", read))
