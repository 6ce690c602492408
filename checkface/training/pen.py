"""Strokes of SVG: rectangles, lines and text that never leaves its room, in thousandths of an inch.

Every text is escaped and every coordinate is written out, so that what is drawn can be read back and measured. No
script, no style sheet, no font and no address outside the drawing is ever asked for.

>>> text(100, 200, 90, "Ada & Ben")
'<text x="100" y="200" font-size="90">Ada &amp; Ben</text>'
>>> 'textLength="300"' in text(100, 200, 90, "a line too long for its room", room=300)
True
"""

from __future__ import annotations

from collections.abc import Iterable
from xml.sax.saxutils import escape, quoteattr

from checkface.handling.layout import printable

INK, SOFT, PALE, PAPER = "#1d2330", "#5d6472", "#b9bdc6", "#fdfcf8"
SERIF, SANS, MONO = "Georgia, 'Times New Roman', serif", "Helvetica, Arial, sans-serif", "'Courier New', monospace"
HAND = "'Segoe Print', 'Bradley Hand', 'Comic Sans MS', cursive"
#: A letter takes about this share of its height; the smallest size that is tried before a text is squeezed.
WIDE_AS_HIGH, SMALLEST = 0.62, 55

Piece = tuple[str, bool]


def rect(left: float, top: float, width: float, height: float, **style: object) -> str:
    """A rectangle."""
    return f'<rect x="{left:g}" y="{top:g}" width="{width:g}" height="{height:g}"{_style(style)}/>'


def line(left: float, top: float, right: float, bottom: float, **style: object) -> str:
    """A straight stroke."""
    return f'<line x1="{left:g}" y1="{top:g}" x2="{right:g}" y2="{bottom:g}"{_style(style)}/>'


def path(steps: Iterable[str], **style: object) -> str:
    """A path of absolute steps."""
    return f'<path d="{" ".join(steps)}"{_style(style)}/>'


def text(left: float, base: float, size: float, words: str | list[Piece], room: float = 0, **style: object) -> str:
    """One line of text from *left*, or about it, on the base line *base*; shrunk, then squeezed into *room*.

    Pieces come with whether they are underlined.
    """
    pieces: list[Piece] = [(words, False)] if isinstance(words, str) else words
    length = sum(len(piece) for piece, _ in pieces)
    if room and length * size * WIDE_AS_HIGH > room:
        size = max(size * room / (length * size * WIDE_AS_HIGH), SMALLEST)
        if length * size * WIDE_AS_HIGH > room:
            style |= {"textLength": f"{room:g}", "lengthAdjust": "spacingAndGlyphs"}
    inside = "".join(_piece(piece, marked) for piece, marked in pieces)
    return f'<text x="{left:g}" y="{base:g}" font-size="{size:.4g}"{_style(style)}>{inside}</text>'


def _piece(words: str, marked: bool) -> str:
    shown = escape(printable(words))
    return f'<tspan font-weight="bold" text-decoration="underline">{shown}</tspan>' if marked else shown


def title(words: str, tag: str = "title") -> str:
    """A name for those who hear a drawing."""
    return f"<{tag}>{escape(printable(words))}</{tag}>"


def group(name: str, parts: Iterable[str], **style: object) -> str:
    """Parts under one name; the name is a class, since a page may hold many drawings."""
    return "\n".join([f'<g class="{name}"{_style(style)}>', *parts, "</g>"])


def _style(style: dict[str, object]) -> str:
    return "".join(f" {name.replace('_', '-')}={quoteattr(str(value))}" for name, value in style.items())
