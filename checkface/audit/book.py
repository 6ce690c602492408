"""What the cells of a workbook refer to: its sheets, its shared texts, the formats of its numbers, its calendar.

Elements: ISO/IEC 29500-1, 18.2 (workbook), 18.4 (shared strings), 18.8 (styles).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from posixpath import join, normpath
from typing import Final, NamedTuple
from xml.parsers import expat
from zipfile import ZipFile

from openpyxl.styles.numbers import BUILTIN_FORMATS, is_date_format, is_timedelta_format
from openpyxl.utils.escape import unescape

from checkface.audit import package

_RELATIONS: Final = "xl/_rels/workbook.xml.rels"
#: Most formats of cells, and most characters of one: what spreadsheets can have, and room.
FORMATS, CODE = 1 << 16, 255
_NOUGHTS: Final = re.compile("00+")
#: What a format shows as it stands: quoted, escaped, a blank as wide as a character, a fill, and what is no text.
_QUOTED: Final = re.compile(r'"[^"]*"|[\\_*].|\[[^\]]*\]', re.DOTALL)


class Sheet(NamedTuple):
    """One sheet: its name, the part that holds it, and whether it is shown."""

    name: str
    part: str
    shown: bool


class Form(NamedTuple):
    """How a number is shown: as a day, a length of time, so many digits (0: as it is), or so many of a hundred."""

    day: bool = False
    length: bool = False
    digits: int = 0
    percent: bool = False


class Book(NamedTuple):
    """A workbook, all but its cells."""

    sheets: tuple[Sheet, ...]
    texts: list[str]
    forms: list[Form]
    from_1904: bool


def read(archive: ZipFile) -> Book:
    """What the workbook in *archive* says of itself. Raises one of :data:`package.ERRORS` where it is damaged."""
    named: list[tuple[str, str, bool]] = []
    targets: dict[str, str] = {}
    kinds: dict[str, str] = {}
    calendar: list[str] = []

    def workbook(name: str, given: Mapping[str, str]) -> None:
        if name == "sheet":
            link = next((value for key, value in given.items() if key.rpartition(":")[2] == "id"), "")
            named.append((given.get("name", ""), link, given.get("state", "visible") == "visible"))
        elif name == "workbookPr":
            calendar.append(given.get("date1904", ""))

    def relation(name: str, given: Mapping[str, str]) -> None:
        if name == "Relationship" and given.get("TargetMode") != "External":
            target = normpath(join("/xl", given.get("Target", "")))[1:]
            targets[given.get("Id", "")] = target
            kinds[given.get("Type", "").rpartition("/")[2]] = target

    package.scan(archive, package.WORKBOOK, workbook)
    package.scan(archive, _RELATIONS, relation)
    parts = set(archive.namelist())
    sheets = [Sheet(name, targets[link], shown) for name, link, shown in named]
    texts = _texts(archive, kinds["sharedStrings"]) if kinds.get("sharedStrings") in parts else []
    forms = _forms(archive, kinds["styles"]) if kinds.get("styles") in parts else []
    # A sheet of charts has no cells, and says so in its folder.
    tables = (each for each in sheets if each.part in parts and "/chartsheets/" not in each.part)
    return Book(tuple(tables), texts, forms, calendar[:1] in (["1"], ["true"]))


class Gathered:
    """Handlers for text in runs: what stands in ``t`` elements, but for how it is pronounced (``rPh``)."""

    def __init__(self) -> None:
        self.words: list[str] = []
        self._take = self._spoken = False

    def start(self, name: str) -> None:
        """An element begins."""
        if name == "rPh":
            self._spoken = True
        self._take = name == "t" and not self._spoken

    def end(self, name: str) -> None:
        """An element ends."""
        if name == "rPh":
            self._spoken = False
        self._take = False

    def characters(self, data: str) -> None:
        """Characters come."""
        if self._take:
            self.words.append(data)

    def text(self) -> str:
        """What has come, which is forgotten."""
        found = unescape("".join(self.words))
        self.words.clear()
        return str(found)


def _texts(archive: ZipFile, part: str) -> list[str]:
    found: list[str] = []
    gathered = Gathered()
    parser = expat.ParserCreate()

    def end(name: str) -> None:
        name = name.rpartition(":")[2]
        gathered.end(name)
        if name == "si":
            found.append(gathered.text())

    parser.StartElementHandler = lambda name, _: gathered.start(name.rpartition(":")[2])
    parser.EndElementHandler = end
    parser.CharacterDataHandler = gathered.characters
    for step in package.chunks(archive, part):
        parser.Parse(step)
    parser.Parse(b"", True)
    return found


def _forms(archive: ZipFile, part: str) -> list[Form]:
    codes: dict[int, str] = dict(BUILTIN_FORMATS)
    used: list[int] = []
    within = [""]

    def styles(name: str, given: Mapping[str, str]) -> None:
        if name in {"numFmts", "cellStyleXfs", "cellXfs", "cellStyles", "dxfs"}:
            within[0] = name
        elif name == "numFmt" and within[0] == "numFmts":
            codes[int(given["numFmtId"])] = given["formatCode"]
        elif name == "xf" and within[0] == "cellXfs":
            used.append(int(given.get("numFmtId", "0")))
            if len(used) > FORMATS:
                raise ValueError("more formats than a workbook can have")

    package.scan(archive, part, styles)
    forms = {number: _form(codes.get(number, "General")) for number in set(used)}
    return [forms[number] for number in used]


def _form(code: str) -> Form:
    if len(code) > CODE:
        raise ValueError("a format longer than a workbook can have")
    day = is_date_format(code)
    digits = len(code) if _NOUGHTS.fullmatch(code) else 0
    return Form(day, day and is_timedelta_format(code), digits, not day and "%" in _QUOTED.sub("", code))
