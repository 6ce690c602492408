"""The commonest shapes of a line, read in one go.

Personal checks with the serial right of the account or leading and closed, and business checks with the serial in
the auxiliary field, when nothing about them is open. Everything else takes the general way; tests hold both equal.
Fields and places: ASC X9 TR 100-2013.

>>> line = "⑆031097765⑆ 0045601122⑈ 1043"
>>> read(line, line, "unicode", UNICODE, {}).serial
'1043'
>>> line = "⑆031097765⑆ 0045601122⑈ 1043 27"  # which of the two is the serial is open
>>> read(line, line, "unicode", UNICODE, {}) is None
True
"""

from __future__ import annotations

import re
from collections.abc import Container

from checkface.micr.line import MicrLine
from checkface.micr.notation import sum_holds


def _form(transit: str, amount: str, on_us: str, dash: str) -> re.Pattern[str]:
    """Auxiliary, EPC, routing, leading serial, account, group right of it, amount: in the symbols of one alphabet."""
    return re.compile(
        f" *+(?:{on_us}([0-9]{{1,15}}){on_us} *+)?+(?:([0-9]) *+)?+{transit}([0-9]{{9}}){transit}"
        f" *+(?:([0-9]{{3,6}}){on_us} ++)?([0-9]++(?:(?:[{dash}]| ++)[0-9]++)*+){on_us}"
        f" *+(?:([0-9]{{1,6}}) *+)?+(?:{amount}([0-9]{{10}}){amount} *+)?+"
    )


UNICODE = _form("\u2446", "\u2447", "\u2448", "\u2449-")
PLAIN = _form("T", "A", "O", "D")
_SEPARATORS = dict.fromkeys(map(ord, " D-\u2449"))
_ON_US = 20


def read(text: str, line: str, notation: str, form: re.Pattern[str], unlike: Container[str]) -> MicrLine | None:
    """Read *line*, which is *text* in the alphabet of *form*; None if it has another shape or leaves anything open.

    Banks of *unlike* have layouts of their own, as government items (routing numbers 000...) have.
    """
    found = form.fullmatch(line)
    if found is None:
        return None
    auxiliary, epc, routing, lead, printed, right, cents = found.groups()
    account = printed if printed.isdigit() else printed.translate(_SEPARATORS)
    field = found.end(6 if right else 5) - found.start(4 if lead else 5) + (not right)
    if field > _ON_US or routing in unlike or routing.startswith("000"):
        return None
    start = found.start(3)
    places = [("routing", start, start + 9)]
    if epc is not None:
        places.append(("epc", *found.span(2)))
    if auxiliary is not None:
        places.append(("auxiliary", *found.span(1)))
    if cents is not None:
        places.append(("amount", *found.span(7)))
    if auxiliary is not None:
        if lead is not None or " " in printed:
            return None
        serial, code = auxiliary, right
        places.append(("serial", *found.span(1)))
        places.append(("account", *found.span(5)))
    elif lead is not None:
        if len(lead) >= len(account) or (right is not None and len(right) > 2):
            return None
        serial, code = lead, right
        places.append(("account", *found.span(5)))
        places.append(("serial", *found.span(4)))
    elif right is not None and 3 <= len(right) < len(account):
        serial, code = right, None
        places.append(("account", *found.span(5)))
        places.append(("serial", *found.span(6)))
    else:
        return None
    if code is not None:
        places.append(("transaction_code", *found.span(6)))
    kept = len(line) - start == 42 and start <= 23 and (cents is None or found.end(7) == len(line) - 1)
    return MicrLine(
        text,
        notation,
        "US",
        routing,
        sum_holds(routing),
        auxiliary,
        epc,
        account,
        text[found.start(5) : found.end(5)],
        serial,
        code,
        None if cents is None else int(cents),
        False,
        (),
        (),
        (),
        None,
        None,
        kept,
        tuple(places),
    )
