"""What is read of a good file in every form, and what is said of each thing that can be wrong in one."""

from __future__ import annotations

import io
from datetime import date

import pytest
from plain_letter import SMALL, TIFF, Check, Plain, control, file, header, raw, whole

from checkface.cashletter import Flaw, Item, Record, Totals, is_letter, items, read

FORMS = [
    ("prefixed", "cp037", b""),
    ("prefixed", "ascii", b""),
    ("fixed", "cp037", b""),
    ("fixed", "ascii", b""),
    ("lines", "cp037", b"\x15"),
    ("lines", "cp037", b"\r\x25"),
    ("lines", "ascii", b"\n"),
    ("lines", "ascii", b"\r\n"),
]


def told(content: bytes) -> list[Item | Totals | Flaw]:
    return list(items(read(io.BytesIO(content))))


def messages(content: bytes) -> list[str]:
    return [entry.message for entry in told(content) if isinstance(entry, Flaw)]


def found(content: bytes) -> list[Item]:
    return [entry for entry in told(content) if isinstance(entry, Item)]


def changed(records: list[Plain], number: int, start: int, text: str) -> bytes:
    """The file with *text* from position *start* (counted from 1) of record *number* (counted from 1)."""
    old, data = records[number - 1]
    return file(
        [*records[: number - 1], (old[: start - 1] + text + old[start - 1 + len(text) :], data), *records[number:]]
    )


@pytest.mark.parametrize(("framing", "encoding", "ending"), FORMS)
def test_every_form_is_told_and_gives_the_same_items(framing: str, encoding: str, ending: bytes) -> None:
    content = file(SMALL, framing, encoding, ending)
    reader = read(io.BytesIO(content))
    assert reader.form == (framing, encoding, ending)
    assert is_letter(content[:8])
    entries = list(items(reader))
    assert reader.level == "03"
    assert reader.offset == len(content)
    assert not [entry.message for entry in entries if isinstance(entry, Flaw)]
    first, second, third, fourth = (entry for entry in entries if isinstance(entry, Item))
    assert (first.kind, first.routing, first.on_us, first.cents) == (
        "check",
        "071098973",
        "45601122/1043".rjust(20),
        4510,
    )
    assert (first.sequence, first.micr_valid, first.repaired) == ("0001", "1", False)
    assert first.business_date == date(2026, 11, 25)
    assert [(each.routing, each.date, each.first) for each in first.endorsements] == [
        ("071098973", date(2026, 11, 24), True),
        ("031097765", date(2026, 11, 25), False),
    ]
    assert [(image.side, image.format, image.compression) for image in first.images] == [
        ("0", "00", "00"),
        ("1", "00", "00"),
    ]
    for image, expected in zip(first.images, (TIFF, TIFF[:300]), strict=True):
        assert image.place is not None
        assert content[image.place.offset :][: image.place.length] == expected
    assert (second.on_us.strip(), second.auxiliary.strip()) == ("00*5601122/", "001044")
    assert (second.repaired, second.micr_valid) == (True, "3")
    assert (third.kind, third.return_reason, third.auxiliary.strip(), third.cents) == ("return", "A", "77", 999)
    assert third.returned_for is not None
    assert third.returned_for.words == "not sufficient funds"
    assert (fourth.epc, fourth.on_us.strip(), fourth.repaired) == ("6", "123-456-789/55", None)
    totals = [(t.part, t.name, t.items, t.cents, t.images, t.parts, t.agrees) for t in entries if isinstance(t, Totals)]
    assert totals == [
        ("bundle", "1", 2, 127966, 2, 0, True),
        ("bundle", "2", 2, 1000, 1, 0, True),
        ("letter", "LETTER01", 4, 128966, 3, 2, True),
        ("file", "SPECIMEN ORIGIN", 4, 128966, 3, 1, True),
    ]


def test_every_record_has_its_number_and_the_byte_it_starts_at() -> None:
    content = file(SMALL)
    records = [entry for entry in read(io.BytesIO(content)) if isinstance(entry, Record)]
    assert [record.number for record in records] == list(range(1, len(SMALL) + 1))
    place = 0
    for record, part in zip(records, raw(SMALL), strict=True):
        assert record.offset == place + 4
        assert record.end == place + 4 + len(part)
        place += 4 + len(part)


