"""Read the amount of the legal line.

A plain phrase is looked up; any other line is cut into tokens, resolved in one language and parsed by the grammar
of the whole line. What one wrong character can turn into another amount unseen, and all of it: eight and eighty, in
Spanish sesenta and setenta, and a digit of the cents or of a machine imprint. The comparison with the figures is
there to catch those.

>>> read_words("One hundred fifty and 00/100").cents
15000
>>> read_words("Five dollars and three apples").message
'Expected words of an amount after "three", read "apples".'
"""

from __future__ import annotations

from checkface.amounts.model import WordsAmount
from checkface.amounts.quick import read_quickly
from checkface.span import Fault


def read_words(text: str) -> WordsAmount | Fault:
    """The amount in *text*, in cents, or the :class:`Fault` that keeps it from being one.

    Fault kinds: ``words-blank``, ``words-too-long``, ``words-hidden-character``, ``words-foreign-letter``,
    ``words-foreign-character``, ``words-unknown-word``, ``words-unknown-mark``, ``words-unreadable``,
    ``words-struck``, ``words-limit``, ``words-foreign-currency``, ``words-shorthand``, ``words-negative``,
    ``words-ordinal``, ``words-foreign-scale``, ``words-language``, ``words-figures-form``,
    ``words-cents-over-99``, ``words-denominator``, ``words-fraction-of-cents``, ``words-malformed``,
    ``words-zero`` and ``words-over-range``.
    """
    quick = read_quickly(text)
    if quick is not None:
        return quick
    from checkface.amounts.careful import read_carefully  # the grammar is loaded when a line needs it

    return read_carefully(text)
