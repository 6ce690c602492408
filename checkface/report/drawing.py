"""The report of one tender with carets under the very characters: a column of keywords, a column of what there is."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Iterator

from checkface.cells import shown, width
from checkface.findings import Disposition
from checkface.report.excerpt import Mark, Row, excerpt
from checkface.report.facts import Facts, Found, Judged, Pointed, facts, opening_words, step_words, unread_words

#: Puts a piece of text in the colour of its role: an effect, a disposition, ``primary``, ``secondary``, ``quiet``.
Paint = Callable[[str, str], str]

MARGIN = 10


def no_paint(text: str, role: str) -> str:  # noqa: ARG001 - one of the functions a Paint can be
    """*text* as it is."""
    return text


def caret(
    judged: Judged, *, reveal: bool = False, verbose: bool = False, columns: int = 100, paint: Paint = no_paint
) -> str:
    """The drawn report: findings with their readings, then the answer, what would change it and what to say.

    ``verbose`` names the rules that could not run and lists the steps at the counter; ``columns`` is the width of the
    page. The text ends without a line end.
    """
    told = facts(judged, reveal=reveal)
    page = [f"{paint(told.disposition.upper(), told.disposition)}  {shown(told.id) or '(no id)'}", ""]
    cited: set[str] = set()
    for found in told.found:
        page += [*_finding(found, cited, columns, paint), ""]
        cited.update(found.sources)
    page += _answer(told, columns, verbose, paint)
    return "\n".join(line.rstrip() for line in page)


def _finding(found: Found, cited: set[str], columns: int, paint: Paint) -> Iterator[str]:
    """One finding; a source that was *cited* under an earlier one is only named."""
    yield from _entry(found.effect, found.rule, columns, paint, found.effect)
    yield from _entry("", found.message, columns)
    rows = list(_rows(found.points, columns))
    margin = max((width(row.name) for row in rows), default=0)
    for row in rows:
        text = row.text if row.role == "reading" else paint(row.text, row.role)
        yield f"{'':{MARGIN}}{paint(row.name + ' ' * (margin - width(row.name)) + ' |', 'quiet')} {text}"
    if found.question:
        yield from _entry("ask", found.question, columns)
    yield from _entry("remedy", found.remedy, columns)
    for number, source in enumerate(found.sources):
        words = f"{source.partition('): ')[0]}), as above" if source in cited else source
        yield from _entry("" if number else "source", words, columns)


def _rows(points: tuple[Pointed, ...], columns: int) -> Iterator[Row]:
    """The excerpts of all readings pointed at; two labels on one reading share its lines."""
    room = columns - MARGIN - 3 - max((width(point.reading) + len(", line 1") for point in points), default=0)
    seen = []
    for point in points:
        if point.reading in seen:
            continue
        seen.append(point.reading)
        together = [other for other in points if other.reading == point.reading]
        if point.text:
            marks = [Mark(other.start, other.end, other.words, other.primary) for other in together]
            yield from excerpt(point.reading, point.text, marks, room)
        else:
            words = "; ".join(other.words for other in together if other.words)
            yield Row(point.reading, f"{point.state} {words}", "reading")


def _answer(told: Facts, columns: int, verbose: bool, paint: Paint) -> Iterator[str]:
    yield from _entry("answer", told.disposition, columns, paint, told.disposition)
    if told.values:
        yield from _entry("read as", "; ".join(f"{name} {value}" for name, value in told.values), columns)
    for opening in told.openings:
        yield from _entry("change", opening_words(opening), columns)
    if told.rests_on and (verbose or told.disposition is Disposition.CONVERT):
        yield from _entry("rests on", "; ".join(told.rests_on), columns)
    if told.unread:
        yield from _entry("unread", unread_words(told.unread, verbose), columns)
    if told.lacks:
        yield from _entry("policy", told.lacks, columns)
    yield from _entry("say", told.to_customer, columns)
    yield from _entry("record", told.for_house, columns)
    if verbose:
        for step in told.steps:
            yield from _entry(f"step {step.order}", step_words(step), columns)


def _entry(keyword: str, text: str, columns: int, paint: Paint = no_paint, role: str = "") -> Iterator[str]:
    lines = textwrap.wrap(shown(text), columns - MARGIN, break_long_words=False, break_on_hyphens=False)
    for number, line in enumerate(lines or [""]):
        yield paint(f"{'' if number else keyword:{MARGIN}}", role) + line
