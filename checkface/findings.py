"""What a rule says of a tender: an outcome for every rule, a finding where something is wrong.

>>> Effect.KEEP < Effect.REFER < Effect.DECLINE
True
>>> disposition_of([Effect.NOTE, Effect.KEEP])
<Disposition.KEEP: 'keep'>
"""

from collections.abc import Iterable
from enum import StrEnum
from functools import total_ordering
from typing import NamedTuple


@total_ordering
class _Ranked(StrEnum):
    """Members are ordered as they are written: each is stricter than the one before."""

    @property
    def rank(self) -> int:
        return _RANKS[self]

    def __lt__(self, other: str) -> bool:
        return self.rank < type(self)(other).rank

    def __le__(self, other: str) -> bool:
        return self.rank <= type(self)(other).rank

    def __gt__(self, other: str) -> bool:
        return self.rank > type(self)(other).rank

    def __ge__(self, other: str) -> bool:
        return self.rank >= type(self)(other).rank

    __hash__ = StrEnum.__hash__


class Effect(_Ranked):
    """What a finding does: nothing, bars conversion, calls for a manager, or bars taking the paper at all."""

    NOTE = "note"
    KEEP = "keep"
    REFER = "refer"
    DECLINE = "decline"


class Disposition(_Ranked):
    """The answer at the counter, mildest first."""

    CONVERT = "convert"
    KEEP = "keep"
    REFER = "refer"
    DECLINE = "decline"


_RANKS: dict[str, int] = {member: rank for kind in (Effect, Disposition) for rank, member in enumerate(kind)}


def disposition_of(effects: Iterable[Effect]) -> Disposition:
    """The disposition the highest of *effects* brings about; ``convert`` when there is nothing above ``note``."""
    return _BY_RANK[max(map(_RANKS.__getitem__, effects), default=0)]


_BY_RANK = tuple(Disposition)


class Outcome(StrEnum):
    """What became of one rule on one tender. Only ``held`` is a pass; ``unread`` did not run."""

    HELD = "held"
    FOUND = "found"
    NOT_APPLICABLE = "not_applicable"
    UNREAD = "unread"


class Remedy(StrEnum):
    """What can cure a finding at the counter."""

    REREAD = "reread"
    REKEY = "rekey"
    COMPLETE = "complete"
    SIGN = "sign"
    CONFIRM = "confirm"
    NEW_CHECK = "new-check"
    SHOW_ID = "show-id"
    MANAGER = "manager"
    NONE = "none"


class Label(NamedTuple):
    """Characters of a reading that a finding points at, and what to say under them.

    ``reading`` is a dotted path of the tender (``face.micr``); offsets count characters of its raw text. An empty
    range points at the whole reading.
    """

    reading: str
    start: int = 0
    end: int = 0
    words: str = ""
    primary: bool = True


class Finding(NamedTuple):
    """One rule's fault on one tender. ``authority`` holds ids of ``data/authorities.toml``.

    ``question``, where there is one, is put to the clerk: answered with yes the fault is a note.
    """

    rule: str
    effect: Effect
    message: str
    labels: tuple[Label, ...]
    authority: tuple[str, ...]
    remedy: Remedy
    question: str = ""
