"""Draw a check: its face, its back or both, plain or with what was found marked on it.

>>> from checkface.assessment import parse
>>> drawn = draw(parse({"face": {"micr": "T071098973T 45601122O 1043", "payee": ""}}))
>>> drawn.startswith("<svg"), "SPECIMEN" in drawn
(True, True)
"""

from __future__ import annotations

from typing import Literal

from checkface.assessment import Assessment, assess
from checkface.policy import Policy
from checkface.tender import Tender
from checkface.training import drawing, marks, paper, pen, reverse
from checkface.training.admit import NotASpecimenError, admitted

Side = Literal["front", "back", "both"]
#: Between the front and the back, thousandths of an inch.
GAP = 200


def draw(tender: Tender, policy: Policy | None = None, *, side: Side = "front", marked: bool = False) -> str:
    """The check as one SVG document. Raises :class:`~checkface.training.NotASpecimenError` for what may not be drawn.

    The word SPECIMEN stands across every side, and only what :func:`~checkface.training.admitted` lets through is
    drawn. With *marked* the findings under *policy* are numbered on the face and told below it.
    """
    return drawn(assess(admitted(tender, policy), policy), side=side, marked=marked)


def drawn(assessment: Assessment, *, side: Side = "front", marked: bool = False) -> str:
    """The drawing of a tender that was admitted before it was assessed; any other raises ``NotASpecimenError``."""
    tender = assessment.read.tender
    if admitted(tender, assessment.instructions.policy).face != tender.face:
        raise NotASpecimenError("Expected a check that was admitted to be drawn, read another.")
    sheet = paper.sheet_for(tender, assessment.read.kinds)
    found = marks.callouts(assessment) if marked else []
    parts: list[str] = []
    height = 0.0
    if side in ("front", "both"):
        front = drawing.face(tender, sheet, marks.ranges(found))
        parts.append(pen.group("front", [*front, *marks.on_face(found, tender, sheet.width, sheet.height)]))
        height += sheet.height
        if marked:
            told, down = marks.legend(found, str(assessment.disposition), sheet.width)
            below = [pen.rect(0, 0, sheet.width, down, fill="#ffffff"), *told]
            parts.append(pen.group("legend", below, transform=f"translate(0 {height:g})"))
            height += down
    if side in ("back", "both"):
        height += GAP if height else 0
        behind = [*reverse.reverse(tender, sheet), *marks.on_back(found, sheet.width, sheet.height)]
        parts.append(pen.group("back", behind, transform=f"translate(0 {height:g})"))
        height += sheet.height
    words = marks.face_words(tender)
    if marked:
        words += " " + marks.described(found, str(assessment.disposition))
    return paper.document(sheet.width, height, "Specimen of a check, for training", words, parts)
