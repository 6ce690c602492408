"""The address of a check beside that of a document."""

from __future__ import annotations

import pytest

from checkface.identity import Address, addresses_agree

HOME = Address("2300 WEST BROAD STREET", "RICHMOND", "VA", "23269")


@pytest.mark.parametrize(
    ("drawer", "verdict"),
    [
        ("MICHAEL SAMPLE\n2300 W. Broad St.\nRichmond, VA 23269", "same"),
        ("MICHAEL SAMPLE\n2300 WEST BROAD STREET\nRICHMOND VA 23269-0001", "same"),
        ("MICHAEL SAMPLE\nPO BOX 12\nRICHMOND VA 23269", "compatible"),
        ("MICHAEL SAMPLE\nWEST BROAD STREET\nRICHMOND VA 23269", "compatible"),
        ("MICHAEL SAMPLE\n2302 WEST BROAD STREET\nRICHMOND VA 23269", "different"),
        ("MICHAEL SAMPLE\n2300 WEST BROAD STREET\nRICHMOND VA 23220", "different"),
        ("MICHAEL SAMPLE", "unclear"),
    ],
)
def test_addresses(drawer, verdict):
    assert addresses_agree(drawer, HOME).verdict == verdict


def test_canadian_postal_codes_are_compared_whole():
    home = Address("12 RIDEAU ST", "OTTAWA", "ON", "K1A0B1")
    assert addresses_agree("12 Rideau St\nOttawa ON K1A 0B1", home).verdict == "same"
    assert addresses_agree("12 Rideau St\nOttawa ON K1A 0B2", home).verdict == "different"
