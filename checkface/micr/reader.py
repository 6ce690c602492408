"""From the text of a line to a :class:`~checkface.micr.line.MicrLine`."""

from __future__ import annotations

import re
from collections.abc import Mapping

from checkface.micr import common, fields, layouts, onus
from checkface.micr.draft import Draft
from checkface.micr.layouts import BUILT_IN, TREASURY, Layout
from checkface.micr.line import MicrLine
from checkface.micr.notation import fitting, named, plain
from checkface.patterns import lazily
from checkface.span import Fault, Span

LIMIT = 256
"""Longest text looked at, in characters: a line has at most 65 positions; the rest allows for runs of blanks."""

_CMC7 = lazily(r"[0-9:;<=>?*# ]*|[0-9A-E?*# ]*")


def read(
    text: str,
    notation: str | None = None,
    layouts: Mapping[str, Layout] | None = None,
    printed_serial: str | None = None,
) -> MicrLine | Fault:
    """Read one MICR line.

    *notation* names how the symbols are written (:data:`~checkface.micr.notation.NOTATIONS`); None detects it and
    refuses to guess. *layouts* are the house's exceptions (:func:`~checkface.micr.layouts.parse_layouts`).
    *printed_serial* is the number printed at the upper right, used only to settle what the line leaves open.

    Returns a Fault where no line can be made out: ``micr-blank``, ``micr-too-long``, ``micr-transit-missing``,
    ``micr-cmc7``, ``micr-notation-undecided``. Raises ValueError for an unknown notation name, nothing for any text.
    """
    if len(text) > LIMIT:
        return Fault("micr-too-long", Span(0, len(text)), f"a line of at most {LIMIT} characters", f"{len(text)}")
    house = layouts or {}
    printed = _printed(printed_serial) if printed_serial else ""
    if notation is None or notation == "unicode":
        line = common.read(text, text, "unicode", common.UNICODE, house)
        if line is not None and _agree(line, printed):
            return line
    if notation is None:
        return _detected(text, house, printed)
    named(notation)
    if not text.strip():
        return _blank(text)
    return _one(text, notation, plain(text, notation), house, printed)


def _blank(text: str) -> Fault:
    return Fault("micr-blank", Span(0, len(text)), "a MICR line", "blanks only" if text else "nothing")


def _detected(text: str, house: Mapping[str, Layout], printed: str) -> MicrLine | Fault:
    """Read *text* in every notation that fits it, and take the result if they agree."""
    if not text.strip():
        return _blank(text)
    whole = Span(0, len(text))
    names = fitting(text)
    if not names:
        if _foreign_font(text):
            return Fault("micr-cmc7", whole, "a line in the font E-13B", "one in CMC-7, the font of other countries")
        expected = "a routing number between two transit symbols"
        return Fault("micr-transit-missing", whole, expected, "no transit symbol of any notation")
    readings = [_one(text, name, line, house, printed) for name, line in names]
    lines = [line for line in readings if isinstance(line, MicrLine)]
    if not lines:
        return readings[0]
    if any(line[2:] != lines[0][2:] for line in lines):
        read = f"one that {', '.join(line.notation for line in lines)} fit differently"
        return Fault("micr-notation-undecided", whole, "one notation that fits the line", read)
    return lines[0]


def _one(text: str, notation: str, line: str, house: Mapping[str, Layout], printed: str) -> MicrLine | Fault:
    """Read *line*, the plain form of *text* in one notation."""
    line = line[: len(text.rstrip("\r\n"))]
    short = common.read(text, line, notation, common.PLAIN, house)
    if short is not None and _agree(short, printed):
        return short
    return _general(text, notation, line, house, printed)


def _agree(line: MicrLine, printed: str) -> bool:
    """Whether the printed number says nothing against the line's serial."""
    return not printed or line.auxiliary is not None or (line.serial or "").lstrip("0") == printed


def _general(text: str, notation: str, line: str, house: Mapping[str, Layout], printed: str) -> MicrLine | Fault:
    unread = "?" in line or "x" in line
    line, positions, notes = fields.restore(line) if notation != "x9" else (line, False, [])
    draft = Draft(text, notation, line, unread=unread, positions=positions, notes=notes)
    ends = fields.transit(draft)
    if isinstance(ends, Fault):
        return ends
    return _finish(draft, *ends, house, printed)


def _finish(draft: Draft, left: int, right: int, house: Mapping[str, Layout], printed: str) -> MicrLine:
    """Read everything but the transit field, which ends at *left* and *right*."""
    fields.left(draft, left)
    end = fields.amount(draft, right)
    routing = draft.values.get("routing")
    if routing == TREASURY:
        draft.doubt("serial", "the placement of the symbols on Treasury checks is not published")
    else:
        layout = (house.get(routing) or BUILT_IN.get(routing)) if routing and draft.checksum else None
        if layout is None or not layouts.place(draft, layout, right, end):
            fields.auxiliary_serial(draft, printed)
            onus.read(draft, right, end, printed)
        elif layout.serial == "auxiliary":
            fields.auxiliary_serial(draft, printed)
    fields.characters(draft)
    if draft.country == "CA" and draft.values.get("transaction_code") == "45":
        draft.notes.append("transaction code 45 marks a US-dollar item in Canada (from memory)")
    return draft.done()


def _printed(serial: str) -> str:
    """Digits of the printed number without leading zeros; empty if it is not one run of digits."""
    runs = re.findall("[0-9]+", serial)
    return runs[0].lstrip("0") if len(runs) == 1 else ""


def _foreign_font(text: str) -> bool:
    """CMC-7 symbols as ``: ; < = >`` or ``A`` to ``E``, as makers of readers and recognition programs document."""
    digits = sum(char in "0123456789" for char in text)
    return bool(_CMC7.fullmatch(text)) and (">" in text or "E" in text) and digits > 7
