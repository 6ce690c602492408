"""A form as a tender and back again: what was typed, what of it is a mistake, and what of it may be shown again.

>>> typed({"face.words": "", "face.words.state": "illegible", "counter.network": "down"}).wire
{'face': {'words': None}, 'counter': {'network': 'down'}}
>>> typed({"counter.amount": "much"}).mistakes
{'counter.amount': 'Expected dollars as text, such as "45.10", read something else'}
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple
from urllib.parse import parse_qsl

from checkface import digits, masking
from checkface.assessment import TenderError, parse
from checkface.patterns import lazily
from checkface.reading import read
from checkface.tender import Face, Mark, State, Tender
from checkface.web import fields
from checkface.web.fields import FIELDS, NAMES, OF_DOCUMENT, SHOWN
from checkface.web.refusal import Refused

_DAY = lazily(r"\d{4}-\d{2}-\d{2}")


class Typed(NamedTuple):
    """What was typed by field, the tender it makes (none where there are mistakes), and the mistakes by field."""

    given: Mapping[str, str]
    wire: dict[str, Any]
    tender: Tender | None
    mistakes: dict[str, str]


def decode(body: bytes) -> dict[str, str]:
    """The fields of a form sent as ``application/x-www-form-urlencoded``. Raises :class:`Refused` for another form."""
    try:
        text = body.decode("ascii")
        pairs = parse_qsl(text, keep_blank_values=True, strict_parsing=bool(text), max_num_fields=200)
    except ValueError:
        raise Refused(400, ["Expected a form as browsers send it, read something else"]) from None
    found = dict(pairs)
    if len(found) < len(pairs) or not found.keys() <= NAMES:
        raise Refused(422, ["Expected the fields of the form, each once, read others"])
    return {name: text.replace("\r\n", "\n") for name, text in found.items()}


def typed(given: Mapping[str, str]) -> Typed:
    """The tender that a form makes, or its mistakes."""
    mistakes: dict[str, str] = {}
    wire: dict[str, Any] = {"face": {}}
    for name, field in FIELDS.items():
        part, _, key = name.partition(".")
        text, state = given.get(name, ""), given.get(name + fields.STATE, fields.UNSEEN)
        if field.stated:
            _reading(wire["face"], key, text, state, mistakes)
        elif part == "face" and text:
            wire["face"][key] = fields.WIRE.get(text, text)
        elif part == "counter" and text.strip():
            wire.setdefault("counter", {})[key] = text
    shown = {name.rpartition(".")[2]: given[name] for name in OF_DOCUMENT if given.get(name, "").strip()}
    if (asked := given.get(SHOWN) or ("one" if shown else "")) == "one":
        wire["documents"] = [shown]
    elif asked == "none":
        wire["documents"] = []
        if shown:
            mistakes[SHOWN] = "Expected no document where none was shown, read one"
    elif asked:
        mistakes[SHOWN] = "Expected one of the choices, read another"
    try:
        tender = parse(wire)
    except TenderError as error:
        for problem in error.problems:
            place, _, sentence = problem.partition(": ")
            mistakes[place if place in FIELDS else SHOWN] = sentence
        return Typed(given, wire, None, mistakes)
    return Typed(given, wire, None if mistakes else tender, mistakes)


def _reading(face: dict[str, Any], key: str, text: str, state: str, mistakes: dict[str, str]) -> None:
    """Put one reading of the face on the wire, in its state."""
    here = f"face.{key}"
    if state not in dict(fields.STATES):
        mistakes[here] = "Expected one of the choices, read another"
        face[key] = text  # what stands there must still be known, or its numbers would go unmasked elsewhere
    elif text.strip():
        if state in {fields.BLANK, fields.ILLEGIBLE}:
            mistakes[here] = "Expected nothing typed for what is not there or cannot be made out, read text"
        face[key] = text
    elif state == fields.TEXT:
        mistakes[here] = "Expected what was read, or another answer beside it, read nothing"
    elif state:
        face[key] = "" if state == fields.BLANK else None


def shown_again(given: Typed) -> dict[str, str]:
    """What was typed, without any account or identification number: what masking would change is left out."""
    found = read(given.tender or parse(_readings(given.wire)))
    masked, numbers = masking.texts(found), masking.own_numbers(found)
    again = {}
    for name, text in given.given.items():
        field = FIELDS.get(name)
        if field is not None and text.strip() and not _DAY.fullmatch(text):
            told = masked.get(name, text) if field.stated else masking.prose(text)
            # An identification number may have been typed in another place than its own.
            if field.withheld or told != text or digits.hide_own(text, numbers) != text:
                continue
        again[name] = text
    return again


def _readings(wire: Mapping[str, Any]) -> dict[str, Any]:
    """The texts of *wire*: what is left of it cannot be a mistake."""
    face = {key: text for key, text in wire["face"].items() if FIELDS[f"face.{key}"].stated}
    shown = [{key: text for key, text in each.items() if key != "is_bearer"} for each in wire.get("documents", ())]
    return {"face": face, "documents": shown}


def of_tender(tender: Tender) -> dict[str, str]:
    """The fields of a form that make *tender* (its first document), numbers included: for invented checks only."""
    given: dict[str, str] = {}
    for key in Face.model_fields:
        name, value = f"face.{key}", getattr(tender.face, key)
        if isinstance(value, Mark):
            given[name] = "" if value is Mark.ABSENT else str(value)
        else:
            given[name] = value.text
            given[name + fields.STATE] = _STATES[value.state]
    for key, entry in tender.counter.model_dump(mode="json", exclude_none=True).items():
        given[f"counter.{key}"] = _word(entry)
    if tender.documents is not None:
        given[SHOWN] = "one" if tender.documents else "none"
        for document in tender.documents[:1]:
            for key, entry in document.model_dump(mode="json", exclude_none=True).items():
                given[f"{SHOWN}.0.{key}"] = _word(entry)
    return given


_STATES = {
    State.ABSENT: fields.UNSEEN, State.BLANK: fields.BLANK, State.ILLEGIBLE: fields.ILLEGIBLE, State.TEXT: fields.TEXT,
}  # fmt: skip


def _word(entry: object) -> str:
    if isinstance(entry, list):
        return " ".join(entry)
    return {True: "yes", False: "no"}[entry] if isinstance(entry, bool) else str(entry)
