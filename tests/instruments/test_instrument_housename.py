"""Payees as people write them against the names of invented houses: what is the house, near it, or another."""

from __future__ import annotations

import os

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from checkface.instruments import payee_match
from checkface.instruments.misspelling import Alike, alike

MANY = 2000 if os.environ.get("CHECKFACE_THOROUGH") else 200

#: House, verdict, payees as they stand on paper, parted by bars.
PAIRS = [
    (
        "Quillfeather Grocery",
        "same",
        ("Quillfeather Grocery|QUILLFEATHER GROCERY|quillfeather grocery|The Quillfeather Grocery|Quillfeather Grocery, Inc."
        "|Quillfeather Grocery LLC|Quillfeather Grocery Co|Quill-Feather Grocery|Quill Feather Grocery|Quilfeather Grocery"
        "|Quillfether Grocry|Quillfeather Grocery.|QU1LLFEATHER GR0CERY|QUlLLFEATHER GROCERY|Quillfeather's Grocery"
        "|Quillfeathers Grocery|Quillfeather Groceries|Quillfaether Grocery|Quillfeather Grocer|Quillfeather Groc."
        "|Pay to the order of Quillfeather Grocery ----|*** Quillfeather Grocery ***|Qui11feather Grocery"
        "|Q U I L L F E A T H E R  GROCERY|Quillpheather Grocery|Quillfeather Grocrey|Quillfeather  Grocery  "
        "|Quillfeather Grocery & Co.|Quillfeathre Grocery|Quillfeather’s Grocery|QUILLFEATHER GRO|To Quillfeather Grocery"
        "|Quillfeather Grocery Store|Quillfeather Groc. Store"),
    ),
    ("Quillfeather", "same", "Quillfeather's|QUILLFEATHERS|Quillfeathers"),
    ("Walker's", "near", "Walker"),
    (
        "Quillfeather Grocery",
        "near",
        ("Quillfeather|Quillfeather's|QF Grocery|Quillfeather Grocery #12|Quillfeather Grocery No. 12|Quillfeather Grocery 12"
        "|Quillfeather #12|Quillfeather Grocery of Anytown|Quillfeather Grocery Anytown|Quillfeather Grocery, Anytown PA"
        "|Quillfeather Foods|Quillfeather Market|Quillfeather Pharmacy|Quillfeather Super Market"
        "|Quillfeather of Anytown|Quillfeather Grocery & Deli|Quillfeather Grocery and Pharmacy|Quillfeather Food & Drug"
        "|Quillfeater Grocery|Quillfeath|Grocery|Grocery Store|Groceries|Q.G.|QFG|Quillfeather Grocery for groceries"
        "|Quillfeather Grocery\n12 Main St|Quillfeather Grocery c/o Ben Example|Qillfeather Grocery|Quillfether"
        "|Super Quillfeather Grocery|Quillfeather Grocery / Deli|Quillfeather Grocery (Main Street)"
        "|Quillfeather Grocery and Quillfeather Deli|Quillfeather Gr|Quillfeather Grocer Store #12"),
    ),
    (
        "Quillfeather Grocery",
        "other-name",
        ("Quillweather Grocery|Quillleather Grocery|Quillweather|Corner Grocery|Quillfeather Hardware|Quillfeather Plumbing"
        "|Quillfeather Grocery Employees Credit Union|Quillfeather & Sons Grocery|Old Quillfeather Grocery"
        "|Ben's Quillfeather Grocery|Ben Example dba Quillfeather Grocery|Quillfeather Grocery dba Specimen Tile"
        "|Quillfeather Ann|Quillfeather Trucking|Ann Quillfeather Grocery|Quellfeather Grocery|Quillfeathen Grocery"
        "|Quillfeather Grocery Workers Fund"),
    ),
    (
        "Quillfeather Grocery",
        "another",
        ("Ben Example|Ann Quillfeather|J Quillfeather|Mrs. Quillfeather|Dr Quillfeather|Specimen Roofing LLC|Corner Market"
        "|Ann and Bo Quillfeather|Ben & Ann Example|Sample Tile Company|Q|Example, Ben|Ben Example c/o Ann Example|The Company"
        "|Feather Ann Quillfeather|Internal Revenue Service|Ben Q. Example, Jr.|Drafton County Tax Collector"),
    ),
    (
        "Quillfeather Grocery",
        "shared",
        ("Quillfeather Grocery and Ben Example|Ben Example & Quillfeather Grocery|Quillfeather Grocery or Ben Example"
        "|Quillfeather and Ben Example|Quillfeather Grocery / Ben Example|Quillfeather Grocery\nBen Example"
        "|Quillfeather Grocery & Specimen Tile Company|Quilfeather Grocery and/or Ann Example|Ann, Bo and Quillfeather Grocery"
        "|QUILLFEATHER GROCERY + BEN EXAMPLE|Quillfeather Grocery and Quillweather Grocery|Quillfeather Grocery #12 and Ben"),
    ),
    (
        "Quillfeather Grocery",
        "bearer",
        "Cash|CASH ----|Bearer|Pay to cash|Cash or bearer|Quillfeather Grocery or bearer|Cash or Quillfeather Grocery|Efectivo",
    ),
    ("Quillfeather Grocery", "blank", "|   |____|XXXXXX|-----|x x x|Pay to the order of ____|* * *|.|~~~~~"),
    (
        "Walker's Market",
        "same",
        ("Walkers Market|Walker Market|WALKER'S MARKET|Walker's Mkt|WALKERS MARKT|Walker\u2019s Market|walker’s mkt."
        "|The Walker's Market|Walkers' Market|Walker's Markets|Walker's Markett|WALKER5 MARKET"),
    ),
    (
        "Walker's Market",
        "near",
        ("Walker's|Walkers|Walker|Walkre's Market|Wakler's Market|Walker's Supermarket|Walker's Food Market|Market"
        "|Walker's Market #3|Walker's Foods|Walker's Meat Market|Walker's Market Anytown|Walker Mart"),
    ),
    (
        "Walker's Market",
        "other-name",
        ("Walter's Market|Walters Market|Walter's|Walker Markey|Baker's Market|Talker's Market|Walker's Plumbing|Welker's Market"
        "|Walkin Market|Wallker & Sons Market|Waller's Market|Ann Walker Market"),
    ),
    ("Walker's Market", "another", "Ann Walker|J. Walker|Walter Hill|Mr Walker|Bo and Ann Walker|Corner Grocery"),
    ("Rock Creek Market", "same", "Rock Creek Mkt|Rockcreek Market|ROCK CREEK MARKET|Rock Creeks Market|R0CK CREEK MARKET"),
    (
        "Rock Creek Market",
        "near",
        "Rock Creek|Rock Crek Market|RC Market|RCM|Rock Creek Market at Main|Rock Creek Pharmacy|Rock Creek Grocery #4",
    ),
    (
        "Rock Creek Market",
        "other-name",
        ("Rock Hill Market|Creek Market|Rock Market|Creek Rock Market|Rock Creek Farms|Rock Brook Market|Dock Creek Market"
        "|Rock Creel Market|Lower Rock Creek Market"),
    ),
    ("Hill Market", "same", "Hills Market|Hill's Market|HILL MKT|The Hill Market"),
    ("Hill Market", "near", "Hill|Hill Mart|Hill Market of Anytown"),
    ("Hill Market", "other-name", "Mill Market|Hilltop Market|Hall Market|Bill Market|Hell Market|Hull Market|Mill|Hilt Market"),
    ("Hill Market", "another", "Bill Hill|Ann Hill|Fanny Hill"),
    ("Hilltop Market", "same", "Hill Top Market|Hill-Top Market|HILLTOP MKT"),
    ("Hilltop Market", "other-name", "Hill Market|Milltop Market|Hilltip Market|Top Market"),
    ("Ann's Corner", "same", "Anns Corner|ANN'S CORNER|Ann’s Corner, Inc."),
    ("Ann's Corner", "near", "Ann Corner|Ann's Corner Store|Ann's Corner #2"),
    ("Ann's Corner", "other-name", "Anne's Corner|Ann's Center Corner|Ann Corner Smith"),
    ("Bread & Butter Market", "same", "Bread and Butter Market|Bread 'n Butter Market|Bread Butter Market|Bread + Butter Market"),
    ("Bread & Butter Market", "near", "Bread & Butter|Bread and Butter Deli|Bread & Butter Market & Deli"),
    ("Bread & Butter Market", "shared", "Bread & Butter Market and Ben Example|Ben Example or Bread & Butter Market"),
    ("Bread & Butter Market", "other-name", "Bread Market|Bread & Better Market|Butter & Bread Market"),
    ("Food Market", "same", "FOOD MARKET|The Food Market|Foods Market|Food Mkt"),
    ("Food Market", "other-name", "Food Mart|Good Market|Food|Fresh Food Market"),
    ("7 Eleven", "same", "7-Eleven|7-11|Seven Eleven|SEVEN-ELEVEN"),
    ("Store 24", "same", "STORE 24|Store 24, Inc."),
    ("Store 24", "other-name", "Store 42|Store 241"),
    ("Main Street Market", "same", "Main St Market|Main St. Mkt|MAIN STREET MRKT"),
    ("St. Specimen Foods", "same", "Saint Specimen Foods|St Specimen Food|ST. SPECIMEN FOODS"),
    ("Café Ejemplo", "same", "Cafe Ejemplo|CAFÉ EJEMPLO"),
    ("Mercado Ejemplo", "near", "Ejemplo|Supermercado Ejemplo|Mercado Ejemplo Norte"),
]  # fmt: skip
CASES = [(house, verdict, payee) for house, verdict, payees in PAIRS for payee in payees.split("|")]


