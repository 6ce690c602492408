"""Front and back of the check with what will be printed on them, as one SVG.

Lengths are hundredths of an inch on a personal check of 6 by 2.75 inches. The lowest 5/8 inch, the clear band of the
magnetic-ink line (ANSI X9.100-160), stays free on both sides; the endorsement keeps to the inch and a half at the
trailing edge (12 CFR 229.35 and ANSI X9.100-111). A drawn face is always a SPECIMEN: the house's own name stands on it,
everything read from the tender is a placeholder.
"""

from typing import NamedTuple
from xml.sax.saxutils import escape

from checkface.handling import plan
from checkface.handling.instructions import Instructions
from checkface.handling.layout import printable
from checkface.handling.values import house_name

WIDTH, HEIGHT, CLEAR_BAND, TRAILING = 600, 275, 62.5, 150
_GAP = 25
_INK = "#1f2a44"
_PALE = "#8a93a6"
# A letter of a fixed-width face takes about this share of its height.
_WIDE_AS_HIGH = 0.62


class Region(NamedTuple):
    """Where a text goes: left, top, width and height; ``turned`` texts run up along the edge."""

    left: float
    top: float
    width: float
    height: float
    caption: str
    turned: bool = False


REGIONS = {
    "front: notation block": Region(205, 12, 190, 58, "notation"),
    "front: date line": Region(430, 42, 150, 16, "date"),
    "front: payee line": Region(70, 84, 370, 16, "payee"),
    "front: amount box": Region(460, 80, 120, 22, "amount"),
    "front: legal line": Region(30, 114, 460, 16, "amount in words"),
    "front: across the face": Region(40, 138, 330, 34, "void"),
    "front: signature line": Region(390, 180, 190, 20, "signature"),
    "back: endorsement area": Region(
        WIDTH - TRAILING + 8, 8, TRAILING - 16, HEIGHT - CLEAR_BAND - 16, "endorsement", True
    ),
}

#: What stands for a field that is read from the tender or known only to the lane.
PLACEHOLDERS = {
    "amount": "$0.00", "words": "Zero and 00/100", "date": "MM/DD/YYYY", "time": "HH:MM", "serial": "0000",
    "employee": "EMP", "initials": "INI", "identification": "ID AS THE STATE ALLOWS",
    "customer_telephone": "000-000-0000", "lane": "0",
}  # fmt: skip


class _Placeholders:
    """The fields of a drawn face: the house's own, and placeholders for everything else."""

    def __init__(self, instructions: Instructions) -> None:
        self.house = {"house": house_name(instructions.policy), "payee": house_name(instructions.policy)}
        self.house["here"] = f"{instructions.values.place.location} {PLACEHOLDERS['date']}".strip()

    def __getitem__(self, name: str) -> str:
        return self.house.get(name) or PLACEHOLDERS.get(name, "")


def preview_svg(instructions: Instructions) -> str:
    """Front above, back below, in one SVG document that is well-formed XML."""
    fields = _Placeholders(instructions)
    steps = [step.filled(fields) for step in plan.plan(instructions.circumstances) if plan.on_paper(step)]
    total = 2 * HEIGHT + _GAP
    size = f'viewBox="0 0 {WIDTH} {total:g}" width="{WIDTH}" height="{total:g}"'
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" {size} font-family="monospace" fill="{_INK}">',
        f"<title>Specimen of a check to {instructions.disposition}: front and back</title>",
    ]
    for side, top in (("front", 0), ("back", HEIGHT + _GAP)):
        parts += [f'<g id="{side}" transform="translate(0 {top})">', *_paper(side)]
        for where, region in REGIONS.items():
            if where.startswith(side):
                lines = [line for step in steps if step.where == where for line in step.text.splitlines()]
                parts += _region(region, lines)
        parts.append("</g>")
    return "\n".join([*parts, "</svg>"]) + "\n"


def _paper(side: str) -> list[str]:
    clear = HEIGHT - CLEAR_BAND
    return [
        _rect(0, 0, WIDTH, HEIGHT, 'fill="#fbfaf5"'),
        _text(WIDTH / 2, clear / 2 + 28, 78, "SPECIMEN", 'text-anchor="middle" fill="#e4e0d2"'),
        _rect(0, clear, WIDTH, CLEAR_BAND, 'fill="#eceff4"'),
        _rect(0.5, 0.5, WIDTH - 1, HEIGHT - 1, f'fill="none" stroke="{_PALE}"'),
        _text(12, HEIGHT - 10, 8, f"{side}: clear band, nothing is printed here", f'fill="{_PALE}"'),
    ]


def _region(region: Region, lines: list[str]) -> list[str]:
    left, top, width, height, caption, turned = region
    parts = [
        _rect(left, top, width, height, f'fill="none" stroke="{_PALE}" stroke-dasharray="3 3"'),
        _text(left, top - 2, 7, caption, f'fill="{_PALE}"'),
    ]
    along, across = (height, width) if turned else (width, height)
    pitch = across / max(len(lines), 1)
    longest = max(map(len, lines), default=1) or 1
    size = min(pitch * 0.8, 20, (along - 8) / (_WIDE_AS_HIGH * longest))
    for number, line in enumerate(lines):
        base = pitch * (number + 0.5) + size * 0.35
        if turned:  # from the lower left corner up along the edge
            parts.append(
                _text(0, 0, size, line, f'transform="translate({left + base:g} {top + height - 4:g}) rotate(-90)"')
            )
        else:
            parts.append(_text(left + 4, top + base, size, line))
    return parts


def _rect(left: float, top: float, width: float, height: float, style: str) -> str:
    return f'<rect x="{left:g}" y="{top:g}" width="{width:g}" height="{height:g}" {style}/>'


def _text(left: float, base: float, size: float, text: str, style: str = "") -> str:
    return f'<text x="{left:g}" y="{base:g}" font-size="{size:.1f}" {style}>{escape(printable(text))}</text>'
