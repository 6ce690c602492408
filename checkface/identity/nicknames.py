"""Given names and their short forms, from ``data/nicknames.csv``; abbreviations and Spanish ones, ``name_forms.csv``.

>>> kinship("MICHAEL", "MIKE"), kinship("BILL", "WILLIAM"), kinship("ROBBY", "BOB")
('same', 'same', 'near')
>>> kinship("MARY", "MARIE"), kinship("JOHN", "JANE"), kinship("SAMANTHA", "SAMUEL")
('near', 'other', 'other')
>>> kinship("MICHEAL", "MICHAEL"), kinship("ERIC", "ERICA"), kinship("QUILL", "QUILLON")
('near', 'near', 'near')
>>> kinship("WM", "WILLIAM"), kinship("PACO", "FRANCISCO"), kinship("MA", "MARIA")
('same', 'same', 'near')
"""

from functools import cache
from typing import Literal, NamedTuple

from checkface import tables

Kinship = Literal["same", "near", "other"]
_DIMINUTIVE = ("Y", "IE", "I", "ITO", "ITA")


class _Forms(NamedTuple):
    short: frozenset[str]
    asked: frozenset[str]


_NONE = _Forms(frozenset(), frozenset())


def kinship(one: str, other: str) -> Kinship:
    """How two different given names in capitals are related.

    ``"same"``: one is a usual short form of the other. ``"near"``: they may be forms of one name, or one of them
    misspelled. ``"other"``: two names, as those of a brother and a sister.
    """
    forms = _forms()
    ours, theirs = forms.get(one, _NONE), forms.get(other, _NONE)
    if other in ours.short or one in theirs.short:
        return "same"
    if other in ours.asked or one in theirs.asked or _through_a_third(one, other):
        return "near"
    shorter, longer = sorted((one, other), key=len)
    if (len(shorter) > 2 and longer.startswith(shorter)) or _abbreviates(shorter, longer):
        return "near"
    slip = len(shorter) > 3 and one_slip(one, other)
    if is_given(one) and is_given(other):
        # Joan is another name than John; Micheal and Katherine are Michael and Catherine.
        return "near" if slip and (ours.short & theirs.short or sorted(one) == sorted(other)) else "other"
    if slip:
        return "near"
    return "near" if one[:3] == other[:3] and longer.endswith(_DIMINUTIVE) else "other"


def _abbreviates(short: str, name: str) -> bool:
    """Whether *short* is no name and its letters stand in *name* in this order: WM, CHAS, MA for MARIA."""
    letters = iter(name)
    return 1 < len(short) < 5 and short[0] == name[0] and not is_given(short) and all(one in letters for one in short)


def is_given(word: str) -> bool:
    """Whether the table holds *word*, in capitals, as a given name or as a short form."""
    return word in _forms() or word in _long_forms()


def one_slip(one: str, other: str) -> bool:
    """Whether one letter was changed, left out, added, or changed places with its neighbor."""
    start = next(
        (place for place, (a, b) in enumerate(zip(one, other, strict=False)) if a != b),
        min(len(one), len(other)),
    )
    a, b = one[start:], other[start:]
    return a[1:] == b[1:] or a[1:] == b or a == b[1:] or (a[:2] == b[1::-1] and a[2:] == b[2:])


def _through_a_third(one: str, other: str) -> bool:
    """Two short forms of one name, or the short form of a short form. What is short for both settles nothing: Sam."""
    up, forms = _long_forms(), _forms()
    ours, theirs = up.get(one, frozenset()), up.get(other, frozenset())
    if ours & theirs:
        return True
    return any(one in up.get(name, ()) for name in theirs) or any(
        other in up.get(name, ()) for name in ours & forms.keys()
    )


@cache
def _forms() -> dict[str, _Forms]:
    found = {
        row["name"]: _Forms(frozenset(row["short_forms"].split()), frozenset(row["asked"].split()))
        for row in tables.load("nicknames").rows
    }
    for row in tables.load("name_forms").rows:
        short, asked = found.get(row["name"], _NONE)
        found[row["name"]] = _Forms(short.union(row["short_forms"].split()), asked)
    return found


@cache
def _long_forms() -> dict[str, frozenset[str]]:
    """Short forms to the names they stand for."""
    found: dict[str, set[str]] = {}
    for name, forms in _forms().items():
        for form in forms.short:
            found.setdefault(form, set()).add(name)
        for form in forms.asked:
            found.setdefault(form, set())
    return {form: frozenset(names) for form, names in found.items()}
