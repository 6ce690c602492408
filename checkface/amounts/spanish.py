"""The Spanish words that write amounts: checks of Puerto Rico and of the border states carry them.

Words stand here without their accents, which are optional on a check. The kinds are those of
:mod:`checkface.amounts.vocabulary`.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from checkface.amounts.vocabulary import Entry, number_words, plain

SPANISH_NUMBERS: Mapping[str, Entry] = MappingProxyType(
    {
        **number_words("u", 1, 0, "un uno una"),
        **number_words("u", 2, 1, "dos tres cuatro cinco seis siete ocho nueve"),
        **number_words("e", 10, 1, "diez"),
        **number_words("t", 11, 1, "once doce trece catorce quince dieciseis diecisiete dieciocho diecinueve"),
        **number_words("y", 20, 10, "veinte treinta cuarenta cincuenta sesenta setenta ochenta noventa"),
        **number_words("w", 21, 0, "veintiun veintiuno veintiuna"),
        **number_words(
            "w",
            22,
            1,
            "veintidos veintitres veinticuatro veinticinco veintiseis veintisiete veintiocho veintinueve",
        ),
        "cien": ("b", 100),
        "ciento": ("c", 100),
        **number_words(
            "c",
            200,
            100,
            "doscientos trescientos cuatrocientos quinientos seiscientos setecientos ochocientos novecientos",
        ),
        **number_words(
            "c",
            200,
            100,
            "doscientas trescientas cuatrocientas quinientas seiscientas setecientas ochocientas novecientas",
        ),
        "mil": ("k", 1_000),
        **number_words("m", 1_000_000, 0, "millon millones"),
    }
)

SPANISH: Mapping[str, Entry] = MappingProxyType(
    {
        **SPANISH_NUMBERS,
        **plain("z", "cero"),
        **plain("n", "sin nada"),
        **plain("D", "dolar dolares usd dollar dollars"),
        **plain("C", "centavo centavos centimo centimos ¢"),
        **plain("H", "centesimos centesimas"),
        **plain("&", "y &"),
        **plain("J", "con + e and"),
        **plain("x", "son de la cantidad suma exactamente exactos exactas exacto solo solamente unicamente $"),
        **plain("x", "paguese americanos estadounidenses us eeuu moneda americana"),
    }
)
