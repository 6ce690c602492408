"""The examples in the docstrings of the room."""

from __future__ import annotations

import doctest
import importlib
import pkgutil

import pytest

from checkface import training

MODULES = [module.name for module in pkgutil.walk_packages(training.__path__, "checkface.training.")]


@pytest.mark.parametrize("name", ["checkface.training", *MODULES])
def test_examples(name: str) -> None:
    module = importlib.import_module(name)
    assert module.__doc__
    assert doctest.testmod(module).failed == 0
