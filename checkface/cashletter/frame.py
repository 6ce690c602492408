"""Where the next record starts and how long it is, by what keeps records apart and by its own length fields.

Where the two disagree, the length is believed behind which another record starts. Where neither leads to one, bytes
are passed over up to the next place that can only be the start of a record; where the framing has no such places,
reading ends. Both are flaws that say how much was lost.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from functools import cache
from itertools import pairwise
from typing import Final, NamedTuple

from checkface.cashletter.form import PREFIX, Encoding, Form, encode
from checkface.cashletter.layout import NEWEST, Layout, Size, layouts
from checkface.cashletter.source import Source
from checkface.span import Fault, Span

_CHUNK = 1 << 16


class Frame(NamedTuple):
    """One record still ahead."""

    lead: int
    """Bytes before its first: a length, or what is passed over."""
    size: int
    """Its bytes as the framing has them."""
    own: Size
    """As its own fields have it; ``total`` None for an unknown type."""
    trail: int = 0
    """Bytes behind it that end a line."""
    faults: tuple[Fault, ...] = ()


class Lost(NamedTuple):
    """No record is ahead that could be told: ``skip`` bytes to pass over, None for all that is left."""

    skip: int | None
    fault: Fault


Framer = Callable[[Source, Form, str], Frame | Lost]


@cache
def largest(level: str) -> int:
    """Bytes of the longest record there can be: 52 with every length field all nines."""
    layout = layouts(level)["52"]
    lengths = (before.length or 0 for before, field in pairwise(layout.fields) if field.length is None)
    return layout.least + sum(int("9" * digits) for digits in lengths)


def prefixed(source: Source, form: Form, level: str) -> Frame | Lost:
    """A four-byte length before each record."""
    head = source.at(0, PREFIX + 2)
    if len(head) < PREFIX + 2:
        return Lost(None, Fault("letter-truncated", Span(0, 0), "a length and a record", "the end of the file"))
    told = int.from_bytes(head[:PREFIX], "big")
    layout = layouts(level).get(form.decode(head[PREFIX:]))
    own = _own(layout, source, form, PREFIX)
    if told == own.total:
        return Frame(PREFIX, told, own)
    fault = _length(own.total, f"{told:,} in the length before it") if layout else None
    starts = _starts(form.encoding)
    # The shorter first: the longer may swallow a whole record and still lead to one.
    for size in sorted({told, own.total or told}):
        if 2 <= size <= largest(level) and _lands(source, PREFIX + size, starts):
            return Frame(PREFIX, size, own, faults=(fault,) if fault else ())
    skip = _search(source, starts, 1, 16 * _CHUNK)
    if skip is None and 2 <= told <= largest(level) and not source.at(PREFIX + told - 1, 1):
        # Nothing follows to judge by: the file breaks off within this record.
        return Frame(PREFIX, told, own, faults=(fault,) if fault else ())
    return Lost(skip, fault or Fault("letter-lost", Span(0, 0), "the type of a record", "none"))


def fixed(source: Source, form: Form, level: str) -> Frame | Lost:
    """Records on end: 80 bytes, or what their own length fields add up to."""
    kind = form.decode(source.at(0, 2))
    layout = layouts(level).get(kind)
    if layout is not None:
        own = _own(layout, source, form, 0)
        # A record that its own fields make shorter is filled up with blanks, or the next would not be found.
        size = max(own.total or 0, 80)
        return Frame(0, size, own)
    after = form.decode(source.at(80, 2))
    if after in layouts(level) or (not after and source.at(79, 1)):
        return Frame(0, 80, Size(None, 80))
    return Lost(None, Fault("letter-lost", Span(0, 2), "the type of a record", "none, and no record 80 bytes on"))


def lines(source: Source, form: Form, level: str) -> Frame | Lost:
    """A line end behind each record."""
    kind = form.decode(source.at(0, 2))
    layout = layouts(level).get(kind)
    own = _own(layout, source, form, 0)
    if own.total is not None:
        behind = source.at(own.total, 2)
        trail = form.end(form.decode(behind))
        # Only binary data may hold the bytes of a line end: a line that was trimmed must not swallow the next.
        whole = kind in _binary(level) or form.next_end(form.decode(source.at(0, own.total)))[0] == own.total
        if whole and (trail or (not behind and source.at(own.total - 1, 1))):
            return Frame(0, own.total, own, trail)
    if kind == "52":
        skip = _search(source, _line_starts(form.encoding), 1, largest(level))
        return Lost(None if skip is None else skip + 1, _length(own.total, "another number up to the end of its line"))
    for window in (128, _CHUNK):
        end, stop = form.next_end(form.decode(source.at(0, window)))
        if end < window - 2:
            break
    if end == _CHUNK:
        return Lost(None, Fault("letter-lost", Span(0, 0), "a line end", f"none in {_CHUNK:,} bytes"))
    if end == stop and own.total is not None and end < own.total:
        return Frame(0, own.total, own)
    fault = _length(own.total, f"{end:,} up to the end of the line")
    return Frame(0, end, own, stop - end, (fault,) if layout else ())


FRAMERS: Final[dict[str, Framer]] = {"prefixed": prefixed, "fixed": fixed, "lines": lines}


@cache
def _binary(level: str) -> frozenset[str]:
    """The types with fields that are no characters."""
    return frozenset(
        kind for kind, layout in layouts(level).items() if any(field.kind == "binary" for field in layout.fields)
    )


def _own(layout: Layout | None, source: Source, form: Form, lead: int) -> Size:
    if layout is None:
        return Size(None, 80)
    return layout.size(lambda start, size: form.decode(source.at(lead + start, size)))


def _length(own: int | None, read: str) -> Fault:
    expected = "a length that can be read" if own is None else f"{own:,} bytes as its type and fields have it"
    return Fault("letter-length", Span(0, 0), expected, read)


def _lands(source: Source, start: int, starts: re.Pattern[bytes]) -> bool:
    """Whether another record starts *start* bytes ahead, or the file ends there."""
    head = source.at(start, PREFIX + 2)
    return bool(starts.match(head)) or (not head and len(source.at(start - 1, 1)) == 1)


def _search(source: Source, starts: re.Pattern[bytes], first: int, limit: int) -> int | None:
    """How far ahead a record can start, *first* bytes on at the least; None if none does.

    Beyond *limit* nothing is looked at: where there is more, that is how far ahead it is safe to go.
    """
    overlap = 128
    for place in range(first, limit, _CHUNK):
        window = source.at(place, _CHUNK + overlap)
        if found := starts.search(window):
            return place + found.start()
        if len(window) < _CHUNK + overlap:
            return None
    return limit


@cache
def _starts(encoding: Encoding) -> re.Pattern[bytes]:
    """A length and a type that belong together: six bytes that stand by chance in hardly one image of a thousand."""
    kinds = {kind: layout for kind, layout in layouts(NEWEST).items() if kind != "62"}
    plain = _alternatives((kind for kind, layout in kinds.items() if not layout.varies), encoding)
    keyed = _alternatives(("27", "34"), encoding)
    long = _alternatives(("52", "68"), encoding)
    credit = encode("62", encoding)
    form = b"\0\0\0P(?:%b)|\0\0\0d%b|\0\0[\0-\x27].(?:%b)|\0[\0-\x9a]..(?:%b)"
    return re.compile(form % (plain, credit, keyed, long), re.DOTALL)


@cache
def _line_starts(encoding: Encoding) -> re.Pattern[bytes]:
    """The end of a line, then a line of 80 characters that starts with a known type."""
    plain = _alternatives((kind for kind, layout in layouts(NEWEST).items() if layout.least == 80), encoding)
    end = b"\n" if encoding == "ascii" else b"\n\x15\x25"
    return re.compile(b"[%b](?=(?:%b)[^%b\r]{78}[%b\r])" % (end, plain, end, end), re.DOTALL)


def _alternatives(kinds: Iterable[str], encoding: Encoding) -> bytes:
    return b"|".join(re.escape(encode(kind, encoding)) for kind in kinds)
