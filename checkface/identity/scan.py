"""A picture of a card's barcode to its payload. Needs the ``scan`` extra: zxing-cpp and Pillow.

>>> scan_image(b"not a picture").kind
'id-image-unreadable'
"""

from __future__ import annotations

import io

from checkface.span import Fault, Span

LARGEST = 20_000_000
"""Bytes of a picture file."""
MOST_PIXELS = 40_000_000
"""Pixels of a picture; a photograph of a card at 12 megapixels is far more than a reader needs."""


def scan_image(picture: bytes) -> bytes | Fault:
    """The payload of the one PDF417 barcode in a PNG or JPEG *picture*, as bytes for :func:`read_barcode`."""
    whole = Span(0, len(picture))
    if len(picture) > LARGEST:
        return Fault("id-image-too-large", whole, f"at most {LARGEST:,} bytes", f"{len(picture):,}")
    try:
        import zxingcpp
        from PIL import Image
    except ImportError:
        return Fault("id-scan-not-installed", whole, "the scan extra (pip install checkface[scan])", "none installed")
    try:
        with Image.open(io.BytesIO(picture), formats=("PNG", "JPEG")) as image:
            if image.width * image.height > MOST_PIXELS:
                read = f"{image.width} by {image.height}"
                return Fault("id-image-too-large", whole, f"at most {MOST_PIXELS:,} pixels", read)
            grey = image.convert("L")
    except Exception:  # a decoder's errors on hostile bytes are of many types, and all mean the same here
        return Fault("id-image-unreadable", whole, "a PNG or JPEG picture", f"{len(picture):,} bytes of something else")
    codes = zxingcpp.read_barcodes(grey, formats=zxingcpp.BarcodeFormats([zxingcpp.BarcodeFormat.PDF417]))
    payloads = {code.bytes for code in codes if code.valid}
    if len(payloads) != 1:
        read = f"{len(payloads)} of them" if payloads else "none"
        return Fault("id-barcode-not-found", whole, "one PDF417 barcode in the picture", read)
    return bytes(payloads.pop())
