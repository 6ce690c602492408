"""Whether a person printed on a check is the holder of a document. Facts about spelling, never a guess.

``same``: order, initials, suffixes, hyphens, accents and the standard's truncation are understood, and so are the
short forms of ``data/nicknames.csv``. ``ask``: one look by the clerk can settle it. ``different``: somebody else.
``none``: no person's name can be read there, which is never agreement. AAMVA cards shorten a long name from the right,
keeping hyphens, after dropping blanks beside hyphens and apostrophes.

>>> card = Name("SAMPLE", "MICHAEL", "JOHN", "JR")
>>> names_agree("MIKE J SAMPLE\\n2300 WEST BROAD STREET", card).verdict
'same'
>>> found = names_agree("JANE OR MICHAEL JOHN SAMPLE, JR. TTEES", card)
>>> found.verdict, found.person, found.capacity, found.spans
('same', 1, 'trustee', (Span(start=8, end=32),))
>>> names_agree("MICHAEL JONES", card)[:2]
('ask', 'the given name agrees, the family name does not')
>>> names_agree("JANE SAMPLE", card)[:2]
('different', 'the family name agrees, the given name does not')
>>> names_agree("SAMPLE PLUMBING LLC", card)[:2]
('none', 'it names a firm or a public body and no person')
"""

import re
from collections.abc import Callable, Iterator, Sequence
from functools import reduce
from itertools import islice
from typing import Literal, NamedTuple

from checkface.patterns import lazily
from checkface.span import Span

from .accounts import NO_OWNER
from .card import Card, Name
from .nicknames import is_given, kinship, one_slip
from .persons import LONGEST, SUFFIXES, Person, fold, is_plain, persons_in, without_suffix

Verdict = Literal["same", "ask", "different", "none"]


class Agreement(NamedTuple):
    """How far a printed name and a holder's agree and why, in words that name no one and fit into a sentence.

    ``person`` is which of the persons the text names was compared, counted from 0; ``capacity`` in what that one stands
    there, empty for an owner: ``"attorney"``, ``"beneficiary"``, ``"business"``, ``"care of"``, ``"custodian"``,
    ``"estate"``, ``"executor"``, ``"guardian"``, ``"minor"``, ``"payee"`` (representative), ``"trustee"``. ``spans``
    are where the compared words stand in the text; of several lines, in the lines joined by line feeds.
    """

    verdict: Verdict
    reason: str
    person: int | None = None
    capacity: str = ""
    spans: tuple[Span, ...] = ()


class _Found(NamedTuple):
    verdict: Verdict
    reason: str


_AGREE = _Found("same", "the names agree")
_SHORTER = _Found("same", "initials or middle names are left out")
_SHORT_FORM = _Found("same", "one given name is a usual short form of the other")
_CUT = _Found("same", "the card shortens the name")
_PART = _Found("same", "one gives a part of the other's double family name")
_REVERSED = _Found("same", "the family name stands first")
_ONE_SUFFIX = _Found("same", "only one of them has a suffix")
_INITIALS = _Found("ask", "of the given name one shows only the initial")
_NO_GIVEN = _Found("ask", "only one of them shows a given name")
_NO_FAMILY = _Found("ask", "only a given name can be read")
_MISREAD = _Found("ask", "the names differ by letters that are easily misread")
_MORE = _Found("ask", "behind the family name stands another word")
_SLIP = _Found("ask", "the family names differ by one letter")
_NEAR = _Found("ask", "the given names may be forms of one name")
_MIDDLE_USED = _Found("ask", "the given name of one is a middle name of the other")
_NEW_FAMILY = _Found("ask", "the given name agrees, the family name does not")
_ORDER = _Found("ask", "which name is the family name is not clear")
_LENT = _Found("ask", "which family name is whose is not clear")
_ITS_NAME = _Found("ask", "the name may be that of a firm or a public body")
_JR_OR_II = _Found("ask", "the suffixes are two that are often taken for each other")
_FAMILY = _Found("different", "the family name differs")
_GIVEN = _Found("different", "the family name agrees, the given name does not")
_MIDDLE = _Found("different", "the middle names contradict each other")
_SUFFIX = _Found("different", "the suffixes differ")
_COUPLE = _Found("different", "of a couple only the other one is named in full")
_WHOLE = frozenset({_AGREE, _SHORTER, _SHORT_FORM, _ONE_SUFFIX})
"""Nothing another place of the family name says can be better."""
_NOT_OWNER = {
    "beneficiary": _Found("different", "on the account the name is that of a beneficiary"),
    "care of": _Found("different", "on the account the name is only that of an address"),
    "estate": _Found("different", "on the account the name is that of one who has died"),
}
_NOBODY = Agreement("none", "no person's name can be read there")
_FIRM = Agreement("none", "it names a firm or a public body and no person")
_NO_HOLDER = Agreement("none", "the identification gives no name")
_TOO_LONG = Agreement("none", "it is too long for a name")

