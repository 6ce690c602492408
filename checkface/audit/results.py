"""One line a tender for other programs: CSV for a spreadsheet, JSON Lines with the whole assessment."""

from __future__ import annotations

import csv
from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, Any, TextIO, TypeAlias, TypeVar

from checkface.audit.placed import Skipped, guarded
from checkface.audit.run import Assessed, Result
from checkface.cells import dumps, inert, shown

if TYPE_CHECKING:
    from checkface.audit.across import AuditFinding

#: What has a row of its own: a check of a file, or what checks show together, at the first of its places.
Row: TypeAlias = "Result | AuditFinding"
#: Writes the result of one row of the file so called. What is returned was written in its place: see :func:`writing`.
Write: TypeAlias = "Callable[[str, Row], Skipped | None]"
_T = TypeVar("_T")
HEADINGS = ("file", "line", "id", "disposition", "rules", "unread", "reason")


def writer(stream: TextIO, form: str, *, reveal: bool = False) -> Write:
    """What writes results to *stream*, as ``"csv"`` or ``"jsonl"``."""
    if form == "csv":
        table = csv.writer(stream, lineterminator="\n")
        table.writerow(HEADINGS)
        return writing(lambda file, result: [*map(inert, cells(file, result))], lambda _, row: table.writerow(row))
    return writing(
        lambda file, result: dumps(_wire(file, result, reveal)),
        lambda _, line: print(line, file=stream),
    )


def writing(render: Callable[[str, Row], _T], put: Callable[[Row, _T], object]) -> Write:
    """What hands to *put* what *render* makes of a result.

    A fault of checkface itself in the rendering of one check is put in its place, and returned to be counted.
    """

    def write(file: str, result: Row) -> Skipped | None:
        if not isinstance(result, Assessed):
            put(result, render(file, result))
            return None
        made = guarded(result.line, partial(render, file, result), result.sheet)
        if isinstance(made, Skipped):
            return write(file, made) or made
        put(result, made)
        return None

    return write


def cells(file: str, result: Row) -> tuple[str, ...]:
    """What stands under :data:`HEADINGS` for one result, with nothing in it that a program acts upon or nobody sees."""
    return tuple(map(shown, _cells(file, result)))


def _cells(file: str, result: Row) -> tuple[str, ...]:
    line = "" if (number := line_of(result)) is None else str(number)
    if isinstance(result, Skipped):
        return file, line, "", _skipped(result), "", "", result.reason
    if not isinstance(result, Assessed):
        return file, line, result.id, "across", f"{result.effect} {result.rule}", "", result.message
    found = result.assessment
    named = " | ".join(f"{finding.effect} {finding.rule}" for finding in found.findings)
    reason = found.decision.for_house
    return file, line, found.id, str(found.disposition), named, " | ".join(found.unread), reason


def line_of(result: Row) -> int | None:
    """The line or row of *result*; ``None`` for what has none."""
    return None if isinstance(result, Skipped) and result.is_file else result.line


def _skipped(result: Skipped) -> str:
    return "flaw" if result.flaw else "skipped"


def _wire(file: str, result: Row, reveal: bool) -> dict[str, Any]:
    if not isinstance(result, Assessed | Skipped):
        return {"across": result.wire()}
    place: dict[str, Any] = {"file": file, "line": line_of(result)} | ({"sheet": result.sheet} if result.sheet else {})
    if isinstance(result, Skipped):
        return place | {_skipped(result): result.reason}
    return place | result.assessment.model_dump(reveal=reveal)
