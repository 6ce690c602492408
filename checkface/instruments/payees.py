"""To whom a check is payable: one, several together ("and"), any of several ("or"), or whoever bears it.

UCC 3-110(d): payable to persons not alternatively takes all of them, alternatively any; ambiguous wording is
alternative. UCC 3-109(a): payable to bearer, to cash, or to no identified person.

>>> [payee.name for payee in payees("Ann Specimen & Bo Specimen").names], payees("CASH").bearer
(['Ann Specimen', 'Bo Specimen'], True)
>>> payees("Cash & Carry Grocery").bearer
False
>>> payees("_____").message
'Expected a payee, read nothing.'
"""

import re
from itertools import pairwise
from typing import NamedTuple

from checkface.patterns import lazily
from checkface.span import Fault, Span

LONGEST = 400
"""Characters; nothing longer is looked at."""

_FILLER = lazily(r"[\W_]*")
_LEAD = lazily(r"\s*(?:(?:pay\s+)?(?:to\s+)?the\s+order\s+of\s*:?\s*|pay\s+to\s*:?\s+)?", re.IGNORECASE)
_TRAIL = lazily(r"(?:[\s_*=~-]|\.\.)+$")
_BEARER = lazily(
    r"(?:to\s+)?(?:petty\s+)?cash(?:\s+only)?|bearer|cash\s+or\s+(?:the\s+)?bearer|.{1,200}\s+or\s+(?:the\s+)?bearer|efectivo|(?:al\s+)?portador",
    re.IGNORECASE,
)
JOINT = lazily(
    r"[\s,]+(?P<either>and\s*/\s*or|y\s*/\s*o)[\s,]+|[\s,]+(?P<any>or|o)[\s,]+|[\s,]+(?P<all>and|y)[\s,]+|\s*(?P<sign>&|\+)\s*"
    r"|\s*(?P<slash>/)\s*(?=[^\W\d_]{2})|\s*(?P<line>[\n\r;])\s*",
    re.IGNORECASE,
)
_ORGANISATION = lazily(
    r"\b(?:inc|llc|llp|ltd|corp|co|company|sons?|daughters?|bros|brothers|associates|partners|stores?|markets?|grocery"
    r"|shop|bank|trust|services?|church|school|university|department|dept|city|county|state|club|society|association"
    r"|hardware|supply|farms?|dairy|deli|cafe|grill|pharmacy|hotel|clinic|group|insurance|electric|gas|light|power|water)\b",
    re.IGNORECASE,
)
CARE_OF = lazily(r"\s+(?:c\s*/\s*o|d\s*/\s*b\s*/\s*a|dba|fbo|f/b/o|attn:?|aka|a/k/a|care\s+of)\s+", re.IGNORECASE)
_LIST = lazily(r",\s*(?!(?:jr|sr|ii|iii|iv|md|phd|esq|dds|cpa)\b)(?=[^\W\d_])", re.IGNORECASE)
_TELLING = frozenset({"", "pay", "to", "the", "and", "or", "y", "o", "cash", "bearer", "portador", "efectivo", "care"})
"""Words without which plain words are one name; the empty one stands at either end of blanks."""


class Payee(NamedTuple):
    """One name and where it stands in the raw text."""

    name: str
    span: Span


class Payees(NamedTuple):
    """``joined`` is ``one``, ``and`` (all of them must endorse) or ``or`` (any may: also for ambiguous wording, then
    ``ambiguous`` is true); ``bearer`` where it is payable to cash or bearer, ``names`` being empty then."""

    names: tuple[Payee, ...]
    joined: str
    ambiguous: bool
    bearer: bool
    span: Span


def payees(text: str) -> Payees | Fault:
    """Who is named on the payee line. An "and" inside the name of an organisation parts nobody.

    Kinds of fault: ``payee-blank``, ``payee-length``.
    """
    if (
        len(text) <= LONGEST
        and text.isascii()
        and text.replace(" ", "").isalpha()
        and _TELLING.isdisjoint(text.lower().split(" "))
    ):
        span = Span(0, len(text))
        return Payees((Payee(text, span),), "one", False, False, span)
    if len(text) > LONGEST:
        return Fault("payee-length", Span(0, len(text)), "a payee", f"{len(text)} characters")
    start = match.end() if (match := _LEAD.match(text)) else 0
    end = match.start() if (match := _TRAIL.search(text)) else len(text)
    if end <= start or _FILLER.fullmatch(text, start, end):
        return Fault("payee-blank", Span(0, len(text)), "a payee", "nothing")
    span = Span(start, end)
    if _BEARER.fullmatch(text, start, end):
        return Payees((), "one", False, True, span)
    return _named(text, span)


def _named(text: str, span: Span) -> Payees:
    care_of = CARE_OF.search(text, span.start, span.end)
    stop = care_of.start() if care_of else span.end
    names: list[Payee] = []
    joints: set[str] = set()
    at = span.start
    organisation = _ORGANISATION.search(text, span.start, span.end) is not None
    for match in JOINT.finditer(text, span.start, stop):
        joint = match.lastgroup or ""
        if organisation and joint in ("all", "sign", "slash"):
            continue
        if not text[at : match.start()].strip(" ,") or not text[match.end() : stop].strip(" ,"):
            continue
        names.append(_payee(text, at, match.start()))
        joints.add(joint)
        at = match.end()
    names.append(_payee(text, at, span.end))
    if not joints:
        return Payees(tuple(names), "one", False, False, span)
    names = [part for name in names for part in _listed(text, name)]
    ambiguous = not (joints <= {"all", "sign"} or joints == {"any"})
    return Payees(tuple(names), "and" if joints <= {"all", "sign"} else "or", ambiguous, False, span)


def _listed(text: str, name: Payee) -> list[Payee]:
    """The names of a list with commas; a title behind a comma stays with its name."""
    starts = [match.end() for match in _LIST.finditer(text, name.span.start, name.span.end)]
    edges = [name.span.start, *starts, name.span.end]
    return [_payee(text, start, end) for start, end in pairwise(edges)]


def _payee(text: str, start: int, end: int) -> Payee:
    name = text[start:end]
    start += len(name) - len(name.lstrip(" ,"))
    name = name.strip(" ,")
    return Payee(name, Span(start, start + len(name)))
