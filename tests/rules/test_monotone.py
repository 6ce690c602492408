"""More defects, or fewer looks, never make the answer milder."""

from __future__ import annotations

from typing import Any

import pytest
from clean_tender import CLEAN, patched
from hypothesis import given, settings
from hypothesis import strategies as st

import checkface as cf
from checkface.findings import Disposition

HOUSE = cf.Policy.parse('[payee]\nnames = ["Quillfeather Grocery"]\n[limits]\nhouse = "500.00"\ncash_back = "20.00"')

#: One defect a path; each alone makes the clean tender worse or leaves it alike.
DEFECTS: dict[str, list[Any]] = {
    "face.micr": [
        "",
        None,
        "⑈001043⑈ ⑆071098973⑆ 45601122⑈",
        "⑆071098974⑆ 45601122⑈ 1043",
        "⑆0710?8973⑆ 45601122⑈ 1043",
        "hello",
    ],
    "face.fraction": ["53-9477/113", "70-9897/711", "no fraction"],
    "face.serial": ["", None, "1044", "none"],
    "face.date": ["", None, "11/25/2026", "2/13/2026", "13/45/2026"],
    "face.payee": [None, "Ben Example", "Quillfeather Foods", "Quillfeather Grocery and Ben Example", "Cash"],
    "face.figures": ["$54.10", "0.00", "$45"],  # a blank or lost box takes a contradiction away with it
    # Words that bear out the other figures would take the contradiction away, and leave a slip of the keys.
    "face.words": ["", None, "Fifty-five and 10/100", "Forty-fve and 10/100", "forty five apples", "twenty ten"],
    "face.drawer": [
        "",
        None,
        ["Example Holdings LLC"],
        ["Ada Sample Masonry", "12 Example Lane"],
        ["Golden Dragon", "1 A St"],
    ],
    "face.drawee": ["", None, ["Federal Home Loan Bank"], ["Specimen Insurance Company"], ["Specimen Financial"]],
    "face.memo": [["Paid in full"]],
    "face.legends": [
        ["VOID"],
        ["MONEY ORDER"],
        ["CASHIER'S CHECK"],
        ["NOT VALID OVER $10"],
        ["NOT VALID BEFORE 12/01/2026"],
        ["NSF"],
        ["NOT FOR ELECTRONIC CONVERSION"],
        ["TWO SIGNATURES REQUIRED"],
        ["GOOD ONLY AT THE FALL FAIR"],
        None,
    ],
    "face.signature": [False, None],
    "face.endorsements": [["Pay to the order of Ben Example"], None],
    "face.alterations": [True, None],
    "counter.declared_kind": ["business", "money-order", "treasury", "travelers-check", "other", "counter-check"],
    "counter.amount": ["61.00", "25000.01"],
    "counter.purchase": ["1.00"],
    "counter.micr_by": ["keyed", "corrected"],
    "counter.network": ["down"],
    "counter.authorization_signed": [False],
    "documents": [[], [{"kind": "library-card", "is_bearer": False}], [CLEAN["documents"][0] | {"is_bearer": None}]],
}
REQUIRED = {
    "face.micr", "counter.micr_by", "counter.network", "face.signature", "face.date", "face.payee",
    "counter.on",
}  # fmt: skip
defect = st.sampled_from([(path, value) for path, values in DEFECTS.items() for value in values])
defects = st.lists(defect, max_size=4, unique_by=lambda pair: pair[0]).map(dict)


def disposition(patch: dict[str, Any]) -> Disposition:
    wire = {path: "(null)" if value is None else value for path, value in patch.items()}
    return cf.assess(patched(wire), HOUSE).disposition


#: What another declaration answers: the kind was declared wrongly, or whether the check is a person's is open.
ANSWERED = {"kind-contradicts-declared", "drawer-unclear", "drawee-unclear"}


def contradicted(patch: dict[str, Any]) -> bool:
    wire = {path: "(null)" if value is None else value for path, value in patch.items()}
    return not ANSWERED.isdisjoint(finding.rule for finding in cf.assess(patched(wire), HOUSE).findings)


def test_the_clean_tender_is_converted() -> None:
    assert disposition({}) is Disposition.CONVERT


@settings(max_examples=400)
@given(defects, defect)
def test_one_more_defect_never_betters(before: dict[str, Any], more: tuple[str, Any]) -> None:
    path, value = more
    # Declaring the kind rightly cures a wrong declaration; it is a defect only where the paper says nothing else.
    # Nor is wording that bears out what the clerk declared: it excuses the drawer that a money order need not have.
    if (before.get("counter.declared_kind"), value) == ("money-order", ["MONEY ORDER"]):
        return
    if path not in before and not (path == "counter.declared_kind" and contradicted(before)):
        assert disposition({**before, path: value}) >= disposition(before)


@settings(max_examples=400)
@given(defects, st.sampled_from(sorted(REQUIRED)))
def test_not_looking_never_lets_paper_through(before: dict[str, Any], path: str) -> None:
    # A reading the house demands and nobody took is for a manager: never converted, never simply kept.
    assert disposition({**before, path: "(absent)"}) >= Disposition.REFER


#: What conversion rests on beside what the house demands: not looked at, nothing converts.
PILLARS = sorted(REQUIRED | {"face.drawer", "face.drawee", "face.legends", "counter.authorization_signed", "documents"})


@settings(max_examples=400)
@given(defects, st.sampled_from(PILLARS))
def test_not_looking_never_converts(before: dict[str, Any], path: str) -> None:
    assert disposition({**before, path: "(absent)"}) > Disposition.CONVERT


@settings(max_examples=400)
@given(defects, st.sampled_from(sorted(DEFECTS)))
def test_removing_a_reading_never_turns_a_bar_into_a_conversion_unsaid(before: dict[str, Any], path: str) -> None:
    # A reading the house does not demand may be missing; then the rules that needed it say that they did not run.
    if path in before or path in REQUIRED or (path == "counter.declared_kind" and contradicted(before)):
        return
    with_it, without = (
        cf.assess(patched({k: "(null)" if v is None else v for k, v in patch.items()}), HOUSE)
        for patch in (before, {**before, path: "(absent)"})
    )
    lost = {finding.rule for finding in with_it.findings} - {finding.rule for finding in without.findings}
    assert without.disposition >= with_it.disposition or lost <= set(without.unread)


@pytest.mark.parametrize(("path", "value"), [(path, value) for path, values in DEFECTS.items() for value in values])
def test_each_defect_is_seen(path: str, value: Any) -> None:
    wire = "(null)" if value is None else value
    clean, got = cf.assess(patched({}), HOUSE), cf.assess(patched({path: wire}), HOUSE)
    assert got.findings != clean.findings or got.unread != clean.unread


def test_every_pair_of_defects() -> None:
    every = [(path, value) for path, values in DEFECTS.items() for value in values]
    alone = [disposition({path: value}) for path, value in every]
    milder = [
        (before, more)
        for (before, was) in zip(every, alone, strict=True)
        for more in every
        if more[0] != before[0]
        and not (more[0] == "counter.declared_kind" and contradicted(dict([before])))
        and disposition(dict([before, more])) < was
    ]
    assert milder == []
