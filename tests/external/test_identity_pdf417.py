"""A payload through a PDF417 symbol (ISO/IEC 15438) and back, by two independent encoders and zxing-cpp's decoder."""

from __future__ import annotations

import io
from datetime import date

import pytest

from checkface.identity import read_barcode, scan_image
from checkface.identity import scan as scan_module
from checkface.span import Fault

zxingcpp = pytest.importorskip("zxingcpp")
Image = pytest.importorskip("PIL.Image")
pdf417gen = pytest.importorskip("pdf417gen")

PAYLOAD = (
    "@\n\x1e\rANSI 636000100101DL00310203DLDAQT64235789\nDCSNÚÑEZ\nDDEN\nDACJOSÉ\nDDFN\nDADJOHN\nDDGN\n"
    "DBD06062019\nDBB06061986\nDBA12102024\nDAG2300 WEST BROAD STREET\nDAIRICHMOND\nDAJVA\nDAK232690000  \n"
    "DCF2424244747474786102204\nDCGUSA\nDDD0\r"
).encode("latin-1")


def as_file(image, form: str) -> bytes:
    file = io.BytesIO()
    image.convert("L").save(file, form)
    return file.getvalue()


def by_pdf417gen(payload: bytes):
    return pdf417gen.render_image(pdf417gen.encode(payload, columns=10, security_level=4), scale=3, ratio=3, padding=20)


def by_zxing(payload: bytes):
    code = zxingcpp.create_barcode(payload, zxingcpp.BarcodeFormat.PDF417)
    return Image.fromarray(code.to_image(scale=4))


@pytest.mark.parametrize("form", ["PNG", "JPEG"])
@pytest.mark.parametrize("encode", [by_pdf417gen, by_zxing])
def test_round_trip(encode, form):
    found = scan_image(as_file(encode(PAYLOAD), form))
    assert found == PAYLOAD
    card = read_barcode(found)
    assert (card.family, card.given, card.expires.on) == ("NÚÑEZ", "JOSÉ", date(2024, 12, 10))
    assert card.reveal_number() == "T64235789"


def test_a_turned_and_smaller_picture():
    image = by_pdf417gen(PAYLOAD).convert("L").rotate(180, expand=True, fillcolor=255)
    assert scan_image(as_file(image, "PNG")) == PAYLOAD


@pytest.mark.parametrize(
    ("picture", "kind"),
    [
        (b"", "id-image-unreadable"),
        (b"not a picture", "id-image-unreadable"),
        (b"\x89PNG\r\n\x1a\n" + b"\x00" * 50, "id-image-unreadable"),
        (b"GIF89a" + b"\x00" * 50, "id-image-unreadable"),
        (b"\x00" * (scan_module.LARGEST + 1), "id-image-too-large"),
    ],
)
def test_what_is_no_picture(picture, kind):
    found = scan_image(picture)
    assert isinstance(found, Fault)
    assert found.kind == kind


def test_a_blank_picture_holds_no_barcode():
    assert scan_image(as_file(Image.new("L", (300, 200), 255), "PNG")).kind == "id-barcode-not-found"


def test_two_barcodes_in_one_picture_are_not_chosen_between():
    one, other = by_pdf417gen(PAYLOAD), by_pdf417gen(PAYLOAD.replace(b"JOHN", b"PAUL"))
    both = Image.new("L", (one.width, one.height + other.height + 60), 255)
    both.paste(one, (0, 0))
    both.paste(other, (0, one.height + 60))
    assert scan_image(as_file(both, "PNG")).read == "2 of them"


def test_a_picture_of_too_many_pixels_is_not_decoded():
    assert scan_image(as_file(Image.new("1", (9_000, 9_000), 1), "PNG")).kind == "id-image-too-large"


def test_without_the_extra_the_answer_says_what_to_install(monkeypatch):
    import sys

    monkeypatch.setitem(sys.modules, "zxingcpp", None)
    found = scan_image(b"x")
    assert found.kind == "id-scan-not-installed"
    assert "checkface[scan]" in found.message
