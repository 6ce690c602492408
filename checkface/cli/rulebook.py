"""``checkface rules`` and ``checkface explain``: the rule book, all of it or one rule."""

from __future__ import annotations

import json
from difflib import get_close_matches
from typing import Annotated, Literal

from checkface import report
from checkface.audit import across
from checkface.cli import terminal
from checkface.cli.failure import DONE, Failure
from checkface.cli.options import Output, help_for
from checkface.mistakes import quoted
from checkface.rules import book_digest
from checkface.rules import rules as every_rule

_Form = Annotated[Literal["text", "json"], help_for(None, "text or json.", "FORM")]


def rules(
    *,
    format: Annotated[
        Literal["text", "json", "html"],
        help_for(None, "text, json, or html, which is the whole book as one page.", "FORM"),
    ] = "text",
    output: Output = None,
) -> int:
    """List every rule: its name, its effect, with what force, and the fault it finds.

    Those of the last family are for an audit, and change no answer at the counter.

    The page to hand out, which needs no server and prints well:

      checkface rules --format html --output rules.html
    """
    every = _every()
    with terminal.results(output) as out:
        if format == "json":
            print(json.dumps([report.entry(rule) for rule in every], ensure_ascii=False, indent=2), file=out)
        elif format == "html":
            out.write(report.handout(every, book_digest()))
        else:
            print(report.table(every, columns=terminal.columns(out), paint=terminal.painter(out)), file=out)
    return DONE


def explain(
    rule: Annotated[str, help_for(None, "The name of a rule, such as amounts-disagree.")],
    /,
    *,
    format: _Form = "text",
    output: Output = None,
) -> int:
    """Explain one rule: what it asks, why, an example, what to do, and on whose authority."""
    every = {entry.id: entry for entry in _every()}
    found = every.get(rule.strip().lower().replace("_", "-"))
    if found is None:
        near = get_close_matches(rule, every, 1)
        hint = f"; the nearest is {near[0]}" if near else ""
        raise Failure(f"Expected the name of a rule, read {quoted(rule)}{hint}. All are listed by: checkface rules")
    with terminal.results(output) as out:
        if format == "json":
            print(json.dumps(report.entry(found), ensure_ascii=False, indent=2), file=out)
        else:
            print(report.explain(found, columns=terminal.columns(out), paint=terminal.painter(out)), file=out)
    return DONE


def _every() -> tuple[report.Explained, ...]:
    """The rules for the counter, then those for the auditor."""
    return (*every_rule(), *across.rules())
