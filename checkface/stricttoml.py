"""TOML from outside (TOML 1.0.0, https://toml.io/en/v1.0.0), within bounds that hold before it is read.

The reader of Python's library takes time by the square of the parts of a dotted key and a level of its stack for each
list within a list; no table that a person writes comes near these bounds.

>>> loads('[limits]\\nhouse = "500.00"')
{'limits': {'house': '500.00'}}
>>> loads("a = " + "[" * 100_000)
Traceback (most recent call last):
checkface.stricttoml.TomlError: Expected at most 32 tables or lists within each other, read more
>>> loads("a = " + "9" * 5000)
Traceback (most recent call last):
checkface.stricttoml.TomlError: Expected TOML, read a number with too many digits
"""

import re
from typing import Any, Final

#: Most characters of a text: a directory of every routing number there is takes half as many.
LONGEST: Final = 1 << 20
#: Most tables, lists and parts of a key within each other.
DEEPEST: Final = 32

_DEEP: Final = f"Expected at most {DEEPEST} tables or lists within each other, read more"
#: What a dot or a bracket means nothing in: a string of one line, closed or not, and a comment.
_SILENT: Final = re.compile(r'"(?:[^"\\\n]|\\.)*+"?|\'[^\'\n]*+\'?|#[^\n]*+')
_ENDS: Final = re.compile(r"[=,\n\[\]{}]")


class TomlError(ValueError):
    """Text that is no TOML, or beyond the bounds; one sentence without a full stop."""


def loads(text: str) -> dict[str, Any]:
    """The tables in *text*. Raises :class:`TomlError`."""
    import tomllib

    if len(text) > LONGEST:
        raise TomlError(f"Expected at most {LONGEST:,} characters, read more")
    if any(part.count(".") >= DEEPEST for part in _ENDS.split(_SILENT.sub("", text))):
        raise TomlError(_DEEP)
    try:
        found = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise TomlError(f"Expected TOML, read: {error}") from None
    except RecursionError:
        raise TomlError(_DEEP) from None
    except ValueError:
        raise TomlError("Expected TOML, read a number with too many digits") from None
    level: list[Any] = [found]
    for _ in range(DEEPEST):
        level = [one for each in level if isinstance(each, dict | list) for one in _within(each)]
    if level:
        raise TomlError(_DEEP)
    return found


def _within(table: dict[str, Any] | list[Any]) -> Any:
    return table.values() if isinstance(table, dict) else table