def test_there_are_many_pairs() -> None:
    assert len(set(CASES)) == len(CASES) >= 200


@pytest.mark.parametrize(("house", "verdict", "payee"), CASES, ids=[f"{c[0]} - {c[2]!r}" for c in CASES])
def test_what_is_written(house: str, verdict: str, payee: str) -> None:
    found = payee_match(payee, [house])
    assert found.verdict == verdict, found
    assert found.name in ("", house)
    assert 0 <= found.span.start <= found.span.end <= len(payee)
    assert found.why.endswith(".")


def test_the_name_that_fits_best_counts() -> None:
    names = ["Rock Creek Market", "Quillfeather Grocery", "Quillfeather"]
    assert payee_match("Quillfeather", names)[:2] == ("same", "Quillfeather")
    assert payee_match("Quilfeather Grocery", names)[:2] == ("same", "Quillfeather Grocery")
    assert payee_match("Quillfeather Grocery and Rock Creek", names).verdict == "near"


def test_where_the_other_payee_stands() -> None:
    text = "Quillfeather Grocery and  Ben Example"
    found = payee_match(text, ["Quillfeather Grocery"])
    assert found.span.of(text) == "Ben Example"
    assert found.why == "The house and somebody else: both must endorse."
    assert payee_match("Quillfeather or Ben", ["Quillfeather"]).why == "The house or somebody else."


