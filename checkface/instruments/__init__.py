"""What kind of paper it is, and what its wording asks: inferred with the evidence, never guessed.

Kinds are those of UCC article 3, 12 CFR 229.2 and 12 USC 5003, and those that networks and counters tell apart.

>>> from checkface import instruments
>>> found = instruments.infer(None, {"legends": "OFFICIAL CHECK", "drawee": "FIRST SPECIMEN BANK"})
>>> found.kind, found.rivals
(None, (<Kind.CASHIERS_CHECK: 'cashiers-check'>, <Kind.TELLERS_CHECK: 'tellers-check'>))
>>> instruments.legend_limits("VOID AFTER 90 DAYS")
(Limit(kind='days', value=90, span=Span(start=11, end=18)),)
>>> instruments.payees("Ann Specimen or Bo Specimen").joined
'or'
"""

from checkface.instruments.drawee import Drawee
from checkface.instruments.drawee import describe as describe_drawee
from checkface.instruments.drawer import DrawerLines
from checkface.instruments.drawer import describe as describe_drawer
from checkface.instruments.housename import PayeeMatch, payee_match
from checkface.instruments.inference import infer
from checkface.instruments.kinds import Evidence, Inference, Kind, Legend, LineFacts, Weight
from checkface.instruments.limits import Limit, behind, legend_limits, not_before
from checkface.instruments.payees import Payee, Payees, payees
from checkface.instruments.postal import postal_serial_ok
from checkface.instruments.wording import Unsettled, unsettled

__all__ = [
    "Drawee",
    "DrawerLines",
    "Evidence",
    "Inference",
    "Kind",
    "Legend",
    "Limit",
    "LineFacts",
    "Payee",
    "PayeeMatch",
    "Payees",
    "Unsettled",
    "Weight",
    "behind",
    "describe_drawee",
    "describe_drawer",
    "infer",
    "legend_limits",
    "not_before",
    "payee_match",
    "payees",
    "postal_serial_ok",
    "unsettled",
]
