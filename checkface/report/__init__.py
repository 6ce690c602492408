"""What came out, as people read it: drawn with carets, in plain sentences, and the rule book to hand out.

Renderers are functions that return text; colours are put in by the caller's ``paint``. The JSON form of an assessment
is ``Assessment.model_dump_json`` and needs no renderer.
"""

from __future__ import annotations

from checkface.report.drawing import Paint, caret, no_paint
from checkface.report.handout import handout
from checkface.report.narration import plain
from checkface.report.parts import Part, part, part_text
from checkface.report.rulebook import Explained, entry, explain, table

__all__ = [
    "Explained", "Paint", "Part", "caret", "entry", "explain", "handout", "no_paint", "part", "part_text", "plain",
    "table",
]  # fmt: skip
