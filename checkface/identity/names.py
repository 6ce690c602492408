"""Whether the drawer printed on a check can be the person on the card. Facts about spelling, never a guess.

Order, initials, suffixes, hyphens, accents and the standard's truncation are understood; a nickname is not:
it leaves the answer unclear, for a person to settle. AAMVA cards shorten a long name from the right,
keeping hyphens, after dropping blanks beside hyphens and apostrophes.

>>> card = Name("SAMPLE", "MICHAEL", "JOHN", "JR")
>>> names_agree(["MICHAEL J SAMPLE JR", "2300 WEST BROAD STREET"], card).verdict
'compatible'
>>> names_agree(["JANE OR MICHAEL JOHN SAMPLE, JR."], card).verdict
'same'
>>> names_agree(["MIKE SAMPLE"], card)
Agreement(verdict='unclear', reason='the family name agrees, the given name does not')
>>> names_agree(["JANE DOE"], card).verdict
'different'
"""

from collections.abc import Callable, Sequence
from itertools import islice
from typing import Literal, NamedTuple

from .card import Card, Name
from .persons import NO_PERSON, SUFFIXES, Person, fold, persons_in, without_suffix

Verdict = Literal["same", "compatible", "different", "unclear"]


class Agreement(NamedTuple):
    """How far two readings agree and why, in words that name no one."""

    verdict: Verdict
    reason: str


_FAMILY_DIFFERS = Agreement("different", "the family name differs")
_RANK: dict[Verdict, int] = {"same": 3, "compatible": 2, "unclear": 1, "different": 0}
_LONGEST = 2_000
_MOST_PERSONS = 16
_LONGEST_FAMILY = 4  # words
_GERMAN = str.maketrans({"Ä": "AE", "Ö": "OE", "Ü": "UE", "Å": "AA", "Ñ": "N", "Ø": "OE"})


def names_agree(drawer: str | Sequence[str], holder: Card | Name | str) -> Agreement:
    """Compare the drawer's printed lines with the holder's name; of a joint account the best person counts."""
    lines = drawer.splitlines() if isinstance(drawer, str) else list(drawer)
    holder = holder.name if isinstance(holder, Card) else holder
    name = holder if isinstance(holder, Name) else _name_in(holder)
    texts = (*lines, *name[:4], name.unordered)
    if sum(map(len, texts)) > _LONGEST:
        return Agreement("unclear", "too long for a name")
    found = _agree(lines, name)
    if found.verdict != "same" and not all(map(str.isascii, texts)):
        # A machine-readable zone writes Ü as UE, a person leaves the dots away: either spelling may agree.
        other = _agree([_written_out(line) for line in lines], _each(name, _written_out))
        return max(found, other, key=_rank)
    return found


def _written_out(text: str) -> str:
    return text.upper().translate(_GERMAN)


def _each(name: Name, change: Callable[[str], str]) -> Name:
    """The name with every part of it changed."""
    return name._replace(
        family=change(name.family),
        given=change(name.given),
        middle=change(name.middle),
        suffix=change(name.suffix),
        unordered=change(name.unordered),
    )


def _rank(found: Agreement) -> tuple[int, bool]:
    """Best verdict first; of two differences the one that says more."""
    return _RANK[found.verdict], found != _FAMILY_DIFFERS


def _name_in(text: str) -> Name:
    family, comma, given = text.partition(",")
    if comma and not set(fold(given).split()) <= SUFFIXES.keys():
        return Name(family, given)
    return Name(unordered=text)


def _agree(lines: list[str], name: Name) -> Agreement:
    name = _each(name, fold)
    if not (name.family or name.unordered):
        return Agreement("unclear", "the identification gives no name")
    best: Agreement | None = None
    only_others = True
    for person in islice(persons_in(lines), _MOST_PERSONS):
        found = _compare(person, name)
        best = found if best is None else max(best, found, key=_rank)
        only_others = only_others and not NO_PERSON.isdisjoint(person.words)
        if best.verdict == "same" and not only_others:
            return best  # nothing on the other lines can say more
    if best is None:
        return Agreement("unclear", "no drawer's name was read")
    return Agreement("unclear", "the drawer is not a person") if only_others else best


def _compare(person: Person, name: Name) -> Agreement:
    # A family name may look like a suffix: then nothing is taken off.
    words, suffix = (person.words, "") if name.family in SUFFIXES else without_suffix(person.words)
    if not name.family:
        return _compare_unordered(words, suffix, name)
    family, in_family = without_suffix(tuple(name.family.split()))
    theirs = SUFFIXES.get(name.suffix, name.suffix) or in_family
    best = _FAMILY_DIFFERS
    for size in range(1, min(len(words), _LONGEST_FAMILY) + 1):
        last = _in_order(words[-size:], words[:-size], family, name)
        first = _in_order(words[:size], words[size:], family, name)
        if first.verdict == "same":
            first = Agreement("compatible", "the family name stands first")
        for found in (last, first):
            best = max(best, _with_suffix(found, suffix, theirs), key=_rank)
    if person.lent and best.verdict in {"same", "compatible"}:
        return Agreement("unclear", "which family name is whose is not clear")
    return best


