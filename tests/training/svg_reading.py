"""Read a drawing back: its well-formed tree, its coordinates, and its magnetic-ink line from the ink alone."""

from __future__ import annotations

import re
from collections.abc import Iterator
from xml.etree import ElementTree

from checkface import micr

SVG = "{http://www.w3.org/2000/svg}"
HALF, PITCH, MARGIN = 6.5, 125.0, 312.5
SYMBOLS = {"transit": "\u2446", "amount": "\u2447", "on-us": "\u2448", "dash": "\u2449"}
NAMES = [*"0123456789", *SYMBOLS]
RECTANGLE = re.compile(r"M(\S+) (\S+) H(\S+) V(\S+) H(\S+) Z")


def tree(drawn: str) -> ElementTree.Element:
    """The drawing, which must be well-formed XML without any declaration of an entity."""
    assert "<!" not in drawn
    return ElementTree.fromstring(drawn)


def width_of(root: ElementTree.Element) -> float:
    """Width of the paper, thousandths of an inch."""
    return float(root.attrib["viewBox"].split()[2])


def characters(root: ElementTree.Element) -> list[tuple[int, str]]:
    """Position from the right edge and character of everything printed on the line, from the ink alone."""
    width = width_of(root)
    sheet = next(element for element in root.iter(f"{SVG}rect"))
    bottom = float(sheet.attrib["height"])
    found: list[tuple[int, str]] = []
    for group in root.iter(f"{SVG}g"):
        if group.get("class") == "e13b":
            found += [
                _character(glyph.attrib["d"], width, bottom)
                for glyph in group.iter(f"{SVG}path")
                if "H" in glyph.attrib["d"]
            ]
    return sorted(found, reverse=True)


def _character(steps: str, width: float, bottom: float) -> tuple[int, str]:
    boxes = [tuple(map(float, match.groups()[:4])) for match in RECTANGLE.finditer(steps)]
    assert boxes, steps
    right = max(box[2] for box in boxes)
    position = round((width - MARGIN - right) / PITCH) + 1
    edge = width - MARGIN - (position - 1) * PITCH
    base = bottom - 254.0  # 3/16 + 1/4 / 2 in above the bottom, less half the height of a character
    rows = [0] * 18
    for left, top, across, down in boxes:
        for row in range(18):
            middle = base - (18 - row - 0.5) * HALF
            if top < middle < down:
                for column in range(14):
                    if left < edge - (14 - column - 0.5) * HALF < across:
                        rows[row] |= 1 << (13 - column)
    for name in NAMES:
        if tuple(rows) == micr.bitmap(name):
            return position, SYMBOLS.get(name, name)
    return position, "?"


def line(root: ElementTree.Element) -> str:
    """The line as a machine would give it, blanks where no character stands."""
    printed = characters(root)
    if not printed:
        return ""
    at = dict(printed)
    assert len(at) == len(printed), "two characters stand on one another"
    return "".join(at.get(position, " ") for position in range(printed[0][0], printed[-1][0] - 1, -1))


def coordinates(root: ElementTree.Element) -> Iterator[tuple[str, float, float]]:
    """Element and point of every absolute coordinate in the drawing, transforms of groups applied."""
    yield from _points(root, 0.0, 0.0)


def _points(element: ElementTree.Element, x: float, y: float) -> Iterator[tuple[str, float, float]]:
    turn = element.get("transform", "")
    if moved := re.fullmatch(r"translate\((\S+) (\S+)\)", turn):
        x, y = x + float(moved[1]), y + float(moved[2])
    elif moved := re.fullmatch(r"translate\((\S+) (\S+)\) rotate\(-90\)", turn):
        yield element.tag, x + float(moved[1]), y + float(moved[2])
        return
    name = element.tag.removeprefix(SVG)
    number = {key: float(value) for key, value in element.attrib.items() if re.fullmatch(r"-?[0-9.]+", value)}
    if name == "rect":
        yield name, x + number["x"], y + number["y"]
        yield name, x + number["x"] + number["width"], y + number["y"] + number["height"]
    elif name == "line":
        yield name, x + number["x1"], y + number["y1"]
        yield name, x + number["x2"], y + number["y2"]
    elif name == "circle":
        yield name, x + number["cx"] - number["r"], y + number["cy"] - number["r"]
        yield name, x + number["cx"] + number["r"], y + number["cy"] + number["r"]
    elif name == "text":
        yield name, x + number["x"], y + number["y"]
    elif name == "path":
        yield from ((name, x + one, y + other) for one, other in _steps(element.attrib["d"]))
    for child in element:
        yield from _points(child, x, y)


def _steps(path: str) -> Iterator[tuple[float, float]]:
    x = y = 0.0
    for letter, rest in re.findall(r"([A-Z])([^A-Z]*)", path):
        given = [float(number) for number in rest.split()]
        if letter == "H":
            x = given[0]
            yield x, y
        elif letter == "V":
            y = given[0]
            yield x, y
        else:
            assert letter in "MLQCSZ", letter
            for x, y in zip(given[::2], given[1::2], strict=True):
                yield x, y
