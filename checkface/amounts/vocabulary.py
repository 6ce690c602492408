"""The words that write amounts, as language facts: English, Spanish, and what only looks like an amount.

Every word has a kind, one letter, so that the kinds of a line spell its shape and the grammar of amounts is a
regular expression over shapes (see :mod:`checkface.amounts.grammar`):

===== ========================================= ===== =============================================
kind  meaning                                   kind  meaning
===== ========================================= ===== =============================================
``u`` one to nine                               ``D`` dollars
``e`` ten                                       ``C`` cents
``t`` eleven to nineteen                        ``H`` hundredths
``y`` twenty, thirty ... ninety                 ``&`` and (may stand inside a number)
``w`` 21 to 99 in one token                     ``J`` with (joins cents, never inside a number)
``b`` 100 to 999 in one token                   ``x`` words that state no amount: pay, exactly, only
``d`` 1,000 and more in digits                  ``v`` even, flat: no cents, said after the unit
``z`` zero                                      ``n`` no, none
``o`` oh, for a zero                            ``h`` hundred
``a`` a, an, for one                            ``k`` thousand
``c`` Spanish hundreds (doscientos)             ``m`` million
``L`` column name of a check protector          ``P`` point
===== ========================================= ===== =============================================
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

Entry = tuple[str, int]


def _number_words(kind: str, first: int, step: int, words: str) -> dict[str, Entry]:
    return {word: (kind, first + step * place) for place, word in enumerate(words.split())}


def _plain(kind: str, words: str) -> dict[str, Entry]:
    return dict.fromkeys(words.split(), (kind, 0))


ENGLISH_NUMBERS: Mapping[str, Entry] = MappingProxyType(
    {
        **_number_words("u", 1, 1, "one two three four five six seven eight nine"),
        **_number_words("e", 10, 1, "ten"),
        **_number_words("t", 11, 1, "eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen"),
        **_number_words("y", 20, 10, "twenty thirty forty fifty sixty seventy eighty ninety"),
        "hundred": ("h", 100),
        "thousand": ("k", 1_000),
        "million": ("m", 1_000_000),
    }
)

ENGLISH: Mapping[str, Entry] = MappingProxyType(
    {
        **ENGLISH_NUMBERS,
        **_plain("z", "zero naught nought"),
        **_plain("o", "oh o"),
        **_number_words("a", 1, 0, "a an"),
        "hundreds": ("h", 100),
        "thousands": ("k", 1_000),
        "millions": ("m", 1_000_000),
        **_plain("n", "no none nothing nil"),
        **_plain("D", "dollar dollars dol dols dollar's dol's usd"),
        **_plain("C", "cent cents ct cts cent's ct's ¢"),
        **_plain("H", "hundredths"),
        **_plain("&", "and &"),
        **_plain("J", "with plus w/ +"),
        **_plain("x", "pay exactly exact precisely only just the sum of amount registered us u.s united states $"),
        **_plain("v", "even flat"),
        **_plain("P", "point"),
        **_plain("L", "thou thous hun hund hunds tens unit units"),
    }
)

SPANISH_NUMBERS: Mapping[str, Entry] = MappingProxyType(
    {
        **_number_words("u", 1, 0, "un uno una"),
        **_number_words("u", 2, 1, "dos tres cuatro cinco seis siete ocho nueve"),
        **_number_words("e", 10, 1, "diez"),
        **_number_words("t", 11, 1, "once doce trece catorce quince dieciseis diecisiete dieciocho diecinueve"),
        **_number_words("y", 20, 10, "veinte treinta cuarenta cincuenta sesenta setenta ochenta noventa"),
        **_number_words("w", 21, 0, "veintiun veintiuno veintiuna"),
        **_number_words(
            "w",
            22,
            1,
            "veintidos veintitres veinticuatro veinticinco veintiseis veintisiete veintiocho veintinueve",
        ),
        "cien": ("b", 100),
        "ciento": ("c", 100),
        **_number_words(
            "c",
            200,
            100,
            "doscientos trescientos cuatrocientos quinientos seiscientos setecientos ochocientos novecientos",
        ),
        **_number_words(
            "c",
            200,
            100,
            "doscientas trescientas cuatrocientas quinientas seiscientas setecientas ochocientas novecientas",
        ),
        "mil": ("k", 1_000),
        **_number_words("m", 1_000_000, 0, "millon millones"),
    }
)

SPANISH: Mapping[str, Entry] = MappingProxyType(
    {
        **SPANISH_NUMBERS,
        **_plain("z", "cero"),
        **_plain("n", "sin nada no"),
        **_plain("D", "dolar dolares usd"),
        **_plain("C", "centavo centavos centimo centimos ¢"),
        **_plain("H", "centesimos centesimas"),
        **_plain("&", "y &"),
        **_plain("J", "con + e"),
        **_plain("x", "son de la cantidad suma exactamente exactos exactas exacto solo solamente unicamente $"),
        **_plain("x", "paguese americanos estadounidenses us eeuu"),
    }
)
"""Spanish words without their accents: accents are optional on a check."""

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
    }
)
"""Words taken at their meaning, but odd enough on a check to be looked at."""

HOMOPHONES: Mapping[str, str] = MappingProxyType(
    {
        **dict.fromkeys(("to", "too"), "two"),
        **dict.fromkeys(("for", "fore"), "four"),
        "won": "one",
        "ate": "eight",
        "tree": "three",
        "sense": "cents",
    }
)
"""Real words that sound like a word of the amount: a suggestion, never a repair."""

REAL_WORDS = frozenset(
    [
        "there",
        "threw",
        "your",
        "hour",
        "pour",
        "tour",
        "sour",
        "flour",
        "foul",
        "fire",
        "live",
        "give",
        "hive",
        "dive",
        "fine",
        "file",
        "wive",
        "fives",
        "line",
        "mine",
        "wine",
        "pine",
        "vine",
        "dine",
        "none",
        "night",
        "right",
        "light",
        "fight",
        "might",
        "tight",
        "sight",
        "weight",
        "height",
        "freight",
        "sever",
        "even",
        "events",
        "forth",
        "fort",
        "thirsty",
        "nifty",
        "twice",
        "collars",
        "rents",
        "tents",
        "vents",
        "scents",
        "bents",
        "dents",
        "sent",
        "scent",
        "cant",
        "count",
        "tens",
        "ones",
        "nines",
        "fours",
        "sixes",
        "towel",
        "welcome",
        "steven",
        "elevens",
        "levels",
    ]
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

NOT_AMOUNTS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        word: (kind, meaning)
        for kind, meaning, words in (
            (
                "words-limit",
                "a limit",
                "void over not exceed exceeding limit limited maximum max valid under below",
            ),
            (
                "words-foreign-currency",
                "another currency",
                "rupee rupees paise paisa euro euros pound pounds sterling pence peso pesos canadian cdn cad eur gbp "
                "mxn franc francs yen yuan australian aud € £ ¥ ₹ soles reales",
            ),
            (
                "words-shorthand",
                "a shorthand",
                "k buck bucks grand grands dozen dozens couple few several score quid g",
            ),
            ("words-negative", "a negative amount", "minus negative less menos"),
            (
                "words-ordinal",
                "an ordinal",
                "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth "
                "fourteenth fifteenth sixteenth seventeenth eighteenth nineteenth twentieth thirtieth fortieth "
                "fiftieth sixtieth seventieth eightieth ninetieth hundredth thousandth millionth",
            ),
            (
                "words-foreign-scale",
                "a scale this line cannot carry",
                "lakh lakhs lac lacs crore crores billion billions trillion trillions milliard",
            ),
            (
                "words-language",
                "French",
                "deux trois quatre cinq sept huit neuf dix onze douze treize quatorze quinze seize vingt vingts "
                "trente quarante cinquante soixante septante huitante nonante mille et",
            ),
        )
        for word in words.split()
    }
)
"""Words that make a line something else than an amount of dollars: fault kind, and what it is."""

EXPECTED: Mapping[str, str] = MappingProxyType(
    {
        "words-limit": "an amount",
        "words-foreign-currency": "an amount in United States dollars",
        "words-shorthand": "an amount spelled out",
        "words-negative": "an amount above zero",
        "words-ordinal": "a cardinal number",
        "words-foreign-scale": "hundred, thousand or million",
        "words-language": "an amount in English or Spanish",
    }
)
