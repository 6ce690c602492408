"""From the text of a line to a :class:`~checkface.micr.line.MicrLine`.

>>> read("t031097765t_0045601122o_1043-").serial
'1043'
>>> [fault.message for fault in read("T031097765T 0045§601122O 1043").faults]
["Expected digits and symbols of E-13B only, read '§' (U+00A7), which the font does not have."]
>>> read("®031097765® 0045601122© 1043").message
"Expected a routing number between two transit symbols, read '®' (U+00AE), a transit symbol of no notation."
>>> read("1" * 257).message
'Expected a line of at most 256 characters, read 257.'
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from checkface.micr import common, fields, framing, infer, layouts, onus
from checkface.micr.draft import Draft, count, foreign
from checkface.micr.layouts import BUILT_IN, TREASURY, Layout
from checkface.micr.line import MicrLine, moved
from checkface.micr.notation import BLANKS, NOTATIONS, UNREAD_MARKS, fitting, named, plain
from checkface.micr.table import ReaderTable
from checkface.patterns import lazily
from checkface.span import Fault, Span

LIMIT = 256
"""Longest text looked at, in characters: a line has at most 65 positions; the rest allows for runs of blanks and for
what a reader sends around it. A longer text is refused unread, so that no text takes more than a fixed time."""

_CMC7 = lazily(r"[0-9:;<=>?*# ]*|[0-9A-E?*# ]*")
_ANY_SYMBOL = "".join(symbol for symbols in NOTATIONS.values() for symbol in symbols)
_NINE_DIGITS = lazily(r"(?<![0-9])[0-9]{9}(?![0-9])")


def read(
    text: str,
    notation: str | ReaderTable | None = None,
    layouts: Mapping[str, Layout] | None = None,
    printed_serial: str | None = None,
) -> MicrLine | Fault:
    """Read one MICR line.

    *notation* names how the symbols are written (:data:`~checkface.micr.notation.NOTATIONS`), or is the table in
    which the house describes its reader (:class:`~checkface.micr.table.ReaderTable`), which is tried before the
    notations; None detects the notation and refuses to guess. *layouts* are the house's exceptions
    (:func:`~checkface.micr.layouts.parse_layouts`). *printed_serial* is the number printed at the upper right, used
    only to settle what the line leaves open.

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
    elif isinstance(notation, ReaderTable):
        start, end = notation.bounds(text)
        inner = text[start:end]
        described = _one(inner, "reader", notation.plain(inner), house, printed)
        if isinstance(described, MicrLine):
            return described.moved(text, start)
        notation = None
    else:
        named(notation)
    start, end = framing.bounds(text)
    if not text[start:end].strip():
        return Fault("micr-blank", Span(0, len(text)), "a MICR line", "blanks only" if text else "nothing")
    if end - start == len(text):
        return _inside(text, notation, house, printed)
    found = _inside(text[start:end], notation, house, printed)
    return found.moved(text, start) if isinstance(found, MicrLine) else moved(found, start)


def _inside(text: str, notation: str | None, house: Mapping[str, Layout], printed: str) -> MicrLine | Fault:
    """Read *text*, which is framed by nothing, in *notation* or in every one that fits, and take what they agree on."""
    if notation is not None:
        return _one(text, notation, plain(text, notation), house, printed)
    names = fitting(text)
    if not names:
        start, end = framing.apart(text)
        if end - start < len(text):
            part = _part(_inside(text[start:end], None, house, printed), text, start, end)
            if isinstance(part, MicrLine):
                return part
        names = [("inferred", line) for line in infer.assignments(text)]
    if not names:
        return _unfit(text)
    readings = [_one(text, name, line, house, printed) for name, line in names]
    lines = [line for line in readings if isinstance(line, MicrLine)]
    if not lines:
        return readings[0]
    if any(line[2:] != lines[0][2:] for line in lines):
        return _undecided(text, [line for _, line in names], dict.fromkeys(line.notation for line in lines))
    return lines[0]


def _unfit(text: str) -> Fault:
    """Say why no notation fits *text*: the other font, a foreign character beside nine digits, or no symbol at all."""
    whole = Span(0, len(text))
    if _foreign_font(text):
        return Fault("micr-cmc7", whole, "a line in the font E-13B", "one in CMC-7, the font of other countries")
    expected = "a routing number between two transit symbols"
    if nine := _NINE_DIGITS.search(text):
        for at in (nine.start() - 1, nine.end()):
            if 0 <= at < len(text) and text[at] not in UNREAD_MARKS + BLANKS + _ANY_SYMBOL:
                read = f"{foreign(text[at])}, a transit symbol of no notation"
                return Fault("micr-transit-missing", Span(at, at + 1), expected, read)
    return Fault("micr-transit-missing", whole, expected, "no transit symbol of any notation")


def _undecided(text: str, lines: list[str], names: Iterable[str]) -> Fault:
    """Say what keeps the notation open: characters that no notation has together, or two notations' transit fields."""
    kind, whole = "micr-notation-undecided", Span(0, len(text))
    if all("x" in line for line in lines) and len({line.index("T") for line in lines}) == 1:
        unknown = dict.fromkeys(char for char, *plain in zip(text, *lines, strict=True) if "x" in plain)
        read = f"{' and '.join(map(foreign, unknown))}, which no notation has together"
        return Fault(kind, whole, "the symbols of one notation", read)
    return Fault(kind, whole, "one notation that fits the line", f"one that {', '.join(names)} fit differently")


def _one(text: str, notation: str, line: str, house: Mapping[str, Layout], printed: str) -> MicrLine | Fault:
    """Read *line*, the plain form of *text* in one notation."""
    short = common.read(text, line, notation, common.PLAIN, house)
    if short is not None and _agree(short, printed):
        return short
    start, end = framing.outside(text, line)
    if end - start == len(text):
        return _general(text, notation, line, house, printed)
    return _part(_one(text[start:end], notation, line[start:end], house, printed), text, start, end)


def _part(found: MicrLine | Fault, text: str, start: int, end: int) -> MicrLine | Fault:
    """What was found between *start* and *end*, as found in *text*, with a note on what was left out."""
    if isinstance(found, Fault):
        return moved(found, start)
    return found.moved(text, start, f"{count(len(text) - end + start, 'character')} beside the line left out")


def _agree(line: MicrLine, printed: str) -> bool:
    """Whether the printed number says nothing against the line's serial."""
    return not printed or line.auxiliary is not None or (line.serial or "").lstrip("0") == printed


def _general(text: str, notation: str, line: str, house: Mapping[str, Layout], printed: str) -> MicrLine | Fault:
    unread = "?" in line or "x" in line
    dash = line.rstrip(" ").endswith("D") and "O" in line
    if dash:
        line = line.rstrip(" ")[:-1]
    line, positions, notes = fields.restore(line) if notation != "x9" else (line, False, [])
    draft = Draft(text, notation, line, unread=unread, positions=positions, notes=notes)
    if dash:
        notes.append("a dash at the end of the line left out")
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
