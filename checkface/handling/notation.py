"""What the notation block says of the writer's identification: as much as the state allows, and never a number.

Source of what may be kept: :func:`checkface.identity.may_keep`. Where the state allows a number and the house has asked
for it, a line to write on is printed; the number itself goes through no text of ours.

>>> from checkface.tender import Document
>>> shown = Document(kind="drivers-license", number="12345678", state="48", expires="2027-01-01")
>>> noted(shown, "TX", date(2026, 11, 24), number=True)
'ID drivers license TX current'
>>> noted(shown, "MA", date(2026, 11, 24), number=True)
'ID drivers license TX current no. ________'
>>> noted(shown, "DC", date(2026, 11, 24), number=True)
'ID drivers license current exp 01/01/2027'
"""

from __future__ import annotations

from datetime import date

from checkface import identity
from checkface.span import Fault
from checkface.tender import Document

_LINE = "________"


def noted(document: Document, state: str, on: date | None, *, number: bool) -> str:
    """The words for *document*, seen on the day *on* at a counter in *state* (letters); empty if it says nothing.

    ``number``: the house wants the number noted where the state allows it.
    """
    seen = _read(document)
    if seen is None:
        return ""
    allowed = identity.may_keep(state, seen.kind)
    words = ["ID"]
    if allowed.kind:
        words.append(seen.kind.replace("-", " "))
    if allowed.issuer and seen.issuer:
        words.append(seen.issuer)
    if allowed.was_current and on and identity.currency_on(seen.expires, on) in {"current", "never-expires"}:
        words.append("current")
    if allowed.expiry:
        words.append(f"exp {seen.expires.on:%m/%d/%Y}" if seen.expires.on else f"exp {_LINE}")
    if allowed.number and number:
        words.append(f"no. {_LINE}")
    return " ".join(words)


def _read(document: Document) -> identity.Identification | None:
    keyed = identity.read_keyed(document.kind, "", document.state, document.expires)
    if not isinstance(keyed, Fault) and (keyed.expires.on or not document.barcode):
        return keyed
    scanned = identity.read_barcode(document.barcode)
    if not isinstance(scanned, Fault):
        return scanned
    return None if isinstance(keyed, Fault) else keyed
