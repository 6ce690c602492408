"""The writer's identification: cards read by machine, documents keyed by a clerk, and what may be kept.

Sources: AAMVA DL/ID Card Design Standard (2000 to 2025), ICAO Doc 9303, INCITS 38. The part reads and
compares; whether a document is good enough is for the rules to say. Full numbers leave only through
``reveal_number``, birth dates never.

>>> shown = read_keyed("drivers-license", "12345678", "48", "2027-01-01")
>>> shown.issuer, shown.masked_number
('TX', '****5678')
>>> read_barcode("").message
'Expected the payload of an identification card, read nothing.'
"""

from typing import TYPE_CHECKING

from checkface.ondemand import names_of

from .kinds import KINDS, Kind, kind_named

if TYPE_CHECKING:
    from .addresses import AddressAgreement, addresses_agree
    from .barcode import read_barcode
    from .card import Address, Birth, Card, Check, Identification, Name, Repair
    from .expiry import Expiry, currency_on
    from .keyed import Document, read_keyed
    from .mrz import read_mrz
    from .names import Agreement, names_agree
    from .number import Forbidden, IdNumber, fits_shape, forbidden_number
    from .places import Place, find_place, issuer_of
    from .retention import Retention, may_keep
    from .scan import scan_image
    from .stripe import read_stripe

__all__ = [
    "KINDS",
    "Address",
    "AddressAgreement",
    "Agreement",
    "Birth",
    "Card",
    "Check",
    "Document",
    "Expiry",
    "Forbidden",
    "IdNumber",
    "Identification",
    "Kind",
    "Name",
    "Place",
    "Repair",
    "Retention",
    "addresses_agree",
    "currency_on",
    "find_place",
    "fits_shape",
    "forbidden_number",
    "issuer_of",
    "kind_named",
    "may_keep",
    "names_agree",
    "read_barcode",
    "read_keyed",
    "read_mrz",
    "read_stripe",
    "scan_image",
]

#: All but the list of kinds is wanted only when a document is shown.
__getattr__ = names_of(
    __name__,
    {
        **dict.fromkeys(("Address", "Birth", "Card", "Check", "Identification", "Name", "Repair"), "card"),
        **dict.fromkeys(("AddressAgreement", "addresses_agree"), "addresses"),
        **dict.fromkeys(("Expiry", "currency_on"), "expiry"),
        **dict.fromkeys(("Document", "read_keyed"), "keyed"),
        **dict.fromkeys(("Agreement", "names_agree"), "names"),
        **dict.fromkeys(("Forbidden", "IdNumber", "fits_shape", "forbidden_number"), "number"),
        **dict.fromkeys(("Place", "find_place", "issuer_of"), "places"),
        **dict.fromkeys(("Retention", "may_keep"), "retention"),
        "read_barcode": "barcode",
        "read_mrz": "mrz",
        "read_stripe": "stripe",
        "scan_image": "scan",
    },
)
