"""The slips of a pen or a reader that turn one amount into another, recognised from the two values."""

from collections.abc import Callable
from typing import NamedTuple

from checkface.amounts.model import money


class Slip(NamedTuple):
    """The likeliest slip: ``kind``, a stable name, and a sentence about the two amounts."""

    kind: str
    sentence: str


def likely(words: int, figures: int) -> Slip | None:
    """The slip that turns *words* into *figures*, both in cents and different, or None when none is near."""
    for kind, test, sentence in _SLIPS:
        if test(words, figures):
            return Slip(kind, f"{sentence}: {money(words)} in words, {money(figures)} in figures.")
    return None


def _either(one: Callable[[int, int], bool]) -> Callable[[int, int], bool]:
    return lambda words, figures: one(words, figures) or one(figures, words)


def _transposed(words: int, figures: int) -> bool:
    first, second = f"{words:03d}", f"{figures:03d}"
    if len(first) != len(second):
        return False
    apart = [place for place in range(len(first)) if first[place] != second[place]]
    return (
        len(apart) == 2
        and apart[1] == apart[0] + 1
        and first[apart[0]] == second[apart[1]]
        and first[apart[1]] == second[apart[0]]
    )


def _lost_leading(larger: int, smaller: int) -> bool:
    dollars, kept = str(larger // 100), f"{smaller // 100}"
    if larger % 100 != smaller % 100 or len(dollars) < 2:
        return False
    return dollars[1:].lstrip("0") == kept.lstrip("0") and (kept != "0" or len(dollars) == 2)


def _sign_as_digit(words: int, figures: int) -> bool:
    return words % 100 == figures % 100 and str(figures // 100) in {f"5{words // 100}", f"8{words // 100}"}


def _dropped_hundred(larger: int, smaller: int) -> bool:
    hundreds = larger // 10_000 % 10
    return hundreds > 0 and larger - hundreds * 10_000 == smaller


_GROUPS = (1, 100, 100_000, 100_000_000)
"""Cents in one of what is spoken as a number below a hundred: cents, dollars, thousands, millions."""


def _teen(first: int, second: int) -> bool:
    """thirteen/thirty, at the end of a group of three digits or as the cents."""
    for scale in _GROUPS:
        teen = first // scale % 100
        if 12 < teen < 20 and second == first + (teen % 10 * 10 - teen) * scale:
            return True
    return False


def _eight(first: int, second: int) -> bool:
    """eight/eighty: one letter apart."""
    return any(first // scale % 100 == 8 and second == first + 72 * scale for scale in _GROUPS)


def _lost_digit(larger: int, smaller: int) -> bool:
    whole, kept = str(larger // 100), str(smaller // 100)
    return (
        larger % 100 == smaller % 100
        and len(whole) == len(kept) + 1
        and any(whole[:place] + whole[place + 1 :] == kept for place in range(len(whole)))
    )


def _one_digit(words: int, figures: int) -> bool:
    first, second = f"{words:03d}", f"{figures:03d}"
    return len(first) == len(second) and sum(one != other for one, other in zip(first, second, strict=True)) == 1


_SLIPS: tuple[tuple[str, Callable[[int, int], bool], str], ...] = (
    ("lost-point", _either(lambda larger, smaller: larger == smaller * 100), "The point is missing or misplaced"),
    ("eight-eighty", _either(_eight), "Eight and eighty are swapped"),
    ("teen-ty", _either(_teen), "A number in -teen and one in -ty are swapped"),
    ("transposed-digits", _transposed, "Two digits are swapped"),
    ("cents-only", lambda words, figures: words // 100 == figures // 100, "Only the cents differ"),
    ("extra-zero", lambda words, figures: figures == words * 10, "The box has a zero too many"),
    ("lost-zero", lambda words, figures: words == figures * 10, "The box has a zero too few"),
    (
        "lost-thousand",
        _either(lambda larger, smaller: larger == smaller * 1_000),
        "The word thousand or three zeros are missing",
    ),
    ("sign-as-digit", _sign_as_digit, "The dollar sign is read as a digit"),
    ("lost-leading-digit", _either(_lost_leading), "The first digit is missing"),
    ("dropped-hundred", _either(_dropped_hundred), "The hundreds are missing"),
    ("lost-digit", _either(_lost_digit), "A digit is missing"),
    ("one-digit", _one_digit, "One digit differs"),
)
