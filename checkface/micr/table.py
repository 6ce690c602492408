"""A reader as its house describes it: which character means which symbol, and what it sends around the line.

For a reader whose notation is none of :data:`~checkface.micr.notation.NOTATIONS`. In a policy::

    [reader]
    transit = "["                  # characters that mean the transit symbol; several may
    on_us = '"'
    amount = "]"
    dash = "'-"
    unread = "?"                   # marks of a character that was not read
    blank = "_"
    before = ["C"]                 # what may stand before the line, and behind it
    behind = ["/00"]

Only ``transit`` and ``on_us`` must be given. A character that is in no list is foreign, and a line that holds one is
flagged.

>>> from checkface import micr
>>> table = reader_table({"transit": "[", "on_us": '"', "blank": "_", "before": ["C"], "behind": ["/00"]})
>>> line = micr.read('C[031097765[_0045601122"_1043/00', table)
>>> line.account, line.serial, line.settled
('0045601122', '1043', True)
>>> reader_table({"transit": "[", "on_us": "["})
Traceback (most recent call last):
    ...
checkface.micr.table.ReaderTableError: Reader: expected one meaning for each character, read '[' as transit and on_us.
>>> reader_table({"transit": "["})
Traceback (most recent call last):
    ...
checkface.micr.table.ReaderTableError: Reader: expected at least one character for on_us, read none.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import lru_cache

from checkface.micr import framing
from checkface.micr.notation import Alphabet, Symbols
from checkface.mistakes import quoted

_CHARACTERS = ("transit", "on_us", "amount", "dash", "unread", "blank")
_LONGEST = 16


class ReaderTableError(ValueError):
    """A description of a reader that cannot be used; the message says what was expected."""


@dataclass(frozen=True, slots=True)
class ReaderTable:
    """One reader, in the words of the module docstring."""

    transit: str
    on_us: str
    amount: str = ""
    dash: str = "-"
    unread: str = "?"
    blank: str = " "
    before: tuple[str, ...] = ()
    behind: tuple[str, ...] = ()

    def bounds(self, text: str) -> tuple[int, int]:
        """Start and end of the line in *text*, without control characters and what this reader sends around it."""
        start, end = framing.bounds(text)
        inner = text[start:end]
        before = max((len(part) for part in self.before if inner.lstrip(" ").startswith(part)), default=0)
        if before:
            start += len(inner) - len(inner.lstrip(" ")) + before
        inner = text[start:end]
        behind = max((len(part) for part in self.behind if inner.rstrip(" ").endswith(part)), default=0)
        return start, start + len(inner.rstrip(" ")) - behind if behind else end

    def plain(self, text: str) -> str:
        """*text* in the plain alphabet of :mod:`checkface.micr.notation`; same length."""
        return text.translate(_alphabet(self))


@lru_cache(maxsize=16)
def _alphabet(table: ReaderTable) -> Alphabet:
    symbols = Symbols(table.transit, table.amount, table.on_us, table.dash, table.unread)
    return Alphabet(symbols, table.blank + " ")


def reader_table(data: object) -> ReaderTable:
    """The table in *data*, as TOML or JSON gives it. Raises :class:`ReaderTableError`."""
    if not isinstance(data, Mapping):
        raise ReaderTableError("Reader: expected a table of characters, read another value.")
    names = [field.name for field in fields(ReaderTable)]
    meanings: dict[str, str] = {}
    around: dict[str, tuple[str, ...]] = {}
    for key, given in data.items():
        if key not in names:
            import difflib

            near = difflib.get_close_matches(str(key)[:40], names, 1, 0.0)[0]
            raise ReaderTableError(
                f"Reader: expected {', '.join(names)}, read {quoted(str(key))}, nearest is {near!r}."
            )
        if key in _CHARACTERS:
            _one_meaning(key, given, meanings)
        else:
            around[key] = _texts(key, given)
    for key in ("transit", "on_us"):
        if key not in meanings.values():
            raise ReaderTableError(f"Reader: expected at least one character for {key}, read none.")
    for key, usual in (("dash", "-"), ("unread", "?"), ("blank", " ")):
        if key not in data:
            meanings.setdefault(usual, key)
    listed = {key: "".join(char for char, meaning in meanings.items() if meaning == key) for key in _CHARACTERS}
    return ReaderTable(**listed, **around)  # type: ignore[arg-type]  # mypy takes each value for each field


def _texts(key: str, given: object) -> tuple[str, ...]:
    if not isinstance(given, list | tuple):
        raise ReaderTableError(f"Reader, {key}: expected a list of texts, read another value.")
    for part in given:
        if not isinstance(part, str) or not 0 < len(part) <= _LONGEST:
            raise ReaderTableError(f"Reader, {key}: expected texts of 1 to {_LONGEST} characters, read another value.")
    return tuple(given)


def _one_meaning(key: str, given: object, meanings: dict[str, str]) -> None:
    """Enter the characters of *given* as *key* into *meanings*."""
    if not isinstance(given, str) or len(given) > _LONGEST:
        raise ReaderTableError(f"Reader, {key}: expected at most {_LONGEST} characters, read another value.")
    for char in given:
        if char.isdigit():
            raise ReaderTableError(f"Reader, {key}: expected no digit, read one.")
        if meanings.setdefault(char, key) != key:
            read = f"{char!r} as {meanings[char]} and {key}"
            raise ReaderTableError(f"Reader: expected one meaning for each character, read {read}.")
