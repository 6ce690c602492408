"""``checkface draw``: a specimen drawn as SVG, from a tender or from nothing."""

from __future__ import annotations

import io
from collections.abc import Callable
from datetime import date
from functools import partial
from pathlib import Path
from typing import Annotated, Literal

from cyclopts import Group, Parameter

from checkface import audit, training
from checkface.assessment import parse
from checkface.cells import shown
from checkface.cli import options, terminal
from checkface.cli.failure import DONE, FLAGGED, Failure
from checkface.cli.options import Output, help_for
from checkface.mistakes import quoted
from checkface.policy import Policy
from checkface.tender import Kind
from checkface.training import drills, invented, specimens
from checkface.training.admit import BOND

#: Most bytes of a file to draw from.
_LIMIT = 1 << 24

_CHECK = Group("The check", sort_key=1)
_RESULT = Group("The drawing", sort_key=2)

_File = Annotated[Path | None, help_for(_CHECK, "Tenders as JSON, JSON Lines or CSV. - is stdin.", name="FILE")]
_Row = Annotated[int | None, help_for(_CHECK, "Which tender of FILE, counted from 1.", "NUMBER")]
_Kind = Annotated[str | None, help_for(_CHECK, "Without FILE: a clean specimen of this kind. Else personal.", "KIND")]
_Seed = Annotated[int, help_for(_CHECK, "Without FILE: another number, another specimen. Else 1.", "NUMBER")]
_Policy = Annotated[
    Path | None, help_for(_RESULT, "House policy in TOML; without it, that of the training house.", "FILE")
]
_On = Annotated[str | None, help_for(_CHECK, "Day of tender where none is given, such as 2026-11-24.", "DAY")]
_Side = Annotated[Literal["front", "back", "both"], help_for(_RESULT, "front, back or both. Else front.", "SIDE")]
_Marked = Annotated[
    bool, help_for(_RESULT, "Number what is found at its place, and say below what each number is.", negative=())
]
_Folder = Annotated[Path | None, help_for(_RESULT, "Draw every tender of FILE, each into a file of FOLDER.", "FOLDER")]


def draw(
    file: _File = None,
    /,
    *,
    row: _Row = None,
    kind: _Kind = None,
    seed: _Seed = 1,
    on: _On = None,
    side: _Side = "front",
    marked: _Marked = False,
    policy: _Policy = None,
    folder: _Folder = None,
    output: Annotated[Output, Parameter(group=_RESULT)] = None,
) -> int:
    """Draw a check as SVG, at its real size, with SPECIMEN across it.

    Nothing real is drawn. The routing number must be a specimen's; any other is refused. Names, addresses and the
    account are replaced by invented ones; amount, date, a check number of usual length and the known phrases of its
    wording stay, all other wording becomes z and zeros. Only the names your --policy gives for the house and for whom
    checks are made out to are drawn as they are, as payee.

      checkface draw --kind cashiers-check --output cashiers.svg
      checkface draw tender.json --marked --output marked.svg
    """
    house = options.policy(policy) if policy else drills.training_house()
    day = options.day(on)
    if file is None:
        if row is not None or folder is not None:
            raise Failure("Expected a file for --row or --folder to take tenders from, read none.")
        paper = _kind(kind)
        payee = "" if paper in specimens.PAID_TO_CUSTOMER else next(iter(house.payee.names), house.house.name)
        made = specimens.clean(paper, invented.dice(seed), day or drills.training_day(), payee)
        with terminal.results(output, policy) as out:
            out.write(training.draw(parse(made), house, side=side, marked=marked))
        return DONE
    if kind is not None:
        raise Failure("Expected a file or --kind, read both.")
    if folder is not None and (output is not None or row is not None):
        raise Failure("Expected --folder, or --row and --output; read both.")
    items = _items(file)
    name = terminal.name_of(file)
    if folder is not None:
        return _all(items, name, folder, lambda item: _drawn(item, house, side, marked, day))
    one = _one(items, row, name)
    if isinstance(one, audit.Skipped):
        raise Failure(f"{name}:{one.line}: {shown(one.reason)}")
    try:
        drawn = _drawn(one, house, side, marked, day)
    except training.NotASpecimenError as error:
        raise Failure(f"{name}: {error}") from None
    with terminal.results(output, file, policy) as out:
        out.write(drawn)
    return DONE


