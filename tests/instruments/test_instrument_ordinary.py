"""What is printed on ordinary checks says nothing of the kind, voids nothing and limits nothing."""

from __future__ import annotations

import time

import pytest

from checkface.instruments import Kind, LineFacts, infer, legend_limits, payees

ORDINARY = LineFacts(series="thrift", auxiliary=False, account=True, serial=True, country="US")
PRINTED = """
PAY TO THE ORDER OF
DOLLARS
MEMO
DATE
AUTHORIZED SIGNATURE
MP
MEMBER FDIC
MEMBER FEDERAL RESERVE SYSTEM
SHARE DRAFT
PAYABLE THROUGH SPECIMEN CREDIT UNION
INTEREST CHECKING
MONEY MARKET CHECKING
PREMIUM CHECKING
SECURITY FEATURES INCLUDED. DETAILS ON BACK.
ORIGINAL DOCUMENT PRINTED ON CHEMICAL REACTIVE PAPER WITH MICROPRINTED BORDER
THIS DOCUMENT CONTAINS HEAT SENSITIVE INK. TOUCH OR PRESS HERE - RED IMAGE DISAPPEARS WITH HEAT.
THE BACK OF THIS DOCUMENT CONTAINS AN ARTIFICIAL WATERMARK - HOLD AT AN ANGLE TO VIEW
ENDORSE HERE
DO NOT WRITE, STAMP OR SIGN BELOW THIS LINE. RESERVED FOR FINANCIAL INSTITUTION USE
VOID WITHOUT MULTI-COLORED BACKGROUND
THIS CHECK IS VOID WITHOUT A BLUE BORDER
VOID IF ALTERED OR DETACHED
THE WORD VOID WILL APPEAR IF PHOTOCOPIED
NOT NEGOTIABLE WITHOUT WATERMARK
DO NOT CASH UNLESS THE PADLOCK FADES
YOUR CANCELLED CHECK IS YOUR RECEIPT
FORM 1099 REV. 12/2026
EST. 1926
UNION LABEL 35
RECYCLED PAPER - CERTIFIED FOREST
A FEE IS CHARGED FOR RETURNED CHECKS
RETURNED CHECK FEE $25
HOLD TO LIGHT TO VIEW WATERMARK
HOLD THIS CHECK AT AN ANGLE
DO NOT CASH BEFORE VERIFYING WATERMARK
NSF FEE MAY APPLY
AMOUNT PAID
DATE PAID
CONVENIENCE FEE
THIS CHECK MAY BE CONVERTED TO AN ELECTRONIC DEBIT
PAID TO
SECURITY FEATURES: VOID, MICROPRINT, WATERMARK
SECURITY FEATURES: WATERMARK, MICROPRINT, VOID
VOID FEATURES
VOID COPY PROTECTION
LAID LINES, VOID PROTECTION
VOID PROTECTED
VOID INDICATES COPY
VOID ON COPY
VOID TO COPY
VOID DISPLAYED WHEN PHOTOCOPIED
VOID IN BACKGROUND
CONSECUTIVE VOID
INVISIBLE VOID
COPY APPEARS VOID
SECURITY FEATURES: VOID PANTOGRAPH, COPY VOID
NOT NEGOTIABLE WHEN COPIED
DUPLICATE
"""
PEOPLE = "JORDAN SPECIMEN\n   ALEX SPECIMEN\n12 MAPLE ST\nANYTOWN PA 15001\n(555) 555-0100"


@pytest.mark.parametrize("text", PRINTED.strip().splitlines())
def test_ordinary_print_says_nothing(text: str) -> None:
    for shown in (text, text.title(), text.lower()):
        found = infer(ORDINARY, {"legends": shown, "drawer": PEOPLE})
        assert found.kind is Kind.PERSONAL
        assert found.rivals == ()
        assert found.legends == ()
        assert legend_limits(shown) == ()


def test_all_of_it_together_says_nothing_either() -> None:
    found = infer(ORDINARY, {"legends": PRINTED, "drawer": PEOPLE})
    assert (found.kind, found.rivals, found.legends) == (Kind.PERSONAL, (), ())


@pytest.mark.parametrize(
    "junk",
    [
        *("a", "A-", "a'", "a b c ", "A, ", "A.", "1 ", "aa 1", "PO BOX ", "84 x ", " ", "\n", "é", "C$"),
        *(
            "void ",
            "inc\n",
            "city of church ",
            "bank of\n",
            "money order ",
            "VOID AFTER ",
            "one hundred ",
            "$",
            "_",
            "Jan 1 ",
        ),
    ],
)
def test_eight_times_the_junk_takes_no_square_of_the_time(junk: str) -> None:
    def spent(size: int) -> float:
        text = "JORDAN " + junk * (size // len(junk)) + "!"
        best = float("inf")
        for _ in range(3):
            began = time.process_time()
            for reading in ("drawer", "drawee", "legends"):
                infer(ORDINARY, {reading: text})
            legend_limits(text)
            payees(text)
            best = min(best, time.process_time() - began)
        return best

    # Eight times as long would take 64 times as long if it were a square.
    assert spent(64_000) < 32 * max(spent(8_000), 1e-4)
