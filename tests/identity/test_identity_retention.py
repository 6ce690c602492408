"""What may be kept of an identification, by state."""

from __future__ import annotations

import pytest

from checkface import tables
from checkface.identity import may_keep


def test_the_safe_default_stands_for_every_state_without_a_row():
    for row in tables.load("us_states").rows:
        kept = may_keep(row["alpha"])
        assert kept.citation
        assert kept.words
        assert (kept.payment_card, kept.social_security, kept.photocopy) == (False, False, False)
    assert may_keep("WY") == may_keep("") == may_keep("nowhere")
    assert may_keep("wy").number is False


@pytest.mark.parametrize(
    ("state", "citation", "allowed"),
    [
        ("CA", "Cal. Civ. Code 1725", {"kind", "issuer", "was_current"}),
        ("DC", "D.C. Code 47-3152", {"kind", "expiry", "was_current"}),
        ("MA", "Mass. G.L. c. 93 s. 105(b)", {"kind", "issuer", "was_current", "number", "name", "address", "phone"}),
        ("RI", "R.I. Gen. Laws 6-13-15", {"kind", "issuer", "was_current"}),
        ("NH", "N.H. RSA 358-M:1", {"kind", "issuer", "was_current"}),
        ("NY", "N.Y. Gen. Bus. Law 518-a, 399-ddd", {"kind", "issuer", "was_current"}),
        ("NJ", "N.J. Personal Information and Privacy Protection Act (2017)", {"kind", "issuer", "was_current"}),
        ("TX", "Tex. Transp. Code 521.126", {"kind", "issuer", "was_current"}),
    ],
)
def test_what_each_statute_leaves(state, citation, allowed):
    kept = may_keep(state)
    assert kept.citation == citation
    assert {field for field in kept._fields if getattr(kept, field) is True} == allowed


def test_a_military_card_is_never_photocopied():
    kept = may_keep("TX", "military-id")
    assert kept.photocopy is False
    assert kept.citation == "Tex. Transp. Code 521.126; 18 USC 701"
    assert may_keep("TX", "passport") == may_keep("TX")
