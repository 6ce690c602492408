"""When an identification card runs out: a date, never, or not known.

Cards do not always carry a plain date: some never expire, a magnetic stripe gives only a month, and a worn
or keyed date may fit two days. Each of these is kept as what it is.

>>> from datetime import date
>>> card = Expiry("date", date(2024, 12, 10), date(2024, 12, 10), "12102024")
>>> currency_on(card, date(2024, 12, 10))
'current'
>>> currency_on(card, date(2024, 12, 10), day_of_expiry_good=False)
'expired'
>>> currency_on(Expiry("unknown"), date(2024, 12, 10))
'unknown'
"""

import calendar
from datetime import date
from typing import Literal, NamedTuple

from checkface.digits import discreet

Currency = Literal["current", "expired", "never-expires", "unknown"]


class Expiry(NamedTuple):
    """The expiry of a card.

    ``kind`` is ``"date"`` (``earliest`` and ``latest`` are that day), ``"between"`` (only the bounds are
    known: a month, or digits that fit two days), ``"never"``, or ``"unknown"``. ``raw`` is the form it was
    read from, empty unless it was a date or one of the known words for none.
    """

    kind: Literal["date", "between", "never", "unknown"]
    earliest: date | None = None
    latest: date | None = None
    raw: str = ""

    def __repr__(self) -> str:
        return discreet(self)

    @property
    def on(self) -> date | None:
        """The one day of expiry, or None when there is none or it is not certain."""
        return self.earliest if self.kind == "date" else None


UNKNOWN = Expiry("unknown")


def among(days: tuple[date, ...], raw: str) -> Expiry:
    """The expiry that *days*, all the readings of *raw*, leave open."""
    if not days:
        return Expiry("unknown", raw=raw)
    earliest, latest = min(days), max(days)
    return Expiry("date" if earliest == latest else "between", earliest, latest, raw)


def within_month(year: int, month: int, raw: str) -> Expiry:
    """The expiry of a card that gives only *month* (1-12) of *year*."""
    last = calendar.monthrange(year, month)[1]
    return Expiry("between", date(year, month, 1), date(year, month, last), raw)


def currency_on(expiry: Expiry, on: date, day_of_expiry_good: bool = True) -> Currency:
    """Whether a card with *expiry* is current on the day *on*.

    On the printed day itself the card is good by common practice; state law differs, so the house can say
    otherwise. Between two possible days the answer is ``"unknown"``: a look at the card settles it.
    """
    if expiry.kind == "never":
        return "never-expires"
    if expiry.earliest is None or expiry.latest is None:
        return "unknown"
    if on < expiry.earliest or (day_of_expiry_good and on == expiry.earliest):
        return "current"
    if on > expiry.latest or (not day_of_expiry_good and on == expiry.latest):
        return "expired"
    return "unknown"
