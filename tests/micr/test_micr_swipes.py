"""Two swipes of one check: the same, each with losses of its own, contradicting each other."""

from __future__ import annotations

import os
import random

import pytest
from device_lines import FRAMES, NOTATIONS, raw_line
from hypothesis import given, settings
from hypothesis import strategies as st
from stdnum.us.rtn import calc_check_digit

from checkface import micr
from checkface.micr import MicrLine
from checkface.span import Fault

more = settings(max_examples=2000 if os.environ.get("CHECKFACE_THOROUGH") else 200, deadline=None)
LINE = "T031097765T 0045601122O 1043"
numbers = st.text("0123456789", min_size=8, max_size=8).map(
    lambda eight: "0" + eight[1:] + calc_check_digit("0" + eight[1:])
)
accounts, serials = st.text("0123456789", min_size=7, max_size=10), st.integers(100, 9999).map(str)
notations = st.sampled_from([name for name in NOTATIONS if name not in ("brackets", "braces", "quotes")])
seeds = st.integers(0, 2**32).map(random.Random)


def both(first: str, second: str, **options: object) -> MicrLine:
    """The line of two swipes, which must be one whichever comes first."""
    lines = [micr.read_swipes(first, second, **options), micr.read_swipes(second, first, **options)]  # type: ignore[arg-type]
    assert isinstance(lines[0], MicrLine)
    assert isinstance(lines[1], MicrLine)
    assert lines[0][2:15] == lines[1][2:15]
    return lines[0]


def written(line: str, notation: str, rng: random.Random) -> str:
    before, behind = FRAMES[rng.choice(["none", "STX ETX", "line end", "status", "BOM", "NUL"])]
    return before + line.translate(str.maketrans("TAOD", NOTATIONS[notation])) + behind


@more
@given(numbers, accounts, serials, notations, seeds)
def test_digits_that_each_swipe_lost_come_from_the_other(
    routing: str, account: str, serial: str, notation: str, rng: random.Random
) -> None:
    true = f"T{routing}T {account}O {serial}"
    swipes = [list(true), list(true)]
    places = [at for at, char in enumerate(true) if char.isdigit()]
    for at in rng.sample(places, rng.randint(1, 5)):
        rng.choice(swipes)[at] = "?"
    line = both(*(written("".join(swipe), notation, rng) for swipe in swipes))
    assert (line.routing, line.account, line.serial, line.settled) == (routing, account, serial, True)


@more
@given(numbers, accounts, serials, notations, seeds)
def test_a_digit_dropped_without_a_mark_is_given_and_doubted(
    routing: str, account: str, serial: str, notation: str, rng: random.Random
) -> None:
    true = f"T{routing}T {account}O {serial}"
    field = rng.choice(["routing", "account", "serial"])
    start, size = {"routing": (1, 9), "account": (12, len(account)), "serial": (len(true) - len(serial), len(serial))}[
        field
    ]
    at = start + rng.randrange(size)
    line = both(written(true, notation, rng), written(true[:at] + true[at + 1 :], notation, rng))
    assert (line.routing, line.account, line.serial) == (routing, account, serial)
    if field == "routing" and line.settled:
        return
    assert field == "routing" or [doubt.field for doubt in line.ambiguities] != []
    assert not line.settled


@more
@given(numbers, accounts, serials, notations, seeds)
def test_two_digits_at_one_place_are_refused_unless_the_routing_sum_decides(
    routing: str, account: str, serial: str, notation: str, rng: random.Random
) -> None:
    true = f"T{routing}T {account}O {serial}"
    at = rng.choice([at for at, char in enumerate(true) if char.isdigit()])
    other = rng.choice([digit for digit in "0123456789" if digit != true[at]])
    false = true[:at] + other + true[at + 1 :]
    first, second = written(true, notation, rng), written(false, notation, rng)
    if at <= 9:
        line = both(first, second)
        assert (line.routing, line.account, line.serial, line.settled) == (routing, account, serial, True)
        assert line.notes[-1] == "the swipe whose line is in order taken"
    else:
        found = micr.read_swipes(first, second)
        assert isinstance(found, Fault)
        name = "the account number" if at < 12 + len(account) else "the serial number"
        assert found.message == f"Expected the same line in both swipes, read two that differ in {name}."
        assert found.span == (0, len(first))


