"""Notices: which are shown when, what they say, and what they never say."""

from __future__ import annotations

import pytest
from handling_help import AGENCY, HOUSE, finding, made, step

from checkface.handling import Agency
from checkface.policy import Policy

FEE = Policy.parse('[house]\nname = "Quillfeather Grocery"\nreturn_fee = "25.00"')


@pytest.mark.parametrize(
    ("disposition", "agency", "policy", "wanted"),
    [
        ("convert", None, HOUSE, ["posted", "authorization"]),
        ("convert", None, FEE, ["posted", "authorization", "return-fee"]),
        ("keep", None, FEE, ["sheet"]),
        ("refer", None, HOUSE, []),
        ("refer", AGENCY, HOUSE, []),
        ("decline", None, HOUSE, ["slip"]),
        ("decline", AGENCY, HOUSE, ["slip", "report"]),
    ],
)
def test_which_notices_belong(disposition: str, agency: Agency | None, policy: Policy, wanted: list[str]) -> None:
    notices = made(disposition, policy=policy, agency=agency).notices
    assert [notice.id for notice in notices] == wanted
    assert all("counsel" in notice.advice for notice in notices)


def test_the_fee_is_named() -> None:
    (fee,) = (notice for notice in made("convert", policy=FEE).notices if notice.id == "return-fee")
    assert "a fee of $25.00" in fee.text
    assert fee.regulation == "12 CFR 1005.3(b)(3); Appendix A-8"
    unsigned = made("convert", {"counter.authorization_signed": "(absent)"}, policy=FEE)
    assert "a fee of $25.00" in step(unsigned, "give-notice").text


@pytest.mark.parametrize(
    ("rule", "code"),
    [
        ("routing-all-zero", "line"),
        ("amounts-disagree", "amount"),
        ("date-stale", "date"),
        ("network-down", "house"),
        ("unheard-of", "house"),
    ],
)
def test_the_slip_names_a_thing_and_not_a_person(rule: str, code: str) -> None:
    slip = step(made("decline", findings=(finding("decline", rule),)), "print-decline-slip").text
    assert f"reason code {code}." in slip
    assert "Found" not in slip


def test_the_first_deciding_rule_gives_the_reason() -> None:
    findings = (
        finding("refer", "routing-checksum"),
        finding("decline", "date-stale"),
        finding("decline", "amount-zero"),
    )
    assert "reason code date." in step(made("decline", findings=findings), "print-decline-slip").text
