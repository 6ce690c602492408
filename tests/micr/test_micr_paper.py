"""Positions on the paper, captures that keep them, and record fields."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checkface import micr
from checkface.micr import MicrLine
from checkface.span import Fault

FIELDS = {"routing": "031097765", "account": "45601122", "serial": "1043"}


@pytest.mark.parametrize(
    ("width", "position"), [(6.0, 43), (8.5, 63), (8.75, 65), (30.0, 65), (0.5, 0), (0.0, 0), (2.75, 17)]
)
def test_highest_position(width: float, position: int) -> None:
    assert micr.highest_position(width) == position


@given(st.floats(0.6875, 8.7))
def test_the_highest_position_is_the_last_that_leaves_a_quarter_inch(width: float) -> None:
    position = micr.highest_position(width)

    def free(position: int) -> float:
        return width - (5 / 16 + (position - 1) / 8) - 1 / 8

    assert free(position) > 1 / 4 - 1 / 8 - 1e-9
    assert free(position + 1) < 1 / 4


def kept(**fields: object) -> str:
    return micr.format("personal", **{**FIELDS, **fields}, positions=True)  # type: ignore[arg-type]


def test_a_written_line_stands_on_its_positions() -> None:
    text = micr.format("business", **FIELDS, epc="4", amount_cents=1957, positions=True)
    assert text[-43] == text[-33] == "⑆"
    assert text[-12] == text[-1] == "⑇"
    assert text[-44] == "4"
    assert text[-45] == " "
    assert text[-46] == "⑈"
    assert text[-13] == " "
    assert text[-42:-33] == "031097765"
    assert len(kept()) == 43


@pytest.mark.parametrize("cents", [None, 1957])
def test_kept_positions_are_noticed(cents: int | None) -> None:
    line = micr.read(kept(amount_cents=cents))
    assert isinstance(line, MicrLine)
    assert line.positions
    lost = micr.read(line.raw.replace("      ", " ").rstrip())
    assert isinstance(lost, MicrLine)
    assert not lost.positions
    assert (lost.account, lost.serial, lost.amount_cents) == (line.account, line.serial, line.amount_cents)


@pytest.mark.parametrize("positions", [[43], [33], [43, 33], [12], [1], [43, 12], [33, 1]])
def test_unread_symbols_are_restored_from_their_places(positions: list[int]) -> None:
    cells = list(kept(amount_cents=1957))
    for position in positions:
        cells[-position] = "?"
    line = micr.read("".join(cells))
    assert isinstance(line, MicrLine)
    if {43, 33} & set(positions) and {12, 1} & set(positions):  # no complete pair shows that places were kept
        assert not line.settled
        assert line.amount_cents is None
        return
    assert (line.routing, line.amount_cents, line.account) == ("031097765", 1957, "45601122")
    assert line.unread
    assert not line.settled
    assert line.notes == tuple(f"unread symbol at position {position} taken from its place" for position in positions)


def test_places_are_not_trusted_when_a_blank_was_lost() -> None:
    text = kept(amount_cents=1957).replace("  ", " ", 1)
    cells = list(text)
    cells[cells.index("⑆")] = "?"
    line = micr.read("".join(cells))
    assert isinstance(line, MicrLine)
    assert not line.positions
    assert line.faults[0].kind == "micr-transit-unread"


def test_digits_on_the_amount_positions_are_no_serial() -> None:
    text = kept(serial="", amount_cents=1957).replace("⑇", " ")
    line = micr.read(text)
    assert isinstance(line, MicrLine)
    assert (line.amount_cents, line.serial) == (None, None)
    assert [fault.kind for fault in line.faults] == ["micr-amount-symbols"]


def test_a_line_end_does_not_move_the_positions() -> None:
    line = micr.read(kept() + "\r\n")
    assert isinstance(line, MicrLine)
    assert line.positions


def test_fields_of_a_record() -> None:
    """X9.100-187 keeps each field by itself, with / for the On-Us symbol and - for the dash."""
    line = micr.from_fields("1043", "4", "031097765", "456-011-22/27", "0000001957")
    assert isinstance(line, MicrLine)
    assert (line.auxiliary, line.epc, line.routing, line.account) == ("1043", "4", "031097765", "45601122")
    assert (line.serial, line.transaction_code, line.amount_cents) == ("1043", "27", 1957)
    assert line.raw == "⑈1043⑈ 4⑆031097765⑆ 456⑉011⑉22⑈27 ⑇0000001957⑇"
    assert all(span.of(line.raw) for span in line.spans.values())


def test_padded_and_blank_fields_of_a_record() -> None:
    line = micr.from_fields(" " * 15, " ", "031097765", "       45601122/1043", " " * 10)
    assert isinstance(line, MicrLine)
    assert (line.auxiliary, line.epc, line.account, line.serial, line.amount_cents) == (
        None,
        None,
        "45601122",
        "1043",
        None,
    )


def test_an_unread_record_digit() -> None:
    line = micr.from_fields(routing="0310*7765", on_us="45601122/1043")
    assert isinstance(line, MicrLine)
    assert (line.routing, line.routing_repaired) == (None, "031097765")


def test_a_short_record_amount_is_not_padded() -> None:
    line = micr.from_fields(routing="031097765", amount="1957")
    assert isinstance(line, MicrLine)
    assert line.amount_cents is None
    assert line.faults[0].kind == "micr-amount-length"


@given(st.text(max_size=8), st.text(max_size=8), st.text(max_size=8))
def test_any_record_is_read_without_a_crash(auxiliary: str, routing: str, on_us: str) -> None:
    read = micr.from_fields(auxiliary, "", routing, on_us)
    assert isinstance(read, Fault | MicrLine)
