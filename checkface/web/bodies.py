"""The body of a request, taken only in the right form and within a limit."""

from __future__ import annotations

import asyncio
from collections.abc import Collection

from starlette.requests import Request

from checkface.web.refusal import Refused

#: Most bytes of one tender, as JSON or as a form; a check with everything on it has about a thousand.
LIMIT = 1 << 16
#: A till's network sends a tender in a blink; who trickles one in only holds a connection.
SECONDS = 20.0
JSON = ("application/json",)
FORM = ("application/x-www-form-urlencoded",)
JSON_LINES = ("application/jsonl", "application/x-ndjson", "application/ndjson", "application/x-jsonlines")


async def body(request: Request, types: Collection[str], limit: int = LIMIT) -> bytes:
    """The bytes of the body. Raises :class:`Refused`: 415 for one not of *types* in UTF-8, 413 for one too long and
    408 for one that does not come to its end in time."""
    given, *settings = (part.strip().lower() for part in request.headers.get("content-type", "").split(";"))
    charset = next((part.partition("=")[2].strip('"') for part in settings if part.startswith("charset=")), "utf-8")
    if given not in types or charset not in {"utf-8", "us-ascii"}:
        raise Refused(415, [f"Expected a body of type {' or '.join(types)} in UTF-8, read another type"])
    if request.headers.get("content-encoding", "identity").lower() != "identity":
        raise Refused(415, ["Expected a body that is not compressed, read one that is"])
    long = Refused(413, [f"Expected at most {limit:,} bytes, read more"])
    stated = request.headers.get("content-length", "0")
    if stated.isdecimal() and int(stated[:20]) > limit:
        raise long
    taken = bytearray()
    try:
        async with asyncio.timeout(SECONDS):
            async for chunk in request.stream():
                taken += chunk
                if len(taken) > limit:
                    raise long
    except TimeoutError:
        raise Refused(408, [f"Expected the whole body within {SECONDS:g} seconds, read a part of it"]) from None
    return bytes(taken)
