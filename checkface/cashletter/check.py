"""Whether each field of a record holds what the table lets it hold."""

import re
from collections.abc import Iterator
from functools import cache, lru_cache

from checkface.cashletter.layout import Field, layouts
from checkface.cashletter.record import Flaw, Record, spread
from checkface.span import Fault, Span

_CLASSES = {
    "N": "[0-9]", "A": "[A-Za-z ]", "AN": "[A-Za-z0-9 ]", "ANS": "[ -~]", "NS": "[ -@\\[-`{-~]", "NB": "[0-9 ]",
    "NBSM": "[0-9 *-]", "NBSMOS": "[0-9 */-]", "B": " ",
}  # fmt: skip
_WORDS = {
    "N": "digits", "A": "letters", "AN": "letters and digits", "ANS": "printable ASCII", "NS": "digits and signs",
    "NB": "digits and blanks", "NBSM": "digits, blanks, - and *", "NBSMOS": "digits, blanks, -, * and /", "B": "blanks",
}  # fmt: skip
_DAY = "(?:19|20)[0-9]{2}(?:0[1-9]|1[0-2])(?:0[1-9]|[12][0-9]|3[01])"


def flaws(record: Record) -> Iterator[Flaw]:
    """What is wrong in the fields of *record*, in their order."""
    layout = record.layout
    if layout is None or (not layout.varies and _whole(record.level, record.type).fullmatch(record.text)):
        return
    for field, start, end in spread(layout, record.text):
        if field.kind == "binary":
            continue
        text = record.text[start:end]
        if not _pattern(field, end - start).fullmatch(text):
            fault = Fault(_kind(field), Span(0, len(text)), _expected(field, len(text)), _read(field, text))
            yield Flaw(record.offset + start, record.number, record.type, field.name, fault)


@cache
def _whole(level: str, kind: str) -> re.Pattern[str]:
    """One expression for a whole record of fixed length."""
    return re.compile(
        "".join(_source(field, field.length or 0) for field in layouts(level)[kind].fields) + ".*", re.DOTALL
    )


@lru_cache(512)
def _pattern(field: Field, length: int) -> re.Pattern[str]:
    return re.compile(_source(field, length))


def _source(field: Field, length: int) -> str:
    blank = f" {{{length}}}"
    if field.values:
        found = "|".join(field.values)
    elif is_day(field):
        found = f"{_DAY}|0{{{length}}}" if not field.mandatory else _DAY
    else:
        found = f"{_CLASSES[field.kind]}{{{length}}}"
        if field.mandatory and field.kind == "NB":
            return f"(?!{blank}){found}"
    optional = not field.mandatory and (field.values or field.kind == "N")
    return f"(?:{found}|{blank})" if optional else f"(?:{found})"


def is_day(field: Field) -> bool:
    """Whether *field* is a day, written YYYYMMDD."""
    return field.kind == "N" and field.length == 8 and "Date" in field.name


def _kind(field: Field) -> str:
    return "letter-value" if field.values else "letter-reserved" if field.kind == "B" else "letter-field"


def _expected(field: Field, length: int) -> str:
    if field.values:
        return f"one of {', '.join(field.values)}"
    wanted = "a day as YYYYMMDD" if is_day(field) else f"{length} {_WORDS[field.kind]}"
    if field.kind == "NB" and field.mandatory:
        return f"{wanted}, not all blank"
    return wanted if field.mandatory or field.kind != "N" else f"{wanted} or blanks"


def _read(field: Field, text: str) -> str:
    """What stands there, in counts: it may be the number of an account."""
    if field.values or is_day(field):
        return repr(text)
    digits = sum("0" <= char <= "9" for char in text)
    letters = sum(char.isascii() and char.isalpha() for char in text)
    blanks = text.count(" ")
    counts = {
        "digit": digits, "letter": letters, "blank": blanks, "other character": len(text) - digits - letters - blanks,
    }  # fmt: skip
    return ", ".join(f"{n} {what}{'s' * (n != 1)}" for what, n in counts.items() if n) or "nothing"
