"""The kinds of identification that a counter is shown.

>>> kind_named("Driver's License"), KINDS["passport"].by_state
('drivers-license', False)
"""

import re
from typing import NamedTuple

LONGEST = 200
"""More characters than that are no kind, number, state or expiry."""


class Kind(NamedTuple):
    """A kind of identification: whether it shows a picture, whether a state or province issues it."""

    photo: bool
    by_state: bool
    also: tuple[str, ...] = ()


KINDS = {
    "drivers-license": Kind(True, True, ("driverslicense", "driverlicense", "driverslicence", "license", "dl")),
    "state-id": Kind(True, True, ("stateidentification", "stateidcard", "id", "idcard")),
    "enhanced": Kind(True, True, ("enhanceddriverslicense", "edl")),
    "license-or-id": Kind(True, True),
    "passport": Kind(True, False),
    "passport-card": Kind(True, False),
    "permanent-resident": Kind(True, False, ("permanentresidentcard", "greencard")),
    "employment-authorization": Kind(True, False, ("employmentauthorizationcard", "workpermit")),
    "military-id": Kind(True, False, ("military", "uniformedservicesid")),
    "tribal-id": Kind(True, False, ("tribal",)),
    "government-id": Kind(True, False, ("government", "othergovernment")),
    "identity-card": Kind(True, False),
    "social-security-card": Kind(False, False, ("socialsecurity", "ssn")),
}
"""Kinds of identification by their stable names; ``also`` are other spellings, without blanks and hyphens."""

_BY_SPELLING = {spelling: name for name, kind in KINDS.items() for spelling in (name.replace("-", ""), *kind.also)}


def kind_named(text: str) -> str | None:
    """The stable name of a kind of identification however it is spelled, or None."""
    return _BY_SPELLING.get(re.sub(r"[^a-z]", "", text[:LONGEST].lower()))
