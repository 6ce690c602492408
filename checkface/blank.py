"""Whether a reading holds only what the form prints: the lines, marks and words that stand there before a hand writes.

>>> is_blank("Date __/__/20__"), is_blank("$ ________"), is_blank("_______________ DOLLARS"), is_blank("****")
(True, True, True, True)
>>> is_blank("Date __/24/20__"), is_blank("$ 20__"), is_blank("fifty ____ DOLLARS"), is_blank("-0-"), is_blank("N/A")
(False, False, False, False, False)
"""

import re

_MARKS = "_-‐‑‒–—―−‗~=*.,:;…·•‧/\\⁄∕|¦[](){}$#＿－．，：／＼＊＃＄｜［］（）☐□▢▭▯◻◽⬜⎵" + "".join(
    map(chr, range(0x2500, 0x2580))
)
"""Rules, dashes, dots, slashes, stars, the dollar sign and the boxes of a comb; U+2500 to U+257F draw lines."""
_TO_BLANKS = str.maketrans(_MARKS, " " * len(_MARKS))
_PRINTED = frozenset(("date", "fecha", "dollars", "dólares", "dolares", "mm", "dd", "yy", "yyyy", "aaaa"))
_CENTURY = r"((?:\b|_)(?:date|fecha)|,|_\s?[/.-][\s_]+[/.-])([\s_:]*+)(?:19|20)(?=\s?_)"
_HUNDREDTHS = r"(?<=_)\s?/\s?100(?!\w)"


def is_blank(text: str) -> bool:
    """Whether *text* is empty or form furniture only; False for any word, and for any digit a hand may have written.

    A printed century counts behind the places for a month and a day, a comma or the word *Date*, with its line behind
    it (``__/__/20__``); the printed denominator counts under an empty line (``____/100``).
    """
    if "$" not in text and "_" in text:
        text = re.sub(_CENTURY, r"\1\2", text, count=1, flags=re.IGNORECASE)
    if "/" in text and "_" in text:
        text = re.sub(_HUNDREDTHS, "", text, count=1)
    return all(word in _PRINTED for word in text.translate(_TO_BLANKS).casefold().split())
