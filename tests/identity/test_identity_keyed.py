"""Documents keyed by a clerk."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checkface.identity import KINDS, Document, kind_named, read_keyed
from checkface.span import Fault


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("drivers-license", "drivers-license"),
        ("Driver's License", "drivers-license"),
        ("DL", "drivers-license"),
        ("driver’s licence", "drivers-license"),
        ("ID card", "state-id"),
        ("passport", "passport"),
        ("Passport Card", "passport-card"),
        ("green card", "permanent-resident"),
        ("military ID", "military-id"),
        ("SSN", "social-security-card"),
        ("social security card", "social-security-card"),
        ("EDL", "enhanced"),
        ("library card", None),
        ("", None),
        ("7", None),
    ],
)
def test_kinds_by_any_spelling(text, kind):
    assert kind_named(text) == kind


def test_every_kind_is_read_by_its_own_name():
    for name in KINDS:
        assert kind_named(name) == name
        assert read_keyed(name).photo is KINDS[name].photo


@pytest.mark.parametrize(
    ("text", "state", "on", "repair"),
    [
        ("2027-01-01", "48", date(2027, 1, 1), "none"),
        ("01/02/2027", "48", date(2027, 1, 2), "none"),
        ("1/2/2027", "TX", date(2027, 1, 2), "none"),
        ("01022027", "TX", date(2027, 1, 2), "none"),
        ("20270102", "TX", date(2027, 1, 2), "none"),
        ("2027/01/02", "ON", date(2027, 1, 2), "none"),
        ("JAN 2, 2027", "TX", date(2027, 1, 2), "none"),
        ("2 January 2027", "TX", date(2027, 1, 2), "none"),
        ("02JAN2027", "", date(2027, 1, 2), "none"),
        ("1/2/27", "TX", date(2027, 1, 2), "two-digit-year"),
        ("1/2/99", "TX", date(1999, 1, 2), "two-digit-year"),
        ("31/12/2027", "", date(2027, 12, 31), "day-first"),
    ],
)
def test_expiries(text, state, on, repair):
    found = read_keyed("passport", "X1234567", state, text)
    assert found.expires.on == on
    assert found.expires.raw == text.upper()
    assert repair == "none" or found.repaired(repair)


@pytest.mark.parametrize(
    ("text", "kind", "checked"),
    [
        ("", "unknown", False),
        ("NONE", "unknown", False),
        ("MIL", "unknown", False),
        ("INDEF", "never", False),
        ("99/99/9999", "never", False),
        ("12/2027", "between", False),
        ("2027-12", "between", False),
        ("13/2027", "unknown", True),
        ("soon", "unknown", True),
        ("2/30/2027", "unknown", True),
        ("JAN 2027", "unknown", True),
        ("30 FEB 2027", "unknown", True),
        ("1 XYZ 2027", "unknown", True),
    ],
)
def test_expiries_that_are_no_day(text, kind, checked):
    found = read_keyed("passport", "X1234567", "", text)
    assert found.expires.kind == kind
    assert found.has("expiry-unreadable") is checked


@pytest.mark.parametrize(
    ("kind", "number", "state", "checks"),
    [
        ("drivers-license", "12345678", "48", []),
        ("drivers-license", "12345678", "TX", []),
        ("drivers-license", "1234", "TX", ["number-shape"]),
        ("drivers-license", "12345678", "", ["state-missing"]),
        ("drivers-license", "12345678", "43", ["state-unknown"]),
        ("drivers-license", "", "TX", ["number-missing"]),
        ("drivers-license", "---", "TX", ["number-missing"]),
        ("drivers-license", "123-45-6789", "TX", ["number-forbidden"]),
        ("drivers-license", "123456789", "TX", ["number-forbidden"]),
        ("drivers-license", "123456789", "CT", []),
        ("state-id", "4111111111111111", "TX", ["number-forbidden"]),
        ("passport", "123456789", "", []),
        ("passport", "123456789", "US", []),
        ("passport", "123-45-6789", "", ["number-forbidden"]),
        ("military-id", "1234567890", "", []),
        ("social-security-card", "1", "", ["number-forbidden"]),
        ("drivers-license", "123456789", "", ["state-missing", "number-doubtful"]),
        ("drivers-license", "123456789", "VI", ["number-doubtful"]),
        ("drivers-license", "1234", "", ["state-missing"]),
        ("drivers-license", "1234567890", "8", ["number-shape"]),
    ],
)
def test_checks(kind, number, state, checks):
    found = read_keyed(kind, number, state)
    assert [check.kind for check in found.checks] == checks
    assert (found.number is None) == bool({"number-missing", "number-forbidden"} & set(checks))
    if len(number) > 4:
        assert number not in repr(found)


def test_a_one_digit_state_is_reported():
    assert read_keyed("drivers-license", "1234567", "1").repaired("zeros-lost")


def test_everything_wrong_is_told_at_once():
    found = read_keyed("license", "4111111111111111", "52", "never mind")
    assert [check.kind for check in found.checks] == ["state-unknown", "number-forbidden", "expiry-unreadable"]
    assert [found.kind, found.issuer, found.number] == ["drivers-license", "", None]
    assert [item.kind for item in found.forbidden] == ["payment-card"]


@pytest.mark.parametrize("field", ["kind", "state", "expires"])
@pytest.mark.parametrize("number", ["4111 1111 1111 1111", "123-45-6789"])
def test_a_forbidden_number_is_found_in_any_field(field, number):
    texts = {"kind": "passport", "number": "X1234567", "state": "", "expires": "2027-01-01", field: number}
    if field == "kind":
        texts["kind"] = f"passport {number}"
    found = read_keyed(**texts)
    if isinstance(found, Document):
        assert found.has("number-forbidden")
        assert found.forbidden
    assert "1111" not in repr(found).replace("X1234567", "")
    assert "6789" not in repr(found)


def test_faults_never_quote_a_number():
    for kind in ("4111111111111111", "123-45-6789", "x" * 60):
        fault = read_keyed(kind, "1")
        assert fault.kind == "id-kind-unknown"
        assert "4111" not in fault.message
        assert "6789" not in fault.message
        assert len(fault.message) < 160
    assert read_keyed("passport", "1" * 300).message == "Expected at most 200 characters in number, read 300."


TEXT = st.text(max_size=30) | st.text("0123456789-/ ", max_size=20)


@given(st.sampled_from([*KINDS, "x", ""]) | TEXT, TEXT, TEXT, TEXT)
def test_any_four_texts_are_read(kind, number, state, expires):
    found = read_keyed(kind, number, state, expires)
    assert isinstance(found, Document | Fault)
    if isinstance(found, Document) and found.number and len(found.number.compact) > 3:
        assert found.number.compact not in repr(found).replace(repr(found.expires), "")


def test_a_hundred_thousand_characters_are_refused():
    for field in range(4):
        texts = ["passport", "1", "TX", "2027-01-01"]
        texts[field] = "7" * 100_000
        assert isinstance(read_keyed(*texts), Fault)