def _kind(given: str | None) -> str:
    """The paper called *given*, as a tender would declare it."""
    word = "-".join((given or "personal").strip().lower().replace("_", " ").replace("'", "").split())
    for form in (word, f"{word}-check", word.removesuffix("-check")):
        if form in training.papers():
            return form
    if word == Kind.SAVINGS_BOND:
        raise Failure(BOND)
    from difflib import get_close_matches

    near = get_close_matches(word, training.papers(), 1)
    hint = f"; the nearest is {near[0]}" if near else f", one of {', '.join(training.papers())}"
    raise Failure(f"Expected a kind of paper after --kind, read {quoted(given or '')}{hint}.")


def _items(file: Path) -> list[audit.Item | audit.Skipped]:
    """Every tender of *file*: JSON starts with a bracket, everything else is CSV."""
    with terminal.source(file) as stream:
        content = stream.read(_LIMIT + 1)
    name = terminal.name_of(file)
    if len(content) > _LIMIT:
        raise Failure(f"{name}: Expected at most {_LIMIT:,} bytes to draw from, read more.")
    try:
        if content.lstrip(b"\xef\xbb\xbf \t\r\n")[:1] in (b"{", b"["):
            return audit.few(io.BytesIO(content), lines=file.suffix.lower() in {".jsonl", ".ndjson"})[1]
        return list(audit.tenders(io.BytesIO(content), "csv"))
    except audit.InputError as error:
        raise Failure(f"{name}: {error}") from None


def _one(items: list[audit.Item | audit.Skipped], row: int | None, name: str) -> audit.Item | audit.Skipped:
    if not items:
        raise Failure(f"{name}: Expected a tender to draw, read none.")
    if row is None:
        if len(items) > 1:
            raise Failure(f"{name}: Expected one tender, read {len(items)}: choose with --row, or give a --folder.")
        return items[0]
    if not 1 <= row <= len(items):
        raise Failure(f"{name}: Expected --row 1 to {len(items)}, read {row}.")
    return items[row - 1]


def _drawn(item: audit.Item, house: Policy, side: training.Side, marked: bool, day: date | None) -> str:
    return training.draw(audit.with_day(item.tender, day), house, side=side, marked=marked)


def _admitted(item: audit.Item | audit.Skipped, render: Callable[[audit.Item], str]) -> str | audit.Skipped:
    try:
        return item if isinstance(item, audit.Skipped) else render(item)
    except training.NotASpecimenError as error:
        return audit.Skipped(item.line, str(error))


def _all(items: list[audit.Item | audit.Skipped], name: str, folder: Path, render: Callable[[audit.Item], str]) -> int:
    """A file for each tender, named by its place; what cannot be drawn is named on stderr and counted."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise Failure(f"{folder}: Expected a folder to write to, read: {error.strerror}.") from None
    drawn = skipped = 0
    try:
        for number, item in enumerate(items, 1):
            made = (
                item if isinstance(item, audit.Skipped) else audit.guarded(item.line, partial(_admitted, item, render))
            )
            if isinstance(made, audit.Skipped):
                skipped += 1
                terminal.warn(f"{name}:{made.line}: not drawn. {shown(made.reason)}")
                continue
            with terminal.results(folder / f"{number:04d}.svg") as out:
                out.write(made)
            drawn += 1
    finally:
        terminal.warn(f"{drawn} drawn, {skipped} not drawn.")
    return FLAGGED if skipped else DONE
