"""The specimens of ICAO Doc 9303, parts 4 to 6.

Set down from memory; each is confirmed below by its own check digits.
"""

from __future__ import annotations

from datetime import date

import pytest

from checkface.identity import read_mrz
from checkface.identity.mrz import check_digit

TD1 = ("I<UTOD231458907<<<<<<<<<<<<<<<", "7408122F1204159UTO<<<<<<<<<<<6", "ERIKSSON<<ANNA<MARIA<<<<<<<<<<")
TD2 = ("I<UTOERIKSSON<<ANNA<MARIA<<<<<<<<<<<", "D231458907UTO7408122F1204159<<<<<<<6")
TD3 = ("P<UTOERIKSSON<<ANNA<MARIA<<<<<<<<<<<<<<<<<<<", "L898902C36UTO7408122F1204159ZE184226B<<<<<10")


def digit(field: str) -> int:
    """Doc 9303 part 3, 4.9: values of the characters times 7, 3, 1 in turn, modulo ten; a second writing of it."""
    values = [0 if char == "<" else int(char, 36) for char in field]
    return sum(weight * value for weight, value in zip([7, 3, 1] * len(field), values, strict=False)) % 10


@pytest.mark.parametrize(
    ("field", "expected"),
    [
        ("520727", "3"),  # Doc 9303 part 3, 4.9, example 1
        ("AB2134<<<", "5"),  # example 2
        (TD1[0][5:14], "7"), (TD1[1][0:6], "2"), (TD1[1][8:14], "9"),
        (TD1[0][5:30] + TD1[1][0:7] + TD1[1][8:15] + TD1[1][18:29], "6"),
        (TD2[1][0:9], "7"), (TD2[1][0:10] + TD2[1][13:20] + TD2[1][21:35], "6"),
        (TD3[1][0:9], "6"), (TD3[1][13:19], "2"), (TD3[1][21:27], "9"), (TD3[1][28:42], "1"),
        (TD3[1][0:10] + TD3[1][13:20] + TD3[1][21:43], "0"),
    ],
)  # fmt: skip
def test_check_digits(field, expected):
    assert check_digit(field) == expected == str(digit(field))


@pytest.mark.parametrize(
    ("lines", "kind", "number"),
    [(TD1, "identity-card", "D23145890"), (TD2, "identity-card", "D23145890"), (TD3, "passport", "L898902C3")],
)
def test_the_specimens_are_read(lines, kind, number):
    card = read_mrz("\n".join(lines))
    assert (card.kind, card.issuer, card.reveal_number()) == (kind, "UTO", number)
    assert (card.family, card.given, card.middle) == ("ERIKSSON", "ANNA", "MARIA")
    assert card.expires.on == date(2012, 4, 15)
    assert card.is_adult(date(1992, 8, 12)) is True
    assert card.is_adult(date(1992, 8, 11)) is False
    assert (card.checks, card.repairs) == ((), ())


@pytest.mark.parametrize("lines", [TD1, TD2, TD3])
def test_a_changed_digit_is_noticed(lines):
    for line, text in enumerate(lines):
        for at, char in enumerate(text):
            if char.isdigit() and at != len(text) - 2:
                changed = text[:at] + str((int(char) + 1) % 10) + text[at + 1 :]
                card = read_mrz("\n".join([*lines[:line], changed, *lines[line + 1 :]]))
                assert card.has("check-digit"), (line, at)