@pytest.mark.parametrize("names", [[], [""], ["  ", "Inc."]])
def test_without_names_nothing_is_said(names: list[str]) -> None:
    assert payee_match("Quillfeather Grocery", names).verdict == "unknown-house"
    assert payee_match("____", names).verdict == "blank"


@pytest.mark.parametrize("text", ["a" * 401, "Quillfeather Grocery" * 40])
def test_what_is_too_long_is_never_silent(text: str) -> None:
    assert payee_match(text, ["Quillfeather Grocery"]).verdict == "other-name"


HOUSES = [
    "Walker's Market", "Walter's Market", "Hill Market", "Mill Market", "Hall Market", "Hilltop Market", "Rock Creek Market",
    "Rock Hill Market", "Creek Market", "Rock Market", "Quillfeather Grocery", "Quillweather Grocery", "Baker's Deli",
    "Bacher's Deli", "Peterson Foods", "Petersen Foods", "Northfield Market", "Southfield Market", "Fairview Grocery",
    "Fairway Grocery", "Store 24", "Store 42",
]  # fmt: skip
PERSONS = st.builds(
    "{} {}{}".format,
    st.sampled_from(["Ann", "Bo", "Cy", "Dee", "Walter", "Hillary", "Rocky", "J.", "Mrs."]),
    st.sampled_from(["", "Q ", "Hill ", "Walker "]),
    st.sampled_from(
        ["Walker", "Walter", "Hill", "Mill", "Creek", "Rock", "Quillfeather", "Peterson", "Northfield", "Baker"]
    ),
)
LETTERS = st.text("abcdefghijklmnopqrstuvwxyz", max_size=3)


