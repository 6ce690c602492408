"""Where output goes and how it looks there: colours on a terminal only, files opened with a sentence for failure."""

from __future__ import annotations

import os
import re
import shutil
import sys
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import BinaryIO, TextIO

from checkface import files
from checkface.cells import shown
from checkface.cli.failure import Failure
from checkface.cli.stdin import STDIN
from checkface.digits import hide
from checkface.mistakes import quoted
from checkface.report import Paint, no_paint

#: Symbols of the magnetic-ink line.
_SYMBOLS = re.compile("[\u2446-\u2449]")
#: The style of each role; words carry the meaning, colours only repeat it.
STYLES = {
    "convert": "bold green", "keep": "bold yellow", "refer": "bold magenta", "decline": "bold red", "note": "bold cyan",
    "primary": "bold", "secondary": "cyan", "quiet": "dim", "rule": "bold",
}  # fmt: skip
PAGE, NARROW, WIDE = 100, 40, 120


def painter(stream: TextIO) -> Paint:
    """Colours for *stream* if it is a terminal that has them and NO_COLOR is not set (see no-color.org)."""
    if not stream.isatty() or os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb":
        return no_paint
    from rich.color import ColorSystem
    from rich.style import Style

    styles = {role: Style.parse(style) for role, style in STYLES.items()}
    return lambda text, role: styles[role].render(text, color_system=ColorSystem.STANDARD) if role in styles else text


def columns(stream: TextIO) -> int:
    """The width of a page on *stream*: the terminal's within reason, else a fixed one."""
    return min(max(shutil.get_terminal_size().columns, NARROW), WIDE) if stream.isatty() else PAGE


@contextmanager
def results(path: Path | None, *inputs: Path | None) -> Iterator[TextIO]:
    """The stream that results go to: the file at *path*, there once it is whole, never one of *inputs*; or stdout."""
    if path is None:
        yield sys.stdout
        return
    keep(path, *inputs)
    was = files.loose(path.stat()) if path.exists() else None
    with ExitStack() as stack:
        try:
            stream = stack.enter_context(files.write_whole(path))
        except OSError as error:
            raise Failure(f"{name_of(path)}: Expected a file to write, read: {error.strerror}.") from None
        try:
            yield stream
        except KeyboardInterrupt:
            if not files.is_stream(path):
                stands = "the earlier file is as it was" if path.exists() else "no file is there"
                warn(f"{name_of(path)}: not written; {stands}.")
            raise
    closed(path, was)


@contextmanager
def source(path: Path | None) -> Iterator[BinaryIO]:
    """The bytes of the file at *path*, or of stdin for ``-`` and for none."""
    if path is None or str(path) == STDIN:
        yield sys.stdin.buffer
        return
    try:
        stream = path.open("rb")
    except OSError as error:
        raise Failure(f"{name_of(path)}: Expected a file to read, read: {error.strerror}.") from None
    with stream:
        try:
            yield stream
        except IsADirectoryError:
            raise Failure(f"{name_of(path)}: Expected a file, read a folder.") from None


def keep(path: Path, *inputs: Path | None) -> None:
    """Refuse to write to *path* if it is one of the *inputs*, there already or still to be made."""
    if not files.is_stream(path) and any(each is not None and _same(each, path) for each in inputs):
        raise Failure(f"{name_of(path)}: Expected another file to write than the one that is read.")


def _same(one: Path, other: Path) -> bool:
    return one.samefile(other) if one.exists() and other.exists() else one.resolve() == other.resolve()


def closed(path: Path, was: int | None) -> None:
    """Say that *path*, of which others could make use by its earlier mode, is now for its owner only."""
    if was is not None:
        warn(f"{name_of(path)}: others could use it (mode {was:03o}); now only its owner can.")


def name_of(path: Path | None) -> str:
    """What an input is called in a message."""
    if path is None or str(path) == STDIN:
        return "stdin"
    # A line of a check that was given where a file's name belongs is told as what it is, its numbers hidden.
    said = str(path)
    return quoted(said) if _SYMBOLS.search(said) else shown(hide(said, "file"))


def warn(message: str) -> None:
    """*message* on stderr, with nothing in it that a terminal would act upon."""
    print("\n".join(map(shown, message.split("\n"))), file=sys.stderr)
