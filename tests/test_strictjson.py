"""JSON from outside: RFC 8259, with nothing in it passed over."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

import checkface as cf
from checkface.strictjson import JsonError, loads

VALUES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text(),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(), inner, max_size=4),
    max_leaves=12,
)


@given(VALUES)
def test_what_the_standard_library_writes_is_read_back(value: Any) -> None:
    assert loads(json.dumps(value)) == value
    assert loads(json.dumps(value).encode()) == value


@given(st.text() | st.binary())
def test_anything_else_is_one_sentence(given_: str | bytes) -> None:
    try:
        loads(given_)
    except JsonError as error:
        assert str(error).startswith("Expected ")


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ('{"a": {"b": 1, "c": 2, "b": 3}}', "Expected each key once, read 'b' twice"),
        ("[NaN]", "Expected JSON, read NaN, which is no number of it"),
        ("-Infinity", "Expected JSON, read -Infinity, which is no number of it"),
        ("{'a': 1}", "Expected JSON, read text that breaks off or goes wrong at line 1, column 2"),
        ('{"a":\n}', "Expected JSON, read text that breaks off or goes wrong at line 2, column 1"),
        ("", "Expected JSON, read text that breaks off or goes wrong at line 1, column 1"),
        (b'{"a": "\xff"}', "Expected JSON in UTF-8, read the byte 0xFF"),
        ("[" * 100_000, "Expected JSON, read lists or objects too deep within each other"),
        ("1" * 5_000, "Expected JSON, read a number with too many digits"),
    ],
)
def test_what_is_wrong_is_said_without_quoting_it(text: str | bytes, sentence: str) -> None:
    with pytest.raises(JsonError) as caught:
        loads(text)
    assert str(caught.value) == sentence


def test_a_mark_of_byte_order_is_no_part_of_it() -> None:
    assert loads("\ufeff1") == loads(b"\xef\xbb\xbf1") == 1


def test_a_tender_that_says_one_thing_twice_is_refused() -> None:
    with pytest.raises(cf.TenderError) as caught:
        cf.parse('{"face": {"micr": "T071098973T 45601122O 1043", "micr": ""}}')
    assert caught.value.problems == ["tender: Expected each key once, read 'micr' twice"]