def _with_suffix(found: Agreement, ours: str, theirs: str) -> Agreement:
    if ours and theirs and ours != theirs and found.verdict in {"same", "compatible"}:
        return Agreement("different", "the suffixes differ")
    if ours != theirs and found.verdict == "same":
        return Agreement("compatible", "only one of them has a suffix")
    return found


def _in_order(family: tuple[str, ...], given: tuple[str, ...], card: tuple[str, ...], name: Name) -> Agreement:
    families = _family(family, card, name.family_truncated)
    if families.verdict == "different":
        return families
    givens = _given(_parts(given), _parts((*name.given.split(), *name.middle.split())), name)
    return min(families, givens, key=_rank)


def _parts(words: Sequence[str]) -> list[str]:
    return [part for word in words for part in word.split("-") if part]


def _family(ours: tuple[str, ...], card: tuple[str, ...], truncated: bool | None) -> Agreement:
    our_parts, card_parts = _parts(ours), _parts(card)
    one, other = "".join(our_parts), "".join(card_parts)
    if one == other:
        return Agreement("same", "the names agree")
    long_enough = len(other) >= (3 if truncated else 12)
    if truncated is not False and long_enough and one.startswith(other):
        return Agreement("compatible", "the card shortens the family name")
    # A word before the card's family name is as likely a middle name; behind it or hyphened it is a second.
    ours_double = other == our_parts[0] or (other in our_parts and len(ours) == 1)
    if (len(one) > 2 and one in card_parts) or (len(other) > 2 and ours_double):
        return Agreement("compatible", "one gives a part of the other's double family name")
    if len(one) > 3 and len(ours) == len(card) and _one_slip(one, other):
        return Agreement("unclear", "the family names differ by one letter")
    return _FAMILY_DIFFERS


def _given(ours: list[str], card: list[str], name: Name) -> Agreement:
    if not ours or not card:
        words = "the card gives no given name" if ours else "only the family name is given"
        return Agreement("same" if ours == card else "unclear", words)
    if "".join(ours) == "".join(card):
        return Agreement("same", "the names agree")
    truncated = name.given_truncated or name.middle_truncated or False
    compound = len(_parts(name.given.split())) or 1
    if ours[0] == "".join(card[:compound]):  # MARYANN for MARY ANN
        card = [ours[0], *card[compound:]]
    elif "".join(ours[:2]) == card[0]:
        ours = [card[0], *ours[2:]]
    if _stands_for(ours[0], card[0], truncated):
        if all(_stands_for(one, other, truncated) for one, other in zip(ours[1:], card[1:], strict=False)):
            return Agreement("compatible", "initials or middle names are left out")
        return Agreement("unclear", "the middle names differ")
    if len(ours[0]) > 1 and ours[0] in card[1:]:
        return Agreement("compatible", "a middle name is used as the given name")
    return Agreement("unclear", "the family name agrees, the given name does not")


def _stands_for(ours: str, card: str, truncated: bool) -> bool:
    """Equal, one the initial of the other, or the card's a shortened form where it says that it shortens."""
    return (
        ours == card or (min(len(ours), len(card)) == 1 and ours[0] == card[0]) or (truncated and ours.startswith(card))
    )


def _one_slip(one: str, other: str) -> bool:
    """Whether one letter was changed, left out, added, or changed places with its neighbour."""
    start = next(
        (place for place, (a, b) in enumerate(zip(one, other, strict=False)) if a != b),
        min(len(one), len(other)),
    )
    a, b = one[start:], other[start:]
    return a[1:] == b[1:] or a[1:] == b or a == b[1:] or (a[:2] == b[1::-1] and a[2:] == b[2:])


def _compare_unordered(words: tuple[str, ...], suffix: str, name: Name) -> Agreement:
    card, in_name = without_suffix(tuple(name.unordered.split()))
    theirs = SUFFIXES.get(name.suffix, name.suffix) or in_name
    ours, other = _parts(words), _parts(card)
    if ours == other:
        return _with_suffix(Agreement("same", "the names agree"), suffix, theirs)
    shared = [word for word in ours if word in other and len(word) > 1]
    left = [word for word in ours if word not in shared]
    initials = [word[0] for word in other if word not in shared]
    stand_for = all(len(word) == 1 and word in initials for word in left)
    if len(shared) > 1 and (stand_for or not initials):
        return _with_suffix(Agreement("compatible", "the same names, fuller or in another order"), suffix, theirs)
    if shared:
        return Agreement("unclear", "a part of the names agrees, and their order is not known")
    return Agreement("different", "the names share no word")
