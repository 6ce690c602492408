"""A drill at the terminal: each check is shown, an answer is taken, and what is right is said with its reason."""

from __future__ import annotations

from collections.abc import Callable

from checkface.report import Paint, no_paint
from checkface.training.drills import Drill
from checkface.training.key import key
from checkface.training.marking import costly, grade, practise
from checkface.training.reply import Answer, hold, parse
from checkface.training.textface import circumstances, question, text_face

HELP = "Answer c, k, r or d (convert, keep, refer, decline), with the name of the rule if you know it; q ends."


def quiz(
    drill: Drill,
    ask: Callable[[], str | None],
    tell: Callable[[str], None],
    *,
    columns: int = 80,
    paint: Paint = no_paint,
) -> int:
    """Ask about every check of *drill* and return how many answers were right.

    *ask* gives the next line, ``None`` at the end of them; *tell* shows a text.
    """
    given: dict[int, Answer] = {}
    tell(HELP)
    for item in drill.items:
        assessment = item.judged()
        shown = [
            f"\n{item.number} of {len(drill.items)}",
            text_face(assessment),
            *circumstances(assessment),
            question(assessment),
        ]
        tell("\n".join(shown))
        answer = _answer(ask, tell)
        if answer is None:
            break
        given[item.number] = answer
        verdict = hold(answer, assessment)
        if verdict.right:
            told = "Right." if verdict.reason_right is not False else "Right, for another reason."
        else:
            cost = costly(assessment.disposition, answer.disposition)
            told = f"Wrong: you answered {answer.disposition}." + (f" What it costs: {cost}." if cost else "")
        tell(f"\n{told}\n{key(assessment, columns=columns, paint=paint)}")
    done = drill._replace(items=tuple(item for item in drill.items if item.number in given))
    result = grade(done, given) if given else None
    score = result.score if result else 0
    tell("\n".join([f"\nRight: {score} of {len(given)} answered.", *(practise(result.practise) if result else [])]))
    return score


def _answer(ask: Callable[[], str | None], tell: Callable[[str], None]) -> Answer | None:
    """The next line that is an answer; ``None`` where there is none any more."""
    while True:
        line = ask()
        if line is None or line.strip().lower() in {"q", "quit"}:
            return None
        answer = parse(line)
        if answer is not None:
            return answer
        if line.strip():
            tell(HELP)
