"""What cannot be answered, and how that is said: never with the words that were sent.

>>> harmless("face: Expected a known key, read '45601122'; the nearest known key is 'serial'")
"face: Expected a known key, read '••••1122'; the nearest known key is 'serial'"
>>> harmless("counter.on: Expected a day such as 2026-11-24, read something else")
'counter.on: Expected a day such as 2026-11-24, read something else'
"""

from __future__ import annotations

import logging
import re
import traceback
from collections.abc import Iterable
from difflib import get_close_matches

from checkface import masking

#: The server's own complaints. Nothing that was sent to it ever stands in them.
LOG = logging.getLogger("checkface.web")
_READ = ", read "
_LONGEST = 100
#: What our sentences say after what they quote.
_AFTER = re.compile(r"; the nearest|, one of | twice")


class Refused(Exception):  # noqa: N818 - a request that is refused, not a fault of the program
    """A request that is answered with *status* and one sentence for each problem, without a full stop."""

    def __init__(self, status: int, problems: Iterable[str]) -> None:
        self.status = status
        self.problems = [harmless(problem) for problem in problems]
        super().__init__(status)


def fault(error: Exception) -> Refused:
    """What is said after a fault of the program. Its message may hold a reading: only type and place are logged."""
    last = traceback.extract_tb(error.__traceback__)[-1]
    LOG.error("A fault in checkface itself: %s in %s, line %s", type(error).__name__, last.name, last.lineno)
    return Refused(500, ["A fault in checkface itself, please report it; nothing was judged"])


def harmless(problem: str) -> str:
    """*problem* with what it quotes masked where that has a digit in it: no key and no kind of check has one."""
    expected, read, quoted = problem.partition(_READ)
    # What is quoted may itself look like the words that follow it; those stand last.
    end = max((found.start() for found in _AFTER.finditer(quoted)), default=len(quoted))
    if quoted.startswith(("'", '"')) and any(map(str.isdigit, quoted[:end])):
        quoted = masking.number(quoted[:end]) + quoted[end:]
    return expected + read + quoted


def one_of(known: Iterable[str], given: str, what: str) -> str:
    """*given*, if it is one of the *known* names. Raises :class:`Refused` (404) with the nearest one."""
    if given in known:
        return given
    near = get_close_matches(given[:_LONGEST], known, 1)
    hint = f"; the nearest is {near[0]}" if near else ""
    raise Refused(404, [f"Expected the name of {what}, read another{hint}"])