_RANK: dict[Verdict, int] = {"same": 3, "ask": 2, "different": 1, "none": 0}
_MOST_READINGS = 24
_MOST_WORDS = 24  # of a holder's name
_LONGEST_FAMILY = 4  # words
_GERMAN = str.maketrans({"Ä": "AE", "Ö": "OE", "Ü": "UE", "Å": "AA", "Ñ": "N", "Ø": "OE"})
_PARTICLES = frozenset({"DE", "DEL", "LA", "LAS", "LOS", "Y"})
_LOOK_ALIKE = str.maketrans("01L5826", "OIISBZG")
_PLAIN = lazily(
    r"([a-z]{3,20} [a-z]{3,20})"
    r"(?=\n[0-9][^\n]{1,60}(?:\n[a-z][a-z .]{1,40},? [a-z]{2}(?: [0-9]{5}(?:-[0-9]{4})?)?)?\n?\Z)",
    re.IGNORECASE | re.ASCII,
)
"""One name of two words over an address: nearly every check."""
_PAIRS = lazily("RN|VV|CL|II")
_PAIR = {"RN": "M", "VV": "W", "CL": "D", "II": "U"}


def names_agree(drawer: str | Sequence[str], holder: Card | Name | str) -> Agreement:
    """Compare the persons of the printed lines with the holder; of several the best agreement counts.

    A *holder* in plain text, as a clerk keys it, has no known order unless a comma stands behind the family name.
    """
    text = drawer if isinstance(drawer, str) else "\n".join(drawer)
    whose = holder.name if isinstance(holder, Card) else holder
    texts = (text, *((*whose[:4], whose.unordered) if isinstance(whose, Name) else (whose,)))
    if sum(map(len, texts)) > LONGEST:
        return _TOO_LONG
    if (plain := _PLAIN.match(text)) and _plainly(plain[1].upper(), whose):
        return Agreement(*_AGREE, 0, "", (Span(*plain.span(1)),))
    found = _agree(text, whose, str.upper)
    if found.verdict != "same" and not all(map(str.isascii, texts)):
        # A machine-readable zone writes Ü as UE, a person leaves the dots away: either spelling may agree.
        return max(found, _agree(text, whose, _written_out), key=_rank)
    return found


def _plainly(name: str, whose: Name | str) -> bool:
    """Whether a plain name is the holder's to the letter, and no word of it is anything but a name."""
    if isinstance(whose, str):
        told = whose.upper()
    else:
        told = "" if any(whose[2:4]) or whose.unordered else f"{whose.given} {whose.family}".upper()
    return name == told and is_plain(name)


def _written_out(text: str) -> str:
    return text.upper().translate(_GERMAN)


def _rank(found: Agreement) -> tuple[int, bool, bool, bool]:
    """Best verdict first; then the holder who is no owner, then an owner, then the difference that says more."""
    no_owner = found[:2] in _NOT_OWNER.values()
    return _RANK[found.verdict], no_owner, not found.capacity, found.reason != _FAMILY.reason


def _agree(text: str, whose: Name | str, spell: Callable[[str], str]) -> Agreement:
    names = list(islice(_names_of(whose, spell), _MOST_READINGS))
    if not names:
        return _NO_HOLDER
    own = {word for name, _ in names for part in name[:2] for word in part.split()}
    best, firm = _NOBODY, False
    for person in islice(persons_in(text, spell), _MOST_READINGS):
        if person.no_person - own:
            firm = firm or not person.aside
            continue
        found = reduce(_better, (_compare(person, *name) for name in names))
        if person.aside and found.verdict != "same":
            continue
        best = max(best, _in_capacity(person, found), key=_rank)
    if firm:
        return _FIRM if best is _NOBODY else best._replace(capacity=best.capacity or "business")
    return best


def _in_capacity(person: Person, found: _Found) -> Agreement:
    if person.no_person and found.verdict == "same":
        found = _ITS_NAME
    if person.couple and found is _GIVEN:
        found = _COUPLE
    if person.capacity in NO_OWNER and found.verdict != "different":
        found = _NOT_OWNER[person.capacity]
    return Agreement(*found, person.number, person.capacity, _merged(person.spans))


