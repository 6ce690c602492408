"""A reader as its house describes it."""

from __future__ import annotations

import doctest
import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checkface import micr
from checkface.micr import MicrLine, ReaderTableError
from checkface.policy import Policy, PolicyError
from checkface.span import Fault

#: Characters that no notation, no digit and no blank uses.
OTHERS = "GHJKLQRVWYZghjklqrvwyzéß§¶€→"
characters = st.permutations(OTHERS).map(
    lambda chars: dict(zip(("transit", "on_us", "amount", "dash", "unread"), chars, strict=False))
)
texts = st.text(OTHERS + "#!", min_size=1, max_size=4)


@given(characters, st.lists(texts, max_size=2), st.lists(texts, max_size=2), st.sampled_from(" _~"), st.booleans())
def test_any_characters_may_be_the_symbols(
    symbols: dict[str, str], before: list[str], behind: list[str], blank: str, reject: bool
) -> None:
    table = micr.reader_table({**symbols, "blank": blank, "before": before, "behind": behind})
    line = "TsT 45601d22O 1043 A0000001957A".replace("s", "031097765").replace("d", "U" if reject else "1")
    written = line.translate(
        str.maketrans("TOAU ", "".join(symbols[n] for n in ("transit", "on_us", "amount", "unread")) + blank)
    )
    for start, end in {("", ""), *((part, "") for part in before), *(("", part) for part in behind)}:
        read = micr.read(f"\x02{start}{written}{end}\r\n", table)
        assert isinstance(read, MicrLine)
        if any(part and written.startswith(part) for part in before) or any(written.endswith(part) for part in behind):
            continue  # what is sent around the line looks like a part of it
        assert (read.notation, read.routing, read.serial, read.amount_cents) == ("reader", "031097765", "1043", 1957)
        assert (read.account, read.settled) == ((None, False) if reject else ("45601122", True))
        assert read.spans["account"].of(read.raw) == read.account_text


def test_a_character_in_no_list_is_foreign() -> None:
    table = micr.reader_table({"transit": "[", "on_us": '"', "unread": "?"})
    read = micr.read('[031097765[ 456*1122" 1043', table)
    assert isinstance(read, MicrLine)
    assert [fault.read for fault in read.faults] == ["'*' (U+002A), which the font does not have"]


def test_a_line_that_is_not_the_readers_is_read_as_any_other() -> None:
    table = micr.reader_table({"transit": "[", "on_us": '"'})
    for text in ("⑆031097765⑆ 45601122⑈ 1043", "T031097765T 45601122O 1043"):
        assert micr.read(text, table) == micr.read(text)
    assert isinstance(micr.read("HELLO", table), Fault)


@pytest.mark.parametrize(
    ("given", "message"),
    [
        (3, "Reader: expected a table of characters, read another value."),
        ({}, "Reader: expected at least one character for transit, read none."),
        ({"transit": "["}, "Reader: expected at least one character for on_us, read none."),
        ({"transit": "[", "on_us": "]["}, "Reader: expected one meaning for each character, read '[' as transit and on_us."),
        ({"transit": "1", "on_us": "]"}, "Reader, transit: expected no digit, read one."),
        ({"transit": 1, "on_us": "]"}, "Reader, transit: expected at most 16 characters, read another value."),
        ({"transit": "[" * 17, "on_us": "]"}, "Reader, transit: expected at most 16 characters, read another value."),
        ({"transit": "[", "on_us": "]", "before": "C"}, "Reader, before: expected a list of texts, read another value."),
        (
            {"transit": "[", "on_us": "]", "behind": [""]},
            "Reader, behind: expected texts of 1 to 16 characters, read another value.",
        ),
        (
            {"transitt": "["},
            (
                "Reader: expected transit, on_us, amount, dash, unread, blank, before, behind, read 'transitt', nearest "
                "is 'transit'."
            ),
        ),
    ],
)  # fmt: skip
def test_a_description_that_cannot_be_used(given: Any, message: str) -> None:
    with pytest.raises(ReaderTableError) as caught:
        micr.reader_table(given)
    assert str(caught.value) == message
    with pytest.raises(PolicyError, match="reader: Reader"):
        Policy.parse(f"reader = {given}" if not isinstance(given, dict) else _toml(given))


def _toml(given: dict[str, Any]) -> str:
    return "[reader]\n" + "".join(f"{key} = {value!r}\n" for key, value in given.items())


def test_the_section_of_the_readme_holds() -> None:
    readme = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    (toml,) = [text for text in re.findall(r"```toml\n(.*?)```", readme, re.DOTALL) if "[reader]" in text]
    line = micr.read("\x02C1[071098973[_456-01-122]_1043_{0000001957{/01\x03", Policy.parse(toml).reader)
    assert isinstance(line, MicrLine)
    assert (line.account, line.serial, line.amount_cents, line.settled) == ("45601122", "1043", 1957, True)
    (session,) = re.findall(r"```pycon\n(.*?)```", readme, re.DOTALL)
    example = doctest.DocTestParser().get_doctest(session, {}, "README.md", None, None)
    assert doctest.DocTestRunner().run(example).failed == 0
    (marks,) = re.findall(r"`(\* \? [^`]*)` mark a character", readme)
    assert marks.split() == list(micr.UNREAD_MARKS)


def test_the_policy_carries_it_to_the_reading() -> None:
    import checkface as cf

    policy = Policy.parse('[reader]\ntransit = "["\non_us = \'"\'\nblank = "_"\nbehind = ["/00"]\n')
    assert Policy.model_validate(policy.model_dump(mode="json")) == policy
    tender = {"face": {"micr": '[071098973[_45601122"_1043/00'}, "counter": {"on": "2026-11-24"}}
    assert cf.assess(tender, policy).read.line is not None
    assert policy.digest != Policy().digest
    line = cf.assess(tender, policy).read.line
    assert line is not None
    assert (line.account, line.settled) == ("45601122", True)
