"""``checkface audit``: judge a day's file, a line a finding, and count."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import Annotated, BinaryIO

from cyclopts import Group, Parameter

from checkface import audit as library
from checkface.cells import shown
from checkface.cli import across, options, terminal
from checkface.cli.failure import Failure
from checkface.cli.options import DirectoryFile, FailOn, PolicyFile, Reveal, help_for
from checkface.cli.stdin import STDIN
from checkface.mistakes import quoted
from checkface.policy import UNNAMED, Policy
from checkface.report import Paint

_INPUT = Group("The checks", sort_key=1)
_RESULT = Group("The result", sort_key=3)

_File = Annotated[
    Path,
    help_for(
        _INPUT,
        "CSV with a heading, JSON Lines, a cash letter; with the extra audit, Parquet or a workbook. - is stdin.",
        name="FILE",
    ),
]
_Columns = Annotated[
    list[str] | None,
    help_for(_INPUT, "Read the column called HEADING as PATH, such as face.micr=Line; once for each.", "PATH=HEADING"),
]
_Ignore = Annotated[list[str] | None, help_for(_INPUT, "Pass over the column HEADING; once for each.", "HEADING")]
_On = Annotated[str | None, help_for(_INPUT, "Day of tender of checks that carry none, such as 2026-11-24.", "DAY")]
_Sheet = Annotated[str | None, help_for(_INPUT, "Read the sheet NAME of a workbook that has several.", "NAME")]
_Output = Annotated[
    Path | None, help_for(_RESULT, "Write the answer for each check to FILE: .csv, .jsonl, .parquet or .xlsx.", "FILE")
]
_Verbose = Annotated[bool, help_for(_RESULT, "Count the rules that could not run, too.", negative=())]
_Quiet = Annotated[bool, help_for(_RESULT, "No line for each finding, only the count.", negative=())]


def audit(
    *files: _File,
    columns: _Columns = None,
    ignore: _Ignore = None,
    on: _On = None,
    sheet: _Sheet = None,
    beyond: across.Options | None = None,
    policy: Annotated[PolicyFile, Parameter(group=_RESULT)] = None,
    directory: Annotated[DirectoryFile, Parameter(group=_RESULT)] = None,
    output: _Output = None,
    reveal: Annotated[Reveal, Parameter(group=_RESULT)] = False,
    quiet: _Quiet = False,
    verbose: _Verbose = False,
    fail_on: Annotated[FailOn, Parameter(group=_RESULT)] = None,
) -> int:
    """Judge every check of a file: a line for each finding, then a count by answer and by rule.

    Columns are named as the parts of a tender (face.micr, counter.on), or by the last part where that is clear (micr).
    A missing column means that nobody looked, an empty cell of the face that there was nothing, "(illegible)" that it
    could not be made out; " | " separates the lines of a drawer. A null of Parquet is an empty cell, but among yes and
    no it means that nobody looked. A broken row is skipped, named and counted; of several files, so is a broken one.

    Where a file says what the lane did with a check (taken_as: converted, kept or returned), that is held against the
    answer. The drawer, declared totals and the checks of all files together are looked into on request.

      checkface audit saturday.csv --output answers.csv
      checkface audit june-*.csv --across --drawer drawer.csv --total kept=1234.50
    """
    if not files:
        raise Failure("Expected a file to audit, read none. See checkface audit --help.")
    if [*map(str, files), str(beyond.drawer) if beyond else ""].count(STDIN) > 1:
        raise Failure("Expected - for stdin once, read it twice.")
    house, unlisted = options.with_directory(options.policy(policy), directory)
    read = partial(
        library.tenders, renames=options.renames(columns, "--columns"), ignored=ignore or (), on=options.day(on),
        sheet=sheet,
    )  # fmt: skip
    tally = library.Tally()
    inputs = (*files, policy, directory, beyond.drawer if beyond else None)
    with (
        _writer(output, inputs, reveal) as write,
        across.session(beyond, house, write, quiet=quiet) as together,
    ):
        told = _Told(tally, write, together, quiet=quiet)
        try:
            for file in files:
                name = terminal.name_of(file)
                for result in _results(file, name, read, house):
                    # Where nothing else could be read, or its checks would seem missing elsewhere, it ends the run.
                    all_needed = tally.files == len(files) - 1 or together.needs_every_file
                    if all_needed and isinstance(result, library.Skipped) and result.is_file:
                        raise Failure(f"{name}: {result.reason}")
                    told.add(name, result)
        except KeyboardInterrupt:
            sys.stdout.flush()
            terminal.warn(f"Interrupted in {name}. Until then:\n{tally.text(verbose=verbose)}")
            raise
        together.finish()
    sys.stdout.flush()
    terminal.warn(tally.text(verbose=verbose))
    if not house.names_house:
        terminal.warn(f"\n{UNNAMED}")
    if said := together.text(verbose=verbose):
        terminal.warn(f"\n{said}")
    return options.flagged(
        together.worst(tally.worst), fail_on, tally.skipped + tally.files + tally.flaws + together.skipped + unlisted
    )


def _results(
    file: Path, name: str, read: Callable[..., Iterator[library.Item | library.Skipped]], house: Policy
) -> Iterator[library.Result]:
    """Every result of *file*; last, if it cannot be read to its end, why."""
    try:
        with terminal.source(file) as stream, _progress(file, stream) as counted:
            yield from library.run(read(counted, library.named(file.name), tell=partial(_tell, name)), house)
    except library.InputError as error:
        yield library.Skipped(0, str(error))
    except Failure as error:
        yield library.Skipped(0, str(error).removeprefix(f"{name}: "))
    except OSError as error:
        yield library.Skipped(0, f"Expected a file to read, read: {error.strerror or error}.")


class _Told:
    """What becomes of one result after the other: lines on the terminal, a row of the output, the counts."""

    def __init__(self, tally: library.Tally, write: library.Write, together: across.Session, *, quiet: bool) -> None:
        self._tally, self._write, self._together, self._quiet = tally, write, together, quiet
        self._paint = terminal.painter(sys.stdout)

    def add(self, name: str, result: library.Result) -> None:
        """Tell *result* of the file called *name*; an unforeseen fault in telling it, in its place or behind it."""
        lines: list[str] | library.Skipped = []
        if isinstance(result, library.Assessed) and not self._quiet:
            lines = library.guarded(result.line, partial(_findings, name, result, self._paint), result.sheet)
        if isinstance(lines, library.Skipped):
            result, lines = lines, []
        if fault := self._write(name, result):
            result, lines = fault, []
        self._tally.add(result)
        for line in lines:
            print(line)
        if isinstance(result, library.Skipped):
            terminal.warn(f"{_place(name, result)}: {'flaw' if result.flaw else 'skipped'}. {shown(result.reason)}")
            self._together.add(name, result)
        elif fault := library.guarded(result.line, partial(self._together.add, name, result), result.sheet):
            self.add(name, fault)


def _findings(name: str, result: library.Assessed, paint: Paint) -> list[str]:
    place = _place(name, result)
    identifier = shown(result.assessment.id) or "-"
    return [
        f"{place}  {identifier}  {paint(f'{each.effect:7}', each.effect)}  {each.rule}  {shown(each.message)}"
        for each in result.assessment.findings
    ]


def _place(name: str, result: library.Result) -> str:
    is_file = isinstance(result, library.Skipped) and result.is_file
    return shown(name) if is_file else f"{shown(name)}:{library.place(result)}"


def _tell(name: str, sentence: str) -> None:
    terminal.warn(f"{name}: {shown(sentence)}")


@contextmanager
def _writer(output: Path | None, inputs: tuple[Path | None, ...], reveal: bool) -> Iterator[library.Write]:
    if output is None:
        yield lambda _name, _result: None
        return
    form = output.suffix.lower().lstrip(".")
    if form not in {"csv", "jsonl", "parquet", "xlsx"}:
        raise Failure(
            f"Expected a file named .csv, .jsonl, .parquet or .xlsx after --output, read {quoted(output.name)}."
        )
    if form in {"parquet", "xlsx"}:
        try:
            library.require()
        except library.InputError as error:
            raise Failure(str(error)) from None
        with terminal.results(output, *inputs) as stream, library.table_writer(stream.buffer, form) as write:
            yield write
        return
    with terminal.results(output, *inputs) as stream:
        yield library.writer(stream, form, reveal=reveal)


@contextmanager
def _progress(file: Path, stream: BinaryIO) -> Iterator[BinaryIO]:
    """*stream*, with a bar on the terminal that stderr is while stdout goes elsewhere; findings need no bar."""
    if not sys.stderr.isatty() or sys.stdout.isatty() or not file.is_file():
        yield stream
        return
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(stderr=True), transient=True, redirect_stdout=False) as bar:
        yield bar.wrap_file(stream, total=file.stat().st_size, description=shown(file.name))
