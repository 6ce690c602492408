"""What only the lane knows at the moment of printing, and the reporting agency behind an answer.

Who the house is and where it stands comes from the policy (``[house]``); the tender brings the rest.
"""

from dataclasses import dataclass
from datetime import time
from typing import Literal, NamedTuple


@dataclass(frozen=True, slots=True)
class Printing:
    """Everything may be left out. ``at``: the time of day at the counter; ``pad``: whether the signature pad works.

    For instructions that were made without it: ``dataclasses.replace(instructions, printing=...)``.
    """

    at: time | None = None
    initials: str = ""
    customer_telephone: str = ""
    pad: Literal["up", "down"] | None = None


class Agency(NamedTuple):
    """A consumer reporting agency whose report was used, as 15 USC 1681m(a)(3) wants it named.

    ``telephone`` is the toll-free number where the agency keeps files nationwide.
    """

    name: str
    address: str
    telephone: str
