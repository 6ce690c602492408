"""The written form of an assessment is the form it has."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from clean_tender import patched
from pydantic import TypeAdapter, ValidationError

import checkface as cf
from checkface.report.wire import AssessmentWire, assessment_schema

FIXTURES = [
    (fixture.get("policy", {}), fixture[state])
    for path in sorted((Path(__file__).parents[1] / "rules" / "fixtures").glob("*.toml"))
    for fixture in tomllib.loads(path.read_text(encoding="utf-8")).values()
    for state in ("held", "found", "unread")
    if state in fixture
]
FORM = TypeAdapter(AssessmentWire)


def test_every_fixture_has_the_written_form() -> None:
    for policy, patch in FIXTURES:
        wire = cf.assess(patched(patch), cf.Policy.model_validate(policy)).model_dump()
        assert FORM.dump_python(FORM.validate_python(wire), mode="json") == wire


def test_what_is_not_written_down_is_refused() -> None:
    wire = cf.assess(patched({})).model_dump()
    with pytest.raises(ValidationError):
        FORM.validate_python(wire | {"more": 1})


def test_the_schema_is_closed_and_names_the_answers() -> None:
    schema = assessment_schema()
    assert schema["additionalProperties"] is False
    assert set(schema["required"]) == set(cf.assess(patched({})).model_dump())
    assert schema["$defs"]["Disposition"]["enum"] == ["convert", "keep", "refer", "decline"]
