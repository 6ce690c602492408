"""What of an identification may be written down or kept, by the state the counter stands in.

The safe default everywhere: the kind of document, its issuer and that it was current. A payment card's or
social security number is never kept, whatever a table says. Not legal advice; the citation goes with every
answer.

>>> may_keep("MA").number, may_keep("DC").number, may_keep("TX").number
(True, False, False)
>>> may_keep("MA").citation
'Mass. G.L. c. 93 s. 105(b)'
"""

from functools import cache
from typing import NamedTuple

from checkface import tables


class Retention(NamedTuple):
    """Which facts may be kept. ``payment_card`` and ``social_security`` are False in every state."""

    kind: bool = True
    issuer: bool = True
    was_current: bool = True
    expiry: bool = False
    number: bool = False
    name: bool = False
    address: bool = False
    phone: bool = False
    photocopy: bool = False
    citation: str = ""
    words: str = ""

    @property
    def payment_card(self) -> bool:
        """Never."""
        return False

    @property
    def social_security(self) -> bool:
        """Never."""
        return False


def may_keep(state: str, kind: str = "") -> Retention:
    """What the counter's *state*, in letters, lets it keep; the safe default where no row says.

    Photocopies are never kept; for a *kind* of identification whose copying is an offence the law is cited.
    """
    states, kinds = _rules()
    found = states.get(state.strip().upper(), states[""])
    own = kinds.get(kind)
    if own is None:
        return found
    return found._replace(citation=f"{found.citation}; {own.citation}", words=f"{found.words} {own.words}")


@cache
def _rules() -> tuple[dict[str, Retention], dict[str, Retention]]:
    data = tables.load("id_retention").data
    states = {state: Retention(**row) for state, row in data["states"].items()}
    return {"": Retention(**data["default"]), **states}, {kind: Retention(**row) for kind, row in data["kinds"].items()}
