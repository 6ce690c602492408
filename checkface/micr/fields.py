"""The fields of a MICR line other than On-Us: transit, auxiliary On-Us, External Processing Code and amount.

Places and contents follow ASC X9 TR 100-2013; foreign forms follow CPA Standard 006 (Canada) and, from memory,
the habits of India, the United Kingdom, Australia and Japan, which print the same font.

>>> from checkface.micr import read
>>> line = read("⑈001234⑈ 4⑆011193032⑆ 123⑉456⑉789⑈ ⑇0000001957⑇")
>>> line.auxiliary, line.epc, line.routing, line.amount_cents
('001234', '4', '011193032', 1957)
>>> read("⑈12345⑈ ⑆00123⑉004⑆ 567⑉89012⑈").country
'CA'
>>> print(*(fault.message for fault in read("⑈1043 ⑆03109776⑆ 45601122⑈ ⑇00012345⑇").faults), sep="\\n")
Expected nine digits between the transit symbols, read eight digits.
Expected digits between two On-Us symbols, or one EPC digit, read four digits and one On-Us symbol.
Expected ten digits between the amount symbols, read eight digits.
"""

from __future__ import annotations

from itertools import pairwise

from checkface.micr.draft import Draft, count, foreign
from checkface.micr.notation import NINE, sum_holds, x9_routing
from checkface.micr.repair import routing_candidates
from checkface.patterns import lazily
from checkface.span import Fault, Span

_CLOSED = lazily(r"(?:^|[ O])((?=[0-9D]{6,11}$)[0-9]+(?:D[0-9]+)*)$")  # as India, UK and Australia print it
_NINE = lazily(NINE)
_DASHED_ABROAD = lazily(r"[0-9]{4}D[0-9]{3}|[0-9]{2}D[0-9]{2}D[0-9]{2}")  # Japan, United Kingdom
_CELLS = 65
_BLANKS = lazily("  +")


def cells(text: str) -> int:
    """Characters of *text* with every run of blanks counted as one."""
    return len(_BLANKS.sub(" ", text.strip(" ")))


def restore(line: str) -> tuple[str, bool, list[str]]:
    """The plain line with unread symbols restored from their places, whether places were kept, and notes.

    On paper the transit symbols stand on positions 43 and 33 and the amount symbols on 12 and 1, counted from the
    right edge (TR 100-2013). The places are trusted only if all 65 or fewer positions were kept: one complete
    pair stands there, and no transit or amount symbol stands anywhere else.
    """
    size = len(line)
    notes: list[str] = []
    pairs = (("T", 43, 33), ("A", 12, 1))
    if not 43 <= size <= _CELLS:
        return line, False, notes
    for symbol, left, right in pairs:
        if line.count(symbol) != (line[-left] == symbol) + (line[-right] == symbol):
            return line, False, notes
    if not any(line[-left] == symbol == line[-right] for symbol, left, right in pairs):
        return line, False, notes
    for symbol, *positions in pairs:
        for position in positions:
            if line[-position] == "?" and (symbol == "T" or symbol in line):
                line = line[: size - position] + symbol + line[size - position + 1 :]
                notes.append(f"unread symbol at position {position} taken from its place")
    return line, True, notes


def transit(draft: Draft) -> tuple[int, int] | Fault:
    """Read the transit field; the ends of what stands left of it and the start of what stands right of it."""
    line = draft.line
    if draft.notation == "x9":
        found = x9_routing(line)
        if found is None:
            return _missing(draft, "a routing number of nine positions set off by blanks", "none in its place")
        _routing(draft, *found)
        return found
    symbols = [at for at, char in enumerate(line) if char == "T"]
    if not symbols:
        return _missing(draft, "a routing number between two transit symbols", "no transit symbol")
    if len(symbols) == 1:
        return _single(draft, symbols[0])
    fields = [(left, right) for left, right in pairwise(symbols) if _NINE.fullmatch(line, left + 1, right)]
    left, right = fields[0] if fields else (symbols[0], symbols[1])
    if len(symbols) > 2:
        read = count(len(symbols), "transit symbol")
        draft.fault("micr-transit-twice", symbols[0], symbols[-1] + 1, "two transit symbols", read)
    if len(fields) > 1:
        draft.place("routing", left + 1, right)
        numbers = dict.fromkeys(line[start + 1 : end] for start, end in fields)
        draft.doubt("routing", "more than one transit field", *numbers)
    else:
        _routing(draft, left + 1, right)
    return left, right + 1


