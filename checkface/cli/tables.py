"""``checkface tables``: the reference tables and where each comes from."""

from __future__ import annotations

import csv
import json
import textwrap
from collections.abc import Iterator
from difflib import get_close_matches
from typing import Annotated, Literal

from checkface import tables as library
from checkface.cli import terminal
from checkface.cli.failure import DONE, Failure
from checkface.cli.options import Output, help_for
from checkface.mistakes import quoted
from checkface.report import Paint, no_paint

_Form = Annotated[
    Literal["text", "csv", "json"], help_for(None, "text, or csv or json with the rows.", "FORM", name="--format")
]


def tables(
    name: Annotated[str | None, help_for(None, "One table; without it, all are listed.")] = None,
    /,
    *,
    format: _Form = "text",
    output: Output = None,
) -> int:
    """List the reference tables, each with its source, or show one.

    For example:

      checkface tables routing_prefix --format csv
    """
    try:
        found = [_load(name)] if name is not None else [library.load(each) for each in library.names()]
    except library.TableError as error:
        raise Failure(str(error)) from None
    with terminal.results(output) as out:
        if format == "json":
            wires = [_wire(table, rows=name is not None) for table in found]
            print(json.dumps(wires if name is None else wires[0], ensure_ascii=False, indent=2), file=out)
        elif format == "csv":
            if name is None or not found[0].rows:
                raise Failure("Expected the name of a table that has rows before --format csv, read another.")
            writer = csv.DictWriter(out, list(found[0].rows[0]), lineterminator="\n")
            writer.writeheader()
            writer.writerows(found[0].rows)
        else:
            paint, columns = terminal.painter(out), terminal.columns(out)
            print("\n\n".join("\n".join(_text(table, columns, paint)) for table in found), file=out)
    return DONE


def _load(name: str) -> library.Table:
    known = library.names()
    if name not in known:
        near = get_close_matches(name, known, 1)
        hint = f"; the nearest is {near[0]}" if near else ""
        raise Failure(f"Expected the name of a table, read {quoted(name)}{hint}. All are listed by: checkface tables")
    return library.load(name)


def _text(table: library.Table, columns: int, paint: Paint = no_paint) -> Iterator[str]:
    source = table.source
    yield f"{paint(table.name, 'rule')}  {_size(table)}"
    for heading, words in (
        ("from", source.authority), ("edition", source.edition), ("taken", source.taken), ("how", source.how),
        ("check", source.check), ("digest", table.digest),
    ):  # fmt: skip
        indent = f"  {heading:9}"
        yield from textwrap.wrap(words, columns, initial_indent=indent, subsequent_indent=" " * len(indent))


def _size(table: library.Table) -> str:
    return f"{len(table.rows)} rows" if table.rows else f"sections: {', '.join(table.data)}"


def _wire(table: library.Table, *, rows: bool) -> dict[str, object]:
    source = table.source
    wire: dict[str, object] = {
        "name": table.name,
        "source": {
            "authority": source.authority, "edition": source.edition, "taken": source.taken, "how": source.how,
            "check": source.check,
        },
        "digest": table.digest,
    }  # fmt: skip
    if rows:
        wire["rows" if table.rows else "data"] = [dict(row) for row in table.rows] or dict(table.data)
    return wire
