"""By which numbers a check is known again when it comes a second time.

Routing number, account and serial, where all three were read. A line whose account or serial could not be told apart
still is what it is: where the number that no other check has is certainly among its digits, the digits stand for both.

>>> from checkface.assessment import parse
>>> from checkface.reading import read
>>> def known(micr, **face): return known_by(read(parse({"face": {"micr": micr, **face}})))
>>> known("⑆071098973⑆ 45601122⑈ 1043") == ("071098973", "45601122", "1043")
True
>>> known("⑈1234⑈ 5⑆000000518⑆ 123456780⑈ 0405").account == known("1234 5⑆000000518⑆123456780 0405").account
True
>>> known("⑆071098973⑆ 45601122⑈") is None, known("⑆071098973⑆ 45601122⑈", serial="1043") is None
(True, False)
"""

from typing import NamedTuple

from checkface.micr import MicrLine
from checkface.reading.value import ReadTender

#: Fewer digits than this beside the routing number tell no check from the others of its bank.
_FEWEST = 4


class KnownBy(NamedTuple):
    """The numbers, for looking up and never for print. ``account`` may be all digits of the line but the bank's."""

    routing: str
    account: str
    serial: str

    def __repr__(self) -> str:
        """Nothing but the bank: this may stand in a log."""
        return f"KnownBy(routing={self.routing!r})"


def known_by(read: ReadTender) -> KnownBy | None:
    """The numbers of the check that *read* is of; ``None`` where no number sets it apart for certain."""
    line = read.line
    if line is None or line.routing is None:
        return None
    serial = line.serial or read.serial
    if line.account and serial:
        return KnownBy(line.routing, line.account, serial)
    digits = _digits(line)
    if line.unread or len(digits) < _FEWEST:
        return None
    # A Treasury check and a postal money order have their own serial in the line and no account.
    federal = read.routing is not None and read.routing.series == "government"
    if federal or any(doubt.field == "serial" and doubt.candidates for doubt in line.ambiguities):
        return KnownBy(line.routing, digits, digits)
    if serial and len(digits) >= len(line.serial or "") + _FEWEST:
        return KnownBy(line.routing, digits, serial)
    return None


def _digits(line: MicrLine) -> str:
    """The digits of the line in their order, without the routing number and the amount, which a bank adds later."""
    left_out = {place for name in ("routing", "amount") if (span := line.spans.get(name)) for place in range(*span)}
    return "".join(c for place, c in enumerate(line.raw) if c in "0123456789" and place not in left_out)
