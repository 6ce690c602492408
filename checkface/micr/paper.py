"""Where the line stands on the paper (ASC X9 TR 100-2013 and published handbook figures).

>>> highest_position(6.0), highest_position(8.5), highest_position(8.75)
(43, 63, 65)
"""

from __future__ import annotations

from math import floor

POSITIONS = 65
_PER_INCH = 8
_MARGINS = 9 / 16  # position 1 ends 5/16 in from the right edge; 1/4 in stays free at the left


def highest_position(width: float) -> int:
    """Highest usable position on paper *width* inches wide; position 1 is at the right edge.

    Position n ends 5/16 + (n - 1)/8 in from the right edge and must end more than 1/4 in from the left edge: a 6-inch
    personal check ends at position 43, the left transit symbol.
    """
    return max(0, min(POSITIONS, floor((width - _MARGINS) * _PER_INCH)))
