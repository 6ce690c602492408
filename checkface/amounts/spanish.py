"""The Spanish words that write amounts: checks of Puerto Rico and of the border states carry them.

Words stand here without their accents, which are optional on a check. The kinds are those of
:mod:`checkface.amounts.token_kinds`.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from checkface.amounts.token_kinds import (
    AND,
    CENTS,
    DOLLARS,
    HUNDREDS,
    HUNDREDTHS,
    MILLION,
    NO_AMOUNT,
    NONE,
    TEEN,
    TEN,
    TENS,
    THOUSAND,
    THREE_DIGITS,
    TWO_DIGITS,
    UNIT,
    WITH,
    ZERO,
)
from checkface.amounts.vocabulary import Entry, number_words, plain

SPANISH_NUMBERS: Mapping[str, Entry] = MappingProxyType(
    {
        **number_words(UNIT, 1, 0, "un uno una"),
        **number_words(UNIT, 2, 1, "dos tres cuatro cinco seis siete ocho nueve"),
        **number_words(TEN, 10, 1, "diez"),
        **number_words(TEEN, 11, 1, "once doce trece catorce quince dieciseis diecisiete dieciocho diecinueve"),
        **number_words(TENS, 20, 10, "veinte treinta cuarenta cincuenta sesenta setenta ochenta noventa"),
        **number_words(TWO_DIGITS, 21, 0, "veintiun veintiuno veintiuna"),
        **number_words(
            TWO_DIGITS,
            22,
            1,
            "veintidos veintitres veinticuatro veinticinco veintiseis veintisiete veintiocho veintinueve",
        ),
        "cien": (THREE_DIGITS, 100),
        "ciento": (HUNDREDS, 100),
        **number_words(
            HUNDREDS,
            200,
            100,
            "doscientos trescientos cuatrocientos quinientos seiscientos setecientos ochocientos novecientos",
        ),
        **number_words(
            HUNDREDS,
            200,
            100,
            "doscientas trescientas cuatrocientas quinientas seiscientas setecientas ochocientas novecientas",
        ),
        "mil": (THOUSAND, 1_000),
        **number_words(MILLION, 1_000_000, 0, "millon millones"),
    }
)

SPANISH: Mapping[str, Entry] = MappingProxyType(
    {
        **SPANISH_NUMBERS,
        **plain(ZERO, "cero"),
        **plain(NONE, "sin nada"),
        **plain(DOLLARS, "dolar dolares usd dollar dollars"),
        **plain(CENTS, "centavo centavos centimo centimos ¢"),
        **plain(HUNDREDTHS, "centesimos centesimas"),
        **plain(AND, "y &"),
        **plain(WITH, "con + e and"),
        **plain(NO_AMOUNT, "son de la cantidad suma exactamente exactos exactas exacto solo solamente unicamente $"),
        **plain(NO_AMOUNT, "paguese americanos estadounidenses us eeuu moneda americana"),
    }
)
