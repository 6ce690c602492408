"""What comes over the counter: the face of a check, the documents shown and the counter's circumstances.

The wire form is one JSON object (see :class:`Tender`). Each reading of the face has a state, and the states are
different facts: *absent* (the key is not there: nobody looked), *blank* (``""``: looked, nothing there), *illegible*
(``null``: looked, could not be read) and *text*. A reading may also be ``{"text", "by", "confidence"}``. Bad paper
is never an exception; only a malformed object is, and then the error names the key and the nearest known one.

>>> Tender.model_validate({"face": {"serial": "", "words": None}}).face.serial.state
<State.BLANK: 'blank'>
>>> Tender.model_validate({"face": {"seriel": "1043"}})
Traceback (most recent call last):
pydantic_core._pydantic_core.ValidationError: 1 validation error for Tender
face
  Expected a known key, read 'seriel'; the nearest known key is 'serial' [type=unknown_key]
"""

import re
from collections.abc import Iterable
from contextlib import suppress
from datetime import date, datetime
from enum import StrEnum
from typing import Annotated, Any, Literal, NamedTuple, Self

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    ModelWrapValidatorHandler,
    PlainSerializer,
    PlainValidator,
    ValidationError,
    WithJsonSchema,
    model_validator,
)
from pydantic_core import InitErrorDetails, PydanticCustomError

from checkface.kinds import Kind as Kind
from checkface.mistakes import quoted, sentence


class State(StrEnum):
    """What is known of a reading."""

    ABSENT = "absent"
    BLANK = "blank"
    ILLEGIBLE = "illegible"
    TEXT = "text"


class Reading(NamedTuple):
    """One thing read off the paper. ``by`` names the reader, ``confidence`` is its own figure from 0 to 1."""

    state: State
    text: str = ""
    by: str | None = None
    confidence: float | None = None

    def __repr__(self) -> str:
        """The state and the length: what was read never stands in a log."""
        return f"Reading({self.state}, {len(self.text)} characters)" if self.text else f"Reading({self.state})"


class Mark(StrEnum):
    """One yes-or-no observation: seen, not seen, could not be made out, or nobody looked."""

    YES = "yes"
    NO = "no"
    ILLEGIBLE = "illegible"
    ABSENT = "absent"


#: Kinds by their names, and by other names of the trade that mean no other kind.
_KINDS = {name: kind for kind in Kind for name in (str(kind), *kind.row.also)}
ABSENT = Reading(State.ABSENT)
_BLANK = Reading(State.BLANK)
_ILLEGIBLE = Reading(State.ILLEGIBLE)
_SURROGATE = re.compile("[\ud800-\udfff]")
_DAY = re.compile(r"(\d{4}-\d{2}-\d{2})(?:T00:00:00)?", re.ASCII)
_MONEY = re.compile(r"\$?(?P<dollars>[0-9]{1,3}(?:,[0-9]{3})+|[0-9]{1,9})(?:\.(?P<cents>[0-9]{2}))?", re.ASCII)


def _reading(value: Any) -> Reading:
    match value:
        case Reading():
            return value
        case None:
            return _ILLEGIBLE
        case str():
            # A lone surrogate is no character: it can be neither printed nor stored.
            return Reading(State.TEXT, _SURROGATE.sub("\ufffd", value)) if value.strip() else _BLANK
        case list() if all(isinstance(line, str) for line in value):
            return _reading("\n".join(value))
        case {"text": str() | None as text, **rest} if rest.keys() <= {"by", "confidence"}:
            by, confidence = rest.get("by"), rest.get("confidence")
            if (by is None or isinstance(by, str)) and (
                confidence is None or (isinstance(confidence, (int, float)) and 0 <= confidence <= 1)
            ):
                return _reading(text)._replace(by=by, confidence=confidence)
    raise ValueError('Expected text, "" (blank), null (illegible) or {"text", "by", "confidence"}, read something else')


def _reading_wire(value: Reading) -> Any:
    text = None if value.state is State.ILLEGIBLE else value.text
    if value.by is None and value.confidence is None:
        return text
    return {"text": text, "by": value.by, "confidence": value.confidence}


def _mark(value: Any) -> Mark:
    if isinstance(value, Mark):
        return value
    if value is None:
        return Mark.ILLEGIBLE
    if isinstance(value, (bool, str)):
        word = str(value).strip().lower()
        if word in {"true", "yes", "y", "1"}:
            return Mark.YES
        if word in {"false", "no", "n", "0", ""}:
            return Mark.NO
    raise ValueError("Expected true, false or null (illegible), read something else")


def _money(value: Any) -> int | None:
    if value is None or (isinstance(value, str) and not value.strip()):
        return None
    if isinstance(value, str) and (found := _MONEY.fullmatch(value.strip())):
        return int(found["dollars"].replace(",", "")) * 100 + int(found["cents"] or 0)
    raise ValueError('Expected dollars as text, such as "45.10", read something else')


