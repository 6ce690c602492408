"""What the lane did against the answer: held, found and unread, with the exact words."""

from __future__ import annotations

from typing import Any

import pytest
from across_items import seen

from checkface.audit.across import Across, AuditFinding
from checkface.findings import Disposition, Effect

BARRED, KEPT, DECLINED = "converted-though-barred", "kept-though-convertible", "taken-though-declined"
DOWN: dict[str, Any] = {"counter__network": "down"}
UNSIGNED = {"face__signature": False}
UNCLEAR = {"face__words": "Forty-five or so"}


def held(**changed: Any) -> tuple[list[AuditFinding], Across]:
    across = Across()
    return across.add("day.csv", seen(**changed)), across


@pytest.mark.parametrize(
    ("changed", "expected"),
    [
        ({"taken_as": "converted"}, []),
        (DOWN | {"taken_as": "kept"}, []),
        (UNSIGNED | {"taken_as": "returned"}, []),
        ({"taken_as": "returned"}, []),
        (UNCLEAR | {"taken_as": "kept"}, []),
        (DOWN | {"taken_as": "converted"}, [(BARRED, "Converted, but the answer is keep: network-down.")]),
        (
            UNCLEAR | {"taken_as": "converted"},
            [(BARRED, "Converted, but the answer is refer: words-unclear.")],
        ),
        (
            DOWN | {"taken_as": "converted", "counter__authorization_signed": False},
            [(BARRED, "Converted, but the answer is keep: network-down, authorization-not-signed.")],
        ),
        (
            UNSIGNED | {"taken_as": "converted"} | DOWN,
            [
                (BARRED, "Converted, but the answer is decline: signature-missing, network-down."),
                (DECLINED, "Converted, but the answer is decline: signature-missing."),
            ],
        ),
        (UNSIGNED | {"taken_as": "kept"}, [(DECLINED, "Kept, but the answer is decline: signature-missing.")]),
    ],
)
def test_what_is_said(changed: dict[str, Any], expected: list[tuple[str, str]]) -> None:
    findings, _ = held(**changed)
    assert [(finding.rule, finding.message) for finding in findings] == expected


def test_a_check_kept_though_convertible_says_how_much_was_not_read() -> None:
    for missing, said in (
        ("", "."),
        ("alterations", ", though 1 rule could not run."),
        ("words", ", though 4 rules could not run."),
    ):
        findings, across = held(taken_as="kept", **({f"face__{missing}": "(absent)"} if missing else {}))
        assert [finding.message for finding in findings] == [f"Kept, but the answer is convert{said}"]
    assert findings[0].effect is Effect.NOTE
    assert across.worst is Disposition.CONVERT


def test_what_nobody_wrote_down_is_no_pass() -> None:
    findings, across = held()
    assert findings == []
    assert across.counts.asked.total() == 0
    assert not across.is_asked
    assert across.counts.text() == (
        "converted-though-barred, kept-though-convertible and taken-though-declined could not be asked of 1 item because "
        "nothing says what the lane did (taken_as)."
    )


def test_each_rule_counts_what_it_was_asked_of() -> None:
    across = Across()
    for way in ("converted", "kept", "returned", "kept"):
        across.add("day.csv", seen(taken_as=way, **DOWN))
    assert across.counts.asked == {BARRED: 1, KEPT: 2, DECLINED: 3}
    assert across.counts.found == {BARRED: 1}
    assert across.is_asked
    assert across.worst is Disposition.REFER
    assert list(across.finish()) == []


def test_the_place_is_the_line_of_the_check() -> None:
    (finding,) = Across().add("day.csv", seen(7, taken_as="converted", **DOWN))
    assert finding.places[0].text == "day.csv:7 0001"
    assert (finding.line, finding.id, finding.sheet) == (7, "0001", "")
    assert finding.wire() == {
        "rule": BARRED,
        "effect": "refer",
        "message": "Converted, but the answer is keep: network-down.",
        "places": [{"file": "day.csv", "line": 7, "id": "0001"}],
        "authority": [
            {"id": "house-policy", "force": "house", "citation": "House policy"},
            {"id": "nacha-ineligible", "force": "network", "citation": "Nacha list of ineligible items"},
            {"id": "nacha-authorization", "force": "network", "citation": "Nacha point-of-purchase authorization"},
        ],
    }
