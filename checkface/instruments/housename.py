"""Whether a check is made out to the house: the payee's line against the names under which the house takes checks.

A name is told by its *telling* words (Quillfeather); beside them stand words of the trade (Grocery, Market, Pharmacy)
and forms (The, Inc). What people write differs in ways that keep the telling words and in ways that do not:

- ``same``: nothing but case, punctuation, spacing, forms, usual abbreviations (Mkt), the ending of a plural or an
  owner, and slips of spelling that give no other name (:mod:`checkface.instruments.misspelling`).
- ``near``: part of the name, or the name and more: other words of the trade, a store's number, a town, an address;
  initials; slips that may give another name. One look settles it.
- ``other-name``: shares a word with the name and differs in a telling one, by a letter or wholly (Walker's and
  Walter's, Rock Creek and Rock Hill, Creek Market and Rock Market), or puts a telling word before it.
- ``shared``: the house and somebody else. Joined by "and" both must endorse, by "or" either may (UCC 3-110(d)).
- ``another``: a person, or a firm that shares no telling word.
- ``bearer``: to cash or bearer (UCC 3-109(a)); ``blank``: nothing, or strokes that fill the line (UCC 3-115).
- ``unknown-house``: no name of the house is known, so nothing can be said.

UCC 3-110(a): a check is payable to whom its signer meant, even if identified by another name; so the house's own
customers may spell it as they like, and one look is enough where the telling words stand. The words of the trade and
of other bodies are common practice, in two lists of this module.

>>> payee_match("QUILFETHER GROCRY, INC.", ["Quillfeather Grocery"]).verdict
'same'
>>> payee_match("Quillfeather Grocery #12", ["Quillfeather Grocery"])
PayeeMatch(verdict='near', name='Quillfeather Grocery', span=Span(start=0, end=24), why="More than the house's name.")
>>> payee_match("Walter's Market", ["Walker's Market"]).why
"A word differs from the house's name."
>>> payee_match("Quillfeather Grocery and Ben Example", ["Quillfeather Grocery"]).span
Span(start=25, end=36)
>>> payee_match("Ben Example", ["Quillfeather Grocery"]).verdict, payee_match("", []).verdict
('another', 'blank')
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import accumulate, combinations
from typing import Literal, NamedTuple

from checkface.instruments.misspelling import SURE, Alike, alike, one_letter, singular
from checkface.instruments.namewords import name_words, trade_word
from checkface.instruments.payees import CARE_OF, JOINT, LONGEST, Payees, payees
from checkface.patterns import lazily
from checkface.span import Fault, Span

Verdict = Literal["same", "near", "other-name", "shared", "another", "bearer", "blank", "unknown-house"]

_MOST_PARTS = 8
_TOWN = 4
"""Words that may follow a name as a town, an address or a purpose."""
_TITLES = frozenset({"mr", "mrs", "ms", "miss", "dr", "rev"})
_BODIES = frozenset({
    "union", "credit", "bank", "trust", "fund", "foundation", "church", "school", "association", "assn", "club",
    "league", "team", "charity", "scholarship", "estate", "employee", "employees", "worker", "workers", "retirees",
    "pension", "holdings", "realty", "properties", "insurance", "wholesale", "distributors", "supply", "equipment",
    "plumbing", "roofing", "construction", "hardware",
}) | _TITLES  # fmt: skip
"""What names another body, or a person, beside a name."""
_FAMILY = lazily(r"(?:sons?|daughters?|bros|brothers|family)\b", re.IGNORECASE)
"""What belongs to the name before it: Example & Sons."""
_STORE = frozenset({"store", "stores", "shop"})
"""What says no more than a word of the trade before it: Example Grocery Store."""
_PLACE = frozenset({"of", "at", "in", "for", "c", "o"})
_NO_VOWEL = lazily("[b-df-hj-np-tv-xz]{2,4}")
_STROKES = lazily(r"[\W_xX]*")
_ADDRESS = lazily(
    r"\W*[0-9]|.{0,60}\b[a-z]{2}\W{1,3}[0-9]{5}(?:-[0-9]{4})?\W*$|.{0,60},\s*[a-z]{2}\W*$|p\.?\s?o\.?\s?box\b",
    re.IGNORECASE,
)

_PART = "Only part of the house's name."
_SHORT_FORM = "A short form of the house's name."
_MORE = "More than the house's name."
_TRADE_DIFFERS = "The house's name with another word of the trade."
_SPELLED = "Spelled nearly as the house's name."
_DIFFERS = "A word differs from the house's name."
_ELSE = "Names somebody else than the house."
_BEARER = "To cash or to the bearer."
_SAME = "The house's name."
_ORDER: tuple[Verdict, ...] = ("same", "near", "other-name", "another")
_OURS = _ORDER[:2]


class PayeeMatch(NamedTuple):
    """What became of comparing a payee with the house's names.

    ``name`` is the name of the house that fits best, empty where none does; ``span`` is where the words stand on which
    the verdict rests (of ``shared``, the other payee); ``why`` is one sentence that quotes nothing from the paper.
    """

    verdict: Verdict
    name: str
    span: Span
    why: str


class _House(NamedTuple):
    """A name's words without forms; ``telling`` and ``trade`` are its two sorts of words."""

    name: str
    words: tuple[str, ...]
    telling: tuple[str, ...]
    trade: tuple[str, ...]

    def without_and(self) -> _House:
        """The name without its "and"."""
        words, telling = (tuple(word for word in part if word != "&") for part in (self.words, self.telling))
        return self._replace(words=words, telling=telling)