def _money_wire(cents: int | None) -> str | None:
    return None if cents is None else f"{cents // 100}.{cents % 100:02d}"


def _kind(value: Any) -> Kind | None:
    if value is None or (isinstance(value, str) and not value.strip()):
        return None
    if isinstance(value, str):
        word = re.sub(r"[\s_]+", "-", value.strip().lower()).replace("'", "").replace("\u2019", "")
        word = word.replace("cheque", "check")
        for form in (word, word.removesuffix("-check"), word + "-check"):
            if form in _KINDS:
                return _KINDS[form]
        from difflib import get_close_matches

        stems = {name.removesuffix("-check"): name for name in Kind}
        near = get_close_matches(word.removesuffix("-check"), stems, 1)
        hint = f"; the nearest known kind is {str(stems[near[0]])!r}" if near else f", one of {', '.join(Kind)}"
        raise ValueError(f"Expected a known kind of check, read {quoted(value)}{hint}")
    raise ValueError("Expected a known kind of check as text, read something else")


_READING_SCHEMA: dict[str, Any] = {
    "description": 'Key absent: not looked at. "": looked at and blank. null: illegible.',
    "anyOf": [
        {"type": "string"},
        {"type": "null"},
        {
            "type": "object",
            "properties": {
                "text": {"type": ["string", "null"]},
                "by": {"type": ["string", "null"]},
                "confidence": {"type": ["number", "null"], "minimum": 0, "maximum": 1},
            },
            "required": ["text"],
            "additionalProperties": False,
        },
        {"type": "array", "items": {"type": "string"}},
    ],
}

Text = Annotated[Reading, PlainValidator(_reading), PlainSerializer(_reading_wire), WithJsonSchema(_READING_SCHEMA)]
Seen = Annotated[
    Mark,
    PlainValidator(_mark),
    PlainSerializer(lambda m: {Mark.YES: True, Mark.NO: False}.get(m)),
    WithJsonSchema({"type": ["boolean", "null"], "description": "Key absent: not looked at. null: illegible."}),
]
Cents = Annotated[
    int | None,
    PlainValidator(_money),
    PlainSerializer(_money_wire),
    WithJsonSchema({"type": ["string", "null"], "pattern": r"^\$?[0-9,]+(\.[0-9]{2})?$", "description": "US dollars"}),
]
DeclaredKind = Annotated[
    Kind | None,
    PlainValidator(_kind),
    PlainSerializer(lambda kind: None if kind is None else str(kind)),
    WithJsonSchema({"enum": [*map(str, Kind), None]}),
]


def _blank_is_absent(value: Any) -> Any:
    """A word as it is meant: without blanks around it, in small letters, and none at all where it is blank."""
    return (value.strip().lower() or None) if isinstance(value, str) else value


def _yes_no(value: Any) -> Any:
    word = value.strip().lower() if isinstance(value, str) else value
    return {"": None, "yes": True, "no": False}.get(word, value) if isinstance(word, str) else value


def _ids(value: Any) -> Any:
    """Ids as a list, or in one text as a file holds them."""
    return tuple(re.findall(r"[^\s,;|]+", value)) if isinstance(value, str) else value


def _day(value: Any) -> Any:
    """A day and nothing that could be made into one: a number is no count of seconds here."""
    if value is None or (isinstance(value, date) and not isinstance(value, datetime)):
        return value
    if isinstance(value, str):
        if not value.strip():
            return None
        if found := _DAY.fullmatch(value.strip()):
            with suppress(ValueError):  # no such day
                return date.fromisoformat(found[1])
    raise ValueError("Expected a day such as 2026-11-24, read something else")


Optional = BeforeValidator(_blank_is_absent)


class Wire(BaseModel):
    """Base of everything on the wire: frozen, closed, and silent about the values it refuses, in ``errors()`` too."""

    # Errors must not echo the input: it may hold an account or a licence number.
    model_config = ConfigDict(frozen=True, extra="forbid", hide_input_in_errors=True, defer_build=True)

    def __str__(self) -> str:
        return repr(self)

    @model_validator(mode="wrap")
    @classmethod
    def _name_every_unknown_key(cls, value: Any, handler: ModelWrapValidatorHandler[Self]) -> Self:
        """An unknown key is named with the nearest known one, and hides no other mistake beside it."""
        if not isinstance(value, dict):
            return handler(value)
        fields = cls.model_fields
        known = {k: _SURROGATE.sub("\ufffd", v) if isinstance(v, str) else v for k, v in value.items() if k in fields}
        mistakes = [_mistake((), "unknown_key", _unknown(str(key), list(fields))) for key in value if key not in fields]
        try:
            made = handler(known)
            if not mistakes:
                return made
        except ValidationError as error:
            # A key that is missing is most likely the one that was misspelled.
            others = (e for e in error.errors(include_url=False) if not mistakes or e["type"] != "missing")
            mistakes += [_mistake(e["loc"], _sort(e["type"]), sentence(e)) for e in others]
        raise ValidationError.from_exception_data(cls.__name__, mistakes, hide_input=True)


