"""The whole table of decision-relevant facts, against an independent statement of what bars what.

The bars below are written out a second time, in a few plain lines, from the published sources named beside them;
they share nothing with the rule book. Every combination must be decided, twice alike, and never milder than they say;
and what every line calls sound is converted.
"""

from __future__ import annotations

import os
from itertools import product
from typing import Any, NamedTuple

import pytest
from clean_tender import CLEAN

import checkface as cf
from checkface.findings import Disposition
from checkface.tender import Counter, Face, Kind, Tender

HOUSE = cf.Policy.parse('[payee]\nnames = ["Quillfeather Grocery"]')
LEVEL = {"convert": 0, "keep": 1, "refer": 2, "decline": 3}
#: Every n-th combination, a different residue for each kind, unless the thorough run is asked for.
STRIDE = 1 if os.environ.get("CHECKFACE_THOROUGH") else 101


class Fact(NamedTuple):
    """One value of one dimension: its name, the keys it sets, and the least answer it allows."""

    name: str
    keys: dict[str, Any]
    least: str


PERSONAL_LINE = "⑆071098973⑆ 45601122⑈ 1043"
FACE = (
    (  # Nacha bulletin 2006: auxiliary on-us field; 12 CFR 229.31(a)(3) and X9 codes: EPC
        Fact("ordinary", {"micr": PERSONAL_LINE}, "convert"),
        Fact("auxiliary", {"micr": "⑈001043⑈ ⑆071098973⑆ 45601122⑈"}, "keep"),
        Fact("unread account", {"micr": "⑆071098973⑆ 4560?122⑈ 1043"}, "keep"),
        Fact("unread routing", {"micr": "⑆0710?8973⑆ 45601122⑈ 1043"}, "keep"),
        Fact("no line", {"micr": ""}, "refer"),
        Fact("treasury number", {"micr": "⑆000000518⑆ 45601122⑈ 1043", "fraction": ""}, "keep"),
        Fact("sum fails", {"micr": "⑆071098974⑆ 45601122⑈ 1043"}, "refer"),
        Fact("return strip", {"micr": "2⑆071098973⑆ 45601122⑈ 1043"}, "decline"),
    ),
    (  # UCC 3-113, 4-404; 31 USC 3328 for Treasury paper, so stale is more than a year; common practice for the future
        Fact("today", {"date": "11/24/2026"}, "convert"),
        Fact("day 180", {"date": "5/28/2026"}, "convert"),
        Fact("stale", {"date": "11/1/2025"}, "decline"),
        Fact("tomorrow", {"date": "11/25/2026"}, "decline"),
        Fact("blank date", {"date": ""}, "convert"),
        Fact("illegible date", {"date": None}, "refer"),
    ),
    (  # UCC 3-401
        Fact("signed", {"signature": True}, "convert"),
        Fact("unsigned", {"signature": False}, "decline"),
        Fact("not looked at", {}, "refer"),
    ),
    (  # published network summaries: third-party items; common practice: a payroll or government check is the customer's
        Fact("house", {"payee": "Quillfeather Grocery"}, "convert"),
        Fact("blank payee", {"payee": "________"}, "convert"),
        Fact("nearly the house", {"payee": "Quillfeather Foods"}, "refer"),
        Fact("third party", {"payee": "Ben Example"}, "decline"),
    ),
    (  # published network summaries: consumer accounts only; common practice for what a name shows
        Fact("a person", {"drawer": ["Ada Sample", "12 Example Lane"]}, "convert"),
        Fact("not a person", {"drawer": ["Ada Sample Trustee", "12 Example Lane"]}, "keep"),
        Fact("nobody looked", {}, "keep"),
    ),
    (  # UCC 3-114 and common practice: not taken when they differ
        Fact("agree", {"words": "Forty-five and 10/100", "figures": "$45.10"}, "convert"),
        Fact("disagree", {"words": "Fifty-four and 10/100", "figures": "$45.10"}, "decline"),
        Fact("illegible words", {"words": None, "figures": "$45.10"}, "refer"),
        Fact("blank words", {"words": "", "figures": "$45.10"}, "convert"),
    ),
)
COUNTER = (
    tuple(  # published network summaries: only personal checks here, every other kind is kept
        Fact(kind, {"declared_kind": kind}, "convert" if kind == "personal" else "keep") for kind in Kind
    ),
    (  # Nacha rule change 2007-03-16
        Fact("machine", {"micr_by": "reader"}, "convert"),
        Fact("keyed", {"micr_by": "keyed"}, "keep"),
    ),
    (  # common practice
        Fact("up", {"network": "up"}, "convert"),
        Fact("down", {"network": "down"}, "keep"),
    ),
    (  # 12 CFR 1005.3(b)(2) for the notice, published network summaries for the signature
        Fact("authorized", {"authorization_signed": True}, "convert"),
        Fact("not authorized", {"authorization_signed": False}, "keep"),
    ),
    (  # Nacha: $25,000.00 may, $25,000.01 may not; at a counter the keyed amount must be the check's
        Fact("same amount", {"amount": "45.10", "purchase": "45.10"}, "convert"),
        Fact("limit and a cent", {"amount": "25000.01", "purchase": "25000.01"}, "keep"),
    ),
)