def _missing(draft: Draft, expected: str, read: str) -> Fault:
    return Fault("micr-transit-missing", Span(0, len(draft.raw)), expected, read)


def _single(draft: Draft, at: int) -> tuple[int, int] | Fault:
    """One transit symbol: its partner is an unread mark ten places away, or the line is foreign, or it is damaged."""
    line = draft.line
    for left, right in ((at, at + 10), (at - 10, at)):
        if left < 0 or right >= len(line) or "?" not in (line[left], line[right]):
            continue
        content = line[left + 1 : right]
        if content.isdigit() and sum_holds(content):
            mark = right if left == at else left
            draft.fault("micr-transit-unread", mark, mark + 1, "a transit symbol", "an unread mark ten places from it")
            _routing(draft, left + 1, right)
            return left, right + 1
    closed = _CLOSED.search(line, 0, at)
    if closed is None:
        return _missing(draft, "a routing number between two transit symbols", "one transit symbol")
    draft.country = "other"
    draft.place("routing", *closed.span(1))
    if closed[1].isdigit() and len(closed[1]) in (9, 10) and sum_holds(closed[1][-9:]):  # ten: EPC and number
        reason = "digits closed by one transit symbol: the Indian form, or a US line without its first symbol"
        draft.doubt("country", reason, "other", "US")
    return closed.start(1), at + 1


def _routing(draft: Draft, start: int, end: int) -> None:
    """Judge the content of the transit field."""
    content = draft.line[start:end]
    draft.place("routing", start, end)
    if not _NINE.fullmatch(content):
        _malformed(draft, start, end)
    elif content[4] == "D":
        if content.replace("D", "").isdigit():
            draft.values["routing_old_form"] = content.replace("D", "-")
    elif content[5] == "D":
        draft.country = "CA"
        if content.replace("D", "").isdigit():
            draft.notes.append(f"Canadian transit: branch {content[:5]}, institution {content[6:]}")
    elif content.isdigit():
        draft.values["routing"] = content
        draft.checksum = sum_holds(content)
    elif "x" not in content:
        _unread(draft, content)


def _unread(draft: Draft, content: str) -> None:
    marks = content.count("?")
    candidates = [candidate.number for candidate in routing_candidates(content)]
    if marks == 1 and candidates:
        draft.values["routing_repaired"] = candidates[0]
    reason = f"{count(marks, 'unread digit')} in the routing number"
    draft.doubt("routing", reason, *candidates)
    if marks == 1 and content[5] == "?":
        draft.doubt("country", "the unread character stands where a Canadian line has its dash", "US", "CA")


def _malformed(draft: Draft, start: int, end: int) -> None:
    content = draft.line[start:end].strip(" ")
    if _DASHED_ABROAD.fullmatch(content):
        draft.country = "other"
    elif content.isdigit():
        expected = "nine digits between the transit symbols"
        draft.fault("micr-transit-length", start, end, expected, count(len(content), "digit"))
        if len(content) == 8:  # the dash may be lost; never pad
            draft.doubt("country", "eight digits: a lost digit, or a Canadian line without its dash", "US", "CA")
    else:
        digits = sum(char.isdigit() for char in content)
        others = len(content) - digits
        read = f"{count(digits, 'digit')} and {count(others, 'other character')}" if content else "nothing"
        draft.fault("micr-transit-content", start, end, "nine digits between the transit symbols", read)


def left(draft: Draft, end: int) -> None:
    """Read what stands left of the transit field: ``O auxiliary O`` and one EPC digit, both optional."""
    line = draft.line
    start, end = draft.trim(0, end)
    if start < end and line[end - 1] in "0123456789?x" and (end - 1 == start or line[end - 2] in " O"):
        if line[end - 1].isdigit():
            draft.values["epc"] = line[end - 1]
        draft.place("epc", end - 1, end)
        start, end = draft.trim(start, end - 1)
    if start == end:
        return
    inner = line[start + 1 : end - 1]
    if not (end - start > 2 and line[start] == line[end - 1] == "O") or set(inner) & set("OTA") or not inner.strip(" "):
        expected = "digits between two On-Us symbols, or one EPC digit"
        draft.fault("micr-auxiliary-malformed", start, end, expected, _described(line[start:end]))
        return
    if cells(line[start:end]) > 20:
        read = count(cells(line[start:end]), "character")
        draft.fault("micr-field-too-long", start, end, "at most 20 characters in the auxiliary field", read)
    start, end = draft.trim(start + 1, end - 1)
    draft.place("auxiliary", start, end)
    if draft.digits(start, end):
        draft.values["auxiliary"] = draft.raw[start:end]


