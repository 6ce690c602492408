"""The answer to one check, as it is told after the question: what to do, why, where to look, and what becomes of the
paper. Everything comes from the assessment; accounts and numbers are masked unless they are asked for."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from checkface.assessment import Assessment
from checkface.findings import Disposition
from checkface.report import Paint, no_paint
from checkface.report.excerpt import Mark, Row, excerpt
from checkface.report.facts import Found, Pointed, facts

_MARGIN = 4
#: What is said where there is nothing to say.
SOUND = "Nothing found that bars an electronic debit."


def key(
    assessment: Assessment, *, reveal: bool = False, columns: int = 80, paint: Paint = no_paint, notes: bool = True
) -> str:
    """The answer in lines of at most *columns*. Ends without a line end.

    Findings are told from the strictest down; without *notes* those that change nothing are left out.
    """
    told = facts(assessment, reveal=reveal)
    answer = str(told.disposition)
    lines = [paint(answer.upper(), answer)]
    found = [each for each in told.found if notes or str(each.effect) != "note"]
    if told.disposition is Disposition.CONVERT:
        lines += _wrapped(SOUND, columns)
    for each in found:
        lines += _finding(each, columns, paint)
    lines += [*([""] if found else []), *_wrapped(paper(assessment), columns)]
    lines += _wrapped(f'Say: "{told.to_customer}"', columns)
    return "\n".join(line.rstrip() for line in lines)


def paper(assessment: Assessment) -> str:
    """What becomes of the paper, in one sentence."""
    instructions = assessment.instructions
    customer, till = _listed(instructions.to_customer), _listed(instructions.to_till)
    if assessment.disposition is Disposition.REFER:
        return "The paper: hold the check and call the manager; nothing goes to the customer or in the till yet."
    return f"The paper: to the customer {customer}; in the till {till}."


def _listed(things: tuple[str, ...]) -> str:
    named = [f"the {thing}" for thing in things]
    return " and ".join([", ".join(named[:-1]), named[-1]]) if len(named) > 1 else named[0] if named else "nothing"


def _finding(found: Found, columns: int, paint: Paint) -> Iterator[str]:
    yield ""
    yield " " * _MARGIN + f"{paint(str(found.effect), str(found.effect))}  {paint(found.rule, 'rule')}"
    yield from _wrapped(found.message, columns)
    rows = list(_rows(found.points, columns))
    widest = max((len(row.name) for row in rows), default=0)
    for row in rows:
        text = row.text if row.role == "reading" else paint(row.text, row.role)
        yield f"{'':{_MARGIN}}{row.name:{widest}} | {text}"
    yield from _wrapped(f"Remedy: {found.remedy}.", columns)
    for source in found.sources[:1]:
        yield from _wrapped(f"Authority: {source}", columns)


def _rows(points: tuple[Pointed, ...], columns: int) -> Iterator[Row]:
    """Each reading pointed at once, all that is said of it underneath."""
    names = list(dict.fromkeys(point.reading for point in points))
    room = columns - _MARGIN - 3 - max((len(name) + len(", line 1") for name in names), default=0)
    for name in names:
        together = [point for point in points if point.reading == name]
        first = together[0]
        if first.text:
            marks = [Mark(point.start, point.end, point.words, point.primary) for point in together]
            yield from excerpt(name, first.text, marks, room)
        else:
            words = "; ".join(point.words for point in together if point.words)
            yield Row(name, f"{first.state} {words}".strip(), "reading")


def _wrapped(text: str, columns: int) -> list[str]:
    indent = " " * _MARGIN
    return textwrap.wrap(text, columns, initial_indent=indent, subsequent_indent=indent, break_on_hyphens=False)
