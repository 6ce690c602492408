"""A check drawn in plain characters, and what the counter sees beside it: the question of a drill, without its answer.

Nobody can point at a line that is blank, so a blank line shows as one to write on; what could not be made out is a row
of marks, and what nobody looked at says so. The account is masked.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from functools import cache

from checkface import identity, masking, tables
from checkface.assessment import Assessment
from checkface.cells import shown, width
from checkface.findings import Effect
from checkface.tender import Document, Face, Mark, Reading, State
from checkface.training.plants import PLANTS

#: Width of the paper in characters, its two sides left out.
INSIDE = 74
_SMEAR = "~#~~#~#~"
_CAPTURED = {
    "reader": "read by the machine",
    "corrected": "read by the machine, then mended by hand",
    "keyed": "typed by hand",
}


def text_face(assessment: Assessment, *, reveal: bool = False) -> str:
    """The face as a box of characters. Ends without a line end."""
    face = assessment.read.face
    rows = [*_head(face), "", *_orders(face), "", *_foot(face), "", _line(assessment, reveal)]
    edge = "+" + "-" * (INSIDE + 2) + "+"
    body = [f"| {_fit(row)} |" for row in rows]
    back = _state(face.endorsements, "") if face.endorsements.state is not State.BLANK else ""
    below = [f"On the back: {back}"] if back and face.endorsements.state is not State.ABSENT else []
    title = " SPECIMEN ".center(INSIDE + 2, "-")
    return "\n".join([f"+{title}+", *body, edge, *below])


def circumstances(assessment: Assessment) -> list[str]:
    """What the cashier knows besides the paper, a line each."""
    tender = assessment.read.tender
    counter = tender.counter
    said = [f"today {counter.on:%A, %B %d, %Y}" if counter.on else "no day was given"]
    if counter.amount is not None:
        said.append(f"keyed {_dollars(counter.amount)}")
    else:
        said.append("no amount was keyed")
    if counter.purchase is not None:
        over = (counter.amount or 0) - counter.purchase
        rest = f", the other {_dollars(over)} asked for in cash" if over > 0 else ""
        said.append(f"goods {_dollars(counter.purchase)}{rest}")
    if counter.micr_by:
        said.append(f"line {_CAPTURED[counter.micr_by]}")
    said.append(f"network {counter.network or 'not looked at'}")
    if counter.authorization_signed is not None:
        said.append("authorization signed" if counter.authorization_signed else "authorization not signed")
    if counter.declared_kind:
        said.append(f"key pressed: {counter.declared_kind}")
    if tender.face.alterations is Mark.YES:
        said.append("something was changed in another ink")
    lines = textwrap.wrap("At the counter: " + "; ".join(said) + ".", INSIDE + 4)
    documents = tender.documents
    if documents is not None:
        told = "; ".join(map(_document, documents)) if documents else "none shown"
        lines += textwrap.wrap(f"Identification: {told}.", INSIDE + 4)
    return [shown(line) for line in lines]


def question(assessment: Assessment) -> str:
    """What is asked of one check: also what decides, where several findings could."""
    told = sum(finding.effect > Effect.NOTE for finding in assessment.findings)
    several = "Several things can be said of this one: what decides? " if told > 1 else ""
    return f"{several}Convert, keep, refer or decline - and why?"


def why(planted: tuple[str, ...]) -> list[str]:
    """What was done to the check, in words."""
    return [_sentence(PLANTS[name].do.__doc__ or "") for name in planted]


def _sentence(text: str) -> str:
    return " ".join(text.split())


def _head(face: Face) -> list[str]:
    left = _lines(face.drawer, 3)
    middle = _lines(face.legends, 3)
    right = [_state(face.serial, "No. ____"), _state(face.fraction, ""), ""]
    rows = []
    for index in range(3):
        one, two, three = (column[index] if index < len(column) else "" for column in (left, middle, right))
        rows.append(_three(one, two, three))
    # Wording that does not fit between the others stands on lines of its own.
    if any(width(words) > _MIDDLE for words in middle):
        rows = [_three(left[index] if index < len(left) else "", "", right[index]) for index in range(3)]
        rows += [words.center(INSIDE).rstrip() for words in middle if words]
    return [*rows, f"DATE  {_state(face.date, '_' * 18)}".rjust(INSIDE)]


_MIDDLE = 26


def _three(left: str, middle: str, right: str) -> str:
    row = f"{left:30}{middle.center(_MIDDLE)}"
    return row + right.rjust(max(INSIDE - width(row), width(right) + 1))


def _orders(face: Face) -> Iterator[str]:
    figures = _state(face.figures, "")
    box = f"[ {figures:>12} ]"
    payee = _state(face.payee, "_" * 36)
    row = f"Pay to the order of  {payee}"
    yield row + box.rjust(max(INSIDE - width(row), width(box) + 1))
    yield f"{_state(face.words, '_' * 60)}  dollars"


def _foot(face: Face) -> Iterator[str]:
    drawee = _lines(face.drawee, 2)
    yield from drawee
    marks = {Mark.YES: "(signed)", Mark.NO: "", Mark.ILLEGIBLE: _SMEAR, Mark.ABSENT: "(nobody looked)"}
    left = ""
    if face.countersignature is not Mark.ABSENT:
        left = f"signed again: {marks[face.countersignature]:_<18}"
    yield left.ljust(INSIDE - 34) + f"signature: {marks[face.signature]:_<22}"


def _line(assessment: Assessment, reveal: bool) -> str:
    reading = assessment.read.face.micr
    if reading.state is not State.TEXT:
        return _state(reading, "")
    line = assessment.read.line
    nobodys = line is not None and line.account is not None and not line.account.strip("0")
    return reading.text if reveal or nobodys else masking.line(reading.text, assessment.read.micr)


def _lines(reading: Reading, most: int) -> list[str]:
    return [] if reading.state is State.BLANK else _state(reading, "").split("\n")[:most]


def _state(reading: Reading, blank: str) -> str:
    match reading.state:
        case State.TEXT:
            return reading.text
        case State.ILLEGIBLE:
            return f"{_SMEAR} (cannot be made out)"
        case State.ABSENT:
            return "(nobody looked)"
    return blank


def _fit(row: str) -> str:
    """*row* at exactly the width of the paper."""
    row = shown(row.replace("\n", " "))
    while width(row) > INSIDE:
        row = row[:-2] + "\u2026"
    return row + " " * (INSIDE - width(row))


def _dollars(cents: int) -> str:
    return f"${cents // 100:,}.{cents % 100:02d}"


@cache
def _states() -> dict[str, str]:
    return {row["fips"]: row["alpha"] for row in tables.load("us_states").rows}


def _issuer(code: str) -> str:
    return _states().get(code) or f"a state of code {code}"


def _document(document: Document) -> str:
    said = [document.kind.replace("-", " ") or "a document"]
    if document.state:
        said.append(f"issued by {_issuer(document.state)}")
    if document.number:
        said.append(f"number {masking.document_number(document.number)} as written down")
    if document.expires:
        said.append(f"expires {document.expires}")
    if document.name:
        said.append(f"in the name of {document.name}")
    kind = identity.kind_named(document.kind)
    if document.is_bearer is not None and kind is not None and identity.KINDS[kind].photo:
        said.append("the picture is of the customer" if document.is_bearer else "the picture is of somebody else")
    return ", ".join(said)
