"""Account, card and identification numbers, masked to the last four in everything that leaves the toolkit.

Masks keep the length of the text, so that a caret still stands under the right character.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from checkface import identity, instruments, micr
from checkface.patterns import lazily
from checkface.reading import ReadTender
from checkface.span import Fault
from checkface.tender import Face, Mark, Reading, State, Tender

MASK = "\u2022"
#: Symbols of the magnetic-ink line (Unicode 2446 to 2449).
_SYMBOLS = "\u2446\u2447\u2448\u2449"

#: A digit group as accounts, cards and telephone numbers are printed: seven digits or more, single separators between.
_LONG = lazily(r"\d(?:[\s./_()+\u200b\u2010-\u2015\u2446-\u2449-]{0,3}\d){6,}")
_SOCIAL = lazily(r"(?<!\d)\d{3}([ .-])\d{2}\1\d{4}(?!\d)")
_DIGIT = lazily(r"\d")
#: More digits than any serial, fraction, date or amount has: an account or a card's number in the wrong place.
_STRAY = lazily(r"\d(?:[\s./_\u2010-\u2015\u2449-]{0,3}\d){11,}")
#: Readings whose digits are amounts, dates, routing or serial numbers: an account only by mistake.
_OPEN = frozenset({"fraction", "serial", "date", "figures"})
#: Least and most characters of the fields of a line, blanks left out (ASC X9 TR 100-2013; X9.100-187 record 25 for the
#: auxiliary field). In a field of another length two have run together or were taken for each other, and one may be the
#: account.
_LENGTHS = {"routing": (9, 9), "amount": (10, 10), "auxiliary": (1, 15), "epc": (1, 1), "transaction_code": (1, 6)}
_SERIAL = (1, 12)
#: Shorter numbers are not looked for in other readings: too much else has as many digits.
_SHORTEST_LOOKED_FOR = 6


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


def field(name: str, value: str | None) -> str | None:
    """The value of a field of the line: the account masked, and any field with more digits than it can have."""
    return value if value is None or _shows(name, value) else number(value)


def _shows(name: str, value: str) -> bool:
    """Whether what stands in the field *name* can be that field and nothing that must be masked."""
    least, most = _LENGTHS.get(name, _SERIAL)
    return name != "account" and least <= len("".join(value.split())) <= most


def own(text: str, read: ReadTender) -> str:
    """*text* with this tender's own account and identification numbers masked wherever they stand, however parted."""
    numbers = [] if read.line is None or read.line.account is None else [read.line.account]
    for shown in read.shown:
        numbers += [shown.document.number, *((shown.best.reveal_number() or "",) if shown.best else ())]
    pattern = _any_of(tuple(numbers))
    return text if pattern is None else pattern.sub(lambda found: number(found[0]), text)


@lru_cache(maxsize=256)
def _any_of(numbers: tuple[str, ...]) -> re.Pattern[str] | None:
    plain = {"".join(filter(str.isalnum, number)) for number in numbers}
    looked_for = sorted(filter(lambda number: len(number) >= _SHORTEST_LOOKED_FOR, plain), key=len, reverse=True)
    parted = (r"[\W_]{0,3}".join(map(re.escape, number)) for number in looked_for)
    return re.compile("|".join(parted), re.IGNORECASE) if looked_for else None


def identifier(text: str, read: ReadTender) -> str:
    """A tender's own id; in a file whose columns have slipped it may be the line of a check, or hold its account."""
    found = micr.read(text)
    if any(symbol in text for symbol in _SYMBOLS) or (isinstance(found, micr.MicrLine) and found.checksum):
        return line(text, found)
    forbidden = identity.forbidden_number(text)
    return document_number(text) if forbidden and forbidden.certainty == "certain" else own(text, read)


def message(text: str, read: ReadTender) -> str:
    """A sentence on *read* that may quote a reading into which the account or a card's number was put by mistake."""
    return _STRAY.sub(lambda found: number(found[0]), own(text, read))


def line(text: str, read: micr.MicrLine | Fault | None) -> str:
    """The magnetic-ink line *text* with the account masked, as far as *read* tells where it stands."""
    if not isinstance(read, micr.MicrLine):
        return number(text)
    places = read.spans
    open_fields = [span for name, span in places.items() if _shows(name, span.of(text))]
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
        text = str(entry) if not isinstance(entry, bool) else str(Mark.YES if entry else Mark.NO)
        shown[f"counter.{key}"] = text if reveal else own(text, read)
    return shown


def _face(name: str, text: str, read: ReadTender) -> str:
    if name == "micr":
        return line(text, read.micr)
    text = own(text, read)
    return _STRAY.sub(lambda found: number(found[0]), text) if name in _OPEN else prose(text)


def _circumstances(tender: Tender) -> dict[str, Any]:
    return tender.counter.model_dump(mode="json", exclude_unset=True, exclude_none=True)


def summary(read: ReadTender, shown: Mapping[str, str], *, reveal: bool = False) -> dict[str, Any]:
    """What was read, JSON-ready: the readings, the fields of the line, the values, the documents."""
    words, figures = _value(read.words, "cents"), _value(read.figures, "cents")
    return {
        "readings": dict(shown),
        "micr": _line_fields(read.line, reveal=reveal),
        "routing": _routing(read),
        "amount_cents": read.amount_cents if reveal else _amount(read.amount_cents, read),
        "words_cents": words if reveal else _amount(words, read),
        "figures_cents": figures if reveal else _amount(figures, read),
        "date": _iso(_value(read.date, "date")),
        "kinds": sorted(read.kinds),
        "evidence": [_evidence(piece) for piece in read.kind.evidence],
        "documents": [
            {
                "kind": shown_document.kind if reveal else prose(own(shown_document.kind, read)),
                "state": shown_document.state if reveal else prose(own(shown_document.state, read)),
                "number": shown_document.number if reveal else document_number(shown_document.number),
            }
            for shown_document in read.tender.documents or ()
        ],
    }


def _value(part: object, name: str) -> Any:
    return None if part is None or isinstance(part, Fault) else getattr(part, name)


def _amount(cents: int | None, read: ReadTender) -> int | None:
    """*cents*, withheld where they are the account that somebody wrote in the place of an amount."""
    return cents if message(str(cents), read) == str(cents) else None


def _iso(day: Any) -> str | None:
    return None if day is None else str(day.isoformat())


def _line_fields(read: micr.MicrLine | None, *, reveal: bool) -> dict[str, Any] | None:
    if read is None:
        return None
    shown = {name: getattr(read, name) for name in ("auxiliary", "account", "serial", "transaction_code")}
    if not reveal:
        shown = {name: field(name, value) for name, value in shown.items()}
    return {
        "notation": read.notation,
        "country": read.country,
        "routing": read.routing,
        "checksum": read.checksum,
        "epc": read.epc,
        **shown,
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
