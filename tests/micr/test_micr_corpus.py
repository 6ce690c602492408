"""Nasty lines, kept: none of them may read as a sound line, and none may crash the reader."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from checkface import micr
from checkface.micr import MicrLine
from checkface.span import Fault

LINES = [json.loads(line) for line in (Path(__file__).parent / "corpus" / "nasty.jsonl").read_text().splitlines()]
# Sound as far as it goes: a transit field alone says nothing wrong.
BARE = {"T031097765T"}


@pytest.mark.parametrize("text", LINES, ids=ascii)
def test_a_nasty_line_never_reads_as_sound(text: str) -> None:
    read = micr.read(text)
    if isinstance(read, Fault):
        assert read.kind in micr.FAULTS
    else:
        assert not read.settled or text in BARE
        assert read.account is None or read.account in text.replace("⑉", "").replace(" ", "")


@pytest.mark.parametrize("notation", micr.NOTATIONS)
def test_a_nasty_line_reads_without_a_crash_in_every_notation(notation: str) -> None:
    for text in LINES:
        assert isinstance(micr.read(text, notation, printed_serial="1043"), Fault | MicrLine)
