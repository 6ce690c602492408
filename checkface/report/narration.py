"""The report of one tender in plain sentences, for a screen reader or a letter: equal in content to the drawn one."""

from __future__ import annotations

from collections.abc import Iterator

from checkface.cells import shown
from checkface.findings import Disposition
from checkface.report.facts import Facts, Found, Judged, Pointed, facts, opening_words, step_words, unread_words

#: Most characters of a reading that are quoted; the middle of a longer one is left out.
QUOTED = 80


def plain(judged: Judged, *, reveal: bool = False, verbose: bool = False) -> str:
    """The report as paragraphs, one for each finding and one for the answer. Ends without a line end.

    ``verbose`` names the rules that could not run and lists the steps at the counter.
    """
    told = facts(judged, reveal=reveal)
    name = f"Tender {told.id}" if told.id else "This tender"
    page = [f"{name}: the answer is {told.disposition}."]
    page += [" ".join(_finding(found)) for found in told.found]
    page.append(" ".join(_answer(told, verbose)))
    if verbose:
        page += [f"Step {step.order}, {step_words(step)}" for step in told.steps]
    return "\n\n".join(map(shown, page))


def _finding(found: Found) -> Iterator[str]:
    yield f"Rule {found.rule}, effect {found.effect}."
    yield found.message
    for point in found.points:
        yield _pointed(point)
    if found.question:
        yield f"Question for the clerk: {found.question}"
    yield f"Remedy: {found.remedy}."
    yield f"Source{'s' * (len(found.sources) > 1)}: {' '.join(found.sources)}"


def _pointed(point: Pointed) -> str:
    words = f": {point.words}" if point.words else ""
    lead = "At" if point.primary else "Compare"
    if not point.text:
        return f"{lead} the {point.reading}, {point.state.strip('()')}{words}."
    place = ""
    if not point.whole:
        first, last = point.start + 1, max(point.end, point.start + 1)
        place = f", character {first}" if first == last else f", characters {first} to {last}"
    covered = point.text[point.start : point.end].replace("\n", " / ")
    if len(covered) > QUOTED:
        covered = f"{covered[: QUOTED // 2]}…{covered[-QUOTED // 2 :]}"
    quoted = f' "{covered}"' if covered else ""
    return f"{lead} the {point.reading}{place}{quoted}{words}."


def _answer(told: Facts, verbose: bool) -> Iterator[str]:
    if told.values:
        yield f"Read as: {'; '.join(f'{name} {value}' for name, value in told.values)}."
    for opening in told.openings:
        yield f"It could change {opening_words(opening)}."
    if told.rests_on and (verbose or told.disposition is Disposition.CONVERT):
        yield f"It rests on: {'; '.join(told.rests_on)}."
    if told.unread:
        yield unread_words(told.unread, verbose) + "."
    if told.lacks:
        yield told.lacks
    yield f'To the customer: "{told.to_customer}"'
    yield f"For the record: {told.for_house}"
