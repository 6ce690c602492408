"""Names of drawers and holders, and their addresses."""

from __future__ import annotations

import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checkface.identity import Address, Card, Name, addresses_agree, names_agree, persons

HOLDER = Name("SAMPLE", "MICHAEL", "JOHN", "JR", False, False, False)
PLAIN = Name("SAMPLE", "MICHAEL", "JOHN")


@pytest.mark.parametrize(
    ("drawer", "verdict"),
    [
        ("MICHAEL JOHN SAMPLE", "same"),
        ("Michael John Sample", "same"),
        ("MR. MICHAEL JOHN SAMPLE", "same"),
        ("DR MICHAEL JOHN SAMPLE, MD", "same"),
        ("SAMPLE, MICHAEL JOHN", "same"),
        ("MICHAEL SAMPLE", "compatible"),
        ("MICHAEL J SAMPLE", "compatible"),
        ("MICHAEL J. SAMPLE", "compatible"),
        ("M J SAMPLE", "compatible"),
        ("M. SAMPLE", "compatible"),
        ("M JOHN SAMPLE", "compatible"),
        ("SAMPLE MICHAEL JOHN", "compatible"),
        ("MICHAEL JOHN SAMPLE JR", "compatible"),
        ("JOHN SAMPLE", "compatible"),
        ("MICHAEL SAMPLE-JONES", "compatible"),
        ("MICHAEL SAMPLE JONES", "compatible"),
        ("MICHAEL T SAMPLE", "unclear"),
        ("MICHAEL THOMAS SAMPLE", "unclear"),
        ("MIKE SAMPLE", "unclear"),
        ("JANE SAMPLE", "unclear"),
        ("T SAMPLE", "unclear"),
        ("SAMPLE", "unclear"),
        ("MICHAEL SAMPEL", "unclear"),
        ("MICHAEL SAMPLES", "unclear"),
        ("MICHAEL SMPLE", "unclear"),
        ("JANE DOE", "different"),
        ("MICHAEL DOE", "different"),
        ("MICHAEL", "different"),
    ],
)
def test_order_initials_and_titles(drawer, verdict):
    assert names_agree(drawer, PLAIN).verdict == verdict


@pytest.mark.parametrize(
    ("drawer", "verdict"),
    [
        ("MICHAEL JOHN SAMPLE JR", "same"),
        ("MICHAEL JOHN SAMPLE, JR.", "same"),
        ("MICHAEL JOHN SAMPLE JUNIOR", "same"),
        ("SAMPLE, MICHAEL JOHN, JR", "same"),
        ("MICHAEL JOHN SAMPLE", "compatible"),
        ("MICHAEL JOHN SAMPLE SR", "different"),
        ("MICHAEL JOHN SAMPLE III", "different"),
        ("MICHAEL J SAMPLE 2ND", "different"),
    ],
)
def test_suffixes(drawer, verdict):
    assert names_agree([drawer], HOLDER).verdict == verdict


@pytest.mark.parametrize(
    ("drawer", "verdict"),
    [
        ("MICHAEL & JANE SAMPLE", "compatible"),
        ("JANE & MICHAEL JOHN SAMPLE", "same"),
        ("JANE OR MICHAEL J SAMPLE", "compatible"),
        ("JANE DOE OR MICHAEL JOHN SAMPLE", "same"),
        ("MICHAEL JOHN SAMPLE OR JANE DOE", "same"),
        ("MICHAEL SAMPLE AND/OR JANE", "compatible"),
        ("MR AND MRS MICHAEL SAMPLE", "compatible"),
        ("MICHAEL J & JANE Q SAMPLE", "compatible"),
        ("MICHAEL JOHN & JANE SAMPLE", "unclear"),
        ("MICHAEL DOE OR JANE SAMPLE", "unclear"),
        ("JANE DOE\nMICHAEL JOHN SAMPLE\n2300 WEST BROAD STREET\nRICHMOND VA 23269", "same"),
        ("JANE DOE & JOHN ROE", "different"),
        ("ACME PLUMBING LLC", "unclear"),
        ("SAMPLE FAMILY TRUST", "unclear"),
        ("2300 WEST BROAD STREET\nPO BOX 12\n804-555-0100", "unclear"),
        ("", "unclear"),
        ("& OR /", "unclear"),
    ],
)
def test_joint_accounts_and_no_persons(drawer, verdict):
    assert names_agree(drawer, PLAIN).verdict == verdict


