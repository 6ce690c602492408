"""``checkface examine --replay``: what would be answered differently today."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from checkface import audit
from checkface.cells import dumps, shown
from checkface.cli import terminal
from checkface.cli.failure import DONE, FLAGGED, Failure
from checkface.findings import Disposition
from checkface.policy import Policy


def replayed(
    file: Path, policy: Policy, form: str, output: Path | None, *inputs: Path | None, fail_on: Disposition | None = None
) -> int:
    """Write what has changed, never over *file* or *inputs*, and return the exit code: 1 from *fail_on* on."""
    count = changed = skipped = strict = 0
    others: set[str] = set()
    with terminal.results(output, file, *inputs) as out:
        for change in _changes(file, policy):
            if isinstance(change, audit.Skipped):
                skipped += 1
                terminal.warn(f"{terminal.name_of(file)}:{change.line}: skipped. {change.reason}")
                continue
            count += 1
            strict += fail_on is not None and change.after.disposition >= fail_on
            others.update(change.remade_with)
            if change.reasons or change.moved:
                changed += 1
                print(as_json(change) if form == "json" else as_text(change), file=out)
    made = f" Made with other {', '.join(part for part in audit.MADE_WITH if part in others)}." if others else ""
    terminal.warn(f"{count} judged again, {changed} changed.{made}")
    return FLAGGED if skipped or strict else DONE


def _changes(file: Path, policy: Policy) -> Iterator[audit.Change | audit.Skipped]:
    try:
        with terminal.source(file) as stream:
            yield from audit.replay(stream, policy)
    except audit.InputError as error:
        raise Failure(f"{terminal.name_of(file)}: {error}") from None


def as_text(change: audit.Change) -> str:
    """One line: where, which, from what to what, and why."""
    answer = str(change.after.disposition)
    if change.moved:
        answer = f"{change.before.disposition} -> {answer}"
    return f"line {change.line}  {shown(change.id) or '-'}  {answer}  {'; '.join(map(shown, change.reasons))}"


def as_json(change: audit.Change) -> str:
    """The same for programs."""
    return dumps(
        {
            "line": change.line,
            "id": change.id,
            "before": str(change.before.disposition),
            "after": str(change.after.disposition),
            "reasons": list(change.reasons),
            "made_with_other": list(change.remade_with),
        }
    )
