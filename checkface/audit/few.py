"""A few tenders at once: one JSON object, an array of them, or one a line, told apart by themselves."""

from __future__ import annotations

import io
from datetime import date
from typing import BinaryIO

from checkface.assessment import parse
from checkface.audit.items import tenders
from checkface.audit.placed import Item, Skipped, guarded, with_day
from checkface.audit.source import InputError
from checkface.strictjson import JsonError, loads

#: Most bytes that are taken at once; a longer file is read tender by tender instead.
LIMIT = 1 << 24


def few(stream: BinaryIO, *, on: date | None = None, lines: bool = False) -> tuple[bool, list[Item | Skipped]]:
    """Whether *stream* holds several tenders, and the tenders; for an array ``line`` counts its entries from 1.

    ``lines`` says that there is an object on each line, ``on`` fills in a missing day. Raises :class:`InputError` for
    what is no JSON, and for a single object that is no tender.
    """
    content = stream.read(LIMIT + 1)
    if len(content) > LIMIT:
        raise InputError(f"Expected at most {LIMIT:,} bytes, read more; `checkface audit` reads any length.")
    if not content.strip(b"\xef\xbb\xbf \t\r\n"):
        raise InputError("Expected a tender as JSON, read nothing.")
    if lines:
        return True, list(tenders(io.BytesIO(content), "jsonl", on=on))
    try:
        value = loads(content)
    except JsonError as error:
        if error.more:
            return True, list(tenders(io.BytesIO(content), "jsonl", on=on))
        table = not content.lstrip(b"\xef\xbb\xbf \t\r\n").startswith((b"{", b"["))
        hint = "; a table of checks is for checkface audit" if table else ""
        raise InputError(f"{error}{hint}.") from None
    if isinstance(value, list):
        return True, [_item(number, entry, on) for number, entry in enumerate(value, 1)]
    one = _item(1, value, on)
    if isinstance(one, Skipped):
        raise InputError(one.reason)
    return False, [one]


def _item(number: int, value: object, on: date | None) -> Item | Skipped:
    if not isinstance(value, dict):
        return Skipped(number, "Expected a tender as a JSON object, read something else.")
    return guarded(number, lambda: Item(number, with_day(parse(value), on)))
