"""The preview shows every paper, at the printer's width."""

from __future__ import annotations

import pytest
from handling_help import HOUSE, LANE, made
from hypothesis import given, settings
from hypothesis import strategies as st

from checkface.handling import Printing, preview_text
from checkface.handling.layout import cells

BLANKS = {"face.payee": "", "face.date": "", "face.figures": "", "face.words": ""}


def test_a_kept_check_with_blanks() -> None:
    assert preview_text(made("keep", BLANKS), 40) == (
        "FRONT OF CHECK (SPECIMEN)\n"
        "........................................\n"
        "payee line:\n"
        "  Quillfeather Grocery\n"
        "date line:\n"
        "  11/24/2026\n"
        "amount box:\n"
        "  $45.10\n"
        "legal line:\n"
        "  Forty-five and 10/100\n"
        "notation block:\n"
        "  114 / QF 11/24/2026 10:32\n"
        "  ID drivers license IL current\n"
        "  Tel 217-555-0142\n"
        "\n"
        "BACK OF CHECK (SPECIMEN)\n"
        "........................................\n"
        "endorsement area:\n"
        "  DEPOSIT ONLY - Quillfeather Grocery\n"
        "  Store 0007 11/24/2026\n"
    )


def test_the_receipt_fills_the_width() -> None:
    lines = preview_text(made("convert"), 32).splitlines()
    assert "Paid to     Quillfeather Grocery" in lines
    assert "Amount                    $45.10" in lines


def test_conditions_are_shown() -> None:
    assert "(if the payee line is blank)" in preview_text(made("keep", {"face.payee": "(absent)"}))


def test_nothing_is_printed_for_a_referral() -> None:
    assert preview_text(made("refer")) == "Nothing is printed.\n"


@settings(max_examples=40)
@given(st.integers(16, 80), st.sampled_from(["convert", "keep", "refer", "decline"]), st.text(max_size=60))
def test_no_line_is_wider_than_the_printer(width: int, disposition: str, name: str) -> None:
    policy = HOUSE.model_copy(update={"house": HOUSE.house.model_copy(update={"name": name})})
    text = preview_text(made(disposition, BLANKS, policy=policy, printing=Printing(pad="down")), width)
    assert max(map(cells, text.splitlines())) <= width


def test_a_width_that_fits_no_receipt_is_refused() -> None:
    with pytest.raises(ValueError, match="read 8"):
        preview_text(made("keep", printing=LANE), 8)
