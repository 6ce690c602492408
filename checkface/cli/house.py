"""``checkface policy init``: asks the few things a house must decide, and writes them down as a policy."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Annotated, Any, NamedTuple

from pydantic import ValidationError

from checkface import identity
from checkface.cli import options, terminal, toml
from checkface.cli.failure import DONE, Failure
from checkface.cli.options import help_for
from checkface.mistakes import sentence
from checkface.policy import UNNAMED, Policy, Unseen

#: The word for a list that is empty and a limit that is not set.
NONE = "none"
_CAREFUL = Policy()

_Yes = Annotated[bool, help_for(None, "Ask nothing: what is not given stays careful, as built in.", negative=())]


class _Question(NamedTuple):
    """One thing to decide: its option, what is asked at a terminal, and what its answers set in a policy."""

    option: str
    asks: str
    careful: str
    sets: Callable[[Sequence[str]], dict[str, Any]]


def _named(words: Sequence[str]) -> dict[str, Any]:
    house = {"name": words[0], "house": {"name": words[0]}} if words else {}
    return house | {"payee": {"names": list(words)}}


def _limit(name: str) -> Callable[[Sequence[str]], dict[str, Any]]:
    return lambda words: {"limits": {name: words[-1] if words else ""}}


def _identification(words: Sequence[str]) -> dict[str, Any]:
    kinds = [identity.kind_named(word) or word for word in words]
    return {"identity": {"required": bool(kinds)} | ({"accepted_kinds": kinds} if kinds else {})}


def _unseen(words: Sequence[str]) -> dict[str, Any]:
    follows: dict[str, str] = {}
    for word in words:
        name, equals, what = word.partition("=")
        follows |= {name.strip(): what.strip()} if equals else dict.fromkeys(Unseen.model_fields, word)
    return {"unseen": follows}


def _dollars(cents: int | None) -> str:
    return NONE if cents is None else f"{cents // 100}.{cents % 100:02d}"


_QUESTIONS = {
    "name": _Question("--name", "Names under which the house takes checks, the fullest first", NONE, _named),
    "state": _Question(
        "--state", "State where the counter stands, such as IL", NONE,
        lambda words: {"state": words[-1].upper() if words else ""},
    ),
    "limit": _Question(
        "--limit", "Largest check taken without a manager, in dollars", _dollars(_CAREFUL.limits.house),
        _limit("house"),
    ),
    "cash_back": _Question(
        "--cash-back", "Most paid out above the goods, in dollars", _dollars(_CAREFUL.limits.cash_back),
        _limit("cash_back"),
    ),
    "convert": _Question(
        "--convert", "Kinds of check that may become an electronic debit", "; ".join(_CAREFUL.kinds.convertible),
        lambda words: {"kinds": {"convertible": list(words)}},
    ),
    "identification": _Question(
        "--identification", "Kinds of identification accepted", "; ".join(_CAREFUL.identity.accepted_kinds),
        _identification,
    ),
    "unseen": _Question(
        "--unseen", "Where nobody looked: keep, refer, clerk (the clerk looks now), or one alone, such as payee=refer",
        "; ".join(f"{name}={follows}" for name, follows in _CAREFUL.unseen.model_dump().items()), _unseen,
    ),
}  # fmt: skip


def init(
    file: Annotated[Path | None, help_for(None, "A new file for the policy; without it, stdout.")] = None,
    /,
    *,
    name: Annotated[list[str] | None, help_for(None, "A name on checks for the house; once for each.", "NAME")] = None,
    state: Annotated[str | None, help_for(None, "Where the counter stands, in two letters.", "STATE")] = None,
    limit: Annotated[str | None, help_for(None, "Largest check without a manager, or none.", "DOLLARS")] = None,
    cash_back: Annotated[str | None, help_for(None, "Most paid out above the goods, or none.", "DOLLARS")] = None,
    convert: Annotated[
        list[str] | None, help_for(None, "A kind that may be converted; once for each, or none.", "KIND")
    ] = None,
    identification: Annotated[
        list[str] | None,
        help_for(None, "A kind of identification accepted; once for each, or none.", "KIND"),
    ] = None,
    unseen: Annotated[
        list[str] | None,
        help_for(None, "What follows where nobody looked, such as payee=refer: keep, refer or clerk.", "WHAT=FOLLOWS"),
    ] = None,
    yes: _Yes = False,
) -> int:
    """Ask what a house must decide, and write it down as a policy.

    What is given by an option is not asked. Several answers are separated by semicolons; an empty one takes what stands
    in brackets. Without a terminal, give every option or --yes.

      checkface policy init house.toml
      checkface policy init house.toml --yes --name "Example Foods" --state IL
    """
    given = {
        "name": name, "state": state and [state], "limit": limit and [limit], "cash_back": cash_back and [cash_back],
        "convert": convert, "identification": identification, "unseen": unseen,
    }  # fmt: skip
    answers = []
    for key, words in given.items():
        if words:
            answer = _set(_QUESTIONS[key], words)
            if isinstance(answer, str):
                raise Failure(f"{_QUESTIONS[key].option}: {answer}.")
            answers.append(answer)
    open_ = [_QUESTIONS[key] for key, words in given.items() if not words]
    if open_ and not yes and not sys.stdin.isatty():
        missing = ", ".join(question.option for question in open_)
        raise Failure(f"Expected {missing}, or --yes, where no terminal is there to ask at; read neither.")
    answers += [_careful(question) if yes else _asked(question) for question in open_]
    tree: dict[str, Any] = {}
    for answer in answers:
        for key, value in answer.items():
            tree[key] = tree[key] | value if isinstance(value, dict) and key in tree else value
    text = "\n".join(_page(Policy.model_validate(tree))) + "\n"
    house = options.checked(text)
    _write(file, text)
    if not house.names_house:
        terminal.warn(UNNAMED)
    return DONE


def _set(question: _Question, words: Sequence[str]) -> dict[str, Any] | str:
    """What *words* set, or the sentence that says why they cannot."""
    cleaned = [word.strip() for word in words if word.strip()]
    answer = question.sets([] if [word.lower() for word in cleaned] == [NONE] else cleaned)
    try:
        Policy.model_validate(answer)
    except ValidationError as error:
        return sentence(error.errors(include_url=False)[0])
    return answer


def _careful(question: _Question) -> dict[str, Any]:
    answer = _set(question, question.careful.split(";"))
    assert isinstance(answer, dict)
    return answer


def _asked(question: _Question) -> dict[str, Any]:
    """The answer given at the terminal; asked again until it is one. Raises :class:`Failure` where none comes."""
    while True:
        print(f"{question.asks} [{question.careful}]: ", end="", file=sys.stderr, flush=True)
        line = sys.stdin.readline()
        if not line:
            raise Failure(f"Expected an answer for {question.option}, read the end of stdin.")
        answer = _set(question, (line if line.strip() else question.careful).split(";"))
        if not isinstance(answer, str):
            return answer
        terminal.warn(f"{answer}.")


def _write(file: Path | None, text: str) -> None:
    if file is None:
        sys.stdout.write(text)
        return
    try:
        with file.open("x", encoding="utf-8", newline="\n") as stream:
            stream.write(text)
    except FileExistsError:
        raise Failure(f"{terminal.name_of(file)}: Expected the name of a new file, read one that is there.") from None
    except OSError as error:
        raise Failure(f"{terminal.name_of(file)}: Expected a file to write, read: {error.strerror}.") from None
    print(f"{terminal.name_of(file)}: written.")


def _page(house: Policy) -> Iterator[str]:
    """The policy in TOML, with a comment above each thing decided."""
    wire = house.model_dump(mode="json")

    def entry(section: str, name: str) -> Iterator[str]:
        value = wire[section][name] if section else wire[name]
        yield from toml.entry(name, "" if value is None else value)

    yield "# A house policy. What is not written here is as built in: checkface policy show FILE."
    yield from entry("", "name")
    yield "# Where the counter stands, in two letters: some laws differ by state."
    yield from entry("", "state")
    yield "\n[house]\n# Who the house is, as a receipt must say it."
    yield from entry("house", "name")
    yield "\n[payee]\n# Names under which the house takes checks. A payee that is only near one of them is asked about."
    yield from entry("payee", "names")
    yield '\n[limits]\n# Above this amount a manager decides. The house\'s own to set; "" sets no limit.'
    yield from entry("limits", "house")
    yield "# The most that is paid out above the goods without a manager."
    yield from entry("limits", "cash_back")
    yield "\n[kinds]\n# Kinds of check that may become an electronic debit. Every other kind is kept."
    yield from entry("kinds", "convertible")
    yield "\n[identity]\n# Whether identification is asked for, and which kinds are accepted."
    yield from entry("identity", "required")
    yield from entry("identity", "accepted_kinds")
    yield '\n[unseen]\n# What follows where nobody looked: "keep", "refer" to a manager, or "clerk", who looks now.'
    for name in Unseen.model_fields:
        yield from entry("unseen", name)