def _merged(spans: tuple[Span, ...]) -> tuple[Span, ...]:
    """The spans of words, those that stand side by side as one."""
    merged: list[Span] = []
    for span in sorted(spans):
        if merged and span.start - merged[-1].end <= 2:
            merged[-1] = Span(merged[-1].start, span.end)
        else:
            merged.append(span)
    return tuple(merged)


def _names_of(whose: Name | str, spell: Callable[[str], str]) -> Iterator[tuple[Name, bool]]:
    """The holder's name, folded, in every order it may stand in; and whether that order is only supposed."""
    if isinstance(whose, str):
        for person in persons_in(whose, spell):
            yield from _orders(person.words, person.family)
        return
    name = whose._replace(
        family=fold(spell(whose.family)),
        given=fold(spell(whose.given)),
        middle=fold(spell(whose.middle)),
        suffix=fold(spell(whose.suffix)),
        unordered=fold(spell(whose.unordered)),
    )
    if len(" ".join(name[:4]).split()) + len(name.unordered.split()) > _MOST_WORDS:
        return
    if name.family:
        yield name, False
    elif name.unordered:
        yield from _orders((*name.unordered.split(), *name.suffix.split()), 0)


def _orders(words: tuple[str, ...], family: int) -> Iterator[tuple[Name, bool]]:
    bare, suffix = without_suffix(words)
    if family:
        yield _name(bare[-family:], bare[:-family], suffix), False
        return
    yield _name(bare[-1:], bare[:-1], suffix), False
    for size in range(1, min(len(bare), _LONGEST_FAMILY)):
        if size > 1:
            yield _name(bare[-size:], bare[:-size], suffix), True
        yield _name(bare[:size], bare[size:], suffix), True


def _name(family: tuple[str, ...], given: tuple[str, ...], suffix: str) -> Name:
    return Name(" ".join(family), " ".join(given), "", suffix)


def _compare(person: Person, name: Name, supposed: bool) -> _Found:
    # A family name may look like a suffix: then nothing is taken off.
    words, suffix = (person.words, "") if name.family in SUFFIXES else without_suffix(person.words)
    family, in_family = without_suffix(tuple(name.family.split()))
    theirs = SUFFIXES.get(name.suffix, name.suffix) or in_family
    given = [*name.given.split(), *name.middle.split()]
    best = _FAMILY
    sizes = (person.family,) if person.family else range(1, min(len(words), _LONGEST_FAMILY) + 1)
    for size in sizes:
        found = _in_order(words[-size:], words[:-size], family, given, name)
        if supposed and found.verdict == "same" and (found is _PART or not _settled(family, given, words[:-size])):
            found = _ORDER
        best = _better(best, _with_suffix(found, suffix, theirs))
        if best in _WHOLE:
            break
        if best.verdict != "same" and not person.family and not supposed:
            found = _in_order(words[:size], words[size:], family, given, name)
            if found.verdict in ("same", "ask"):
                settled = found.verdict == "same" and _settled(words[:size], words[size:], given)
                best = _better(best, _with_suffix(_REVERSED if settled else _ORDER, suffix, theirs))
    if best is _FAMILY and not supposed and given and len(given[0]) > 1:
        best = _without_family(words[: -(person.family or 1)] or words, given, name, len(words) == 1)
    return _LENT if person.lent and best.verdict == "same" else best


def _without_family(ours: Sequence[str], card: list[str], name: Name, alone: bool) -> _Found:
    """What is left where no family name agrees: people marry, and the same given name is a question."""
    mine, theirs = _parts(ours), _parts(card)
    truncated = name.given_truncated or name.middle_truncated or False
    if _one_given(mine[0], theirs[0], truncated) not in (_AGREE, _CUT) or len(mine[0]) == 1:
        return _FAMILY
    if _given(mine, theirs, truncated, 1).verdict != "same":
        return _FAMILY
    return _NO_FAMILY if alone else _NEW_FAMILY


def _better(one: _Found, other: _Found) -> _Found:
    """The one that agrees more, the first of equals; of two differences the one that says more."""
    ours, theirs = _RANK[one.verdict], _RANK[other.verdict]
    return other if theirs > ours or (theirs == ours and one is _FAMILY) else one


def _settled(family: Sequence[str], given: Sequence[str], also: Sequence[str]) -> bool:
    """Whether a name that stands family name first can be in no other order."""
    if len(given) > 1 and (len(given[-1]) == 1 or list(given) == list(also)):
        return True
    return bool(given) and is_given(given[0]) and not any(map(is_given, family))


def _with_suffix(found: _Found, ours: str, theirs: str) -> _Found:
    if ours and theirs and ours != theirs and found.verdict != "different":
        return _JR_OR_II if {ours, theirs} == {"JR", "II"} else _SUFFIX
    return _ONE_SUFFIX if ours != theirs and found is _AGREE else found


