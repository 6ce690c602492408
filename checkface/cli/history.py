"""``checkface history``: what the ledger knows, and the house list of accounts with unpaid checks."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, BinaryIO, Literal

from cyclopts import App

from checkface.amounts import money
from checkface.cells import dumps, shown
from checkface.cli import ledgers, options, terminal
from checkface.cli.failure import DONE, FLAGGED, Failure
from checkface.cli.groups import GIVEN, OPTIONS
from checkface.cli.ledgers import By, Key, On, Where
from checkface.cli.options import Output, help_for
from checkface.cli.stdin import STDIN

if TYPE_CHECKING:
    from checkface.ledger.columns import BadLine
    from checkface.ledger.entries import Item
    from checkface.ledger.unpaid import Imported, Listed, Return

history = App(
    name="history",
    usage="Usage: checkface history COMMAND [OPTIONS]",
    help="Keep the house list of unpaid accounts, and show, move or purge what the ledger remembers.",
    help_epilogue="",
    group_arguments=GIVEN,
    group_parameters=OPTIONS,
)

_Routing = Annotated[str, help_for(None, "Routing number of the bank.", "DIGITS", name="--routing")]
_Account = Annotated[str, help_for(None, "Account number; only a token of it is stored.", "DIGITS", name="--account")]


def add_unpaid(
    *,
    routing: _Routing,
    account: _Account,
    serial: Annotated[str, help_for(None, "Serial of the unpaid check.", "DIGITS")] = "",
    amount: Annotated[str | None, help_for(None, "Its amount.", "DOLLARS")] = None,
    reason: Annotated[str, help_for(None, "Why it came back.", "TEXT")] = "",
    on: On = None,
    ledger: Where = None,
    key: Key = None,
) -> int:
    """Put an account on the house list."""
    with ledgers.opened(ledger, key) as book:
        from checkface.ledger import unpaid

        bank = _routing(routing)
        cents = ledgers.dollars(amount, "--amount")
        unpaid.add(book, unpaid.Return(bank, account, ledgers.day(on), serial, cents, reason))
    print("Listed.")
    return DONE


def clear(*, routing: _Routing, account: _Account, by: By, on: On = None, ledger: Where = None, key: Key = None) -> int:
    """Take an account off the house list, all of its entries."""
    with ledgers.opened(ledger, key) as book:
        from checkface.ledger import unpaid

        cleared = unpaid.clear(book, _routing(routing), account, on=ledgers.day(on), by=by)
    print(f"{cleared} cleared.")
    return DONE


def import_returns(
    file: Annotated[
        Path,
        help_for(
            None,
            "CSV: routing, account; where known serial, amount, returned_on, reason. - is stdin. "
            "Or an image cash letter of returns.",
        ),
    ],
    /,
    *,
    on: Annotated[str | None, help_for(None, "Day of lines without returned_on. Else today.", "DAY")] = None,
    ledger: Where = None,
    key: Key = None,
) -> int:
    """Put the accounts of a file of returned checks on the house list.

    A line that cannot be read is named and left out: exit code 1. A file imported twice changes nothing. Of a cash
    letter only returns are listed whose reason speaks of the account, whose account is beyond doubt, and whose
    business date is known.
    """
    day = ledgers.day(on)
    with ledgers.opened(ledger, key) as book:
        from checkface.ledger import unpaid

        if _is_letter(file):
            with terminal.source(file) as stream:
                imported = unpaid.list_returns(book, _of_letter(stream))
        else:
            with ledgers.lines(file) as lines:
                imported = unpaid.import_returns(book, lines, on=day)
    return _imported(imported, file)


def show(
    *,
    routing: Annotated[str | None, help_for(None, "With --account: the checks of one account.", "DIGITS")] = None,
    account: Annotated[str | None, help_for(None, "With --routing.", "DIGITS")] = None,
    cleared: Annotated[bool, help_for(None, "List entries that were cleared, too.", negative=())] = False,
    format: Annotated[Literal["text", "json"], help_for(None, "text to read, json for programs.", "FORM")] = "text",
    output: Output = None,
    ledger: Where = None,
    key: Key = None,
) -> int:
    """Show the house list, or every check of one account; no number but the last four."""
    if (routing is None) != (account is None):
        raise Failure("Expected --routing and --account together, read one of them.")
    with ledgers.opened(ledger, key) as book:
        from checkface.ledger import unpaid

        files = ledgers.files_of(book, key)
        if routing is not None and account is not None:
            items = book.items(_routing(routing), account)
            rows, said = [_item(item) for item in items], [_say_item(item) for item in items]
        else:
            listed = unpaid.show(book, cleared=cleared)
            rows, said = [entry._asdict() for entry in listed], [_say_listed(entry) for entry in listed]
    with terminal.results(output, *files) as out:
        if format == "json":
            print(dumps(rows, indent=2, default=str), file=out)
        else:
            print("\n".join(map(shown, said)) or "Nothing is recorded.", file=out)
    return DONE


def purge(
    *,
    before: Annotated[str | None, help_for(None, "Forget what is older than this day.", "DAY")] = None,
    older_than: Annotated[int | None, help_for(None, "Forget what is older than so many days.", "DAYS")] = None,
    ledger: Where = None,
    key: Key = None,
) -> int:
    """Forget what is old: closed tills, documents shown, cleared entries. Open tills and listed accounts stay.

    A till that was altered is evidence and stays, too: exit code 1. What is forgotten leaves a signed gap.
    """
    if (before is None) == (older_than is None):
        raise Failure("Expected --before or --older-than, read neither or both.")
    first = options.day(before, "--before") or ledgers.day(None) - datetime.timedelta(days=max(0, older_than or 0))
    with ledgers.opened(ledger, key) as book:
        from checkface.ledger.purge import purge as forget

        gone = forget(book, first)
    rest = f"{gone.documents} documents, {gone.unpaid} cleared entries"
    print(f"Forgotten: {gone.items} checks, {gone.tills} tills, {rest}.")
    if gone.altered:
        terminal.warn(f"{gone.altered} kept, for they were altered since they were recorded. See: checkface till check")
    return FLAGGED if gone.altered else DONE


def export(*, output: Output = None, ledger: Where = None, key: Key = None) -> int:
    """Write the whole ledger as JSON Lines: tokens and last fours, of use only under the same key."""
    with ledgers.opened(ledger, key) as book:
        from checkface.ledger import transfer

        with terminal.results(output, *ledgers.files_of(book, key)) as out:
            rows = transfer.export(book, out)
    terminal.warn(f"{rows} rows.")
    return DONE


def import_(
    file: Annotated[Path, help_for(None, "What export wrote. - is stdin.")],
    /,
    *,
    ledger: Where = None,
    key: Key = None,
) -> int:
    """Add the rows of an export made under the same key; what is there already stays as it is.

    Then every entry is held against its seal, and what was altered is told: exit code 1.
    """
    with ledgers.opened(ledger, key) as book, ledgers.lines(file) as lines:
        from checkface.ledger import transfer

        imported = transfer.import_(book, lines)
    return _imported(imported, file)


_LISTING = "--routing DIGITS --account DIGITS"
history.command(add_unpaid, usage=f"Usage: checkface history add-unpaid {_LISTING} [OPTIONS]", sort_key=1)
history.command(clear, usage=f"Usage: checkface history clear {_LISTING} --by WHO [OPTIONS]", sort_key=2)
history.command(import_returns, usage="Usage: checkface history import-returns [OPTIONS] FILE", sort_key=3)
history.command(show, usage="Usage: checkface history show [OPTIONS]", sort_key=4)
history.command(purge, usage="Usage: checkface history purge --before DAY | --older-than DAYS [OPTIONS]", sort_key=5)
history.command(export, usage="Usage: checkface history export [OPTIONS]", sort_key=6)
history.command(import_, name="import", usage="Usage: checkface history import [OPTIONS] FILE", sort_key=7)


def _routing(text: str) -> str:
    from checkface import routing
    from checkface.span import Fault

    found = routing.read(text)
    if isinstance(found, Fault):
        raise Failure(f"--routing: {found.message}")
    return found.number


def _is_letter(file: Path) -> bool:
    """Whether *file* is an image cash letter; stdin, which can be read once, is taken for CSV."""
    from checkface.cashletter import is_letter

    if str(file) == STDIN:
        return False
    with terminal.source(file) as stream:
        return is_letter(stream.read(8))


def _of_letter(stream: BinaryIO) -> Iterator[Return | BadLine]:
    from checkface.audit.letters import Returned, returns
    from checkface.ledger.columns import BadLine
    from checkface.ledger.unpaid import Return

    for entry in returns(stream):
        if isinstance(entry, Returned):
            cents = entry.amount_cents
            yield Return(entry.routing, entry.account, entry.on, entry.serial, cents, entry.reason)
        else:
            yield BadLine(entry.line, entry.reason)


def _imported(imported: Imported, file: Path) -> int:
    for bad in imported.bad:
        terminal.warn(f"{terminal.name_of(file)}:{bad.line}: skipped. {bad.message}")
    print(f"{imported.added} added, {imported.known} known already, {len(imported.bad)} skipped.")
    if imported.checked is None or imported.checked.all_agrees:
        return FLAGGED if imported.bad else DONE
    from checkface.ledger.wording import altered

    for said in altered(imported.checked):
        terminal.warn(said)
    return FLAGGED


def _item(item: Item) -> dict[str, object]:
    return {**item._asdict(), "override": item.override._asdict() if item.override else None}


def _say_listed(entry: Listed) -> str:
    said = f"{entry.listed_on}  account ending {entry.account_last4}  {_cents(entry.amount_cents):>12}"
    serial = f"  check {entry.serial}" if entry.serial else ""
    cleared = f"  cleared {entry.cleared_on} by {entry.cleared_by}" if entry.cleared_on else ""
    return f"{said}{serial}{f'  {entry.reason}' if entry.reason else ''}{cleared}"


def _say_item(item: Item) -> str:
    told = f"{item.taken_as:9}  told to {item.disposition:7}  by {item.employee}"
    return f"{item.day}  check {item.serial or '-':>10}  {_cents(item.amount_cents):>12}  {told}"


def _cents(cents: int | None) -> str:
    return "" if cents is None else money(cents)
