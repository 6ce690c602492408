"""Regular expressions that are compiled when they are first used.

Most of the toolkit's two hundred expressions read forms that a clean check never shows; compiling them all would be a
third of the time that ``import checkface`` takes.

>>> word = lazily("[a-z]+")
>>> word.fullmatch("check") is not None, word.search("4510")
(True, None)
"""

import re
from typing import Any, cast


class _Lazy:
    """Stands for a compiled expression: the first method asked for compiles it, and all become plain attributes."""

    __slots__ = ("_flags", "_source", "findall", "finditer", "fullmatch", "match", "pattern", "search", "split", "sub")

    def __init__(self, source: str, flags: int) -> None:
        self._source = source
        self._flags = flags

    def __getattr__(self, name: str) -> Any:
        compiled = re.compile(self._source, self._flags)
        for method in self.__slots__[2:]:
            setattr(self, method, getattr(compiled, method))
        return getattr(compiled, name)


def lazily(source: str, flags: int = 0) -> re.Pattern[str]:
    """The expression *source*, compiled at its first use. Raises ``re.error`` then, as ``re.compile`` would at once."""
    return cast("re.Pattern[str]", _Lazy(source, flags))
