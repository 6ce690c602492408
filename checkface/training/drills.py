"""Drills: numbered specimens, some sound and some with a fault planted, from a lesson and a seed.

The same lesson, seed and count give the same checks, whoever asks and whenever. What the right answer is comes from
:func:`checkface.assessment.assess` for each check anew; no lesson holds an answer.

>>> drill = make(lesson("dates"), seed=7, count=3)
>>> [item.number for item in drill.items], drill.items == make(lesson("dates"), seed=7, count=3).items
([1, 2, 3], True)
>>> lesson("date")
Traceback (most recent call last):
checkface.training.drills.LessonError: Expected the name of a lesson, read 'date'; the nearest is dates.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping
from datetime import date
from functools import cache
from typing import Any, NamedTuple

from checkface import tables
from checkface.assessment import Assessment, assess, parse
from checkface.findings import Effect
from checkface.kinds import Kind
from checkface.mistakes import quoted
from checkface.policy import Policy
from checkface.tender import Tender
from checkface.training import invented, specimens
from checkface.training.admit import admitted
from checkface.training.plants import PLANTS, Plant, Work

#: Parts of a check that can be spoilt one beside the other.
_PAIRED = frozenset({"amount", "dates", "face", "documents", "counter"})
#: Checks in one drill at most, and how often another fault is tried where one does not show under the policy.
MOST, TRIES = 500, 60


class LessonError(ValueError):
    """A lesson that is not there, or that cannot be made. Its text is one sentence."""


class Lesson(NamedTuple):
    """What is taught: see the head of ``lessons.toml``. ``clean`` and ``two`` are hundredths of all checks."""

    id: str
    title: str
    text: tuple[str, ...]
    cite: tuple[str, ...]
    plants: tuple[str, ...]
    clean: int
    two: int
    declared: str


class Item(NamedTuple):
    """One check of a drill. ``planted`` are the names of its faults; the answer is ``judged().disposition``."""

    number: int
    tender: Tender
    planted: tuple[str, ...]
    policy: Policy

    def judged(self) -> Assessment:
        """What the rule book says of it."""
        return assess(self.tender, self.policy)


class Drill(NamedTuple):
    """The checks of one lesson and seed."""

    lesson: Lesson
    seed: int
    items: tuple[Item, ...]


@cache
def lessons() -> Mapping[str, Lesson]:
    """Every lesson by its name, in the order of the table."""
    return {row["id"]: _lesson(row) for row in tables.load("lessons").data["lesson"]}


def _lesson(row: Mapping[str, Any]) -> Lesson:
    papers = [f"paper-{kind}" for kind in invented.papers() if kind != Kind.PERSONAL]
    plants = tuple(name for given in row["plants"] for name in (papers if given == "paper-*" else [given]))
    if plants == ("*",):
        plants = tuple(plant.name for plant in PLANTS.values())
    return Lesson(
        row["id"],
        row["title"],
        tuple(row["text"]),
        tuple(row["cite"]),
        plants,
        row["clean"],
        row.get("two", 0),
        row.get("declared", ""),
    )


def lesson(name: str) -> Lesson:
    """The lesson called *name*. Raises :class:`LessonError`, naming the nearest."""
    known = lessons()
    if name in known:
        return known[name]
    from difflib import get_close_matches

    near = get_close_matches(name, known, 1)
    hint = f"; the nearest is {near[0]}" if near else f", one of {', '.join(known)}"
    raise LessonError(f"Expected the name of a lesson, read {quoted(name)}{hint}.")


@cache
def training_house() -> Policy:
    """The policy under which lessons are answered where the trainer gives none."""
    return Policy.model_validate(tables.load("lessons").data["house"]["policy"])


def training_day() -> date:
    """The day of tender of every lesson, so that a lesson is the same tomorrow."""
    return date.fromisoformat(tables.load("lessons").data["house"]["on"])


def make(taught: Lesson, seed: int, count: int = 10, policy: Policy | None = None, on: date | None = None) -> Drill:
    """A drill of *count* checks, under *policy* and on the day *on*, or those of the training house.

    Raises :class:`LessonError` for a count that is none, and for a policy under which no fault shows.
    """
    if not 1 <= count <= MOST:
        raise LessonError(f"Expected 1 to {MOST} checks, read {count}.")
    dice = invented.dice(f"{taught.id} {seed}")
    maker = _Maker(taught, policy or training_house(), on or training_day(), dice)
    return Drill(taught, seed, tuple(maker.item(number) for number in range(1, count + 1)))


class _Maker:
    def __init__(self, taught: Lesson, house: Policy, on: date, dice: random.Random) -> None:
        self.taught, self.house, self.on, self.dice = taught, house, on, dice
        self.bag = self._bag()

    def _bag(self) -> Iterator[Plant]:
        """Every fault of the lesson once, in any order, before one comes again."""
        while True:
            names = list(self.taught.plants)
            self.dice.shuffle(names)
            yield from (PLANTS[name] for name in names)

    def item(self, number: int) -> Item:
        throw = self.dice.randrange(100)
        if throw < self.taught.clean:
            return self._made(number, ())
        two = throw >= 100 - self.taught.two
        for _ in range(TRIES):
            chosen = [next(self.bag)]
            if two:
                others = [
                    PLANTS[name] for name in self.taught.plants if PLANTS[name].part in _PAIRED - {chosen[0].part}
                ]
                if chosen[0].part not in _PAIRED or not others:
                    continue
                chosen.append(self.dice.choice(others))
            made = self._made(number, tuple(chosen))
            if is_clear(made):
                return made
        raise LessonError(
            f"Expected a policy under which the faults of {self.taught.id} show, read one that hides them."
        )

    def _made(self, number: int, chosen: tuple[Plant, ...]) -> Item:
        kind = chosen[0].kind if chosen else "personal"
        payee = "" if kind in specimens.PAID_TO_CUSTOMER else next(iter(self.house.payee.names), self.house.house.name)
        wire = specimens.clean(kind, self.dice, self.on, payee)
        if self.taught.declared:
            wire["counter"]["declared_kind"] = self.taught.declared
        work = Work(wire, self.dice)
        for plant in chosen:
            plant.do(work)
        # The documents are ours to the letter, and nothing of them is drawn.
        documents = wire.pop("documents")
        drawn = admitted(parse(wire), self.house).wire()
        tender = parse({**drawn, "id": str(number), "documents": documents})
        return Item(number, tender, tuple(plant.name for plant in chosen), self.house)


def is_clear(item: Item) -> bool:
    """Whether every planted fault was found, and what decides is one of them or comes with one by nature."""
    found = item.judged().findings
    planted = [PLANTS[name] for name in item.planted]
    if not {plant.rule for plant in planted} <= {finding.rule for finding in found}:
        return False
    top = max((finding.effect for finding in found), default=Effect.NOTE)
    deciding = {finding.rule for finding in found if finding.effect == top and top > Effect.NOTE}
    return deciding <= {plant.rule for plant in planted}.union(*(plant.also for plant in planted))
