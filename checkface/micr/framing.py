"""What a reader sends around a line: control characters, a status, a word before it.

Serial readers put STX, ETX, ESC, NUL, FS (ISO 646, ECMA-48) or a byte order mark around the line, keyboard wedges a
line end; some add ``/00`` for a good read, some a word such as ``MICR:``. That is cut off and the rest is read as it
stands. What could be a character of the line stays and is told as foreign: one letter alone may be a misread digit, and
a status other than zeros may say that the reader is not sure. What readers send is common practice.

>>> text = "\\x02T031097765T 0045601122O 1043\\x03\\r\\n"
>>> text[slice(*bounds(text))]
'T031097765T 0045601122O 1043'
>>> outside("MICR: T031097765T 0045601122O 1043 /00", "xxxxx T031097765T 0045601122O 1043 x00")
(6, 34)
>>> outside("Q T031097765T 0045601122O 1043 /01", "x T031097765T 0045601122O 1043 x01")
(0, 34)
"""

from __future__ import annotations

from checkface.micr.notation import FIELD
from checkface.patterns import lazily

_CONTROLS = "".join(map(chr, range(0x20))) + "\x7f\ufeff"
_STATUS_BEHIND = lazily(r" */00 *$")
_STATUS_BEFORE = lazily(r" *(?:/00|00/)(?![0-9]) *")
_LEFT_OF_TRANSIT = lazily(r"(?:O[0-9?D ]+O *)?(?:[0-9?] *)?$")
_AUXILIARY = lazily(r" *O.*O *")
_WORD = lazily(r" *[A-Za-z]{2,12}[:=>]? *")
_WORD_APART = lazily(r" *[A-Za-z]{2,12}[:=>]? +")


def bounds(text: str) -> tuple[int, int]:
    """Start and end of *text* without the control characters around it; blanks beside the line hold places and stay."""
    inner = text.strip(" ")
    if not inner or not (inner[0] in _CONTROLS or inner[-1] in _CONTROLS):
        return 0, len(text)
    outer = _CONTROLS + " "
    start = len(text) - len(text.lstrip(outer))
    end = max(start, len(text.rstrip(outer)))
    before, behind = text[:start], text[end:]
    return start - (len(before) - len(before.rstrip(" "))), end + len(behind) - len(behind.lstrip(" "))


def outside(text: str, line: str) -> tuple[int, int]:
    """Start and end of the line in *text*, its plain form being *line*, without a status or a word beside it."""
    start, end = 0, len(text)
    if "x" not in line:
        return start, end
    start, end = _without_status(text, line)
    field = FIELD.search(line, start, end)
    if field and "x" in line[start : field.start()]:
        first = _LEFT_OF_TRANSIT.search(line[start : field.start()])
        at = start + first.start() if first else start
        if "x" in line[start:at] and _WORD.fullmatch(text, start, at) and not _AUXILIARY.fullmatch(line, start, at):
            start = at
    return start, end


def apart(text: str) -> tuple[int, int]:
    """The same for a text that no notation fits: without a status, and without a word that a blank sets off."""
    start, end = _without_status(text, "x" * len(text))
    word = _WORD_APART.match(text, start)
    return word.end() if word else start, end


def _without_status(text: str, line: str) -> tuple[int, int]:
    behind, before = _STATUS_BEHIND.search(text), _STATUS_BEFORE.match(text)
    return (
        before.end() if before and line[text.index("/")] == "x" else 0,
        behind.start() if behind and line[text.index("/", behind.start())] == "x" else len(text),
    )
