"""The MICR line: the row of E-13B magnetic-ink characters at the bottom of a check.

Fields and places: ASC X9 TR 100-2013 and 12 CFR 229.31; symbols: Unicode's correction aliases, ISO 2033
(ISO-IR-98) and UnifiedPOS. The reader keeps every offset into the raw reading, gives what the line says and
leaves open what it does not.

What one misread character can still hide: the check digit sees every single change of the routing number; account and
amount have none, so one account digit replaced, lost or gained and one amount digit replaced read as another sound
line. Two neighbouring routing digits that differ by five can change places unseen. A serial glued to the account, a
leading group and the order of two groups right of the account stay open unless the printed number or a house layout
settles them.

>>> line = read("⑆031097765⑆ 0045601122⑈ 1043")
>>> line.routing, line.account, line.serial, line.checksum
('031097765', '0045601122', '1043', True)
>>> read("⑆071098973⑆ 45601122⑈ 1043 27").ambiguities[0].field
'serial'
>>> read("T1210?3747T 45601122U 1043").routing_repaired
'121093747'
>>> read("\\x02t031097765t_0045601122o_1043/00\\x03").account  # as a reader sends it
'0045601122'
>>> read_swipes("T031097765T 456?1122O 1043", "T0310?7765T 45601122O 1043").account
'45601122'
>>> print(read("HELLO WORLD").message)
Expected a routing number between two transit symbols, read no transit symbol of any notation.
"""

from checkface.micr.glyphs import bitmap, similarity
from checkface.micr.layouts import Layout, LayoutError, layouts_from, parse_layouts
from checkface.micr.line import FAULTS, Ambiguity, MicrLine
from checkface.micr.notation import NOTATIONS, UNREAD_MARKS
from checkface.micr.paper import highest_position
from checkface.micr.reader import read
from checkface.micr.records import from_fields
from checkface.micr.repair import Candidate, misread_suggestions, routing_candidates
from checkface.micr.swipes import read_swipes
from checkface.micr.table import ReaderTable, ReaderTableError, reader_table
from checkface.micr.write import PICTURES, format, translate

__all__ = [
    "FAULTS",
    "NOTATIONS",
    "PICTURES",
    "UNREAD_MARKS",
    "Ambiguity",
    "Candidate",
    "Layout",
    "LayoutError",
    "MicrLine",
    "ReaderTable",
    "ReaderTableError",
    "bitmap",
    "format",
    "from_fields",
    "highest_position",
    "layouts_from",
    "misread_suggestions",
    "parse_layouts",
    "read",
    "read_swipes",
    "reader_table",
    "routing_candidates",
    "similarity",
    "translate",
]