@given(st.permutations(HOUSES), st.data())
@settings(max_examples=MANY)
def test_added_letters_never_make_two_houses_one(houses: list[str], data: st.DataObject) -> None:
    written, known = houses[:2]
    place = data.draw(st.integers(0, len(written)))
    written = written[:place] + data.draw(LETTERS) + written[place:]
    assume(written != known)  # "top" makes Hilltop of Hill
    assert payee_match(written, [known]).verdict != "same"


@given(PERSONS, st.sampled_from(HOUSES))
@settings(max_examples=2 * MANY)
def test_a_person_is_never_the_house_nor_near_it(person: str, house: str) -> None:
    assert payee_match(person, [house]).verdict in ("another", "other-name")


@given(st.sampled_from(CASES), st.sampled_from([str.upper, str.lower, str.title]))
@settings(max_examples=2 * MANY)
def test_case_changes_nothing(case: tuple[str, str, str], change: object) -> None:
    house, verdict, payee = case
    assume("Ql" not in payee and "QUl" not in payee)  # a small l among capitals is read otherwise
    assert payee_match(change(payee), [house]).verdict == verdict  # type: ignore[operator]
    assert payee_match(payee, [change(house)]).verdict == verdict  # type: ignore[operator]


@given(st.sampled_from(CASES), st.sampled_from(["{}.", " {} ", "*{}*", "{} ---", "The {}", "Pay to the order of {}"]))
@settings(max_examples=2 * MANY)
def test_marks_around_a_name_change_nothing(case: tuple[str, str, str], form: str) -> None:
    house, verdict, payee = case
    assume(verdict not in ("blank", "bearer") and "\n" not in payee and not payee.startswith(("Pay ", "The ", "*")))
    assert payee_match(form.format(payee), [house]).verdict == verdict


@given(st.text(max_size=450), st.lists(st.text(max_size=40), max_size=3))
@settings(max_examples=2 * MANY)
def test_any_text_has_a_verdict(text: str, names: list[str]) -> None:
    found = payee_match(text, names)
    assert found == payee_match(text, tuple(names))
    assert 0 <= found.span.start <= found.span.end <= len(text)
    assert found.name == "" or found.name in names


@pytest.mark.parametrize(
    ("written", "known", "likeness"),
    [
        ("walker", "walker", Alike.EXACT), ("wa1ker", "walker", Alike.EXACT), ("walkers", "walker", Alike.PLURAL),
        ("groceries", "grocery", Alike.PLURAL), ("phillips", "philips", Alike.SLIP), ("matthews", "mathews", Alike.SLIP),
        ("whitaker", "whittaker", Alike.SLIP), ("fairfeild", "fairfield", Alike.SLIP), ("macdonald", "mcdonald", Alike.SLIP),
        ("christian", "christina", Alike.NEAR),
        ("miler", "miller", Alike.NEAR), ("thomson", "thompson", Alike.NEAR), ("brain", "brian", Alike.NEAR),
        ("petersen", "peterson", Alike.OTHER), ("walter", "walker", Alike.OTHER), ("mill", "hill", Alike.OTHER),
        ("an", "ann", Alike.OTHER), ("millcrest", "hillcrest", Alike.OTHER), ("", "hill", Alike.OTHER),
        ("24", "42", Alike.OTHER), ("1", "i", Alike.OTHER), ("eastwood", "westwood", Alike.OTHER),
    ],
)  # fmt: skip
def test_words(written: str, known: str, likeness: Alike) -> None:
    assert alike(written, known) is likeness


@given(st.text("abcdehiklmnorstuwy", max_size=12), st.text("abcdehiklmnorstuwy", max_size=12))
@settings(max_examples=2 * MANY)
def test_likeness_has_no_direction(one: str, other: str) -> None:
    assert alike(one, other) is alike(other, one)
