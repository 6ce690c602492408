"""Two swipes of one check: what both say, what one lost and the other has, and where they contradict each other.

A reader that fails on a character sends a mark or nothing for it; it seldom fails on the same one twice (common
practice). So a character that only one swipe has is taken from it. A digit for which the other swipe has no mark stays
doubted unless the routing sum or the ten places of an amount settle it: it may have been gained as well as lost. Where
the swipes say two different things at one place, the one that makes a line in order is taken if the other does not (a
routing number that fails its sum, a lost symbol). Anything else is refused.

>>> line = read_swipes("T031097765T 0045601122O 1043", "T0310?7765T 00456?1122O 1043")
>>> line.routing, line.account, line.serial, line.settled
('031097765', '0045601122', '1043', True)
>>> read_swipes("T0310?7765T 0045601122O 1043", "T031097765T 00456?1122O 1043").settled  # each lost another digit
True
>>> read_swipes("T031097765T 0045601122O 1043", "T031091765T 0045601122O 1043").notes[-1]  # the sum fails in one
'the swipe whose line is in order taken'
>>> line = read_swipes("T031097765T 0045601122O 1043", "T03109765T 004560122O 1043")
>>> line.routing, line.account, line.ambiguities[0].field, line.ambiguities[0].reason
('031097765', '0045601122', 'account', 'one of two swipes lacks a digit that the other has')
>>> print(read_swipes("T031097765T 0045601122O 1043", "T031097765T 0045601127O 1043").message)
Expected the same line in both swipes, read two that differ in the account number.
>>> read_swipes("T031097765T 0045601122O 1043", "").notes
('one of two swipes gave no line',)
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from checkface.micr import framing
from checkface.micr.layouts import Layout
from checkface.micr.line import Ambiguity, MicrLine
from checkface.micr.notation import NOTATIONS, plain
from checkface.micr.reader import read
from checkface.micr.table import ReaderTable
from checkface.micr.write import written
from checkface.span import Fault, Span

_NAMES = {
    "routing": "the routing number", "auxiliary": "the auxiliary field", "epc": "the processing code",
    "account": "the account number", "serial": "the serial number", "transaction_code": "the transaction code",
    "amount": "the amount",
}  # fmt: skip
_NOTHING = ("micr-blank", "micr-too-long")


class _Merged(NamedTuple):
    """Two plain lines laid over each other: what each says where they differ, and places of digits only one has."""

    line: str
    other: str
    differ: tuple[int, ...]
    gained: tuple[int, ...]


def read_swipes(
    first: str,
    second: str,
    notation: str | ReaderTable | None = None,
    layouts: Mapping[str, Layout] | None = None,
    printed_serial: str | None = None,
) -> MicrLine | Fault:
    """Read two swipes of one check as one line; the other arguments are those of :func:`~checkface.micr.reader.read`.

    ``raw`` of the result is the line in Unicode that both make together, and its spans are offsets into that line;
    where one swipe gives nothing to compare, or both say the same, it is the swipe itself. Returns a Fault
    ``micr-swipes-differ`` (its span covers *first*) where they contradict each other, and otherwise what
    :func:`~checkface.micr.reader.read` returns.
    """
    readings = [read(text, notation, layouts, printed_serial) for text in (first, second)]
    sound = [line for line in readings if isinstance(line, MicrLine)]
    if first == second or not sound:
        return readings[0]
    if any(isinstance(reading, Fault) and reading.kind in _NOTHING for reading in readings):
        return sound[0]._replace(notes=(*sound[0].notes, "one of two swipes gave no line"))
    whole = Span(0, len(first))
    if any(line.notation == "inferred" for line in sound):
        same = len(sound) == 2 and _fields(sound[0]) == _fields(sound[1])
        return sound[0] if same else _differ(whole, "in what brackets and quotes mean")
    merged = _merge(*_plain_forms((first, second), (line.notation for line in sound), notation))
    if merged is None:
        return _differ(whole, "in length and order")
    unicode = NOTATIONS["unicode"]
    found = [
        read(written(line, unicode), "unicode", layouts, printed_serial)
        for line in dict.fromkeys((merged.line, merged.other))
    ]
    if len(found) == 1:
        return _doubted(found[0], merged.gained)
    ordered = [line for line in found if isinstance(line, MicrLine) and line.checksum and not line.faults]
    if len(merged.differ) == 1 and len(ordered) == 1:
        taken = ordered[0]._replace(notes=(*ordered[0].notes, "the swipe whose line is in order taken"))
        return _doubted(taken, merged.gained)
    places = (place for line in found if isinstance(line, MicrLine) for place in line.places)
    at = merged.differ[0]
    name = next((_NAMES[field] for field, start, end in places if start <= at < end), "a symbol or a blank")
    return _differ(whole, f"in {name}")


def _differ(span: Span, where: str) -> Fault:
    return Fault("micr-swipes-differ", span, "the same line in both swipes", f"two that differ {where}")


def _fields(line: MicrLine) -> tuple[object, ...]:
    return (
        line.country, line.routing, line.auxiliary, line.epc, line.account, line.serial, line.transaction_code,
        line.amount_cents, line.unread, line.ambiguities, len(line.faults),
    )  # fmt: skip


def _plain_forms(texts: Iterable[str], names: Iterable[str], notation: str | ReaderTable | None) -> list[str]:
    """Both swipes in the plain alphabet: by the table, or in the notation that knows most of their characters."""
    inner = [text[slice(*framing.bounds(text))] for text in texts]
    if isinstance(notation, ReaderTable) and "reader" in (names := list(names)):
        return [notation.plain(text[slice(*notation.bounds(text))]) for text in texts]
    forms = [[plain(text, name) for text in inner] for name in dict.fromkeys(names) if name in NOTATIONS]
    best = min(forms, key=lambda lines: sum(line.count("x") + line.count("?") for line in lines))
    return [line[slice(*framing.outside(text, line))] for text, line in zip(inner, best, strict=True)]


def _merge(one: str, other: str) -> _Merged | None:
    """The two laid over each other; None if neither only lacks characters of the other."""
    if len(one) == len(other):
        pairs = list(zip(one, other, strict=True))
    else:
        from difflib import SequenceMatcher

        shorter, longer = sorted((one, other), key=len)
        pairs = []
        for tag, start, end, begin, stop in SequenceMatcher(None, shorter, longer, autojunk=False).get_opcodes():
            if tag == "insert":
                pairs += [(char, "") for char in longer[begin:stop]]
            elif end - start == stop - begin:
                pairs += zip(longer[begin:stop], shorter[start:end], strict=True)
            else:
                return None
    kept = [_kept(*pair) for pair in pairs]
    return _Merged(
        "".join(left for left, _ in kept),
        "".join(right for _, right in kept),
        tuple(at for at, (left, right) in enumerate(kept) if left != right),
        tuple(at for at, (left, right) in enumerate(pairs) if not right and left.isdigit()),
    )


def _kept(left: str, right: str) -> tuple[str, str]:
    """What stays of two characters at one place: twice the same, or both where they contradict each other."""
    if left == right or not right:
        return left, left
    unread = [char for char in (left, right) if char in "?x"]
    if len(unread) == 2:
        return "?", "?"
    if not unread:
        return left, right
    known = left if right in unread else right
    return ("?", "?") if known == " " else (known, known)  # a lost digit may look like a blank


def _doubted(found: MicrLine | Fault, gained: tuple[int, ...]) -> MicrLine | Fault:
    """*found* with a doubt on each field that has a digit of one swipe only, unless its sum or length settles it."""
    if isinstance(found, Fault) or not gained:
        return found
    doubted = {doubt.field for doubt in found.ambiguities}
    settled = {"routing"} if found.checksum else set()
    settled |= {"amount"} if found.amount_cents is not None else set()
    fields = {field for field, start, end in found.places if any(start <= at < end for at in gained)}
    reason = "one of two swipes lacks a digit that the other has"
    doubts = tuple(Ambiguity(field, reason) for field in _NAMES if field in fields - settled - doubted)
    return found._replace(ambiguities=found.ambiguities + doubts)
