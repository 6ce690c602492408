"""Options that several commands share, and how their values are read."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Annotated, Any, Literal

from cyclopts import Group, Parameter

from checkface import routing
from checkface.cells import shown
from checkface.cli.failure import DONE, FLAGGED, Failure
from checkface.cli.terminal import name_of, warn
from checkface.findings import Disposition, Effect
from checkface.mistakes import quoted
from checkface.policy import Policy, PolicyError, Routing, line_of
from checkface.stricttoml import TomlError, loads

Level = Literal["keep", "refer", "decline"]


def help_for(group: Group | None, text: str, metavar: str | None = None, **more: Any) -> Parameter:
    """What a help page says of one option, and in which group."""
    if group is not None:
        more["group"] = group
    return Parameter(help=text, metavar=metavar, **more)


PolicyFile = Annotated[
    Path | None, help_for(None, "House policy in TOML; without it, the one that is built in.", "FILE", name="--policy")
]
DirectoryFile = Annotated[
    Path | None,
    help_for(
        None,
        "Routing numbers in use, as CSV: number, name, state, status, successor. Retired ones are passed over.",
        "FILE",
        name="--directory",
    ),
]
Output = Annotated[Path | None, help_for(None, "Write the result to FILE.", "FILE", name="--output")]
FailOn = Annotated[
    Level | None,
    help_for(
        None,
        "End with exit code 1 if an answer is this or stricter: keep, refer or decline.",
        "ANSWER",
        name="--fail-on",
    ),
]
Reveal = Annotated[
    bool, help_for(None, "Show account and identification numbers in full.", name="--reveal", negative=())
]


def day(text: str | None, option: str = "--on") -> date | None:
    """The day written as *text*. Raises :class:`Failure`."""
    if text is None:
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise Failure(f"Expected a day such as 2026-11-24 after {option}, read {quoted(text)}.") from None


def policy(path: Path | None) -> Policy:
    """The policy in the file at *path*, or the built-in one. Raises :class:`Failure` naming every mistake."""
    if path is None:
        return Policy()
    try:
        return checked(policy_text(path))
    except PolicyError as error:
        raise Failure("\n".join(f"{name_of(path)}: {mistake}" for mistake in error.mistakes)) from None


def policy_text(path: Path) -> str:
    """The text of a policy file. Raises :class:`Failure`."""
    return _text(path, "a policy")


#: Most bytes of a policy or a directory; what is longer was meant for another option.
_LARGEST = 1 << 24


def _text(path: Path, what: str) -> str:
    try:
        with path.open("rb") as stream:
            content = stream.read(_LARGEST + 1)
        if len(content) > _LARGEST:
            raise Failure(f"{path}: Expected {what} of at most {_LARGEST:,} bytes, read more.")
        return content.decode("utf-8-sig")
    except OSError as error:
        raise Failure(f"{path}: Expected {what} to read, read: {error.strerror}.") from None
    except UnicodeDecodeError:
        raise Failure(f"{path}: Expected {what} in UTF-8, read other bytes.") from None


def with_directory(house: Policy, path: Path | None) -> tuple[Policy, int]:
    """*house* with the numbers in use of the directory at *path*, beside its own; and how many rows were skipped.

    Each skipped row is named on stderr. Raises :class:`Failure` where no number is in use: it would ask nothing.
    """
    if path is None:
        return house, 0
    found = routing.Directory.parse(_text(path, "a directory"))
    for row in found.bad_rows:
        warn(f"{name_of(path)}:{row.line}: skipped. {shown(row.message)}")
    in_use = {entry.number for entry in found.entries.values() if entry.status != "retired"}
    if not in_use:
        raise Failure(f"{name_of(path)}: Expected routing numbers in use, read none.")
    # Made anew, not copied: a copy would keep what the old one has already worked out, its digest and the like.
    known = Routing.model_construct(
        directory=tuple(sorted(in_use | house.routing.numbers)), layouts=house.routing.layouts
    )
    given = {name: getattr(house, name) for name in Policy.model_fields}
    return Policy(**given | {"routing": known}), len(found.bad_rows)


def checked(text: str) -> Policy:
    """The policy in *text*, its effects held against the rule book. Raises :class:`PolicyError` with all mistakes."""
    from checkface.rules import check_effects, check_policy

    mistakes: list[str] = []
    found = Policy()
    try:
        found = Policy.parse(text)
        effects = found.effects
    except PolicyError as error:
        mistakes = error.mistakes
        effects = _sound_effects(text)
    for mistake in check_effects(effects) if mistakes else check_policy(found):
        line = line_of(text, mistake.partition(": ")[0].split("."))
        mistakes.append(f"Line {line}, {mistake}" if line else mistake)
    if mistakes:
        raise PolicyError(mistakes)
    return found


def _sound_effects(text: str) -> dict[str, Effect]:
    """What a policy with other mistakes says of single rules, so that those mistakes are named in the same run."""
    try:
        given = loads(text).get("effects", {})
    except TomlError:
        return {}
    known = set(Effect)
    return {rule: Effect(effect) for rule, effect in given.items() if effect in known} if type(given) is dict else {}


def flagged(worst: Disposition | None, level: Level | None, skipped: int) -> int:
    """The exit code of a run whose strictest answer is *worst*."""
    reached = level is not None and worst is not None and worst >= Disposition(level)
    return FLAGGED if reached or skipped else DONE


def renames(given: list[str] | None, option: str) -> dict[str, str]:
    """What ``PATH=HEADING`` after *option* says: the heading of each column. Raises :class:`Failure`."""
    found = {}
    for text in given or ():
        path, equals, heading = text.partition("=")
        if not (path and equals and heading):
            raise Failure(f"Expected PATH=HEADING after {option}, read {quoted(text)}.")
        found[path] = heading
    return found