_Found = tuple[Verdict, str]


def payee_match(text: str, names: Sequence[str]) -> PayeeMatch:
    """Compare the payee's line with the house's *names*; of several, the one that fits best counts.

    No text raises. A line longer than a payee's can be is ``other-name``.
    """
    return _payee_match(text, tuple(names))


@lru_cache(maxsize=1024)
def _payee_match(text: str, names: tuple[str, ...]) -> PayeeMatch:
    whole = Span(0, len(text))
    if len(text) > LONGEST:
        return PayeeMatch("other-name", "", whole, "Longer than a payee's line.")
    named = payees(text)
    if isinstance(named, Fault) or _STROKES.fullmatch(text):
        return PayeeMatch("blank", "", whole, "Nobody is named.")
    houses = [house for house in map(_house, names) if house.words]
    if not houses:
        return PayeeMatch("unknown-house", "", named.span, "The house's names are not known.")
    best = _best(text, named.span, houses)
    if best.verdict == "same":
        return best
    if named.bearer:
        return PayeeMatch("bearer", "", named.span, _BEARER)
    if best.verdict == "near" and best.why != _MORE:
        return best
    return _care_of(text, named.span, houses) or _joined(text, named.span, houses) or best


@lru_cache(maxsize=256)
def _house(name: str) -> _House:
    words = tuple(word.text for word in name_words(name, Span(0, len(name))))
    telling = tuple(word for word in words if not trade_word(word))
    if not telling:  # every word of it tells: Food Market
        return _House(name, words, words, ())
    return _House(name, words, telling, tuple(trade for word in words if (trade := trade_word(word))))


def _best(text: str, span: Span, houses: Sequence[_House]) -> PayeeMatch:
    """How what stands in *span* compares with the house's name that fits best."""
    words = name_words(text, span)
    if not words:
        return PayeeMatch("another", "", span, _ELSE)
    found = [(_compare([word.text for word in words], house), house.name) for house in houses]
    (verdict, why), name = min(found, key=lambda one: _ORDER.index(one[0][0]))
    return PayeeMatch(verdict, "" if verdict == "another" else name, Span(words[0].start, words[-1].end), why)


def _compare(words: list[str], house: _House) -> _Found:
    """Verdict and reason for the words of a payee, as one name, against one name of the house."""
    if "&" in house.words:  # Bread Butter Market is Bread & Butter Market; Rock & Creek is not Rock Creek
        words = [word for word in words if word != "&"]
        house = house.without_and()
    if "".join(words) == "".join(house.words):
        return "same", _SAME
    shop = any(map(trade_word, words))
    length = len(house.words)
    head = _each(words[:length], house.words)
    if head <= Alike.NEAR:
        named = shop or _gained(words, house.words)
        return _slipped(head, named) if len(words) == length else _extended(words[length:], house)
    for size in range(1, len(words)):  # Quill Feather Grocery #12
        if "".join(words[:size]) == "".join(house.words):
            return _extended(words[size:], house)
    if len(words) > length and _each(words[-length:], house.words) <= Alike.NEAR:
        before = words[:-length]
        return ("near", _MORE) if all(map(trade_word, before)) else _other(words, house)
    if _cut_off(words, house.words):
        return "near", _SHORT_FORM
    return _told(words, house, shop=shop)


