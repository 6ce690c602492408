"""Words around the vocabulary of amounts: odd ones, real ones that are never mended, and signs of something else."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


PECULIAR: Mapping[str, str] = MappingProxyType(
    {
        "an": "the article an stands for one",
        "hundreds": "hundred is in the plural",
        "thousands": "thousand is in the plural",
        "millions": "million is in the plural",
        "nil": "nil stands for no cents",
        "flat": "flat stands for no cents",
        "plus": "plus joins the cents",
        "+": "a plus sign joins the cents",
        "w/": "w/ joins the cents",
        "net": "net may be a slip of ten",
    }
)
"""Words taken at their meaning, but odd enough on a check to be looked at."""

HOMOPHONES: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        **dict.fromkeys(("to", "too"), ("two",)),
        **dict.fromkeys(("for", "fore"), ("four",)),
        "won": ("one", "two", "ten"),
        "ate": ("eight",),
        "tree": ("three",),
        "sense": ("cents",),
    }
)
"""Real words that sound or look like a word of the amount: a suggestion beside the line without them."""

REAL_WORDS = _words(
    "there threw your hour pour tour sour flour foul fire live give hive dive fine file wive fives "
    "line mine wine pine vine dine none night right light fight might tight sight weight height "
    "freight sever even events forth fort thirsty nifty twice collars rents tents vents scents bents "
    "hundredweight dents sent scent cant count tens ones nines fours sixes towel welcome steven elevens levels"
)
"""Real words one slip away from a word of the amount: never repaired."""

LABELS: Mapping[str, int] = MappingProxyType(
    {
        **dict.fromkeys(("thou", "thous", "thousand", "thousands"), 1_000),
        **dict.fromkeys(("hun", "hund", "hunds", "hundred", "hundreds"), 100),
        **dict.fromkeys(("ten", "tens"), 10),
        **dict.fromkeys(("unit", "units"), 1),
    }
)
"""Column names a check protector prints beside each digit."""

ORDINALS = _words(
    "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth fifteenth "
    "sixteenth seventeenth eighteenth nineteenth twentieth thirtieth fortieth fiftieth sixtieth seventieth eightieth "
    "ninetieth hundredth thousandth millionth"
)

_OTHERS: tuple[tuple[str, str, str, frozenset[str]], ...] = (
    (
        "words-limit",
        "an amount",
        "a limit",
        _words("void over not exceed exceeding limit limited maximum max valid under below"),
    ),
    (
        "words-foreign-currency",
        "an amount in United States dollars",
        "another currency",
        _words(
            "rupee rupees paise paisa euro euros pound pounds sterling pence peso pesos canadian cdn cad eur gbp "
            "mxn franc francs yen yuan australian aud € £ ¥ ₹ soles reales"
        ),
    ),
    (
        "words-shorthand",
        "an amount spelled out",
        "a shorthand",
        _words("k buck bucks grand grands dozen dozens couple few several score quid g"),
    ),
    ("words-negative", "an amount above zero", "a negative amount", _words("minus negative less menos")),
    (
        "words-ordinal",
        "a cardinal number",
        "an ordinal",
        ORDINALS,
    ),
    (
        "words-foreign-scale",
        "hundred, thousand or million",
        "a scale this line cannot carry",
        _words("lakh lakhs lac lacs crore crores billion billions trillion trillions milliard"),
    ),
    (
        "words-language",
        "an amount in English or Spanish",
        "French",
        _words(
            "deux trois quatre cinq sept huit neuf dix onze douze treize quatorze quinze seize vingt vingts "
            "trente quarante cinquante soixante septante huitante nonante mille et"
        ),
    ),
)

NOT_AMOUNTS: Mapping[str, tuple[str, str, str]] = MappingProxyType(
    {word: (kind, expected, read) for kind, expected, read, words in _OTHERS for word in words}
)
"""Words that make a line something else than an amount of dollars: fault kind, what was expected, what it is."""
