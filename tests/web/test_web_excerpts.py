"""Readings cut into pieces: nothing lost, nothing doubled, every mark where it belongs."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from checkface.report.facts import Pointed
from checkface.web.excerpts import AROUND, ENDS, Mark, excerpts, pieces


def test_marks_that_overlap_share_their_characters() -> None:
    found = [
        (p.text, p.numbers, p.ends, p.primary) for p in pieces("abcdef", [Mark(1, 4, 1, True), Mark(3, 5, 2, False)])
    ]
    assert found == [
        ("a", (), (), False),
        ("bc", (1,), (), True),
        ("d", (1, 2), (1,), True),
        ("e", (2,), (2,), False),
        ("f", (), (), False),
    ]


def test_a_mark_of_no_character_stands_at_the_next_or_after_the_end() -> None:
    assert [(p.text, p.numbers) for p in pieces("ab", [Mark(1, 1, 1, True)])] == [("a", ()), ("b", (1,))]
    assert [(p.text, p.numbers) for p in pieces("ab", [Mark(2, 2, 1, True)])] == [("ab", ()), ("\u00a0", (1,))]


def test_long_readings_are_cut_away_from_the_mark() -> None:
    left, marked, right = pieces("l" * 500 + "!" + "r" * 500, [Mark(500, 501, 1, True)])
    assert (left.text, marked.text, right.text) == ("…" + "l" * AROUND, "!", "r" * AROUND + "…")
    (whole,) = pieces("x" * 9000, [Mark(0, 9000, 1, True)])
    assert whole.text == "x" * ENDS + "…" + "x" * ENDS


def test_what_would_act_or_vanish_is_shown() -> None:
    (piece,) = pieces("a\u202eb\tc\nd\x00", [Mark(0, 8, 1, True)])
    assert piece.text == "a\\u202eb␉c\nd␀"


def test_labels_on_one_reading_share_it_and_are_counted_through() -> None:
    one = Pointed("words", "Fifty", "", 0, 2, "first", True)
    found = excerpts(
        [one, Pointed("figures", "5", "", 0, 1, "", False), one._replace(start=2, end=3, words="second")], 4
    )
    assert [excerpt.reading for excerpt in found] == ["words", "figures"]
    assert [(note.number, note.place, note.words) for note in found[0].notes] == [
        (4, "characters 1 to 2", "first"), (6, "character 3", "second"),
    ]  # fmt: skip
    assert found[1].notes[0].place == ""


def test_a_reading_without_text_shows_its_state() -> None:
    (found,) = excerpts([Pointed("signature", "", "(not seen)", 0, 0, "", True)])
    assert (found.pieces, found.state) == ((), "(not seen)")


@given(
    st.text(st.characters(codec="ascii", exclude_categories=["Cc"]), min_size=1, max_size=AROUND),
    st.lists(st.tuples(st.integers(0, AROUND), st.integers(0, AROUND)), min_size=1, max_size=4),
)
def test_the_pieces_are_the_reading_and_the_marks_are_whole(text: str, ranges: list[tuple[int, int]]) -> None:
    marks = [
        Mark(min(a, b, len(text) - 1), min(max(a, b, 1), len(text)), number, True)
        for number, (a, b) in enumerate(ranges)
    ]
    marks = [mark._replace(end=max(mark.end, mark.start + 1)) for mark in marks]
    found = list(pieces(text, marks))
    assert "".join(piece.text for piece in found) == text
    for mark in marks:
        covered = "".join(piece.text for piece in found if mark.number in piece.numbers)
        assert covered == text[mark.start : mark.end]
        assert sum(mark.number in piece.ends for piece in found) == 1
