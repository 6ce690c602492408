"""The words that tell of a drawer's line beside the phrases: ordinary ones, and signs that are names too.

>>> known = words_of_names()
>>> "dragon" in known.thing, "church" in known.sign, "baker" in known.thing
(True, True, False)
"""

from functools import cache
from typing import NamedTuple

from checkface import tables
from checkface.instruments.phrases import telling_of
from checkface.instruments.tokens import MISREAD_FROM, outline, tokenise


class Words(NamedTuple):
    """``thing``, ``surname``, ``rare`` and ``given`` are those of ``ordinary_words.toml``, ``first``, ``last`` and
    ``ending`` those of ``[names]``; ``sign`` are signs of an organization that are surnames too, ``exact`` the words of
    all signs as they are spelled, ``telling`` those of them that are asked for first, as they are compared,
    ``outlines`` the outlines of the long ones, ``spared`` names that have one of these and are none."""

    thing: frozenset[str]
    surname: frozenset[str]
    rare: frozenset[str]
    given: frozenset[str]
    first: frozenset[str]
    last: frozenset[str]
    ending: tuple[str, ...]
    sign: frozenset[str]
    exact: frozenset[str]
    telling: frozenset[str]
    outlines: frozenset[str]
    spared: frozenset[str]

    def is_thing(self, word: str) -> bool:
        """Whether a word, or the one it is the plural of, is hardly anybody's name."""
        if word in self.thing:
            return True
        names = (self.surname, self.rare, self.given, self.spared)
        return word[-1:] == "s" and word[:-1] in self.thing and not any(word in group for group in names)

    def misread(self, word: str) -> bool:
        """Whether a word that is none of the tables' has the outline of a sign: "chukch"."""
        return (
            len(word) >= MISREAD_FROM
            and outline(word) in self.outlines
            and not any(
                word in words for words in (self.exact, self.thing, self.surname, self.rare, self.given, self.spared)
            )
        )


@cache
def words_of_names() -> Words:
    """What the tables have of the drawer's lines beside the phrases."""
    table = tables.load("instrument_phrases").data
    ordinary = {key: frozenset(text.split()) for key, text in tables.load("ordinary_words").data["words"].items()}
    names = table["names"]
    rows = [row for row in table["phrase"] if "drawer" in {*row["readings"], *row.get("hints", ())}]
    sign = next(frozenset(row["variants"]) for row in rows if row["id"] == "business-surname")
    exact = {token.word for row in rows for text in row["variants"] for token in tokenise(text)}
    exact |= {*table["short"], *table["words"]}.union(*table["words"].values())
    return Words(
        **ordinary,
        first=frozenset(names["first"]),
        last=frozenset(names["last"]),
        ending=tuple(names["ending"]),
        spared=frozenset(names["spared"]),
        sign=sign - frozenset(names["weak"]),
        exact=frozenset(exact),
        telling=(telling := telling_of("drawer")),
        outlines=frozenset(outline(word) for word in (*telling, *sign) if len(word) >= MISREAD_FROM and word.isalpha()),
    )
