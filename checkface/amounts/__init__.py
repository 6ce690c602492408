"""The two amounts of a check: words on the legal line, figures in the courtesy box, and how they stand together.

Sources: UCC 3-114 (words prevail over numbers), N.Y. UCC 3-118(c) (figures where the words are ambiguous), UCC 3-115
(incomplete instruments), Galatia Community State Bank v. Kindy, 307 Ark. 467 (1991) (a machine imprint counts as
words); for the forms people and machines write, common practice. All amounts are integer cents.

>>> read_words("One thousand two hundred thirty-four and 56/100").cents
123456
>>> read_words("fourty-five and no/100").repairs
(Repair(span=Span(start=0, end=6), read='fourty', taken='forty'),)
>>> [candidate.cents for candidate in read_words("one thirty").candidates]
[13000, 130]
>>> read_words("Five dollars and three apples").message
'Expected words of an amount after "three", read "apples".'
>>> compare(read_words("Forty-five and 10/100"), read_figures("$54.10")).slip.kind
'transposed-digits'
"""

from checkface.amounts.compare import Comparison, compare
from checkface.amounts.figures import read_figures
from checkface.amounts.model import Candidate, FiguresAmount, Repair, WordsAmount, money
from checkface.amounts.slips import Slip
from checkface.amounts.words import read_words

__all__ = [
    "Candidate",
    "Comparison",
    "FiguresAmount",
    "Repair",
    "Slip",
    "WordsAmount",
    "compare",
    "money",
    "read_figures",
    "read_words",
]
