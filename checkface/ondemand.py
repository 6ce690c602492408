"""Names of a package that are loaded when they are first asked for.

Whoever wants one part should not wait for all of them: the readers of cards are of no use to a counter that is shown
none, and the rule book is of none to a script that reads one line.

>>> find = names_of("checkface", {"Span": "span"})
>>> find("Span").__name__
'Span'
>>> find("Spam")
Traceback (most recent call last):
AttributeError: module 'checkface' has no attribute 'Spam'
"""

import sys
from collections.abc import Callable, Mapping
from importlib import import_module
from typing import Any


def names_of(package: str, places: Mapping[str, str]) -> Callable[[str], Any]:
    """The ``__getattr__`` of *package* (PEP 562) for names kept in its modules: *places* has the module of each.

    A name that is the module's own stands for the module. What was found is kept: the next look costs nothing.
    """

    def find(name: str) -> Any:
        if name not in places:
            raise AttributeError(f"module {package!r} has no attribute {name!r}")
        module = import_module(f"{package}.{places[name]}")
        found = module if name == places[name] else getattr(module, name)
        setattr(sys.modules[package], name, found)
        return found

    return find
