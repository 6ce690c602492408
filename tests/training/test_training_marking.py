"""Answers marked: the score, what was taken for what, and the mistakes that cost money."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checkface.findings import Disposition
from checkface.training import AnswersError, grade, grade_text, lesson, make, quiz, read_answers
from checkface.training.marking import costly
from checkface.training.reply import Answer, deciding, hold, parse

DRILL = make(lesson("mixed"), seed=22, count=30)
KEY = {item.number: item.judged() for item in DRILL.items}
CONVERT, KEEP, REFER, DECLINE = Disposition


def sheet(answers: dict[int, str]) -> str:
    return "number,answer\n" + "".join(f"{number},{answer}\n" for number, answer in answers.items())


def right() -> dict[int, str]:
    return {number: str(found.disposition) for number, found in KEY.items()}


def test_all_right() -> None:
    result = grade(DRILL, read_answers(sheet(right())))
    assert result.score == 30
    assert result.practise == []
    assert sum(result.confusion.values()) == 30
    text = grade_text(result)
    assert text.startswith("Right: 30 of 30.\n")
    assert "Costly mistakes" not in text
    assert "To practise" not in text


def test_nothing_answered() -> None:
    result = grade(DRILL, {})
    assert result.score == 0
    assert grade_text(result).startswith("Right: 0 of 30.\nNot answered: 30.\n")
    assert {rule for rule, _ in result.practise} == {rule for found in KEY.values() for rule in deciding(found)}


def test_the_two_costly_mistakes_are_named() -> None:
    kept = next(number for number, found in KEY.items() if found.disposition is KEEP)
    converted = next(number for number, found in KEY.items() if found.disposition is CONVERT)
    text = grade_text(grade(DRILL, read_answers(sheet({**right(), kept: "convert", converted: "keep"}))))
    assert f"  check {kept}: handed back a check that must be kept: the till is short of it" in text
    assert (
        f"  check {converted}: kept a check that is converted: if the debit was made, the customer pays twice" in text
    )
    assert text.startswith("Right: 28 of 30.")


@pytest.mark.parametrize("right_one", Disposition)
@pytest.mark.parametrize("given_one", Disposition)
def test_every_mistake_costs_or_does_not(right_one: Disposition, given_one: Disposition) -> None:
    words = costly(right_one, given_one)
    if right_one == given_one or given_one is REFER or (right_one, given_one) == (DECLINE, REFER):
        assert words == ""
    else:
        assert words


def test_the_table_counts_rows_by_the_right_answer() -> None:
    kept = next(number for number, found in KEY.items() if found.disposition is KEEP)
    result = grade(DRILL, read_answers(sheet({**right(), kept: "d"})))
    row = next(line for line in grade_text(result).splitlines() if line.startswith("keep "))
    keeps = sum(found.disposition is KEEP for found in KEY.values())
    assert row.split() == ["keep", ".", str(keeps - 1) if keeps > 1 else ".", ".", "1", "."]


def test_reasons_are_marked_where_they_name_a_rule() -> None:
    number, found = next((n, f) for n, f in KEY.items() if f.disposition is DECLINE)
    rule = deciding(found)[0]
    other = "micr-keyed"
    text = f"number,answer,reason\n{number},decline,{{}}\n"
    for reason, wanted in (
        (rule, True),
        (rule.replace("-", " "), True),
        (other, False),
        ("it looked odd", None),
        ("", None),
    ):
        marked = grade(DRILL, read_answers(text.format(reason))).marked[number - 1]
        assert marked.reason_right is wanted, reason
    assert "Reasons named rightly: 0 of 1." in grade_text(grade(DRILL, read_answers(text.format(other))))
    assert (rule, 1) in grade(
        DRILL, {n: Answer(f.disposition, other if n == number else "") for n, f in KEY.items()}
    ).practise


@pytest.mark.parametrize(
    ("text", "answer"),
    [
        ("keep", Answer(KEEP, "")),
        ("K", Answer(KEEP, "")),
        (" Decline.  date-stale ", Answer(DECLINE, "date-stale")),
        ("refer, words-unclear", Answer(REFER, "words-unclear")),
        ("c", Answer(CONVERT, "")),
        ("", None),
        ("maybe", None),
        ("keeping", None),
        ("?", None),
    ],
)
def test_what_an_answer_is(text: str, answer: Answer | None) -> None:
    assert parse(text) == answer


@given(st.text(max_size=40))
def test_any_text_is_an_answer_or_none(text: str) -> None:
    answer = parse(text)
    if answer is not None:
        hold(answer, KEY[1])


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "Expected the headings number and answer, read nothing."),
        ("\n\n", "Expected the headings number and answer, read nothing."),
        ("check,answer\n1,keep\n", "Line 1: Expected the headings number and answer, read others."),
        ("number,answer\n1,perhaps\n", "Line 2: Expected convert, keep, refer or decline, read something else."),
        (
            'number,answer\n1,keep\n2,"keep\n3,keep\n',
            "Expected every quotation mark closed, read one still open at the end.",
        ),
        ("number,answer\n1,\n1,keep\n", "Line 3: Expected one answer to check 1, read another."),
        ("number,answer\none,keep\n", "Line 2: Expected the number of a check, read something else."),
        ("number,answer\n²,keep\n", "Line 2: Expected the number of a check, read something else."),
        ("number,answer\n1,keep\n1,keep\n", "Line 3: Expected one answer to check 1, read another."),
    ],
)
def test_a_file_that_is_none(text: str, sentence: str) -> None:
    with pytest.raises(AnswersError) as caught:
        read_answers(text)
    assert str(caught.value) == sentence


def test_an_answer_to_a_check_that_is_not_there() -> None:
    with pytest.raises(AnswersError, match="Expected answers to checks 1 to 30, read one to 31"):
        grade(DRILL, {31: Answer(KEEP, "")})


def test_columns_in_any_order_and_a_byte_order_mark() -> None:
    assert read_answers("\ufeffReason,Number,Answer\nlate,2,d\n\n") == {2: Answer(DECLINE, "late")}


def test_an_empty_cell_is_no_answer() -> None:
    answers = read_answers("number,answer,reason\n1,,\n2,keep,\n3\n")
    assert answers == {2: Answer(KEEP, "")}
    assert "Not answered: 29." in grade_text(grade(DRILL, answers))


@pytest.mark.parametrize("mark", [",", ";", "\t"])
def test_cells_parted_by_what_the_program_writes(mark: str) -> None:
    text = "number,answer,reason\r\n1,keep,payroll-check\r\n".replace(",", mark)
    assert read_answers(text) == {1: Answer(KEEP, "payroll-check")}


def test_a_count_is_told_from_a_number() -> None:
    text = grade_text(grade(DRILL, {}))
    assert re.search(r"\n  [a-z-]+, missed (once|twice|\d+ times): ", text)


@given(st.text(max_size=200))
def test_any_file_is_read_or_refused(text: str) -> None:
    try:
        assert isinstance(read_answers(text), dict)
    except AnswersError as error:
        assert str(error).endswith(".")


def ask_from(lines: list[str]) -> Iterator[str]:
    return iter(lines)


def test_a_quiz_all_right() -> None:
    told: list[str] = []
    lines = ask_from([str(found.disposition) for found in KEY.values()])
    assert quiz(DRILL, lambda: next(lines, None), told.append) == 30
    assert sum(text.startswith("\nRight.") for text in told) == 30
    assert told[-1] == "\nRight: 30 of 30 answered."


def test_a_quiz_says_what_is_right_and_what_it_costs() -> None:
    told: list[str] = []
    kept = next(
        item
        for item in DRILL.items
        if KEY[item.number].disposition is KEEP and any(f.labels[0].end for f in item.judged().findings)
    )
    lines = ask_from(["what?", "", "convert"])
    assert quiz(DRILL._replace(items=(kept,)), lambda: next(lines, None), told.append) == 0
    assert told[2] == told[0]  # the help once more, for an answer that was none
    assert told[3].startswith(
        "\nWrong: you answered convert. What it costs: handed back a check that must be kept: the till is short of it.\nKEEP\n"
    )
    assert "^" in told[3]
    assert "To practise (checkface explain RULE)" in told[-1]


def test_a_right_answer_for_another_reason() -> None:
    told: list[str] = []
    item = next(item for item in DRILL.items if KEY[item.number].disposition is DECLINE)
    lines = ask_from(["decline micr-keyed"])
    quiz(DRILL._replace(items=(item,)), lambda: next(lines, None), told.append)
    assert told[2].startswith("\nRight, for another reason.\nDECLINE")
    assert "To practise" in told[-1]


@pytest.mark.parametrize("last", [["q"], ["QUIT"], []])
def test_a_quiz_ends_when_asked(last: list[str]) -> None:
    told: list[str] = []
    lines = ask_from(["keep", *last])
    quiz(DRILL, lambda: next(lines, None), told.append)
    assert told[-1].startswith(("\nRight: 0 of 1 answered.", "\nRight: 1 of 1 answered."))
