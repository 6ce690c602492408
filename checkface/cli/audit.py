"""``checkface audit``: judge a day's file, a line a finding, and count."""

from __future__ import annotations

import sys
from collections.abc import Iterator
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
    no it means that nobody looked. A broken row is skipped, named and counted.

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
    day = options.day(on)
    renames = options.renames(columns, "--columns")
    tally = library.Tally()
    paint = terminal.painter(sys.stdout)
    inputs = (*files, policy, directory, beyond.drawer if beyond else None)
    with (
        _writer(output, inputs, reveal) as write,
        across.session(beyond, house, write, quiet=quiet) as together,
    ):
        for file in files:
            name = terminal.name_of(file)
            try:
                with terminal.source(file) as stream, _progress(file, stream) as counted:
                    items = library.tenders(
                        counted, library.named(file.name), renames=renames, ignored=ignore or (), on=day, sheet=sheet,
                        tell=partial(_tell, name),
                    )  # fmt: skip
                    for result in library.run(items, house):
                        tally.add(result)
                        write(name, result)
                        if isinstance(result, library.Skipped):
                            what = "flaw" if result.flaw else "skipped"
                            terminal.warn(f"{name}:{library.place(result)}: {what}. {shown(result.reason)}")
                        elif not quiet:
                            for line in _findings(name, result, paint):
                                print(line)
                        together.add(name, result)
            except library.InputError as error:
                raise Failure(f"{name}: {error}") from None
        together.finish()
    sys.stdout.flush()
    terminal.warn(tally.text(verbose=verbose))
    if said := together.text(verbose=verbose):
        terminal.warn(f"\n{said}")
    return options.flagged(
        together.worst(tally.worst), fail_on, tally.skipped + tally.flaws + together.skipped + unlisted
    )


def _findings(name: str, result: library.Assessed, paint: Paint) -> Iterator[str]:
    place = f"{shown(name)}:{library.place(result)}"
    identifier = shown(result.assessment.id) or "-"
    for finding in result.assessment.findings:
        effect = paint(f"{finding.effect:7}", finding.effect)
        yield f"{place}  {identifier}  {effect}  {finding.rule}  {shown(finding.message)}"


def _tell(name: str, sentence: str) -> None:
    terminal.warn(f"{name}: {shown(sentence)}")


@contextmanager
def _writer(output: Path | None, inputs: tuple[Path | None, ...], reveal: bool) -> Iterator[across.Write]:
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
