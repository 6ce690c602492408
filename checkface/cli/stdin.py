"""``-`` for stdin, which the parser of options would take for the start of one."""

from __future__ import annotations

from typing import Final

#: What a lone ``-`` is called between the command line and the command.
STDIN: Final = "(stdin)"


def as_typed(text: str | None) -> str | None:
    """*text* as it stood on the command line: for options in which ``-`` is only a hyphen."""
    return "-" if text == STDIN else text
