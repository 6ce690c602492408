"""What the commands on a ledger share: which ledger, under which key, and one sentence when it cannot be used."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from cyclopts import Group

from checkface.cli import options, terminal
from checkface.cli.failure import Failure
from checkface.cli.options import help_for
from checkface.cli.stdin import as_typed

if TYPE_CHECKING:
    from checkface.ledger import Ledger

WHICH = Group("The ledger", sort_key=3)
Where = Annotated[
    str | None,
    help_for(
        WHICH,
        "The ledger: a file, made if it is new, or postgresql://HOST/DATABASE. Else $CHECKFACE_LEDGER.",
        "LEDGER",
        name="--ledger",
        env_var="CHECKFACE_LEDGER",
        show_env_var=False,
    ),
]
Key = Annotated[
    Path | None,
    help_for(
        WHICH,
        "File of its key, made with a new ledger; beside the ledger if not given. Else $CHECKFACE_LEDGER_KEY.",
        "FILE",
        name="--key",
        env_var="CHECKFACE_LEDGER_KEY",
        show_env_var=False,
    ),
]
By = Annotated[str, help_for(None, "Initials or number of whoever does it.", "WHO", name="--by")]
On = Annotated[str | None, help_for(None, "Another day than today, such as 2026-11-24.", "DAY", name="--on")]


@contextmanager
def opened(where: str | None, key: Path | None) -> Iterator[Ledger]:
    """The ledger at *where*, closed afterwards. Raises :class:`Failure` for whatever goes wrong with it."""
    if not where:
        raise Failure("Expected --ledger or CHECKFACE_LEDGER to say which ledger, read neither.")
    try:
        from checkface.ledger import Ledger, LedgerError
    except ImportError:
        raise Failure("Expected the ledger extra to be installed: pip install 'checkface[ledger]'.") from None
    try:
        with Ledger.open(where, key) as ledger:
            if ledger.database.file:
                terminal.closed(ledger.database.file, ledger.database.was_open)
            yield ledger
    except LedgerError as error:
        raise Failure(str(error)) from None


@contextmanager
def asked(where: str | None, key: Path | None) -> Iterator[Ledger | None]:
    """The ledger to ask, if one is named: one that is there already, for a new one remembers nothing."""
    if where is None:
        yield None
        return
    if "://" not in where and not Path(where).is_file():
        raise Failure(f"{where}: Expected a ledger, read no such file.")
    with opened(where, key) as ledger:
        yield ledger


def files_of(book: Ledger | None, key: Path | None) -> tuple[Path | None, ...]:
    """The files of a ledger, none of which a result may replace."""
    file = book.database.file if book else None
    beside = [Path(f"{file}{ending}") for ending in ("", "-wal", "-shm", ".key")] if file else []
    return (key, *beside)


def day(given: str | None) -> datetime.date:
    """The day after ``--on``, else today."""
    return options.day(given) or datetime.date.today()


def now() -> datetime.datetime:
    """This moment on the counter's clock."""
    return datetime.datetime.now().replace(microsecond=0)


def dollars(given: str | None, option: str) -> int | None:
    """The cents of an amount on the command line. Raises :class:`Failure`."""
    from checkface.ledger.columns import cents

    if given is None:
        return None
    found = cents(as_typed(given) or "")
    if found is None:
        raise Failure(f"Expected dollars such as 45.10 after {option}, read something else.")
    return found


@contextmanager
def lines(file: Path) -> Iterator[Iterator[str]]:
    """The lines of a text file, or of stdin. Raises :class:`Failure` for one that is not UTF-8."""
    with terminal.source(file) as stream:
        yield (_line(raw, number, file) for number, raw in enumerate(stream, 1))


def _line(raw: bytes, number: int, file: Path) -> str:
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError:
        raise Failure(f"{terminal.name_of(file)}, line {number}: Expected UTF-8, read other bytes.") from None
