"""What a trainer hands out: specimens drawn as SVG, and lessons whose answers come from the rule book.

Nothing real is ever drawn: :mod:`checkface.training.admit` is the one door, and SPECIMEN stands across every side.

>>> from checkface import training
>>> from checkface.assessment import parse
>>> training.draw(parse({"face": {"micr": "T011000015T 45601122O 1043"}}))
Traceback (most recent call last):
checkface.training.admit.NotASpecimenError: Expected a specimen's routing number on the line, read another: real \
numbers are never drawn.
"""

from __future__ import annotations

from checkface.training.admit import NotASpecimenError, admitted
from checkface.training.picture import draw, drawn

__all__ = ["NotASpecimenError", "admitted", "draw", "drawn"]