Row = tuple[dict[str, Any], tuple[Fact, ...]]


def combined(dimensions: tuple[tuple[Fact, ...], ...], base: dict[str, Any], dropped: tuple[str, ...]) -> list[Row]:
    rest = {key: value for key, value in base.items() if key not in dropped}
    return [
        ({**rest, **{k: v for fact in facts for k, v in fact.keys.items()}}, facts) for facts in product(*dimensions)
    ]


#: Kinds that are made out to whoever hands them over: another payee's name is the customer's. Common practice.
TO_CUSTOMER = {Kind.PAYROLL, Kind.TREASURY_CHECK, Kind.GOVERNMENT_CHECK}


NOT_ASKED = {"third party", "nearly the house"}


def least_of(facts: tuple[Fact, ...], kind: Kind) -> int:
    """The level of the mildest answer that *facts* allow for a check of this *kind*."""
    milder = dict.fromkeys(NOT_ASKED, "keep") if kind in TO_CUSTOMER else {}
    if "treasury number" in {fact.name for fact in facts}:
        # Its prefix is published, whose it is only remembered: a postal money order has it too, and never lapses.
        milder["stale"] = {
            Kind.POSTAL_MONEY_ORDER: "keep", Kind.MONEY_ORDER: "refer", Kind.GOVERNMENT_CHECK: "refer",
        }.get(kind, "decline")  # fmt: skip
    return max(LEVEL[milder.get(fact.name, fact.least)] for fact in facts)


FACES = [
    (Face.model_validate(wire), facts)
    for wire, facts in combined(
        FACE, CLEAN["face"], ("micr", "date", "signature", "payee", "drawer", "words", "figures")
    )
]
SHOWN = cf.parse(CLEAN).documents
COUNTERS = [(Counter.model_validate(wire), facts) for wire, facts in combined(COUNTER, CLEAN["counter"], ())]


def test_the_table_has_hundreds_of_thousands_of_rows() -> None:
    assert len(FACES) * len(COUNTERS) > 400_000


@pytest.mark.parametrize("kind", Kind)
def test_neither_milder_than_the_bars_nor_harder_on_the_sound(kind: Kind) -> None:
    counters = [entry for entry in COUNTERS if entry[0].declared_kind is kind]
    offset = list(Kind).index(kind) % STRIDE
    wrong, seen = [], set()
    for number, ((face, of_face), (counter, of_counter)) in enumerate(product(FACES, counters)):
        if (number + offset) % STRIDE:
            continue
        tender = Tender.model_construct(id="", face=face, counter=counter, documents=SHOWN, taken_as=None)
        got = cf.assess(tender, HOUSE)
        least = least_of(of_face + of_counter, kind)
        seen.add(got.disposition)
        if LEVEL[got.disposition] < least or (least == 0 and got.disposition != "convert"):
            wrong.append((least, got.disposition, [fact.name for fact in of_face + of_counter]))
        assert (len(got.decision.rests_on) == 12) >= (got.disposition == "convert")
    assert not wrong[:3]
    assert Disposition.DECLINE in seen
    assert (Disposition.CONVERT in seen) == (kind is Kind.PERSONAL)


def test_decided_twice_alike() -> None:
    for face, counter in zip(FACES[::97], COUNTERS * 9, strict=False):
        tender = Tender(face=face[0], counter=counter[0])
        assert cf.assess(tender, HOUSE).model_dump() == cf.assess(tender, HOUSE).model_dump()
