"""A MICR line while it is being read: fields, doubts and faults gathered one after the other.

>>> count(1, "digit"), count(8, "digit"), count(13, "digit")
('one digit', 'eight digits', '13 digits')
>>> foreign("l"), foreign(chr(0)), foreign("\uff10")
("'l' (U+006C)", 'the character U+0000', 'a digit of another script')
"""

from dataclasses import dataclass, field

from checkface.micr.line import Ambiguity, Country, MicrLine
from checkface.span import Fault, Span

_COUNTS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"]

_SYMBOLS = "\u2446\u2447\u2448\u2449"


def count(number: int, noun: str) -> str:
    """``"eight digits"``: *number* in words up to twelve, with *noun* in the plural but for one."""
    word = _COUNTS[number] if number < len(_COUNTS) else str(number)
    return f"{word} {noun}" if number == 1 else f"{word} {noun}s"


def foreign(char: str) -> str:
    """A character the font does not have, as a message names it: ``'l' (U+006C)``; digits are not quoted."""
    if char.isdigit():
        return "a digit of another script"
    code = f"U+{ord(char):04X}"
    return f"{char!r} ({code})" if char.isprintable() and char not in _SYMBOLS else f"the character {code}"


@dataclass(slots=True)
class Draft:
    """The line so far. ``line`` is the reading in the plain alphabet of :mod:`checkface.micr.notation`."""

    raw: str
    notation: str
    line: str
    country: Country = "US"
    unread: bool = False
    positions: bool = False
    values: dict[str, str | None] = field(default_factory=dict)
    places: list[tuple[str, int, int]] = field(default_factory=list)
    ambiguities: list[Ambiguity] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    checksum: bool | None = None
    amount_cents: int | None = None

    @property
    def serial_elsewhere(self) -> bool:
        """The On-Us field needs no serial: the auxiliary field holds it, or the line is foreign."""
        return self.country != "US" or any(name == "auxiliary" for name, _, _ in self.places)

    def place(self, name: str, start: int, end: int) -> None:
        """Record where the field *name* stands."""
        self.places.append((name, start, end))

    def doubt(self, name: str, reason: str, *candidates: str) -> None:
        """Record that the line does not settle the field *name*."""
        self.ambiguities.append(Ambiguity(name, reason, candidates))

    def fault(self, kind: str, start: int, end: int, expected: str, read: str, after: str = "") -> None:
        """Record what is wrong between *start* and *end*."""
        self.faults.append(Fault(kind, Span(start, end), expected, read, after))

    def digits(self, start: int, end: int) -> str | None:
        """The digits there, dashes and blanks dropped; None if there are none or something else stands among them."""
        found = self.line[start:end].replace("D", "").replace(" ", "")
        return found if found.isdigit() else None

    def trim(self, start: int, end: int) -> tuple[int, int]:
        """The range without its outer blanks."""
        part = self.line[start:end]
        start += len(part) - len(part.lstrip(" "))
        return start, max(start, end - (len(part) - len(part.rstrip(" "))))

    def groups(self, start: int, end: int) -> list[tuple[int, int]]:
        """The ranges between blanks."""
        found = []
        for word in self.line[start:end].split():
            start = self.line.index(word, start)
            found.append((start, start + len(word)))
            start += len(word)
        return found

    def done(self) -> MicrLine:
        """The finished line."""
        value = self.values.get
        account = next(((start, end) for name, start, end in self.places if name == "account"), None)
        return MicrLine(
            raw=self.raw,
            notation=self.notation,
            country=self.country,
            routing=value("routing"),
            checksum=self.checksum,
            auxiliary=value("auxiliary"),
            epc=value("epc"),
            account=value("account"),
            account_text=self.raw[slice(*account)] if account else None,
            serial=value("serial"),
            transaction_code=value("transaction_code"),
            amount_cents=self.amount_cents,
            unread=self.unread,
            ambiguities=tuple(self.ambiguities),
            faults=tuple(self.faults),
            notes=tuple(self.notes),
            routing_repaired=value("routing_repaired"),
            routing_old_form=value("routing_old_form"),
            positions=self.positions,
            places=tuple(self.places),
        )
