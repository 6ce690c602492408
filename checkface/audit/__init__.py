"""Many tenders: a file of them read row by row, each assessed, and the whole counted.

>>> import io
>>> rows = io.BytesIO(b"id,micr,network\\n0007,(illegible),down\\n0008,(illegible)\\n")
>>> from checkface.policy import Policy
>>> tally = Tally()
>>> for result in run(tenders(rows), Policy()):
...     tally.add(result)
>>> dict(tally.dispositions), tally.skipped
({<Disposition.REFER: 'refer'>: 1}, 1)
"""

from __future__ import annotations

from checkface.audit.answers import table_writer
from checkface.audit.changes import MADE_WITH, Change, compare, record, replay
from checkface.audit.columns import ILLEGIBLE, PATHS
from checkface.audit.few import few
from checkface.audit.forms import named, require
from checkface.audit.items import tenders
from checkface.audit.placed import Item, Skipped, guarded, place, with_day
from checkface.audit.results import Row, Write, writer
from checkface.audit.run import Assessed, Result, run
from checkface.audit.source import InputError
from checkface.audit.tally import Tally

__all__ = [
    "ILLEGIBLE", "MADE_WITH", "PATHS", "Assessed", "Change", "InputError", "Item", "Result", "Row", "Skipped", "Tally",
    "Write", "compare", "few", "guarded", "named", "place", "record", "replay", "require", "run", "table_writer",
    "tenders", "with_day", "writer",
]  # fmt: skip
