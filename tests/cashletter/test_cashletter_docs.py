"""The examples in the docstrings of cash letters do what they say."""

from __future__ import annotations

import doctest
import importlib

import pytest

from checkface import cashletter


@pytest.mark.parametrize("name", ["form", "layout", "reader", "writer"])
def test_examples_of_a_module(name: str) -> None:
    result = doctest.testmod(importlib.import_module(f"checkface.cashletter.{name}"))
    assert (result.failed, result.attempted > 0) == (0, True)


def test_examples_of_the_room() -> None:
    names = {name: getattr(cashletter, name) for name in cashletter.__all__}
    result = doctest.testmod(cashletter, extraglobs=names)
    assert (result.failed, result.attempted > 0) == (0, True)
