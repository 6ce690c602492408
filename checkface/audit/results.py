"""One line a tender for other programs: CSV for a spreadsheet, JSON Lines with the whole assessment."""

from __future__ import annotations

import csv
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, TextIO, TypeAlias

from checkface.audit.items import Skipped
from checkface.audit.run import Assessed, Result
from checkface.cells import dumps, inert, shown

if TYPE_CHECKING:
    from checkface.audit.across import AuditFinding

#: What has a row of its own: a check of a file, or what checks show together, at the first of its places.
Row: TypeAlias = "Result | AuditFinding"
HEADINGS = ("file", "line", "id", "disposition", "rules", "unread", "reason")


def writer(stream: TextIO, form: str, *, reveal: bool = False) -> Callable[[str, Row], None]:
    """A function that writes the result of one line of one file to *stream*, as ``"csv"`` or ``"jsonl"``."""
    if form == "csv":
        table = csv.writer(stream, lineterminator="\n")
        table.writerow(HEADINGS)
        return lambda file, result: table.writerow(map(inert, cells(file, result)))
    return lambda file, result: print(dumps(_wire(file, result, reveal)), file=stream)


def cells(file: str, result: Row) -> tuple[str, ...]:
    """What stands under :data:`HEADINGS` for one result, with nothing in it that a program acts upon or nobody sees."""
    return tuple(map(shown, _cells(file, result)))


def _cells(file: str, result: Row) -> tuple[str, ...]:
    if isinstance(result, Skipped):
        return file, str(result.line), "", _skipped(result), "", "", result.reason
    if not isinstance(result, Assessed):
        line = "" if result.line is None else str(result.line)
        return file, line, result.id, "across", f"{result.effect} {result.rule}", "", result.message
    found = result.assessment
    named = " | ".join(f"{finding.effect} {finding.rule}" for finding in found.findings)
    reason = found.decision.for_house
    return file, str(result.line), found.id, str(found.disposition), named, " | ".join(found.unread), reason


def _skipped(result: Skipped) -> str:
    return "flaw" if result.flaw else "skipped"


def _wire(file: str, result: Row, reveal: bool) -> dict[str, Any]:
    if not isinstance(result, Assessed | Skipped):
        return {"across": result.wire()}
    place: dict[str, Any] = {"file": file, "line": result.line} | ({"sheet": result.sheet} if result.sheet else {})
    if isinstance(result, Skipped):
        return place | {_skipped(result): result.reason}
    return place | result.assessment.model_dump(reveal=reveal)
