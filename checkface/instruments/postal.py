"""The serial of a postal money order.

Mathematics textbooks give the eleventh digit as the sum of the first ten modulo nine; the Postal Service has
published no such rule, and of four published examples two fit. So it is never more than a note.

>>> postal_serial_ok("56152240784"), postal_serial_ok("74051489623"), postal_serial_ok("123")
(True, False, None)
"""

from __future__ import annotations


def postal_serial_ok(serial: str) -> bool | None:
    """Whether the textbooks' rule holds; None if *serial* is not eleven digits, blanks and dashes apart."""
    digits = serial.replace(" ", "").replace("-", "") if len(serial) <= 40 else ""
    if len(digits) != 11 or not (digits.isascii() and digits.isdigit()):
        return None
    return sum(map(int, digits[:10])) % 9 == int(digits[10])
