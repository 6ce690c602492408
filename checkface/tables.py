"""Reference tables, each carrying the source it was taken from.

A table is a file of ``data/``: TOML with a ``[source]`` section, or CSV whose head lines, each starting with
``#``, hold the same section. A table without a complete source is refused: a figure nobody can trace is not
a fact. Rows that nobody could confirm carry the word ``memory`` in their ``source`` column.
"""

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any, NamedTuple

Row = Mapping[str, str]


class TableError(ValueError):
    """A reference table is missing, unreadable or without a source."""


class Source(NamedTuple):
    """Where a table comes from.

    ``authority`` publishes it; ``edition`` names the text used; ``taken`` is the ISO date it was taken; ``how``
    says by which steps; ``check`` says what confirms it independently.
    """

    authority: str
    edition: str
    taken: str
    how: str
    check: str


class Table(NamedTuple):
    """One reference table: ``rows`` for CSV, ``data`` for TOML, ``digest`` the SHA-256 of the file."""

    name: str
    source: Source
    rows: tuple[Row, ...]
    data: Mapping[str, Any]
    digest: str


def folder() -> Path:
    """The folder of the tables: inside the installed package, or beside it in a checkout."""
    inside = Path(__file__).parent / "data"
    return inside if inside.is_dir() else Path(__file__).parent.parent / "data"


def names() -> tuple[str, ...]:
    """Names of all tables, sorted."""
    return tuple(sorted(p.stem for p in folder().iterdir() if p.suffix in {".csv", ".toml"}))


@cache
def load(name: str) -> Table:
    """The table called *name*. Raises :class:`TableError` if it is missing, broken or without a source."""
    for suffix in (".csv", ".toml"):
        path = folder() / (name + suffix)
        if path.is_file():
            return parse(name, suffix, path.read_bytes())
    raise TableError(f"Expected a table named one of {', '.join(names())}, read {name!r}.")


@cache
def digest() -> str:
    """SHA-256 over the digests of all tables: changes when any of them does."""
    import hashlib

    return hashlib.sha256("".join(load(name).digest for name in names()).encode()).hexdigest()


def parse(name: str, suffix: str, content: bytes) -> Table:
    """Build a table from the bytes of its file. Raises :class:`TableError`."""
    # Imported here and below because most of what can be imported needs no table.
    import csv
    import hashlib
    import tomllib

    try:
        text = content.decode("utf-8")
        rows: tuple[Row, ...] = ()
        if suffix == ".csv":
            lines = text.splitlines(keepends=True)
            head = [line for line in lines if line.startswith("#")]
            data = tomllib.loads("".join(line[1:].lstrip(" ") for line in head))
            rows = _rows(name, [line for line in lines if not line.startswith("#")])
        else:
            data = tomllib.loads(text)
    except (UnicodeDecodeError, tomllib.TOMLDecodeError, csv.Error) as error:
        raise TableError(f"Table {name}: expected {suffix[1:].upper()} in UTF-8, read: {error}.") from error
    source = _source(name, data.pop("source", None))
    return Table(name, source, rows, MappingProxyType(data), hashlib.sha256(content).hexdigest())


def _rows(name: str, lines: list[str]) -> tuple[Row, ...]:
    import csv

    reader = csv.DictReader(lines, strict=True, restkey="")
    rows: list[Row] = []
    for row in reader:
        if "" in row or None in row.values():
            wanted = len(reader.fieldnames or ())
            raise TableError(f"Table {name}, row {len(rows) + 1}: expected {wanted} cells, read another number.")
        rows.append(MappingProxyType(row))
    return tuple(rows)


def _source(name: str, given: object) -> Source:
    wanted = Source._fields
    if not isinstance(given, dict):
        raise TableError(f"Table {name}: expected a [source] with {', '.join(wanted)}, read none.")
    missing = [key for key in wanted if not (isinstance(given.get(key), str) and given[key].strip())]
    if missing:
        without = ", ".join(missing)
        raise TableError(f"Table {name}: expected a [source] with {', '.join(wanted)}, read it without {without}.")
    return Source(**{key: given[key] for key in wanted})
