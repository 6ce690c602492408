"""The underline stands under the very characters: exact pictures, then properties over any text."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checkface.cells import width
from checkface.report.excerpt import Mark, excerpt


def picture(text: str, *marks: Mark, room: int = 60) -> str:
    rows = excerpt("x", text, marks, room)
    names = [row.name.removeprefix("x").removeprefix(", ") for row in rows]
    margin = max(map(len, names))
    return "\n".join(f"{name:{margin}}|{row.text}" for name, row in zip(names, rows, strict=True))


@pytest.mark.parametrize(
    ("text", "marks", "drawn"),
    [
        ("Forty-fife", [Mark(6, 10, "read as five")], "|Forty-fife\n|      ^^^^ read as five"),
        (
            "⑆071098973⑆ 45601122⑈ 1043",
            [Mark(12, 20, "account", False), Mark(0, 11, "nine digits")],
            "|⑆071098973⑆ 45601122⑈ 1043\n|^^^^^^^^^^^ nine digits\n|            ~~~~~~~~ account",
        ),
        ("a\tb", [Mark(1, 2, "a tab")], "|a␉b\n| ^ a tab"),
        ("1\u200b0", [Mark(1, 2, "has no width")], "|1\\u200b0\n| ^^^^^^ has no width"),
        ("金額 10", [Mark(3, 5)], "|金額 10\n|     ^^"),
        ("Jose\u0301 B", [Mark(4, 5, "an accent")], "|Jose\u0301 B\n|   ^ an accent"),
        ("abc", [Mark(3, 3, "nothing follows")], "|abc\n|   ^ nothing follows"),
        ("abc", [Mark(70, 80, "beyond")], "|abc\n|   ^ beyond"),
        (
            "Ada\n12 Lane\nIL",
            [Mark(1, 7, "one name")],
            "line 1|Ada\n      | ^^\nline 2|12 Lane\n      |^^^ one name",
        ),
        ("a\n\nb", [Mark(2, 2, "an empty line")], "line 2|\n      |^ an empty line"),
        (
            "a\nb\nc\nd\ne\nf",
            [Mark(0, 11, "all")],
            "line 1|a\n      |^\nline 2|b\n      |^\nline 3|c\n      |^\nline 4|d\n      |^ all (and 2 more lines)",
        ),
    ],
)
def test_pictures(text: str, marks: list[Mark], drawn: str) -> None:
    assert picture(text, *marks) == drawn


def test_a_long_line_is_cropped_around_the_span() -> None:
    drawn = picture("x" * 100 + "HERE" + "y" * 100, Mark(100, 104, "it"), room=20)
    assert drawn == "|…xxxxxxxHEREyyyyyyy…\n|        ^^^^ it"


def test_a_span_longer_than_the_room_is_cut_at_the_right() -> None:
    assert picture("x" * 100, Mark(0, 100), room=20) == "|" + "x" * 18 + "…\n|" + "^" * 18


def test_spans_too_far_apart_are_shown_one_by_one() -> None:
    drawn = picture("ab" + "x" * 60 + "cd", Mark(0, 2), Mark(62, 64, "", False), room=20)
    assert drawn == "|ab" + "x" * 16 + "…\n|^^\n|…" + "x" * 16 + "cd\n|" + " " * 17 + "~~"


def test_long_words_go_below() -> None:
    drawn = picture("abc", Mark(0, 3, "the three letters read here"), room=20)
    assert drawn == "|abc\n|^^^\n|the three letters\n|read here"


texts = st.text(st.characters(codec="utf-8") | st.sampled_from("\n\t⑆金\u0301\u200b1"), max_size=120)
marks = st.builds(Mark, st.integers(0, 130), st.integers(0, 130), st.just(""), st.booleans())


@given(texts, st.lists(marks, min_size=1, max_size=3), st.integers(20, 60))
def test_any_text_any_marks(text: str, marks: list[Mark], room: int) -> None:
    rows = excerpt("x", text, marks, room)
    assert rows[0].role == "reading"
    assert {row.role for row in rows} >= {"reading"}
    assert all(width(row.text) <= room + 1 and "\n" not in row.text for row in rows)
    assert sum(row.role != "reading" for row in rows) >= len(marks)


@given(st.text(st.characters(categories=["L", "N", "P", "Zs"]), min_size=1, max_size=40), st.data())
def test_the_underline_covers_just_the_span(text: str, data: st.DataObject) -> None:
    start = data.draw(st.integers(0, len(text) - 1))
    end = data.draw(st.integers(start + 1, len(text)))
    line, under = excerpt("x", text, [Mark(start, end)], 200)
    assert len(under.text) - len(under.text.lstrip()) == width(text[:start])
    assert under.text.strip() == "^" * width(text[start:end])
    assert line.text == text
