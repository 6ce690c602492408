"""One sentence for each mistake in a command line."""

from __future__ import annotations

from difflib import get_close_matches
from typing import Any, Literal, get_args, get_origin

from cyclopts import CycloptsError, MissingArgumentError, RepeatArgumentError, UnknownCommandError, UnknownOptionError

from checkface import masking
from checkface.cells import shown


def sentence(error: CycloptsError) -> str:
    """What was expected and what was read, with the nearest known word and the command that helps."""
    command = " ".join(["checkface", *(error.command_chain or ())])
    return f"{_expected(error)} See {command} --help."


def _expected(error: CycloptsError) -> str:
    match error:
        case UnknownOptionError():
            name = (error.token.keyword or error.token.value).partition("=")[0]
            known = [name for argument in error.argument_collection for name in argument.names]
            hint = _nearest(name, known) or "; a text that starts with a hyphen stands after --"
            return f"Expected an option of this command, read {_typed(name)}{hint}."
        case UnknownCommandError():
            name = (error.unused_tokens or [""])[0]
            known = [known for known in error.app or () if not known.startswith("-")]
            return f"Expected a command, read {_typed(name)!r}{_nearest(name, known)}."
        case MissingArgumentError() if error.argument is not None:
            name = error.argument.name
            return f"Expected {f'a value after {name}' if name.startswith('-') else name.upper()}, read nothing."
        case RepeatArgumentError():
            return f"Expected {error.token.keyword} once, read it again."
    if error.unused_tokens:
        return f"Expected no more words, read {len(error.unused_tokens)} more."
    error.verbose = False
    # A value that was refused may be anything, an account number included: only its option is named.
    if error.argument is not None:
        choices = ", ".join(map(str, _choices(error.argument.hint)))
        wanted = f"one of {choices}" if choices else "another value"
        return f"Expected {wanted} after {error.argument.name}, read something else."
    return f"Expected another command line: {shown(str(error))}"


def _choices(hint: Any) -> tuple[Any, ...]:
    """The words that a type such as ``Literal["up", "down"] | None`` allows; none where anything of a kind goes."""
    if get_origin(hint) is Literal:
        return get_args(hint)
    return next((found for part in get_args(hint) if (found := _choices(part))), ())


def _typed(word: str) -> str:
    """A word of the command line as a message may repeat it: it may be a reading that went astray."""
    return shown(masking.prose(word)[:40])


def _nearest(name: str, known: list[str]) -> str:
    near = get_close_matches(name, known, 1)
    return f"; the nearest is {near[0]}" if near else ""