@more
@given(st.integers(0, 2**32), st.integers(0, 2**32))
def test_swipes_of_two_checks_are_never_one_line(one: int, other: int) -> None:
    first, second = raw_line(random.Random(one)), raw_line(random.Random(other))
    found = micr.read_swipes(first.text, second.text)
    if isinstance(found, MicrLine) and found.settled:
        assert found.account in (first.account, second.account)
        assert (
            first.text == second.text
            or isinstance(micr.read(first.text), Fault)
            or isinstance(micr.read(second.text), Fault)
        )


@pytest.mark.parametrize(
    ("second", "settled"),
    [
        (LINE, True),
        ("\x02" + LINE + "\x03\r", True),
        ("T031097765T0045601122O1043", True),  # blanks lost
        ("T031097765T 0045601122O ????", True),
        ("T031097765? 0045601122O 1043", True),  # a symbol lost
        ("T03109776ST 0045601122O 1043", True),  # a foreign character
        ("T031097765T 0045601122O 1043-", True),
        ("t031097765t 0045601122o 1043", True),  # two notations
        ("T031097765T 00456 1122O 1043", False),  # a blank where the other has a digit
        ("", True),
        ("1" * 300, True),
    ],
)
def test_a_clean_swipe_beside_another(second: str, settled: bool) -> None:
    found = micr.read_swipes(LINE, second)
    if settled:
        line = both(LINE, second)
        assert (line.routing, line.account, line.serial, line.settled) == ("031097765", "0045601122", "1043", True)
    else:
        assert isinstance(found, Fault)


def test_neighbours_exchanged_and_losses_at_different_places_are_refused() -> None:
    for second in ("T031097765T 0045601212O 1043", "T031097765T 045601122O 1043 ", "T031097765T 45601122O 1044"):
        found = micr.read_swipes(LINE, second)
        assert isinstance(found, Fault) or not found.settled


def test_the_table_and_the_layouts_of_the_house_and_the_printed_number_are_used() -> None:
    table = micr.reader_table({"transit": "[", "on_us": '"'})
    line = both('[031097765[ 45601?22" 1043 27', '[031097765[ 4560112?" 1043 27', notation=table, printed_serial="1043")
    assert (line.account, line.serial, line.transaction_code, line.settled) == ("45601122", "1043", "27", True)
    layouts = micr.parse_layouts('[074098750]\nserial = "last 4"')
    line = both("T074098750T 4560?1221043O", "T074098750T 45601122?043O", layouts=layouts)
    assert (line.account, line.serial) == ("45601122", "1043")


def test_brackets_are_compared_and_not_repaired() -> None:
    one = '[031097765[ 0045601122" 1043'
    line = both(one, '[031097765[ 0045601122" 1043\r')
    assert line.settled
    assert isinstance(micr.read_swipes(one, '[031097765[ 00456?1122" 1043'), Fault)


@more
@given(st.text('0123456789TAOD⑆⑈?x[" /\x02', max_size=60), st.text('0123456789TAOD⑆⑈?x[" /\x02', max_size=60))
def test_any_two_texts_give_a_line_or_a_fault_within_the_first(first: str, second: str) -> None:
    for one, other in ((first, second), (LINE, second)):
        found = micr.read_swipes(one, other)
        if isinstance(found, Fault):
            assert found.kind in micr.FAULTS
            assert 0 <= found.span.start <= found.span.end <= max(len(one), len(other))
        else:
            assert all(span.end <= len(found.raw) for span in found.spans.values())
