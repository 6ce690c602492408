"""Every variant of every phrase is found where it counts, and a look-alike of every phrase is not."""

from __future__ import annotations

import os
import tomllib
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from checkface import instruments, tables
from checkface.instruments import address, phrases
from checkface.instruments.tokens import tokenise

MANY = 2000 if os.environ.get("CHECKFACE_THOROUGH") else 200
ROWS: list[dict[str, Any]] = tomllib.loads((tables.folder() / "instrument_phrases.toml").read_text("utf-8"))["phrase"]
VARIANTS = [(row, variant.replace("#", "12")) for row in ROWS for variant in row["variants"]]

LOOK_ALIKES = """
cashiers-check         payee    Cashier's Check Cashing
cashiers-check         legends  CASHIER CHECKS ID
cashiers-check         legends  CASHIER TO CHECK BACK
cashiers-check         drawer   J CASHIER / 1 ELM ST
tellers-check          drawee   TELLER COUNTY BANK
tellers-check          legends  TELLER TO CHECK ID
tellers-check          payee    Teller Check
official-check         legends  OFFICIAL USE ONLY. CHECK BACK
official-check         payee    Official Check Co
certified-check        legends  CERTIFIED PAPER
certified-check        payee    Certified Check Co
certified-check        legends  CERTIFIED FORESTS
certified-stamp        legends  CERTIFIED PUBLIC ACCOUNTANT
certified-stamp        payee    CERTIFIED
certified-stamp        legends  ACCEPTED HERE
travelers-check        payee    Traveler's Check
travelers-check        legends  COUNTERSIGNATURE
travelers-check        drawer   TRAVELERS REST / 1 ELM ST
postal-money-order     payee    Postal Money Order
postal-money-order     legends  POSTAL CODE
postal-money-order     payee    Postal money order
postal-service         payee    United States Postal Service
postal-service         legends  POSTAL SERVICE
money-order            payee    Money Order Store
money-order            drawer   MONEY ORDER EXPRESS / 1 ELM ST
money-order            legends  ORDER MONEY
treasury-check         payee    United States Treasury
treasury-check         drawer   ANN SPECIMEN / 1 TREASURY LANE
treasury-check         drawee   U.S. TREASURY DEPARTMENT FEDERAL CREDIT UNION
treasury-check         legends  PAY TO UNITED STATES TREASURY
government-officer     payee    County Treasurer
government-officer     legends  PAYABLE TO COUNTY TREASURER
government-officer     drawer   A TREASURER / 1 ELM ST
warrant                payee    County Warrant
warrant                legends  WE WARRANT THIS PAPER
warrant                drawer   J WARRANT NO / 1 ELM ST
warrant-alone          drawer   WARRANT
warrant-alone          legends  WARRANT OFFICER
government-place       drawer   CITY OF REFUGE CHURCH
government-place       drawer   STATE OF MIND YOGA
government-place       payee    City of Anytown
government-word        payee    Teller County
government-word        drawer   ANN SPECIMEN / 1 COUNTY ROAD
federal-bank           legends  MEMBER FEDERAL RESERVE SYSTEM
federal-bank           payee    Federal Reserve Bank of X
federal-bank           drawee   RESERVE BANK
savings-bond           payee    United States Savings Bond
savings-bond           drawer   SAVINGS BOND SERIES
savings-bond           legends  SAVINGS BANK
credit-line-draft      payee    Line of Credit
credit-line-draft      drawer   CREDIT LINEMAN / 1 ELM ST
credit-line-draft      legends  CREDIT UNION SHARE DRAFT
investment-draft       legends  MONEY MARKET ACCOUNT
investment-draft       legends  SHARE DRAFT
investment-draft       payee    Mutual Fund
investment-draft       legends  FUNDS
remotely-created       legends  AUTHORIZED SIGNATURE
remotely-created       legends  TWO SIGNATURES REQUIRED
gift-check             payee    Gift Check Kiosk
gift-check             legends  GIFT CARDS SOLD HERE
remotely-created       payee    No Signature Required
remotely-created       legends  NO SIGNATURE REQUIRED UNDER $50
substitute-check       legends  LEGAL COPY
substitute-check       legends  ORIGINAL CHECK
substitute-check       legends  COPY OF YOUR CHECK
foreign-currency       payee    Euro Cafe
foreign-currency       drawer   CANADIAN DOLLARS / 1 ELM ST
foreign-currency       words    Forty dollars
foreign-currency       figures  $45.10
foreign-currency-word  drawer   EZRA POUNDS / 1 ELM ST
foreign-currency-word  payee    Pesos
foreign-currency-word  legends  POUNDS
counter-check          payee    Counter Check
counter-check          drawer   COUNTER CHECK GAMES
counter-check          legends  COUNTERSIGN
payroll                payee    Payroll Plus
payroll                legends  PAY TO THE ORDER OF
payroll                words    payroll
business-form          payee    Specimen Inc
business-form          drawer   ANN SPECIMEN / 1 COMPANY RD
business-form          drawee   BANK CORP
business-account       payee    Operating Account Services
business-account       legends  ACCOUNT NUMBER
foreign-currency-code  legends  CAD 12/26
foreign-currency-code  drawer   EUR SPECIMEN / 1 ELM ST
foreign-currency-code  figures  $45.10 USD
void                   legends  DO NOT ACCEPT IF VOID IS VISIBLE
void                   legends  COPIES SHOW VOID
business-organisation  payee    First Church
business-organisation  drawer   ANN SPECIMEN / 9 UNIVERSITY AVE
no-check               legends  REORDER DEPOSIT SLIPS
no-check               payee    Coupon
no-check               legends  DEPOSIT TO ACCOUNT
abbreviated            drawer   ANN SPECIMEN / 1 ELM CH
abbreviated            payee    Ann Specimen Esq
capacity               payee    Guardian Ann Specimen
capacity               legends  TRUSTEE
capacity               drawer   ANN SPECIMEN / 1 GUARDIAN RD
profession             payee    Abogado Ann Specimen
profession             drawer   ANN LAW / 1 ELM ST
depository             payee    Specimen Bank
depository             legends  CREDIT UNION
depository             drawee   SPECIMEN FINANCIAL
obligor                legends  SECURITIES
obligor                drawee   SPECIMEN BANK / 1 TREASURE RD
obligor-maybe          drawee   SPECIMEN BANK
obligor-maybe          legends  CARD
payable-through        drawee   PAYABLE TO SPECIMEN
payable-through        legends  PAYABLE AT
abroad                 drawee   BANK OF NEW ENGLAND
abroad                 legends  MEXICO
harmless-form          legends  ORDER
harmless-form          drawer   OFFICE USE ONLY
harmless-union         legends  PAYABLE THROUGH NOTIONAL BANK
harmless-union         drawee   PAYABLE THROUGH SPECIMEN CREDIT UNION
harmless-notice        legends  NOT VALID
asked                  legends  BENEFITS PEOPLE
asked                  payee    Child Support
asked-alone            legends  PLEASE RETAIN FOR YOUR RECORDS
asked-alone            memo     retain for your records
abroad-form            drawee   SPECIMEN BANK N A
abroad-form            drawee   S A SPECIMEN CREDIT UNION
harmless-notice        payee    If found
business-word          payee    Corner Store
business-word          drawer   ANN SPECIMEN / 9 CHURCH ST
business-word          drawer   ANN SPECIMEN / 9 ELM ST / DENVER, CO 80202
business-word          drawer   ANN SPECIMEN 9 FARM RD
bank-name              drawer   FOOD BANK OF ANYTOWN
bank-name              payee    Bank of Anytown
bank-name              drawee   STATE BANK
bank-name-end          drawer   BANK STREET CAFE
bank-name-end          drawer   ANYTOWN FOOD BANK
bank-name-end          payee    Anytown Bank
void                   legends  VOID AFTER 90 DAYS
void                   legends  VOID 90 DAYS FROM DATE
void                   legends  VOID OVER $500
void                   legends  VOID IN EXCESS OF $500
void                   legends  VOID FOR AMOUNTS OVER $500
void                   legends  VOID IF ALTERED
void                   legends  VOID WITHOUT WATERMARK
void                   legends  THE WORD VOID APPEARS IF COPIED
void                   legends  VOID PANTOGRAPH
void                   drawer   JAMES VOID / 1 ELM ST
void                   legends  AVOID FOLDING
void-written           payee    Void Records
void-written           drawer   JAMES VOID / 1 ELM ST
void-written           words    void check 1042
void-cancelled         legends  YOUR CANCELLED CHECK IS YOUR RECEIPT
void-cancelled         payee    Cancel Co
converted              legends  THIS CHECK MAY BE PROCESSED ELECTRONICALLY
converted              payee    Converted to ACH
specimen               payee    Specimen Market
specimen               drawer   COPY SHOP / 1 ELM ST
specimen               legends  DUPLICATE CHECK BOOKS
copy-wording           payee    Customer Copy
copy-wording           legends  ORIGINAL DOCUMENT
non-negotiable         legends  NEGOTIABLE
non-negotiable         legends  NOT NEGOTIABLE AFTER 90 DAYS
non-negotiable         drawer   NOT NEGOTIABLE / 1 ELM ST
full-satisfaction      drawer   PAID IN FULL / 1 ELM ST
full-satisfaction      legends  FULL PAYMENT OF RENT
full-satisfaction      legends  PAID IN CASH
acceptance-terms       legends  ENDORSE HERE
acceptance-terms       drawer   BY CASHING THIS CHECK / 1 ELM ST
treasury-alone         drawer   ANN SPECIMEN / 12 TREASURY ST
treasury-alone         legends  TREASURY BLUE PAPER
treasury-alone         payee    Treasury
federal-body           drawee   SOCIAL SECURITY ADMINISTRATION FEDERAL CREDIT UNION
federal-body           payee    Internal Revenue Service
federal-body           legends  PAY TO INTERNAL REVENUE SERVICE
federal-body           drawer   ANN SPECIMEN / US ARMY RETIRED
government-check       legends  GOVERNMENT CHECKS CASHED HERE
government-check       drawer   STATE CHECK CASHING
government-check       payee    State Check
government-check       drawer   ANN SPECIMEN / 12 STATE ST
government-drawee      drawee   STATE OF ILLINOIS EMPLOYEES CREDIT UNION
government-drawee      drawee   SPECIMEN BANK / CITY OF INDUSTRY, CA 91748
government-drawee      payee    City of Anytown
federal-bank-drawer    drawee   SPECIMEN BANK / FEDERAL RESERVE ST
federal-bank-drawer    drawer   FEDERAL RESERVE EMPLOYEES CREDIT UNION
business-form-end      drawer   P C SPECIMEN / 1 ELM ST
business-form-end      payee    Bell Dental PC
business-surname       drawer   MARY CHURCH / 1 ELM ST
business-surname       drawer   TOM STEEL AND ANN COFFEE / 1 ELM ST
business-article       drawer   ANN SPECIMEN THE THIRD / 1 ELM ST
business-article       payee    The Corner
business-paper         legends  INTEREST CHECKING
business-paper         payee    Gift Check
void-paid              legends  AMOUNT PAID
void-paid              legends  PAID TO THE ORDER OF
void-paid              legends  THE FEE MAY BE PAID
void-paid              payee    Paid Society
returned               legends  RETURNED CHECK FEE $25
returned               legends  A FEE IS CHARGED FOR RETURNED CHECKS
returned               legends  STOP PAYMENT FEE
returned               payee    Returned Goods
not-convertible        legends  THIS CHECK MAY BE CONVERTED TO AN ELECTRONIC DEBIT
not-convertible        drawee   NO ACH
not-before             legends  HOLD THIS CHECK UP TO THE LIGHT
not-before             legends  DO NOT CASH BEFORE VERIFYING THE WATERMARK
not-before             legends  VOID AFTER 90 DAYS
not-before             drawer   POST DATED / 1 ELM ST
good-from              legends  NOT VALID AFTER 90 DAYS
good-from              legends  DO NOT CASH AFTER 12/31/2026
good-from              payee    Good After Dark
second-signature       legends  AUTHORIZED SIGNATURE
second-signature       legends  SIGNATURE REQUIRED
second-signature       payee    Two Signatures Required
armed-forces           drawer   ANN SPECIMEN / US ARMY RETIRED
armed-forces           legends  PROUD VETERAN UNITED STATES ARMY
armed-forces           payee    US Navy
certified-dated        legends  CERTIFIED 100% RECYCLED PAPER
certified-dated        legends  CERTIFIED PAPER 12
certified-by-bank      legends  CHECKS ACCEPTED AT ANY BANK
certified-by-bank      legends  CERTIFIED FOREST PAPER FOR YOUR BANK
certified-by-bank      payee    Certified Bank Supply
countersign-line       legends  COUNTERSIGN HERE IF OVER $500
countersign-line       drawer   COUNTERSIGN HERE
money-order-short      legends  M O SPECIMEN
money-order-short      legends  MO
warrant-of-state       legends  WE WARRANT THIS PAPER IN EVERY STATE
warrant-of-state       drawer   STATE WARRANT
substitute-alone       legends  NOT A LEGAL COPY
substitute-alone       payee    IRD
foreign-currency-alone legends  CAD 12/26
foreign-currency-alone payee    Pounds
void-cancelled-by      legends  YOUR CHECK CAN BE CANCELLED BY PHONE
void-cancelled-by      payee    Cancelled by
void-payee             payee    Void Records
void-payee             payee    Into the Void
void-payee             payee    Avoidance Grocery
converted-stamp        legends  CHECK HERE FOR MOBILE DEPOSIT
converted-stamp        legends  MUST BE DEPOSITED 90 DAYS FROM DATE
converted-mobile       legends  CHECK HERE IF FOR MOBILE DEPOSIT ONLY AT
converted-mobile       payee    For mobile deposit only at
returned-stamp         legends  UNCOLLECTED ITEMS FEE
returned-stamp         payee    Uncollected
subject-to             legends  SUBJECT TO SERVICE CHARGE
subject-to             legends  SCHOOL SUBJECT
subject-to             drawer   SUBJECT TO CHANGE / 1 ELM ST
"""
"""Phrase, reading and a text in which the phrase must not be found; a slash stands for a line break."""


