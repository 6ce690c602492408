"""The examples in the documentation of every module of the room hold."""

from __future__ import annotations

import doctest
import pkgutil
from importlib import import_module

import pytest

from checkface import micr

MODULES = [
    micr,
    *(import_module(f"{micr.__name__}.{found.name}") for found in pkgutil.iter_modules(micr.__path__)),
]


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.__name__)
def test_examples(module: object) -> None:
    assert doctest.testmod(module).failed == 0  # type: ignore[arg-type]
