"""How wide text stands on a terminal, and what is shown for characters that have no width or move the cursor.

A reading is shown as it was captured, so a tab, an escape sequence or a zero-width character must neither vanish nor
act: control characters are shown by their pictures (U+2400 block), other invisible ones by their escape. Widths follow
Unicode Standard Annex 11 (East Asian Width): wide and full-width characters take two cells, combining marks none.

>>> shown("a\\tb")
'a␉b'
>>> shown("1\\u200b0")
'1\\\\u200b0'
>>> width("⑆071"), width("金額"), width("e\\u0301")
(4, 4, 1)
"""

from __future__ import annotations

from functools import lru_cache
from unicodedata import category, combining, east_asian_width

_UNSEEN = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}
_MARKS = {"Mn", "Me"}


@lru_cache(maxsize=4096)
def cell(character: str) -> tuple[str, int]:
    """What is shown for one *character*, and how many cells that takes."""
    code = ord(character)
    if 0x20 <= code < 0x7F:
        return character, 1
    if code < 0x20:
        return chr(0x2400 + code), 1
    if code == 0x7F:
        return "\u2421", 1
    kind = category(character)
    if kind in _UNSEEN:
        escape = f"\\x{code:02x}" if code < 0x100 else f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"
        return escape, len(escape)
    if kind in _MARKS or combining(character):
        return character, 0
    return character, 2 if east_asian_width(character) in "WF" else 1


def shown(text: str) -> str:
    """*text* on one line, with nothing in it that a terminal would act upon."""
    return text if text.isascii() and text.isprintable() else "".join(cell(character)[0] for character in text)


def width(text: str) -> int:
    """Cells that :func:`shown` takes for *text*."""
    return len(text) if text.isascii() and text.isprintable() else sum(cell(character)[1] for character in text)
