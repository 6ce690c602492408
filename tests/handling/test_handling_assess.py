"""Instructions at the end of the whole way: read, examined, decided, handled."""

from __future__ import annotations

from typing import Any

import pytest
from clean_tender import patched
from handling_help import HOUSE, does, step

from checkface import authority
from checkface.assessment import assess
from checkface.findings import Disposition


@pytest.mark.parametrize(
    ("patch", "disposition", "wanted"),
    [
        ({}, "convert", {"print-void", "verify-void", "hand-back-check"}),
        ({"counter.network": "down"}, "keep", {"cancel-authorization", "skip-front", "put-in-till"}),
        ({"counter.network": "down", "face.date": ""}, "keep", {"print-date", "put-in-till"}),
        ({"counter.authorization_signed": False}, "keep", {"print-endorsement", "write-notation"}),
        ({"face.date": "(absent)"}, "refer", {"look-at-date", "judge-again", "call-manager"}),
        ({"face.signature": False}, "decline", {"sign-check", "print-decline-slip"}),
        ({"face.figures": "$54.10"}, "decline", {"write-new-check", "hand-back-check", "record-reason"}),
        ({"counter.amount": "54.10"}, "refer", {"key-again", "judge-again", "call-manager"}),
    ],
)
def test_from_the_paper_to_the_steps(patch: dict[str, Any], disposition: str, wanted: set[str]) -> None:
    assessment = assess(patched(patch), HOUSE)
    assert assessment.instructions.disposition is assessment.disposition is Disposition(disposition)
    assert wanted <= set(does(assessment.instructions))
    for entry in assessment.instructions.wire():
        assert all(authority.get(identifier) for identifier in entry["cite"])


def test_the_exact_reason_is_for_the_house_alone() -> None:
    assessment = assess(patched({"face.date": "1/5/2026"}), HOUSE)
    exact = [entry for entry in assessment.instructions.steps if assessment.decision.because[0].message in entry.text]
    assert [entry.where for entry in exact] == ["house record"]
    assert "reason code date." in step(assessment.instructions, "print-decline-slip").text