def _cut_off(words: Sequence[str], known: Sequence[str]) -> bool:
    """Whether the line ended within a word of the name: Quillfeather Gro."""
    whole = len(words) - 1
    if not 0 < whole < len(known) or len(words[-1]) < 2 or not known[whole].startswith(words[-1]):
        return False
    return _each(words[:whole], known[:whole]) <= Alike.SLIP


def _told(words: list[str], house: _House, *, shop: bool) -> _Found:
    """As :func:`_compare`, by the telling words alone."""
    place = next((index for index, word in enumerate(words) if index and word in _PLACE), len(words))
    place = len(words) if set(words[place : place + 1]) <= set(house.words) else place
    ours = [word for word in words[:place] if not (house.trade and trade_word(word)) and not _is_number(word, house)]
    trade = [found for word in words[:place] if house.trade and (found := trade_word(word))]
    if not ours:
        return ("near", _PART) if set(trade) & set(house.trade) else ("another", _ELSE)
    likeness = _each(ours, house.telling)
    if likeness <= Alike.NEAR:
        if not trade and house.trade:
            return "near", _PART
        if "".join(trade) != "".join(house.trade) and {*trade} != {*house.trade}:
            return "near", _TRADE_DIFFERS
        if place < len(words):
            return _extended(words[place:], house)
        named = shop or _gained(ours, house.telling)
        return ("near", _MORE) if len(ours) + len(trade) < len(words) else _slipped(likeness, named)
    if _shortened(ours, house, alone=not trade):
        return "near", _SHORT_FORM
    return _other(words, house)


def _each(words: Sequence[str], known: Sequence[str]) -> Alike:
    """How near words are to known ones, one by one; where they are parted elsewhere, as one word."""
    if len(words) != len(known):
        return alike("".join(words), "".join(known)) if words and known else Alike.OTHER
    found = [alike(word, of_name) for word, of_name in zip(words, known, strict=True)]
    worst = max(found, default=Alike.OTHER)
    return Alike.NEAR if found.count(Alike.SLIP) > 2 and worst is Alike.SLIP else worst


def _gained(words: Sequence[str], known: Sequence[str]) -> bool:
    """Whether a name gained the ending of an owner, as a shop's does in speech: Quillfeather's."""
    return len("".join(words)) > len("".join(known))


def _slipped(likeness: Alike, named: bool) -> _Found:
    """Without a word of the trade or an owner's ending, *named*, a name that only lost the ending may be a person's."""
    if likeness is Alike.NEAR or (likeness is Alike.PLURAL and not named):
        return "near", _SPELLED
    return "same", _SAME


def _extended(more: list[str], house: _House) -> _Found:
    """The house's whole name, and *more* words behind it."""
    if not _BODIES.isdisjoint(more):
        return "other-name", _DIFFERS
    if house.trade and not _STORE.isdisjoint(more) and len(more) == 1:
        return "same", _SAME
    unknown = [word for word in more if not (trade_word(word) or word.isdigit() or word in ("no", "&"))]
    if not unknown or more[0] in _PLACE or ((house.trade or len(house.words) > 2) and len(unknown) <= _TOWN):
        return "near", _MORE
    return "other-name", _DIFFERS


def _shortened(ours: list[str], house: _House, *, alone: bool) -> bool:
    """Whether the telling words are the first of the house's, a word cut off at the end, or initials."""
    written, known = "".join(ours), "".join(house.telling)
    if _NO_VOWEL.fullmatch(written):
        initials = {"".join(word[0] for word in words) for words in (house.words, house.telling)}
        whole = "".join(house.words) if alone else known
        return written in initials or (written[0] == whole[0] and _in_order(written, whole))
    if not alone or len(written) < 5:
        return False
    return known.startswith(written) and (len(written) >= SURE or written in accumulate(house.telling))


def _in_order(letters: str, word: str) -> bool:
    rest = iter(word)
    return all(letter in rest for letter in letters)


