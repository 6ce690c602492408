"""The routing number: nine digits, the fraction that repeats eight of them, and what both must agree on.

A routing number is the Federal Reserve routing symbol (four digits), the institution identifier (four digits)
and a check digit. The weighted sum 3, 7, 1 over all nine digits must be a multiple of ten, and the first two
digits name the series and the Federal Reserve district (12 CFR 229 Appendix A paragraph B).

>>> from checkface import routing
>>> number = routing.read("111000025")
>>> number.series, number.district
('primary', 11)
>>> routing.read("111000026").message
'Expected the check digit 5 after the first eight digits, read 6.'
>>> fraction = routing.read_fraction("55-2/212")
>>> fraction.first_eight, fraction.number, fraction.states
('02120002', '021200025', ('NJ',))
>>> [fault.message for fault in routing.agree(fraction, "021200038")]
['Expected the institution identifier 0003 of the routing number, read 0002.']
"""

from checkface.routing.agreement import agree
from checkface.routing.directory import BadRow, Directory, Entry
from checkface.routing.fraction import Fraction, read_fraction
from checkface.routing.number import RoutingNumber, check_digit, describe, read
from checkface.routing.reference import Owner, Prefix

__all__ = [
    "BadRow",
    "Directory",
    "Entry",
    "Fraction",
    "Owner",
    "Prefix",
    "RoutingNumber",
    "agree",
    "check_digit",
    "describe",
    "read",
    "read_fraction",
]
