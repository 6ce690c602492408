"""Write a line from known fields, in any layout and notation; the inverse of the reader.

Fields and positions are those of ASC X9 TR 100-2013.

>>> from checkface.micr import format, translate
>>> format("personal", routing="031097765", account="0045601122", serial="1043", notation="toad")
'T031097765T 0045601122O 1043'
>>> translate(":031097765: 456=01é22<", "iso2033", "toad")
'T031097765T 456D01?22O'
>>> format("personal", routing="031097765", account="45A")
Traceback (most recent call last):
    ...
ValueError: Expected digits for 'a' of layout personal, read other characters.
>>> format("persnal", routing="031097765")  # doctest: +ELLIPSIS
Traceback (most recent call last):
    ...
ValueError: Expected a layout out of business, ...
"""

from __future__ import annotations

from collections.abc import Mapping

from checkface.micr import infer
from checkface.micr.notation import Symbols, named, plain, x9_routing
from checkface.micr.paper import POSITIONS

PICTURES: Mapping[str, str] = {
    "business": "OsO eTrT aO",
    "business-code": "OsO eTrT aO c",
    "personal": "eTrT aO s",
    "personal-code": "eTrT aO s c",
    "code-serial": "eTrT aO c s",
    "leading-blank": "eTrT s aO",
    "leading-dash": "eTrT sDaO",
    "leading-closed": "eTrT sO aO",
    "leading-closed-code": "eTrT sO aO c",
    "glued": "eTrT asO",
    "closed-both-sides": "eTrTOaO s",
    "account-only": "eTrT aO",
    "deposit-slip": "eTrT aO c",
    "transit-only": "eTrT",
    "money-order": "TrT sO",
}
"""Layout name to its picture, left to right: ``T O D`` symbols, ``r`` routing, ``e`` EPC, ``a`` account, ``s`` serial,
``c`` transaction code. An amount is written at the right end of any of them."""


def format(
    layout: str,
    *,
    routing: str,
    account: str = "",
    serial: str = "",
    transaction_code: str = "",
    epc: str = "",
    amount_cents: int | None = None,
    notation: str = "unicode",
    positions: bool = False,
) -> str:
    """The line of these fields.

    *layout* names a picture of :data:`PICTURES`; the account may hold dashes and blanks as printed. With *positions*
    every character stands on its position from the right edge. Raises ValueError for an unknown layout or notation,
    characters other than digits, an amount of more than ten digits or one in ``x9``, and fields that do not fit
    their positions.
    """
    symbols = named(notation)
    if layout not in PICTURES:
        raise ValueError(f"Expected a layout out of {', '.join(PICTURES)}, read {layout!r}.")
    parts = {"r": routing, "a": account, "s": serial, "c": transaction_code, "e": epc}
    for name, part in parts.items():
        allowed = "0123456789- " if name in "ars" else "0123456789"
        if set(part) - set(allowed):
            raise ValueError(f"Expected digits for {name!r} of layout {layout}, read other characters.")
    drawn = "".join(parts[char].replace("-", "D") if char in parts else char for char in PICTURES[layout])
    left, _, right = drawn.strip(" ").partition("T" + routing.replace("-", "D") + "T")
    amount = _amount(amount_cents, notation)
    transit = f"T{routing.replace('-', 'D')}T"
    if positions:
        line = _placed(left.strip(" "), transit, right.strip(" "), amount)
    else:
        line = left + transit + right.rstrip(" ") + (" " + amount if amount else "")
    return written(line, symbols)


def _amount(cents: int | None, notation: str) -> str:
    if cents is None:
        return ""
    if not 0 <= cents < 10**10:
        raise ValueError("Expected an amount of at most ten digits of cents, read another.")
    if notation == "x9":
        raise ValueError("Expected no amount in x9, which keeps it in a field of its own; read one.")
    return f"A{cents:010}A"


def _placed(left: str, transit: str, right: str, amount: str) -> str:
    """Transit on 43 to 33, On-Us from 32 rightwards to 14, amount on 12 to 1, the rest ending on 44 or 45."""
    gap = "" if left[-1:].isdigit() or not left else " "
    if len(transit) != 11 or len(left + gap) + 43 > POSITIONS or len(right) > 19:
        raise ValueError("Expected fields that fit their positions, read longer ones.")
    return f"{left}{gap}{transit}{right:<20}{amount:<12}"


def translate(text: str, source: str, target: str) -> str:
    """*text*, written in the notation *source*, in the notation *target*; characters unknown to *source* become unread.

    *source* may be ``inferred``, as on a line that was read so. In ``x9`` the transit field is set off by blanks.
    Raises ValueError for an unknown notation, and for a line with amount symbols if *target* is ``x9``.
    """
    symbols = named(target)
    if source == "inferred":
        line = next(iter(infer.assignments(text)), "x" * len(text))
    else:
        named(source)
        line = plain(text, source)
    if source == target:
        return text
    if source == "x9":
        place = x9_routing(line)
        if place:
            start, end = place
            line = line[:start].removesuffix(" ") + f"T{line[start:end]}T" + line[end:].removeprefix(" ")
    if target == "x9" and "A" in line:
        raise ValueError("Expected no amount in x9, which keeps it in a field of its own; read one.")
    return written(line, symbols)


def written(line: str, symbols: Symbols) -> str:
    """*line*, in the plain alphabet of :mod:`checkface.micr.notation`, with *symbols*; foreign characters unread."""
    chars = (symbols.transit or " ", symbols.amount or " ", symbols.on_us, symbols.dash, symbols.unread)
    return line.translate(str.maketrans("TAOD?x", "".join(chars) + symbols.unread))
