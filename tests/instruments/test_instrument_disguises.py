"""Every phrase is found in each disguise that paper, abbreviation and misreading give it: common practice."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from itertools import product
from typing import Any

import pytest
from clean_tender import patched
from test_instrument_phrases import VARIANTS, beside, found_ids

import checkface as cf
from checkface import tables
from checkface.instruments import Kind, infer

MISREAD = {"o": "0", "i": "1", "l": "I", "s": "5", "a": "4", "b": "8", "e": "3"}
CHECKS = ["CHECK", "CHECKS", "CHEQUE", "CHEQUES", "CK", "CK.", "CKS", "CHK", "CHKS", "DRAFT", "DRAFTS"]
OWNERS = ["{}", "{}S", "{}'S", "{}S'", "{}’S", "{}`S", "{} S", "{}-S", "{}\u02bcS"]
MADE_OUT = {
    Kind.CASHIERS_CHECK: product(["CASHIER", "MANAGER", "TREASURER"], OWNERS),
    Kind.TELLERS_CHECK: product(["TELLER"], OWNERS),
    Kind.TRAVELERS_CHECK: product(["TRAVELER", "TRAVELLER"], OWNERS),
}
BARRED = {
    "treasury-check": ["TREASURY CHECK", "TREASURY DEPARTMENT", "DEPT OF THE TREASURY", "DEPT. OF TREASURY", "U.S. TREAS.",
                       "UNlTED STATES TREASURY", "UNITED ST4TES TREASURY", "U. S. GOVT CHECK", "UNTIED STATES TREASURY"],
    "cashiers-check": ["CASHIER CK", "CASHIER'S DRAFT", "CHEQUE DE CAJERO", "C A S H I E R ' S  C H E C K", "CA5H13R5 CHECK",
                       "C.A.S.H.I.E.R.S  C.H.E.C.K", "CASHIERSCHEQUE", "CASHIERS  CHKS", "BANKERS CHECK", "BANKER'S CK"],
    "tellers-check": ["BANKER'S DRAFT", "TELLER'S DRAFT", "BANK DRAFT", "T E L L E R S C H E C K"],
    "certified-check": ["CERTIFIED CK", "CERT. CHECK", "CERTIFIED CHQ"],
    "travelers-check": ["TRAVELER'S CK", "TRAVELERS CKS", "TRAVELLERS' CHEQUES"],
    "money-order": ["M0NEY 0RDER", "MONEYORDER", "M O N E Y  O R D E R", "MONEY ORD.", "EXPRESS MONEY ORDER"],
    "postal-money-order": ["US POSTAL MONEY ORDER", "USPS MONEY ORDER", "POST OFFICE MONEY ORDER"],
    "investment-draft": ["INVESTMENT DRAFT", "INVESTMENT COMPANY DRAFT", "MUTUAL FUND CHECK", "MONEY MARKET FUND"],
    "credit-line-draft": ["HOME EQUITY", "EQUITY LINE", "HELOC", "HOME EQUITY CK", "CONVENIENCE CHKS"],
    "remotely-created-check": ["REMOTELY CREATED CHECK", "TELEPHONE CHECK", "SIGNATURE NOT REQUIRED"],
    "substitute-check": ["IMAGE REPLACEMENT DOCUMENT", "SUBSTITUTE CHEQUE"],
    "government-check": ["GOVERNMENT CHECK", "GOVT CK", "STATE CHECK", "COUNTY WARRANT", "MUNICIPAL CHECK", "WARRANTS NO 12"],
    "federal-bank-item": ["FEDERAL RESERVE BANK", "FED. RESERVE BANK"],
    "payroll-check": ["PAYROLL CK", "PAYROLL"],
    "counter-check": ["STARTER CK", "TEMPORARY CHECK"],
}  # fmt: skip
ELSEWHERE = [
    ("drawer", "TREASURY CHECK", "treasury-check"),
    ("drawer", "TREASURY", "treasury-check"),
    ("drawer", "TRAVELERS CHEQUE", "travelers-check"),
    ("drawer", "C 4 S H 1 E R S  C H E C K", "cashiers-check"),
    ("drawee", "TREASURY CHECK", "treasury-check"),
    ("drawee", "TREASURY", "treasury-check"),
    ("drawee", "STATE OF ILLINOIS", "government-check"),
    ("drawee", "CITY OF SPRINGFIELD TREASURER", "government-check"),
]
INNOCENT = {
    "face.drawer": [
        ["Ann Traveler", "12 Treasury St", "Money MS"], ["Ann Cashmere", "12 State St", "Springfield IL"],
        ["Bo Check", "1 Warrant Rd", "Springfield IL"], ["Ann Teller", "12 Government Sq", "Cash AR 71639"],
        ["Mary Banks", "9 Certified Ln", "Order MS"],
    ],
    "face.drawee": [
        ["Cashmere Valley Bank", "12 State St"], ["Specimen Bank", "City of Industry, CA 91748"],
        ["Treasury Department Federal Credit Union"], ["State Bank of Springfield"], ["Bankers Specimen Bank"],
        ["Travelers Rest State Bank"], ["Specimen Bank", "1 Treasury Pl"],
    ],
    "face.payee": [["Money Order Store"], ["State of Illinois"], ["United States Treasury"], ["Traveler's Check Cafe"]],
    "face.legends": [["STATE CHECKING"], ["EQUITY CHECKING"], ["PERSONAL CHECKING"], ["CASH BACK"], ["MONEY MARKET CHECKING"],
                     ["MONEY ORDER FEE $1"], ["CHECKS CASHED HERE"], ["TREASURY BLUE SECURITY PAPER"]],
}  # fmt: skip


def rules(**patch: Any) -> set[str]:
    found = cf.assess(patched({"documents": "(absent)"} | patch))
    return {finding.rule for finding in found.findings}


@pytest.mark.parametrize(("rule", "text"), [(rule, text) for rule, texts in BARRED.items() for text in texts])
def test_what_is_really_printed_on_such_paper(rule: str, text: str) -> None:
    for legends in (
        text,
        text.lower(),
        f"SECURITY FEATURES ON BACK\n{text}\nDOLLARS",
        f"** {text} **",
        f"ANYTOWN {text}",
    ):
        assert rule in rules(**{"face.legends": legends}), legends


@pytest.mark.parametrize(("reading", "text", "rule"), ELSEWHERE)
def test_where_such_wording_stands_besides_the_legends(reading: str, text: str, rule: str) -> None:
    assert rule in rules(**{f"face.{reading}": [text, "12 Elm St", "Springfield IL"]})


@pytest.mark.parametrize(("path", "lines"), [(path, lines) for path, every in INNOCENT.items() for lines in every])
def test_what_only_looks_like_it_stays_a_personal_check(path: str, lines: list[str]) -> None:
    """A name that is a sign as well may be asked about; nothing more."""
    found = rules(**{path: lines}) - {"pillar-not-seen", "payee-house-unknown"}
    assert found <= {"face.drawer": {"drawer-unclear"}, "face.drawee": {"drawee-unclear"}}.get(path, set())


@pytest.mark.parametrize("kind", MADE_OUT)
def test_every_form_of_owner_and_paper(kind: Kind) -> None:
    missed = []
    for (owner, form), paper in product(MADE_OUT[kind], CHECKS):
        text = f"{form.format(owner)} {paper}"
        if kind not in {evidence.kind for evidence in infer(None, {"legends": text}).evidence}:
            missed.append(text)
    assert missed == []


def misread() -> Iterator[tuple[dict[str, Any], str]]:
    for row, variant in VARIANTS:
        for letter, sign in MISREAD.items():
            text = re.sub(rf"(?<=\w){letter}|{letter}(?=\w)", sign, variant)
            yield row, text if sign == "I" else text.upper()


def set_apart() -> Iterator[tuple[dict[str, Any], str]]:
    for row, variant in VARIANTS:
        words = variant.upper().split()
        if len("".join(words)) >= 3 and variant.replace(" ", "").replace("'", "").isalpha():
            yield row, "  ".join(map(" ".join, words))
            yield row, "   ".join(". ".join(word.replace("'", "")) for word in words)


def run_together() -> Iterator[tuple[dict[str, Any], str]]:
    for row, variant in VARIANTS:
        text = re.sub("[ ']", "", variant)
        if "kind" in row and row["weight"] != "hint" and len(text) >= 7 and text.isascii() and text.isalpha():
            yield row, text.upper()


UNTOLD = re.compile(r"(?<!\w)\d+(?!\w)|(?<!\w)(?:[A-Z]{1,3}\d\d|\d\d[A-Z]{1,3})(?!\w)|(?<!\w)\d\w*\$")
"""A word all in figures, a code with its number, and a sum of money: nobody can tell them from what they are."""


@pytest.mark.parametrize("disguise", [misread, set_apart, run_together])
def test_every_phrase_is_found_in_disguise(disguise: Callable[[], Iterator[tuple[dict[str, Any], str]]]) -> None:
    tried = missed = 0
    for row, text in disguise():
        reading = "legends" if "legends" in row["readings"] else row["readings"][0]
        if UNTOLD.search(text) or (reading == "drawer" and re.search(r"\s\d", text)):  # there an address begins
            continue
        tried += 1
        if (row["id"], row["weight"]) not in found_ids(reading, beside(row, text)):
            missed += 1
            print(row["id"], text)
    assert missed == 0
    assert tried > 500


def test_no_word_has_two_spellings_that_stand_for_different_words() -> None:
    table = tables.load("instrument_phrases").data
    owners: dict[str, str] = {}
    for word, others in table["words"].items():
        for other in {word, *others}:
            assert owners.setdefault(other, word) == word
    assert not owners.keys() & table["short"].keys()
