"""What cannot be answered, and how that is said: in sentences that repeat no number that was sent.

>>> one_of(["altered"], "alterd", "a rule")
Traceback (most recent call last):
checkface.web.refusal.Refused: Expected the name of a rule, read another; the nearest is altered
"""

from __future__ import annotations

import logging
from collections.abc import Iterable
from difflib import get_close_matches

from checkface.mistakes import unforeseen

#: The server's own complaints. Nothing that was sent to it ever stands in them.
LOG = logging.getLogger("checkface.web")
_LONGEST = 100


class Refused(Exception):  # noqa: N818 - a request that is refused, not a fault of the program
    """A request that is answered with *status* and one sentence for each problem, without a full stop."""

    def __init__(self, status: int, problems: Iterable[str]) -> None:
        self.status = status
        self.problems = list(problems)
        super().__init__("; ".join(self.problems))


def fault(error: Exception) -> Refused:
    """What is said after a fault of the program. Its message may hold a reading: only type and place are logged."""
    LOG.error(unforeseen(error))
    return Refused(500, ["A fault in checkface itself, please report it; nothing was judged"])


def one_of(known: Iterable[str], given: str, what: str) -> str:
    """*given*, if it is one of the *known* names. Raises :class:`Refused` (404) with the nearest one."""
    if given in known:
        return given
    near = get_close_matches(given[:_LONGEST], known, 1)
    hint = f"; the nearest is {near[0]}" if near else ""
    raise Refused(404, [f"Expected the name of {what}, read another{hint}"])
