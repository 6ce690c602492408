"""Which column of a file holds which part of a tender, and what its cells say.

A heading is the dotted path of a tender (``face.micr``) or its last part alone where that is unambiguous (``micr``);
capitals and blanks do not matter. The ``documents`` columns describe the first document shown.

A cell of the face keeps the states of a reading apart: no column, or ``(not looked at)``, means that nobody looked;
an empty cell, that somebody looked and there was nothing; ``(illegible)``, that it could not be made out. `` | ``
separates the lines of the drawer, the drawee, the legends, the memo and the endorsements.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from difflib import get_close_matches
from typing import Any, Final

from checkface import masking
from checkface.audit.source import InputError
from checkface.tender import Counter, Document, Face, Tender

NOT_LOOKED_AT: Final = "(not looked at)"
ILLEGIBLE: Final = "(illegible)"
LINES: Final = " | "

_BRANCHES: Mapping[str, Iterable[str]] = {
    "face": Face.model_fields, "counter": Counter.model_fields, "documents": Document.model_fields,
}  # fmt: skip
_TOP = tuple(name for name in Tender.model_fields if name not in _BRANCHES)
#: Every column there is, in the order of the tender.
PATHS: tuple[str, ...] = (*_TOP, *(f"{branch}.{name}" for branch, names in _BRANCHES.items() for name in names))
#: Columns of several lines.
OF_LINES = {"face.drawer", "face.drawee", "face.legends", "face.memo", "face.endorsements"}


def _names() -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for path in PATHS:
        branch, _, last = path.rpartition(".")
        forms = {path, last} | ({f"document.{last}"} if branch == "documents" else set())
        if last == "declared_kind":
            forms.add("kind")  # of the check or of the document: a heading must say which
        for form in forms:
            found.setdefault(form, []).append(path)
    return found


_NAMES = _names()


def is_known(heading: str) -> bool:
    """Whether *heading* names a column, be it ambiguously."""
    return _normal(heading) in _NAMES


def resolve(
    headings: Sequence[str], renames: Mapping[str, str] | None = None, ignored: Iterable[str] = ()
) -> tuple[str | None, ...]:
    """The path of each heading, ``None`` for an ignored one.

    ``renames`` maps a path to the heading that holds it. Raises :class:`InputError` for a heading that is unknown,
    ambiguous or there twice, naming the nearest known one.
    """
    given = {heading.strip(): heading for heading in headings}
    by_heading = {}
    for name, heading in (renames or {}).items():
        by_heading[_present(heading, given)] = _path(name)
    skipped = {_present(heading, given) for heading in ignored}
    paths: list[str | None] = []
    for heading in map(str.strip, headings):
        path = None if heading in skipped else by_heading.get(heading) or _path(heading)
        if path is not None and path in paths:
            raise InputError(f"Expected one column for {path}, read another: {quoted(heading)}.")
        paths.append(path)
    return tuple(paths)


def wire(paths: Sequence[str | None], cells: Sequence[str]) -> dict[str, Any]:
    """The tender on the wire that one row of *cells* stands for."""
    tender: dict[str, Any] = {"face": {}, "counter": {}}
    document: dict[str, str] = {}
    asked = False
    for path, cell in zip(paths, cells, strict=True):
        if path is None or cell.strip().lower() == NOT_LOOKED_AT:
            continue
        branch, _, name = path.rpartition(".")
        if branch == "face":
            tender["face"][name] = _reading(path, cell)
        elif branch == "counter":
            tender["counter"][name] = cell.strip()
        elif branch == "documents":
            asked = True
            document[name] = cell.strip()
        else:
            tender[name] = cell.strip()
    if asked:
        tender["documents"] = [document] if any(document.values()) else []
    return tender


def _reading(path: str, cell: str) -> str | list[str] | None:
    if cell.strip().lower() == ILLEGIBLE:
        return None
    return cell.split(LINES) if path in OF_LINES else cell


def _normal(name: str) -> str:
    return "_".join(name.lower().split())


def _path(name: str) -> str:
    found = _NAMES.get(_normal(name), [])
    if len(found) == 1:
        return found[0]
    if found:
        raise InputError(f"Expected a column that is one thing, read {quoted(name)}: name {' or '.join(found)}.")
    near = get_close_matches(_normal(name), _NAMES, 1)
    hint = f"; the nearest known column is {near[0]!r}" if near else ""
    raise InputError(f"Expected a column of a tender, read {quoted(name)}{hint}.")


def _present(heading: str, given: Mapping[str, str]) -> str:
    if heading.strip() in given:
        return heading.strip()
    near = get_close_matches(heading, given, 1)
    hint = f"; the nearest is {quoted(near[0])}" if near else ""
    raise InputError(f"Expected a heading of the file, read {quoted(heading)}{hint}.")


def quoted(heading: str) -> str:
    """*heading* for a message: masked where it is a number, and cut short."""
    return repr(masking.prose(heading)[:40])
