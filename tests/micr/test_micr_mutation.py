"""One character changed in a correct line: what can still be read as something else, listed in full.

The routing number ends in a check digit that sees every single change, so a different routing number is never read as
sound. Account and amount have no check digit. What passes unseen is one account digit replaced, lost (taken for a
separator or an On-Us symbol at the field's edge) or gained, and one amount digit replaced: nothing else.
"""

from __future__ import annotations

import os
from collections.abc import Iterator

import pytest
from stdnum.us.rtn import calc_check_digit

from checkface import micr
from checkface.micr import PICTURES, MicrLine

THOROUGH = bool(os.environ.get("CHECKFACE_THOROUGH"))
ACCOUNTS = ["0045601122", "123-456-789", "123 4 567890", "1211-1234-56789"]
KIND = {"⑆": "transit", "⑇": "amount", "⑈": "on-us", "⑉": "dash", " ": "blank", "?": "unread", "x": "foreign"}
FIELDS = {"routing": "routing", "account": "account", "amount": "amount_cents"}

# (field, what stood there, what stands there now); None is nothing: a character lost or slipped in.
UNSEEN = {
    ("account", "digit", "digit"),
    ("account", "digit", None),
    ("account", None, "digit"),
    ("account", "blank", "digit"),
    ("account", "dash", "digit"),
    ("account", "on-us", "digit"),  # the opening one of a pair around the account
    ("account", "digit", "blank"),
    ("account", "digit", "dash"),
    ("account", "digit", "on-us"),  # at the left edge, where it looks like the opening one of a pair
    ("amount", "digit", "digit"),
}


def kind(char: str) -> str:
    return KIND.get(char, "digit")


def changes(text: str) -> Iterator[tuple[str, str | None, str | None]]:
    for at, char in enumerate(text):
        yield text[:at] + text[at + 1 :], kind(char), None
        for new in "0123456789⑆⑇⑈⑉ ?x":
            if new != char:
                yield text[:at] + new + text[at + 1 :], kind(char), kind(new)
    for at in range(len(text) + 1):
        for new in "07⑆⑇⑈⑉ ?x":
            yield text[:at] + new + text[at:], None, kind(new)


def confident(line: MicrLine, field: str) -> object:
    """The value of *field*, if nothing in the line speaks against it."""
    if line.unread or line.faults or line.country != "US":
        return None
    if field in {ambiguity.field for ambiguity in line.ambiguities} or (field == "routing" and not line.checksum):
        return None
    return getattr(line, FIELDS[field])


def lines() -> Iterator[str]:
    for layout in PICTURES:
        for account in ACCOUNTS if THOROUGH or layout in ("personal", "leading-closed", "business") else ACCOUNTS[:2]:
            for cents, epc in ((None, ""), (1957, "4")):
                text = micr.format(
                    layout,
                    routing="031097765",
                    account=account,
                    serial="1043",
                    transaction_code="27",
                    amount_cents=cents,
                    epc=epc,
                )
                yield text
                yield text.replace(" ", "")


def apart(one: str, other: str) -> int:
    """Digits to replace, drop or add to get from one number to the other (counted up to 2)."""
    if len(one) == len(other):
        return min(2, sum(a != b for a, b in zip(one, other, strict=True)))
    longer, shorter = sorted((one, other), key=len, reverse=True)
    if len(longer) - len(shorter) > 1:
        return 2
    return 1 if any(longer[:at] + longer[at + 1 :] == shorter for at in range(len(longer))) else 2


def test_what_one_changed_character_can_hide() -> None:
    seen = set()
    for text in dict.fromkeys(lines()):
        base = micr.read(text)
        assert isinstance(base, MicrLine)
        wanted = {field: confident(base, field) for field in FIELDS}
        for changed, before, after in changes(text):
            line = micr.read(changed)
            if not isinstance(line, MicrLine):
                continue
            for field, value in wanted.items():
                got = confident(line, field)
                if value is None or got is None or got == value:
                    continue
                seen.add((field, before, after))
                width = 10 if field == "amount" else 0
                assert apart(str(value).zfill(width), str(got).zfill(width)) == 1, changed
    assert seen == UNSEEN


@pytest.mark.parametrize("digit", range(9))
def test_no_single_routing_digit_changes_unseen(digit: int) -> None:
    for number in ("031097765", "211395601", "111000025"):
        for other in set("0123456789") - {number[digit]}:
            line = micr.read(f"⑆{number[:digit]}{other}{number[digit + 1 :]}⑆ 0045601122⑈ 1043")
            assert isinstance(line, MicrLine)
            assert line.checksum is False


@pytest.mark.parametrize("place", range(7))
def test_neighbours_that_differ_by_five_change_places_unseen(place: int) -> None:
    """The blind spot of the sum: the weights 3, 7 and 1 differ by even numbers, and five times those is 0 modulo 10."""
    first = "03109776"
    eight = first[:place] + "16" + first[place + 2 :]
    swapped = first[:place] + "61" + first[place + 2 :]
    digit = calc_check_digit(eight)
    for number in (eight + digit, swapped + digit):
        line = micr.read(f"⑆{number}⑆ 0045601122⑈ 1043")
        assert isinstance(line, MicrLine)
        assert line.checksum is True
