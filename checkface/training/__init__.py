"""What a trainer hands out: specimens drawn as SVG, and lessons whose answers come from the rule book.

Nothing real is ever drawn: :mod:`checkface.training.admit` is the one door, and SPECIMEN stands across every side.

>>> from checkface import training
>>> from checkface.assessment import parse
>>> training.draw(parse({"face": {"micr": "T011000015T 45601122O 1043"}}))
Traceback (most recent call last):
checkface.training.admit.NotASpecimenError: Expected a specimen's routing number on the line, read another: real \
numbers are never drawn.
>>> drill = training.make(training.lesson("amounts"), seed=7, count=3)
>>> [str(item.judged().disposition) for item in drill.items]
['convert', 'refer', 'convert']
"""

from __future__ import annotations

from checkface.training.admit import NotASpecimenError, admitted
from checkface.training.asking import quiz
from checkface.training.drills import Drill, Item, Lesson, LessonError, lesson, lessons, make
from checkface.training.invented import papers
from checkface.training.marking import AnswersError, Grade, grade, read_answers
from checkface.training.marking import text as grade_text
from checkface.training.page import handout
from checkface.training.picture import Side, draw, drawn
from checkface.training.sheets import answers, questions

__all__ = [
    "AnswersError", "Drill", "Grade", "Item", "Lesson", "LessonError", "NotASpecimenError", "Side", "admitted",
    "answers", "draw", "drawn", "grade", "grade_text", "handout", "lesson", "lessons", "make", "papers", "questions",
    "quiz", "read_answers",
]  # fmt: skip
