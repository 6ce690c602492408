"""What the fuzzer starts from, and what it has found before, through every reader."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))
from fuzz_readers import try_everything

CORPUS = sorted((Path(__file__).parent / "corpus").iterdir())


@pytest.mark.parametrize("file", CORPUS, ids=lambda file: file.name)
def test_no_reader_raises(file: Path) -> None:
    try_everything(file.read_bytes())
