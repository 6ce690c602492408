"""What a terminal, a spreadsheet and a program are given for any text, and how wide it stands on a terminal.

A reading is shown as it was captured, so a tab, an escape sequence or a zero-width character must neither vanish nor
act: control characters are shown by their pictures (U+2400 block), other invisible ones by their escape. Widths follow
Unicode Standard Annex 11 (East Asian Width): wide and full-width characters take two cells, combining marks none.

>>> shown("a\\tb")
'a␉b'
>>> shown("1\\u200b0")
'1\\\\u200b0'
>>> width("⑆071"), width("金額"), width("e\\u0301")
(4, 4, 1)

A spreadsheet takes a cell for a formula by its first sign (OWASP, CSV Injection); an apostrophe keeps it text.

>>> inert("=1+1"), inert("\u00a0＝1+1"), inert("a;@SUM(1)"), inert("45.10")
("'=1+1", "'\xa0＝1+1", "a;'@SUM(1)", '45.10')
>>> dumps({"payee": "Groc\u202eer"})
'{"payee": "Groc\\\\u202eer"}'
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from functools import lru_cache
from typing import Any
from unicodedata import category, combining, east_asian_width

from checkface.patterns import lazily

_UNSEEN = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}
_MARKS = {"Mn", "Me"}
#: Letters and marks that nobody sees (Default_Ignorable_Code_Point), and the blank of Braille.
_EMPTY = frozenset(
    map(chr, (0x34F, 0x115F, 0x1160, 0x17B4, 0x17B5, *range(0x180B, 0x1810), 0x2800, 0x3164, *range(0xFE00, 0xFE10),
              0xFFA0, *range(0xE0100, 0xE01F0)))
)  # fmt: skip
#: What starts a formula (OWASP, CSV Injection), in its full-width and small forms too, behind blanks seen or unseen: at
#: the beginning, or behind a sign at which a spreadsheet may cut the line although CSV puts no quotes around it.
_BLANK = r"[\s\x00-\x20\x7f-\xa0\xad\u200b-\u200f\u2028-\u202f\u2060-\u206f\u2800\u3164\ufeff]"
_START = r"[=+\-@\uff1d\uff0b\uff0d\uff20\ufe66\ufe62\ufe63\ufe6b]"
_FORMULA = lazily(rf"\A(?={_BLANK}*{_START})|[;|\t](?={_BLANK}{{0,32}}{_START})|\A(?=[\t\r\n])")
_NOT_PLAIN = lazily("[^\x20-\x7e]")


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
    if kind in _UNSEEN or character in _EMPTY:
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


def inert(text: str) -> str:
    """*text* as a cell that no spreadsheet takes for a formula, wherever it cuts the line: apostrophes go before."""
    return _FORMULA.sub(r"\g<0>'", text)


def dumps(value: Any, *, indent: int | None = None, default: Callable[[Any], Any] | None = None) -> str:
    """*value* as JSON text in which nothing steers a terminal or hides: such characters are escaped."""
    said = json.dumps(value, ensure_ascii=False, indent=indent, default=default)
    return said if said.isascii() and "\x7f" not in said else _NOT_PLAIN.sub(_escaped, said)


def _escaped(found: re.Match[str]) -> str:
    character = found[0]
    return character if character == "\n" or cell(character)[0] == character else json.dumps(character)[1:-1]