def test_a_field_is_asked_by_name_or_number_and_binary_ones_are_untouched() -> None:
    checks = [Check(1, images=[TIFF], key="KEY7", signature=bytes(range(256)))]
    for encoding in ("cp037", "ascii"):
        reader = read(io.BytesIO(file(whole([checks]), encoding=encoding)), images=True)
        records = {entry.type: entry for entry in reader if isinstance(entry, Record)}
        view = records["52"]
        assert view.field("Image Reference Key") == view.field(15) == "KEY7"
        assert view.binary("Digital Signature") == bytes(range(256))
        assert (view.data, view.field(18)) == (TIFF, f"{len(TIFF):07}")
        assert records["25"].fields()["Item Amount"] == records["25"].field(7) == "0000000001"
        assert list(records["90"].fields())[:3] == ["Record Type", "Bundle Count", "Items Within Cash Letter Count"]
        with pytest.raises(KeyError):
            records["25"].field("Amount")


def test_code_page_1047_is_read_where_it_is_named() -> None:
    name = "[SPECIMEN^]".ljust(18)
    content = changed(SMALL, 1, 37, name).replace(
        name.encode("cp037"), b"\xad" + "SPECIMEN".encode("cp037") + b"\x5f\xbd" + b"\x40" * 7
    )
    for page, expected in (("cp1047", name), ("cp037", "ÝSPECIMEN¬¨".ljust(18))):
        reader = read(io.BytesIO(content), ebcdic=page)  # type: ignore[arg-type]
        (record, *_) = (entry for entry in reader if isinstance(entry, Record))
        assert record.field("Immediate Destination Name") == expected
    assert "printable ASCII" in messages(content)[0]


@pytest.mark.parametrize(
    ("number", "start", "text", "expected"),
    [
        (1, 3, "07", ["Byte 6, record 1 (type 01, Standard Level): Expected one of 03, 30, 35, read '07'."]),
        (4, 48, "00000O4510", [
            "Byte 303, record 4 (type 25, Item Amount): Expected 10 digits, read 9 digits, 1 letter.",
            "Byte 1820, record 12 (type 70, Bundle Total Amount)",
        ]),
        (4, 28, " " * 6 + "4560x.22/10430", [
            "Byte 283, record 4 (type 25, On-Us): Expected 20 digits, blanks, -, * and /, read 11 digits, 1 letter, 6 blanks, 2 other characters.",
        ]),
        (11, 75, "7", ["Byte 1,808, record 11 (type 25, MICR Valid Indicator): Expected one of 1, 2, 3, 4, read '7'."]),
        (4, 77, "03", [
            "Byte 332, record 4 (type 25, Check Detail Record Addendum Count): Expected 3 addenda as declared for the item, read 2.",
        ]),
        (4, 77, "01", [
            "Byte 332, record 4 (type 25, Check Detail Record Addendum Count): Expected 1 addenda as declared for the item, read 2.",
        ]),
        (4, 58, " " * 15, [
            "Byte 313, record 4 (type 25, ECE Institution Item Sequence Number): Expected 15 digits and blanks, not all blank, read 15 blanks.",
        ]),
        (3, 23, "20261325", [
            "Byte 194, record 3 (type 20, Bundle Business Date): Expected a day as YYYYMMDD, read '20261325'.",
        ]),
        (3, 69, "X", ["Byte 240, record 3 (type 20, Reserved): Expected 12 blanks, read 1 letter, 11 blanks."]),
        (12, 3, "0003", [
            "Byte 1,820, record 12 (type 70, Items Within Bundle Count): Expected 3 items as declared for the bundle, read 2 items.",
        ]),
        (12, 7, "000000127967", [
            "Byte 1,824, record 12 (type 70, Bundle Total Amount): Expected $1,279.67 as declared for the bundle, read $1,279.66.",
        ]),
        (12, 19, "000000004511", [
            "Byte 1,836, record 12 (type 70, MICR Valid Total Amount): Expected $45.11 as declared for the bundle, read $45.10.",
        ]),
        (12, 31, "00001", [
            "Byte 1,848, record 12 (type 70, Images within Bundle Count): Expected 1 image as declared for the bundle, read 2 images.",
        ]),
        (22, 3, "000003", [
            "Byte 2,761, record 22 (type 90, Bundle Count): Expected 3 bundles as declared for the cash letter, read 2 bundles.",
        ]),
        (23, 3, "000002", [
            "Byte 2,845, record 23 (type 99, Cash Letter Count): Expected 2 cash letters as declared for the file, read 1 cash letter.",
        ]),
        (23, 9, "00000024", [
            "Byte 2,851, record 23 (type 99, Total Record Count): Expected 24 records as declared for the file, read 23 records.",
        ]),
        (4, 1, "77", None),
    ],
)  # fmt: skip
def test_one_thing_wrong_is_said_with_its_byte(number: int, start: int, text: str, expected: list[str] | None) -> None:
    said = messages(changed(SMALL, number, start, text))
    if expected is None:
        assert said[0] == "Byte 256, record 4 (type 77): Expected a record type of the standard, read '77'."
        assert "4560" not in " ".join(said)
    elif len(expected) == 1:
        assert said == expected
    else:
        assert said[0] == expected[0]
        assert len(said) > 1


