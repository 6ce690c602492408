"""The outside of an AAMVA payload: undo what scanners did to it, read its header, find its elements.

The AAMVA DL/ID Card Design Standard opens a payload with ``@``, line feed, record separator, carriage return,
then ``ANSI``, the issuer's six digits, the version, the jurisdiction's version (since 2003), the number of
subfiles, and for each its type, offset and length. Offsets are wrong on so many cards that nothing here is
cut by them: elements are found by their separators, and the header is only held against the result.

>>> found = open_envelope("ANSI 636000100101DL00310020DLDCSSAMPLE|DBA12102024|")
>>> found.iin, found.version, found.subfile, found.elements
('636000', 10, 'DL', {'DCS': 'SAMPLE', 'DBA': '12102024'})
>>> [repair.kind for repair in found.repairs]
['separators-replaced', 'opening', 'offsets']
"""

import re
from collections import Counter
from typing import NamedTuple

from checkface.patterns import lazily

from .card import Check, Repair
from .places import issuer_of
from .rejoin import cut_lines, cut_run

_CONTROLS = {"LF": "\n", "NL": "\n", "J": "\n", "N": "\n", "X0A": "\n", "U000A": "\n", "␊": "\n", "␤": "\n"}
_CONTROLS |= {"CR": "\r", "M": "\r", "R": "\r", "X0D": "\r", "U000D": "\r", "␍": "\r"}
_CONTROLS |= {"RS": "\x1e", "^": "\x1e", "X1E": "\x1e", "U001E": "\x1e", "␞": "\x1e"}
_CONTROLS |= {"FS": "\x1c", "GS": "\x1d", "US": "\x1f", "␜": "\x1c", "␝": "\x1d", "␟": "\x1f"}
_WRITTEN_OUT = lazily(
    r"<(LF|NL|CR|RS|FS|GS|US)>|\\(n|r|x0a|x0d|x1e|u000a|u000d|u001e)|(?:\^|ctrl[-+ ]?)([JM^])|([␊␤␍␞␜␝␟])",
    re.IGNORECASE,
)
_MARKS = lazily(r"[<\\^␊-␤]|[Cc][Tt][Rr][Ll]")
_FILE_TYPE = lazily(r"(ANSI|AAMVA) ?([0-9]{6})([0-9]*)")
_FILE_TYPE_CAPS_LOCK = lazily(r"(ansi|aamva) ?[0-9]{6}")
_ENTRY = lazily(r"[ \n\r]*([A-Z]{2})([0-9]{4})([0-9]{4})")
_BREAK = lazily(r"[\n\r\x1c-\x1f]+")
_BREAK_AND_BLANKS = lazily(r"[\n\r\x1c-\x1f]+ *")
_ELEMENT = lazily(r"(DL|ID|EN)?(D[ABCD][A-Z])")
_STRAY_START = lazily(r"(DL|ID|EN)(?=D[ABCD][A-Z])")
_OTHER_BREAK = lazily(r"([;~\t*#^&!_])(?=D[ABCD][A-Z])")
_FEW_ELEMENTS = 5
_WIDTHS = dict.fromkeys(("DBA", "DBB", "DBD"), 8) | dict.fromkeys(("DDE", "DDF", "DDG", "DBC", "DDD", "DDA"), 1)
_OPENING = "@\n\x1e\rANSI "
_HEADER_WITHIN = 120
_SHORTEST_RUN = 40


class Envelope(NamedTuple):
    """An opened payload: its header, the type of its subfile, its elements by their three letters."""

    iin: str
    version: int | None
    subfile: str
    entries: tuple[str, ...]
    elements: dict[str, str]
    repairs: list[Repair]
    checks: list[Check]