def _sort(kind: str) -> str:
    return kind if kind in {"missing", "unknown_key"} else "mistake"


def _unknown(key: str, fields: list[str]) -> str:
    from difflib import get_close_matches

    near = get_close_matches(key, fields, 1, 0.5)
    known = f"; the nearest known key is {near[0]!r}" if near else f", one of {', '.join(fields)}"
    return f"Expected a known key, read {quoted(key)}{known}"


def _mistake(place: tuple[int | str, ...], kind: str, message: str) -> InitErrorDetails:
    # Without a context the message is no template: its braces stay as they are.
    return InitErrorDetails(type=PydanticCustomError(kind, message), loc=place, input=None)


class _Word(str):
    """A text whose ``repr`` is itself."""

    __slots__ = ()
    __repr__ = str.__str__


def _discreet(value: Any) -> Any:
    """*value* as it may stand in a log: a text that may be anything shows no number."""
    return _Word(quoted(value)) if isinstance(value, str) else value


class Face(Wire):
    """The readings of the front and back, as text. ``memo`` is what the customer wrote about the purpose."""

    micr: Text = ABSENT
    fraction: Text = ABSENT
    serial: Text = ABSENT
    date: Text = ABSENT
    payee: Text = ABSENT
    figures: Text = ABSENT
    words: Text = ABSENT
    drawer: Text = ABSENT
    drawee: Text = ABSENT
    legends: Text = ABSENT
    memo: Text = ABSENT
    signature: Seen = Mark.ABSENT
    countersignature: Seen = Mark.ABSENT
    endorsements: Text = ABSENT
    alterations: Seen = Mark.ABSENT

    def __repr_args__(self) -> Iterable[tuple[str | None, Any]]:
        return ((None, _Word(name)) for name in type(self).model_fields if name in self.model_fields_set)


class Counter(Wire):
    """The circumstances: the day of tender, what the clerk keyed, and what the lane can do.

    ``amount`` and ``purchase`` are US dollars as text on the wire and cents here. ``micr_by`` says how the line was
    captured: ``reader`` (by a machine, untouched), ``corrected`` (by a machine, then edited) or ``keyed``.
    ``confirmed`` are the ids of the rules whose question was put to the clerk and answered with yes.
    """

    on: Annotated[date | None, Field(ge=date(1900, 1, 1), lt=date(2200, 1, 1)), BeforeValidator(_day)] = None
    declared_kind: DeclaredKind = None
    amount: Cents = None
    purchase: Cents = None
    micr_by: Annotated[Literal["reader", "corrected", "keyed"] | None, Optional] = None
    network: Annotated[Literal["up", "down"] | None, Optional] = None
    authorization_signed: Annotated[bool | None, BeforeValidator(_yes_no)] = None
    confirmed: Annotated[tuple[str, ...], BeforeValidator(_ids)] = ()
    store: str = ""
    lane: str = ""
    employee: str = ""

    def __repr_args__(self) -> Iterable[tuple[str | None, Any]]:
        sums = {"amount": _Word("..."), "purchase": _Word("...")}
        taken = (name for name in type(self).model_fields if name in self.model_fields_set)
        return ((name, sums.get(name) or _discreet(getattr(self, name))) for name in taken)


class Document(Wire):
    """One identification document shown. ``state`` is the issuer's INCITS 38 number or letters."""

    kind: str = ""
    barcode: str = ""
    number: str = ""
    state: str = ""
    expires: str = ""
    name: str = ""
    is_bearer: Annotated[bool | None, BeforeValidator(_yes_no)] = None

    def __repr_args__(self) -> Iterable[tuple[str | None, Any]]:
        return (("kind", _Word(quoted(self.kind))), ("state", _Word(quoted(self.state))))


class Tender(Wire):
    """One check over the counter. ``documents`` absent: nobody asked; ``[]``: asked, none shown.

    ``taken_as`` is for audits: what the lane really did.
    """

    face: Face
    id: str = ""
    counter: Counter = Field(default_factory=Counter)
    documents: tuple[Document, ...] | None = None
    taken_as: Annotated[Literal["converted", "kept", "returned"] | None, Optional] = None

    def __repr_args__(self) -> Iterable[tuple[str | None, Any]]:
        return ((name, _discreet(getattr(self, name))) for name in ("id", "face", "counter", "documents", "taken_as"))

    def wire(self) -> dict[str, Any]:
        """The JSON form: absent keys stay absent, nothing is masked. For storage by the caller, never for print."""
        return self.model_dump(mode="json", exclude_unset=True)
