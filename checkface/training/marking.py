"""A cashier's answers, marked: how many are right, what was taken for what, and which mistakes cost money.

>>> costly(Disposition.KEEP, Disposition.CONVERT)
'handed back a check that must be kept: the till is short of it'
"""

from __future__ import annotations

import csv
import io
from collections import Counter
from typing import NamedTuple

from checkface.findings import Disposition
from checkface.rules import rules
from checkface.training.drills import Drill
from checkface.training.reply import Answer, deciding, hold, parse

#: Most characters of a file of answers, and how many rules to practise are named.
LIMIT, FEW = 1 << 20, 5
_CONVERT, _KEEP, _REFER, _DECLINE = Disposition
_COSTLY = {
    (_KEEP, _CONVERT): "handed back a check that must be kept: the till is short of it",
    (_CONVERT, _KEEP): "kept a check that is converted: if the debit was made, the customer pays twice",
    (_REFER, _CONVERT): "converted without the manager",
    (_REFER, _KEEP): "kept without the manager",
    (_DECLINE, _CONVERT): "converted a check that is not taken: the debit may come back",
    (_DECLINE, _KEEP): "kept a check that is not taken: it may come back unpaid",
}


class AnswersError(ValueError):
    """A file of answers that cannot be read. Its text is one sentence with the line."""


class Marked(NamedTuple):
    """One check of the drill, marked. ``given`` is ``None`` where there is no answer."""

    number: int
    right: Disposition
    given: Answer | None
    causes: tuple[str, ...]
    reason_right: bool | None


class Grade(NamedTuple):
    """A whole drill, marked."""

    marked: tuple[Marked, ...]

    @property
    def score(self) -> int:
        """How many answers are right."""
        return sum(each.given is not None and each.given.disposition == each.right for each in self.marked)

    @property
    def confusion(self) -> Counter[tuple[Disposition, Disposition | None]]:
        """How often each right answer met each answer given."""
        return Counter((each.right, each.given.disposition if each.given else None) for each in self.marked)

    @property
    def practise(self) -> list[tuple[str, int]]:
        """The rules that decided where the answer, or the reason, was wrong, the most frequent first."""
        missed: Counter[str] = Counter()
        for each in self.marked:
            wrong = each.given is None or each.given.disposition != each.right
            if wrong or each.reason_right is False:
                missed.update(each.causes)
        return sorted(missed.items(), key=lambda pair: (-pair[1], pair[0]))


def costly(right: Disposition, given: Disposition) -> str:
    """What a wrong answer costs, or nothing where it costs a question only."""
    if given in (_REFER, _DECLINE) and right < given:
        return "" if given is _REFER else "sent away a check that could be taken"
    return _COSTLY.get((right, given), "")


def read_answers(text: str) -> dict[int, Answer]:
    """The answers in a CSV file with the headings ``number``, ``answer`` and, if wanted, ``reason``.

    Commas, semicolons or tabs may part the cells, as the heading has it. An empty cell is no answer.

    Raises :class:`AnswersError` for the first line that is none.
    """
    if len(text) > LIMIT:
        raise AnswersError(f"Expected at most {LIMIT:,} characters of answers, read more.")
    text = text.lstrip("\ufeff")
    heading = text.lstrip().partition("\n")[0]
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=max(",;\t", key=heading.count), strict=True)
    found: dict[int, Answer] = {}
    seen: set[int] = set()
    places: dict[str, int] = {}
    try:
        for row in reader:
            cells = [cell.strip() for cell in row]
            if not any(cells):
                continue
            if not places:
                places = _heading(cells, reader.line_num)
                continue
            number, answer = _row(cells, places, reader.line_num)
            if number in seen:
                raise AnswersError(f"Line {reader.line_num}: Expected one answer to check {number}, read another.")
            seen.add(number)
            if answer is not None:
                found[number] = answer
    except csv.Error as error:
        if "unexpected end" in str(error):
            raise AnswersError("Expected every quotation mark closed, read one still open at the end.") from None
        raise AnswersError(f"Line {reader.line_num}: Expected CSV, read: {error}.") from None
    if not places:
        raise AnswersError("Expected the headings number and answer, read nothing.")
    return found