def look_alikes() -> list[tuple[str, str, str]]:
    rows = (line.split(maxsplit=2) for line in LOOK_ALIKES.strip().splitlines())
    return [(phrase, reading, text.replace(" / ", "\n")) for phrase, reading, text in rows]


def found_ids(reading: str, text: str) -> set[tuple[str, str]]:
    """Id of the phrase and its weight, as the whole inference has it: evidence by its wording, legends by their id."""
    hits = phrases.scan({reading: text})
    inference = instruments.infer(None, {reading: text})
    spoken = {(e.reading, e.span) for e in inference.evidence} | {(e.reading, e.span) for e in inference.legends}
    alone = [hit for group in ("harmless", "drawee") for hit in phrases.scan({reading: text}, group)]
    return {(hit.phrase.id, hit.weight) for hit in hits if (hit.reading, hit.span) in spoken} | {
        (hit.phrase.id, hit.weight) for hit in alone
    }


def beside(row: dict[str, Any], text: str) -> str:
    """A text with a word beside it without which it does not count, where the phrase wants one."""
    return f"{text} {row['beside'][0]}" if "beside" in row else text


def test_every_phrase_has_look_alikes_and_a_source() -> None:
    assert {phrase for phrase, _, _ in look_alikes()} == {row["id"] for row in ROWS}
    assert len({row["id"] for row in ROWS}) == len(ROWS)
    for row in ROWS:
        assert row["source"]
        assert ("kind" in row) != ("family" in row)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_every_variant_is_found_where_it_counts(row: dict[str, Any]) -> None:
    for variant in (text for found, text in VARIANTS if found is row):
        for text in (variant, variant.upper(), variant.title().replace(" ", "  ")):
            for reading in row["readings"]:
                assert (row["id"], row["weight"]) in found_ids(reading, beside(row, text)), text
            for reading in row.get("hints", ()):
                assert (row["id"], "hint") in found_ids(reading, text), text


