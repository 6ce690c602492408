"""The kinds of the tokens of a legal line.

Each is one letter, so that the kinds of a line spell its *shape* and the grammar of amounts is a set of regular
expressions over shapes (see :mod:`checkface.amounts.grammar`); the names here stand for the letters everywhere else.
Kinds that are named together are strings of several: ``token.kind in SCALES``.
"""

UNIT = "u"
"""One to nine."""
TEN = "e"
TEEN = "t"
"""Eleven to nineteen."""
TENS = "y"
"""Twenty, thirty ... ninety."""
TWO_DIGITS = "w"
"""21 to 99 in one token."""
THREE_DIGITS = "b"
"""100 to 999 in one token."""
MORE_DIGITS = "d"
"""1,000 and more in digits."""
HUNDREDS = "c"
"""Spanish hundreds: doscientos."""
ZERO = "z"
OH = "o"
"""The word oh for a zero."""
PADDED = "g"
"""Digits with a leading zero."""
ARTICLE = "a"
"""A, an, for one."""
HUNDRED = "h"
THOUSAND = "k"
MILLION = "m"
COLUMN = "L"
"""Column name of a check protector."""
DECIMAL = "q"
"""Figures with decimals, the value in cents."""
DECIMAL_CENTS = "p"
FRACTION = "f"
"""Cents over 100."""
POINT = "P"
DOLLARS = "D"
CENTS = "C"
HUNDREDTHS = "H"
NONE = "n"
"""No, none, nothing."""
EVEN = "v"
"""Even, flat: no cents, said after the unit."""
AND = "&"
"""And, which may stand inside a number."""
WITH = "J"
"""With: joins cents, never inside a number."""
NO_AMOUNT = "x"
"""Words that state no amount: pay, exactly, only."""
FILLER, COMMA, STOP, OPENING, CLOSING = "~", ",", ".", "(", ")"
UNKNOWN = "?"

JOINERS = AND + WITH
MARKS = FILLER + STOP + COMMA
BRACKETS = OPENING + CLOSING
EDGE = NO_AMOUNT + DOLLARS + MARKS
"""What may stand before and behind an amount."""
SCALES = HUNDRED + THOUSAND + MILLION
BELOW_HUNDRED = UNIT + TEN + TEEN + TENS + TWO_DIGITS
NUMBERS = BELOW_HUNDRED + THREE_DIGITS + HUNDREDS + SCALES
"""Words of a number; digits above 999, zeros and the article are told apart."""