def test_an_unreadable_total_is_no_agreement() -> None:
    entries = told(changed(SMALL, 12, 7, "00000012796O"))
    assert [entry.agrees for entry in entries if isinstance(entry, Totals)] == [False, True, False, False]


def test_a_zero_total_of_well_read_lines_is_none() -> None:
    assert messages(changed(SMALL, 12, 19, "0" * 12)) == []


def without(*numbers: int) -> bytes:
    return file([record for number, record in enumerate(SMALL, 1) if number not in numbers])


def moved(number: int, to: int) -> bytes:
    records = list(SMALL)
    records.insert(to - 1, records.pop(number - 1))
    return file(records)


@pytest.mark.parametrize(
    ("content", "expected", "items_left"),
    [
        (without(3), ["Byte 172, record 3 (type 25): Expected an open bundle in a cash letter before record 25, read none."], 4),
        (without(12), ["Byte 1,818, record 12 (type 20): Expected record 70 to close the bundle, read record 20."], 4),
        (without(22), ["Byte 2,759, record 22 (type 99): Expected record 90 to close the cash letter, read record 99."], 4),
        (without(23), ["Byte 2,839, record 22: Expected record 99 to close the file, read the end of the file."], 4),
        (without(1), ["Byte 4, record 1 (type 10): Expected an open file before record 10, read none."], 4),
        (without(7), ["Byte 508, record 7 (type 52): Expected record 50 before record 52, read record 28."], 4),
        (moved(5, 6), ["Byte 424, record 6 (type 26): Expected record 25 or 26 before record 26, read record 28."], 4),
        (moved(5, 10), ["Byte 1,650, record 10 (type 26): Expected record 25 or 26 before record 26, read record 52."], 4),
        (without(4), ["Byte 256, record 4 (type 26): Expected an item before record 26, read none."], 3),
        (without(14), [
            "Byte 1,986, record 14 (type 32): Expected an item before record 32, read none.",
        ], 3),
        (file([*SMALL, header()]), [
            "Byte 2,927, record 24 (type 01): Expected the end of the file behind record 99, read record 01.",
            "Byte 3,007, record 24: Expected record 99 to close the file, read the end of the file.",
        ], 4),
        (file([*SMALL, control("90")]), [
            "Byte 2,929, record 24 (type 90, Bundle Count): Expected 6 digits, read 6 blanks.",
            "Byte 2,927, record 24 (type 90): Expected an open cash letter before record 90, read none.",
        ], 4),
        (file(SMALL) + b"\0" * 100, [
            "Byte 2,923: Expected the type of a record, read none; 100 bytes passed over.",
        ], 4),
    ],
)  # fmt: skip
def test_the_order_is_held_and_reading_goes_on(content: bytes, expected: list[str], items_left: int) -> None:
    said = messages(content)
    assert [each for each in expected if each not in said] == []
    assert len(found(content)) == items_left


@pytest.mark.parametrize("kind", ["77", "??"])
def test_records_behind_a_lost_item_are_not_given_to_another(kind: str) -> None:
    checks = [Check(1), Check(2, endorsers=["071098973"])]
    kept = found(changed(whole([checks]), 5, 1, kind))
    assert [(item.cents, len(item.records)) for item in kept] == [(1, 1)]


