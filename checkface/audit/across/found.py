"""What a rule for the auditor says: a sentence, and every place it speaks of.

>>> import checkface.audit.across
>>> places = [Place("day.csv", 3, "0008"), Place("day.csv", 2, "0007")]
>>> finding = found("same-item-twice", "One paper.", places)
>>> [one.text for one in finding.places], finding.effect
(['day.csv:2 0007', 'day.csv:3 0008'], <Effect.REFER: 'refer'>)
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from typing import Any, NamedTuple

from checkface import authority
from checkface.audit.across.book import RULES
from checkface.audit.placed import place
from checkface.findings import Effect

#: Places a sentence names; a file with more of them has them all in its ``places``.
NAMED = 6


class Place(NamedTuple):
    """Where a check stands: the file as it was named, the line or row in it, the check's own id, and its sheet."""

    file: str
    line: int
    id: str = ""
    sheet: str = ""

    @property
    def text(self) -> str:
        """``saturday.csv:12 0007``."""
        return f"{self.file}:{place(self)}{f' {self.id}' if self.id else ''}"


class AuditFinding(NamedTuple):
    """One fault that an audit shows. The first of ``places`` leads its line; none where only sums disagree."""

    rule: str
    message: str
    places: tuple[Place, ...]

    @property
    def effect(self) -> Effect:
        """The effect of its rule."""
        return RULES[self.rule].effect

    @property
    def line(self) -> int | None:
        """The line of the first place."""
        return self.places[0].line if self.places else None

    @property
    def sheet(self) -> str:
        """The sheet of the first place."""
        return self.places[0].sheet if self.places else ""

    @property
    def id(self) -> str:
        """The id of the check at the first place."""
        return self.places[0].id if self.places else ""

    def wire(self) -> dict[str, Any]:
        """The JSON form, without an account number in full."""
        sources = map(authority.get, RULES[self.rule].authority)
        return {
            "rule": self.rule,
            "effect": str(self.effect),
            "message": self.message,
            "places": [_wire(one) for one in self.places],
            "authority": [{"id": one.id, "force": str(one.force), "citation": one.citation} for one in sources],
        }


def _wire(one: Place) -> dict[str, Any]:
    return {"file": one.file, "line": one.line, "id": one.id} | ({"sheet": one.sheet} if one.sheet else {})


def found(rule: str, message: str, places: Iterable[Place], papers: Iterable[Place] = ()) -> AuditFinding:
    """A finding with its places in the order of the files; *papers* of the drawer come last."""
    return AuditFinding(rule, message, (*sorted(places), *sorted(papers)))


def listed(places: Iterable[Place]) -> str:
    """The first few *places* in one phrase, and how many more there are."""
    every = sorted(places)
    named = [one.text for one in every[:NAMED]]
    if len(every) > NAMED:
        return f"{', '.join(named)} and {len(every) - NAMED:,} more"
    return " and ".join(filter(None, (", ".join(named[:-1]), named[-1]))) if named else ""


class Counts:
    """Of each rule: how many checks it was asked of, what it found, and of how many it could not be asked and why."""

    def __init__(self) -> None:
        self.asked: Counter[str] = Counter()
        self.found: Counter[str] = Counter()
        self.unread: defaultdict[str, Counter[str]] = defaultdict(Counter)
        self.worst = Effect.NOTE

    def add(self, finding: AuditFinding) -> AuditFinding:
        """Count *finding* and give it back."""
        self.found[finding.rule] += 1
        self.worst = max(self.worst, finding.effect)
        return finding

    def text(self) -> str:
        """A table of what was asked and found, then a sentence for each reason why something could not be."""
        rules = [rule for rule in RULES if rule in self.asked or rule in self.found]
        page = []
        if rules:
            page += ["  asked  found  effect   rule for the auditor"]
            page += [f"{self.asked[rule]:7}{self.found[rule]:7}  {RULES[rule].effect:7}  {rule}" for rule in rules]
        return "\n".join([*page, *_reasons(self.unread)])


def _reasons(unread: dict[str, Counter[str]]) -> list[str]:
    """One sentence for all rules that one reason kept from the same number of checks."""
    together: defaultdict[tuple[str, int], list[str]] = defaultdict(list)
    for rule in RULES:
        for reason, number in unread.get(rule, Counter()).items():
            together[reason, number].append(rule)
    return [
        f"{_and(rules)} could not be asked of {number:,} item{'s' * (number != 1)} because {reason}."
        for (reason, number), rules in together.items()
        if number
    ]


def _and(words: Sequence[str]) -> str:
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))
