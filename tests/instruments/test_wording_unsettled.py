"""What print on the face is asked about: restricting wording always is, what forms and notices say never is.

The wordings are common practice; each stands alone on its line.
"""

from __future__ import annotations

import os
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wording_lines import HARMLESS, RESTRICTING

from checkface.instruments import infer, legend_limits, not_before, wording

MANY = 2000 if os.environ.get("CHECKFACE_THOROUGH") else 200


def lines(block: str) -> list[str]:
    return block.strip().splitlines()


def test_there_are_enough_of_them() -> None:
    assert len(lines(HARMLESS)) >= 150
    assert len(lines(RESTRICTING)) >= 150


@pytest.mark.parametrize("text", lines(HARMLESS))
def test_what_every_check_may_say_is_not_asked_about(text: str) -> None:
    for shown in (text, text.title(), text.lower(), f"DOLLARS\n{text}\nMEMBER FDIC"):
        assert wording.unsettled(shown) == ()


def test_all_of_it_together_is_not_asked_about_either() -> None:
    print_alone = [text for text in lines(HARMLESS) if not legend_limits(text)]
    assert wording.unsettled("\n".join(print_alone)) == ()


@pytest.mark.parametrize("text", lines(RESTRICTING))
def test_what_restricts_payment_is_understood_or_asked_about(text: str) -> None:
    for shown in (text, text.title(), f"DOLLARS\n{text}\nMEMBER FDIC", f"SECURITY FEATURES ON BACK\n{text}"):
        found = infer(None, {"legends": shown})
        assert found.evidence or found.legends or not_before(shown) or wording.unsettled(shown), shown


@pytest.mark.parametrize(
    "text",
    [
        "rent",
        "loan 12",
        "groceries",
        "cash for kids",
        "gift fund",
        "deposit on piano",
        "school supplies",
        "credit card",
        "refund of overpayment",
        "#1043 equity line",
        "copy paper",
        "fund raiser coupon",
    ],
)
def test_a_purpose_is_the_customers_own_affair(text: str) -> None:
    assert (
        wording.unsettled(text, memo=True)
        == wording.unsettled(f"MEMO: {text}")
        == wording.unsettled(f"MEMO {text.upper()}")
        == ()
    )
    assert not infer(None, {"legends": f"MEMO: {text}"}).evidence


@pytest.mark.parametrize(
    "text",
    [
        "void unless delivered",
        "not good yet",
        "hold till friday",
        "only if it runs",
        "stop",
        "do not cash before monday",
        "paid in full",
    ],
)
def test_a_purpose_that_restricts_payment_counts(text: str) -> None:
    for shown in (text, text.upper()):
        assert wording.unsettled(shown, memo=True) or infer(None, {"memo": shown}).legends


def test_a_line_is_given_with_its_place_and_its_first_word() -> None:
    text = "MEMBER FDIC\n  NOT GOOD UNLESS THE DEED IS SIGNED \nVOID AFTER 90 DAYS UNLESS SEALED"
    found = wording.unsettled(text)
    assert [(line.span.of(text), line.word) for line in found] == [
        ("NOT GOOD UNLESS THE DEED IS SIGNED", "NOT"),
        ("VOID AFTER 90 DAYS UNLESS SEALED", "UNLESS"),
    ]


@given(
    st.text(max_size=200)
    | st.lists(st.sampled_from([*lines(HARMLESS), *lines(RESTRICTING)]), max_size=6).map("\n".join)
)
@settings(max_examples=MANY, deadline=None)
def test_any_print_is_looked_at_and_spans_lie_within(text: str) -> None:
    for memo in (False, True):
        for found in wording.unsettled(text, memo):
            assert 0 <= found.span.start < found.span.end <= len(text)
            assert found.word in found.span.of(text)


@pytest.mark.parametrize(
    "junk", ["void ", "not if\n", "hold", "FOR x\n", "memo ", "a b c ", "\n", "3O DAYS ", "Cash, AR "]
)
def test_a_hundred_thousand_characters_are_looked_at_at_once(junk: str) -> None:
    began = time.process_time()
    wording.unsettled(junk * (100_000 // len(junk)))
    assert time.process_time() - began < 1


@pytest.mark.parametrize(
    "text", ["REMITTER ANN SPECIMEN", "BACK PAY", "PENSION", "WARRAN7", "WITHORAWAL", "PURCHASED BY ANN", "ALTERED"]
)
def test_wording_of_other_paper_is_asked_about(text: str) -> None:
    assert wording.unsettled(text) or infer(None, {"legends": text}).evidence


def test_a_sort_of_account_is_no_other_paper() -> None:
    assert wording.unsettled("PENSION CHECKING") == ()
    assert [found.paper for found in wording.unsettled("PENSION\nHOLD UNTIL SEALED")] == [True]


def test_what_a_bank_pays_for_a_credit_union_is_understood_where_it_is_known_to_be_one() -> None:
    text = "PAYABLE THROUGH NOTIONAL BANK"
    assert wording.unsettled(text)
    assert not wording.unsettled(text, through=True)
    assert wording.unsettled(text + " ONLY", through=True)
