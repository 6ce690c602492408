"""A line from the fields of a cash-letter record, where no symbol separates them.

X9.100-187 keeps auxiliary On-Us, External Processing Code, routing number, On-Us and amount in fields of their own:
``/`` writes the On-Us symbol, ``-`` the dash, ``*`` an unread character.

>>> from_fields(routing="031097765", on_us="0045601122/1043", amount="0000004510").amount_cents
4510
>>> print(from_fields(routing="03109776T").message)
Expected digits, blanks, dashes and * in the routing field, read another character.
"""

from __future__ import annotations

from collections.abc import Mapping

from checkface.micr.layouts import Layout
from checkface.micr.line import MicrLine
from checkface.micr.reader import read
from checkface.span import Fault, Span

_ALLOWED = {
    "auxiliary": ("-* ", "blanks, dashes and *"),
    "epc": ("* ", "blanks and *"),
    "routing": ("-* ", "blanks, dashes and *"),
    "on_us": ("/-* ", "blanks, dashes, / and *"),
    "amount": ("* ", "blanks and *"),
}


def from_fields(
    auxiliary: str = "",
    epc: str = "",
    routing: str = "",
    on_us: str = "",
    amount: str = "",
    layouts: Mapping[str, Layout] | None = None,
    printed_serial: str | None = None,
) -> MicrLine | Fault:
    """Read the fields of one record; blank fields are absent.

    *routing* is the nine positions together, *amount* ten digits of cents. ``raw`` of the result is the line these
    fields make in Unicode, and its spans are offsets into that line. Returns a Fault ``micr-field-character``
    for a character the field cannot hold (span into that field), else what :func:`~checkface.micr.reader.read` returns.
    """
    given = {"auxiliary": auxiliary, "epc": epc, "routing": routing, "on_us": on_us, "amount": amount}
    for name, text in given.items():
        allowed, words = _ALLOWED[name]
        wrong = [at for at, char in enumerate(text) if char not in "0123456789" and char not in allowed]
        if wrong:
            expected = f"digits, {words} in the {name.replace('_', '-')} field"
            return Fault("micr-field-character", Span(wrong[0], wrong[0] + 1), expected, "another character")
    parts = (
        f"O{auxiliary.strip()}O " if auxiliary.strip() else "",
        epc.strip(),
        f"T{routing.strip()}T",
        f" {on_us.strip()}" if on_us.strip() else "",
        f" A{amount.strip()}A" if amount.strip() else "",
    )
    line = "".join(parts).translate(_SYMBOLS)
    return read(line, "unicode", layouts, printed_serial)


_SYMBOLS = str.maketrans("TAO/-", "\u2446\u2447\u2448\u2448\u2449")
