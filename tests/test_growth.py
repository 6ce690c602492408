"""Time grows with the length of a text, not with its square, whoever wrote the text.

Eight times the text takes about eight times the time; by the square it would be 64 times. CPU time of this process is
compared with itself, never with a clock.
"""

from __future__ import annotations

import gc
import importlib
import pkgutil
import re
import time
from collections.abc import Callable, Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import checkface
from checkface import strictjson
from checkface.cli import options
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
    assert grows_too_fast(re.compile("a*b").search, lambda size: "a" * size, 1000)
    assert not grows_too_fast(re.compile("ab").search, lambda size: "a" * size, 1000)


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


def patterns() -> Iterator[re.Pattern[str]]:
    """Every pattern of text in the toolkit: those compiled at once, and those compiled at their first use."""
    for module in pkgutil.walk_packages(checkface.__path__, "checkface."):
        if not module.name.endswith("__main__"):
            found = importlib.import_module(module.name)
            yield from (each for each in vars(found).values() if isinstance(each, re.Pattern))
    for each in gc.get_objects():
        if isinstance(each, _Lazy):
            yield re.compile(each._source, each._flags)


PATTERNS = {each.pattern: each for each in patterns() if isinstance(each.pattern, str)}
#: What each pattern is tried on, over and over: what it may look for, and what may stand between.
_UNITS = ["a", "1", " ", "\n", "-", "/", ".", ",", "$", "0", "A", "O", "a ", "1 ", "1,", "a.", "1/", "A1", "1 a"]
#: Asked only from the start of a text or for the whole of it; elsewhere they would start anew at each character.
ANCHORED = ("(?P<way>", "([0-9][0-9/. -]*[0-9]) *M", " *+(?:")
#: Milliseconds' worth of a pattern's time on a unit that are not worth a second look.
_NOTHING = 0.002


def test_there_are_patterns() -> None:
    assert len(PATTERNS) > 250


@pytest.mark.parametrize("source", PATTERNS, ids=range(len(PATTERNS)))
def test_every_pattern(source: str) -> None:
    pattern = PATTERNS[source]
    ask = pattern.fullmatch if source.startswith(ANCHORED) else pattern.search
    words = re.findall("[A-Za-z]{3,}", source)[:5]
    for unit in (*_UNITS, *words, *(f"{word} " for word in words)):
        if _seconds(ask, unit * (4000 // len(unit))) > _NOTHING:
            assert not grows_too_fast(ask, lambda size, unit=unit: unit * (size // len(unit) + 1), 1000), unit  # type: ignore[misc]
