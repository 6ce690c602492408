"""What a verdict promises: one candidate if clear, several if ambiguous, the likeliest first if in review."""

from __future__ import annotations

import os

from amount_phrases import phrases
from hypothesis import example, given, settings
from hypothesis import strategies as st

from checkface.amounts import FiguresAmount, WordsAmount, read_figures, read_words
from checkface.span import Fault

MANY = 5_000 if os.environ.get("CHECKFACE_THOROUGH") else 400

_WORDS = """
one two five six eight nine ten eleven fifteen twenty thirty-five eighty forty hundred thousand million and & with
dollars cents dollars, only even exactly no zero oh a point to for won ate twelf sense teen ty 5 05 45 150 4510 1,500
12.50 .45 45/100 no/100 xx/100 5/100 1/10 IO/IOO so/100 five/100 /100 50/ (200) $45.10 ---- - cero uno seis diez
veinte treinta ciento cien doscientos mil y con sin dolares centavos forty5 seventy2cents 5O 0ne
"""
_LINES = st.lists(st.sampled_from(_WORDS.split()), min_size=1, max_size=7).map(" ".join)


@st.composite
def _mutated(draw: st.DrawFn) -> str:
    """A phrase with words dropped, doubled, exchanged or run together, or with one character changed."""
    words = draw(phrases(largest=999_999))[0].split(" ")
    for _ in range(draw(st.integers(1, 3))):
        place = draw(st.integers(0, len(words) - 1))
        match draw(st.integers(0, 5)):
            case 0 if len(words) > 1:
                del words[place]
            case 1:
                words.insert(place, words[place])
            case 2:
                words[place], words[-1] = words[-1], words[place]
            case 3:
                words[place : place + 2] = ["".join(words[place : place + 2])]
            case 4:
                words.insert(place, draw(st.sampled_from(_WORDS.split())))
            case _:
                at = draw(st.integers(0, len(words[place])))
                letter = draw(st.sampled_from(" -,./01OlS5aeny"))
                words[place] = words[place][:at] + letter + words[place][at + draw(st.integers(0, 1)) :]
    return " ".join(words)


def promise(reading: WordsAmount | FiguresAmount) -> None:
    """What the docstrings of both readings say of their verdicts."""
    values = [candidate.cents for candidate in reading.candidates]
    assert values
    assert len(set(values)) == len(values)
    assert min(values) > 0
    assert all(candidate.reason for candidate in reading.candidates)
    if reading.verdict == "ambiguous":
        assert reading.cents is None
        assert len(values) >= 2
    else:
        assert reading.cents == values[0]
    if reading.verdict == "clear":
        assert len(values) == 1
        assert not reading.reasons
        assert not reading.repairs
        assert not reading.candidates[0].reason.startswith("if ")
    else:
        assert reading.reasons


@given(st.one_of(_LINES, _mutated(), phrases().map(lambda phrase: phrase[0])))
@example("IO/IOO")
@example("forty-five and 0/10")
@example("twelf and 00/100")
@settings(max_examples=2 * MANY)
def test_words_keep_their_promise(text: str) -> None:
    reading = read_words(text)
    if not isinstance(reading, Fault):
        promise(reading)


_BOXES = st.one_of(
    st.text(alphabet="0123456789,.$ -/*xOlS|'()·—⁰²¹¢K:", max_size=12),
    st.from_regex(r"[$S]?[0-9lO]{1,4}([.,' ][0-9lO]{2,3}){0,2}([.,-][0-9lOx]{1,3}|¢|/100)?", fullmatch=True),
)


@given(_BOXES)
@example("5.0")
@example(".01¢")
@example("0.00.00")
@settings(max_examples=3 * MANY)
def test_figures_keep_their_promise(text: str) -> None:
    reading = read_figures(text)
    if not isinstance(reading, Fault):
        promise(reading)