def open_envelope(payload: str) -> Envelope:
    """Open *payload*; without any header ``iin`` is empty, without any element ``elements`` is."""
    repairs: list[Repair] = []
    checks: list[Check] = []
    text = _undo(payload, repairs)
    head = _FILE_TYPE.search(text, 0, _HEADER_WITHIN)
    if head is None:
        repairs.append(Repair("header-missing", "no file type with an issuer number near the start"))
        body, iin, version = 0, "", None
        entries: list[tuple[str, int, int]] = []
    else:
        if not text.startswith(_OPENING):
            repairs.append(Repair("opening", "the payload does not open as the standard says"))
        if head[1] == "AAMVA":
            repairs.append(Repair("file-type", "file type AAMVA instead of ANSI"))
        iin, version = _issuer_and_version(head[2] + head[3], repairs)
        body, entries = _entries(text, head.end())
    run = text[body:]
    if len(run) > _SHORTEST_RUN and not _BREAK.search(run.strip()):
        subfile, elements = _rejoined(run.strip(), version, entries, repairs)
    else:
        subfile, elements = _elements(run, repairs, checks)
        if elements and (whole := cut_lines(_BREAK.split(run), elements, version)):
            elements = whole
            repairs.append(
                Repair("reconstructed", "there was one way alone to cut apart elements that stood in one piece")
            )
        _hold_against(text, head, entries, elements, repairs, checks)
    named = tuple(kind for kind, _, _ in entries)
    listed = next((kind for kind in named if kind in {"DL", "ID", "EN"}), "")
    if subfile and listed and subfile != listed:
        checks.append(Check("subfile-differs", "the header and the subfile name two kinds of card"))
    elif listed and not subfile:
        repairs.append(Repair("subfile-type", "the subfile does not repeat its type"))
    return Envelope(iin, version, subfile or listed, named, elements, repairs, checks)


def _undo(text: str, repairs: list[Repair]) -> str:
    """Control characters written out, doubled or replaced on their way through a scanner or a person."""
    if "\x90" in text:
        text = text.replace("\x90", "")
        repairs.append(Repair("stray-bytes", "a byte 0x90 after the separators"))
    if _MARKS.search(text):
        undone = _WRITTEN_OUT.sub(lambda mark: _CONTROLS[next(filter(None, mark.groups())).upper()], text)
        if undone != text:
            text = undone
            repairs.append(Repair("escapes-undone", "control characters written out as text"))
    if text.count("|") > text.count("\n") + text.count("\r"):
        text = text.replace("|", "\n")
        repairs.append(Repair("separators-replaced", "vertical bars in place of line feeds"))
    elif text.count("\n") + text.count("\r") < _FEW_ELEMENTS and (marks := Counter(_OTHER_BREAK.findall(text))):
        mark, times = marks.most_common(1)[0]
        if times >= _FEW_ELEMENTS:
            text = text.replace(mark, "\n")
            repairs.append(Repair("separators-replaced", "another character in place of line feeds"))
    if _FILE_TYPE_CAPS_LOCK.search(text, 0, _HEADER_WITHIN):
        text = text.swapcase()
        repairs.append(Repair("case-inverted", "capitals and small letters exchanged, as by a caps lock"))
    return text


def _issuer_and_version(digits: str, repairs: list[Repair]) -> tuple[str, int | None]:
    """The issuer's number and the version: two digits, then the jurisdiction's two (not in version 01) and the count.

    One digit too few is one of the issuer's if a version follows then; where it may be another's too, the version is
    open.
    """
    if len(digits) in (9, 11) and _is_version(digits[5:7], len(digits) == 9):
        repairs.append(Repair("issuer-digits", "an issuer number of five digits"))
        open_too = issuer_of(digits[:6]) is not None and _is_version(digits[6:8], len(digits) == 9)
        return digits[:5], None if open_too else int(digits[5:7])
    iin, rest = digits[:6], digits[6:]
    version = int(rest[:2]) if len(rest) >= 2 else None
    if len(rest) != (4 if version == 1 else 6):
        repairs.append(Repair("header-digits", f"{len(rest)} digits after the issuer number"))
    if version is not None and not 1 <= version <= 12:
        repairs.append(Repair("version-unlisted", f"version {version:02} is none of 01 to 12"))
    return iin, version


