"""Account, card and identification numbers, masked to the last four in everything that leaves the toolkit.

Masks keep the length of the text, so that a caret still stands under the right character.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from checkface import identity, instruments, micr
from checkface.patterns import lazily
from checkface.reading import ReadTender
from checkface.span import Fault
from checkface.tender import Face, Mark, Reading, State, Tender

MASK = "\u2022"

#: A digit group as accounts, cards and telephone numbers are printed: seven digits or more, single separators between.
_LONG = lazily(r"\d(?:[\s./_\u2010-\u2015\u2449-]{0,3}\d){6,}")
_SOCIAL = lazily(r"(?<!\d)\d{3}([ .-])\d{2}\1\d{4}(?!\d)")
_DIGIT = lazily(r"\d")
#: Readings whose digits are amounts, dates, routing or serial numbers: never an account.
_OPEN = frozenset({"fraction", "serial", "date", "figures"})


def number(text: str) -> str:
    """*text* with every digit and letter but the last four masked; all of it when there are no more than four."""
    shown = 4 if sum(map(str.isalnum, text)) > 4 else 0
    left = sum(map(str.isalnum, text)) - shown
    out = []
    for character in text:
        out.append(MASK if character.isalnum() and left > 0 else character)
        left -= character.isalnum()
    return "".join(out)


def prose(text: str) -> str:
    """*text* with each long digit group masked to its last four, and a social security number wholly."""
    return _LONG.sub(lambda found: number(found[0]), _SOCIAL.sub(lambda found: _DIGIT.sub(MASK, found[0]), text))


def document_number(text: str) -> str:
    """An identification number masked to its last four; wholly, if it may be one that must not be recorded at all."""
    if identity.forbidden_number(text) is not None:
        return "".join(MASK if character.isalnum() else character for character in text)
    return number(text)


def line(text: str, read: micr.MicrLine | Fault | None) -> str:
    """The magnetic-ink line *text* with the account masked, as far as *read* tells where it stands."""
    if not isinstance(read, micr.MicrLine):
        return number(text)
    places = read.spans
    open_fields = [span for field, span in places.items() if field != "account"]
    # Digits that no field claims may be the account's: they are masked with it.
    closed = [i for i, c in enumerate(text) if c.isalnum() and not any(s.start <= i < s.end for s in open_fields)]
    account = places.get("account")
    shown = [i for i in closed if account is None or account.start <= i < account.end][-4:]
    if len(closed) <= 4:
        shown = []
    masked = set(closed).difference(shown)
    return "".join(MASK if i in masked and c.isdigit() else c for i, c in enumerate(text))


def texts(read: ReadTender, *, reveal: bool = False) -> dict[str, str]:
    """The raw text of every reading that was taken, by dotted path, masked unless *reveal*."""
    shown: dict[str, str] = {}
    for name in Face.model_fields:
        value: Reading | Mark = getattr(read.face, name)
        if isinstance(value, Mark):
            if value is not Mark.ABSENT:
                shown[f"face.{name}"] = str(value)
        elif value.state is not State.ABSENT:
            shown[f"face.{name}"] = value.text if reveal else _face(name, value.text, read)
    for key, entry in _circumstances(read.tender).items():
        shown[f"counter.{key}"] = str(entry)
    return shown


def _face(name: str, text: str, read: ReadTender) -> str:
    if name == "micr":
        return line(text, read.micr)
    return text if name in _OPEN else prose(text)


def _circumstances(tender: Tender) -> dict[str, Any]:
    return tender.counter.model_dump(mode="json", exclude_unset=True, exclude_none=True)


def summary(read: ReadTender, shown: Mapping[str, str], *, reveal: bool = False) -> dict[str, Any]:
    """What was read, JSON-ready: the readings, the fields of the line, the values, the documents."""
    return {
        "readings": dict(shown),
        "micr": _line_fields(read.line, reveal=reveal),
        "routing": _routing(read),
        "amount_cents": read.amount_cents,
        "words_cents": _value(read.words, "cents"),
        "figures_cents": _value(read.figures, "cents"),
        "date": _iso(_value(read.date, "date")),
        "kinds": sorted(read.kinds),
        "evidence": [_evidence(piece) for piece in read.kind.evidence],
        "documents": [
            {
                "kind": shown_document.kind,
                "state": shown_document.state,
                "number": shown_document.number if reveal else document_number(shown_document.number),
            }
            for shown_document in read.tender.documents or ()
        ],
    }


def _value(part: object, name: str) -> Any:
    return None if part is None or isinstance(part, Fault) else getattr(part, name)


def _iso(day: Any) -> str | None:
    return None if day is None else str(day.isoformat())


def _line_fields(read: micr.MicrLine | None, *, reveal: bool) -> dict[str, Any] | None:
    if read is None:
        return None
    return {
        "notation": read.notation,
        "country": read.country,
        "routing": read.routing,
        "checksum": read.checksum,
        "epc": read.epc,
        "auxiliary": read.auxiliary,
        "account": None if read.account is None else read.account if reveal else number(read.account),
        "serial": read.serial,
        "transaction_code": read.transaction_code,
        "amount_cents": read.amount_cents,
        "unread": read.unread,
        "routing_repaired": read.routing_repaired,
        "ambiguities": [{"field": entry.field, "reason": entry.reason} for entry in read.ambiguities],
    }


def _routing(read: ReadTender) -> dict[str, Any] | None:
    known = read.routing
    if known is None:
        return None
    return {
        "number": known.number,
        "series": known.series,
        "district": known.district,
        "government": known.government.entity if known.government else None,
    }


def _evidence(piece: instruments.Evidence) -> dict[str, str]:
    return {"kind": str(piece.kind), "weight": str(piece.weight), "reading": piece.reading, "words": prose(piece.words)}
