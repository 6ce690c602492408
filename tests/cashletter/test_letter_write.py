"""What is written is read again as it was, in every form; and a file that was read is written byte for byte."""

from __future__ import annotations

import io
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from plain_letter import SMALL, TIFF, Check, file, whole

from checkface.cashletter import (
    Flaw,
    Form,
    Item,
    Letter,
    Record,
    Totals,
    compose,
    encoded,
    items,
    make_item,
    make_record,
    read,
    write,
)

FORMS = [
    Form("prefixed", "cp037"), Form("prefixed", "cp1047"), Form("prefixed", "ascii"), Form("fixed", "cp037"),
    Form("fixed", "ascii"), Form("lines", "cp037", b"\x15"), Form("lines", "cp1047", b"\r\x25"),
    Form("lines", "ascii", b"\n"), Form("lines", "ascii", b"\r\n"),
]  # fmt: skip
DAY = date(2026, 11, 25)
LETTER = Letter(origin="071098973", destination="031097765", day=DAY, time="1530", origin_name="SPECIMEN", bundle=2)


def made(records: list[Record], form: Form) -> bytes:
    sink = io.BytesIO()
    assert write(records, sink, form) == len(sink.getvalue())
    return sink.getvalue()


def entries(content: bytes, form: Form, *, images: bool = False) -> list[Record | Flaw]:
    ebcdic = form.encoding if form.encoding != "ascii" else "cp037"
    reader = read(io.BytesIO(content), images=images, ebcdic=ebcdic)
    assert reader.form == form
    return list(reader)


digits = st.text("0123456789", min_size=9, max_size=9)
drafts = st.builds(
    make_item,
    st.sampled_from(["check", "return", "credit"]),
    routing=digits,
    on_us=st.text("0123456789/-* ", max_size=20).map(str.strip),
    auxiliary=st.text("0123456789-*", max_size=15),
    epc=st.sampled_from(["", "2", "4", "5", "6"]),
    cents=st.integers(0, 10**10 - 1),
    sequence=st.integers(1, 10**15 - 1).map(str),
    addenda=st.just(()),
    images=st.lists(st.binary(max_size=300), max_size=2),
    scanned=st.just(("071098973", DAY)),
)


@given(st.lists(drafts, min_size=1, max_size=6), st.sampled_from(FORMS), st.sampled_from(["03", "30", "35"]))
@settings(max_examples=150)
def test_items_that_are_written_are_read_again(given_items: list[Item], form: Form, level: str) -> None:
    leveled = [Item(tuple(record._replace(level=level) for record in item.records)) for item in given_items]
    letter = Letter(origin="071098973", destination="031097765", day=DAY, level=level, bundle=2)
    content = made(list(compose(leveled, letter)), form)
    found = entries(content, form, images=True)
    told = list(items(found))
    assert [entry.message for entry in told if isinstance(entry, Flaw)] == []
    again = [entry for entry in told if isinstance(entry, Item)]
    assert [[(r.type, r.text, r.data) for r in item.records] for item in again] == [
        [(r.type, r.text, r.data) for r in item.records] for item in leveled
    ]
    assert all(item.business_date == DAY for item in again)
    (whole_file,) = (entry for entry in told if isinstance(entry, Totals) and entry.part == "file")
    wanted = [item for item in leveled if item.kind != "credit"]
    assert (whole_file.items, whole_file.cents) == (len(wanted), sum(item.cents or 0 for item in wanted))
    assert made([entry for entry in found if isinstance(entry, Record)], form) == content


@pytest.mark.parametrize("form", FORMS, ids=str)
def test_a_file_that_was_read_is_written_byte_for_byte(form: Form) -> None:
    content = file(SMALL, form.framing, form.encoding, form.ending)
    found = entries(content, form, images=True)
    assert made([entry for entry in found if isinstance(entry, Record)], form) == content


@pytest.mark.parametrize("source", FORMS, ids=str)
@pytest.mark.parametrize("target", FORMS, ids=str)
def test_a_file_is_written_in_another_form(source: Form, target: Form) -> None:
    checks = [[Check(7, images=[TIFF], key="KEY", signature=b"\x15\x25\n\xff")]]
    content = file(whole(checks), source.framing, source.encoding, source.ending)
    records = [entry for entry in entries(content, source, images=True) if isinstance(entry, Record)]
    # The signature is bytes: it does not change with the characters around it.
    assert made(records, target) == file(whole(checks), target.framing, target.encoding, target.ending)


def test_short_records_are_filled_up_where_nothing_else_keeps_them_apart() -> None:
    addendum = make_record("27", {"Image Reference Key Indicator": 0})
    assert len(addendum.text) == 46
    item = make_item("check", routing="071098973", cents=1, addenda=[addendum])
    form = Form("fixed", "cp037")
    content = made(list(compose([item], LETTER)), form)
    assert len(content) == 8 * 80
    again = [entry for entry in entries(content, form) if isinstance(entry, Record)]
    assert again[4].text == addendum.text
    assert made(again, form) == content
    assert [
        e.message for e in entries(content[: 4 * 80 + 79] + b"\xf1" + content[5 * 80 :], form) if isinstance(e, Flaw)
    ] == ["Byte 320, record 5 (type 27): Expected blanks up to 80 bytes, read other characters."]


def test_image_data_that_were_passed_over_cannot_be_written() -> None:
    records = [entry for entry in read(io.BytesIO(file(SMALL))) if isinstance(entry, Record)]
    with pytest.raises(ValueError, match=r"^Record 8: Expected image data to write, read only where they stand\.$"):
        made(records, Form("prefixed", "cp037"))


def test_what_does_not_fit_is_refused_and_not_quoted() -> None:
    with pytest.raises(ValueError, match=r"^Expected at most 20 characters for On-Us, read 21\.$"):
        make_record("25", {"On-Us": "4" * 21})
    with pytest.raises(ValueError, match=r"^Expected fields of record 25, read 'Amount'\.$"):
        make_record("25", {"Amount": 1})
    with pytest.raises(ValueError, match=r"^Record 0: Expected characters of ascii, read others\.$"):
        encoded(make_record("01", {"Immediate Origin Name": "€"}), Form("prefixed", "ascii"))


def test_images_need_to_say_who_made_them() -> None:
    with pytest.raises(ValueError, match="the bank and the day"):
        make_item("check", routing="071098973", images=[TIFF])


def test_fields_are_set_as_the_standard_sets_them() -> None:
    record = make_record("25", {"Item Amount": 4510, "On-Us": "1/2", "Archive Type Indicator": "A"})
    assert (record.field("Item Amount"), record.field("On-Us")) == ("0000004510", "1/2".rjust(20))
    assert record.field("Auxiliary On-Us") == " " * 15
    assert record.field("Archive Type Indicator") == "A"
    header = make_record("10", {"Cash Letter Business Date": DAY, "Cash Letter ID": "X"})
    assert (header.field("Cash Letter Business Date"), header.field("Cash Letter ID")) == ("20261125", "X       ")


def test_compose_streams() -> None:
    """A specimen file of any length is made as it is written."""

    def endless() -> object:
        while True:
            yield make_item("check", routing="071098973", cents=1)

    records = compose(endless(), LETTER)  # type: ignore[arg-type]
    assert [next(records).type for _ in range(8)] == ["01", "10", "20", "25", "25", "70", "20", "25"]
