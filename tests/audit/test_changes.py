"""What another policy, or another day, would answer."""

from __future__ import annotations

import io
import json
from typing import Any

import pytest
from clean_tender import NAMED, house, patched

import checkface as cf
from checkface import audit

STRICT = cf.Policy.model_validate(
    NAMED | {"name": "strict", "limits": {"house": "40.00"}, "effects": {"several-payees": "refer"}}
)


def record(patch: dict[str, Any]) -> bytes:
    tender = cf.parse(patched(patch))
    return audit.record(tender, cf.assess(tender, house())).encode() + b"\n"


def test_a_record_judged_again_under_the_same_policy_has_not_changed() -> None:
    (change,) = audit.replay(io.BytesIO(record({})), house())
    assert isinstance(change, audit.Change)
    assert (change.id, change.moved, change.reasons, change.remade_with) == ("0001", False, (), ())


def test_a_record_keeps_what_nobody_looked_at_apart_from_what_was_blank() -> None:
    stored = json.loads(record({"face.signature": "(absent)", "face.words": "(null)", "face.legends": ""}))["tender"]
    assert "signature" not in stored["face"]
    assert stored["face"]["words"] is None
    assert stored["face"]["legends"] == ""


def test_another_policy_moves_it_and_says_why() -> None:
    (change,) = audit.replay(io.BytesIO(record({})), STRICT)
    assert isinstance(change, audit.Change)
    assert (change.before.disposition, change.after.disposition) == ("convert", "refer")
    assert change.reasons == ("now amount-over-house-limit (refer)",)
    assert change.remade_with == ("policy",)


def test_a_finding_that_is_gone_and_one_that_weighs_more() -> None:
    several = {"face.payee": "Ada Sample and Ben Example"}
    tender = cf.parse(patched(several))
    (before,) = [f for f in cf.assess(tender, house()).findings if f.rule == "several-payees"]
    assert before.effect == "note"
    loose, tight = (
        list(audit.compare([audit.Item(2, tender)], *pair)) for pair in ((STRICT, house()), (house(), STRICT))
    )
    assert loose[0].reasons == ("no longer amount-over-house-limit (refer)", "several-payees was refer, now note")
    assert tight[0].reasons == ("now amount-over-house-limit (refer)", "several-payees was note, now refer")


@pytest.mark.parametrize(
    "line",
    ["{", "[]", "{}", '{"tender": 1, "assessment": 2}', '{"tender": {"face": {}}, "assessment": {"findings": 7}}',
     '{"tender": {"face": {}}, "assessment": {"findings": [], "disposition": "maybe", "made_with": {}}}'],
)  # fmt: skip
def test_what_is_no_record_is_skipped(line: str) -> None:
    found = list(audit.replay(io.BytesIO(line.encode() + b"\n\n" + record({})), house()))
    assert [type(entry).__name__ for entry in found] == ["Skipped", "Change"]
    assert found[0].line == 1
    assert found[1].line == 3


def test_a_record_of_a_tender_that_is_none_names_the_key() -> None:
    (skipped,) = audit.replay(io.BytesIO(b'{"tender": {"fase": {}}, "assessment": {}}'), house())
    assert isinstance(skipped, audit.Skipped)
    assert "the nearest known key is 'face'" in skipped.reason


def test_an_empty_file_has_no_records() -> None:
    with pytest.raises(audit.InputError, match="read an empty file"):
        list(audit.replay(io.BytesIO(b"\n"), house()))


def test_skipped_rows_pass_through_a_comparison() -> None:
    skipped = audit.Skipped(3, "Expected 2 cells, read 1.")
    assert list(audit.compare([skipped], house(), STRICT)) == [skipped]
