"""A day's file as Parquet: columns by their names, nested ones by their dotted path, read a batch of rows at a time.

A null is an empty cell, which the tools that make Parquet of a sheet or of CSV write for one: somebody looked and
there was nothing. Only among yes and no a null is ``(not looked at)``, since "no" could have been written, and so is
all that stands below a structure that is null. A column ``documents`` may hold whole lists of documents. Rows are
counted from 1. The format: https://parquet.apache.org/docs/file-format/.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Any, BinaryIO, Final, NamedTuple

import pyarrow as pa
import pyarrow.compute as pc
import pyarrow.types as kinds
from pyarrow import parquet as pq

from checkface.audit.columns import NOT_LOOKED_AT, OF_LINES, quoted
from checkface.audit.rows import CELL
from checkface.audit.source import InputError
from checkface.audit.typed import LABELS, MONEY, Batch, Headings, Tell, TypedRow, texts

#: Rows that are in memory at once.
ROWS: Final = 1 << 10
#: Most bytes that one group of rows may say it has, unpacked; and fewer where its rows are few. A check with everything
#: on it has about a thousand, so that more of them are one value beyond all measure.
UNPACKED: Final = 1 << 30
SMALL: Final = 1 << 26
OF_ROW: Final = 1 << 12
#: Most bytes one text within a list may have; a cell by itself has a limit of characters.
_LISTED: Final = 4 * CELL
_TOO_MUCH: Final = "Expected rows that fit into the memory there is, read larger ones."

#: What pandas calls the column of row labels it adds.
_INDEX: Final = re.compile(r"__index_level_[0-9]+__")
#: What pyarrow raises for damaged files; ArrowException alone would leave out what Python's own conversions raise.
_ERRORS = (pa.ArrowException, OSError, ValueError, TypeError, KeyError, IndexError, OverflowError)
#: Stands for a value that Python cannot hold, such as a day in the year 20261 or text that is no UTF-8.
_BEYOND: Final = object()
#: What the format calls text, and bytes that it calls nothing.
_TEXTS: Final = {"STRING", "NONE"}
_NOTHING: Final[tuple[Any, ...]] = (None, "", [], NOT_LOOKED_AT)
_Cells = list[tuple[str, Any]]


class _Leaf(NamedTuple):
    """One column of values: the way to it, what it holds, and whether it is of the list of documents."""

    steps: tuple[str, ...]
    kind: Any
    of_list: bool = False

    @property
    def heading(self) -> str:
        return ".".join(self.steps)


def read(stream: BinaryIO, headings: Headings, tell: Tell) -> Batch:
    """The rows of *stream*, a seekable file. Raises :class:`InputError` for one that cannot be read as a whole."""
    try:
        file = pq.ParquetFile(stream)
        fields = [(field.name, field.type) for field in file.schema_arrow]
        _check_size(file.metadata)
        file = _opened(stream, file)
    except InputError:
        raise
    except MemoryError:
        raise InputError(_TOO_MUCH) from None
    except _ERRORS:
        raise InputError("Expected a Parquet file, read a damaged one: its own description makes no sense.") from None
    leaves = [leaf for name, kind in fields if not _INDEX.fullmatch(name) for leaf in _leaves((name,), kind)]
    whole = {given for given in headings.ignored if any(leaf.heading.startswith(f"{given}.") for leaf in leaves)}
    leaves = [leaf for leaf in leaves if not any(leaf.heading.startswith(f"{given}.") for given in whole)]
    if not leaves:
        raise InputError("Expected columns of a tender, read none.")
    rest = Headings(headings.renames, [given for given in headings.ignored if given not in whole])
    found = zip(leaves, rest.resolve([leaf.heading for leaf in leaves]), strict=True)
    used = [(leaf, path) for leaf, path in found if path is not None]
    for leaf, path in used:
        _check(leaf, path, tell)
    listed = {path for leaf, path in used if leaf.of_list}
    if listed and any(path.startswith("documents.") for _, path in used if path not in listed):
        raise InputError("Expected the documents in one form, read a list of them and columns beside it.")
    return Batch(tuple(path for leaf, path in used if not leaf.of_list), _rows(file, used))


def _leaves(steps: tuple[str, ...], kind: Any, *, of_list: bool = False) -> Iterator[_Leaf]:
    if steps == ("documents",) and _is_list(kind) and kinds.is_struct(kind.value_type):
        kind, of_list = kind.value_type, True
    if not kinds.is_struct(kind):
        yield _Leaf(steps, kind.value_type if kinds.is_dictionary(kind) else kind, of_list)
        return
    names = [kind.field(index).name for index in range(kind.num_fields)]
    if len(set(names)) < len(names):
        raise InputError(f"Expected one column a name, read one twice within {quoted('.'.join(steps))}.")
    for index, name in enumerate(names):
        yield from _leaves((*steps, name), kind.field(index).type, of_list=of_list)


def _is_list(kind: Any) -> bool:
    return bool(kinds.is_list(kind) or kinds.is_large_list(kind))


def _is_text(kind: Any) -> bool:
    tests = (kinds.is_string, kinds.is_large_string, kinds.is_string_view, kinds.is_binary, kinds.is_large_binary)
    return kinds.is_dictionary(kind) or any(test(kind) for test in tests)


def _is_number(kind: Any) -> bool:
    tests = (kinds.is_integer, kinds.is_float32, kinds.is_float64, kinds.is_decimal)
    return any(test(kind) for test in tests)


def _check(leaf: _Leaf, path: str, tell: Tell) -> None:
    """Refuse a column of what no cell can be, and tell of one that may not be what it seems."""
    kind, name = leaf.kind, quoted(leaf.heading)
    if kinds.is_timestamp(kind) and kind.tz is not None:
        raise InputError(f"Column {name}: Expected days at the store, read moments in a time zone.")
    lines = _is_list(kind) and _is_text(kind.value_type) and path in OF_LINES
    others = (kinds.is_boolean, kinds.is_date, kinds.is_timestamp, kinds.is_null)
    known = lines or _is_text(kind) or _is_number(kind) or str(kind) == "extension<arrow.uuid>"
    if not known and not any(test(kind) for test in others):
        wanted = "text, numbers, days or yes and no"
        raise InputError(f"Column {name}: Expected {wanted}, read {str(kind)[:40]}; it can be ignored.")
    if kinds.is_integer(kind) and path in MONEY:
        tell(f"Column {name} holds whole numbers: read as dollars.")
    if _is_number(kind) and path in LABELS:
        tell(f"Column {name} holds numbers: noughts they may have begun with are lost.")


def _check_size(metadata: Any) -> None:
    # The descriptions of single columns are left alone: pyarrow ends the whole process where one of them is damaged.
    for group in map(metadata.row_group, range(metadata.num_row_groups)):
        most = min(UNPACKED, max(SMALL, OF_ROW * group.num_rows))
        if not 0 <= group.total_byte_size <= most:
            raise InputError(f"Expected at most {most:,} bytes in a group of {group.num_rows:,} rows, read more.")


def _opened(stream: BinaryIO, file: Any) -> Any:
    """*file* opened so that a text that stands there once is in memory once, in however many rows it is."""
    columns = map(file.schema.column, range(len(file.schema)))
    texts = [each.path for each in columns if each.physical_type == "BYTE_ARRAY" and each.logical_type.type in _TEXTS]
    return pq.ParquetFile(stream, metadata=file.metadata, read_dictionary=texts, buffer_size=1 << 16, pre_buffer=False)


def _longest(array: Any) -> int:
    """Bytes of the longest text anywhere within *array*."""
    if kinds.is_dictionary(array.type):
        return int(pc.max(pc.binary_length(array.dictionary)).as_py() or 0)
    if kinds.is_struct(array.type):
        return max((_longest(array.field(index)) for index in range(array.type.num_fields)), default=0)
    return _longest(array.values) if _is_list(array.type) else 0


def _rows(file: Any, used: Sequence[tuple[_Leaf, str]]) -> Iterator[TypedRow]:
    flat = [(leaf, path) for leaf, path in used if not leaf.of_list]
    listed = [(leaf, path) for leaf, path in used if leaf.of_list]
    batches = file.iter_batches(ROWS, columns=[leaf.heading for leaf, _ in flat] + ["documents"] * bool(listed))
    line = 0
    while True:
        try:
            batch = next(batches, None)
            if batch is None:
                return
            if any(_longest(array) > _LISTED for array in batch.columns if _is_list(array.type)):
                raise InputError(f"After row {line}: Expected texts of at most {_LISTED:,} bytes, read a longer.")
            values = [_values(batch.column(leaf.steps[0]), leaf) for leaf, _ in flat]
            shown = _plain(batch.column("documents")) if listed else [None] * batch.num_rows
        except InputError:
            raise
        except MemoryError:
            raise InputError(f"After row {line}: {_TOO_MUCH}") from None
        except _ERRORS:
            raise InputError(f"After row {line}: Expected rows of Parquet, read damaged ones.") from None
        paths = [path for _, path in flat]
        for index, documents in enumerate(shown):
            line += 1
            yield _row(line, list(zip(paths, (column[index] for column in values), strict=True)), documents, listed)


def _row(line: int, cells: _Cells, shown: Any, listed: Sequence[tuple[_Leaf, str]]) -> TypedRow:
    if not shown and all(value in _NOTHING for _, value in cells):
        return TypedRow(line, fault="Expected a check, read an empty row.")
    found, faults = texts(cells)
    if not isinstance(shown, list):
        return TypedRow(line, found, " ".join(faults))
    documents = []
    for each in shown:
        pairs = [(leaf, path, (each or {}).get(leaf.steps[1])) for leaf, path in listed]
        # A null says nothing of a document either; that there was none is said by the list.
        given = [(path, value) for leaf, path, value in pairs if value is not None]
        said, more = texts(given)
        documents.append({path.removeprefix("documents."): word for (path, _), word in zip(given, said, strict=True)})
        faults += more
    return TypedRow(line, found, " ".join(faults), tuple(documents))


def _values(array: Any, leaf: _Leaf) -> list[Any]:
    unsaid = None
    for step in leaf.steps[1:]:
        unsaid = array.is_null()  # also where what stands above it is null
        array = pc.struct_field(array, step)
    values = _plain(array)
    if kinds.is_boolean(leaf.kind):
        return [NOT_LOOKED_AT if value is None else value for value in values]
    if unsaid is not None:
        return [NOT_LOOKED_AT if gone else value for gone, value in zip(unsaid.to_pylist(), values, strict=True)]
    return values


def _plain(array: Any) -> list[Any]:
    """The values of *array* as Python has them, short floats by the shortest text that names them."""
    if kinds.is_dictionary(array.type):
        places = pc.unique(array.indices)
        found = dict(zip(places.to_pylist(), _plain(array.dictionary.take(places)), strict=True))
        return [found[place] for place in array.indices.to_pylist()]
    if kinds.is_timestamp(array.type):
        array = array.cast(pa.timestamp("us"), safe=False)
    if kinds.is_float32(array.type):
        return [value if value is None else _short(value) for value in array.cast(pa.string()).to_pylist()]
    try:
        return list(array.to_pylist())
    except (ValueError, OverflowError):
        return [_one(scalar) for scalar in array]


def _short(name: str) -> Decimal | float:
    number = Decimal(name)
    return number if number.is_finite() else float(name)


def _one(scalar: Any) -> object:
    try:
        return scalar.as_py()
    except (ValueError, OverflowError):
        return _BEYOND
