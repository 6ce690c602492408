"""From the text of a line to a :class:`~checkface.micr.line.MicrLine`."""

from __future__ import annotations

import re
from collections.abc import Mapping

from checkface.micr import fields, layouts, onus
from checkface.micr.draft import Draft
from checkface.micr.layouts import BUILT_IN, TREASURY, Layout
from checkface.micr.line import MicrLine
from checkface.micr.notation import fitting, named, plain, sum_holds
from checkface.span import Fault, Span

LIMIT = 256
"""Longest text looked at, in characters: a line has at most 65 positions; the rest allows for runs of blanks."""

# The two commonest shapes in Unicode, read in one go; tests hold this path equal to the general one.
_COMMON = re.compile(
    " *+(?:\u2448([0-9]{1,15})\u2448 *+)?+(?:([0-9]) *+)?+\u2446([0-9]{9})\u2446"
    " *+([0-9]{4,12})\u2448 *+(?:([0-9]{1,6}) *+)?+(?:\u2447([0-9]{10})\u2447 *+)?+"
).fullmatch
_CMC7 = re.compile(r"[0-9:;<=>? ]*|[0-9A-E? ]*")


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
    if (notation is None or notation == "unicode") and not layouts:
        line = _common(text)
        if line is not None:
            return line
    return _general(text, notation, layouts or {}, printed_serial)


def _common(text: str) -> MicrLine | None:
    """The line, if it has one of the two commonest shapes and nothing about it is open."""
    if len(text) > LIMIT:
        return None
    found = _COMMON(text)
    if found is None:
        return None
    auxiliary, epc, routing, account, right, cents = found.groups()
    if routing.startswith("000"):  # government items have layouts of their own
        return None
    start = found.start(3)
    places = [("routing", start, start + 9)]
    if epc is not None:
        places.append(("epc", *found.span(2)))
    if auxiliary is not None:
        places.append(("auxiliary", *found.span(1)))
    if cents is not None:
        places.append(("amount", *found.span(6)))
    if auxiliary is not None:
        serial, code = auxiliary, right
        places.append(("serial", *found.span(1)))
        places.append(("account", *found.span(4)))
        if code is not None:
            places.append(("transaction_code", *found.span(5)))
    elif right is not None and 3 <= len(right) < len(account):
        serial, code = right, None
        places.append(("account", *found.span(4)))
        places.append(("serial", *found.span(5)))
    else:
        return None
    return MicrLine(
        text,
        "unicode",
        "US",
        routing,
        sum_holds(routing),
        auxiliary,
        epc,
        account,
        account,
        serial,
        code,
        None if cents is None else int(cents),
        False,
        (),
        (),
        (),
        None,
        None,
        len(text) - start == 42 and start <= 23 and (cents is None or text[-1] == "\u2447"),
        tuple(places),
    )


def _general(
    text: str, notation: str | None, layouts: Mapping[str, Layout], printed_serial: str | None
) -> MicrLine | Fault:
    if notation is not None:
        named(notation)
    whole = Span(0, len(text))
    if len(text) > LIMIT:
        return Fault("micr-too-long", whole, f"a line of at most {LIMIT} characters", f"{len(text)}")
    if not text.strip():
        return Fault("micr-blank", whole, "a MICR line", "nothing" if not text else "blanks only")
    printed = _printed(printed_serial)
    if notation is not None:
        return _one(text, notation, plain(text, notation), layouts, printed)
    names = fitting(text)
    if not names:
        if _foreign_font(text):
            return Fault("micr-cmc7", whole, "a line in the font E-13B", "one in CMC-7, the font of other countries")
        expected = "a routing number between two transit symbols"
        return Fault("micr-transit-missing", whole, expected, "no transit symbol of any notation")
    readings = [_one(text, name, line, layouts, printed) for name, line in names]
    lines = [line for line in readings if isinstance(line, MicrLine)]
    if not lines:
        return readings[0]
    if any(line[2:] != lines[0][2:] for line in lines):
        survivors = " and ".join(line.notation for line in lines)
        return Fault("micr-notation-undecided", whole, "one notation that fits the line", f"{survivors}, which differ")
    return lines[0]


def _one(text: str, notation: str, line: str, layouts: Mapping[str, Layout], printed: str) -> MicrLine | Fault:
    """Read *line*, the plain form of *text*, in one notation."""
    line = line[: len(text.rstrip("\r\n"))]
    restored, positions, notes = fields.restore(line) if notation != "x9" else (line, False, [])
    draft = Draft(text, notation, restored, positions=positions, notes=notes)
    ends = fields.transit(draft)
    if isinstance(ends, Fault):
        return ends
    return _finish(draft, *ends, layouts, printed)


def _finish(draft: Draft, left: int, right: int, house: Mapping[str, Layout], printed: str) -> MicrLine:
    """Read everything but the transit field, which ends at *left* and *right*."""
    fields.left(draft, left)
    end = fields.amount(draft, right)
    routing = draft.values.get("routing")
    if routing == TREASURY:
        draft.doubt("serial", "the placement of the symbols on Treasury checks is not published")
    else:
        fields.auxiliary_serial(draft, printed)
        layout = house.get(routing or "") or BUILT_IN.get(routing or "")
        if layout is None or not draft.checksum or not layouts.place(draft, layout, right, end):
            onus.read(draft, right, end, printed)
    fields.characters(draft)
    return draft.done()


def _printed(serial: str | None) -> str:
    """Digits of the printed number without leading zeros; empty if it is not one run of digits."""
    runs = re.findall("[0-9]+", serial or "")
    return runs[0].lstrip("0") if len(runs) == 1 else ""


def _foreign_font(text: str) -> bool:
    """CMC-7 symbols as ``: ; < = >`` or ``A`` to ``E``, as makers of readers and recognition programs document."""
    digits = sum(char in "0123456789" for char in text)
    return bool(_CMC7.fullmatch(text)) and (">" in text or "E" in text) and digits > 7