def _heading(cells: list[str], line: int) -> dict[str, int]:
    names = [cell.lower() for cell in cells]
    wanted: list[str] = ["number", "answer", "reason"]
    places = {name: names.index(name) for name in wanted if name in names}
    if "number" not in places or "answer" not in places:
        raise AnswersError(f"Line {line}: Expected the headings number and answer, read others.")
    return places


def _row(cells: list[str], places: dict[str, int], line: int) -> tuple[int, Answer | None]:
    def cell(name: str) -> str:
        at = places.get(name, len(cells))
        return cells[at] if at < len(cells) else ""

    number = cell("number")
    if not (number.isascii() and number.isdigit() and len(number) <= 6):
        raise AnswersError(f"Line {line}: Expected the number of a check, read something else.")
    if not cell("answer"):
        return int(number), None
    answer = parse(f"{cell('answer')} {cell('reason')}")
    if answer is None:
        raise AnswersError(f"Line {line}: Expected convert, keep, refer or decline, read something else.")
    return int(number), answer


def grade(drill: Drill, answers: dict[int, Answer]) -> Grade:
    """The drill marked. Raises :class:`AnswersError` for an answer to a check it does not have."""
    numbers = {item.number for item in drill.items}
    strange = sorted(set(answers) - numbers)
    if strange:
        raise AnswersError(f"Expected answers to checks 1 to {len(numbers)}, read one to {strange[0]}.")
    marked = []
    for item in drill.items:
        assessment = item.judged()
        given = answers.get(item.number)
        verdict = hold(given, assessment) if given else None
        marked.append(
            Marked(
                item.number,
                assessment.disposition,
                given,
                deciding(assessment),
                verdict.reason_right if verdict else None,
            )
        )
    return Grade(tuple(marked))


def text(result: Grade) -> str:
    """The grade as lines: the score, what was taken for what, costly mistakes, and what to practise. No line end."""
    total, score = len(result.marked), result.score
    lines = [f"Right: {score} of {total}."]
    blank = sum(each.given is None for each in result.marked)
    if blank:
        lines.append(f"Not answered: {blank}.")
    named = [each.reason_right for each in result.marked if each.reason_right is not None]
    if named:
        lines.append(f"Reasons named rightly: {sum(named)} of {len(named)}.")
    lines += ["", *_table(result), *_mistakes(result), *practise(result.practise)]
    return "\n".join(lines)


def _table(result: Grade) -> list[str]:
    counts = result.confusion
    heads = [*map(str, Disposition), "none"]
    lines = [f"{'right answer':14}" + "".join(f"{head:>9}" for head in heads) + "   given"]
    for right in Disposition:
        cells = [counts[right, given] for given in (*Disposition, None)]
        lines.append(f"{right!s:14}" + "".join(f"{cell or '.':>9}" for cell in cells))
    return lines


def _mistakes(result: Grade) -> list[str]:
    told = [
        f"  check {each.number}: {words}"
        for each in result.marked
        if each.given is not None and (words := costly(each.right, each.given.disposition))
    ]
    return ["", "Costly mistakes", *told] if told else []


def practise(missed: list[tuple[str, int]]) -> list[str]:
    """The rules to practise, with what each is about."""
    if not missed:
        return []
    titles = {rule.id: rule.title for rule in rules()}
    lines = ["", "To practise (checkface explain RULE)"]
    lines += [f"  {rule}, missed {_times(count)}: {titles[rule]}" for rule, count in missed[:FEW]]
    more = len(missed) - FEW
    return [*lines, f"  and {more} more rule{'s' * (more > 1)}"] if more > 0 else lines


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{count} times")
