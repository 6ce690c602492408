"""Which brackets and quotes a reader writes for the symbols, told by what they enclose.

Fonts and readers write the symbols as ``[ ] " '`` and the like in more ways than a list can hold (font documentation).
The transit symbol is the one around nine positions that pass the routing sum, the amount symbol the one around ten at
the right end, the dash stands between digits only, and the On-Us symbol is the one that is left. What stands between
digits once may be a digit misread and stays foreign. An opening bracket and its closing one, or the two quotes, mean
the same where both enclose a field.

>>> assignments('"001234" [011193032[ 123\\'456\\'789"')
['O001234O T011193032T 123D456D789O']
>>> assignments("[031097765] 0045601122} 1043")
['T031097765T 0045601122O 1043']
>>> assignments("[031097765] 0045601122@ 1043 $0000001957$")  # as fonts have it
['T031097765T 0045601122O 1043 A0000001957A']
>>> assignments("[031097764] 0045601122} 1043")  # the sum fails
[]
"""

from __future__ import annotations

from collections.abc import Iterable

from checkface.micr.notation import NINE, UNREAD_MARKS, Alphabet, Symbols, dollars, sum_holds, underscores
from checkface.patterns import lazily

_CLOSING = {"[": "]", "(": ")", "{": "}", "<": ">", "\u2018": "\u2019", "\u201c": "\u201d", "\u00ab": "\u00bb"}
_SYMBOLS = frozenset((*_CLOSING, *_CLOSING.values(), *"\"'`\u00b4\\"))
_UNSURE = Alphabet(Symbols("", "", "", "-", UNREAD_MARKS))
_TRANSIT = lazily(f"(?=x({NINE})x)")
_AMOUNT = lazily("x[0-9?]{10}x *D?$")
_BETWEEN_DIGITS = lazily("[0-9?]D(?=[0-9?])")


def assignments(text: str) -> list[str]:
    """The plain lines that *text* may be, one for each meaning of its brackets and quotes that fits; at most two."""
    line = text.translate(_UNSURE)
    enclosed = (found for found in _TRANSIT.finditer(line) if _encloses(text, found.start(), found.end(1)))
    fields = [found for found in enclosed if not found[1].isdigit() or sum_holds(found[1])]
    if len(fields) != 1:
        return []
    transit = {text[fields[0].start()], text[fields[0].end(1)]}
    amount: set[str] = set()
    if (ten := _AMOUNT.search(line)) and _encloses(text, ten.start(), ten.start() + 11):
        amount = {text[ten.start()], text[ten.start() + 11]} - transit
    rest = _grouped(char for char in dict.fromkeys(text) if char in _SYMBOLS and char not in transit | amount)
    if len(rest) > 2:
        return []
    if not rest and "@" in text:  # fonts write the On-Us symbol so beside brackets
        rest = ["@"]
    orders = [(*rest, "", "")[:2]] if len(rest) < 2 else [(rest[0], rest[1]), (rest[1], rest[0])]
    found = []
    for on_us, dash in orders:
        symbols = Symbols("".join(transit), "".join(amount), on_us, dash, UNREAD_MARKS)
        dashes = (line := text.translate(Alphabet(symbols))).count("D")
        if line.count("T") == 2 and dashes == len(_BETWEEN_DIGITS.findall(line)):
            sure = symbols._replace(dash="-" if dashes == 1 else dash + "-")
            found.append(dollars(text, underscores(text, text.translate(Alphabet(sure)))))
    return found


def _encloses(text: str, left: int, right: int) -> bool:
    return text[left] in _SYMBOLS and text[right] in (text[left], _CLOSING.get(text[left]))


def _grouped(chars: Iterable[str]) -> list[str]:
    """The characters, an opening one together with its closing one."""
    left = list(chars)
    closed = {_CLOSING[char]: char for char in left if _CLOSING.get(char) in left}
    return [char + _CLOSING[char] if char in closed.values() else char for char in left if char not in closed]
