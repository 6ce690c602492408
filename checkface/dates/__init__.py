"""The date on a check: every way people write it, and what it cannot tell.

A check needs no date (UCC 3-113(b)), may not be paid before it without risk (UCC 3-113(a), 4-401(c)), and need
not be paid six months after it (UCC 4-404): so the day matters, and a guess is worse than a question. Figures
are read month first, as is the custom in the United States; a first figure above 12 is the day, or a year of two
digits.

>>> from datetime import date
>>> from checkface import dates
>>> on = date(2026, 11, 24)
>>> dates.read("Nov 24, '26", on).date
datetime.date(2026, 11, 24)
>>> both = dates.read("11/12/2026", on)
>>> both.date, both.order_unclear, both.candidates[1]
(datetime.date(2026, 11, 12), True, datetime.date(2026, 12, 11))
>>> dates.read("02/30/2026", on).message
'Expected a day from 1 to 28 after February 2026, read 30.'
>>> dates.read("31/6/26", on).message
'Expected a day from 1 to 30 after June 2026, read 31.'
>>> dates.read("viernes 12/11/2026", on).date, dates.read("jue. 12/11/2026", on).date
(datetime.date(2026, 12, 11), datetime.date(2026, 11, 12))
"""

from checkface.dates.value import CheckDate, RepairedWord
from checkface.dates.written import read

__all__ = ["CheckDate", "RepairedWord", "read"]
