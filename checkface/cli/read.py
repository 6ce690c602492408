"""``checkface read``: what one part makes of one reading, with nothing judged."""

from __future__ import annotations

import datetime
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Annotated, Literal

from cyclopts import App

from checkface import amounts, dates, identity, micr, routing
from checkface.cells import dumps
from checkface.cli import options, terminal
from checkface.cli.failure import DONE, Failure
from checkface.cli.groups import GIVEN, OPTIONS
from checkface.cli.options import help_for
from checkface.cli.stdin import STDIN, as_typed
from checkface.identity.scan import LARGEST
from checkface.mistakes import quoted
from checkface.report.parts import Part, Value, part, part_text
from checkface.span import Fault

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
        raise Failure(f"Expected one of {', '.join(micr.NOTATIONS)} after --notation, read {quoted(notation)}.")
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


def read_barcode(
    text: Annotated[str | None, help_for(None, "What a scanner gave, line feeds as <LF>. - is stdin.")] = None,
    /,
    *,
    file: Annotated[
        Path | None, help_for(None, "What a scanner gave, byte for byte; or a PNG or JPEG picture of the code.", "FILE")
    ] = None,
    on: Annotated[str | None, help_for(None, "Is the card valid, and its holder an adult, on DAY?", "DAY")] = None,
    format: _Form = "text",
    reveal: options.Reveal = False,
) -> int:
    """The barcode, stripe or machine-readable zone of an identification card.

    Its number is masked; its birth date and street are never shown. A picture needs the extra checkface[scan].

      checkface read barcode --file card.png --on 2026-11-24
    """
    if (text is None) is (file is None):
        raise Failure(f"Expected a text or --file, read {'neither' if text is None else 'both'}.")
    day = options.day(on)
    payload = _bytes(Path(STDIN) if file is None else file) if text in (None, STDIN) else text
    assert payload is not None
    said = payload if isinstance(payload, str) else payload.decode("utf-8", "replace")
    return _print(part("barcode", said, identity.read_barcode(payload), reveal=reveal, on=day), format)


def read_letter(
    file: Annotated[Path, help_for(None, "X9.37 or X9.100-187, in EBCDIC or ASCII. - is stdin.")],
    /,
    *,
    items: Annotated[bool, help_for(None, "List every check, return and credit.", negative=())] = False,
    code_page: Annotated[
        Literal["37", "1047"], help_for(None, "Read EBCDIC by code page 37, the usual one, or 1047.", "NUMBER")
    ] = "37",
    format: Annotated[
        Literal["text", "jsonl"], help_for(None, "text, or jsonl: a JSON object a line.", "FORM", name="--format")
    ] = "text",
    verbose: Annotated[bool, help_for(None, "Tell every flaw, however many are alike.", negative=())] = False,
    reveal: options.Reveal = False,
) -> int:
    """An image cash letter, the file of scanned checks: its totals and its flaws.

    Bundles, cash letters and the file are counted and held against what they declare. Each flaw is told with its byte,
    and reading goes on behind it; with one, the exit code is 1. Images are passed over.

      checkface read letter deposit.x9 --items
    """
    from checkface.cli import letters

    page: Literal["cp037", "cp1047"] = "cp037" if code_page == "37" else "cp1047"
    return letters.tell(file, items=items, ebcdic=page, jsonl=format == "jsonl", verbose=verbose, reveal=reveal)


#: How the files of pictures begin: PNG (ISO/IEC 15948) and JPEG (ISO/IEC 10918-1).
_PICTURES = (b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff")


def _bytes(file: Path) -> bytes:
    """The payload in *file*, which is one or a picture of one. Raises :class:`Failure`."""
    with terminal.source(file) as stream:
        content = stream.read(LARGEST + 1)
    payload = identity.scan_image(content) if content.startswith(_PICTURES) else content
    if isinstance(payload, Fault):
        raise Failure(f"{terminal.name_of(file)}: {payload.message}")
    return payload


def _show(name: str, typed: str, reader: Callable[[str], Value], form: str, reveal: bool = False) -> int:
    text = as_typed(typed) or ""
    return _print(part(name, text, reader(text), reveal=reveal), form)


def _print(told: Part, form: str) -> int:
    if form == "json":
        print(dumps(told.wire(), indent=2))
    else:
        print(part_text(told, columns=terminal.columns(sys.stdout), paint=terminal.painter(sys.stdout)))
    return DONE


_COMMANDS: tuple[Callable[..., int], ...] = (
    read_micr, read_routing, read_fraction, read_words, read_figures, read_date, read_barcode, read_letter,
)  # fmt: skip
for _order, _command in enumerate(_COMMANDS):
    _name = _command.__name__.removeprefix("read_")
    _given = "[TEXT]" if _command is read_barcode else "FILE" if _command is read_letter else "TEXT"
    read.command(_command, name=_name, usage=f"Usage: checkface read {_name} [OPTIONS] {_given}", sort_key=_order)