def _is_number(word: str, house: _House) -> bool:
    """Whether the word is a store's number, or the sign of one, and no part of the house's name."""
    return (word.isdigit() or word == "no") and not any(map(str.isdigit, house.words))


def _other(words: list[str], house: _House) -> _Found:
    """Another name: one that shares something with the house's, or somebody's who has nothing to do with it."""
    trade = {found for word in words if (found := trade_word(word))}
    ours = [word for word in words if not (house.trade and trade_word(word))]
    at = [place for place, word in enumerate(ours) if any(alike(word, known) <= Alike.NEAR for known in house.telling)]
    by_a_letter = len(ours) == len(house.telling) and any(map(_by_a_letter, ours, house.telling))
    if trade & {*house.trade} or by_a_letter:
        return "other-name", _DIFFERS
    # Without a word of the trade it is a person's where the shared word is the family's name.
    person = not trade and bool(at[0] if at else not _TITLES.isdisjoint(ours))
    return ("other-name", _DIFFERS) if at and not person else ("another", _ELSE)


def _by_a_letter(word: str, known: str) -> bool:
    return len(word) >= 3 and one_letter(singular(word), singular(known))


def _care_of(text: str, span: Span, houses: Sequence[_House]) -> PayeeMatch | None:
    """A payee care of, or doing business as, another."""
    mark = CARE_OF.search(text, span.start, span.end)
    if mark is None:
        return None
    head = _best(text, Span(span.start, mark.start()), houses)
    tail = _best(text, Span(mark.end(), span.end), houses)
    if head.verdict in _OURS:
        delivery = mark[0].strip().lower().startswith(("c", "attn"))
        return head._replace(verdict="near" if delivery else "other-name", why=_MORE)
    return tail._replace(verdict="other-name", why=_DIFFERS) if tail.verdict in _OURS else None


def _joined(text: str, span: Span, houses: Sequence[_House]) -> PayeeMatch | None:
    """The house beside somebody else, or beside more of its own; ``None`` where the house is not one of them."""
    joints = [joint for joint in JOINT.finditer(text, span.start, span.end) if not _FAMILY.match(text, joint.end())]
    joints = joints[: _MOST_PARTS - 1]
    edges = [span.start, *(place for joint in joints for place in joint.span()), span.end]
    parts = [Span(*edges[place : place + 2]) for place in range(0, len(edges), 2)]
    parts = [part for part in parts if part.of(text).strip(" ,.")]
    if len(parts) < 2:
        return None
    for first, last in _runs(len(parts)):
        ours = _best(text, Span(parts[first].start, parts[last].end), houses)
        if ours.verdict not in _OURS or ours.why == _SHORT_FORM:
            continue
        others = [part for part in parts[:first] + parts[last + 1 :] if not _adds_nobody(text, part, houses)]
        if not others:
            return ours._replace(verdict="near", why=_MORE)
        if any(isinstance(named := payees(part.of(text)), Payees) and named.bearer for part in others):
            return PayeeMatch("bearer", "", span, _BEARER)
        either = any((joint.lastgroup or "") in ("any", "either", "slash", "line") for joint in joints)
        why = "The house or somebody else." if either else "The house and somebody else: both must endorse."
        return PayeeMatch("shared", ours.name, _trimmed(text, others[0]), why)
    return None


def _runs(count: int) -> Iterator[tuple[int, int]]:
    """First and last of each run of *count* parts that is not all of them, the longest first."""
    runs = [(first, last - 1) for first, last in combinations(range(count + 1), 2) if last - first < count]
    return iter(sorted(runs, key=lambda run: run[0] - run[1]))


def _adds_nobody(text: str, part: Span, houses: Sequence[_House]) -> bool:
    """Whether a part names only the trade, an address, or the house once more."""
    words = [word.text for word in name_words(text, part)]
    if all(trade_word(word) or word.isdigit() for word in words):
        return True
    if text[: part.start].endswith(("\n", "\r", ";")) and _ADDRESS.match(text, part.start, part.end):
        return True
    return _best(text, part, houses).verdict in _OURS


def _trimmed(text: str, part: Span) -> Span:
    name = part.of(text)
    start = part.start + len(name) - len(name.lstrip())
    return Span(start, start + len(name.strip()))
