"""Who is named on the payee line."""

from __future__ import annotations

import os

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from checkface.instruments import Payees, payees
from checkface.span import Fault, Span

MANY = 2000 if os.environ.get("CHECKFACE_THOROUGH") else 200


def read(text: str) -> Payees:
    found = payees(text)
    assert not isinstance(found, Fault), found.message
    return found


@pytest.mark.parametrize(
    ("text", "names", "joined", "ambiguous"),
    [
        ("Ann Specimen", ["Ann Specimen"], "one", False),
        ("  Ann Specimen -----", ["Ann Specimen"], "one", False),
        ("Pay to the order of Ann Specimen", ["Ann Specimen"], "one", False),
        ("Ann Specimen and Bo Specimen", ["Ann Specimen", "Bo Specimen"], "and", False),
        ("ANN & BO SPECIMEN", ["ANN", "BO SPECIMEN"], "and", False),
        ("Ann + Bo", ["Ann", "Bo"], "and", False),
        ("Juan y María Ejemplo", ["Juan", "María Ejemplo"], "and", False),
        ("Ann, Bo, and Cy", ["Ann", "Bo", "Cy"], "and", False),
        ("Ann or Bo", ["Ann", "Bo"], "or", False),
        ("Ann, Bo or Cy", ["Ann", "Bo", "Cy"], "or", False),
        ("Ana o Luis Ejemplo", ["Ana", "Luis Ejemplo"], "or", False),
        ("Ann and/or Bo", ["Ann", "Bo"], "or", True),
        ("Ann / Bo", ["Ann", "Bo"], "or", True),
        ("Ann\nBo", ["Ann", "Bo"], "or", True),
        ("Ann and Bo or Cy", ["Ann", "Bo", "Cy"], "or", True),
        ("Smith and Sons", ["Smith and Sons"], "one", False),
        ("Specimen & Company, Inc.", ["Specimen & Company, Inc."], "one", False),
        ("Cash & Carry Grocery", ["Cash & Carry Grocery"], "one", False),
        ("Bread and Butter Market", ["Bread and Butter Market"], "one", False),
        ("Corner Market or Ann", ["Corner Market", "Ann"], "or", False),
        ("Ann Specimen, Jr.", ["Ann Specimen, Jr."], "one", False),
        ("Specimen, Ann", ["Specimen, Ann"], "one", False),
        ("Ann c/o Bo and Cy", ["Ann c/o Bo and Cy"], "one", False),
        ("Ann DBA Ann and Bo", ["Ann DBA Ann and Bo"], "one", False),
        ("Anderson Orlando", ["Anderson Orlando"], "one", False),
        ("Johnny Cash", ["Johnny Cash"], "one", False),
        ("Cashman", ["Cashman"], "one", False),
        ("Order of the Specimen", ["Order of the Specimen"], "one", False),
    ],
)
def test_who_is_named(text: str, names: list[str], joined: str, ambiguous: bool) -> None:
    found = read(text)
    assert [payee.name for payee in found.names] == names
    assert [payee.span.of(text) for payee in found.names] == names
    assert (found.joined, found.ambiguous, found.bearer) == (joined, ambiguous, False)


@pytest.mark.parametrize(
    "text",
    [
        *("Cash", "CASH ----", "Pay to cash", "to the order of Cash", "to cash", "Petty Cash"),
        *("Bearer", "Cash or bearer", "Ann or bearer", "EFECTIVO", "al portador"),
    ],
)
def test_to_the_bearer(text: str) -> None:
    """UCC 3-109(a)."""
    assert read(text).bearer
    assert read(text).names == ()


@pytest.mark.parametrize(
    ("text", "kind", "message"),
    [
        ("", "payee-blank", "Expected a payee, read nothing."),
        ("  ____ ", "payee-blank", "Expected a payee, read nothing."),
        ("Pay to the order of ______", "payee-blank", "Expected a payee, read nothing."),
        ("A" * 401, "payee-length", "Expected a payee, read 401 characters."),
    ],
)
def test_who_is_not(text: str, kind: str, message: str) -> None:
    fault = payees(text)
    assert isinstance(fault, Fault)
    assert (fault.kind, fault.span, fault.message) == (kind, Span(0, len(text)), message)


NAME = st.sampled_from(["Ann Specimen", "Bo Example", "Cy Sample", "Dee Muster", "Eve Exemplar"])


@given(st.lists(NAME, min_size=2, max_size=4), st.sampled_from([" and ", " or ", " & ", " AND ", "/"]))
@settings(max_examples=MANY)
def test_joined_names_are_read_back(names: list[str], joint: str) -> None:
    found = read(joint.join(names))
    assert [payee.name for payee in found.names] == names
    assert found.joined == ("or" if joint.strip() in ("or", "/") else "and")
    assert found.ambiguous == (joint == "/")


PIECES = st.lists(st.sampled_from(["and", "or", "Ann", "&", "/", ",", "\n", "cash", "Inc", "-"]), max_size=9)


@given(st.one_of(st.text(max_size=120), PIECES.map(" ".join)))
@settings(max_examples=2 * MANY)
def test_any_text_gives_payees_or_a_fault_within_it(text: str) -> None:
    found = payees(text)
    assert 0 <= found.span.start <= found.span.end <= len(text)
    if isinstance(found, Payees):
        assert found.bearer == (not found.names)
        assert (found.joined == "one") == (len(found.names) <= 1)
        for payee in found.names:
            assert payee.name
            assert payee.span.of(text) == payee.name
