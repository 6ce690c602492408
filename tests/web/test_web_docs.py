"""The examples in the documentation of the room are true."""

from __future__ import annotations

import doctest
from types import ModuleType

import pytest

from checkface import web
from checkface.web import excerpts, form, refusal


@pytest.mark.parametrize("module", [web, excerpts, form, refusal], ids=lambda module: str(module.__name__))
def test_examples(module: ModuleType) -> None:
    result = doctest.testmod(module)
    assert result.attempted > 0
    assert result.failed == 0