@pytest.mark.parametrize(("phrase", "reading", "text"), look_alikes())
def test_a_look_alike_is_not_found(phrase: str, reading: str, text: str) -> None:
    weights = {weight for found, weight in found_ids(reading, text) if found == phrase}
    assert not weights


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("** CASHIER’S  CHECK **", "CASHIER’S  CHECK"),
        ("Cashier's-Check", "Cashier's-Check"),
        ("CÀSHIÉR'S CHECK", "CÀSHIÉR'S CHECK"),
        ("CASHIER'S\nCHECK", "CASHIER'S\nCHECK"),
        ("C A S H I E R S  CHECK", "C A S H I E R S  CHECK"),
        ("C A S H I E R S  C H E C K", "C A S H I E R S  C H E C K"),
        ("CA5HIER5 CHECK", "CA5HIER5 CHECK"),
        ("CASH\u200bIER'S CHECK", "CASH\u200bIER'S CHECK"),
        ("САSHIER'S CHECK", "САSHIER'S CHECK"),  # Cyrillic letters
        ("ＣＡＳＨＩＥＲＳ ＣＨＥＣＫ", "ＣＡＳＨＩＥＲＳ ＣＨＥＣＫ"),
    ],
)
def test_disguise_does_not_help_and_the_span_is_into_the_raw_text(text: str, shown: str) -> None:
    (hit,) = phrases.scan({"legends": text})
    assert hit.phrase.id == "cashiers-check"
    assert hit.span.of(text) == shown


def test_the_longest_phrase_counts_alone() -> None:
    (hit,) = phrases.scan({"legends": "UNITED STATES POSTAL MONEY ORDER"})
    assert hit.phrase.id == "postal-money-order"


phrases._index()  # read once, so that no example is timed with it
WORDS = sorted({token.word for _, variant in VARIANTS for token in tokenise(variant)})


@given(st.lists(st.sampled_from(WORDS), max_size=6), st.sampled_from(["legends", "drawer", "payee", "words"]))
@settings(max_examples=MANY)
def test_the_quick_look_never_hides_a_phrase(words: list[str], reading: str) -> None:
    text = " ".join(words)
    looked_at = address.names(text) if reading == "drawer" else text  # an address is no name
    closely = list(phrases._hits(reading, looked_at, phrases._index()))
    assert phrases.scan({reading: text}) == closely


@given(st.dictionaries(st.sampled_from(["legends", "drawer", "drawee", "payee", "words", "x"]), st.text(max_size=80)))
@settings(max_examples=MANY)
def test_any_wording_is_scanned_and_spans_lie_within_it(wording: dict[str, str]) -> None:
    for hit in phrases.scan(wording):
        assert 0 <= hit.span.start < hit.span.end <= len(wording[hit.reading])
