"""TOML from outside: whatever the text, a value or one sentence."""

from __future__ import annotations

import doctest
import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checkface import stricttoml
from checkface.cli import main, options
from checkface.micr import layouts
from checkface.policy import PolicyError
from checkface.stricttoml import DEEPEST, LONGEST, TomlError, loads

_PIECES = st.sampled_from([
    "a", "house", "limits", "effects", "states", "MA", "routing", "layouts", ".", "=", "[", "]", "{", "}", '"', "'", '"""',
    "\\", "\n", "#", ",", " ", "1", "9" * 5000, "inf", "0x", "1979-05-27", "\x00", "true", "071098973", "\u00e9",
])  # fmt: skip


def test_examples() -> None:
    result = doctest.testmod(stricttoml)
    assert result.attempted
    assert not result.failed


@given(st.text() | st.lists(_PIECES, max_size=30).map("".join))
def test_no_text_raises_anything_else(text: str) -> None:
    try:
        found = loads(text)
    except TomlError as error:
        assert str(error).startswith("Expected ")
    else:
        assert found == tomllib.loads(text) or "nan" in text
    for read, refused in ((options.checked, PolicyError), (layouts.parse_layouts, layouts.LayoutError)):
        try:
            read(text)  # type: ignore[operator]
        except refused as error:
            assert all(len(line) < 1000 for line in str(error).splitlines())


@pytest.mark.parametrize(
    "text",
    [
        ".".join("a" * (DEEPEST + 1)) + " = 1", "[" + " . ".join("a" * 5000) + "]", "a = " + "[" * 50_000,
        "a = " + "{a = " * 50_000, "a = {" + ".".join('"a"' for _ in range(99)) + " = 1}",
        "".join(f"[{'.'.join('a' * n)}]\n" for n in range(1, DEEPEST + 2)), "a" * (LONGEST + 1),
        "a = [" + "[" * DEEPEST + "]" * DEEPEST + "]",
    ],
    ids=range(8),
)  # fmt: skip
def test_what_is_too_much_is_one_sentence(text: str) -> None:
    with pytest.raises(TomlError, match=f"^Expected at most ({DEEPEST}|{LONGEST:,}) .*, read more$"):
        loads(text)
    with pytest.raises(PolicyError) as refused:
        options.checked(text)
    assert len(refused.value.mistakes) == 1


def test_dots_within_strings_and_comments_are_no_keys() -> None:
    dots = "J. R. " * 40
    text = f'a = "{dots}" # {dots}\nb = \'{dots}\'\nc = ["x\\".{dots}", "{dots}"]\n'
    assert loads(text) == tomllib.loads(text)


def test_a_policy_without_end_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["policy", "check", "/dev/zero"]) == 2
    assert "Expected a policy of at most 16,777,216 bytes, read more." in capsys.readouterr().err
