"""Damaged files: never an exception, never a total that is wrong and not said to be, nothing lost before the break."""

from __future__ import annotations

import io
import os
import random
import time
import tracemalloc
from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from plain_letter import SMALL, TIFF, Check, control, file, raw, whole

from checkface.cashletter import Flaw, Item, Totals, items, read

FORMS = [("prefixed", "cp037", b""), ("fixed", "ascii", b""), ("lines", "cp037", b"\x15"), ("lines", "ascii", b"\r\n")]
THOROUGH = bool(os.environ.get("CHECKFACE_THOROUGH"))
GOOD = [entry for entry in items(read(io.BytesIO(file(SMALL)))) if isinstance(entry, Item)]


def told(content: bytes) -> tuple[list[Item], list[Totals], list[str]]:
    entries = list(items(read(io.BytesIO(content))))
    flaws = [entry.message for entry in entries if isinstance(entry, Flaw)]
    return [e for e in entries if isinstance(e, Item)], [e for e in entries if isinstance(e, Totals)], flaws


def fields(item: Item) -> tuple[object, ...]:
    return item.kind, item.cents, [(record.type, record.text) for record in item.records]


@pytest.mark.parametrize(("framing", "encoding", "ending"), FORMS)
def test_every_truncation_is_told_and_keeps_what_came_before(framing: str, encoding: str, ending: bytes) -> None:
    content = file(SMALL, framing, encoding, ending)
    before = [fields(item) for item in told(content)[0]]
    for size in range(0, len(content) - len(ending), 1 if THOROUGH else 3):
        kept, totals, flaws = told(content[:size])
        assert flaws, size
        assert not [each for each in totals if each.part == "file" and each.agrees], size
        for item, whole_one in zip(kept, before, strict=False):
            # the last may lack what was cut off behind it, but what it has is what stands there
            assert fields(item)[:2] == whole_one[:2], size
            assert [(r.type, r.text) for r in item.records] == whole_one[2][: len(item.records)], size  # type: ignore[index]


@pytest.mark.parametrize(("framing", "encoding", "ending"), FORMS)
def test_every_byte_changed_is_told_or_changes_no_total(framing: str, encoding: str, ending: bytes) -> None:
    content = file(SMALL, framing, encoding, ending)
    chance = random.Random(framing + encoding)
    values = [chance.randrange(256), *(b"7A \0/".decode().encode("cp037" if encoding == "cp037" else "ascii"))]
    silent = 0
    for place in range(len(content)):
        for value in values if THOROUGH else [values[place % len(values)]]:
            if content[place] == value:
                continue
            kept, totals, flaws = told(content[:place] + bytes([value]) + content[place + 1 :])
            if not flaws:
                silent += 1
                assert [(i.kind, i.cents) for i in kept] == [(i.kind, i.cents) for i in GOOD], place
                assert [len(i.records) for i in kept] == [len(i.records) for i in GOOD], place
                assert all(each.agrees for each in totals), place
            elif totals and totals[-1].part == "file" and totals[-1].agrees:
                assert totals[-1].cents == sum(item.cents or 0 for item in kept) == 128966, place
    assert silent  # an image may hold anything


@pytest.mark.parametrize("encoding", ["cp037", "ascii"])
def test_a_wrong_length_costs_one_record_at_most(encoding: str) -> None:
    """Behind each record in turn the prefix is wrong by a little or by far; the rest of the file is still read."""
    parts = raw(SMALL, encoding)
    for number, part in enumerate(parts):
        for wrong in (len(part) - 1, len(part) + 1, len(part) + 84, 0, 0xFFFFFFFF):
            lengths = [len(each) if at != number else wrong for at, each in enumerate(parts)]
            content = b"".join(n.to_bytes(4, "big") + each for n, each in zip(lengths, parts, strict=True))
            kept, totals, flaws = told(content)
            assert flaws
            assert len(kept) == 4, (number, wrong)
            assert totals[-1].cents == 128966
            assert f"record {number + 1} " in flaws[0]


def test_bytes_between_two_records_are_passed_over() -> None:
    parts = [len(part).to_bytes(4, "big") + part for part in raw(SMALL)]
    for number in range(1, len(parts)):
        for junk in (b"\0", b"\xf2\xf5", bytes(range(256)) * 300, b"\xff" * (1 << 17)):
            kept, totals, flaws = told(b"".join([*parts[:number], junk, *parts[number:]]))
            assert f"{len(junk):,} bytes passed over" in flaws[0], (number, len(junk), flaws[:2])
            assert [item.cents for item in kept] == [4510, 123456, 999, 1], number
            assert totals[-1].cents == 128966


@given(st.binary(max_size=400))
@settings(max_examples=300)
def test_no_bytes_raise(content: bytes) -> None:
    for start in (b"", b"\0\0\0P\xf0\xf1", b"01", b"\xf0\xf1", *(file(SMALL[:4], f, e, n) for f, e, n in FORMS)):
        for entry in items(read(io.BytesIO(start + content), images=True)):
            repr(entry)
            if isinstance(entry, Item):
                _ = entry.endorsements, entry.images, entry.routing, entry.auxiliary, entry.repaired, entry.sequence
            if isinstance(entry, Flaw):
                assert 0 <= entry.offset <= len(start + content)
                assert entry.message


