"""The form in the shape of a tender: what stands in which section, what it is called and what may be chosen.

A field is called as the reading on the wire (``face.micr``); beside a reading of the face stands its state
(``face.micr.state``), for what was not looked at, what is blank and what cannot be made out are different facts.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

from checkface.identity import KINDS
from checkface.tender import Kind

Choices = tuple[tuple[str, str], ...]
STATE = ".state"
#: The state of a reading of the face; text that is typed counts as read whatever stands beside it.
TEXT, UNSEEN, BLANK, ILLEGIBLE = "text", "", "blank", "illegible"
STATES: Choices = (
    (UNSEEN, "not looked at"),
    (TEXT, "read as typed"),
    (BLANK, "looked: nothing there"),
    (ILLEGIBLE, "cannot be made out"),
)
#: How a choice reads on the wire.
WIRE: dict[str, object] = {"yes": True, "no": False, "illegible": None}
_SEEN: Choices = (("", "not looked at"), ("yes", "yes"), ("no", "no"), ("illegible", "cannot be made out"))
_YES_NO: Choices = (("", "nobody said"), ("yes", "yes"), ("no", "no"))
SHOWN = "documents"
_DOCUMENT = f"{SHOWN}.0."


def _named(names: tuple[str, ...]) -> Choices:
    return tuple((name, name.replace("-", " ")) for name in names)


class Field(NamedTuple):
    """One field. ``stated``: beside it stands a state; ``withheld``: what is typed never comes back in a page."""

    name: str
    label: str
    hint: str = ""
    shape: Literal["line", "lines", "choice", "day"] = "line"
    choices: Choices = ()
    stated: bool = False
    withheld: bool = False


class Section(NamedTuple):
    """Fields under one heading."""

    id: str
    title: str
    hint: str
    fields: tuple[Field, ...]


def _face(name: str, label: str, hint: str = "", *, lines: bool = False, withheld: bool = False) -> Field:
    return Field(f"face.{name}", label, hint, "lines" if lines else "line", (), stated=True, withheld=withheld)


def _choice(name: str, label: str, choices: Choices, hint: str = "") -> Field:
    return Field(name, label, hint, "choice", choices)


SECTIONS = (
    Section(
        "face",
        "What is read on the check",
        "Type each thing as it stands there, mistakes included. For what you leave empty, say beside it whether nobody "
        "looked, nothing was there, or it could not be made out.",
        (
            _face(
                "micr",
                "Magnetic-ink line",
                "As the reader gives it. By hand: T for the transit symbol, O for On-Us, ? for a character that "
                "cannot be read, as in T071098973T 135792468O 1043.",
                withheld=True,
            ),
            _face("serial", "Check number", "Upper right corner."),
            _face("fraction", "Fraction", "Near the check number, such as 70-9897/710."),
            _face("date", "Date"),
            _face("payee", "Payee", "After “pay to the order of”."),
            _face("figures", "Amount in figures", "The box, such as $45.10."),
            _face("words", "Amount in words", "The legal line, such as Forty-five and 10/100."),
            _face("drawer", "Drawer", "The writer’s name and address, a line each.", lines=True),
            _face("drawee", "Bank as printed", "A line each.", lines=True),
            _face("legends", "Other wording", "Such as VOID AFTER 90 DAYS, a line each.", lines=True),
            _face("memo", "Memo", "What the customer wrote about the purpose.", lines=True),
            _face("endorsements", "Endorsements", "What is written on the back, a line each.", lines=True),
        ),
    ),
    Section(
        "seen",
        "What is seen on it",
        "",
        (
            _choice("face.signature", "Signed", _SEEN),
            _choice("face.countersignature", "Countersigned (traveler’s checks)", _SEEN),
            _choice("face.alterations", "Something was changed", _SEEN),
        ),
    ),
    Section(
        "counter",
        "What the counter knows",
        "",
        (
            Field("counter.on", "Day of tender", "Left empty, it is today.", "day"),
            _choice("counter.declared_kind", "Taken for", (("", "nobody said"), *_named(tuple(Kind)))),
            Field("counter.amount", "Amount keyed", "US dollars, such as 45.10."),
            Field("counter.purchase", "Price of the goods", "US dollars."),
            _choice(
                "counter.micr_by",
                "Magnetic-ink line captured",
                (
                    ("", "nobody said"),
                    ("reader", "by a reader"),
                    ("corrected", "by a reader, then corrected"),
                    ("keyed", "by hand"),
                ),
            ),
            _choice("counter.network", "Network", (("", "nobody said"), ("up", "up"), ("down", "down"))),
            _choice("counter.authorization_signed", "Authorization signed", _YES_NO),
            Field("counter.confirmed", "Questions answered with yes", "The rules' names, a blank between them."),
            Field("counter.store", "Store"),
            Field("counter.lane", "Lane"),
            Field("counter.employee", "Employee"),
        ),
    ),
    Section(
        "documents",
        "Identification shown",
        "One document. A card or social security number must not be recorded, here or anywhere.",
        (
            _choice(
                SHOWN,
                "Was it asked for?",
                (("", "nobody asked"), ("none", "asked, none shown"), ("one", "one was shown")),
            ),
            _choice(f"{_DOCUMENT}kind", "Kind of document", (("", "nobody said"), *_named(tuple(KINDS)))),
            Field(f"{_DOCUMENT}state", "Issuing state", "Letters or INCITS 38 number, such as IL or 17."),
            Field(f"{_DOCUMENT}expires", "Expires", "Such as 2029-05-01."),
            Field(f"{_DOCUMENT}name", "Name on it"),
            _choice(f"{_DOCUMENT}is_bearer", "Is its holder the person at the counter?", _YES_NO),
            Field(f"{_DOCUMENT}number", "Number on it", withheld=True),
            Field(f"{_DOCUMENT}barcode", "Its barcode", "As a scanner gives it.", "lines", withheld=True),
        ),
    ),
)
FIELDS = {field.name: field for section in SECTIONS for field in section.fields}
NAMES = frozenset(FIELDS) | {field.name + STATE for field in FIELDS.values() if field.stated}
#: Fields of the document, of which one that is typed says that a document was shown.
OF_DOCUMENT = tuple(name for name in FIELDS if name.startswith(_DOCUMENT))