def _in_order(
    family: tuple[str, ...], given: tuple[str, ...], card: tuple[str, ...], card_given: list[str], name: Name
) -> _Found:
    families = _family(family, card, name.family_truncated)
    if families is _FAMILY:
        return _FAMILY
    truncated = name.given_truncated or name.middle_truncated or False
    givens = _given(_parts(given), _parts(card_given), truncated, len(_parts(name.given.split())) or 1)
    if _RANK[givens.verdict] < _RANK[families.verdict] or families is _AGREE:
        return givens
    return families


def _parts(words: Sequence[str]) -> list[str]:
    return [part for word in words for part in word.split("-") if part]


def _family(ours: tuple[str, ...], card: tuple[str, ...], truncated: bool | None) -> _Found:
    our_parts, card_parts = _parts(ours), _parts(card)
    one, other = "".join(our_parts), "".join(card_parts)
    if one == other or (len(our_parts) > 1 < len(card_parts) and _bare(our_parts) == _bare(card_parts)):
        return _AGREE
    long_enough = len(other) >= (3 if truncated else 12)
    if truncated is not False and long_enough and one.startswith(other):
        return _CUT
    # A word before the card's family name is as likely a middle name; behind it or hyphened it is a second.
    if (len(one) > 2 and one in card_parts) or (len(other) > 2 and other in our_parts and len(ours) == 1):
        return _PART
    if len(other) > 2 and other == our_parts[0]:
        return _MORE
    if len(ours) == len(card) and min(len(one), len(other)) > 1 and _look_alike(one, other):
        return _MISREAD
    if min(len(one), len(other)) > 2 and len(ours) == len(card) and one_slip(one, other):
        return _SLIP
    return _FAMILY


def _bare(parts: list[str]) -> list[str]:
    return [part for part in parts if part not in _PARTICLES]


def _given(ours: list[str], card: list[str], truncated: bool, compound: int) -> _Found:
    if not ours or not card:
        return _AGREE if ours == card else _NO_GIVEN
    if "".join(ours) == "".join(card):
        return _AGREE
    if ours[0] == "".join(card[:compound]):  # MARYANN for MARY ANN
        card = [ours[0], *card[compound:]]
    elif "".join(ours[:2]) == card[0]:
        ours = [card[0], *ours[2:]]
    first = _one_given(ours[0], card[0], truncated)
    if first.verdict != "different":
        middle, spelled = _middle(ours[1:], card[1:], truncated)
        if middle is _MIDDLE and truncated:
            return _NEAR  # what the card cut off may hold it
        if middle is _MIDDLE or (first is _INITIALS and spelled):
            return middle
        return min(first if first is not _AGREE else _SHORTER, middle, key=lambda found: _RANK[found.verdict])
    if (len(ours[0]) > 1 and ours[0] in card[1:]) or (len(card[0]) > 1 and card[0] in ours[1:]):
        return _MIDDLE_USED
    return _GIVEN


def _one_given(ours: str, card: str, truncated: bool) -> _Found:
    if ours == card:
        return _AGREE
    if min(len(ours), len(card)) == 1:
        return _INITIALS if ours[0] == card[0] else _GIVEN
    if _look_alike(ours, card):
        return _MISREAD
    if truncated and ours.startswith(card):
        return _NEAR if is_given(ours) and is_given(card) else _CUT
    related = kinship(ours, card)
    return {"same": _SHORT_FORM, "near": _NEAR, "other": _GIVEN}[related]


def _middle(ours: list[str], card: list[str], truncated: bool) -> tuple[_Found, bool]:
    """How the middle names agree, and whether one of them is spelled out in both."""
    few, many = sorted((ours, card), key=len)
    best, spelled = _SHORTER, False
    for one in few:
        of_one = [_one_given(one, other, truncated) for other in many]
        spelled = spelled or (_AGREE in of_one and len(one) > 1)
        found = max(of_one, key=lambda found: (_RANK[found.verdict], found is _INITIALS))
        if found.verdict == "different":
            return _MIDDLE, False
        if found.verdict == "ask" and found is not _INITIALS:
            best = found
    return best, spelled


def _look_alike(one: str, other: str) -> bool:
    """Whether an optical reader may take one for the other: 0 and O, 1 and I and L, 5 and S, 8 and B, RN and M."""
    ours, theirs = _shape(one), _shape(other)
    return ours == theirs or _shape(one.strip("0123456789")) == theirs


def _shape(word: str) -> str:
    return _PAIRS.sub(lambda found: _PAIR[found[0]], word.translate(_LOOK_ALIKE))
