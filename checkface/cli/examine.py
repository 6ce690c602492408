"""``checkface examine``: judge one check, or a few."""

from __future__ import annotations

import datetime
import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Annotated, Any, Literal, TextIO

from cyclopts import Group, Parameter

from checkface import audit, files, report
from checkface.assessment import Assessment, TenderError, assess, parse
from checkface.cli import ledgers, options, terminal
from checkface.cli.failure import Failure
from checkface.cli.options import DirectoryFile, FailOn, Output, PolicyFile, Reveal, help_for
from checkface.findings import Disposition

#: The kind that says that no document was shown.
NONE_SHOWN = "none"

_CHECK = Group("The check", sort_key=1)
_FACE = Group("Or what is read on it", sort_key=2)
_COUNTER = Group("What the counter knows", sort_key=3)
_SHOWN = Group("The document shown", sort_key=4)
_RESULT = Group("The result", sort_key=5)

_File = Annotated[Path | None, help_for(_CHECK, "JSON: one tender, an array of them, or one a line. - is stdin.")]
_Replay = Annotated[
    Path | None, help_for(_CHECK, "Judge the checks recorded here once more and list what has changed.", "FILE")
]
_Form = Annotated[
    Literal["text", "plain", "json"],
    help_for(_RESULT, "text, with carets; plain, in sentences; or json.", "FORM"),
]
_Verbose = Annotated[
    bool, help_for(_RESULT, "Name the rules that could not run, and list the steps at the counter.", negative=())
]
_Record = Annotated[
    Path | None, help_for(_RESULT, "Add each check, unmasked, with its answer to FILE, for --replay.", "FILE")
]
_On = Annotated[
    str | None, help_for(_COUNTER, "Day of tender if the check carries none: 2026-11-24. Else today.", "DAY")
]

_Ledger = Annotated[
    str | None,
    help_for(_COUNTER, "Ask this ledger what passed the counter before; nothing is written to it.", "LEDGER"),
]
_Key = Annotated[Path | None, help_for(_COUNTER, "File of the ledger's key; beside it if not given.", "FILE")]


def _face(text: str) -> Any:
    return help_for(_FACE, text, "TEXT")


def _shown(text: str, metavar: str = "TEXT") -> Any:
    return help_for(_SHOWN, text, metavar)


