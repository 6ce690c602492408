"""Values and keys as TOML has them."""

from __future__ import annotations

import json
import textwrap
from collections.abc import Iterator
from typing import Any

#: A list that makes its line longer is written below its key.
WIDEST = 60


def string(value: Any) -> str:
    """*value* in TOML, whose strings, lists and words are those of JSON but for one character."""
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


def key(name: str) -> str:
    """*name* as a key: bare where it may be."""
    plain = name.replace("_", "").replace("-", "")
    return name if plain.isascii() and plain.isalnum() else string(name)


def entry(name: str, value: Any, comment: str = "") -> Iterator[str]:
    """The lines that set *name*; *comment* stands behind the first."""
    behind = f"  # {comment}" if comment else ""
    line = f"{key(name)} = {string(value)}"
    if len(line) <= WIDEST or not isinstance(value, list):
        yield line + behind
        return
    yield f"{key(name)} = [{behind}"
    items = ", ".join(map(string, value))
    yield from textwrap.wrap(items, 96, initial_indent="  ", subsequent_indent="  ", break_on_hyphens=False)
    yield "]"
