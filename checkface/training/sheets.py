"""A drill on paper, as text: the lesson, the numbered checks, and apart from them the key."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from checkface.amounts import money
from checkface.policy import Policy
from checkface.report import Paint, no_paint
from checkface.report.facts import source
from checkface.tender import Kind
from checkface.training.drills import Drill, Lesson
from checkface.training.key import key
from checkface.training.reply import deciding
from checkface.training.textface import circumstances, question, text_face


def questions(drill: Drill, *, reveal: bool = False, columns: int = 80) -> str:
    """The lesson and its checks, without answers. Ends without a line end."""
    taught = drill.lesson
    lines = [f"{taught.title}  (lesson {taught.id}, seed {drill.seed}, {len(drill.items)} checks)", ""]
    for paragraph in taught.text:
        lines += [*textwrap.wrap(paragraph, columns), ""]
    lines += textwrap.wrap(f"This house: {house(drill.items[0].policy)}.", columns)
    lines += ["", *cited(taught, columns)]
    for item in drill.items:
        assessment = item.judged()
        lines += [
            "",
            f"{item.number}.",
            text_face(assessment, reveal=reveal),
            *circumstances(assessment),
            question(assessment),
        ]
    return "\n".join(lines)


def answers(drill: Drill, *, reveal: bool = False, columns: int = 80, paint: Paint = no_paint) -> str:
    """The key of a drill: for each check what is right, why, and what becomes of the paper. No line end follows."""
    lines = [f"Key to {drill.lesson.title}  (lesson {drill.lesson.id}, seed {drill.seed})"]
    for item in drill.items:
        told = key(item.judged(), reveal=reveal, columns=columns, paint=paint)
        lines += ["", f"{item.number}. {told}"]
    return "\n".join(lines)


def table(drill: Drill) -> Iterator[tuple[str, str, str]]:
    """The key in three columns: number, answer and the rules that decide."""
    for item in drill.items:
        assessment = item.judged()
        yield str(item.number), str(assessment.disposition), " ".join(deciding(assessment))


def cited(taught: Lesson, columns: int = 80) -> list[str]:
    """The authorities of a lesson, wrapped."""
    lines = ["Authority:"]
    for identifier in taught.cite:
        lines += textwrap.wrap(source(identifier), columns, initial_indent="  ", subsequent_indent="    ")
    return lines


def house(policy: Policy) -> str:
    """What the house has decided and a cashier must know, in a line."""
    said = [f"up to {money(policy.limits.house)} without a manager" if policy.limits.house else "no limit of its own"]
    if policy.limits.cash_back is not None:
        said.append(f"at most {money(policy.limits.cash_back)} above the goods")
    if policy.payee.names:
        said.append(f"made out to {' or '.join(policy.payee.names)}")
    own = policy.dates.stale_days
    said.append(f"stale after six months{f' or {own} days' if own else ''}")
    refused = [str(kind).replace("-", " ") for kind in Kind if kind not in policy.kinds.taken]
    if refused:
        said.append(f"does not take: {', '.join(refused)}")
    return "; ".join(said)
