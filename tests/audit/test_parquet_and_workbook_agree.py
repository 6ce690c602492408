"""One day, written in every form by writers of others, is judged alike; and cells with types like cells of text."""

from __future__ import annotations

import io
import os
from datetime import date, datetime
from decimal import Decimal
from typing import Any

import pytest
from day_files import as_csv, as_json_lines, as_parquet, as_parquet_by_duckdb, as_workbook
from hypothesis import given, settings
from hypothesis import strategies as st

import checkface as cf
from checkface.audit import PATHS, Item, Skipped, tenders

_CHARACTERS = st.characters(codec="utf-8", exclude_categories=["Cs", "Cc"], exclude_characters="\ufffe\uffff")
_TEXT = st.text(_CHARACTERS | st.sampled_from("\n\t =+-@'\",;|⑆⑈0123456789"), max_size=12)
_USUAL = {
    "face.micr": ["⑆071098973⑆ 45601122⑈ 1043", "T071098973T 45601122O 1043", "⑆071098973⑆ ..."],
    "face.fraction": ["70-9897/710", "70-9897"],
    "face.serial": ["1043", "01043"],
    "face.date": ["11/24/2026", "2026-11-24", "Nov 31, 2026"],
    "face.figures": ["$45.10", "45.10", "0.00"],
    "face.words": ["Forty-five and 10/100", "Forty-four and 10/100"],
    "face.drawer": ["Ada Sample | 12 Example Lane | Springfield IL", "Ada Sample"],
    "face.legends": ["VOID", "Payroll check | VOID AFTER 90 DAYS"],
    "face.signature": ["yes", "no"],
    "face.countersignature": ["yes", "no"],
    "face.alterations": ["yes", "no"],
    "counter.on": ["2026-11-24", "2026-13-24"],
    "counter.declared_kind": ["personal", "Payroll check", "persnal"],
    "counter.amount": ["45.10", "$1,000.00", "45.1"],
    "counter.purchase": ["45.10", "12"],
    "counter.micr_by": ["reader", "keyed"],
    "counter.network": ["up", "down"],
    "counter.authorization_signed": ["yes", "no"],
    "documents.kind": ["drivers-license", "passport"],
    "documents.expires": ["2029-05-01", "05/01/2020"],
    "documents.is_bearer": ["yes", "no"],
    "taken_as": ["kept", "converted"],
}
_STATES = st.sampled_from(["", "", "(illegible)", "(not looked at)"])


def _cell(path: str) -> st.SearchStrategy[str]:
    usual = st.sampled_from(_USUAL.get(path, ["Quillfeather Grocery", "7"]))
    return usual | _STATES | _TEXT


@st.composite
def _days(draw: st.DrawFn) -> tuple[list[str], list[list[str]]]:
    headings = ["id", *draw(st.lists(st.sampled_from(PATHS[1:]), min_size=1, unique=True))]
    numbers = range(draw(st.integers(1, 4)))
    return headings, [[f"n{number}", *(draw(_cell(path)) for path in headings[1:])] for number in numbers]


def judged(content: bytes, **options: Any) -> list[object]:
    """What is answered for each row of a file: the whole assessment, or why it was skipped."""
    return [
        item.reason if isinstance(item, Skipped) else cf.assess(item.tender).model_dump(reveal=True)
        for item in tenders(io.BytesIO(content), **options)
    ]


@settings(deadline=None, max_examples=500 if os.environ.get("CHECKFACE_THOROUGH") else 60)
@given(_days())
def test_a_day_is_judged_alike_in_every_form(day: tuple[list[str], list[list[str]]]) -> None:
    wanted = judged(as_csv(*day))
    assert len(wanted) == len(day[1])
    for form in (as_json_lines, as_parquet, as_parquet_by_duckdb, as_workbook):
        assert judged(form(*day)) == wanted, form.__name__


TYPED: list[tuple[str, list[tuple[Any, str]]]] = [
    ("id", [(7, "7"), (8, "8"), (9, "9")]),
    ("face.serial", [(1043, "1043"), (1044, "1044"), (1045, "1045")]),
    ("face.date", [(date(2026, 11, 24), "2026-11-24"), (date(2026, 1, 2), "2026-01-02"), (None, "")]),
    ("face.figures", [(45.1, "45.10"), (0.07, "0.07"), (1200.0, "1200.00")]),
    ("counter.on", [(date(2026, 11, 24), "2026-11-24"), (date(2026, 1, 2), "2026-01-02"), (None, "")]),
    ("counter.amount", [(45.1, "45.10"), (0.07, "0.07"), (None, "")]),
    ("face.signature", [(True, "yes"), (False, "no"), (True, "yes")]),
    ("documents.state", [(17, "17"), (6, "06"), (1, "01")]),
    ("documents.is_bearer", [(True, "yes"), (False, "no"), (True, "yes")]),
]
HEADINGS = [path for path, _ in TYPED]
AS_TYPES = [[cells[row][0] for _, cells in TYPED] for row in range(3)]
AS_TEXT = [[cells[row][1] for _, cells in TYPED] for row in range(3)]


@pytest.mark.parametrize("form", [as_parquet, as_workbook])
def test_cells_with_types_are_read_like_text(form: Any) -> None:
    assert judged(form(HEADINGS, AS_TYPES)) == judged(as_csv(HEADINGS, AS_TEXT))


def test_days_with_a_clock_and_decimals_are_read_like_text() -> None:
    rows = [[datetime(2026, 11, 24), datetime(2026, 11, 24, 14, 3), Decimal("45.1")]]
    headings = ["face.date", "counter.on", "counter.amount"]
    for form in (as_parquet, as_workbook):
        (found,) = tenders(io.BytesIO(form(headings, rows)))
        assert isinstance(found, Item)
        assert (found.tender.face.date.text, found.tender.counter.on, found.tender.counter.amount) == (
            "2026-11-24", date(2026, 11, 24), 4510,
        )  # fmt: skip


@pytest.mark.parametrize("form", [as_parquet, as_workbook])
def test_dollars_of_a_float_to_the_cent(form: Any) -> None:
    amounts = [cents / 100 for cents in range(0, 100_000, 7)]
    found = list(tenders(io.BytesIO(form(["id", "amount"], [["x", amount] for amount in amounts]))))
    assert [item.tender.counter.amount for item in found if isinstance(item, Item)] == list(range(0, 100_000, 7))