def _is_version(digits: str, first: bool) -> bool:
    return digits == "01" if first else "02" <= digits <= "12"


def _entries(text: str, at: int) -> tuple[int, list[tuple[str, int, int]]]:
    entries: list[tuple[str, int, int]] = []
    while len(entries) < 10 and (entry := _ENTRY.match(text, at)):
        entries.append((entry[1], int(entry[2]), int(entry[3])))
        at = entry.end()
    return at, entries


def _rejoined(
    run: str, version: int | None, entries: list[tuple[str, int, int]], repairs: list[Repair]
) -> tuple[str, dict[str, str]]:
    """The elements of a body without any separator, none unless there is one way alone to cut it."""
    for kind, _, _ in entries:
        if kind[0] == "Z":
            run = run.partition(kind * 2)[0]
    kind = run[:2] if run[:2] in {"DL", "ID", "EN"} else ""
    repairs.append(Repair("separators-lost", "no separators between the elements"))
    elements = cut_run(run[len(kind) :], version)
    if elements is None:
        return kind, {}
    repairs.append(Repair("reconstructed", "there was one way alone to cut the elements apart"))
    return kind, elements


def _elements(run: str, repairs: list[Repair], checks: list[Check]) -> tuple[str, dict[str, str]]:
    subfile = ""
    strays = 0
    differing = set()
    elements: dict[str, str] = {}
    pieces = _BREAK.split(run)
    if stray := _STRAY_START.search(pieces[0]):
        pieces[0] = pieces[0][stray.start() :]
    pieces.reverse()
    packed = False
    while pieces:
        piece = pieces.pop()
        found = _ELEMENT.match(piece) or _ELEMENT.match(piece := piece.strip())
        if found is None:
            strays += bool(piece) and piece[0] != "Z"
            continue
        kind, code = found.groups()
        subfile = subfile or kind or ""
        value = piece[found.end() :].strip()
        if (width := _WIDTHS.get(code, 0)) and value[:width].isalnum() and _ELEMENT.match(value, width):
            pieces.append(value[width:])
            value, packed = value[:width], True
        before = elements.setdefault(code, value)
        if value and before != value:
            elements[code] = value
            if before:
                differing.add(code)
    for code in sorted(differing):
        elements[code] = ""
        checks.append(Check("element-differs", f"element {code} stands there twice with different values"))
    if packed:
        repairs.append(Repair("separator-lost", "elements stood in one piece behind one of known width"))
    if strays and elements:
        repairs.append(Repair("strays", f"{strays} pieces that begin with no element"))
    return subfile, elements


def _hold_against(
    text: str,
    head: re.Match[str] | None,
    entries: list[tuple[str, int, int]],
    elements: dict[str, str],
    repairs: list[Repair],
    checks: list[Check],
) -> None:
    """Hold the header against the text. A payload that stops short loses its last element: it may be cut."""
    if head is None or not entries:
        return
    start = max(text.rfind("@", 0, head.start() + 1), 0)
    for kind, offset, length in entries:
        subfile = text[start + offset : start + offset + length]
        # The worked example of the 2000 edition is itself out by one.
        if not (subfile.startswith(kind) and "\r" in (text[start + offset + length - 1 :] + "\n")[:2]):
            repairs.append(Repair("offsets", "the offsets or lengths of the header do not meet the subfiles"))
            break
    last = text[max(map(text.rfind, "\n\r\x1c\x1d\x1e\x1f")) + 1 :]
    if not last:
        return
    declared = max(offset + length for _, offset, length in entries)
    # Doubled separators count once; the opening's three are the standard's own.
    actual = len(_BREAK_AND_BLANKS.sub("\n", text[start:])) + 2
    if declared - actual > 1:
        if (cut := _ELEMENT.match(last)) and cut[2] in elements:
            del elements[cut[2]]
        checks.append(Check("payload-short", "the payload stops before the length its header gives"))