@given(st.lists(st.sampled_from(range(len(SMALL))), max_size=30), st.sampled_from(FORMS))
@settings(max_examples=200)
def test_records_in_any_order_give_every_item_once_or_a_flaw(order: list[int], form: tuple[str, str, bytes]) -> None:
    records = [SMALL[0], *(SMALL[number] for number in order)]
    kept, _, flaws = told(file(records, *form))
    assert len(kept) == sum(text[:2] in {"25", "31"} for text, _ in records)
    assert flaws or records == SMALL


@given(
    st.lists(st.lists(st.integers(0, 10**10 - 1), min_size=1, max_size=5), min_size=1, max_size=4),
    st.data(),
)
@settings(max_examples=100)
def test_every_total_that_is_not_what_was_counted_is_told(amounts: list[list[int]], data: st.DataObject) -> None:
    records = whole([[Check(cents, valid="1") for cents in bundle] for bundle in amounts])
    assert told(file(records))[2] == []
    controls = [n for n, (text, _) in enumerate(records) if text[:2] in {"70", "90", "99"}]
    at = data.draw(st.sampled_from(controls))
    text, _ = records[at]
    widths = {"70": (4, 12, 12, 5), "90": (6, 8, 14, 9), "99": (6, 8, 8, 16)}[text[:2]]
    starts = [2 + sum(widths[:n]) for n in range(4)]
    values = [int(text[start : start + width]) for start, width in zip(starts, widths, strict=True)]
    which = data.draw(st.integers(0, 3))
    values[which] = data.draw(st.integers(1, 10 ** widths[which] - 1).filter(lambda value: value != values[which]))
    records[at] = control(text[:2], *zip(values, widths, strict=True))
    _, totals, flaws = told(file(records))
    assert len(flaws) == 1
    assert f"record {at + 1} (type {text[:2]}" in flaws[0]
    assert not totals[-1].agrees


class Endless:
    """A stream that is made as it is read: *parts* over and over, nothing stored."""

    def __init__(self, parts: Iterator[bytes]) -> None:
        self._parts = parts
        self._left = b""

    def read(self, size: int = -1, /) -> bytes:
        if not self._left:
            self._left = next(self._parts, b"")
        given, self._left = self._left[:size], self._left[size:]
        return given


def many(checks: int, image: int) -> Iterator[bytes]:
    """A file of *checks* checks with an image of so many bytes each, in bundles of 100, part by part."""

    def part(content: bytes) -> bytes:
        return len(content).to_bytes(4, "big") + content

    small = whole([[Check(100, images=[bytes(image)])]])
    header, letter, bundle, check, view, data = map(part, raw(small)[:6])
    yield header
    yield letter
    for first in range(0, checks, 100):
        yield bundle
        inside = min(100, checks - first)
        for _ in range(inside):
            yield from (check, view, data)
        yield part(raw([control("70", (inside, 4), (inside * 100, 12), (inside * 100, 12), (inside, 5))])[0])
    bundles = -(-checks // 100)
    yield part(raw([control("90", (bundles, 6), (checks, 8), (checks * 100, 14), (checks, 9))])[0])
    count = 4 + 2 * bundles + 3 * checks
    yield part(raw([control("99", (1, 6), (count, 8), (checks, 8), (checks * 100, 16))])[0])


def test_two_hundred_megabytes_are_read_in_the_memory_of_one_item() -> None:
    tracemalloc.start()
    seen = flaws = 0
    try:
        for entry in items(read(Endless(many(2000, 100_000)))):
            seen += isinstance(entry, Item)
            flaws += isinstance(entry, Flaw)
            last = entry
        _, peak = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert (seen, flaws) == (2000, 0)
    assert isinstance(last, Totals)
    assert (last.cents, last.images, last.agrees) == (200_000, 2000, True)
    assert peak < 4_000_000


@pytest.mark.parametrize(
    "content",
    [
        b"\0\0\0P\xf0\xf1" + b"\0" * (1 << 16),
        b"\0\0\0P\xf0\xf1" + b"\0\0\0P\xf5\xf2" * (1 << 15),
        b"\0\0\0P\xf0\xf1" + b"\0\x99\xff\xff\xf5\xf2" * (1 << 15),
        b"01" + b"52" * (1 << 17),
        b"01" + b"\n52" * (1 << 16),
        b"01\n" * (1 << 16),
        b"01" + b"x" * 78 + b"68" + b"0" * 36 + b"0000000" + b"68" * (1 << 17),
    ],
    ids=["zeros", "lengths", "long lengths", "fixed", "lines", "short lines", "user records"],
)
def test_a_hostile_file_costs_time_in_proportion(content: bytes) -> None:
    started = time.process_time()
    flaws = sum(isinstance(entry, Flaw) for entry in items(read(io.BytesIO(content))))
    assert flaws
    assert time.process_time() - started < 15  # a quarter of a megabyte; squared it would be hours


def test_a_hostile_item_costs_no_more_memory_than_one_item_may() -> None:
    def parts() -> Iterator[bytes]:
        small = raw(whole([[Check(100, images=[b"?"])]]))
        for content in (*small[:5], *(small[4 + n % 2] for n in range(10_000))):
            yield len(content).to_bytes(4, "big") + content

    tracemalloc.start()
    try:
        count = sum(1 for _ in items(read(Endless(parts()))))
        _, peak = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert count > 9_000
    assert peak < 4_000_000


def test_a_pipe_that_gives_a_few_bytes_at_a_time_is_read_alike() -> None:
    content = file(SMALL)
    drops = Endless(content[at : at + 7] for at in range(0, len(content), 7))
    assert list(items(read(drops))) == list(items(read(io.BytesIO(content))))
    assert TIFF in content
