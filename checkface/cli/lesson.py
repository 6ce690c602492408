"""``checkface lesson``: drills for cashiers, on paper or at the terminal, and the marking of their answers."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

from cyclopts import Group, Parameter

from checkface import training
from checkface.cli import options, terminal
from checkface.cli.failure import DONE, Failure
from checkface.cli.options import Output, Reveal, help_for

_LESSON = Group("The lesson", sort_key=1)
_WAY = Group("What to do with it", sort_key=2)
_RESULT = Group("The result", sort_key=3)

_Name = Annotated[str | None, help_for(_LESSON, "Which lesson; without it, all are listed.", name="LESSON")]
_Seed = Annotated[int, help_for(_LESSON, "Another number, other checks; the same number, the same. Else 1.", "NUMBER")]
_Count = Annotated[int, help_for(_LESSON, "How many checks. Else 10.", "NUMBER")]
_Policy = Annotated[
    Path | None, help_for(_LESSON, "House policy in TOML; without it, that of the training house.", "FILE")
]
_On = Annotated[str | None, help_for(_LESSON, "Day of tender, such as 2026-11-24, which is the day else.", "DAY")]
_Answers = Annotated[bool, help_for(_WAY, "Print the key instead of the checks.", negative=())]
_Html = Annotated[Path | None, help_for(_WAY, "Write a page to print: drawn checks, and the key apart.", "FILE")]
_Quiz = Annotated[bool, help_for(_WAY, "Ask check by check, say what is right and why, and count.", negative=())]
_Grade = Annotated[
    Path | None,
    help_for(_WAY, "Mark the answers in FILE, a CSV with the headings number, answer and, if wanted, reason.", "FILE"),
]
PROMPT = "answer> "


def lesson(
    name: _Name = None,
    /,
    *,
    seed: _Seed = 1,
    count: _Count = 10,
    on: _On = None,
    policy: _Policy = None,
    answers: _Answers = False,
    html: _Html = None,
    quiz: _Quiz = False,
    grade: _Grade = None,
    reveal: Annotated[Reveal, Parameter(group=_RESULT)] = False,
    output: Annotated[Output, Parameter(group=_RESULT)] = None,
) -> int:
    """Drill a cashier: numbered specimens, and of each, convert, keep, refer or decline - and why?

    The answers are the rule book's, worked out for each check under the house's policy. No check is real.

      checkface lesson dates --seed 7
      checkface lesson dates --seed 7 --answers
      checkface lesson mixed --quiz
    """
    if sum((answers, quiz, html is not None, grade is not None)) > 1:
        raise Failure("Expected one of --answers, --html, --quiz and --grade, read several.")
    if name is None:
        if answers or quiz or html is not None or grade is not None:
            raise Failure(f"Expected a lesson, one of {', '.join(training.lessons())}, read none.")
        with terminal.results(output) as out:
            print(_list(), file=out)
        return DONE
    if html is not None and output is not None:
        raise Failure("Expected --html or --output, read both.")
    drill = _drill(name, seed, count, on, policy)
    if html is not None:
        with terminal.results(html, policy) as out:
            out.write(training.handout(drill))
        return DONE
    if quiz:
        training.quiz(
            drill, _ask, _tell, columns=min(terminal.columns(sys.stdout), _WIDEST), paint=terminal.painter(sys.stdout)
        )
        return DONE
    text = training.grade_text(_marked(drill, grade)) if grade is not None else ""
    with terminal.results(output, grade, policy) as out:
        columns = min(terminal.columns(out), _WIDEST)
        if answers:
            text = training.answers(drill, reveal=reveal, columns=columns, paint=terminal.painter(out))
        print(text or training.questions(drill, columns=columns, reveal=reveal), file=out)
    return DONE


_WIDEST = 80


def _list() -> str:
    every = training.lessons().values()
    widest = max(len(taught.id) for taught in every)
    lines = [f"{taught.id:{widest}}  {taught.title}" for taught in every]
    return "\n".join([*lines, "", "One of them: checkface lesson LESSON"])


def _drill(name: str, seed: int, count: int, on: str | None, policy: Path | None) -> training.Drill:
    house = options.policy(policy) if policy else None
    try:
        return training.make(training.lesson(name.strip().lower()), seed, count, house, options.day(on))
    except training.LessonError as error:
        raise Failure(str(error)) from None


def _marked(drill: training.Drill, path: Path) -> training.Grade:
    try:
        with terminal.source(path) as stream:
            text = stream.read(_LIMIT).decode("utf-8-sig")
        return training.grade(drill, training.read_answers(text))
    except UnicodeDecodeError:
        raise Failure(f"{terminal.name_of(path)}: Expected answers in UTF-8, read other bytes.") from None
    except training.AnswersError as error:
        raise Failure(f"{terminal.name_of(path)}: {error}") from None


_LIMIT = 1 << 22


def _ask() -> str | None:
    """The next line of stdin; on a terminal after a prompt, and with its line editing."""
    if sys.stdin.isatty():
        try:
            return input(PROMPT)
        except EOFError:
            return None
    print(PROMPT, end="", flush=True)
    line = sys.stdin.readline()
    print(line.rstrip("\n"))
    return line or None


def _tell(text: str) -> None:
    print(text, flush=True)
