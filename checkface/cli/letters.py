"""``checkface read letter``: what stands in a file of scanned checks, and where it is not what it says of itself."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterable, Iterator
from functools import partial
from pathlib import Path
from typing import Any

from checkface import cashletter, masking, reading
from checkface.amounts import money
from checkface.audit.letters import micr_line, tender
from checkface.audit.placed import Skipped, guarded
from checkface.cashletter import Encoding, Flaw, Item, Reader, Totals
from checkface.cells import dumps, shown
from checkface.cli import terminal
from checkface.cli.failure import DONE, FLAGGED, Failure
from checkface.report import Paint
from checkface.span import Fault

#: Flaws of one kind in one field that are told one by one, unless all are wanted.
TOLD = 5
_Key = tuple[str, str, str]


def tell(file: Path, *, items: bool, ebcdic: Encoding, jsonl: bool, verbose: bool, reveal: bool) -> int:
    """Tell what stands in the cash letter at *file*. Raises :class:`Failure` for what is none."""
    with terminal.source(file) as stream:
        reader = cashletter.read(stream, ebcdic=ebcdic)
        page = _Lines(reveal) if jsonl else _Text(reveal, terminal.painter(sys.stdout))
        flaws: Counter[_Key] = Counter()
        headed = False
        for entry in cashletter.items(reader):
            if reader.form is None:
                assert isinstance(entry, Flaw)
                raise Failure(f"{terminal.name_of(file)}: {entry.fault.message}")
            if not headed:
                _print(page.head(reader))
                headed = True
            if isinstance(entry, Totals):
                _print(page.totals(entry))
            elif isinstance(entry, Item):
                lines = guarded(entry.number, partial(_listed, page, entry)) if items else []
                if isinstance(lines, Skipped):
                    flaws["fault", "", ""] += 1
                    terminal.warn(f"{terminal.name_of(file)}:{lines.line}: skipped. {lines.reason}")
                else:
                    _print(lines)
            else:
                key = (entry.fault.kind, entry.type, entry.field)
                flaws[key] += 1
                _print(page.flaw(entry) if verbose or flaws[key] <= TOLD else ())
    _print(page.tail(flaws, told=None if verbose else TOLD))
    return FLAGGED if flaws else DONE


def _listed(page: _Text | _Lines, item: Item) -> list[str]:
    return [*page.item(item)]


def _print(lines: Iterable[str]) -> None:
    for line in lines:
        print(line)


class _Text:
    """To be read: one line an entry, in columns."""

    def __init__(self, reveal: bool, paint: Paint) -> None:
        self._reveal, self._paint = reveal, paint

    def head(self, reader: Reader) -> Iterator[str]:
        level = cashletter.LEVELS.get(reader.level, "none of the standard's")
        yield f"form    {reader.form}"
        yield f"level   {shown(reader.level) or 'not read'}, {level}"
        yield f"use     {_use(reader)}"
        yield ""
        yield self._paint(f"  record  {'':28}{'items':>10}{'amount':>22}{'images':>10}", "quiet")

    def item(self, item: Item) -> Iterator[str]:
        cents = "not read" if item.cents is None else money(item.cents)
        what = f"{item.kind} {_sequence(item, self._reveal)}"
        told = [_line(item, self._reveal), _reading(item), _reason(item)]
        beside = "  ".join(part for part in told if part)
        yield f"{item.number:8}  {shown(what):28}{'':10}{cents:>22}{len(item.images):10}  {shown(beside)}"

    def totals(self, totals: Totals) -> Iterator[str]:
        what = {"bundle": "bundle", "letter": "cash letter", "file": "file"}[totals.part]
        name = shown(f"{what} {totals.name}".strip())
        counted = f"{totals.items:10,}{money(totals.cents):>22}{totals.images:10,}"
        told = "as declared" if totals.agrees else _declared(totals)
        credits = f", {totals.credits:,} credits" if totals.credits else ""
        number = totals.number or "-"
        yield self._paint(f"{number:>8}  {name:28}{counted}  {told}{credits}", "rule")

    def flaw(self, flaw: Flaw) -> Iterator[str]:
        yield f"{self._paint('    flaw', 'refer')}  {shown(flaw.message)}"

    def tail(self, flaws: Counter[_Key], told: int | None) -> Iterator[str]:
        yield ""
        total = flaws.total()
        for (kind, record, field), count in flaws.items():
            if told is not None and count > told:
                where = ", ".join(part for part in (f"type {record}" if record else "", field) if part) or kind
                yield f"{count - told:8,}  more of {shown(where)}; --verbose tells each"
        yield f"{total:,} flaw{'s' * (total != 1)}." if total else "No flaw found."


class _Lines:
    """For programs: one JSON object an entry, as they come."""

    def __init__(self, reveal: bool) -> None:
        self._reveal = reveal

    def head(self, reader: Reader) -> Iterator[str]:
        assert reader.form is not None
        form = {"framing": reader.form.framing, "encoding": reader.form.encoding, "level": reader.level}
        yield _json({"entry": "form", **form, "use": _use(reader)})

    def item(self, item: Item) -> Iterator[str]:
        yield _json({
            "entry": item.kind, "record": item.number, "offset": item.offset, "sequence": _sequence(item, self._reveal),
            "micr": _line(item, self._reveal), "routing": item.routing.strip(), "epc": item.epc.strip(),
            "amount": _dollars(item.cents), "micr_valid": item.micr_valid, "correction": item.correction,
            "return_reason": item.return_reason,
            "business_date": item.business_date.isoformat() if item.business_date else None,
            "endorsements": [
                {"routing": each.routing, "date": each.date.isoformat() if each.date else None, "first": each.first}
                for each in item.endorsements
            ],
            "images": [
                {"side": each.side, "format": each.format, "compression": each.compression,
                 "offset": each.place.offset if each.place else None, "length": each.place.length if each.place else 0}
                for each in item.images
            ],
        })  # fmt: skip

    def totals(self, totals: Totals) -> Iterator[str]:
        yield _json({
            "entry": totals.part, "record": totals.number or None, "name": totals.name, "items": totals.items,
            "amount": _dollars(totals.cents), "images": totals.images, "credits": totals.credits,
            "declared_items": totals.declared_items, "declared_amount": _dollars(totals.declared_cents),
            "agrees": totals.agrees,
        })  # fmt: skip

    def flaw(self, flaw: Flaw) -> Iterator[str]:
        yield _json({
            "entry": "flaw", "record": flaw.number or None, "offset": flaw.offset, "type": flaw.type,
            "field": flaw.field, "kind": flaw.fault.kind, "message": flaw.message,
        })  # fmt: skip

    def tail(self, flaws: Counter[_Key], told: int | None) -> Iterator[str]:
        untold = sum(max(0, count - told) for count in flaws.values()) if told is not None else 0
        yield _json({"entry": "end", "flaws": flaws.total(), "not_told": untold})


def _use(reader: Reader) -> str:
    mark = reader.header.field("Test File Indicator") if reader.header else ""
    return {"T": "test", "P": "production"}.get(mark, "not said")


def _declared(totals: Totals) -> str:
    if not totals.number:
        return "nothing declared"
    items = "?" if totals.declared_items is None else f"{totals.declared_items:,}"
    cents = "?" if totals.declared_cents is None else money(totals.declared_cents)
    return f"differs or holds a flaw; declared {items}, {cents}"


def _line(item: Item, reveal: bool) -> str:
    """The magnetic-ink line in Unicode, masked; the bare fields, masked wholly, where they make none."""
    line = micr_line(item)
    if isinstance(line, Fault):
        fields = " ".join(part.strip() for part in (item.auxiliary, item.routing, item.on_us) if part.strip())
        return fields if reveal else masking.number(fields)
    return line.raw if reveal else masking.line(line.raw, line)


def _sequence(item: Item, reveal: bool) -> str:
    """The sequence number by the rule for a tender's id: shown, but for an account or a card's number within."""
    if reveal:
        return item.sequence
    found = tender(item)
    known = None if isinstance(found, Skipped) else reading.read(found.tender)
    return masking.number(item.sequence) if known is None else masking.identifier(item.sequence, known)


def _reason(item: Item) -> str:
    return f"{item.return_reason} {item.returned_for.words if item.returned_for else ''}".strip()


def _reading(item: Item) -> str:
    said = {"2": "a field is missing", "3": "read error", "4": "read error, a field is missing"}.get(item.micr_valid)
    return ", ".join(part for part in (said, "repaired" if item.repaired else "") if part)


def _dollars(cents: int | None) -> str | None:
    return None if cents is None else f"{cents // 100}.{cents % 100:02}"


def _json(entry: dict[str, Any]) -> str:
    return dumps(entry)