def test_user_records_stay_with_their_item_and_other_credits_are_counted_apart() -> None:
    user = ("68" + "1" + "071098973" + "X".ljust(20) + "999" + "001" + "0000005" + "HELLO", b"")
    # 61: auxiliary 3-17, EPC 18, routing 19-27, on-us 28-47, amount 48-57, sequence 58-72
    credit = ("61" + " " * 16 + "071098973" + "45601122/".rjust(20) + "0000004510" + "9".rjust(15) + " " * 8, b"")
    records = whole([[Check(4510)]])
    records[3:3] = [credit]
    records[5:5] = [user]
    records[-1] = control("99", (1, 6), (len(records), 8), (1, 8), (4510, 16))
    content = file(records)
    assert messages(content) == []
    assert [(item.kind, item.cents, [r.type for r in item.records]) for item in found(content)] == [
        ("credit", 4510, ["61"]),
        ("check", 4510, ["25", "68"]),
    ]
    # with the indicator of X9.100-187 saying that credits are in, they must be
    records[0] = header("35")
    bundle, _ = records[6]
    records[6] = (bundle[:55] + "1" + bundle[56:], b"")
    assert [text.partition(": ")[2] for text in messages(file(records))] == [
        "Expected 1 item as declared for the bundle, read 2 items.",
        "Expected $45.10 as declared for the bundle, read $90.20.",
    ]


def test_one_item_keeps_at_most_so_many_records() -> None:
    view = ("50" + "0" + "071098973" + "20261125" + " " * 11 + "0" + "00").ljust(80)
    records = whole([[Check(4510)]])
    records[4:4] = [(view, b"")] * 300
    entries = told(file(records))
    kept = [entry for entry in entries if isinstance(entry, Item)]
    assert len(kept[0].records) == 160
    assert sum(isinstance(entry, Flaw) and entry.fault.kind == "letter-too-many" for entry in entries) == 141


@pytest.mark.parametrize("content", [b"", b"%PDF-1.7 ...", b"id,micr,on\n1,,\n", b"\0" * 200, b"PK\x03\x04" * 30])
def test_what_is_no_cash_letter_is_one_flaw(content: bytes) -> None:
    assert not is_letter(content)
    (said,) = messages(content)
    assert said.startswith("Byte 0: Expected a file header, record 01 in EBCDIC or ASCII, read ")


def test_nothing_shows_an_account() -> None:
    entries = [*read(io.BytesIO(file(SMALL, "prefixed")), images=True), *told(file(SMALL))]
    shown = " ".join(repr(entry) for entry in entries)
    assert not [digits for digits in ("45601122", "5601122", "456-789") if digits in shown]


def test_two_files_at_once_are_read_apart() -> None:
    one, other = (read(io.BytesIO(file(SMALL, encoding=encoding))) for encoding in ("cp037", "ascii"))
    pairs = zip(one, other, strict=True)
    assert all(isinstance(a, Record) and isinstance(b, Record) and a.text[:25] == b.text[:25] for a, b in pairs)


def test_lines_whose_blanks_at_the_end_were_trimmed_are_read_and_told() -> None:
    lines = [part if part.startswith(b"52") else part.rstrip(b" ") for part in raw(SMALL, "ascii")]
    content = b"\n".join(lines) + b"\n"
    entries = told(content)
    flaws = [entry for entry in entries if isinstance(entry, Flaw)]
    short = [n for n, part in enumerate(lines, 1) if not part.startswith(b"52") and len(part) < 80]
    assert [(flaw.fault.kind, flaw.number) for flaw in flaws] == [("letter-length", number) for number in short]
    assert flaws[0].message == (
        "Byte 0, record 1 (type 01): Expected 80 bytes as its type and fields have it, read 75 up to the end of the line."
    )
    assert [entry.cents for entry in entries if isinstance(entry, Item)] == [4510, 123456, 999, 1]
    records = [entry for entry in read(io.BytesIO(content)) if isinstance(entry, Record)]
    assert {len(record.text) for record in records if record.type != "52"} == {80}


def test_a_line_that_breaks_off_is_no_record() -> None:
    lines = raw(SMALL, "ascii")
    (said, *_) = messages(b"\n".join(lines[:10]) + b"\n" + lines[10][:60])
    assert said.endswith("record 11 (type 25): Expected a record of 80 bytes, read 60 before the end of the file.")
    assert [item.cents for item in found(b"\n".join(lines[:10]) + b"\n" + lines[10][:60])] == [4510]


def test_an_end_once_seen_is_the_end() -> None:
    class Terminal(io.BytesIO):
        ended = False

        def read(self, size: int | None = -1, /) -> bytes:
            assert not self.ended
            content = super().read(size)
            self.ended = not content
            return content

    assert len(list(items(read(Terminal(file(SMALL)))))) == 8


def test_a_length_least_byte_first_is_told() -> None:
    content = b"".join(len(part).to_bytes(4, "little") + part for part in raw(SMALL))
    (said,) = messages(content)
    assert said == (
        "Byte 0: Expected 80 bytes as its type and fields have it, read 1,342,177,280 in the length before it; "
        f"{len(content):,} bytes passed over."
    )
