"""Hold a list of the counted checks against what was recorded: every check found, missing, or one too many.

The surest match goes first: serial and amount, then the serial alone, then the amount alone. What is left over on
either side is the difference, and the slips returned always sum to it exactly.

>>> kept = [Piece("a", "1043", 4510), Piece("b", "1044", 1999)]
>>> [(slip.kind, slip.piece.serial) for slip in match(kept, (), (), [Line("1043", 4510), Line("1043", 4510)])]
[('counted-twice', '1043'), ('kept-missing', '1044')]
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from typing import NamedTuple

from checkface.digits import discreet
from checkface.ledger import columns
from checkface.ledger.columns import BadLine
from checkface.ledger.keys import plain_serial
from checkface.ledger.reconcile import Piece, Slip, SlipKind, slides, transpositions


class Line(NamedTuple):
    """One counted check. ``serial`` is empty where only amounts were listed."""

    serial: str
    amount_cents: int

    def __repr__(self) -> str:
        return discreet(self)


def read_lines(lines: Iterable[str]) -> Iterator[Line | BadLine]:
    """The counted checks in a CSV file with the headings ``amount`` (dollars) and, where listed, ``serial``."""
    for cells in columns.read(lines, ("amount",)):
        if isinstance(cells, BadLine):
            yield cells
        elif (amount := columns.cents(cells.values.get("amount", ""))) is None:
            yield BadLine(cells.line, "amount: Expected dollars such as 45.10, read something else.")
        else:
            yield Line(plain_serial(cells.values.get("serial", "")), amount)


Pairs = list[tuple[Piece, Line]]
Key = Callable[[Piece | Line], Hashable]


def match(
    kept: Sequence[Piece], converted: Sequence[Piece], returned: Sequence[Piece], lines: Sequence[Line]
) -> tuple[Slip, ...]:
    """The slips between what was *kept* and the *lines* counted; none when all agree."""
    found, missing, left = _pair(kept, lines, _exact)
    in_converted, converted_out, left = _pair(converted, left, _exact)
    in_returned, returned_out, left = _pair(returned, left, _exact)
    misread, missing, left = _pair(missing, left, _serial)
    by_amount, missing, left = _pair(missing, left, _amount)
    twice, _, left = _pair([piece for piece, _ in (*found, *by_amount)], left, _exact)
    nameless = [
        *(_one_more("converted-in-drawer", piece) for piece in converted_out),
        *(_one_more("returned-in-drawer", piece) for piece in returned_out),
        *(_one_more("counted-twice", piece) for piece in kept),
    ]
    return (
        *(_one_more("converted-in-drawer", piece) for piece, _ in in_converted),
        *(_one_more("returned-in-drawer", piece) for piece, _ in in_returned),
        *(_misread(piece, line.amount_cents) for piece, line in misread),
        *(Slip("serial-differs", piece, 0, 0) for piece, line in by_amount if line.serial),
        *(_one_more("counted-twice", piece) for piece, _ in twice),
        *_too_many(left, nameless),
        *_missing(missing, [piece for piece, line in by_amount if not line.serial]),
    )


def _exact(check: Piece | Line) -> Hashable:
    return (check.serial, check.amount_cents) if check.serial else None


def _serial(check: Piece | Line) -> Hashable:
    return check.serial or None


def _amount(check: Piece | Line) -> Hashable:
    return check.amount_cents


def _pair(pieces: Iterable[Piece], lines: Iterable[Line], key: Key) -> tuple[Pairs, list[Piece], list[Line]]:
    """Pairs with an equal key, one to one, then the pieces and the lines that found no partner."""
    waiting: defaultdict[Hashable, list[Piece]] = defaultdict(list)
    nameless: list[Piece] = []
    for piece in pieces:
        (nameless if key(piece) is None else waiting[key(piece)]).append(piece)
    pairs: Pairs = []
    left: list[Line] = []
    for line in lines:
        if key(line) is not None and waiting.get(key(line)):
            pairs.append((waiting[key(line)].pop(0), line))
        else:
            left.append(line)
    return pairs, [*nameless, *(piece for group in waiting.values() for piece in group)], left


def _one_more(kind: SlipKind, piece: Piece) -> Slip:
    return Slip(kind, piece, 1, piece.amount_cents)


def _misread(piece: Piece, counted: int) -> Slip:
    right = piece.amount_cents
    kind: SlipKind = "amount-misread"
    if counted in transpositions(right):
        kind = "transposed-digits"
    elif counted in slides(right):
        kind = "point-slipped"
    return Slip(kind, piece, 0, counted - right, counted)


def _too_many(lines: Iterable[Line], known: list[Slip]) -> Iterable[Slip]:
    """A line too many without a serial may be any recorded check of its amount that should not be there."""
    used: set[Slip] = set()
    for line in lines:
        fitting = [] if line.serial else [s for s in known if s.cents == line.amount_cents and s not in used]
        if fitting:
            used.add(fitting[0])
            yield fitting[0]._replace(others=tuple(fitting[1:]))
        else:
            yield Slip("stranger", Piece("", line.serial, line.amount_cents), 1, line.amount_cents)


def _missing(missing: Iterable[Piece], nameless: Iterable[Piece]) -> Iterable[Slip]:
    """A missing check may be another one of its amount, where the list said nothing but the amount."""
    for piece in missing:
        alike = [other for other in nameless if other.amount_cents == piece.amount_cents]
        others = tuple(Slip("kept-missing", other, -1, -other.amount_cents) for other in alike)
        yield Slip("kept-missing", piece, -1, -piece.amount_cents, others=others)
