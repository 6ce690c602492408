"""``checkface policy``: write a house policy, is it sound, what is in force, and what would another one answer."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Annotated, Any, Literal, NamedTuple

from cyclopts import App

from checkface import audit
from checkface.cli import options, terminal, toml
from checkface.cli.failure import DONE, FLAGGED, Failure
from checkface.cli.groups import GIVEN, OPTIONS
from checkface.cli.house import init
from checkface.cli.options import Output, help_for
from checkface.cli.replay import as_json, as_text
from checkface.policy import UNNAMED, Policy, line_of
from checkface.stricttoml import loads

policy = App(
    name="policy",
    usage="Usage: checkface policy COMMAND",
    help="Write a house policy, check it, show what is in force, or compare two on real checks.",
    help_epilogue="",
    group_arguments=GIVEN,
    group_parameters=OPTIONS,
)

#: What stands for the policy that is built in, in place of a file.
BUILT_IN = "default"
#: Where a value comes from that no line of the file sets.
DEFAULT = "default"
_Form = Annotated[Literal["text", "json"], help_for(None, "text or json.", "FORM", name="--format")]


def check(file: Annotated[Path, help_for(None, "A policy in TOML.")], /) -> int:
    """Name every mistake of a policy with its line, and say whether it names the house."""
    found = options.policy(file)
    print(f"{terminal.name_of(file)}: no mistake found.")
    if not found.names_house:
        print(f"{terminal.name_of(file)}: {UNNAMED}")
    return DONE


def show(
    file: Annotated[Path | None, help_for(None, "A policy in TOML; without it, the one that is built in.")] = None,
    /,
    *,
    format: _Form = "text",
    output: Output = None,
) -> int:
    """Show every value in force and where it comes from: a line of the file, or the default.

    What is shown is a policy in TOML again.
    """
    text = "" if file is None else options.policy_text(file)
    found = options.policy(file)
    values = list(_values(found.model_dump(mode="json"), loads(text), text))
    with terminal.results(output, file) as out:
        if format == "json":
            wire = [{"key": ".".join(each.path), "value": each.value, "from": each.origin} for each in values]
            page = {"digest": found.digest, "names_house": found.names_house, "values": wire}
            print(json.dumps(page, ensure_ascii=False, indent=2), file=out)
        else:
            print("\n".join(_toml(values, found)), file=out)
    return DONE


def compare(
    before: Annotated[Path, help_for(None, "A policy in TOML, or the word default.", name="A")],
    after: Annotated[Path, help_for(None, "Another one, or the word default.", name="B")],
    tenders: Annotated[Path, help_for(None, "Checks as CSV or JSON Lines, as for audit.")],
    /,
    *,
    on: Annotated[str | None, help_for(None, "Day of tender of checks that carry none.", "DAY")] = None,
    format: _Form = "text",
    output: Output = None,
) -> int:
    """Show which checks of a file another policy answers differently, and why.

    For example:

      checkface policy compare default house.toml saturday.csv
    """
    old, new = (Policy() if str(path) == BUILT_IN else options.policy(path) for path in (before, after))
    count = moved = skipped = 0
    day = options.day(on)
    try:
        with terminal.source(tenders) as stream, terminal.results(output, before, after, tenders) as out:
            for change in audit.compare(audit.tenders(stream, on=day), old, new):
                if isinstance(change, audit.Skipped):
                    skipped += 1
                    terminal.warn(f"{terminal.name_of(tenders)}:{change.line}: skipped. {change.reason}")
                    continue
                count += 1
                if change.moved:
                    moved += 1
                    print(as_json(change) if format == "json" else as_text(change), file=out)
    except audit.InputError as error:
        raise Failure(f"{terminal.name_of(tenders)}: {error}") from None
    terminal.warn(f"{count} judged under both, {moved} answered differently.")
    return FLAGGED if skipped else DONE


policy.command(init, usage="Usage: checkface policy init [OPTIONS] [FILE]", sort_key=1)
policy.command(check, usage="Usage: checkface policy check FILE", sort_key=2)
policy.command(show, usage="Usage: checkface policy show [OPTIONS] [FILE]", sort_key=3)
policy.command(compare, usage="Usage: checkface policy compare [OPTIONS] A B TENDERS", sort_key=4)


class _Value(NamedTuple):
    path: tuple[str, ...]
    value: Any
    origin: str


def _values(tree: dict[str, Any], given: Any, text: str, above: tuple[str, ...] = ()) -> Iterator[_Value]:
    """Every value of the policy in the order of its sections: those without a section first."""
    for key, value in sorted(tree.items(), key=lambda item: isinstance(item[1], dict)):
        path = (*above, key)
        there = given.get(key) if isinstance(given, dict) else None
        if isinstance(value, dict):
            yield from _values(value, there, text, path)
        else:
            line = line_of(text, list(path)) if there is not None else None
            yield _Value(path, value, f"line {line}" if line else DEFAULT)


def _toml(values: list[_Value], house: Policy) -> Iterator[str]:
    yield f"# digest {house.digest}"
    if not house.names_house:
        yield f"# {UNNAMED}"
    section: tuple[str, ...] = ()
    for each in values:
        if each.path[:-1] != section:
            section = each.path[:-1]
            yield f"\n[{'.'.join(map(toml.key, section))}]"
        name = each.path[-1]
        if each.value is None and each.origin == DEFAULT:
            yield f"# {toml.key(name)} is not set  # {each.origin}"
        else:  # a limit that the house has unset is an empty text
            yield from toml.entry(name, "" if each.value is None else each.value, each.origin)
