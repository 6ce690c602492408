"""Account, card and identification numbers, masked to the last four in everything that leaves the toolkit.

A tender's own numbers are masked wherever they stand; of all others each field shows as many digits as it can have
(:data:`checkface.digits.SHOWN`). Masks keep the length of the text, so that a caret still stands under the right
character.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache, partial
from typing import Any

from checkface import digits, identity, instruments, micr
from checkface.digits import MASK as MASK
from checkface.patterns import lazily
from checkface.reading import ReadTender
from checkface.span import Fault
from checkface.tender import Face, Mark, Reading, State, Tender

#: Symbols of the magnetic-ink line (Unicode 2446 to 2449).
_SYMBOLS = "\u2446\u2447\u2448\u2449"
#: Readings and circumstances with a limit of their own; the others are prose, or words of a list.
_LIMITS = {
    "fraction": "fraction", "serial": "serial", "date": "date", "figures": "figures", "amount": "amount",
    "purchase": "amount", "store": "counter", "lane": "counter", "employee": "counter",
}  # fmt: skip
#: Least and most characters of the fields of a line, blanks left out (ASC X9 TR 100-2013; X9.100-187 record 25 for the
#: auxiliary field). In a field of another length two have run together or were taken for each other, and one may be the
#: account.
_LENGTHS = {"routing": (9, 9), "amount": (10, 10), "auxiliary": (1, 15), "epc": (1, 1), "transaction_code": (1, 6)}
_SERIAL = (1, 12)
#: So few characters hold nobody's number.
_FEW = 6
#: So short a text is no line: its routing number alone has as many characters.
_SHORTEST_LINE = 9
#: Four digits that stand near each other: without them there is nothing to mask.
_FOUR = lazily(r"\d(?:[\W_]{0,3}\d){3}")

number = digits.last_four
prose = partial(digits.hide, field="prose")


def document_number(text: str) -> str:
    """An identification number masked to its last four; wholly, if it may be one that must not be recorded at all."""
    if identity.forbidden_number(text) is not None:
        return "".join(MASK if character.isalnum() else character for character in text)
    return number(text)


def field(name: str, value: str | None, own: tuple[str, ...] = ()) -> str | None:
    """The value of a field of the line: the account masked, any field with more digits than it can have, and any that
    holds one of the numbers *own*."""
    return value if value is None or _shows(name, value, own) else number(value)


def _shows(name: str, value: str, own: tuple[str, ...]) -> bool:
    """Whether what stands in the field *name* can be that field and nothing that must be masked."""
    least, most = _LENGTHS.get(name, _SERIAL)
    size = len("".join(value.split()))
    if name == "account" or not least <= size <= most:
        return False
    if name == "routing":
        return True
    if size > _SERIAL[1] and (card := identity.forbidden_number(value)) and card.certainty == "certain":
        return False
    return digits.hide(digits.hide_own(value, own), "line") == value


def own_numbers(read: ReadTender) -> tuple[str, ...]:
    """This tender's own account and identification numbers, as :func:`checkface.digits.hide_own` looks for them."""
    line = read.line
    if line is None and not read.shown:
        return ()
    numbers: list[str | None] = [line.account] if line is not None else []
    if line is not None and line.ambiguities:
        numbers += [each for doubt in line.ambiguities if doubt.field == "account" for each in doubt.candidates]
    for shown in read.shown:
        numbers += [shown.document.number, *((shown.best.reveal_number(),) if shown.best else ())]
    return digits.own(*numbers)


def _closed(read: ReadTender) -> tuple[str, ...]:
    """What no sentence shows: the tender's own numbers, and what stands in a reading that cannot have so many digits,
    for a part may have taken it for a value."""
    face, numbers = read.face, own_numbers(read)
    strays = _strays(face.serial.text, face.fraction.text, face.date.text, face.figures.text, face.words.text)
    return digits.own(*numbers, *strays) if strays else numbers


@lru_cache(maxsize=256)
def _strays(*readings: str) -> tuple[str, ...]:
    """The digits that these readings cannot have: those of which a part makes a value."""
    limits = ("serial", "fraction", "date", "figures", "prose")
    pairs = zip(readings, limits, strict=True)
    return tuple(stray for text, limit in pairs if len(text) > _FEW for stray in digits.hidden(text, limit))


def own(text: str, read: ReadTender, limit: str = "prose") -> str:
    """*text* with this tender's own numbers masked wherever they stand, however parted, and others by *limit*."""
    return digits.hide(digits.hide_own(text, own_numbers(read)), limit)


def identifier(text: str, read: ReadTender) -> str:
    """A tender's own id; in a file whose columns have slipped it may be the line of a check, or hold its account."""
    if len(text) >= _SHORTEST_LINE:
        found = micr.read(text)
        if any(symbol in text for symbol in _SYMBOLS) or (isinstance(found, micr.MicrLine) and found.checksum):
            return line(text, found, own_numbers(read))
        if (forbidden := identity.forbidden_number(text)) and forbidden.certainty == "certain":
            return document_number(text)
    return own(text, read, "id")


def message(text: str, read: ReadTender) -> str:
    """A sentence on *read* that may quote a reading into which the account or a card's number was put by mistake."""
    if text.isascii() and not read.shown and _FOUR.search(text) is None:
        return text
    numbers = _closed(read)
    own = digits.hide_own(text, numbers)
    said = digits.hide(own, "message")
    if said != own:  # what is open anyway may be named in full: the bank's number, and what the check is numbered
        said = digits.hide(own, "message", _open(read))
    return digits.hide_parted(said, numbers)


