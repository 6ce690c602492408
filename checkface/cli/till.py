"""``checkface till``: one lane's till from opening to close, why a drawer does not add up, and what was altered."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal, TextIO

from cyclopts import App

from checkface import audit, identity
from checkface.assessment import assess
from checkface.cells import shown
from checkface.cli import ledgers, options, terminal
from checkface.cli.failure import DONE, FLAGGED, Failure
from checkface.cli.groups import GIVEN, OPTIONS
from checkface.cli.ledgers import By, Key, Where
from checkface.cli.options import Output, PolicyFile, help_for
from checkface.mistakes import quoted
from checkface.tender import Tender

if TYPE_CHECKING:
    from checkface.ledger import Ledger
    from checkface.ledger.entries import Standing
    from checkface.ledger.matching import Line
    from checkface.ledger.report import Report, Till

till = App(
    name="till",
    usage="Usage: checkface till COMMAND [OPTIONS]",
    help="Keep the till of a lane: open it, take checks, count the drawer, close it and see why it does not add up.",
    help_epilogue="",
    group_arguments=GIVEN,
    group_parameters=OPTIONS,
)

_Lane = Annotated[str, help_for(None, "Which lane.", "LANE", name="--lane")]
_Store = Annotated[str, help_for(None, "Which store.", "STORE", name="--store")]
_Done = Literal["converted", "kept", "returned"]
_Reason = Annotated[str | None, help_for(None, "Why the lane did other than told.", "TEXT", name="--reason")]
_Second = Annotated[str | None, help_for(None, "Initials of the second person.", "WHO", name="--second")]
_Form = Annotated[
    Literal["text", "csv", "html"], help_for(None, "text, csv, or html: a page to print.", "FORM", name="--format")
]
_FailOn = Annotated[
    bool, help_for(None, "End with exit code 1 if the drawer does not agree.", name="--fail-on-difference", negative=())
]


def open(*, lane: _Lane, by: By, store: _Store = "", ledger: Where = None, key: Key = None) -> int:
    """Open the till of a lane."""
    with ledgers.opened(ledger, key) as book:
        from checkface.ledger import till as tills

        opened = tills.open(book, store=store, lane=lane, by=by, at=ledgers.now())
    print(f"{_name(opened)} is open.")
    return DONE


def take(
    file: Annotated[Path, help_for(None, "The check as a JSON tender. - is stdin.")],
    /,
    *,
    lane: _Lane,
    by: By,
    store: _Store = "",
    done: Annotated[
        _Done | None,
        help_for(
            None, "What was done: converted, kept or returned. Else taken_as of the tender, else as told.", "WHAT"
        ),
    ] = None,
    id: Annotated[
        str | None, help_for(None, "A name of your own for this entry: given again, it is the same entry.", "ID")
    ] = None,
    reason: _Reason = None,
    second: _Second = None,
    documents: Annotated[
        bool | None,
        help_for(None, "Remember the document shown, as a token. Else as the law of the policy's state allows."),
    ] = None,
    policy: PolicyFile = None,
    ledger: Where = None,
    key: Key = None,
) -> int:
    """Judge a check against the history, and record what was really done with it.

    Doing other than told needs --reason and --second. A check that was taken before is not taken again, whatever is
    asked this time: what stands is told, with what to do with the paper, and the exit code is 1. After a lost answer,
    say the same again: nothing is recorded twice. With the --id of the first time the exit code is that of the first.

      checkface till take tender.json --lane 3 --by 114
    """
    house = options.policy(policy)
    remembered = identity.may_keep(house.state).number if documents is None else documents
    with ledgers.opened(ledger, key) as book:
        from checkface.ledger import Override
        from checkface.ledger import till as tills
        from checkface.ledger.wording import NOT_KNOWN_AGAIN, amount

        override = None if reason is None and second is None else Override(reason or "", second or "")
        # What a register calls its entry may hold any number: it is kept as a digest.
        id = None if id is None else book.tokens.seal("id", id).hex()[:32]
        which = _open(book, store, lane)
        found, at = assess(_tender(file), house, book), ledgers.now()
        before = tills.standing(book, found, at=at, id=id)
        # A second look at a check that stands asks for nothing more; only its return may be recorded at another till.
        if before is not None and (done != "returned" or before.till == which.id or before.id == id):
            return _stands(before, which, at, id)
        what = done or found.read.tender.taken_as or tills.TOLD[found.disposition]
        if what is None:
            raise Failure("Expected --done: a check referred to a manager is converted, kept or returned as decided.")
        result = tills.take(book, which.id, found, what, by=by, at=at, override=override, documents=remembered, id=id)
    if result.before is not None:
        return _stands(result.before, which, at, id)
    cents = found.read.amount_cents
    print(
        f"Recorded as {what}: {amount(1, cents) if cents is not None else '1 check'}. {shown(found.decision.for_house)}"
    )
    if not result.known_again and what != "returned":
        terminal.warn(f"{NOT_KNOWN_AGAIN}. If it comes twice, nothing here will tell.")
    return DONE


def _stands(before: Standing, which: Till, at: datetime, id: str | None) -> int:
    """Tell what stands of a check that was recorded before: as an answer where it is the same entry."""
    from checkface.ledger.wording import stands

    said = stands(before, till=which.id, at=at)
    if before.id == id:
        print(shown(said))
        return DONE
    terminal.warn(said)
    return FLAGGED


def correct(
    serial: Annotated[str, help_for(None, "Serial of the check as the sheet shows it.")],
    /,
    *,
    done: Annotated[_Done, help_for(None, "What was really done: converted, kept or returned.", "WHAT")],
    reason: Annotated[str, help_for(None, "What happened.", "TEXT")],
    second: Annotated[str, help_for(None, "Initials of the second person.", "WHO")],
    lane: _Lane,
    by: By,
    store: _Store = "",
    ledger: Where = None,
    key: Key = None,
) -> int:
    """Put right what was recorded of a check of the open till; the first record stays on the sheet."""
    with ledgers.opened(ledger, key) as book:
        from checkface.ledger import till as tills
        from checkface.ledger.keys import plain_serial

        report = tills.report(book, _open(book, store, lane).id)
        fitting = [item for item in report.items if item.serial == plain_serial(serial) and item.taken_as != done]
        if len(fitting) != 1:
            raise Failure(f"Expected one check of that serial that is not {done} yet, found {len(fitting)}.")
        tills.correct(book, fitting[0].id, done, reason=reason, by=by, second=second, at=ledgers.now())
    print(f"Was {fitting[0].taken_as}, is {done}.")
    return DONE


def count(
    file: Annotated[
        Path | None, help_for(None, "The counted checks as CSV with the headings serial and amount. - is stdin.")
    ] = None,
    /,
    *,
    checks: Annotated[int | None, help_for(None, "Without a list: how many checks.", "NUMBER")] = None,
    total: Annotated[str | None, help_for(None, "Without a list: their total.", "DOLLARS")] = None,
    lane: _Lane,
    store: _Store = "",
    ledger: Where = None,
    key: Key = None,
) -> int:
    """Write down what was counted in the drawer: a list, or only the number and the total. The last count holds."""
    if (file is None) == (checks is None and total is None):
        raise Failure("Expected a list of the counted checks, or --checks and --total; read neither or both.")
    with ledgers.opened(ledger, key) as book:
        from checkface.ledger import till as tills
        from checkface.ledger.wording import amount

        cents = ledgers.dollars(total, "--total")
        if file is not None:
            counted: tills.Total | list[Line] = _counted(file)
        elif checks is not None and cents is not None:
            counted = tills.Total(checks, cents)
        else:
            raise Failure("Expected --checks and --total together, read one of them.")
        written = tills.count(book, _open(book, store, lane).id, counted, at=ledgers.now())
    print(f"Counted: {amount(*written)}.")
    return DONE


def close(
    *,
    lane: _Lane,
    by: By,
    store: _Store = "",
    format: _Form = "text",
    output: Output = None,
    fail_on_difference: _FailOn = False,
    ledger: Where = None,
    key: Key = None,
) -> int:
    """Close a counted till and print its sheet, with what explains a difference.

    A till that was altered since it was recorded is told as such, with the entry from which on: exit code 1.
    """
    # The till is closed once its sheet has a place to go to.
    with ledgers.opened(ledger, key) as book, terminal.results(output, *ledgers.files_of(book, key)) as out:
        from checkface.ledger import till as tills

        closed = tills.close(book, _open(book, store, lane).id, by=by, at=ledgers.now())
        return _sheet(closed, format, out, fail_on_difference)


def report(
    *,
    lane: _Lane,
    store: _Store = "",
    format: _Form = "text",
    output: Output = None,
    fail_on_difference: _FailOn = False,
    ledger: Where = None,
    key: Key = None,
) -> int:
    """Print the sheet of a lane's open till, or of the one closed last.

    A till that was altered since it was recorded is told as such, with the entry from which on: exit code 1.

    For example, on paper:

      checkface till report --lane 3 --format html --output sheet.html
    """
    with ledgers.opened(ledger, key) as book, terminal.results(output, *ledgers.files_of(book, key)) as out:
        from checkface.ledger import till as tills

        last = tills.last(book, store=store, lane=lane)
        if last is None:
            raise Failure(f"Expected a lane that has had a till, read {quoted(lane)}.")
        found = tills.report(book, last.id)
        return _sheet(found, format, out, fail_on_difference)


def check(*, ledger: Where = None, key: Key = None) -> int:
    """Hold every entry of every till against its seal, and say which till was altered, from which entry on.

    Each entry carries a digest, under the ledger's key, of what it says and of the entry before it. The last seal of a
    till is printed on its sheet: compared with that paper, a ledger that was put back to an earlier copy shows, too.
    Exit code 1 if anything was altered.
    """
    with ledgers.opened(ledger, key) as book:
        from checkface.ledger import agreement
        from checkface.ledger.wording import checked

        found = book.database.read(lambda held: agreement.of_ledger(held, book.tokens), snapshot=True)
    print("\n".join(map(shown, checked(found))) or "Nothing is recorded.")
    return DONE if found.all_agrees else FLAGGED


till.command(open, usage="Usage: checkface till open --lane LANE --by WHO [OPTIONS]", sort_key=1)
till.command(take, usage="Usage: checkface till take --lane LANE --by WHO [OPTIONS] FILE", sort_key=2)
till.command(count, usage="Usage: checkface till count --lane LANE [OPTIONS] [FILE]", sort_key=3)
till.command(close, usage="Usage: checkface till close --lane LANE --by WHO [OPTIONS]", sort_key=4)
till.command(report, usage="Usage: checkface till report --lane LANE [OPTIONS]", sort_key=5)
till.command(correct, usage="Usage: checkface till correct --lane LANE --by WHO [OPTIONS] SERIAL", sort_key=6)
till.command(check, usage="Usage: checkface till check [OPTIONS]", sort_key=7)


def _name(which: Till) -> str:
    return shown(f"The till of lane {which.lane}{f' in store {which.store}' if which.store else ''}")


def _open(book: Ledger, store: str, lane: str) -> Till:
    from checkface.ledger import till as tills

    found = tills.find(book, store=store, lane=lane)
    if found is None:
        raise Failure(f"Expected a lane with an open till, read {quoted(lane)}. Open it with: checkface till open")
    return found


def _tender(file: Path) -> Tender:
    try:
        with terminal.source(file) as stream:
            _, items = audit.few(stream, on=ledgers.day(None))
    except audit.InputError as error:
        raise Failure(f"{terminal.name_of(file)}: {error}") from None
    if len(items) != 1 or isinstance(items[0], audit.Skipped):
        raise Failure(f"{terminal.name_of(file)}: Expected one check, read {len(items)} or one that is no tender.")
    return items[0].tender


def _counted(file: Path) -> list[Line]:
    from checkface.ledger.columns import BadLine
    from checkface.ledger.matching import read_lines

    with ledgers.lines(file) as lines:
        read = list(read_lines(lines))
    if bad := [line for line in read if isinstance(line, BadLine)]:
        raise Failure("\n".join(f"{terminal.name_of(file)}, line {line.line}: {line.message}" for line in bad))
    return [line for line in read if not isinstance(line, BadLine)]


def _sheet(found: Report, form: str, out: TextIO, fail_on_difference: bool) -> int:
    from checkface.ledger import sheet

    render = {"text": sheet.text, "csv": sheet.table, "html": sheet.html}[form]
    out.write(render(found))
    off = found.explanation is not None and found.explanation.sets != ((),)
    return FLAGGED if found.agreement.breaks or (off and fail_on_difference) else DONE