@pytest.mark.parametrize(
    ("drawer", "name", "verdict"),
    [
        ("ANNE O'BRIEN", Name("OBRIEN", "ANNE"), "same"),
        ("ANNE O’BRIEN", Name("O'BRIEN", "ANNE"), "same"),
        ("ANNE OBRIEN", Name("O BRIEN", "ANNE"), "same"),
        ("José Núñez", Name("NUNEZ", "JOSE"), "same"),
        ("JOSE NUNEZ", Name("NÚÑEZ", "JOSÉ"), "same"),
        ("Jürgen Müller", Name("MUELLER", "JUERGEN"), "same"),
        ("JUERGEN MUELLER", Name("MÜLLER", "JÜRGEN"), "same"),
        ("JURGEN MULLER", Name("MÜLLER", "JÜRGEN"), "same"),
        ("Łukasz Strauß", Name("STRAUSS", "LUKASZ"), "same"),
        ("MARY-ANN SMITH", Name("SMITH", "MARY ANN"), "same"),
        ("MARYANN SMITH", Name("SMITH", "MARY", "ANN"), "same"),
        ("MARY ANN SMITH", Name("SMITH", "MARYANN", "LOU"), "compatible"),
        ("MARY SMITH JONES", Name("SMITH-JONES", "MARY"), "same"),
        ("MARY JONES", Name("SMITH-JONES", "MARY"), "compatible"),
        ("ANA GARCIA", Name("GARCIA LOPEZ", "ANA"), "compatible"),
        ("JAN VAN DER BERG", Name("VANDERBERG", "JAN"), "same"),
        ("Jan van der Berg", Name("VAN DER BERG", "JAN"), "same"),
        ("MICHAEL V SAMPLE", Name("SAMPLE", "MICHAEL", "VICTOR"), "compatible"),
        ("LI WEI", Name("LI", "WEI"), "compatible"),
        ("MADONNA", Name("MADONNA"), "same"),
        ("THI VI", Name("VI", "THI"), "same"),
        ("MD RAHMAN", Name("RAHMAN", "MD"), "same"),
        ("Smith - Jones, Anne", Name("SMITH-JONES", "ANNE"), "same"),
        ("ANNE SMITH–JONES", Name("SMITH-JONES", "ANNE"), "same"),
        ("MICHAEL SAMPLE JR", Name("SAMPLE JR", "MICHAEL"), "same"),
    ],
)
def test_spelling(drawer, name, verdict):
    assert names_agree(drawer, name).verdict == verdict


@pytest.mark.parametrize(
    ("drawer", "name", "verdict"),
    [
        ("ANNABELLE WOLFESCHLEGELSTEINHAUSEN", Name("WOLFESCHLEGEL", "ANNABELLE", "", "", True), "compatible"),
        ("ANNABELLE WOLFESCHLEGELSTEINHAUSEN", Name("WOLFESCHLEGEL", "ANNABELLE", "", "", False), "different"),
        ("ANNABELLE WOLFESCHLEGELSTEINHAUSEN", Name("WOLFESCHLEGEL", "ANNABELLE"), "compatible"),
        ("ANNABELLE SAMPLESON", Name("SAMPLE", "ANNABELLE"), "different"),
        ("ANNABELLE VON-HOHENSTEIN-BERGDORFF", Name("VON-HOHENSTEIN-BERG", "ANNABELLE", "", "", True), "compatible"),
        ("ANNABELLE-CHRISTINA SAMPLE", Name("SAMPLE", "ANNABELLE-CHR", "", "", False, True), "compatible"),
        ("CHRISTOPHER SAMPLE", Name("SAMPLE", "CHRISTOPH", "", "", False, True), "compatible"),
        ("CHRISTOPHER SAMPLE", Name("SAMPLE", "CHRISTOPH", "", "", False, False), "unclear"),
    ],
)  # AAMVA DL/ID Card Design Standard 2020: names are cut from the right, hyphens stay
def test_truncated_names(drawer, name, verdict):
    assert names_agree(drawer, name).verdict == verdict