def _open(read: ReadTender) -> frozenset[str]:
    found = [read.routing and read.routing.number, read.serial and digits.hide(read.serial, "serial")]
    if (line := read.line) is not None:
        found += [
            line.routing,
            line.routing_repaired,
            line.routing_old_form,
            line.serial and field("serial", line.serial),
        ]
    if read.fraction is not None and not isinstance(read.fraction, Fault):
        found += [read.fraction.number, read.fraction.first_eight]
    return frozenset(each.replace("-", "") for each in found if each)


def line(text: str, read: micr.MicrLine | Fault | None, own: tuple[str, ...] = ()) -> str:
    """The magnetic-ink line *text* with the account masked, as far as *read* tells where it stands, and *own*."""
    if not isinstance(read, micr.MicrLine):
        return number(text)
    places = read.spans
    open_fields = [span for name, span in places.items() if _shows(name, span.of(text), own)]
    # Digits that no field claims may be the account's: they are masked with it.
    shown = {place for span in open_fields for place in range(span.start, span.end)}
    closed = [place for place, c in enumerate(text) if place not in shown and c.isalnum()]
    account = places.get("account")
    if len(closed) > 4:
        shown.update([i for i in closed if account is None or account.start <= i < account.end][-4:])
    masked = {place for place in closed if place not in shown}
    return "".join(MASK if i in masked and c.isdigit() else c for i, c in enumerate(text))


def texts(read: ReadTender, *, reveal: bool = False) -> dict[str, str]:
    """The raw text of every reading that was taken, by dotted path, masked unless *reveal*."""
    shown: dict[str, str] = {}
    numbers = () if reveal else own_numbers(read)
    for name in Face.model_fields:
        value: Reading | Mark = getattr(read.face, name)
        if isinstance(value, Mark):
            if value is not Mark.ABSENT:
                shown[f"face.{name}"] = str(value)
        elif value.state is not State.ABSENT:
            text = value.text
            if not reveal:
                text = line(text, read.micr, numbers) if name == "micr" else _masked(name, text, numbers)
            shown[f"face.{name}"] = text
    for key, entry in _circumstances(read.tender).items():
        text = str(entry) if not isinstance(entry, bool) else str(Mark.YES if entry else Mark.NO)
        shown[f"counter.{key}"] = text if reveal else _masked(key, text, numbers)
    return shown


def _masked(name: str, text: str, numbers: tuple[str, ...]) -> str:
    return digits.hide(digits.hide_own(text, numbers), _LIMITS.get(name, "prose"))


def _circumstances(tender: Tender) -> dict[str, Any]:
    return tender.counter.model_dump(mode="json", exclude_unset=True, exclude_none=True)


def summary(read: ReadTender, shown: Mapping[str, str], *, reveal: bool = False) -> dict[str, Any]:
    """What was read, JSON-ready: the readings, the fields of the line, the values, the documents."""
    numbers = () if reveal else own_numbers(read)
    words, figures = _value(read.words, "cents"), _value(read.figures, "cents")
    day = read.face.date.text
    return {
        "readings": dict(shown),
        "micr": _line_fields(read.line, numbers, reveal=reveal),
        "routing": _routing(read),
        "amount_cents": read.amount_cents if reveal else amount(read.amount_cents, numbers),
        "words_cents": words if reveal else amount(words, numbers),
        "figures_cents": figures if reveal else amount(figures, numbers),
        "date": _iso(_value(read.date, "date")) if reveal or _masked("date", day, numbers) == day else None,
        "kinds": sorted(read.kinds),
        "evidence": [_evidence(piece, numbers) for piece in read.kind.evidence],
        "documents": [
            {
                "kind": shown_document.kind if reveal else _masked("kind", shown_document.kind, numbers),
                "state": shown_document.state if reveal else _masked("state", shown_document.state, numbers),
                "number": shown_document.number if reveal else document_number(shown_document.number),
            }
            for shown_document in read.tender.documents or ()
        ],
    }


def _value(part: object, name: str) -> Any:
    return None if part is None or isinstance(part, Fault) else getattr(part, name)


def amount(cents: int | None, own: tuple[str, ...] = ()) -> int | None:
    """*cents*, withheld where they are the account, or more than an amount can be, that stand in an amount's place."""
    if cents is None:
        return None
    forms = (str(cents), f"{cents // 100}.{cents % 100:02}")
    return cents if all(_masked("amount", form, own) == form for form in forms) else None


def _iso(day: Any) -> str | None:
    return None if day is None else str(day.isoformat())


def _line_fields(read: micr.MicrLine | None, own: tuple[str, ...], *, reveal: bool) -> dict[str, Any] | None:
    if read is None:
        return None
    shown = {name: getattr(read, name) for name in ("auxiliary", "account", "serial", "transaction_code")}
    if not reveal:
        shown = {name: field(name, value, own) for name, value in shown.items()}
    return {
        "notation": read.notation,
        "country": read.country,
        "routing": read.routing,
        "checksum": read.checksum,
        "epc": read.epc,
        **shown,
        "amount_cents": read.amount_cents if reveal else amount(read.amount_cents, own),
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


def _evidence(piece: instruments.Evidence, own: tuple[str, ...]) -> dict[str, str]:
    said = _masked("evidence", piece.words, own)
    return {"kind": str(piece.kind), "weight": str(piece.weight), "reading": piece.reading, "words": said}
