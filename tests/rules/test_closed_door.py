"""The closed door before ``convert``, held to tenders with wordings as paper has them.

The first sets were written without sight of the tables, the second and third after the mending the one before led to.
All have been mended for since: they hold what was reached and measure nothing new. Of a drawer that is no person the
card bears the same name, so that only the drawer's lines can tell; two names of two given names keep the usual card.

``never``: nothing of it may be converted without a question, whatever the clerk pressed. ``honest``: personal checks in
the variety people write them; none is declined, and few are asked about. ``kept``: other paper, declared rightly. Each
row is a change of the clean tender with the class it stands for; names are invented. Common practice throughout.
"""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from clean_tender import patched

import checkface as cf
from checkface.policy import Policy

ROOM = Path(__file__).parent / "closed_door"
HOUSE = Policy.model_validate(
    {"payee": {"names": ["Quillfeather Grocery", "Quillfeather"]}, "limits": {"house": "", "cash_back": ""}}
)


def rows(name: str) -> list[dict[str, Any]]:
    return [json.loads(line) for line in (ROOM / f"{name}.jsonl").read_text(encoding="utf-8").splitlines()]


def tender(row: dict[str, Any]) -> dict[str, Any]:
    return patched({path: "(null)" if value is None else value for path, value in row.items() if path != "class"})


@pytest.mark.parametrize("declared", ["as it is", None])
@pytest.mark.parametrize(("name", "least"), [("never_1", 800), ("never_2", 180), ("never_3", 58)])
def test_what_must_not_be_converted_is_at_least_asked_about(name: str, least: int, declared: str | None) -> None:
    every = rows(name)
    assert len(every) >= least
    for row in every:
        one = tender(row)
        if declared is None:
            one["counter"].pop("declared_kind", None)
        assert cf.assess(one, policy=HOUSE).disposition != "convert", row


def answer(row: dict[str, Any]) -> str:
    found = cf.assess(tender(row), policy=HOUSE)
    referring = [finding for finding in found.findings if finding.effect == "refer"]
    if found.disposition == "refer" and all(finding.question for finding in referring):
        return "asked"
    return str(found.disposition)


@pytest.mark.parametrize(
    ("name", "counts"),
    [
        # asked: initials for given names, two names and a beneficiary on one account, names that are signs of an organization
        ("honest_1", {"convert": 428, "asked": 19, "refer": 4, "keep": 4}),
        ("honest_2", {"convert": 165, "asked": 2}),
        ("honest_3", {"convert": 50}),
        ("kept_1", {"keep": 66}),
    ],
)
def test_honest_paper_is_taken(name: str, counts: dict[str, int]) -> None:
    assert Counter(map(answer, rows(name))) == counts