def examine(
    file: _File = None,
    /,
    *,
    replay: _Replay = None,
    micr: Annotated[str | None, _face("The magnetic-ink line, in any notation.")] = None,
    words: Annotated[str | None, _face("The amount in words.")] = None,
    figures: Annotated[str | None, _face("The amount in figures.")] = None,
    date: Annotated[str | None, _face("The date as written.")] = None,
    payee: Annotated[str | None, _face("Whom it is made out to.")] = None,
    serial: Annotated[str | None, _face("The check number printed at the upper right.")] = None,
    fraction: Annotated[str | None, _face("The fraction printed near it, such as 70-9897/710.")] = None,
    drawer: Annotated[list[str] | None, _face("The writer's name and address, once for each line.")] = None,
    drawee: Annotated[list[str] | None, _face("The bank as printed, once for each line.")] = None,
    legend: Annotated[list[str] | None, _face("Other wording, such as VOID AFTER 90 DAYS, once for each.")] = None,
    memo: Annotated[list[str] | None, _face("What the writer put on the memo line, once for each line.")] = None,
    signature: Annotated[bool | None, help_for(_FACE, "Signed, or seen to be unsigned.")] = None,
    kind: Annotated[str | None, help_for(_COUNTER, "What the clerk takes it for, such as personal.", "KIND")] = None,
    amount: Annotated[str | None, help_for(_COUNTER, "The amount keyed, such as 45.10.", "DOLLARS")] = None,
    purchase: Annotated[str | None, help_for(_COUNTER, "What the goods cost.", "DOLLARS")] = None,
    micr_by: Annotated[
        Literal["reader", "corrected", "keyed"] | None,
        help_for(_COUNTER, "How the line was captured: reader, corrected or keyed.", "HOW"),
    ] = None,
    network: Annotated[Literal["up", "down"] | None, help_for(_COUNTER, "The network: up or down.", "STATE")] = None,
    authorized: Annotated[
        bool | None, help_for(_COUNTER, "The customer signed for the electronic debit, or would not.")
    ] = None,
    confirmed: Annotated[
        list[str] | None,
        help_for(_COUNTER, "A rule whose question the clerk answered with yes, once for each.", "RULE"),
    ] = None,
    document: Annotated[
        str | None, _shown("Its kind, such as drivers-license. none: asked for, and none was shown.", "KIND")
    ] = None,
    document_number: Annotated[str | None, _shown("The number on it.")] = None,
    document_state: Annotated[str | None, _shown("The state it comes from: 17, or IL.")] = None,
    document_expires: Annotated[str | None, _shown("When it expires, such as 2029-05-01.", "DAY")] = None,
    document_name: Annotated[str | None, _shown("The name on it.")] = None,
    document_barcode: Annotated[str | None, _shown("Its barcode, as a scanner gives it.")] = None,
    bearer: Annotated[bool | None, help_for(_SHOWN, "The photo is the customer, or is not.")] = None,
    on: _On = None,
    ledger: _Ledger = None,
    key: _Key = None,
    policy: Annotated[PolicyFile, Parameter(group=_RESULT)] = None,
    directory: Annotated[DirectoryFile, Parameter(group=_RESULT)] = None,
    format: _Form = "text",
    verbose: _Verbose = False,
    reveal: Annotated[Reveal, Parameter(group=_RESULT)] = False,
    fail_on: Annotated[FailOn, Parameter(group=_RESULT)] = None,
    output: Annotated[Output, Parameter(group=_RESULT)] = None,
    record: _Record = None,
) -> int:
    """Judge a check: convert, keep, refer or decline, with the reasons.

    Give it as a JSON tender in FILE or on stdin, or give what is read on it by options. An option left out means that
    nobody looked, "" that there was nothing, "(illegible)" that it could not be made out.

      checkface examine tender.json
      checkface examine --micr "T071098973T 45601122O 1043" --figures 45.10 --no-signature
    """
    house, unlisted = options.with_directory(options.policy(policy), directory)
    today = options.day(on) or datetime.date.today()
    face = {
        "micr": micr, "words": words, "figures": figures, "date": date, "payee": payee, "serial": serial,
        "fraction": fraction, "drawer": _lines(drawer), "drawee": _lines(drawee), "legends": _lines(legend),
        "memo": _lines(memo), "signature": signature,
    }  # fmt: skip
    counter = {
        "declared_kind": kind, "amount": amount, "purchase": purchase, "micr_by": micr_by, "network": network,
        "authorization_signed": authorized, "confirmed": confirmed,
    }  # fmt: skip
    shown = {
        "kind": document, "number": document_number, "state": document_state, "expires": document_expires,
        "name": document_name, "barcode": document_barcode, "is_bearer": bearer,
    }  # fmt: skip
    by_options = any(value is not None for part in (face, counter, shown) for value in part.values())
    if sum((file is not None, replay is not None, by_options)) > 1:
        raise Failure("Expected a file, options that say what is read on a check, or --replay; read several of these.")
    if replay is not None:
        from checkface.cli.replay import replayed

        level = None if fail_on is None else Disposition(fail_on)
        code = replayed(replay, house, format, output, policy, directory, fail_on=level)
        return code or options.flagged(None, None, unlisted)
    many, items = (False, [_of_options(face, counter, shown, today)]) if by_options else _of_file(file, today)
    if not items:
        raise Failure(f"{terminal.name_of(file)}: Expected at least one tender, read an empty array.")
    worst, skipped = Disposition.CONVERT, 0
    if record is not None:
        terminal.keep(record, file, policy, directory, output)
    with (
        ledgers.asked(ledger, key) as history,
        terminal.results(output, file, policy, directory, *ledgers.files_of(history, key)) as out,
    ):
        render = _renderer(out, format, verbose, reveal, many)

        def judge(item: audit.Item | audit.Skipped) -> tuple[Disposition, str, str] | audit.Skipped:
            if isinstance(item, audit.Skipped):
                return item
            found = assess(item.tender, house, history)
            kept = "" if record is None else audit.record(item.tender, found)
            return found.disposition, render(found), kept

        for number, item in enumerate(items):
            work = partial(judge, item)
            judged = audit.guarded(item.line, work) if many else work()
            if isinstance(judged, audit.Skipped):
                skipped += 1
                terminal.warn(f"{terminal.name_of(file)}, {judged.line}: skipped. {judged.reason}")
                continue
            disposition, text, kept = judged
            worst = max(worst, disposition)
            print("\n" * (number > 0 and format != "json") + text, file=out)
            if record is not None:
                _record(record, kept)
    return options.flagged(worst, fail_on, skipped + unlisted)


def _of_options(face: dict[str, Any], counter: dict[str, Any], shown: dict[str, Any], day: datetime.date) -> audit.Item:
    tender: dict[str, Any] = {
        "face": {name: None if value == audit.ILLEGIBLE else value for name, value in _given(face).items()},
        "counter": _given(counter),
    }
    if document := _given(shown):
        none = document == {"kind": NONE_SHOWN}
        if not none and document.get("kind") == NONE_SHOWN:
            raise Failure(f"Expected nothing more of a document after --document {NONE_SHOWN}, read some.")
        tender["documents"] = [] if none else [document]
    try:
        return audit.Item(1, audit.with_day(parse(tender), day))
    except TenderError as error:
        raise Failure("\n".join(error.problems)) from None


def _given(values: dict[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in values.items() if value is not None}


def _of_file(file: Path | None, day: datetime.date) -> tuple[bool, list[audit.Item | audit.Skipped]]:
    if file is None and sys.stdin.isatty():
        raise Failure("Expected a file, or options that say what is read on the check. See checkface examine --help.")
    lines = file is not None and file.suffix in {".jsonl", ".ndjson"}
    try:
        with terminal.source(file) as stream:
            return audit.few(stream, on=day, lines=lines)
    except audit.InputError as error:
        raise Failure(f"{terminal.name_of(file)}: {error}") from None


def _lines(given: list[str] | None) -> str | None:
    return None if given is None else "\n".join(given)


def _renderer(out: TextIO, form: str, verbose: bool, reveal: bool, many: bool) -> Callable[[Assessment], str]:
    if form == "json":
        return lambda assessment: assessment.model_dump_json(indent=None if many else 2, reveal=reveal)
    if form == "plain":
        return lambda assessment: report.plain(assessment, reveal=reveal, verbose=verbose)
    paint, columns = terminal.painter(out), terminal.columns(out)
    return lambda assessment: report.caret(assessment, reveal=reveal, verbose=verbose, columns=columns, paint=paint)


def _record(path: Path, line: str) -> None:
    try:
        terminal.closed(path, files.make_private(path))
        with files.add_to(path) as stream:
            print(line, file=stream)
    except OSError as error:
        raise Failure(f"{path}: Expected a file to add to, read: {error.strerror}.") from None
