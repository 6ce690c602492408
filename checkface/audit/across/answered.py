"""Who answers questions unlike everyone else: asked of all checks together, by who took them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from checkface.audit.across.book import rule
from checkface.audit.across.found import AuditFinding, Counts, Place, found
from checkface.audit.confirmed import Confirmations, Share
from checkface.findings import Effect
from checkface.tender import Counter

NAMELESS = "nobody is named who took it (counter.employee)"


@rule(
    "confirmed-unlike-the-others", Effect.NOTE, by="common-practice",
    needs="who took the check (counter.employee), questions answered (counter.confirmed)",
)  # fmt: skip
def confirmed_unlike_the_others(share: Share) -> str | None:
    """One employee answers far more questions with yes than all others together.

    What it asks: Of checks on which a question was answered with yes, does one employee have five or more, and so many
        that chance would mark somebody in fewer than one audit of 1,000?
    Why it matters: A yes turns a manager's decision into a conversion, and only the clerk's word stays of it. Somebody
        who presses yes without a look, or for a friend, answers more of them than others who see the same customers.
    Example: Eight of 35 checks, where half a check would be expected by the share of the others.
    What to do: Look at these checks, and ask how the questions are put. A lane for older customers or one that
        opens early can explain it; a number alone accuses nobody.
    """
    if not share.stands_out:
        return None
    return (
        f"Questions answered with yes on {share.yes:,} of {share.checks:,} checks taken by {share.name}; "
        f"by the share of the others {share.expected:.1f} would be expected."
    )


class Answered:
    """The answers of a whole audit; ``any`` once a question was answered with yes."""

    def __init__(self) -> None:
        self._counted = Confirmations()
        self._places: defaultdict[tuple[str, str], list[Place]] = defaultdict(list)
        self._asked = self._nameless = 0

    @property
    def any(self) -> bool:
        """Whether any question was answered with yes."""
        return bool(self._places)

    def add(self, place: Place, counter: Counter) -> None:
        """Count one check."""
        who = counter.store.strip(), counter.employee.strip()
        self._counted.add(counter.store, counter.lane, counter.employee, confirmed=bool(counter.confirmed))
        self._asked += bool(who[1])
        self._nameless += not who[1]
        if counter.confirmed:
            self._places[who].append(place)

    def findings(self, counts: Counts) -> Iterator[AuditFinding]:
        """Who stands out; nothing is asked of an audit in which no question was answered."""
        if not self.any:
            return
        name = "confirmed-unlike-the-others"
        counts.asked[name] += self._asked
        if self._nameless:
            counts.unread[name][NAMELESS] += self._nameless
        for share in self._counted.employees():
            if message := confirmed_unlike_the_others(share):
                yield counts.add(found(name, message, self._places[share.store, share.who]))