@pytest.mark.parametrize(
    ("drawer", "name", "verdict"),
    [
        ("MICHAEL SAMPLE", "Michael Sample", "same"),
        ("MICHAEL SAMPLE", "Sample, Michael", "same"),
        ("MICHAEL SAMPLE", "Michael Sample, Jr", "compatible"),
        ("MICHAEL SAMPLE", "SAMPLE MICHAEL JOHN", "compatible"),
        ("MICHAEL J SAMPLE", "SAMPLE MICHAEL JOHN", "compatible"),
        ("MICHAEL T SAMPLE", "SAMPLE MICHAEL JOHN", "unclear"),
        ("JANE SAMPLE", "Michael Sample", "unclear"),
        ("JANE DOE", "Michael Sample", "different"),
        ("JANE DOE", "", "unclear"),
        ("JANE DOE", " - ", "unclear"),
    ],
)
def test_a_keyed_name_has_no_known_order(drawer, name, verdict):
    assert names_agree(drawer, name).verdict == verdict


def test_a_card_is_asked_for_its_name():
    assert names_agree("MICHAEL SAMPLE", Card(kind="state-id", medium="barcode", name=PLAIN)).verdict == "compatible"


SPECIAL = {
    "AND",
    "OR",
    "APT",
    "STE",
    "TEL",
    *persons.SUFFIXES,
    *persons.NO_PERSON,
    *persons._TITLES,
    *persons._AFTER_NAME,
}
LETTERS = st.text("ABCDEFGHIJKLMNOPQRSTUVWXYZ", min_size=2, max_size=10)


@given(LETTERS, LETTERS, LETTERS)
def test_a_full_name_agrees_with_itself_in_any_dress(family, given_, middle):
    name = Name(family, given_, middle)
    assert names_agree(f"{given_} {middle} {family}", name).verdict in {"same", "compatible", "unclear"}
    if not {family, given_, middle} & SPECIAL:
        assert names_agree(f"{given_.lower()} {middle} {family.title()}", name).verdict == "same"
        assert names_agree(f"{family}, {given_} {middle}", name).verdict == "same"
        assert names_agree(f"JANE DOE OR {given_} {middle} {family}", name).verdict == "same"


RANK = ["different", "unclear", "compatible", "same"]


@given(st.lists(st.text(max_size=30), max_size=4), st.text(max_size=30), st.text(max_size=20))
def test_any_text_is_compared(lines, family, given_):
    found = names_agree(lines, Name(family, given_))
    assert found.verdict in RANK
    assert (
        family.strip() == ""
        or len(family) < 4
        or family not in found.reason
        or family in "the family name differs agree"
    )


@given(
    st.lists(st.sampled_from(["JANE DOE", "MICHAEL SAMPLE", "J SAMPLE", "SAMPLE", "ACME LLC"]), min_size=1, max_size=4)
)
def test_another_person_on_the_account_never_makes_it_worse(lines):
    alone = names_agree(lines, PLAIN)
    more = names_agree([*lines, "JOHN ROE"], PLAIN)
    assert RANK.index(more.verdict) >= RANK.index(alone.verdict) or alone.reason == "the drawer is not a person"


def test_long_text_is_refused_early():
    start = time.perf_counter()
    assert names_agree("A " * 50_000, PLAIN).verdict == "unclear"
    assert names_agree(["A & "] * 500, PLAIN).verdict
    assert addresses_agree("1 " * 50_000, Address("1", "X", "VA", "23269")).verdict == "unclear"
    assert time.perf_counter() - start < 1


HOME = Address("2300 WEST BROAD STREET", "RICHMOND", "VA", "23269")


@pytest.mark.parametrize(
    ("drawer", "verdict"),
    [
        ("MICHAEL SAMPLE\n2300 W. Broad St.\nRichmond, VA 23269", "same"),
        ("MICHAEL SAMPLE\n2300 WEST BROAD STREET\nRICHMOND VA 23269-0001", "same"),
        ("MICHAEL SAMPLE\nPO BOX 12\nRICHMOND VA 23269", "compatible"),
        ("MICHAEL SAMPLE\nWEST BROAD STREET\nRICHMOND VA 23269", "compatible"),
        ("MICHAEL SAMPLE\n2302 WEST BROAD STREET\nRICHMOND VA 23269", "different"),
        ("MICHAEL SAMPLE\n2300 WEST BROAD STREET\nRICHMOND VA 23220", "different"),
        ("MICHAEL SAMPLE", "unclear"),
    ],
)
def test_addresses(drawer, verdict):
    assert addresses_agree(drawer, HOME).verdict == verdict


def test_canadian_postal_codes_are_compared_whole():
    home = Address("12 RIDEAU ST", "OTTAWA", "ON", "K1A0B1")
    assert addresses_agree("12 Rideau St\nOttawa ON K1A 0B1", home).verdict == "same"
    assert addresses_agree("12 Rideau St\nOttawa ON K1A 0B2", home).verdict == "different"
