"""The examples in the docstrings of the ledger are true."""

from __future__ import annotations

import doctest
from types import ModuleType

import pytest

from checkface.ledger import keys, matching, reconcile, store


@pytest.mark.parametrize("module", [keys, matching, reconcile, store], ids=lambda module: module.__name__)
def test_examples(module: ModuleType) -> None:
    result = doctest.testmod(module)
    assert result.attempted
    assert not result.failed
