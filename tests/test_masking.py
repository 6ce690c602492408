"""No full account or identification number in anything that leaves: every rendering of every fixture is searched."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from clean_tender import patched
from hypothesis import given
from hypothesis import strategies as st

import checkface as cf
from checkface import masking, report

FIXTURES = {
    (rule, state): (fixture.get("policy", {}), fixture[state])
    for path in sorted((Path(__file__).parent / "rules" / "fixtures").glob("*.toml"))
    for rule, fixture in tomllib.loads(path.read_text(encoding="utf-8")).items()
    for state in ("held", "found", "unread")
    if state in fixture
}
#: The account of the clean tender, and the numbers the fixtures of identification carry.
SECRETS = ("45601122", "A12345678901", "4111111111111111", "4111 1111 1111 1111")


@pytest.mark.parametrize("key", FIXTURES, ids="/".join)
def test_no_rendering_of_a_fixture_shows_a_number(key: tuple[str, str]) -> None:
    policy, patch = FIXTURES[key]
    got = cf.assess(patched({"face.legends": "acct 45601122", **patch}), cf.Policy.model_validate(policy))
    shown = [
        got.model_dump_json(),
        str(got.decision.for_house),
        str(got.instructions.wire()),
        repr(got),
        repr(got.read),
        repr(got.read.micr),
        repr(got.read.tender),
        str([finding.message for finding in got.findings]),
    ]
    assert [text for text in shown for secret in SECRETS if secret in text] == []


#: The account of the clean tender however a clerk or a reader may have put it down, and a card's number.
STRAYS = ("45601122", "4560-1122", "4560 1122", "00045601122", "4111111111111111", "4111 1111 1111 1111")
OPEN = ("face.serial", "face.fraction", "face.date", "face.figures", "face.words", "face.payee", "face.drawee")
ROUND = ("counter.store", "counter.lane", "counter.employee", "id")


@pytest.mark.parametrize("stray", STRAYS)
@pytest.mark.parametrize("place", [*OPEN, *ROUND])
def test_a_number_keyed_in_the_wrong_place_is_masked_there_too(place: str, stray: str) -> None:
    got = cf.assess(patched({place: f"no {stray}" if place in ROUND else stray}))
    told = [got.model_dump_json(), report.plain(got), str([finding.message for finding in got.findings]), str(got.id)]
    if place in ROUND and stray.startswith("4111"):
        return  # only this tender's own numbers are known there: a shop's names may have long numbers
    assert [text for text in told if stray in text] == []
    assert stray in got.model_dump_json(reveal=True) or place == "id"


@pytest.mark.parametrize("place", ["kind", "state"])
def test_a_licence_number_keyed_in_the_wrong_place_is_masked_there_too(place: str) -> None:
    got = cf.assess(
        patched(
            {"documents": [{"kind": "drivers-license", "number": "S53042986", "state": "17"} | {place: "S530-42986"}]}
        )
    )
    assert "53042986" not in got.model_dump_json().replace("-", "")
    assert "S530" not in report.plain(got)


@pytest.mark.parametrize(
    ("line", "shown", "field"),
    [
        ("O1234567890123456O T071098973T 45601122O", "O••••••••••••••••O T071098973T ••••1122O", "••••••••••••3456"),
        ("O123456789012345O T071098973T 45601122O", "O123456789012345O T071098973T ••••1122O", "123456789012345"),
    ],
)
def test_a_field_longer_than_it_can_be_is_masked_with_the_account(line: str, shown: str, field: str) -> None:
    wire = cf.assess(patched({"face.micr": line})).model_dump()
    assert wire["read"]["readings"]["face.micr"] == shown
    assert wire["read"]["micr"]["auxiliary"] == field


@pytest.mark.parametrize(
    ("line", "shown"),
    [
        ("⑆071098973⑆ ⑇45601122⑇", "⑆071098973⑆ ⑇••••1122⑇"),
        ("⑆071098973⑆ ⑇45601122⑇ 1043", "⑆071098973⑆ ⑇••••••••⑇ 1043"),
        ("⑆45601122⑆ 071098973⑈ 1043", "⑆••••••••⑆ •••••8973⑈ 1043"),
        ("⑈071098973⑈ 45601122⑆ 1043", "⑈071098973⑈ ••••••••⑆ 1043"),
        ("⑆0710?8973⑆ 45601122⑈ 1043 ⑇0000004510⑇", "⑆0710?8973⑆ ••••1122⑈ 1043 ⑇0000004510⑇"),
    ],
)
def test_what_cannot_be_the_field_it_stands_in_may_be_the_account(line: str, shown: str) -> None:
    assert cf.assess(patched({"face.micr": line})).model_dump()["read"]["readings"]["face.micr"] == shown


@pytest.mark.parametrize(
    "identifier", ["⑆071098973⑆ 9876543210987⑈ 1043", "T071098973T 98765432O 1043", "4111111111111111"]
)
def test_an_id_out_of_a_slipped_column_is_masked(identifier: str) -> None:
    got = cf.assess({"id": identifier, "face": {}})
    assert got.id == got.model_dump()["id"] != identifier
    assert not any(number in got.id for number in ("98765432", "41111111"))
    assert cf.assess({"id": "20261124-0007", "face": {}}).id == "20261124-0007"


def test_reveal_shows_them_when_asked() -> None:
    got = cf.assess(patched({}))
    assert "45601122" in got.model_dump_json(reveal=True)
    assert got.model_dump()["read"]["micr"]["account"] == "••••1122"


@pytest.mark.parametrize(
    ("text", "masked"),
    [
        ("45601122", "••••1122"),
        ("1122", "••••"),
        ("", ""),
        ("D123-4567", "••••-4567"),
    ],
)
def test_number(text: str, masked: str) -> None:
    assert masking.number(text) == masked


@pytest.mark.parametrize(
    ("text", "masked"),
    [
        ("call 217-555-0142", "call •••-•••-0142"),
        ("SSN 123-45-6789", "SSN •••-••-••••"),
        ("SSN 123 45 6789", "SSN ••• •• ••••"),
        ("acct 4560/1122/3344", "acct ••••/••••/3344"),
        ("acct 4560 - 1122 - 3344", "acct •••• - •••• - 3344"),
        ("acct ４５６０１１２２", "acct ••••１１２２"),
        ("12 Example Lane", "12 Example Lane"),
        ("card 4111 1111 1111 1111", "card •••• •••• •••• 1111"),
    ],
)
def test_prose(text: str, masked: str) -> None:
    assert masking.prose(text) == masked


@given(st.text(alphabet="0123456789⑆⑈⑉⑇ ?-TOAD", max_size=60))
def test_a_masked_line_keeps_its_length_and_shows_at_most_four_digits_of_the_account(text: str) -> None:
    read = cf.micr.read(text)
    shown = masking.line(text, read)
    assert len(shown) == len(text)
    if isinstance(read, cf.micr.MicrLine) and read.account is not None and len(read.account) > 4:
        account = read.spans["account"].of(shown)
        assert sum(c.isdigit() for c in account) <= 4


def test_digits_of_other_scripts_are_digits_to_the_mask() -> None:
    got = cf.assess(patched({"face.micr": "⑆071098973⑆ ４５６０１１２２３３４４⑈ 1043"}))
    assert "４５６０" not in got.model_dump_json()
