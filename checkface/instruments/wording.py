from typing import NamedTuple

from checkface.span import Span


class Unsettled(NamedTuple):
    span: Span
    word: str


def unsettled(lines: str) -> tuple[Unsettled, ...]:
    return ()
