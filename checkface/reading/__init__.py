"""Read a whole tender: every part reads its own thing, nothing is judged.

The result says for each need of the rules whether it is *known* (taken and readable), *blank* (looked at, nothing
there) or neither; :mod:`checkface.rules` runs a rule only on what is known.

>>> from checkface.tender import Tender
>>> found = read(Tender.model_validate({"face": {"words": "Ten and 00/100", "figures": ""}}))
>>> found.words.cents, found.amount_cents, found.not_looked_at(("micr", "figures"))
(1000, 1000, ('micr',))
"""

from checkface.reading.known_by import KnownBy, known_by
from checkface.reading.reader import read
from checkface.reading.value import BY_HAND, NEEDS, Became, By, Look, ReadTender, Shown

__all__ = ["BY_HAND", "NEEDS", "Became", "By", "KnownBy", "Look", "ReadTender", "Shown", "known_by", "read"]
