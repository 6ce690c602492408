"""Lines of a given number of columns, for a receipt printer or a terminal.

Characters that are not printable become blanks, so that no text can steer a printer; wide East Asian characters take
two columns and combining marks none (Unicode Standard Annex 11).

>>> wrapped("Pay to the order of Cornerside Grocery", 16)
['Pay to the order', 'of Cornerside', 'Grocery']
>>> pair("Amount", "$45.10", 20)
['Amount        $45.10']
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator

NARROWEST, WIDEST = 16, 200


def printable(text: str) -> str:
    """*text* in one line, everything that is not printable turned into blanks."""
    if text.isprintable():
        return text
    return "".join(character if character.isprintable() else " " for character in text)


def cells(text: str) -> int:
    """Columns that *text* takes."""
    return len(text) if text.isascii() else sum(map(_cells, text))


def _cells(character: str) -> int:
    if unicodedata.combining(character):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def wrapped(text: str, width: int) -> list[str]:
    """The lines of *text* at no more than *width* columns; line breaks are kept, words too long are cut."""
    lines: list[str] = []
    for paragraph in text.splitlines() or [""]:
        line = ""
        for word in printable(paragraph).split():
            for piece in _pieces(word, width):
                joined = f"{line} {piece}" if line else piece
                if cells(joined) > width:
                    lines.append(line)
                    joined = piece
                line = joined
        lines.append(line)
    return lines


def _pieces(word: str, width: int) -> Iterator[str]:
    piece, room = "", width
    for character in word:
        room -= (taken := _cells(character))
        if room < 0:
            yield piece
            piece, room = "", width - taken
        piece += character
    yield piece


def pair(label: str, value: str, width: int) -> list[str]:
    """*label* at the left and *value* at the right of one line, or below it where the line is too short."""
    label, value = printable(label), printable(value)
    room = width - cells(label) - cells(value)
    if room >= 2:
        return [label + " " * room + value]
    return wrapped(label, width) + [f"  {line}" for line in wrapped(value, width - 2)]


def checked(width: int) -> int:
    """*width* itself. Raises ``ValueError`` for one that no receipt fits."""
    if not NARROWEST <= width <= WIDEST:
        raise ValueError(f"Expected a width of {NARROWEST} to {WIDEST} columns, read {width}.")
    return width
