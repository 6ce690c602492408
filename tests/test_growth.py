"""Time grows with the length of a text, not with its square, whoever wrote the text.

Eight times the text takes about eight times the time; by the square it would be 64 times. CPU time of this process is
compared with itself, never with a clock.
"""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
import time
from collections.abc import Callable, Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import checkface
from checkface import strictjson
from checkface.amounts import figures
from checkface.cli import options
from checkface.instruments.drawee import LONGEST as DRAWEE
from checkface.instruments.payees import LONGEST as PAYEES
from checkface.patterns import _Lazy
from checkface.policy import PolicyError

#: Between 8, which is linear, and 64; and what a measurement may be off by.
MOST, OFF = 24, 0.02


def grows_too_fast(work: Callable[[str], object], make: Callable[[int], str], size: int) -> bool:
    """Whether *work* on what *make* gives for eight times *size* takes more than linear time, each time it is tried."""
    work(make(1))
    for _ in range(3):
        least = min(_seconds(work, make(size)) for _ in range(3))
        if _seconds(work, make(8 * size)) <= MOST * least + OFF:
            return False
    return True


def _seconds(work: Callable[[str], object], text: str) -> float:
    began = time.process_time()
    work(text)
    return time.process_time() - began


def test_the_measure_tells_the_square() -> None:
    assert grows_too_fast(re.compile("a*b").search, lambda size: "a" * size, 4000)
    assert not grows_too_fast(re.compile("ab").search, lambda size: "a" * size, 4000)


def _refused(text: str) -> None:
    with pytest.raises((PolicyError, strictjson.JsonError)):
        (strictjson.loads if text.startswith("{") else options.checked)(text)


LONG: dict[str, Callable[[int], str]] = {
    "keys": lambda size: "".join(f"k{n} = {n}\n" for n in range(size)),
    "tables": lambda size: "".join(f"[k{n}]\n" for n in range(size)),
    "strings": lambda size: 'a = "' + "\\n" * size + '"',
    "open strings": lambda size: '\\"' * size,
    "quotes": lambda size: '"' * (size + 3),
    "a bracket and blanks": lambda size: "[" + " " * size + "x",
    "lists": lambda size: "a = [" + "1," * size + "]",
    "open texts": lambda size: "a = ['" + "','" * size,
    "a key": lambda size: "a" * size,
    "a key and blanks": lambda size: "a" * size + " " * size,
    "a JSON key twice": lambda size: "{" + "".join(f'"k{n}": 1, ' for n in range(size)) + f'"k{size - 1}": 1}}',
}


@pytest.mark.parametrize("name", LONG)
def test_files_of_settings_and_json(name: str) -> None:
    assert not grows_too_fast(_refused, LONG[name], 2000)


FIELDS = ("micr", "fraction", "serial", "date", "payee", "figures", "words", "drawer", "drawee", "legends", "memo",
          "endorsements")  # fmt: skip


def _assessed(text: str) -> None:
    face = dict.fromkeys(FIELDS, text)
    document = {"kind": "drivers-license", "number": text, "name": text}
    checkface.assess({"id": text, "face": face, "documents": [document]}).model_dump_json()


@settings(max_examples=12, deadline=None)
@given(
    st.sampled_from(["a", "1", " ", "\n", "void ", "1/", "a1-", "one ", "T1", "\u2446", "not over 1 ", "$1,", "A<<"])
    | st.text(min_size=1, max_size=6).filter(str.strip)
)
def test_a_whole_check(unit: str) -> None:
    assert not grows_too_fast(_assessed, lambda size: unit * (size // len(unit) + 1), 1500)


def patterns() -> Iterator[tuple[re.Pattern[str], str]]:
    """Every pattern of text that a module keeps by a name, and how it is asked: anywhere in a text, at a place, whole.

    Asked anywhere, it starts anew at each character, so that is the hardest; it holds for a pattern of which nothing is
    known, such as one of a list.
    """
    for module in pkgutil.walk_packages(checkface.__path__, "checkface."):
        if module.name.endswith("__main__"):
            continue
        room = importlib.import_module(module.name)
        source = inspect.getsource(room)
        for name, value in vars(room).items():
            if isinstance(value, re.Pattern | _Lazy):
                compiled = re.compile(value._source, value._flags) if isinstance(value, _Lazy) else value
                if isinstance(compiled.pattern, str):
                    asked = set(re.findall(rf"\b{name}\.(\w+)\(", source))
                    yield compiled, next((how for how in ("match", "fullmatch") if asked == {how}), "search")


#: Patterns that take more, each by how it begins, with the most characters that what asks them lets through.
CUT = {
    r"\s?(\d+)\s?/\s?(\d+)$": figures.LIMIT,
    r"[^\W\d_]{2,}(?:bank": DRAWEE,
    r"\s+(?:c\s*/\s*o": PAYEES,
    r"[\s,]+(?P<either>": PAYEES,
}
PATTERNS = [*dict.fromkeys(patterns())]
#: What each pattern is tried on, over and over: what it may look for, and what may stand between.
_UNITS = ["a", "1", " ", "\n", "-", "/", ".", ",", "$", "0", "A", "O", "a ", "1 ", "1,", "a.", "1/", "A1", "1 a"]
#: Seconds on a text of 1,000 characters that are not worth a second look: the square of that is bearable, too.
_NOTHING = 0.0005


def test_there_are_patterns() -> None:
    assert len(PATTERNS) > 200


@pytest.mark.parametrize(("pattern", "how"), PATTERNS, ids=range(len(PATTERNS)))
def test_every_pattern(pattern: re.Pattern[str], how: str) -> None:
    ask = getattr(pattern, how)
    longest = next((most for start, most in CUT.items() if pattern.pattern.startswith(start)), None)
    words = re.findall("[A-Za-z]{3,}", pattern.pattern)[:5]
    for unit in (*_UNITS, *words, *(f"{word} " for word in words)):

        def made(size: int, unit: str = unit) -> str:
            return unit * (size // len(unit) + 1)

        if longest is not None:
            assert longest <= 600
            assert min(_seconds(ask, made(longest)) for _ in range(3)) < OFF, unit
        elif _seconds(ask, made(1000)) > _NOTHING:
            assert not grows_too_fast(ask, made, 250), unit
