"""The notation block takes down what the state allows, and never a number."""

from __future__ import annotations

from datetime import date

import pytest

from checkface.handling.notation import noted
from checkface.tender import Document

ON = date(2026, 11, 24)
LICENSE = Document(kind="drivers-license", number="12345678", state="48", expires="2027-01-01")


@pytest.mark.parametrize(
    ("state", "number", "wanted"),
    [
        ("", False, "ID drivers license TX current"),
        ("TX", True, "ID drivers license TX current"),  # the safe default: no number, whatever the house wants
        ("MA", False, "ID drivers license TX current"),
        ("MA", True, "ID drivers license TX current no. ________"),  # Mass. G.L. c. 93 s. 105(b)
        ("DC", True, "ID drivers license current exp 01/01/2027"),  # D.C. Code 47-3152
    ],
)
def test_what_each_state_allows(state: str, number: bool, wanted: str) -> None:
    assert noted(LICENSE, state, ON, number=number) == wanted


@pytest.mark.parametrize(
    ("document", "wanted"),
    [
        (
            Document(kind="drivers-license", state="48", expires="2026-01-01"),
            "ID drivers license TX",
        ),  # past: not current
        (Document(kind="drivers-license", state="48"), "ID drivers license TX"),
        (Document(kind="library card"), ""),
        (Document(), ""),
    ],
)
def test_what_is_not_known_is_not_noted(document: Document, wanted: str) -> None:
    assert noted(document, "TX", ON, number=True) == wanted


def test_an_expiry_nobody_gave_is_a_line_to_write_on() -> None:
    assert noted(Document(kind="passport"), "DC", ON, number=False) == "ID passport exp ________"


def test_a_card_that_was_only_scanned_is_read() -> None:
    # The worked example of the AAMVA DL/ID Card Design Standard 2020, shortened to what is noted.
    payload = (
        "@\n\x1e\rANSI 636000100001DL00310062DLDAQT64235789\nDCSSAMPLE\nDACMICHAEL\nDBB06061986\nDBA12102027\nDCGUSA\r"
    )
    text = noted(Document(barcode=payload), "TX", ON, number=True)
    assert text.endswith("VA current")
    assert "64235789" not in text


def test_without_a_day_nothing_is_called_current() -> None:
    assert noted(LICENSE, "TX", None, number=False) == "ID drivers license TX"