def auxiliary_serial(draft: Draft, printed: str) -> None:
    """Take the serial from the auxiliary field, its usual content (TR 100-2013, definition 70)."""
    found = [(start, end) for name, start, end in draft.places if name == "auxiliary"]
    text = draft.values.get("auxiliary")
    if not found or text is None:
        return
    start, end = found[0]
    if not draft.line[start:end].isdigit():
        parts = draft.line[start:end].replace("D", " ").split()
        proven = [word for word in parts if word.lstrip("0") == printed]
        if len(proven) != 1:
            draft.doubt("serial", "the auxiliary field holds more than one group", *parts)
            return
        start = draft.line.index(proven[0], start)
        end = start + len(proven[0])
        draft.notes.append("serial settled by the printed number")
    draft.place("serial", start, end)
    draft.values["serial"] = draft.line[start:end]


def characters(draft: Draft) -> None:
    """Report what the font does not have: letters, full-width digits, other marks."""
    strange = [at for at, char in enumerate(draft.line) if char == "x"]
    if strange:
        read = f"{foreign(draft.raw[strange[0]])}, which the font does not have"
        if len(strange) > 1:
            read = (
                f"{count(len(strange), 'character')} the font does not have, the first {foreign(draft.raw[strange[0]])}"
            )
        draft.fault("micr-character", strange[0], strange[-1] + 1, "digits and symbols of E-13B only", read)
    if cells(draft.line) > _CELLS:
        read = f"{cells(draft.line)}"
        draft.fault("micr-field-too-long", 0, len(draft.line), f"at most {_CELLS} characters in the line", read)


def amount(draft: Draft, start: int) -> int:
    """Read the amount field right of *start*; where the On-Us field ends."""
    line = draft.line
    symbols = [at for at, char in enumerate(line) if char == "A"]
    if symbols and symbols[0] < start:
        at = symbols[0]
        draft.fault("micr-amount-misplaced", at, at + 1, "the amount at the right end", "an amount symbol left of it")
    symbols = [at for at in symbols if at >= start]
    if not symbols:
        return _unmarked(draft, start)
    first, last = symbols[0], symbols[-1]
    content = line[first + 1 : last]
    if len(symbols) == 2:
        draft.place("amount", first + 1, last)
        if len(content) != 10 or not content.replace("?", "0").replace("x", "0").isdigit():
            digits = sum(char.isdigit() for char in content)
            read = count(digits, "digit")
            if digits < len(content):
                read += f" among {count(len(content), 'character')}"
            draft.fault("micr-amount-length", first + 1, last, "ten digits between the amount symbols", read)
        elif content.isdigit():
            draft.amount_cents = int(content)
        if line[last + 1 :].strip(" "):
            draft.amount_cents = None
            draft.fault("micr-left-over", last + 1, len(line), "the end of the line", "more characters", "the amount")
        return first
    draft.fault("micr-amount-symbols", first, last + 1, "two amount symbols", count(len(symbols), "amount symbol"))
    ten = line[first - 10 : first]
    if len(symbols) == 1 and ten.isdigit() and first - 10 > start and not line[first + 1 :].strip(" "):
        return first - 10 - (line[first - 11] in "?x")  # the opening symbol is lost
    return first


def _unmarked(draft: Draft, start: int) -> int:
    """Digits on the amount's positions without symbols are no serial and no amount either."""
    size = len(draft.line)
    field = draft.line[max(size - 12, start) :]
    if not (draft.positions and field[1:-1].isdigit() and field[0] + field[-1] in ("  ", "??")):
        return size
    read = "ten digits on its positions without them"
    draft.fault("micr-amount-symbols", size - 12, size, "two symbols around the amount", read)
    return size - 12


def _described(part: str) -> str:
    digits = sum(char.isdigit() for char in part)
    symbols = part.count("O")
    return f"{count(digits, 'digit')} and {count(symbols, 'On-Us symbol')}"
