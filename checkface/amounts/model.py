"""What a reading of an amount is: values in integer cents, with everything that speaks against them."""

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Literal, NamedTuple

from checkface.digits import discreet, hide
from checkface.span import Span

Verdict = Literal["clear", "review", "ambiguous"]
Language = Literal["en", "es"]

LARGEST = 999_999_999_99
"""Cents. A larger amount is reported, not read: nothing at a counter comes near it."""


PARTS: Mapping[str, int] = MappingProxyType({"½": 50, "¼": 25, "¾": 75, "1/2": 50, "1/4": 25, "3/4": 75})
"""Cents that people write as a part of a dollar."""
PART_DOUBT = "a part of a dollar stands for the cents"


class Candidate(NamedTuple):
    """One value the reading can have: ``cents``, and why it can be that."""

    cents: int
    reason: str

    def __repr__(self) -> str:
        return discreet(self)


class Repair(NamedTuple):
    """A word or digit that was ``read`` as written but ``taken`` as another; ``span`` is in the raw text."""

    span: Span
    read: str
    taken: str

    def __repr__(self) -> str:
        return discreet(self)


class WordsAmount(NamedTuple):
    """The amount of the legal line.

    ``verdict`` is ``"clear"`` when the line has one reading and nothing was mended: ``candidates`` then holds
    exactly that one. It is ``"review"`` when ``cents`` is the likeliest value, the first of ``candidates``, but a
    person or the figures should confirm it: an unusual form, or any entry in ``repairs`` (a repaired amount counts
    only when it equals the figures). It is ``"ambiguous"`` when no reading is likelier: ``cents`` is then None and
    ``candidates`` holds at least two, each with its reason. No two candidates have the same value. ``reasons``
    says what keeps the verdict from being clear; ``notes`` what was passed over without doubt.
    ``figures_on_line`` is True when digits state more than the cents. ``spans`` gives ``dollars``, ``cents`` and
    ``figures`` (the bracketed ones) as far as the line has them.
    """

    cents: int | None
    candidates: tuple[Candidate, ...]
    repairs: tuple[Repair, ...]
    verdict: Verdict
    language: Language
    reasons: tuple[str, ...]
    notes: tuple[str, ...]
    figures_on_line: bool
    spans: Mapping[str, Span]

    def __repr__(self) -> str:
        return discreet(self)


class FiguresAmount(NamedTuple):
    """The amount of the courtesy box: every value it can have.

    ``verdict`` ``"clear"`` has exactly one candidate; ``"review"`` names the likeliest value in ``cents`` while
    ``candidates`` holds all of them, the likeliest first; ``"ambiguous"`` leaves ``cents`` None and has at least two
    candidates. No two candidates have the same value. The words choose among them: see
    :func:`checkface.amounts.compare`.
    """

    cents: int | None
    candidates: tuple[Candidate, ...]
    repairs: tuple[Repair, ...]
    verdict: Verdict
    reasons: tuple[str, ...]
    spans: Mapping[str, Span]

    def __repr__(self) -> str:
        return discreet(self)


def distinct(candidates: Iterable[Candidate]) -> tuple[Candidate, ...]:
    """The candidates an instrument can be made out for, above zero and within range, the first of each value."""
    found: dict[int, Candidate] = {}
    for candidate in candidates:
        if 0 < candidate.cents <= LARGEST:
            found.setdefault(candidate.cents, candidate)
    return tuple(found.values())


def money(cents: int) -> str:
    """*cents* as people write it: ``$1,234.05``."""
    return f"${cents // 100:,}.{cents % 100:02d}"


def quoted(text: str) -> str:
    """*text* in double quotes, a long number in it masked, shortened to 40 characters."""
    line = hide(" ".join(text.split()), "message")
    return f'"{line}"' if len(line) <= 40 else f'"{line[:37]}..."'
