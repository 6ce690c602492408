"""``checkface read``: what one part makes of one reading, with nothing judged."""

from __future__ import annotations

import datetime
import json
import sys
from collections.abc import Callable
from typing import Annotated, Literal

from cyclopts import App

from checkface import amounts, dates, micr, routing
from checkface.cli import options, terminal
from checkface.cli.failure import DONE, Failure
from checkface.cli.groups import GIVEN, OPTIONS
from checkface.cli.options import help_for
from checkface.cli.stdin import as_typed
from checkface.report.parts import Value, part, part_text

read = App(
    name="read",
    usage="Usage: checkface read COMMAND [OPTIONS] TEXT",
    help="Read one thing off a check and show what stands where; nothing is judged.",
    help_epilogue="",
    group_arguments=GIVEN,
    group_parameters=OPTIONS,
)

_Text = Annotated[str, help_for(None, "What is read on the check.")]
_Form = Annotated[Literal["text", "json"], help_for(None, "text, with carets, or json.", "FORM", name="--format")]


def read_micr(
    text: _Text,
    /,
    *,
    notation: Annotated[
        str | None, help_for(None, f"How its symbols are written: {', '.join(micr.NOTATIONS)}. Else detected.", "NAME")
    ] = None,
    format: _Form = "text",
    reveal: options.Reveal = False,
) -> int:
    """The magnetic-ink line: routing number, account, check number.

    For example:

      checkface read micr "T071098973T 45601122O 1043"
    """
    if notation is not None and notation not in micr.NOTATIONS:
        raise Failure(f"Expected one of {', '.join(micr.NOTATIONS)} after --notation, read {notation[:40]!r}.")
    return _show("micr", text, lambda raw: micr.read(raw, notation), format, reveal)


def read_routing(text: _Text, /, *, format: _Form = "text") -> int:
    """The nine digits of a routing number."""
    return _show("routing", text, routing.read, format)


def read_fraction(text: _Text, /, *, format: _Form = "text") -> int:
    """The fraction at the upper right, such as 70-9897/710."""
    return _show("fraction", text, routing.read_fraction, format)


def read_words(text: _Text, /, *, format: _Form = "text") -> int:
    """The amount in words, in English or Spanish."""
    return _show("words", text, amounts.read_words, format)


def read_figures(text: _Text, /, *, format: _Form = "text") -> int:
    """The amount in figures."""
    return _show("figures", text, amounts.read_figures, format)


def read_date(
    text: _Text,
    /,
    *,
    on: Annotated[str | None, help_for(None, "Day of tender, such as 2026-11-24; without it, today.", "DAY")] = None,
    format: _Form = "text",
) -> int:
    """The date as people write it."""
    day = options.day(on) or datetime.date.today()
    return _show("date", text, lambda raw: dates.read(raw, day), format)


def _show(name: str, typed: str, reader: Callable[[str], Value], form: str, reveal: bool = False) -> int:
    text = as_typed(typed) or ""
    value: Value = reader(text)
    told = part(name, text, value, reveal=reveal)
    if form == "json":
        print(json.dumps(told.wire(), ensure_ascii=False, indent=2))
    else:
        print(part_text(told, columns=terminal.columns(sys.stdout), paint=terminal.painter(sys.stdout)))
    return DONE


for _order, _command in enumerate((read_micr, read_routing, read_fraction, read_words, read_figures, read_date)):
    _name = _command.__name__.removeprefix("read_")
    read.command(_command, name=_name, usage=f"Usage: checkface read {_name} [OPTIONS] TEXT", sort_key=_order)
