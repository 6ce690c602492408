"""What ``checkface audit`` asks beyond each check: the lane, the drawer, declared sums, and the checks together."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated

from cyclopts import Group, Parameter

from checkface import audit as library
from checkface.audit import across
from checkface.cells import shown
from checkface.cli import options, terminal
from checkface.cli.failure import Failure
from checkface.cli.options import help_for
from checkface.findings import Disposition
from checkface.policy import Policy
from checkface.report import Paint

_ACROSS = Group("The checks together", sort_key=2)
_LIMITS = across.Thresholds()


@Parameter(name="*")
@dataclass(frozen=True, slots=True)
class Options:
    """The options of an audit across checks."""

    across: Annotated[
        bool,
        help_for(_ACROSS, "Hold the checks against one another, too. Needs the extra audit.", name="--across",
                 negative=()),
    ] = False  # fmt: skip
    drawer: Annotated[
        Path | None,
        help_for(_ACROSS, "The paper found in the drawer, listed like the checks: face.micr, or serial and amount.",
                 "FILE", name="--drawer"),
    ] = None  # fmt: skip
    drawer_columns: Annotated[
        list[str] | None,
        help_for(_ACROSS, "Read the column HEADING of the drawer's list as PATH; once for each.", "PATH=HEADING",
                 name="--drawer-columns"),
    ] = None  # fmt: skip
    drawer_ignore: Annotated[
        list[str] | None,
        help_for(_ACROSS, "Pass over the column HEADING of the drawer's list; once for each.", "HEADING",
                 name="--drawer-ignore"),
    ] = None  # fmt: skip
    drawer_sheet: Annotated[
        str | None,
        help_for(_ACROSS, "Read the sheet NAME of the drawer's workbook.", "NAME", name="--drawer-sheet"),
    ] = None  # fmt: skip
    total: Annotated[
        list[str] | None,
        help_for(_ACROSS, "A declared total, such as kept=1234.50, or kept@7/3=88.10 for lane 3 of store 7; once for "
                 "each. Also converted and returned.", "WAY=DOLLARS", name="--total"),
    ] = None  # fmt: skip
    count: Annotated[
        list[str] | None,
        help_for(_ACROSS, "A declared number of checks, in the same way.", "WAY=NUMBER", name="--count"),
    ] = None  # fmt: skip
    accounts: Annotated[
        int | None,
        help_for(_ACROSS, f"Name a check number or an amount from this many accounts of one bank on, else from "
                 f"{_LIMITS.accounts}.", "NUMBER", name="--accounts"),
    ] = None  # fmt: skip
    sequence: Annotated[
        int | None,
        help_for(_ACROSS, f"Name check numbers without a gap, of one account on one day, from this many on, else from "
                 f"{_LIMITS.sequence}.", "NUMBER", name="--sequence"),
    ] = None  # fmt: skip
    witnesses: Annotated[
        int | None,
        help_for(_ACROSS, f"Know how a bank lays out its line from this many accounts on, else from "
                 f"{_LIMITS.witnesses}.", "NUMBER", name="--witnesses"),
    ] = None  # fmt: skip


class Session:
    """One audit across checks at the command line: lines to stdout, rows to the output, a count at the end."""

    def __init__(self, held: across.Across, write: library.Write, *, quiet: bool, skipped: int) -> None:
        self._held, self._write, self._quiet, self.skipped = held, write, quiet, skipped
        self._paint = terminal.painter(sys.stdout)

    @property
    def needs_every_file(self) -> bool:
        """Whether what is missing from the files would be told as missing from the drawer, or as a false sum."""
        return self._held.needs_every_file

    def add(self, name: str, result: library.Result) -> None:
        """Take in one more result of the file called *name*."""
        self._tell(self._held.add(name, result))

    def finish(self) -> None:
        """Say what the checks show together."""
        self._tell(self._held.finish())

    def text(self, *, verbose: bool) -> str:
        """The count, where anything was asked; else only if *verbose*."""
        said = self._held.counts.text() if self._held.is_asked or verbose else ""
        rows = f"{self.skipped:,} row{'s' * (self.skipped != 1)} of the drawer skipped." if self.skipped else ""
        return "\n".join(filter(None, (said, rows)))

    def worst(self, other: Disposition | None) -> Disposition:
        """The stricter of *other* and what was found here."""
        return max(self._held.worst, other or Disposition.CONVERT)

    def _tell(self, findings: Iterable[across.AuditFinding]) -> None:
        for finding in findings:
            self._write(finding.places[0].file if finding.places else "", finding)
            if not self._quiet:
                print(_line(finding, self._paint))


@contextmanager
def session(given: Options | None, house: Policy, write: library.Write, *, quiet: bool) -> Iterator[Session]:
    """A session for what the command line asks. Raises :class:`Failure` for a mistake in it, or a missing extra."""
    asked = given or Options()
    limits = _limits(asked)
    totals = _totals(asked)
    with ExitStack() as stack:
        index = stack.enter_context(_index()) if asked.across else None
        drawer = _drawer(asked, house)
        held = across.Across(index=index, thresholds=limits, drawer=drawer, totals=totals)
        yield Session(held, write, quiet=quiet, skipped=drawer.skipped if drawer else 0)


def _index() -> across.Index:
    try:
        return across.Index()
    except ImportError:
        raise Failure("Expected the audit extra for --across: pip install 'checkface[audit]'.") from None


def _limits(asked: Options) -> across.Thresholds:
    given = {name: value for name in across.Thresholds._fields if (value := getattr(asked, name)) is not None}
    for name, value in given.items():
        if not asked.across:
            raise Failure(f"Expected --across with --{name}, read --{name} alone.")
        if value < 2:
            raise Failure(f"Expected at least 2 after --{name}, read {value}.")
    return _LIMITS._replace(**given)


def _totals(asked: Options) -> list[across.Declared]:
    try:
        totals = [across.declared(text) for text in asked.total or ()]
        return across.together([*totals, *(across.declared(text, is_count=True) for text in asked.count or ())])
    except ValueError as error:
        raise Failure(f"{error}. See checkface audit --help.") from None


def _drawer(asked: Options, house: Policy) -> across.Drawer | None:
    """The drawer, if one is listed; each row of the list that is skipped is named on stderr."""
    path = asked.drawer
    if path is None:
        for name in ("columns", "ignore", "sheet"):
            if getattr(asked, f"drawer_{name}") is not None:
                raise Failure(f"Expected --drawer with --drawer-{name}, read --drawer-{name} alone.")
        return None
    renames = options.renames(asked.drawer_columns, "--drawer-columns")
    name = terminal.name_of(path)
    drawer = across.Drawer(house.routing.layouts)
    try:
        with terminal.source(path) as stream:
            told = library.named(path.name)
            for item in library.tenders(
                stream, told, renames=renames, ignored=asked.drawer_ignore or (), sheet=asked.drawer_sheet,
                tell=lambda text: _warn(name, text), may_be_empty=True,
            ):  # fmt: skip
                if isinstance(item, library.Skipped):
                    drawer.skipped += 1
                    _warn(f"{name}:{library.place(item)}", f"skipped. {item.reason}")
                else:
                    drawer.add_paper(name, item)
    except library.InputError as error:
        raise Failure(f"{name}: {error}") from None
    return drawer


def _warn(name: str, sentence: str) -> None:
    terminal.warn(f"{name}: {shown(sentence)}")


def _line(finding: across.AuditFinding, paint: Paint) -> str:
    place = next((f"{shown(first.file)}:{library.place(first)}" for first in finding.places), "-")
    effect = paint(f"{finding.effect:7}", finding.effect)
    return f"{place}  {shown(finding.id) or '-'}  {effect}  {finding.rule}  {shown(finding.message)}"
